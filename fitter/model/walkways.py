"""Walkways without search: a disc passes iff the furniture can be counted to one bank of the route.

The two openings of a route split the outline into a left and a right chain. Obstacles too near to a chain
for the disc to pass between belong to that bank. The furniture is one connected thing: the disc gets through iff
it keeps the route's width from everything of the left bank, or from everything of the right bank.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import shapely

from fitter.model.pieces import convex_parts
from rooms.lengths import Length
from rooms.room import Obstacle, Opening, Point, Room, Route

DUST = 4.0  # units (0.0005 in): how far a gap may graze a wall and still run through the inside


@dataclass(frozen=True)
class Bar:
    """A convex thing on a bank, and the distance that furniture of the other bank keeps from it.

    Args:
        points: one, two (a stretch of the outline, the room on its left) or more, anticlockwise.
        keep: width of the route, plus the tolerance, plus the radius of a round thing.
        wall: whether it is a stretch of the outline, behind which a gap runs through the wall.
    """

    points: tuple[Point, ...]
    keep: Length
    wall: bool


@dataclass(frozen=True)
class Walkway:
    """A route with its banks.

    Args:
        route: as asked.
        banks: things of the left bank and of the right bank (left as one walks from start to end).
        blocked: names of two things whose gap is too narrow with no furniture at all; None if there are none.
    """

    route: Route
    banks: tuple[tuple[Bar, ...], tuple[Bar, ...]]
    blocked: tuple[str, str] | None


def walkways(room: Room) -> tuple[Walkway, ...]:
    """The banks of every route of a room."""
    return tuple(_walkway(room, route) for route in room.routes)


def _walkway(room: Room, route: Route) -> Walkway:
    left, right = _chains(room, route)
    inside = shapely.Polygon([_xy(p) for p in room.outline]).buffer(DUST)
    width, tolerance = route.width.units, room.tolerance.units

    shapes = [_round(o) for o in room.obstacles]
    chains = [_lines(left), _lines(right)]
    bank: list[int | None] = [None] * len(shapes)
    # A gap between a wall and an obstacle loses the tolerance of both.
    least = width + 2 * tolerance - DUST
    blocked = None if _gap(chains[0], chains[1], inside) >= least else ("one side of the room", "the other side")
    waiting = [(side, chains[side], "the room's edge") for side in (0, 1)]
    while waiting:
        side, line, name = waiting.pop()
        for n, shape in enumerate(shapes):
            if bank[n] != side and _gap(line, [shape], inside) < least:
                if bank[n] is None:
                    bank[n] = side
                    waiting.append((side, [shape], room.obstacles[n].name))
                else:
                    blocked = blocked or (name, room.obstacles[n].name)
    banks = tuple(tuple(_bars(room, route, chain, bank, side)) for side, chain in enumerate((left, right)))
    return Walkway(route, (banks[0], banks[1]), blocked)


def _bars(
    room: Room, route: Route, chain: Sequence[Point], bank: Sequence[int | None], side: int
) -> Iterator[Bar]:
    keep = route.width + room.tolerance
    if len(chain) == 1:
        yield Bar((chain[0],), keep, wall=False)
    for points in zip(chain, chain[1:], strict=False):
        yield Bar(points, keep, wall=True)
    for obstacle, where in zip(room.obstacles, bank, strict=True):
        if where == side:
            for part in convex_parts(obstacle.core):
                yield Bar(part, keep + obstacle.radius, wall=False)


def _chains(room: Room, route: Route) -> tuple[list[Point], list[Point]]:
    """The outline between the two openings, anticlockwise both: the left bank, then the right bank.

    Walking from the first opening into the room, the outline that begins at its first jamb's far side, that is
    after its second jamb anticlockwise, lies to the right.
    """
    walk = _Walk(room)
    # Jambs lose the tolerance like any wall, so the widened opening makes up for both.
    width = route.width + 2 * room.tolerance
    a, b = (walk.widened(room.opening(name), width) for name in (route.start, route.end))
    right = walk.between(a[1], b[0])
    left = walk.between(b[1], a[0])
    return left, right


class _Walk:
    """Places on the outline by their distance from its first corner, anticlockwise, in units."""

    def __init__(self, room: Room) -> None:
        self.room = room
        outline = room.outline
        self.corners: list[tuple[float, Point]] = []
        done = 0.0
        for here, after in zip(outline, (*outline[1:], outline[0]), strict=True):
            self.corners.append((done, here))
            done += shapely.Point(_xy(here)).distance(shapely.Point(_xy(after)))
        self.length = done
        self.ring = shapely.LineString([_xy(p) for p in (*outline, outline[0])])

    def widened(self, opening: Opening, width: Length) -> tuple[float, float]:
        """Both jambs of an opening, moved apart evenly to at least `width`, round corners if need be."""
        first, second = self.room.jambs(opening)
        start = self.station(first)
        span = shapely.Point(_xy(first)).distance(shapely.Point(_xy(second)))
        extra = max(0.0, width.units - span) / 2
        return start - extra, start + span + extra

    def station(self, point: Point) -> float:
        """Where a point of the outline lies along the walk."""
        return float(self.ring.project(shapely.Point(_xy(point))))

    def between(self, start: float, end: float) -> list[Point]:
        """The outline from one place to another; a single point where they meet or pass each other."""
        span = (end - start) % self.length
        if span > self.length - 1e-6 or (end < start and span > self.length / 2 and start - end < self.length / 4):
            return [self.at((start + end) / 2)]
        inner = sorted(
            (ahead, point)
            for at, point in self.corners
            if 0.5 < (ahead := (at - start) % self.length) < span - 0.5
        )
        points = [self.at(start), *(point for _, point in inner), self.at(end)]
        return [p for n, p in enumerate(points) if n == 0 or p != points[n - 1]]

    def at(self, station: float) -> Point:
        """The point of the outline at a place along the walk, to the nearest unit."""
        point = self.ring.interpolate(station % self.length)
        return Point(Length(round(point.x)), Length(round(point.y)))


def _gap(a: Sequence[shapely.Geometry], b: Sequence[shapely.Geometry], inside: shapely.Geometry) -> float:
    """The smallest gap between two groups that runs through the inside, in units."""
    gaps = [float("inf")]
    for one in a:
        for other in b:
            if (gap := one.distance(other)) < min(gaps):
                way = shapely.shortest_line(one, other)
                if gap == 0 or inside.covers(way):
                    gaps.append(gap)
    return min(gaps)


def _lines(chain: Sequence[Point]) -> list[shapely.Geometry]:
    if len(chain) == 1:
        return [shapely.Point(_xy(chain[0]))]
    return [shapely.LineString([_xy(a), _xy(b)]) for a, b in zip(chain, chain[1:], strict=False)]


def _round(obstacle: Obstacle) -> shapely.Geometry:
    core = [_xy(p) for p in obstacle.core]
    if len(core) == 1:
        return shapely.Point(core[0]).buffer(obstacle.radius.units, quad_segs=64)
    return shapely.Polygon(core)


def _xy(point: Point) -> tuple[float, float]:
    return float(point.x.units), float(point.y.units)
