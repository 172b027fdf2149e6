"""The two walls along a route: what lies on the left and on the right of one who walks it.

The two openings split the outline into a left and a right chain. An opening that is narrower than its
route counts as if it were as wide, so that a narrow door is not taken for a blocked way.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from math import dist

from rooms.room import Edge, Opening, Room, Route

_HAIR = 0.001
"""Units: far more than floats of this size are off by."""

_ROUNDING = 4.0
"""Units (0.0005 in): what distances along an edge, each rounded to a unit, may together be off by."""

Spot = tuple[float, float]


@dataclass(frozen=True)
class Wall:
    """A straight piece of the outline.

    Args:
        edge: name of the edge that it is part of.
        start: where it begins on an anticlockwise walk, in units.
        end: where it ends; the same as `start` where nothing but a point is left.
    """

    edge: str
    start: Spot
    end: Spot


@dataclass(frozen=True)
class Chains:
    """The outline as one sees it who walks a route from its start to its end.

    Args:
        left: walls on the left, from the end of the route back to its start; at least a point.
        right: walls on the right, from the start of the route to its end; at least a point.
        start: the opening as widened, from jamb to jamb, going round corners of the outline.
        end: the same at the other end.
    """

    left: tuple[Wall, ...]
    right: tuple[Wall, ...]
    start: tuple[Spot, ...]
    end: tuple[Spot, ...]


def chains(room: Room, route: Route) -> Chains:
    """Cut the outline at the jambs of both openings, each widened to the route's width.

    The tolerance is added to the width on both sides, since the walls beside the opening lose it. An
    opening is widened to both sides alike, round the corner where it stands in a corner, and then as much
    farther as it takes until the straight way across is wide enough, but on each side by no more than was
    missing. A corner that juts into the room ends the wall, so that only the other side gives way; and a
    widened opening takes at most half of the wall that lies between it and the other one.

    Args:
        room: the room that the route belongs to.
        route: joins two different openings of the room.

    Returns:
        Both chains and both widened openings.

    Raises:
        ValueError: the route goes from an opening to itself.
    """
    if route.start == route.end:
        message = f"a route joins two openings, and `{route.name}` goes from `{route.start}` to itself"
        raise ValueError(message)
    walk = _Walk(room)
    start, end = walk.span(room.opening(route.start)), walk.span(room.opening(route.end))
    right, left = walk.ahead(start[1], end[0]), walk.ahead(end[1], start[0])
    need = float((route.width + 2 * room.tolerance).units)
    a = walk.widened(start, need, left / 2, right / 2)
    b = walk.widened(end, need, right / 2, left / 2)
    return Chains(
        walk.walls(b[1], b[1] + left - (start[0] - a[0]) - (b[1] - end[1])),
        walk.walls(a[1], a[1] + right - (end[0] - b[0]) - (a[1] - start[1])),
        walk.spots(*a),
        walk.spots(*b),
    )


class _Walk:
    """The outline by the distance walked along it, anticlockwise from its first corner."""

    def __init__(self, room: Room) -> None:
        forward = room.edges[0].forward
        self.edges: Sequence[Edge] = room.edges if forward else room.edges[::-1]
        self.corners: list[Spot] = [(edge.start.x.units, edge.start.y.units) for edge in self.edges]
        sizes = [dist(a, b) for a, b in pairwise([*self.corners, self.corners[0]])]
        self.marks = [0.0, *accumulate(sizes)]
        self.length = self.marks[-1]
        ways = [(b[0] - a[0], b[1] - a[1]) for a, b in pairwise([*self.corners, self.corners[0]])]
        self.juts = [
            mark
            for mark, into, out in zip(self.marks, [ways[-1], *ways], ways, strict=False)
            if into[0] * out[1] - into[1] * out[0] < 0
        ]

    def span(self, opening: Opening) -> tuple[float, float]:
        """Where the jambs of an opening stand."""
        index = [edge.name for edge in self.edges].index(opening.edge)
        size = self.marks[index + 1] - self.marks[index]
        width, offset = opening.width.units, opening.offset.units
        near = self.marks[index] + (offset if self.edges[index].forward else size - offset - width)
        return near, near + width

    def widened(self, span: tuple[float, float], need: float, before: float, after: float) -> tuple[float, float]:
        """A span made at least `need` wide, taking no more than `before` and `after` at its sides."""

        def grown(more: float) -> tuple[float, float]:
            return span[0] - min(more, before), span[1] + min(more, after)

        def across(more: float) -> float:
            low, high = grown(more)
            return dist(self.at(low), self.at(high))

        lack = need - (span[1] - span[0])
        if lack <= 0:
            return span
        need -= _HAIR  # or rounding would pass over a way that is just wide enough at the last step
        before = min([before, *(self.ahead(mark, span[0]) for mark in self.juts)])
        after = min([after, *(self.ahead(span[1], mark) for mark in self.juts)])
        turns = [
            step
            for mark in self.marks
            for step in (self.ahead(mark, span[0]), self.ahead(span[1], mark), before, after)
            if lack / 2 < step < lack
        ]
        # Between two of these steps both jambs move straight, so the way across is convex in the step.
        steps = [lack / 2, *sorted(turns), lack]
        if across(steps[0]) >= need:
            return grown(steps[0])
        for low, high in pairwise(steps):
            if across(high) >= need:
                for _ in range(60):
                    middle = (low + high) / 2
                    low, high = (low, middle) if across(middle) >= need else (middle, high)
                return grown(high)
        return grown(lack)

    def ahead(self, near: float, far: float) -> float:
        """How far one place lies ahead of another; 0 where rounding alone put it behind."""
        return max(0.0, (far - near + _ROUNDING) % self.length - _ROUNDING)

    def at(self, distance: float) -> Spot:
        """The point that lies `distance` along the walk."""
        distance %= self.length
        index = max(k for k in range(len(self.edges)) if self.marks[k] <= distance)
        a, b = self.corners[index], self.corners[(index + 1) % len(self.corners)]
        share = (distance - self.marks[index]) / (self.marks[index + 1] - self.marks[index])
        return a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])

    def stations(self, low: float, high: float) -> list[float]:
        """Both ends of a stretch and the corners that it goes round."""
        turns = [mark + turn * self.length for turn in (-1, 0, 1, 2) for mark in self.marks[:-1]]
        return [low, *(mark for mark in sorted(turns) if low + _ROUNDING < mark < high - _ROUNDING), max(low, high)]

    def spots(self, low: float, high: float) -> tuple[Spot, ...]:
        """A stretch of the outline as a line."""
        return tuple(self.at(station) for station in self.stations(low, high))

    def walls(self, low: float, high: float) -> tuple[Wall, ...]:
        """A stretch of the outline as walls that know their edge."""
        return tuple(
            Wall(self._edge((a + b) / 2), self.at(a), self.at(b)) for a, b in pairwise(self.stations(low, high))
        )

    def _edge(self, distance: float) -> str:
        distance %= self.length
        return self.edges[max(k for k in range(len(self.edges)) if self.marks[k] <= distance)].name
