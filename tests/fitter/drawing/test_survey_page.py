"""The drawing of a survey: true to scale, nothing hides another, every reading on it."""

from __future__ import annotations

import xml.etree.ElementTree as ElementTree
from dataclasses import replace
from itertools import combinations
from math import atan2, degrees, dist
from pathlib import Path

import pytest
from shapely.geometry import LineString, Point, Polygon

from fitter.drawing import Page, survey_pages, write_pages
from fitter.drawing.page import Arc, Area, Line, Role, Spot, spots_of
from fitter.drawing.sheets import MARGIN
from fitter.drawing.survey_signs import enlarged, fine, length_label
from fitter.drawing.view import View
from fitter.project import RoomReading, read_room
from rooms.lengths import UNITS_PER_MM, Length, Unit
from rooms.survey import ReadingKind, Readings, Survey, Turn, adjust

ROOMS = {
    "turns and ties": """
title: Yard with a nook
note: Invented demo data
units: in
room:
  sides: {AB: 17' 4", BC: 9' 2 1/8", CD: 3' 6", DE: 4' 1 7/8", EF: 13' 10 1/8", FA: 13' 4"}
  turns: {A: left, B: left, C: left, D: right, E: left, F: left}
  ties: {AC: 19' 7 3/8", BF: 21' 10 1/2"}
""",
    "ties, walked clockwise": """
title: Terrace
units: mm
room:
  tolerance: 5
  sides: {AD: 3620, DC: 4402, CB: 3742, BA: 5310}
  turns: {D: right}
  ties: {AC: 5697, DB: 6429}
""",
    "nothing to spare": """
title: Landing
units: cm
room:
  sides: {AB: 300, BC: 210, CD: 296, DA: 212}
  ties: {AC: 366}
""",
    "a slip that shows": """
title: Court
units: ft
room:
  sides: {AB: 16' 4", BC: 11' 2", CD: 16' 4", DA: 11' 2"}
  ties: {AC: 19' 9 7/16", BD: 19' 10"}
""",
}


def reading_of(text: str, folder: Path) -> RoomReading:
    """A project text as `read_room` gives it."""
    file = folder / "yard.yaml"
    file.write_text(text, encoding="utf-8")
    return read_room(str(file))


def survey_of(reading: RoomReading) -> Survey:
    """The survey of a taped room."""
    assert reading.survey is not None
    return reading.survey


@pytest.fixture(params=[*ROOMS], scope="module")
def drawn(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> tuple[RoomReading, Page]:
    """A room and the one page of its survey."""
    reading = reading_of(ROOMS[request.param], tmp_path_factory.mktemp("survey"))
    (page,) = survey_pages(reading)
    return reading, page


def on_page(page: Page, reading: RoomReading, name: str) -> Spot:
    """Where a corner lies on the page, worked out from the scale."""
    point = survey_of(reading).point(name)
    size = UNITS_PER_MM * page.denominator
    return page.origin[0] + point.x.units / size, page.origin[1] + point.y.units / size


def test_no_text_overlaps_another_and_all_is_on_the_sheet(drawn: tuple[RoomReading, Page]) -> None:
    """The rules that a reader notices first."""
    _, page = drawn
    boxes = [(text.text, Polygon(text.box)) for text in page.texts]
    for (one, a), (other, b) in combinations(boxes, 2):
        assert not a.buffer(-0.01).intersects(b), f"`{one}` and `{other}` overlap"
    for item in page.items:
        for x, y in spots_of(item):
            assert MARGIN - 1e-6 <= x <= page.width - MARGIN + 1e-6, item
            assert MARGIN - 1e-6 <= y <= page.height - MARGIN + 1e-6, item


def test_sides_and_ties_are_drawn_to_scale(drawn: tuple[RoomReading, Page]) -> None:
    """A line from corner to corner for each, and for nothing else."""
    reading, page = drawn
    names = [name for name, _ in survey_of(reading).points]
    sides = [(a, names[(k + 1) % len(names)]) for k, a in enumerate(names)]
    ties = [(r.name[0], r.name[1]) for r in survey_of(reading).residuals if r.kind is ReadingKind.TIE]
    for role, pairs in ((Role.EDGE, sides), (Role.TIE, ties)):
        lines = [item for item in page.having(role) if isinstance(item, Line)]
        assert len(lines) == len(pairs)
        for a, b in pairs:
            ends = on_page(page, reading, a), on_page(page, reading, b)
            apart = [min(_gap(line.spots, ends), _gap(line.spots[::-1], ends)) for line in lines]
            assert min(apart) < 1e-6


def _gap(one: tuple[Spot, ...], other: tuple[Spot, ...]) -> float:
    return max(dist(a, b) for a, b in zip(one, other, strict=True))


def test_each_length_stands_by_its_line_with_its_residual(drawn: tuple[RoomReading, Page]) -> None:
    """Beside it, along it, or at the end of a leader from it."""
    reading, page = drawn
    view = View(1, reading.unit)
    for residual in survey_of(reading).residuals:
        if residual.kind is not ReadingKind.TURN:
            label = length_label(residual, view)
            line = LineString([on_page(page, reading, name) for name in residual.name])
            near = [Polygon(text.box).distance(line) for text in page.texts if text.text == label]
            starts = [Point(spots_of(item)[0]) for item in page.having(Role.LEADER)]
            assert near
            assert min(near) < 6 or min(line.distance(start) for start in starts) < 1


def test_a_label_tells_reading_and_residual_with_its_sign(tmp_path: Path) -> None:
    """Fractions of an inch, or tenths of a millimetre."""
    court = reading_of(ROOMS["a slip that shows"], tmp_path)
    labels = {r.name: length_label(r, View(1, court.unit)) for r in survey_of(court).residuals}
    assert labels["BD"] == '19\' 10" (−9/64")'
    assert labels["AB"] == '16\' 4" (+1/8")'
    terrace = reading_of(ROOMS["ties, walked clockwise"], tmp_path)
    (tie,) = (r for r in survey_of(terrace).residuals if r.name == "AC")
    assert length_label(tie, View(1, terrace.unit)).startswith("5697 (+1.")


def test_ellipses_are_enlarged_by_the_factor_that_the_key_states(drawn: tuple[RoomReading, Page]) -> None:
    """Each one's greatest width is twice its half axis, so many times as large as to scale."""
    reading, page = drawn
    survey, view = survey_of(reading), View(page.denominator, reading.unit)
    factor = enlarged(survey, view)
    told = " ".join(text.text for text in page.texts)
    assert f"drawn {factor} times as large" in told if factor > 1 else "to scale" in told
    shapes = page.having(Role.ELLIPSE)
    visible = [ellipse for ellipse in survey.ellipses if factor * view.of(ellipse.long) >= 0.1]
    assert len(shapes) == len(visible) >= len(survey.points) - 1
    assert max(factor * view.of(ellipse.long) for ellipse in survey.ellipses) <= 7.0 or factor == 1
    for ellipse, shape in zip(visible, shapes, strict=True):
        spots = shape.ring if isinstance(shape, Area) else spots_of(shape)
        widest = max((dist(a, b), a, b) for a in spots for b in spots)
        assert widest[0] == pytest.approx(2 * factor * view.of(ellipse.long), rel=0.01)
        middle = tuple((a + b) / 2 for a, b in zip(widest[1], widest[2], strict=True))
        assert dist(middle, on_page(page, reading, ellipse.corner)) < 0.05
        if isinstance(shape, Area) and ellipse.long.units > 1.2 * ellipse.short.units:
            (x0, y0), (x1, y1) = widest[1:]
            turned = (degrees(atan2(y1 - y0, x1 - x0)) - ellipse.direction) % 180
            assert min(turned, 180 - turned) < 8


def test_an_arc_marks_each_turn_that_was_read_inside_the_room(drawn: tuple[RoomReading, Page]) -> None:
    """As wide as the inside angle."""
    reading, page = drawn
    survey = survey_of(reading)
    inside = Polygon([on_page(page, reading, name) for name, _ in survey.points])
    turns = {r.name: r for r in survey.residuals if r.kind is ReadingKind.TURN}
    arcs = [item for item in page.having(Role.TURN) if isinstance(item, Arc)]
    assert len(arcs) == len(turns)
    for name, turn in turns.items():
        (arc,) = (arc for arc in arcs if dist(arc.centre, on_page(page, reading, name)) < 1e-6)
        assert isinstance(turn.adjusted, float)
        assert arc.last - arc.first == pytest.approx(turn.adjusted, abs=0.01)
        assert inside.buffer(1e-6).covers(LineString(arc.spots[1:-1]))


def test_tables_hold_every_reading_and_every_corner(drawn: tuple[RoomReading, Page]) -> None:
    """Names of readings in the table, names of corners in the other and on the drawing."""
    reading, page = drawn
    survey = survey_of(reading)
    panel = [text.text for text in page.texts if text.role is Role.PANEL]
    for residual in survey.residuals:
        assert residual.name in panel
    names = sorted(text.text for text in page.texts if text.role is Role.CORNER)
    assert names == sorted(name for name, _ in survey.points)
    for name in names:
        assert name in panel
    assert reading.title in " ".join(panel)


def test_a_side_that_was_not_taped_is_dashed(tmp_path: Path) -> None:
    """It follows from the others, and bears no length."""
    reading = reading_of(ROOMS["nothing to spare"], tmp_path)
    sides = (("A", "B", Length.millimetres(3000)), ("B", "C", Length.millimetres(2100)))
    turns = (("B", Turn.LEFT), ("C", Turn.LEFT), ("D", Turn.LEFT))
    survey = adjust(Readings(tuple("ABCD"), sides, turns, (), reading.room.tolerance))
    (page,) = survey_pages(replace(reading, survey=survey))
    dashes = [item.dash.name for item in page.having(Role.EDGE) if isinstance(item, Line)]
    assert dashes == ["SOLID", "SOLID", "LONG", "LONG"]
    assert "side that was not taped" in [text.text for text in page.texts]


def test_the_title_block_names_what_stands_out(tmp_path: Path) -> None:
    """So that nobody builds on a sheet without noticing."""
    (page,) = survey_pages(reading_of(ROOMS["a slip that shows"], tmp_path))
    assert "one of these may be wrong" in " ".join(text.text for text in page.texts)


def _many(steps: int) -> str:
    """A room with a flight of steps along one side: two corners a step and four more."""
    sizes = [600 * (steps + 1), 900, *([600, 300] * steps), 600, 900 + 300 * steps]
    turns = ["left", "left", *(["left", "right"] * steps), "left", "left"]
    names = [f"P{k}" for k in range(len(sizes))]
    sides = ", ".join(f"{name}{names[(k + 1) % len(names)]}: {sizes[k]}" for k, name in enumerate(names))
    bends = ", ".join(f"{name}: {turn}" for name, turn in zip(names, turns, strict=True))
    return f"title: Steps, invented\nunits: mm\nroom:\n  sides: {{{sides}}}\n  turns: {{{bends}}}\n"


def test_readings_too_many_for_the_sheet_go_to_further_pages(tmp_path: Path) -> None:
    """None is lost, and none is told twice."""
    reading = reading_of(_many(18), tmp_path)
    pages = survey_pages(reading, "A4")
    assert len(pages) > 1
    told = [text.text for page in pages for text in page.texts if text.role is Role.PANEL]
    for residual in survey_of(reading).residuals:
        rows = 2 if residual.kind is ReadingKind.TURN else 1  # a corner stands in both tables
        assert told.count(residual.name) == rows
    assert len({page.sheet for page in pages}) == 1
    for page in pages:
        for item in page.items:
            assert all(-1e-6 <= x <= page.width and -1e-6 <= y <= page.height for x, y in spots_of(item))


def test_corners_without_readings_cannot_be_drawn(tmp_path: Path) -> None:
    """The command refuses them before; from Python it is a ValueError."""
    reading = reading_of("title: T\nunits: m\nroom:\n  corners: {A: [0, 0], B: [4, 0], C: [4, 3]}\n", tmp_path)
    with pytest.raises(ValueError, match="no readings to draw"):
        survey_pages(reading)


def test_files_are_the_same_every_time(tmp_path: Path) -> None:
    """Byte for byte, and the SVG is sound XML of the paper's size."""
    reading = reading_of(ROOMS["ties, walked clockwise"], tmp_path)
    first, second = (write_pages(survey_pages(reading), tmp_path / name) for name in ("one", "two"))
    for one, other in zip(first, second, strict=True):
        assert one.read_bytes() == other.read_bytes()
    root = ElementTree.parse(tmp_path / "one.svg").getroot()
    assert float(root.attrib["width"].removesuffix("pt")) * 25.4 / 72 == pytest.approx(297.0, abs=0.01)


def test_small_differences_are_written_fine() -> None:
    """Lengths below what is shown have no sign."""
    inches, metric = View(1, Unit.IN), View(1, Unit.MM)
    assert [fine(Length.inches(text), inches) for text in ("1/64", "1/1000", "3/2")] == ['+1/64"', '0"', '+1 1/2"']
    assert fine(-Length.inches("9/64"), inches) == '−9/64"'
    assert [fine(Length.millimetres(text), metric) for text in ("0.04", "12.25")] == ["0.0", "+12.2"]
    assert fine(-Length.millimetres("0.6"), metric) == "−0.6"
