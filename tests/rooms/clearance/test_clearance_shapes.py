"""Solids, swings and free floor against what pencil and square give."""

from __future__ import annotations

from itertools import product
from math import cos, hypot, pi, sin

import pytest
from shapely import Point as Spot
from shapely import Polygon

from rooms.clearance import free_floor, solid, swing_sector
from rooms.lengths import UNITS_PER_INCH, ZERO, Length
from rooms.room import Edge, EdgeKind, Hinge, Obstacle, Opening, Point, Room, Swing

INCH = UNITS_PER_INCH


def _point(x: int, y: int) -> Point:
    return Point(Length.inches(x), Length.inches(y))


def _box(*, forward: bool = True, skew: int = 0, **more: object) -> Room:
    """A room of 120 in by 100 in, walked either way; its first side may rise by some inches."""
    ring = [_point(0, 0), _point(120, skew), _point(120, 100), _point(0, 100)]
    names = ("AB", "BC", "CD", "DA") if forward else ("BA", "CB", "DC", "AD")
    edges = [Edge(name, EdgeKind.WALL, ring[n], ring[(n + 1) % 4], forward) for n, name in enumerate(names)]
    corners = tuple(zip("ABCD", ring, strict=True))
    return Room(corners, tuple(edges if forward else edges[::-1]), **more)  # type: ignore[arg-type]


@pytest.mark.parametrize("inches", [2, 10, 36, 90])
def test_round_solid_holds_the_circle_and_is_hardly_larger(inches: int) -> None:
    """At most 1/32 in beyond the circle, never inside it."""
    shape = solid(Obstacle("bowl", (_point(50, 40),), Length.inches(inches)))
    middle, radius = Spot(50 * INCH, 40 * INCH), inches * INCH
    assert shape.exterior.distance(middle) >= radius - 1e-6
    assert max(middle.distance(Spot(corner)) for corner in shape.exterior.coords) <= radius + INCH / 32 + 1e-6


def test_solid_of_a_polygon_is_the_polygon() -> None:
    """Without a radius nothing is added."""
    ring = (_point(0, 0), _point(9, 1), _point(4, 7))
    assert solid(Obstacle("planter", ring)).equals(Polygon([(p.x.units, p.y.units) for p in ring]))


def test_solid_of_a_rounded_polygon_holds_every_point_within_the_radius() -> None:
    """Corners of any angle are rounded outside of the true arc."""
    ring = (_point(0, 0), _point(30, 2), _point(4, 17))
    core = Polygon([(p.x.units, p.y.units) for p in ring])
    shape = solid(Obstacle("bed", ring, Length.inches(6)))
    assert shape.covers(core.buffer(6 * INCH - 1e-3, quad_segs=400))
    far = max(core.distance(Spot(corner)) for corner in shape.exterior.coords)
    assert far <= 6 * INCH + 2.5 * INCH / 32


@pytest.mark.parametrize(
    ("forward", "hinge", "x"),
    [(True, Hinge.FIRST, 20), (True, Hinge.SECOND, 50), (False, Hinge.FIRST, 100), (False, Hinge.SECOND, 70)],
)
def test_swing_is_a_quarter_disc_about_the_named_jamb(forward: bool, hinge: Hinge, x: int) -> None:
    """The door stands 20 in from the edge's first corner; first and second are as the edge was written."""
    name = "AB" if forward else "BA"
    opening = Opening("door", name, Length.inches(20), Length.inches(30), Swing.IN, hinge)
    sector = swing_sector(_box(forward=forward, openings=(opening,)), opening)
    assert sector is not None
    toward = 1 if x in (20, 70) else -1
    for turn, far in product((0.02, 0.5, 1.0, 1.55), (0.01, 0.5, 0.999)):
        inside = Spot((x + toward * 30 * far * cos(turn)) * INCH, 30 * far * sin(turn) * INCH)
        assert sector.covers(inside)
    assert sector.area == pytest.approx(pi / 4 * (30 * INCH) ** 2, rel=0.002)
    assert sector.area > pi / 4 * (30 * INCH) ** 2
    reach = max(hypot(a / INCH - x, b / INCH) for a, b in sector.exterior.coords)
    assert 30 <= reach <= 30 + 1 / 32


def test_swing_in_a_skew_edge_lies_in_the_room() -> None:
    """Its straight sides are the closed leaf, along the edge, and the open leaf, square to it."""
    opening = Opening("door", "AB", Length.inches(30), Length.inches(24), Swing.IN, Hinge.SECOND)
    room = _box(skew=50, openings=(opening,))
    sector = swing_sector(room, opening)
    assert sector is not None
    hinge = room.jambs(opening)[1]
    assert sector.exterior.coords[0] == (hinge.x.units, hinge.y.units)
    floor = Polygon([(p.x.units, p.y.units) for p in room.outline])
    assert floor.buffer(2).covers(sector)


@pytest.mark.parametrize("swing", [Swing.OUT, Swing.NONE])
def test_no_sector_where_no_leaf_turns_in(swing: Swing) -> None:
    """A leaf that opens outward takes no floor."""
    opening = Opening("door", "AB", ZERO, Length.inches(30), swing)
    assert swing_sector(_box(openings=(opening,)), opening) is None


def test_free_floor_loses_the_tolerance_once_on_every_side() -> None:
    """A box of 20 by 10 in grows by 1 in with round corners; the edges move in by 1 in."""
    ring = (_point(40, 40), _point(60, 40), _point(60, 50), _point(40, 50))
    room = _box(obstacles=(Obstacle("tub", ring),), tolerance=Length.inches(1))
    area = free_floor(room).area / INCH**2
    assert area == pytest.approx(118 * 98 - (200 + 60 + pi), abs=0.01)


def test_free_floor_of_a_round_obstacle() -> None:
    """The radius grows by the tolerance."""
    room = _box(obstacles=(Obstacle("bowl", (_point(60, 50),), Length.inches(9)),), tolerance=Length.inches(1))
    assert free_floor(room).area / INCH**2 == pytest.approx(118 * 98 - pi * 100, abs=0.1)


def test_free_floor_may_fall_apart() -> None:
    """A wall-to-wall tub leaves two pieces."""
    ring = (_point(50, 0), _point(60, 0), _point(60, 100), _point(50, 100))
    assert free_floor(_box(obstacles=(Obstacle("tub", ring),))).geom_type == "MultiPolygon"
