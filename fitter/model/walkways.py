"""Walkways without search: a disc passes iff the furniture can be counted to one bank of the route.

The two openings of a route split the outline into a left and a right chain. Obstacles too near to a chain
for the disc to pass between belong to that bank. The furniture is one connected thing: the disc gets through iff
it keeps the route's width from everything of the left bank, or from everything of the right bank.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from math import dist

import shapely

from fitter.model.pieces import convex_parts
from rooms.lengths import Length
from rooms.room import Obstacle, Opening, Point, Room, Route

WIDENING_STEPS = 128  # fine enough to find where a way round a corner is first wide enough
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


def _bars(room: Room, route: Route, chain: Sequence[Point], bank: Sequence[int | None], side: int) -> Iterator[Bar]:
    keep = route.width + room.tolerance
    if len(chain) == 1:
        yield Bar((chain[0],), keep, wall=False)
    for points in pairwise(chain):
        yield Bar(points, keep, wall=True)
    for obstacle, where in zip(room.obstacles, bank, strict=True):
        if where == side:
            for part in convex_parts(obstacle.core):
                yield Bar(part, keep + obstacle.radius, wall=False)


def _chains(room: Room, route: Route) -> tuple[list[Point], list[Point]]:
    """The outline between the two openings, anticlockwise both: the left bank, then the right bank.

    The outline that begins after the first opening's second jamb, on an anticlockwise walk, lies to the
    right of a person who enters there.
    """
    walk = _Walk(room)
    # Jambs lose the tolerance like any wall, so the widened opening makes up for both.
    need = float((route.width + 2 * room.tolerance).units)
    (a0, a1), (b0, b1) = (walk.jambs(room.opening(name)) for name in (route.start, route.end))
    right, left = (b0 - a1) % walk.length, (a0 - b1) % walk.length
    before_a, after_a = walk.widening(a0, a1, need, left / 2, right / 2)
    before_b, after_b = walk.widening(b0, b1, need, right / 2, left / 2)
    return (
        walk.between(b1 + after_b, left - after_b - before_a),
        walk.between(a1 + after_a, right - after_a - before_b),
    )


class _Walk:
    """Places on the outline by their distance from its first corner, anticlockwise, in units."""

    def __init__(self, room: Room) -> None:
        self.room = room
        outline = [_xy(p) for p in room.outline]
        self.ring = shapely.LineString([*outline, outline[0]])
        self.length = float(self.ring.length)
        sides = pairwise(outline)
        self.corners = [0.0, *accumulate(dist(a, b) for a, b in sides)]
        self.juts = [
            at
            for n, at in enumerate(self.corners)
            if _turn(outline[n - 1], outline[n], outline[(n + 1) % len(outline)]) < 0
        ]

    def jambs(self, opening: Opening) -> tuple[float, float]:
        """Both jambs, the one met first on the walk first."""
        first, second = (_xy(point) for point in self.room.jambs(opening))
        start = float(self.ring.project(shapely.Point(first)))
        return start, start + dist(first, second)

    def widening(self, low: float, high: float, need: float, before: float, after: float) -> tuple[float, float]:
        """How far to move each jamb outward until the straight way across is `need`.

        Both move alike, along the outline and round its corners, by half of what is missing up to all of it;
        but by no more than `before` and `after`, half of the wall that lies between both openings, and not
        past a corner that juts into the room.
        """
        lack = max(0.0, need - (high - low))
        # A jamb that rounding put a hair past a corner still stands at it.
        before = min([before, *((low - jut + DUST) % self.length for jut in self.juts)])
        after = min([after, *((jut - high + DUST) % self.length for jut in self.juts)])

        def across(more: float) -> float:
            return dist(self._at(low - min(more, before)), self._at(high + min(more, after)))

        steps = [lack / 2 * (1 + n / WIDENING_STEPS) for n in range(WIDENING_STEPS + 1)]
        far = next((n for n, more in enumerate(steps) if across(more) >= need), 0)
        more = steps[far]
        if far:
            near = steps[far - 1]
            for _ in range(50):
                middle = (near + more) / 2
                near, more = (near, middle) if across(middle) >= need else (middle, more)
        return min(more, before), min(more, after)

    def between(self, start: float, span: float) -> list[Point]:
        """A stretch of the outline, its corners included; a single point where nothing is left."""
        inner = sorted(ahead for corner in self.corners if 0.5 < (ahead := (corner - start) % self.length) < span - 0.5)
        points = [self._point(start + ahead) for ahead in (0.0, *inner, max(0.0, span))]
        return [p for n, p in enumerate(points) if n == 0 or p != points[n - 1]]

    def _at(self, station: float) -> tuple[float, float]:
        point = self.ring.interpolate(station % self.length)
        return point.x, point.y

    def _point(self, station: float) -> Point:
        x, y = self._at(station)
        return Point(Length(round(x)), Length(round(y)))


def _turn(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> float:
    """Positive when a, b, c turn left."""
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])


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
    return [shapely.LineString([_xy(a), _xy(b)]) for a, b in pairwise(chain)]


def _round(obstacle: Obstacle) -> shapely.Geometry:
    core = [_xy(p) for p in obstacle.core]
    if len(core) == 1:
        return shapely.Point(core[0]).buffer(obstacle.radius.units, quad_segs=64)
    return shapely.Polygon(core)


def _xy(point: Point) -> tuple[float, float]:
    return float(point.x.units), float(point.y.units)
