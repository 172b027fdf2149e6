"""What fills the room beyond the ends is as wide as plain geometry allows, and no mark wider."""

from __future__ import annotations

from dataclasses import replace
from math import atan2, cos, pi, sin

import pytest
from hand_built import INSIDE, LEFT, OUTSIDE, RIGHT
from shapely import LineString, Point, Polygon
from yards import Yard, ell, inch, straight, u, u_left_along

from fitter.checking import check_layout
from fitter.domain.frame import FillLimits
from fitter.domain.layout import Box, Fill, Layout
from fitter.domain.wishes import EndKind, FillKind, FillWish, Side
from fitter.workflow.filling import filled
from rooms.clearance import widest_by_erosion
from rooms.lengths import Length
from rooms.room import Height, Obstacle, Opening, Room, Route, Swing
from rooms.room import Point as Spot

MARK = inch("1/16")
NEAR = inch("1/64").units
"""Far less than a mark, far more than floats may be off."""


def asked(yard: Yard, fill: FillWish, **room: object) -> Yard:
    """The yard where something is to fill what is left, in a room that may be another."""
    project = replace(yard.project, wish=replace(yard.project.wish, fill=fill))
    return Yard(replace(project, room=replace(project.room, **room)), yard.layout)  # type: ignore[arg-type]


def done(yard: Yard) -> Layout:
    """Its layout filled, which the checker accepts."""
    assert check_layout(yard.project, yard.layout, bare=True) == ()
    layout = filled(yard.project, yard.layout)
    assert check_layout(yard.project, layout) == ()
    return layout


def at(layout: Layout, hand: Side) -> Fill:
    """What fills one end."""
    found = layout.fill(hand)
    assert found is not None
    return found


def wider(fill: Fill, more: Length) -> Box:
    """Its box, grown outward."""
    box = fill.box
    if fill.run is not Side.MAIN:
        return replace(box, y1=box.y1 + more)
    return replace(box, x0=box.x0 - more) if fill.hand is RIGHT else replace(box, x1=box.x1 + more)


def plan(layout: Layout, box: Box) -> Polygon:
    """A box in the room."""
    return Polygon([(float(x), float(y)) for x, y in layout.pose.outline(box)])


def strikes(room: Room, thing: Polygon) -> list[str]:
    """Everything of a room but its routes that a thing comes too near to, by geometry of this test alone."""
    near, found = room.tolerance.units - NEAR, []
    for edge in room.edges:
        ends = [(end.x.units, end.y.units) for end in (edge.start, edge.end)]
        if LineString(ends).distance(thing) < near:
            found.append(f"edge:{edge.name}")
    for obstacle in room.obstacles:
        (spot,) = obstacle.core
        gap = Point(spot.x.units, spot.y.units).distance(thing) - obstacle.radius.units
        if gap < near + obstacle.clear.units:
            found.append(f"obstacle:{obstacle.name}")
    for opening in room.openings:
        if opening.swing is Swing.IN and leaf(room, opening).distance(thing) < near:
            found.append(f"swing:{opening.name}")
    return found


def leaf(room: Room, opening: Opening) -> Polygon:
    """The quarter disc that a leaf sweeps, hinged at the jamb that is met first on the walk."""
    hinge, other = room.jambs(opening)
    start = atan2(other.y.units - hinge.y.units, other.x.units - hinge.x.units)
    wide = opening.width.units
    arc = [start + pi / 2 * n / 720 for n in range(721)]
    x, y = hinge.x.units, hinge.y.units
    return Polygon([(x, y), *((x + wide * cos(turn), y + wide * sin(turn)) for turn in arc)])


OPEN_ROOM: dict[str, object] = {"openings": (), "routes": (), "obstacles": ()}
POT = Obstacle("pot", (Spot(inch(112), inch(20)),), inch(5), inch(2))
DOOR = Opening("side door", "BC", inch(20), inch(110), Swing.IN)
YARDS = {
    "straight": asked(straight(), FillWish.SHELF, **OPEN_ROOM),
    "straight by a pot": asked(straight(), FillWish.SHELF, openings=(), routes=(), obstacles=(POT,)),
    "straight by a door": asked(straight(), FillWish.SHELF, openings=(DOOR,), routes=(), obstacles=()),
    "right L": asked(ell(INSIDE, RIGHT), FillWish.SHELF, **OPEN_ROOM),
    "left L": asked(ell(OUTSIDE, LEFT), FillWish.SHELF, **OPEN_ROOM),
    "overhung L": asked(ell(INSIDE, RIGHT, "1/2"), FillWish.SHELF, **OPEN_ROOM),
    "U": asked(u(INSIDE), FillWish.SHELF, **OPEN_ROOM),
    "U along its left arm": asked(u_left_along(OUTSIDE, (2, 1, 3)), FillWish.SHELF, **OPEN_ROOM),
}


@pytest.mark.parametrize("limit", ["24", "60"])
@pytest.mark.parametrize("name", YARDS)
def test_a_mark_more_would_strike_what_stops_it(name: str, limit: str) -> None:
    yard = YARDS[name]
    frame = replace(yard.project.frame, fills=FillLimits(inch(6), inch(limit)))
    yard = Yard(replace(yard.project, frame=frame), yard.layout)
    layout = done(yard)
    assert layout.fills
    for fill in layout.fills:
        assert strikes(yard.project.room, plan(layout, fill.box)) == []
        more = strikes(yard.project.room, plan(layout, wider(fill, MARK)))
        if fill.stop == "widest":
            assert fill.size[0] == inch(limit)
        else:
            assert fill.stop in more
        assert fill.kind is (FillKind.SHELF if fill.size[0] >= inch(6) else FillKind.GAP)


def test_widths_follow_from_the_room_by_hand() -> None:
    """The right end stands at x = 18 1/2 and wall DA at 0, less a quarter; the left one 125 3/4 off wall BC."""
    layout = done(YARDS["straight"])
    assert [(fill.hand, fill.size[0], fill.stop) for fill in layout.fills] == [
        (RIGHT, inch("73/4"), "edge:DA"),
        (LEFT, inch("97/4"), "widest"),
    ]
    assert {fill.size[1] for fill in layout.fills} == {inch("7/2") + inch("97/4")}


@pytest.mark.parametrize("name", ["straight by a pot", "straight by a door"])
def test_what_is_struck_once_is_struck_for_ever(name: str) -> None:
    """So that halving finds the widest."""
    yard = YARDS[name]
    fill = at(done(yard), LEFT)
    start = replace(fill.box, x1=fill.box.x0)
    free = [
        not strikes(yard.project.room, plan(yard.layout, wider(replace(fill, box=start), MARK * n)))
        for n in range(1, 500)
    ]
    first = free.index(False) if False in free else len(free)
    assert not any(free[first:])
    if fill.stop != "widest":
        assert fill.size[0] == MARK * first


def test_a_route_stays_open_past_both() -> None:
    """The walkway runs before the left end; erosion of the floor, another way to see it, agrees to a sixteenth."""
    gates = (Opening("north", "CD", inch(60), inch(60)), Opening("south", "AB", inch(140), inch(60)))
    way = Route("through", "north", "south", inch(50))
    limits = FillLimits(inch(6), inch(90))
    yard = asked(straight(), FillWish.SHELF, openings=gates, routes=(way,), obstacles=())
    yard = Yard(replace(yard.project, frame=replace(yard.project.frame, fills=limits)), yard.layout)
    layout = done(yard)
    fill = at(layout, LEFT)
    assert fill.stop == "route:through"
    for more, fits in ((Length(0), True), (MARK * 2, False)):
        others = [box for box in layout.footprint if box != fill.box]
        things = [plan(layout, box) for box in (*others, wider(fill, more))]
        clear = widest_by_erosion(yard.project.room, way, things)
        assert (clear >= way.width.units - inch("1/16").units) is fits


def test_low_things_bear_no_shelf() -> None:
    """A drain beyond the left end stops a shelf as it would stop an end: its feet may not stand there."""
    drain = Obstacle("drain", (Spot(inch(105), inch(10)),), inch(3), height=Height.LOW)
    layout = done(asked(straight(), FillWish.SHELF, openings=(), routes=(), obstacles=(drain,)))
    assert at(layout, LEFT).stop == "obstacle:drain"


def test_a_gap_that_is_too_narrow_stays_and_is_no_ground() -> None:
    yard = YARDS["straight"]
    frame = replace(yard.project.frame, fills=FillLimits(inch(19)))
    layout = done(Yard(replace(yard.project, frame=frame), yard.layout))
    gap = at(layout, RIGHT)
    assert (gap.kind, gap.size[0]) == (FillKind.GAP, inch("73/4"))
    assert gap.box not in layout.footprint
    assert at(layout, LEFT).box in layout.footprint


@pytest.mark.parametrize("fill", [FillWish.NONE, FillWish.EASE])
def test_nothing_stands_there_where_that_is_not_asked(fill: FillWish) -> None:
    assert done(asked(straight(), fill)).fills == ()


def test_only_armed_ends_get_wider_arms() -> None:
    """The left end of this U is open."""
    layout = done(asked(u(INSIDE), FillWish.ARM, **OPEN_ROOM))
    assert {end.hand: end.kind for end in layout.ends} == {RIGHT: EndKind.ARMED, LEFT: EndKind.OPEN}
    assert [(fill.hand, fill.kind, fill.stop) for fill in layout.fills] == [(RIGHT, FillKind.ARM, "widest")]


def test_any_is_an_arm_that_takes_up_all_else_a_shelf() -> None:
    """18 1/4 in lie free at the right end, more than an arm may be wide; with 19 in allowed it takes them all."""
    yard = asked(straight(), FillWish.ANY, **OPEN_ROOM)
    assert [fill.kind for fill in done(yard).fills] == [FillKind.SHELF, FillKind.SHELF]
    frame = replace(yard.project.frame, fills=FillLimits(arm=inch(19)))
    kinds = [fill.kind for fill in done(Yard(replace(yard.project, frame=frame), yard.layout)).fills]
    assert kinds == [FillKind.ARM, FillKind.SHELF]
