"""Several layouts on several pages: an overview first, all at one scale, and files that say which is which."""

from __future__ import annotations

import hashlib
import os
import re
import subprocess
import sys
from functools import lru_cache
from pathlib import Path

import pytest
from page_laws import check_on_sheet, check_texts
from sample_layouts import METRIC, pose_on, project_of, room_of, straight

from fitter.domain.layout import Layout, Verdict
from fitter.domain.outcome import LayoutResult
from fitter.domain.project import Project
from fitter.drawing import Page, plan_pages
from fitter.drawing.album import overview_pages
from fitter.drawing.page import Area, Role
from fitter.workflow.picturing import write_plans


def _project() -> Project:
    room = room_of(METRIC.unit, [("0", "0"), ("4200", "0"), ("4200", "2400"), ("0", "2400")])
    return project_of(METRIC, room, "Back Yard")


def _layout(project: Project, count: int, x: str = "200") -> Layout:
    return straight(METRIC, pose_on(project.room.edge("AB")), count, METRIC.of(x), METRIC.of("95"))


def results(number: int) -> tuple[Project, tuple[LayoutResult, ...]]:
    """Invented runs of one to five seats, the longest first."""
    project = _project()
    shown = [_layout(project, 5 - n % 5, "200" if n < 5 else "700") for n in range(number)]
    return project, tuple(LayoutResult(n, Verdict.PROVEN, layout) for n, layout in enumerate(shown, start=1))


PROJECT, THREE = results(3)


@lru_cache(maxsize=1)
def pages() -> tuple[Page, ...]:
    """The pages of three layouts."""
    return plan_pages(PROJECT, THREE, verdicts=["proven best", "proven", "proven"])


def words(page: Page) -> str:
    """All that is written on a page."""
    return " ".join(text.text for text in page.texts)


def test_one_layout_has_one_page_and_no_overview() -> None:
    (page,) = plan_pages(PROJECT, THREE[:1], verdicts=["proven best"])
    assert "1 of" not in words(page)


def test_overview_comes_first_and_shows_each_layout_at_one_scale() -> None:
    overview = pages()[0]
    assert len(pages()) == 4
    assert "3 layouts side by side" in words(overview)
    for rank, (shown, said) in enumerate(
        zip(THREE, ("", "run of 4 instead of 5", "run of 3 instead of 5"), strict=True), 1
    ):
        assert f"{rank}   {shown.layout.seats} seats" in words(overview)
        assert said in words(overview)
    cushions = [item for item in overview.having(Role.CUSHION) if isinstance(item, Area) and item.grey is not None]
    assert len(cushions) == sum(len(shown.layout.modules) for shown in THREE)
    areas = {round(abs(_area(item)), 4) for item in cushions}
    assert len(areas) == 1


def test_overview_draws_posts_and_its_key_names_what_it_shows() -> None:
    """Layouts may differ in their posts alone; walls and railings occur, rails and leg room are not drawn."""
    overview = pages()[0]
    assert len(overview.having(Role.POST)) == sum(len(shown.layout.posts) for shown in THREE) > 0
    panel = [text.text for text in overview.texts if text.role is Role.PANEL]
    assert {"Key", "post", "wall", "railing"} <= set(panel)
    assert not {"rail below", "leg room kept free", "corner post that ends"} & set(panel)


def _area(item: Area) -> float:
    ring = item.ring
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, (*ring[1:], ring[0]), strict=True)) / 2


def test_each_page_says_which_one_it_is_and_what_differs() -> None:
    assert [f"{n} of 3" in words(page) for n, page in enumerate(pages()[1:], start=1)] == [True] * 3
    assert "run of 3 instead of 5" in words(pages()[3])
    assert len({page.sheet.split()[0] for page in pages()}) == 1


@pytest.mark.parametrize("number", range(4))
def test_pages_keep_the_laws_of_a_page(number: int) -> None:
    check_texts(pages()[number])
    check_on_sheet(pages()[number])


def test_more_layouts_than_one_sheet_shows_go_to_a_second_overview() -> None:
    project, shown = results(40)
    overviews = overview_pages(project, shown, shown, "A4")
    assert len(overviews) > 1
    heads = [text.text for page in overviews for text in page.texts if text.text.endswith((" seats", " seat"))]
    assert [int(head.split()[0]) for head in heads] == list(range(1, 41))
    assert "layouts 1 to" in words(overviews[0])
    for page in overviews:
        check_texts(page)
        check_on_sheet(page)


def test_overview_of_a_room_that_no_scale_shows_is_refused() -> None:
    _, shown = results(2)
    field = room_of(METRIC.unit, [("0", "0"), ("900000", "0"), ("900000", "2400"), ("0", "2400")])
    with pytest.raises(ValueError, match="name a larger sheet"):
        overview_pages(project_of(METRIC, field), shown, shown, "A4")


def test_files_are_named_after_their_rank(tmp_path: Path) -> None:
    written = write_plans(PROJECT, THREE, tmp_path / "plans")
    names = [path.name for path in written]
    assert names[:3] == ["sample-patio-plan.pdf", "sample-patio-overview.svg", "sample-patio-overview.png"]
    assert names[3:] == [f"sample-patio-plan-{n}.{kind}" for n in (1, 2, 3) for kind in ("svg", "png")]
    assert len(re.findall(rb"/Type /Page\b", written[0].read_bytes())) == 4
    assert sorted(path.name for path in (tmp_path / "plans").iterdir()) == sorted(names)


def test_one_layout_keeps_the_plain_name(tmp_path: Path) -> None:
    written = write_plans(PROJECT, THREE[:1], tmp_path)
    assert [path.name for path in written] == [f"sample-patio-plan.{kind}" for kind in ("pdf", "svg", "png")]


SCRIPT = f"""
import sys
sys.path[:0] = {[str(Path(__file__).parent), str(Path(__file__).parents[1])]!r}
from pathlib import Path
from test_album import THREE, PROJECT
from fitter.workflow.picturing import write_plans
write_plans(PROJECT, THREE[:2], Path(sys.argv[1]))
"""


def test_bytes_are_equal_in_two_processes(tmp_path: Path) -> None:
    """Whatever the hash seed, and though the PDF has several pages."""
    digests = []
    for seed in ("1", "4711"):
        folder = tmp_path / seed
        environment = {**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": os.pathsep.join(sys.path)}
        subprocess.run([sys.executable, "-c", SCRIPT, str(folder)], check=True, env=environment)
        files = sorted(folder.iterdir())
        digests.append([(path.name, hashlib.sha256(path.read_bytes()).hexdigest()) for path in files])
    assert len(digests[0]) == 7
    assert digests[0] == digests[1]
