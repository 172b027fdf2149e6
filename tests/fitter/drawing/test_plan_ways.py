"""Routes on the plan: what is told of narrow doors, where the band ends, and where the narrowest place is taped."""

from __future__ import annotations

from math import dist

import pytest
from page_laws import check_page
from sample_layouts import METRIC, pose_on, project_of, room_of, straight, with_routes
from shapely.geometry import LineString, Point, Polygon
from shapely.ops import unary_union

from fitter.domain.layout import Layout
from fitter.domain.project import Project
from fitter.drawing import Page, plan_page
from fitter.drawing.page import Area, Role
from rooms.clearance import chains, widest_passage
from rooms.lengths import UNITS_PER_MM, Length
from rooms.room import Obstacle, Opening, Room, Route, Swing
from rooms.room import Point as Place


def mm(number: float) -> Length:
    return Length.millimetres(number)


def tub(x: int, y: int, radius: int) -> Obstacle:
    return Obstacle("tub", (Place(mm(x), mm(y)),), mm(radius))


def drawn(*openings: Opening, obstacles: tuple[Obstacle, ...] = (), along: str = "AB") -> tuple[Project, Layout, Page]:
    """A yard of 2600 by 3000 with one seat in its corner A or C, and a route of 914 from the first opening on."""
    route = Route("way", openings[0].name, openings[1].name, mm(914))
    corners = [("0", "0"), ("2600", "0"), ("2600", "3000"), ("0", "3000")]
    room = room_of(METRIC.unit, corners, openings=openings, obstacles=obstacles, routes=(route,))
    seat = straight(METRIC, pose_on(room.edge(along)), 1, mm(200), mm(95))
    project, layout = project_of(METRIC, room), with_routes(seat, room)
    return project, layout, plan_page(project, layout)


def on_page(page: Page, x: float, y: float) -> tuple[float, float]:
    """A place of the yard, mm, on the page."""
    return page.origin[0] + x / page.denominator, page.origin[1] + y / page.denominator


def passage(room: Room, layout: Layout) -> tuple[tuple[float, float], tuple[float, float]]:
    """Where the narrowest place begins and ends, mm."""
    boxes = [Polygon([(float(x), float(y)) for x, y in layout.pose.outline(box)]) for box in layout.footprint]
    (x0, y0), (x1, y1) = widest_passage(room, room.routes[0], boxes).points
    return (x0 / UNITS_PER_MM, y0 / UNITS_PER_MM), (x1 / UNITS_PER_MM, y1 / UNITS_PER_MM)


NARROW = Opening("back door", "AB", mm(1600), mm(680), Swing.IN)
WIDE = Opening("back door", "AB", mm(1500), mm(1000))
GATE = Opening("gate", "CD", mm(100), mm(1000))
SIDE = Opening("side gate", "DA", mm(200), mm(1000))


def test_a_door_that_is_narrower_than_its_route_is_told_wherever_the_route_is() -> None:
    """In the box and beside the route; the foot of the box says that the width is that between the doors."""
    page = drawn(NARROW, GATE)[2]
    check_page(page)
    panel = " ".join(text.text for text in page.texts if text.role is Role.PANEL)
    label = " ".join(text.text for text in page.texts if text.role is Role.LABEL)
    assert "but back door is only 680" in panel
    assert "but back door is only 680" in label
    assert "narrowest place between the doors, less" in panel


def test_doors_that_are_wide_enough_are_not_told() -> None:
    page = drawn(WIDE, GATE)[2]
    said = " ".join(text.text for text in page.texts)
    assert "only" not in said
    assert "between the doors" not in said


@pytest.mark.parametrize("door", [NARROW, WIDE])
def test_the_band_of_a_route_ends_in_its_opening(door: Opening) -> None:
    """At the wall it lies between the jambs, in the middle of the yard it is as wide as asked."""
    page = drawn(door, GATE)[2]
    areas = [Polygon(item.ring) for item in page.having(Role.ROUTE) if isinstance(item, Area)]
    band = unary_union(areas)
    near = LineString([on_page(page, 0, 1), on_page(page, 2600, 1)]).intersection(band)
    jambs = [on_page(page, float(place.mm), 0)[0] for place in (door.offset, door.offset + door.width)]
    assert near.length > 0
    # A millimetre from the wall the band may be a millimetre and a half wider at either side.
    assert near.bounds[0] > jambs[0] - 1.5 / page.denominator
    assert near.bounds[2] < jambs[1] + 1.5 / page.denominator
    across = LineString([on_page(page, 0, 1500), on_page(page, 2600, 1500)]).intersection(band)
    assert across.length * page.denominator == pytest.approx(914, rel=0.02)
    yard = Polygon([on_page(page, x, y) for x, y in ((0, 0), (2600, 0), (2600, 3000), (0, 3000))])
    assert yard.buffer(1e-6).contains(band)


def test_the_narrowest_place_is_dimensioned_from_the_face_of_a_round_thing() -> None:
    """A tub of 400 in radius, 1250 from one wall and 1350 from the other: 950 are left on the wider side."""
    page = drawn(WIDE, GATE, obstacles=(tub(1250, 1800, 400),))[2]
    check_page(page)
    (found,) = (d for d in page.dimensions if d.text.text == "950")
    ends = sorted(found.feet)
    for spot, true in zip(ends, [(1650, 1800), (2600, 1800)], strict=True):
        assert spot == pytest.approx(on_page(page, *true), abs=0.01)


def test_no_dimension_ends_on_a_jamb_that_is_not_there() -> None:
    """A route through a door of 680 sees it as 914 + 12 wide; the gap beside a tub ends on such a jamb."""
    project, layout, page = drawn(NARROW, SIDE, obstacles=(tub(1550, 300, 200),), along="CD")
    gap = passage(project.room, layout)
    jamb = 1600 + 680 + (914 + 12 - 680) / 2
    assert any(dist(spot, (jamb, 0)) < 0.1 for spot in gap)
    assert not any(dist(foot, on_page(page, jamb, 0)) < 0.2 for d in page.dimensions for foot in d.feet)
    check_page(page)


def test_where_a_jamb_moved_by_the_tolerance_alone_the_true_one_is_taped() -> None:
    """A door as wide as the route counts as wider by the tolerance at each side: the tape goes to its jamb."""
    door = Opening("back door", "AB", mm(1400), mm(914))
    project, layout, page = drawn(door, SIDE, obstacles=(tub(1500, 500, 200),), along="CD")
    gap = passage(project.room, layout)
    ways = chains(project.room, project.room.routes[0])
    moved = [(x / UNITS_PER_MM, y / UNITS_PER_MM) for x, y in ways.start]
    assert max(x for x, _ in moved) == pytest.approx(1400 + 914 + 6)
    assert any(dist(spot, (2320, 0)) < 0.1 for spot in gap)
    true = on_page(page, 2314, 0)
    (found,) = (d for d in page.dimensions if any(dist(foot, true) < 0.02 for foot in d.feet) and d.feet == d.ends)
    face = Point(on_page(page, 1500, 500)).buffer(200 / page.denominator, quad_segs=64)
    other = max(found.feet, key=lambda foot: dist(foot, true))
    assert face.exterior.distance(Point(other)) < 0.02


def test_a_door_is_not_told_where_less_is_clear_before_it() -> None:
    """A tub leaves 350 of the way, so that the door of 680 decides nothing."""
    page = drawn(NARROW, GATE, obstacles=(tub(1300, 1800, 950),))[2]
    said = " ".join(text.text for text in page.texts)
    assert "338 clear (914 asked)" in said
    assert "is only" not in said
