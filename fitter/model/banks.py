"""The outline on both banks of a route, cut at the jambs of its two openings, each made as wide as the route needs."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from itertools import accumulate, pairwise
from math import dist

import shapely

from rooms.lengths import Length
from rooms.room import Opening, Point, Room, Route

DUST = 4.0
"""Units (0.0005 in): by how much a place along the outline, or a gap, may be off in floats."""

WIDENING_STEPS = 128
"""Fine enough to find where a way round a corner is first wide enough."""

Line = tuple[Point, Point]


@dataclass(frozen=True)
class Tip:
    """A jamb that no wall of its bank stands for: a post between two openings, or a corner that juts into the room.

    Args:
        point: on the outline.
        behind: edges of the outline; nothing that lies wholly behind one of them (to its right) sees the tip.
    """

    point: Point
    behind: tuple[Line, ...]


@dataclass(frozen=True)
class Bank:
    """The outline on one side of a route.

    Args:
        points: anticlockwise, the room on the left; a single one where the openings leave no wall between them.
        tips: jambs that need to be looked at for themselves.
    """

    points: tuple[Point, ...]
    tips: tuple[Tip, ...]

    @property
    def walls(self) -> tuple[Line, ...]:
        """Its straight stretches."""
        return tuple(pairwise(self.points))


def banks(room: Room, route: Route) -> tuple[Bank, Bank]:
    """The left and the right bank, as one walks from the route's start to its end.

    The outline that begins after the first opening's second jamb, on an anticlockwise walk, lies to the
    right of a person who enters there.

    Raises:
        ValueError: the route goes from an opening to itself.
    """
    if route.start == route.end:
        message = f"a route joins two openings, and `{route.name}` goes from `{route.start}` to itself"
        raise ValueError(message)
    walk = _Walk(room)
    # Jambs lose the tolerance like any wall, so the widened opening makes up for both.
    need = float((route.width + 2 * room.tolerance).units)
    (a0, a1), (b0, b1) = (walk.jambs(room.opening(name)) for name in (route.start, route.end))
    right, left = walk.ahead(a1, b0), walk.ahead(b1, a0)
    before_a, after_a = walk.widening(a0, a1, need, left / 2, right / 2)
    before_b, after_b = walk.widening(b0, b1, need, right / 2, left / 2)
    return (
        walk.bank(b1 + after_b, left - after_b - before_a),
        walk.bank(a1 + after_a, right - after_a - before_b),
    )


class _Walk:
    """Places on the outline by their distance from its first corner, anticlockwise, in units."""

    def __init__(self, room: Room) -> None:
        self.room = room
        self.outline = room.outline
        corners = [xy(point) for point in self.outline]
        sides = list(pairwise([*corners, corners[0]]))
        self.ring = shapely.LineString([*corners, corners[0]])
        self.length = float(self.ring.length)
        self.marks = [0.0, *accumulate(dist(a, b) for a, b in sides[:-1])]
        self.turns = [_turn(before[0], *side) for before, side in zip([sides[-1], *sides], sides, strict=False)]

    @cached_property
    def juts(self) -> list[float]:
        """Where corners jut into the room."""
        return [mark for mark, turn in zip(self.marks, self.turns, strict=True) if turn < 0]

    def jambs(self, opening: Opening) -> tuple[float, float]:
        """Both jambs, the one met first on the walk first."""
        first, second = (xy(point) for point in self.room.jambs(opening))
        # Counted along the opening's own edge: where flanks of a thin wall touch, the nearest edge may be another.
        edge = self.room.edge(opening.edge)
        start = self.marks[self.outline.index(edge.start)] + dist(xy(edge.start), first)
        return start, start + dist(first, second)

    def widening(self, low: float, high: float, need: float, before: float, after: float) -> tuple[float, float]:
        """How far to move each jamb outward until the straight way across is `need`.

        Both move alike, along the outline and round its corners, by half of what is missing up to all of it;
        but by no more than `before` and `after`, half of the wall that lies between both openings, and not
        past a corner that juts into the room.
        """
        lack = max(0.0, need - (high - low))
        need -= 0.5  # or rounding would pass over a way that is just wide enough at the last step
        before = min([before, *(self.ahead(jut, low) for jut in self.juts)])
        after = min([after, *(self.ahead(high, jut) for jut in self.juts)])

        def across(more: float) -> float:
            return dist(self._at(low - min(more, before)), self._at(high + min(more, after)))

        steps = [lack / 2 * (1 + n / WIDENING_STEPS) for n in range(WIDENING_STEPS + 1)]
        far = next((n for n, more in enumerate(steps) if across(more) >= need), None)
        more = lack if far is None else steps[far]
        if far:
            near = steps[far - 1]
            for _ in range(50):
                middle = (near + more) / 2
                near, more = (near, middle) if across(middle) >= need else (middle, more)
        return min(more, before), min(more, after)

    def bank(self, start: float, span: float) -> Bank:
        """A stretch of the outline; a single point where nothing is left."""
        span = max(0.0, span)
        inner = sorted(ahead for mark in self.marks if DUST < (ahead := (mark - start) % self.length) < span - DUST)
        points = [self._point(start + ahead) for ahead in (0.0, *inner, span)]
        kept = tuple(p for n, p in enumerate(points) if n == 0 or p != points[n - 1])
        if len(kept) == 1:
            return Bank(kept, (Tip(kept[0], self._edges_at(start)),))
        tips = [
            Tip(point, (self._edge(corner + step),))
            for point, station, step in ((kept[0], start, -1), (kept[-1], start + span, 0))
            if (corner := self._corner(station)) is not None and self.turns[corner] < 0
        ]
        return Bank(kept, tuple(tips))

    def _edges_at(self, station: float) -> tuple[Line, ...]:
        """Edges that hide what lies behind any one of them from a point of the outline."""
        corner = self._corner(station)
        if corner is None:
            station %= self.length
            return (self._edge(max(n for n, mark in enumerate(self.marks) if mark <= station)),)
        # The tip of a jutting corner is seen from in front of either of its edges.
        return (self._edge(corner - 1), self._edge(corner)) if self.turns[corner] >= 0 else ()

    def _edge(self, index: int) -> Line:
        return self.outline[index % len(self.outline)], self.outline[(index + 1) % len(self.outline)]

    def _corner(self, station: float) -> int | None:
        """The corner that lies at a place along the outline."""
        return next((n for n, mark in enumerate(self.marks) if abs(self.ahead(mark, station)) <= DUST), None)

    def ahead(self, near: float, far: float) -> float:
        """How far one place lies ahead of another; 0 where rounding alone put it behind."""
        ahead = (far - near + DUST) % self.length - DUST
        return max(0.0, ahead)

    def _at(self, station: float) -> tuple[float, float]:
        point = self.ring.interpolate(station % self.length)
        return point.x, point.y

    def _point(self, station: float) -> Point:
        corner = self._corner(station)
        if corner is not None:
            return self.outline[corner]
        x, y = self._at(station)
        return Point(Length(round(x)), Length(round(y)))


def xy(point: Point) -> tuple[float, float]:
    """A point for shapely."""
    return float(point.x.units), float(point.y.units)


def _turn(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> float:
    """Positive when a, b, c turn left."""
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])
