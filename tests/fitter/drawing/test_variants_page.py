"""The page of variants: the laws of every page, all furniture at one scale, every row of the table once."""

from __future__ import annotations

from dataclasses import replace

import pytest
from page_laws import check_on_sheet, check_texts
from reader_plans import bench, varied
from sample_layouts import samples

from fitter.domain.designs import design_of
from fitter.domain.layout import Layout, PostRole
from fitter.domain.project import Project
from fitter.drawing import Page
from fitter.drawing.page import Area, Dash, Role, spots_of
from fitter.drawing.variants_page import Sheetful, variants_pages
from fitter.workflow.variants_picturing import sheetful

SAMPLES = samples()


def shown(project: Project) -> Sheetful:
    found = varied(project)
    assert found.base is not None
    return sheetful(project, found, design_of(found.base.layout))


def cushions(pages: tuple[Page, ...]) -> list[tuple[float, float]]:
    """Widths and depths of all cushions drawn with their outlines, in mm of furniture."""
    sizes = []
    for page in pages:
        for item in page.having(Role.CUSHION):
            if isinstance(item, Area) and item.grey == 1.0:
                xs, ys = zip(*spots_of(item), strict=True)
                sizes.append(((max(xs) - min(xs)) * page.denominator, (max(ys) - min(ys)) * page.denominator))
    return sizes


@pytest.mark.parametrize("sheet", [None, "A4"])
def test_pages_keep_their_laws_and_tell_each_row_once(sheet: str | None) -> None:
    project = bench(2)
    told = shown(project)
    pages = variants_pages(project, told, sheet)
    for page in pages:
        check_texts(page)
        check_on_sheet(page)
        assert sheet is None or page.sheet.startswith(sheet)
    written = [text.text for page in pages for text in page.texts]
    for row in told.table.rows:
        assert written.count(row[1]) == 1
    for cell in told.cells:
        assert sum(text.startswith(cell.head[:3].strip()) for text in written) >= 1


def test_furniture_is_true_to_scale_and_every_cushion_is_drawn() -> None:
    project = bench(2)
    found = cushions(variants_pages(project, shown(project)))
    singles = [size for size in found if size[0] < 900]
    assert len(singles) == 2 + 1 + 3 + 4
    for wide, deep in singles:
        # 24 1/4 in of pitch and of deck depth.
        assert (wide, deep) == (pytest.approx(24.25 * 25.4), pytest.approx(24.25 * 25.4))
    assert len(found) - len(singles) == 1


def test_posts_that_end_under_the_seats_are_hatched_and_the_key_says_so() -> None:
    """Only a variant whose corner has a low post shows one; black posts are named in any case."""
    project, told = bench(2), shown(bench(2))
    page = variants_pages(project, told)[0]
    assert "post" in [text.text for text in page.texts]
    assert "corner post that ends" not in " ".join(text.text for text in page.texts)
    low = replace(told, cells=(replace(told.cells[0], layout=SAMPLES["angle-u-inches"][1]),))
    page = variants_pages(SAMPLES["angle-u-inches"][0], low)[0]
    check_texts(page)
    layout = low.cells[0].layout
    posts = [item for item in page.having(Role.POST) if isinstance(item, Area)]
    corners = sum(post.role is PostRole.CORNER for post in layout.posts)
    assert len(posts) == len(layout.posts)
    assert [post.dash for post in posts].count(Dash.SHORT) == corners > 0
    assert len(page.having(Role.BOARD)) == 2 * len(layout.corners)
    said = " ".join(text.text for text in page.texts)
    assert "corner post that ends" in said
    assert "boards that hold the backs" in said


def test_one_scale_holds_for_all_and_every_layout_lies_level() -> None:
    project = bench(2)
    told = shown(project)
    turned = replace(told.cells[0], layout=_turned(told))
    level, other = (
        variants_pages(project, replace(told, cells=(cell, *told.cells[1:]))) for cell in (told.cells[0], turned)
    )
    assert [page.items for page in level] == [page.items for page in other]
    assert len({page.denominator for page in level}) == 1


def _turned(told: Sheetful) -> Layout:
    """The published layout as it would stand along a wall that runs up the paper."""
    layout = told.cells[0].layout
    return replace(layout, pose=replace(layout.pose, cos=layout.pose.sin, sin=layout.pose.cos))


def test_a_table_that_leaves_no_room_for_pictures_gets_pages_of_its_own() -> None:
    project = bench(2)
    told = shown(project)
    long = replace(told, table=replace(told.table, rows=told.table.rows * 16))
    pages = variants_pages(project, long)
    assert len(pages) > 2
    written = [text.text for page in pages for text in page.texts]
    assert written.count(told.table.rows[0][1]) == 16
    assert [bool(page.having(Role.CUSHION)) for page in pages] == [True, *(False for _ in pages[1:])]
    for page in pages:
        check_on_sheet(page)
        check_texts(page)


def test_pictures_that_fit_on_no_sheet_are_refused() -> None:
    project = bench(2)
    told = shown(project)
    wide = replace(told, cells=(replace(told.cells[0], layout=_far(told)),))
    with pytest.raises(ValueError, match="too large for the sheet"):
        variants_pages(project, wide)


def _far(told: Sheetful) -> Layout:
    """A layout with a back that is longer than any sheet shows."""
    layout = told.cells[0].layout
    run = layout.runs[0]
    far = replace(run.back, x1=run.back.x1 * 2000)
    return replace(layout, runs=(replace(run, back=far),))
