"""Drawings of the frame: the laws of every page, and that they show what the woodwork is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from functools import cache
from itertools import combinations, pairwise
from math import dist

import pytest
from page_laws import check_on_sheet, check_scale, check_texts
from sample_layouts import METRIC, pose_on, samples, straight
from shapely.geometry import LineString, Polygon

from fitter.domain.frame import Carpentry, EndPanel, RailJoint, Stance
from fitter.domain.layout import Layout
from fitter.domain.project import Project
from fitter.domain.woodwork import Part, PartRole, Woodwork
from fitter.drawing import Page, frame_pages
from fitter.drawing.draft import Draft
from fitter.drawing.frame.above import FromAbove
from fitter.drawing.frame.chaining import begun
from fitter.drawing.frame.facing import UP, extent, facing, members, span
from fitter.drawing.frame.flags import Level, draw_levels
from fitter.drawing.frame.strokes import merged
from fitter.drawing.frame.telling import field
from fitter.drawing.page import Area, Dimension, Line, Pen, Role, Text
from fitter.drawing.view import View
from fitter.frame import build_frame
from rooms.lengths import UNITS_PER_MM, Length, Unit, format_length, parse_length
from rooms.room import Slope

SAMPLES = samples()
_LEANING = Carpentry(lean=Fraction(10), upright_at_end=Stance.EDGE, upright_at_corner=Stance.EDGE)
CASES: dict[str, tuple[str, Carpentry, bool]] = {
    "l": ("rectangle-l-inches", Carpentry(), False),
    "u": ("u-arm-along-the-wall-metric", Carpentry(rail_joint=RailJoint.LEDGER), False),
    "table": ("table-corner-clockwise", Carpentry(rail_joint=RailJoint.HOUSING), False),
    "slope": ("skew-straight-metric", Carpentry(end_panel=EndPanel.POSTS), True),
    "lean": ("free-standing-inches", _LEANING, False),
}


@cache
def case(name: str) -> tuple[Project, Layout, Woodwork, list[Page]]:
    """A sample with its frame and its pages."""
    sample, carpentry, slopes = CASES[name]
    project, layout = SAMPLES[sample]
    project = replace(project, frame=replace(project.frame, carpentry=carpentry))
    if slopes:
        project = replace(project, room=replace(project.room, slope=Slope(Fraction(1, 40), project.room.edges[1].name)))
    woodwork = build_frame(project, layout)
    return project, layout, woodwork, frame_pages(project, layout, woodwork, verdict="proven")


def parts_of(woodwork: Woodwork, layout: Layout, n: int) -> list[Part]:
    """The parts that are drawn with a run."""
    return [woodwork.parts[i] for i in members(woodwork, layout.runs[n].side)]


def said(page: Page) -> str:
    """All that a page says."""
    return " ".join(text.text for text in page.texts)


def pages_of(name: str, words: str) -> list[Page]:
    """The pages whose title block says some words."""
    return [page for page in case(name)[3] if words in said(page)]


@pytest.mark.parametrize("name", CASES)
def test_pages_keep_the_laws(name: str) -> None:
    """No text hides another, all is on the sheet, every dimension is true to scale."""
    for page in case(name)[3]:
        check_texts(page)
        check_on_sheet(page)
        check_scale(page)


@pytest.mark.parametrize("name", CASES)
def test_every_dimension_says_its_length(name: str) -> None:
    project, _, _, pages = case(name)
    for page in pages:
        for dimension in page.dimensions:
            assert dimension.text.text == format_length(dimension.length, project.unit, feet=False).removesuffix(" mm")


@pytest.mark.parametrize("name", CASES)
def test_every_run_is_drawn_from_front_back_and_above_with_its_length(name: str) -> None:
    _, layout, woodwork, pages = case(name)
    for n, run in enumerate(layout.runs):
        low, high = extent(parts_of(woodwork, layout, n), facing(run).from_front.right)
        titles = ("from the front", "from the back", "from above")
        drawn = [page for page in pages if any(d.length == high - low for d in page.dimensions)]
        assert drawn, run.side
        for title in titles:
            assert any(title in text.text for page in pages for text in page.texts)


@pytest.mark.parametrize("name", CASES)
def test_posts_and_bays_add_up(name: str) -> None:
    """Each chain of an elevation runs from end to end, so that its parts add up to the whole."""
    _, layout, _, _ = case(name)
    for page in pages_of(name, "Frame: ")[: len(layout.runs)]:
        rows: dict[float, list[tuple[float, int]]] = {}
        for dimension in page.dimensions:
            (x0, y0), (x1, y1) = dimension.ends
            if abs(y0 - y1) < 1e-6:
                rows.setdefault(round(y0, 3), []).append((min(x0, x1), dimension.length.units))
        for row in rows.values():
            places = sorted(row)
            # Neighbours of a chain share their ticks.
            for (x, units), (following, _) in pairwise(places):
                end = x + units / UNITS_PER_MM / page.denominator
                assert following >= end - 0.02


@pytest.mark.parametrize("name", CASES)
def test_each_mark_is_named_once_where_the_parts_are_moved_apart(name: str) -> None:
    """With the number of parts that share it, and a row in the key."""
    _, layout, woodwork, _ = case(name)
    pages = pages_of(name, "moved apart")
    assert len(pages) == len(layout.runs)
    for n, page in enumerate(pages):
        names = [text.text for text in page.texts if text.role is Role.MARK]
        rows = [text.text for text in page.texts if text.role is Role.PANEL]
        parts = parts_of(woodwork, layout, n)
        for mark in dict.fromkeys(part.mark for part in parts):
            assert rows.count(mark) == 1
            found = [text for text in names if text.split(" × ")[-1] == mark]
            assert len(found) == 1, mark
            count = sum(part.mark == mark for part in parts)
            told = int(found[0].split(" × ")[0]) if " × " in found[0] else 1
            assert 1 <= told <= count


def flags(page: Page) -> Iterator[tuple[Line, Text]]:
    """Heights with their lines, in the order in which they were drawn."""
    items = list(page.items)
    for line, text in pairwise(items):
        if isinstance(line, Line) and line.role is Role.LEVEL and isinstance(text, Text):
            yield line, text


@pytest.mark.parametrize("name", CASES)
def test_heights_are_where_they_say(name: str) -> None:
    """Each flag stands as far above the floor's flag as its text says."""
    project, _, woodwork, pages = case(name)
    found = 0
    for page in pages:
        floor: float | None = None
        for line, text in flags(page):
            words, name_ = text.text.split("  ")
            height = parse_length(words, project.unit)
            if "floor" in name_:
                floor = line.spots[0][1]
            assert floor is not None
            drawn = (line.spots[0][1] - floor) * page.denominator
            # Written to the mark; rails in inches do not lie on a metric one.
            assert drawn == pytest.approx(float(height.mm), abs=float(project.mark.mm) / 2)
            if "deck" in name_:
                assert height == woodwork.levels.deck
                found += 1
    assert found >= 3


@pytest.mark.parametrize("name", CASES)
def test_sections_cut_rails_to_their_sections(name: str) -> None:
    """Front and back rail of each different run, thick and high as they are; hatched."""
    _, _, woodwork, _ = case(name)
    page = pages_of(name, "Frame: sections")[0]
    cut = [Polygon(item.ring) for item in page.having(Role.CUT) if isinstance(item, Area)]
    scale = UNITS_PER_MM * page.denominator
    rail = next(part for part in woodwork.parts if part.role is PartRole.FRONT_RAIL)
    sizes = [rail.thickness.units / scale, rail.width.units / scale]
    alike = []
    for shape in cut:
        x0, y0, x1, y1 = shape.bounds
        alike.append([x1 - x0, y1 - y0] == pytest.approx(sizes, abs=0.01))
    assert sum(alike) >= 2
    hatched = [item for item in page.having(Role.HATCH) if isinstance(item, Line)]
    assert len(hatched) >= 2 * len(cut)
    outlines = [item for item in page.having(Role.CUT) if isinstance(item, Area)]
    assert all(item.pen is Pen.WIDE for item in outlines)


def test_a_lean_is_told_and_cushions_are_drawn_light() -> None:
    page = pages_of("lean", "Frame: sections")[0]
    assert "lean 10°" in said(page)
    assert all(item.pen is Pen.FINE for item in page.having(Role.CUSHION) if isinstance(item, Area))
    assert page.having(Role.CUSHION)


def test_feet_are_told_with_their_heights_where_the_floor_slopes() -> None:
    project, layout, woodwork, pages = case("slope")
    assert woodwork.fall
    feet = [part for part in parts_of(woodwork, layout, 0) if part.role is PartRole.FOOT]
    heights = {format_length(high - low, project.unit, feet=False) for low, high in (span(f, UP) for f in feet)}
    words = said(pages[0])
    told = {height for height in heights if f"{height.removesuffix(' mm')} high" in words}
    assert len(heights) > 2
    assert len(told) >= len(heights) // 2
    floors = [item for item in pages[0].having(Role.FLOOR) if isinstance(item, Line)]
    assert any(len({round(y, 3) for _, y in floor.spots}) > 2 for floor in floors)


def test_same_frame_same_pages() -> None:
    project, layout, woodwork, pages = case("slope")
    assert frame_pages(project, layout, woodwork, verdict="proven") == pages


def test_a_sheet_can_be_forced_and_an_unknown_one_is_refused() -> None:
    project, layout, woodwork, _ = case("slope")
    assert all(page.sheet.startswith("A3") for page in frame_pages(project, layout, woodwork, sheet="A3"))
    with pytest.raises(ValueError, match="`B7` is not a sheet"):
        frame_pages(project, layout, woodwork, sheet="B7")


def test_strokes_on_each_other_are_drawn_once() -> None:
    """Two that overlap, one that turns round, one that lies beside them; then what is left beside another."""
    strokes = [((0.0, 0.0), (4.0, 0.0)), ((6.0, 0.0), (3.0, 0.0)), ((0.0, 1.0), (2.0, 1.0))]
    assert merged(strokes) == (((0.0, 0.0), (6.0, 0.0)), ((0.0, 1.0), (2.0, 1.0)))
    assert merged(strokes[:1], [((1.0, 0.0), (2.0, 0.0))]) == (((0.0, 0.0), (1.0, 0.0)), ((2.0, 0.0), (4.0, 0.0)))
    slanting = [((0.0, 0.0), (3.0, 4.0)), ((1.5, 2.0), (6.0, 8.0))]
    ((a, b),) = merged(slanting)
    assert dist(a, b) == pytest.approx(10)


def test_flags_of_near_heights_keep_apart() -> None:
    """Five heights within a finger's breadth; two of them the same."""
    draft = Draft()
    marks = [Level(str(n), Length.millimetres(mm)) for n, mm in enumerate((0, 10, 20, 20, 30, 900))]
    draw_levels(draft, marks, 0.0, View(20, Unit.MM))
    texts = [item for item in draft.items if isinstance(item, Text)]
    assert [text.text for text in texts] == ["0  0", "10  1", "20  2, 3", "30  4", "900  5"]
    for lower, upper in pairwise(texts):
        assert not Polygon(lower.box).intersects(Polygon(upper.box))


def test_a_row_of_slats_begins_with_gap_slat_gap() -> None:
    mm = Length.millimetres
    slats = [(mm(10), mm(50)), (mm(61), mm(101)), (mm(111), mm(151))]
    assert begun(slats, mm(0), mm(160)) == (mm(0), mm(10), mm(50), mm(61), mm(160))


@pytest.mark.parametrize("turned", [False, True])
def test_the_space_of_slats_is_found_from_either_end(turned: bool) -> None:
    """Gaps that differ by a mark tell from which end they are counted."""
    _, layout, woodwork, _ = case("l")
    side = layout.runs[0].side
    spread = next(s for s in woodwork.spreads if s.run is side and s.role is PartRole.SEAT_SLAT)
    place, slats = spread.gaps[0], []
    for gap in spread.gaps[1:]:
        slats.append((place, place + spread.slat))
        place += spread.slat + gap
    if turned:
        slats = [(spread.space - high, spread.space - low) for low, high in reversed(slats)]
    assert field(slats, [spread]) == (Length(0), spread.space)
    assert field(slats[1:], [spread]) is None


@pytest.mark.parametrize("name", CASES)
def test_names_stay_off_chains(name: str) -> None:
    """No mark lies on a dimension line, where it could be read as a length."""
    for page in case(name)[3]:
        lines = [LineString(dimension.ends) for dimension in page.dimensions]
        for text in page.texts:
            if text.role is Role.MARK:
                box = Polygon(text.box)
                assert not any(line.intersects(box) for line in lines), text.text


def test_the_key_names_the_floor_where_it_is_drawn() -> None:
    """On small sheets a run is drawn from above on a page of its own, where there is no line of the floor."""
    project = SAMPLES["long-run-metric"][0]
    pose = pose_on(project.room.edge("AB"))
    layout = straight(METRIC, pose, 2, Length.millimetres(200), Length.millimetres(95))
    floors = []
    for page in frame_pages(project, layout, build_frame(project, layout), "A4"):
        words = [text.text for text in page.texts]
        if "seen from this side" in words:
            assert ("floor" in words) == bool(page.having(Role.FLOOR))
            floors.append("floor" in words)
    assert floors == [True, False]


@pytest.mark.parametrize("name", CASES)
def test_no_two_names_end_in_one_dot(name: str) -> None:
    """A rail and the cleat behind it each have a dot of their own."""
    for page in case(name)[3]:
        dots = [Polygon(item.ring).centroid for item in page.having(Role.LEADER) if isinstance(item, Area)]
        assert all(one.distance(other) > 1.5 for one, other in combinations(dots, 2))


@pytest.mark.parametrize("name", ["l", "table"])
def test_slats_that_a_table_covers_are_not_dimensioned(name: str) -> None:
    """The single slat that is dimensioned from above is one that is seen."""
    project, layout, woodwork, _ = case(name)
    for run in layout.runs:
        above = FromAbove(project, layout, woodwork, facing(run))
        view = View(24, project.unit)
        right = above.gaze.right
        slats = [part for part in above.parts if part.role is PartRole.SEAT_SLAT]
        boards = [span(part, right) for part in above.parts if part.role is PartRole.TABLE_BOARD]
        widths = {high - low for low, high in (span(part, right) for part in slats)}
        dimensions = [item for item in above.drawn(24).items if isinstance(item, Dimension)]
        single = [d for d in dimensions if d.length in widths]
        assert single
        for d in single:
            middle = sum(x for x, _ in d.feet) / 2
            assert not any(view.of(low) < middle < view.of(high) for low, high in boards)
