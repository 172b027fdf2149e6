"""Edges moved parallel to themselves, against shapely; openings and corners followed along them."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from math import hypot
from random import Random

import pytest
import shapely
from random_projects import KINDS, WALLED, projects

from rooms.geometry import signed_area
from rooms.lengths import UNITS_PER_INCH, ZERO, Length
from rooms.moved import edge_moved, obstacle_moved
from rooms.room import Edge, EdgeKind, Hinge, Obstacle, Opening, Point, Room

HAIR = 3.0
"""Units that rounding of corners may make of a distance."""


def inch(value: float) -> Length:
    return Length(round(value * UNITS_PER_INCH))


def room(*corners: tuple[float, float], clockwise: bool = False, openings: tuple[Opening, ...] = ()) -> Room:
    """A room from its corners in inches, given anticlockwise; a clockwise walk begins at the same corner."""
    names = "ABCDEFGH"[: len(corners)]
    walk = [Point(inch(x), inch(y)) for x, y in corners]
    walk = [walk[0], *reversed(walk[1:])] if clockwise else walk
    edges = []
    for n, name in enumerate(names):
        here, there = walk[n], walk[(n + 1) % len(walk)]
        start, end = (there, here) if clockwise else (here, there)
        edges.append(Edge(f"{name}{names[(n + 1) % len(names)]}", EdgeKind.WALL, start, end, forward=not clockwise))
    return Room(tuple(zip(names, walk, strict=True)), tuple(edges), openings)


def polygon(of: Room) -> shapely.Polygon:
    return shapely.Polygon([(float(p.x.units), float(p.y.units)) for p in of.outline])


def line(edge: Edge) -> shapely.LineString:
    return shapely.LineString([(float(p.x.units), float(p.y.units)) for p in (edge.start, edge.end)])


def off_line(edge: Edge, point: Point) -> float:
    """How far a point lies from the line that an edge is part of, in units."""
    dx, dy = edge.end.x.units - edge.start.x.units, edge.end.y.units - edge.start.y.units
    return abs(dx * (point.y - edge.start.y).units - dy * (point.x - edge.start.x).units) / hypot(dx, dy)


def jambs(of: Room, name: str) -> list[tuple[float, float]]:
    return [(float(p.x.units), float(p.y.units)) for p in of.jambs(of.opening(name))]


def check_moved(before: Room, name: str, by: Length) -> bool:
    """What every moved edge must keep to; whether it could be moved."""
    after = edge_moved(before, name, by)
    if after is None:
        return False
    old, new = before.edge(name), after.edge(name)
    # shapely's own offset of the old line, outward (a negative distance is to the right).
    wanted = line(old).offset_curve(-float(by.units))
    (ax, ay), (bx, end_y) = wanted.coords
    assert all(abs(off_line(old, p) - by.units) < HAIR for p in (new.start, new.end))
    small, large = polygon(before), polygon(after)
    assert large.is_valid
    assert large.exterior.is_ccw
    assert large.area > small.area
    assert small.difference(large.buffer(HAIR)).area == 0
    # Nothing is gained but between the old line and the new one.
    gained = large.difference(small.buffer(HAIR, join_style="mitre"))
    along = shapely.LineString(
        [(ax - 9 * (bx - ax), ay - 9 * (end_y - ay)), (bx + 9 * (bx - ax), end_y + 9 * (end_y - ay))]
    )
    strip = along.buffer(float(by.units) + 2 * HAIR, single_sided=True)
    assert gained.difference(strip).area <= HAIR * wanted.length
    slid = {old.start, old.end}
    for was, now in zip(before.edges, after.edges, strict=True):
        assert (was.name, was.kind, was.forward) == (now.name, now.kind, now.forward)
        for p, q in ((was.start, now.start), (was.end, now.end)):
            assert p == q or p in slid
            assert was.name == name or off_line(was, q) < HAIR
    assert [letter for letter, _ in before.corners] == [letter for letter, _ in after.corners]
    assert sorted(p for _, p in after.corners) == sorted(after.outline)
    for edge in after.edges:
        ends = dict(after.corners)[edge.name[0]], dict(after.corners)[edge.name[1]]
        assert ends == ((edge.start, edge.end) if edge.forward else (edge.end, edge.start))
    check_openings(before, after, name, by)
    return True


def check_openings(before: Room, after: Room, name: str, by: Length) -> None:
    """Those of the moved edge have gone straight out with it, all others are where they were, and as wide."""
    edge = before.edge(name)
    dx, dy = edge.end.x.units - edge.start.x.units, edge.end.y.units - edge.start.y.units
    out = (dy * by.units / hypot(dx, dy), -dx * by.units / hypot(dx, dy))
    for was, now in zip(before.openings, after.openings, strict=True):
        assert replace(was, offset=now.offset) == now
        shift = out if was.edge == name else (0.0, 0.0)
        for (ax, ay), (bx, by_) in zip(jambs(before, was.name), jambs(after, was.name), strict=True):
            assert hypot(bx - ax - shift[0], by_ - ay - shift[1]) < 2 * HAIR


def test_a_side_of_a_rectangle() -> None:
    before = room((0, 0), (100, 0), (100, 60), (0, 60))
    after = edge_moved(before, "BC", inch(2.25))
    assert after is not None
    assert after.corners[1:3] == (("B", Point(inch(102.25), ZERO)), ("C", Point(inch(102.25), inch(60))))
    assert (after.edge("AB").length, after.edge("BC").length) == (inch(102.25), inch(60))
    assert check_moved(before, "BC", inch(2.25))


@pytest.mark.parametrize("clockwise", [False, True])
def test_the_first_corner_moves(clockwise: bool) -> None:
    """The first side, or the last, takes the first corner along."""
    before = room((0, 0), (100, 0), (100, 60), (0, 60), clockwise=clockwise)
    after = edge_moved(before, "DA", inch(3))
    assert after is not None
    there = Point(ZERO, inch(-3)) if clockwise else Point(inch(-3), ZERO)
    assert after.corners[0] == ("A", there)
    assert all(check_moved(before, edge.name, inch(3)) for edge in before.edges)


@pytest.mark.parametrize("clockwise", [False, True])
@pytest.mark.parametrize("edge", ["AB", "BC", "CD", "DA"])
def test_openings_stay_or_go_straight_out(edge: str, clockwise: bool) -> None:
    """In the moved edge, in either neighbour, and in the edge across."""
    doors = tuple(Opening(f"door {e}", e, inch(at), inch(20), hinge=Hinge.SECOND) for e, at in _places())
    before = room((0, 0), (101.5, -7.3), (93.1, 66.6), (-4.4, 58.2), clockwise=clockwise, openings=doors)
    assert check_moved(before, edge, inch(5.5))


def _places() -> tuple[tuple[str, float], ...]:
    return ("AB", 2), ("BC", 11), ("CD", 40), ("DA", 3)


@pytest.mark.parametrize("clockwise", [False, True])
def test_a_door_in_a_corner_stays_there(clockwise: bool) -> None:
    """Where walls stand square to each other but to no axis, so that every corner is rounded."""
    turned = ((0, 0), (96.123, 28.037), (78.909, 87.056), (-17.214, 59.019))
    doors = tuple(Opening(f"door {e}", e, ZERO, inch(20)) for e in ("AB", "CD"))
    before = room(*turned, clockwise=clockwise, openings=doors)
    assert all(check_moved(before, edge.name, inch(n)) for edge in before.edges for n in (0.0625, 1, 7.3))


def test_a_door_beyond_a_leaning_wall() -> None:
    """Straight out of a corner into which the next wall leans there is no room for the door any more."""
    shape = ((0, 0), (100, 0), (90, 60), (0, 60))
    before = room(*shape, openings=(Opening("door", "CD", ZERO, inch(20)),))
    assert edge_moved(before, "AB", inch(3)) is not None
    assert edge_moved(before, "CD", inch(3)) is None


def test_an_opening_that_no_longer_fits() -> None:
    """Where a neighbour becomes shorter than where its door stands, the edge is not moved."""
    shape = ((0, 0), (100, 0), (100, 60), (60, 60), (60, 40), (0, 40))
    before = room(*shape, openings=(Opening("gate", "DE", ZERO, inch(14)),))
    assert edge_moved(room(*shape), "EF", inch(10)) is not None
    assert edge_moved(before, "EF", inch(6)) is not None
    assert edge_moved(before, "EF", inch(6.5)) is None


def test_a_neighbour_never_vanishes() -> None:
    shape = ((0, 0), (100, 0), (100, 60), (60, 60), (60, 40), (0, 40))
    assert check_moved(room(*shape), "EF", inch(19.9))
    assert edge_moved(room(*shape), "EF", inch(20)) is None
    assert edge_moved(room(*shape), "EF", inch(25)) is None


def test_an_edge_never_meets_another_part() -> None:
    """The inner side of a hook moved outward comes to the tip of the hook."""
    hook = ((0, 0), (100, 0), (100, 80), (50, 80), (50, 60), (90, 60), (90, 20), (40, 20), (40, 90), (0, 90))
    names = "ABCDEFGHIJ"
    walk = [Point(inch(x), inch(y)) for x, y in hook]
    edges = tuple(
        Edge(f"{a}{b}", EdgeKind.WALL, p, q)
        for (a, p), (b, q) in pairwise(zip((*names, "A"), (*walk, walk[0]), strict=True))
    )
    before = Room(tuple(zip(names, walk, strict=True)), edges)
    assert edge_moved(before, "HI", inch(9)) is not None
    assert edge_moved(before, "HI", inch(10)) is None
    assert edge_moved(before, "HI", inch(12)) is None


def test_nearly_parallel_neighbours_are_refused() -> None:
    """A corner of less than six degrees from straight would slide by more than ten times as much."""
    assert edge_moved(room((0, 0), (50, 2), (100, 0), (100, 60), (0, 60)), "AB", inch(1)) is None
    assert edge_moved(room((0, 0), (50, -9), (100, 0), (100, 60), (0, 60)), "AB", inch(1)) is not None


def test_things_moved() -> None:
    thing = Obstacle("bowl", (Point(inch(10), inch(20)),), inch(6), inch(12), open_flame=True)
    there = obstacle_moved(thing, inch(-3), inch(0.5))
    assert there == replace(thing, core=(Point(inch(7), inch(20.5)),))


def test_edges_of_random_rooms() -> None:
    """Rectangles, skew and concave rooms, walked in both directions, with doors anywhere."""
    moved, refused, seen = 0, 0, set()
    for seed in range(90):
        before = projects(seed, (*KINDS, *WALLED)).room
        random = Random(f"moved {seed}")
        for edge in before.edges:
            by = inch(random.choice((0.0625, 0.25, 1.5, 7, 24)))
            if check_moved(before, edge.name, by):
                moved += 1
                seen.add((edge.forward, len(before.edges), bool(before.openings)))
            else:
                refused += 1
    assert moved > 250
    assert refused > 10
    assert {(forward, doors) for forward, _, doors in seen} == {(a, b) for a in (True, False) for b in (True, False)}
    assert {corners for _, corners, _ in seen} == {4, 5, 6, 8}


def test_steps_of_an_edge_hold_each_other() -> None:
    """What lies in a room lies in every room whose edge is farther out."""
    for seed in range(20):
        before = projects(seed).room
        for edge in before.edges:
            rooms = [found for n in (1, 4, 9, 30) if (found := edge_moved(before, edge.name, inch(n / 4))) is not None]
            for near, far in pairwise([before, *rooms]):
                assert polygon(near).difference(polygon(far).buffer(HAIR)).area == 0
                assert signed_area(far.outline) > signed_area(near.outline)
