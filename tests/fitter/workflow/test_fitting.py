"""What an answer of the solver is worth once it has been checked."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from fitter.domain.layout import Answer, Layout, Verdict
from fitter.domain.project import Project
from fitter.project import read_project
from fitter.workflow.fitting import fit, judged
from fitter.workflow.solving import Solved

EXAMPLES = Path(__file__).parents[3] / "examples"


@pytest.fixture(scope="module")
def project() -> Project:
    return read_project(str(EXAMPLES / "garden-wall.yaml"))


@pytest.fixture(scope="module")
def layout(project: Project) -> Layout:
    found = fit(project).layout
    assert found is not None
    return found


def test_routes_are_filled_in_only_after_the_check(project: Project, layout: Layout) -> None:
    (route,) = layout.routes
    assert route.name == "gate to lawn"
    assert route.clear is not None
    assert route.clear >= route.asked


def test_layout_that_the_checker_refuses_is_a_fault(project: Project, layout: Layout) -> None:
    shorter = replace(layout.rails[0], length=layout.rails[0].length - project.mark)
    tampered = replace(layout, rails=(shorter, *layout.rails[1:]))
    result = judged(project, Solved((Answer(Verdict.PROVEN, tampered, ()),)))
    assert result.verdict is Verdict.FAULT
    assert result.checked


def test_clash_comes_in_file_order_and_names_what_blocks_a_route(tmp_path: Path) -> None:
    text = (
        (EXAMPLES / "garden-wall.yaml")
        .read_text(encoding="utf-8")
        .replace('to: lawn, width: 34"', "to: lawn, width: 7'")
    )
    (tmp_path / "wide.yaml").write_text(text, encoding="utf-8")
    project = read_project(str(tmp_path / "wide.yaml"))
    answer = Answer(Verdict.IMPOSSIBLE, None, (), ("least", "route:gate to lawn", "edge:AB"))
    result = judged(project, Solved((answer,)))
    assert [fact.id for fact in result.clash] == ["edge:AB", "route:gate to lawn", "least"]
    (blocked,) = result.blocked
    assert blocked.clear < blocked.asked


def test_time_too_short_for_any_layout_is_unknown(project: Project) -> None:
    result = fit(project, 1e-9)
    assert (result.verdict, result.layout) == (Verdict.UNKNOWN, None)


def test_progress_is_told_with_bounds_that_close(project: Project) -> None:
    steps: list[tuple[str, int, int | None]] = []
    fit(project, None, lambda objective, value, bound, seconds: steps.append((objective, value, bound)))
    assert {name for name, value, bound in steps if value == bound} == set(project.wish.prefer)
