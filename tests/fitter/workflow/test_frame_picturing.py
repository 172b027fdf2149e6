"""Drawings of a frame go under the name of the project file, one sheet or several."""

from __future__ import annotations

from pathlib import Path

import pytest

from fitter.domain.layout import Layout
from fitter.domain.project import Project
from fitter.domain.woodwork import Woodwork
from fitter.drawing import Page
from fitter.frame import build_frame
from fitter.project import read_project
from fitter.workflow import frame_picturing
from fitter.workflow.fitting import fit
from fitter.workflow.frame_picturing import write_frame

EXAMPLES = Path(__file__).parents[3] / "examples"


@pytest.fixture(scope="module")
def project() -> Project:
    return read_project(str(EXAMPLES / "garden-wall.yaml"))


@pytest.fixture(scope="module")
def layout(project: Project) -> Layout:
    found = fit(project).layout
    assert found is not None
    return found


@pytest.mark.parametrize("count", [1, 2])
def test_each_sheet_is_a_picture_and_all_are_one_document(
    project: Project, layout: Layout, count: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[tuple[Woodwork, str | None, str]] = []

    def pages(
        project: Project, layout: Layout, woodwork: Woodwork, sheet: str | None = None, verdict: str = ""
    ) -> list[Page]:
        asked.append((woodwork, sheet, verdict))
        return [Page("Frame", "A4", 297, 210, 10, "1:10", (0, 0), ())] * count

    monkeypatch.setattr(frame_picturing, "frame_pages", pages)
    woodwork = build_frame(project, layout)
    written = write_frame(project, layout, woodwork, tmp_path / "new", sheet="A4", verdict="proven best")
    numbers = [""] if count == 1 else ["-1", "-2"]
    pictures = [f"garden-wall-frame{number}.{kind}" for kind in ("svg", "png") for number in numbers]
    assert [path.name for path in written] == ["garden-wall-frame.pdf", *pictures]
    assert all(path.stat().st_size for path in written)
    assert asked == [(woodwork, "A4", "proven best")]
