"""What the plan shows at corners and behind cushions, held against the layout that it draws."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sample_layouts import INCHES, corner, overhung, pose_on, project_of, room_of, samples
from shapely.geometry import LineString, Point, Polygon
from shapely.ops import unary_union

from fitter.domain.layout import Box, Layout, PostRole
from fitter.domain.project import Project
from fitter.domain.wishes import CornerKind
from fitter.drawing import Page, plan_page
from fitter.drawing.page import Area, Dash, Line, Pen, Role
from rooms.lengths import UNITS_PER_MM, ZERO, Length

SAMPLES = samples()
ANGLE, SPREAD = (SAMPLES[name] for name in ("angle-u-inches", "spread-l-left-metric"))
LOW_SAYS, BOARD_SAYS = "corner post that ends", "boards that hold the"
FRONT_SAYS, BARE_SAYS = "front of the wood,", "place left uncovered"


@pytest.fixture(scope="module")
def angle() -> Page:
    return plan_page(*ANGLE)


@pytest.fixture(scope="module")
def spread() -> Page:
    return plan_page(*SPREAD)


def ring(page: Page, layout: Layout, box: Box) -> Polygon:
    """A box of the layout on the page."""
    scale, (x, y) = UNITS_PER_MM * page.denominator, page.origin
    return Polygon([(x + float(a) / scale, y + float(b) / scale) for a, b in layout.pose.outline(box)])


def areas(page: Page, role: Role) -> list[Area]:
    return [item for item in page.having(role) if isinstance(item, Area)]


def says(page: Page) -> list[str]:
    return [text.text for text in page.texts if text.role is Role.PANEL]


def small(kind: CornerKind) -> tuple[Project, Layout]:
    """A small L with a treatment."""
    room = room_of(INCHES.unit, [("0", "0"), ("11'", "0"), ("11'", "9'"), ("0", "9'")])
    layout = corner(INCHES, pose_on(room.edge("AB")), (2, 1), INCHES.of("10"), INCHES.of("5"), kind)
    return project_of(INCHES, room), layout


def test_posts_that_end_under_the_seats_are_dashed_and_all_others_black(angle: Page) -> None:
    layout = ANGLE[1]
    drawn = areas(angle, Role.POST)
    assert len(drawn) == len(layout.posts)
    for post, area in zip(layout.posts, drawn, strict=True):
        low = post.role is PostRole.CORNER
        assert (area.dash is Dash.SHORT, area.grey == 0) == (low, not low)
        assert Polygon(area.ring).symmetric_difference(ring(angle, layout, post.box)).area < 1e-6


def test_boards_of_angle_posts_are_drawn_to_scale_on_the_backs_within_the_notch(angle: Page) -> None:
    """Four boards of 3/4 by 3 1/2; the L of each notch is drawn around them."""
    project, layout = ANGLE
    boards = [Polygon(area.ring) for area in areas(angle, Role.BOARD)]
    true = (0.75 * 25.4 / angle.denominator) * (3.5 * 25.4 / angle.denominator)
    assert [board.area for board in boards] == pytest.approx([true] * 4)
    backs = unary_union([ring(angle, layout, run.back) for run in layout.runs]).buffer(1e-6)
    assert all(board.intersection(backs).area < 1e-4 < board.length for board in boards)
    assert all(board.touches(backs) or board.intersects(backs) for board in boards)
    notches = [Polygon(area.ring) for area in areas(angle, Role.NOTCH)]
    assert [len(area.ring) for area in areas(angle, Role.NOTCH)] == [6, 6]
    for notch, place in zip(notches, layout.corners, strict=True):
        assert place.notch is not None
        cut = unary_union([ring(angle, layout, box) for box in place.notch.cut])
        assert notch.symmetric_difference(cut).area < 1e-4
    # The rims of cushions go around what is cut; outlines of places that are larger do not.
    rims = [Polygon(area.ring) for area in areas(angle, Role.CUSHION)]
    inner = unary_union(notches).buffer(-1e-3)
    assert sum(rim.intersects(inner) for rim in rims) == sum(place.cover is not None for place in layout.corners)
    assert project.frame.angle.thickness == Length.inches("3/4")


def test_gap_behind_cushions_is_hatched_and_dimensioned(spread: Page) -> None:
    """Strokes lie between backs and cushions of both runs; the chain beyond the free end measures the same."""
    layout = SPREAD[1]
    seats = unary_union([ring(spread, layout, module.cover or module.box) for module in layout.modules])
    decks = unary_union([ring(spread, layout, box) for run in layout.runs for box in (run.deck,)])
    places = unary_union([decks, *(ring(spread, layout, place.box) for place in layout.corners)]).buffer(1e-3)
    strokes = [LineString(item.spots) for item in spread.having(Role.BARE) if isinstance(item, Line)]
    assert all(places.contains(stroke) and stroke.intersection(seats).length < 1e-3 for stroke in strokes)
    for run in layout.runs:
        deck = ring(spread, layout, run.deck)
        assert sum(stroke.intersects(deck) for stroke in strokes) > 10
    assert layout.gap in [dimension.length for dimension in spread.dimensions]


def test_front_of_the_wood_is_drawn_wider_where_cushions_come_forward(spread: Page) -> None:
    """As far behind the front of the cushions as they overhang, on both runs."""
    project, layout = SPREAD
    over = float(project.frame.overhang.mm) / spread.denominator
    lines = [item for item in spread.having(Role.RAIL) if isinstance(item, Line) and item.pen is Pen.WIDE]
    assert len(lines) == sum(rail.face == "front" for rail in layout.rails)
    fronts = {run.side: ring(spread, layout, run.legroom) for run in layout.runs}
    for line in lines:
        assert line.dash is Dash.HIDDEN
        way = LineString(line.spots)
        nearest = [area.distance(Point(way.interpolate(0.5, normalized=True))) for area in fronts.values()]
        assert min(nearest) == pytest.approx(over, abs=1e-6)
    assert project.frame.overhang in [dimension.length for dimension in spread.dimensions]


def test_gap_of_a_u_is_called_out(angle: Page) -> None:
    """No end of its main run is free for a chain of dimensions."""
    project, layout = ANGLE
    assert not any(text.text.startswith("gap ") for text in angle.texts)
    shifted = replace(layout, gap=Length.inches(3))
    page = plan_page(overhung(project, ZERO), shifted)
    assert 'gap 3"' in [text.text for text in page.texts]


@pytest.mark.parametrize("kind", CornerKind)
def test_the_key_explains_what_is_used_and_nothing_else(kind: CornerKind) -> None:
    project, layout = small(kind)
    told = " ".join(says(plan_page(project, layout)))
    assert (LOW_SAYS in told) == (kind in (CornerKind.ANGLE_POST, CornerKind.LOW_POST))
    assert (BOARD_SAYS in told) == (kind is CornerKind.ANGLE_POST)
    assert (BARE_SAYS in told) == (kind is CornerKind.SPREAD)
    assert FRONT_SAYS not in told
    assert ("notch in the cushion" in told) == (kind in (CornerKind.ANGLE_POST, CornerKind.INSIDE_POST))


def test_panel_tells_what_is_cut_and_how_the_zip_stays_whole(angle: Page, spread: Page) -> None:
    told = " ".join(says(angle)).replace("\N{NO-BREAK SPACE}", " ")
    assert told.count("sq in") == 2
    assert told.count("zip in the back: whole after half a turn before the cut") == 1
    assert FRONT_SAYS in " ".join(says(spread))
    words = says(spread)
    assert words[words.index("cushions overhang the wood") + 1] == "20"
    assert words[words.index("cushions off the backs") + 1] == str(SPREAD[1].gap.mm)
