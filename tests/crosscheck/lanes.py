"""What lies left and right of a route: the outline cut at both openings, widened where they are narrow."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate, pairwise

import shapely
from cones import Vec, cross, root_above
from frames import Ring, outline

from fitter.domain.project import Project
from rooms.room import Obstacle, Opening, Room, Route

HALVINGS = 60
Stretch = tuple[Fraction, Fraction]
"""From where to where along the outline, walked anticlockwise."""


@dataclass(frozen=True)
class Lane:
    """A route between its two walls, in units of the room.

    Args:
        left: pieces of the outline on the left, each from end to end.
        right: the same on the right.
        past: least distance from the layout to what lies on its other side.
        may_be_left: for each obstacle, whether the way past it on its right is wide enough.
        may_be_right: for each obstacle, whether the way past it on its left is wide enough.
        same: pairs of obstacles that are too near to each other for the route to pass between.
        blocked: whether the walls alone close it.
    """

    left: tuple[Ring, ...]
    right: tuple[Ring, ...]
    past: int
    may_be_left: tuple[bool, ...]
    may_be_right: tuple[bool, ...]
    same: tuple[tuple[int, int], ...]
    blocked: bool


class Walk:
    """The outline by the distance walked along it."""

    def __init__(self, room: Room) -> None:
        self.room = room
        self.ring = outline(room)
        self.sides = list(pairwise((*self.ring, self.ring[0])))
        self.marks = [Fraction(0), *accumulate(root_above(_square(a, b)) for a, b in self.sides)]
        self.length = self.marks[-1]
        # A corner that juts into the room ends the wall beside a door.
        self.juts = [
            self.marks[i] for i, (b, c) in enumerate(self.sides) if cross(_to(self.sides[i - 1][0], b), _to(b, c)) < 0
        ]

    def point(self, way: Fraction) -> Vec:
        """The point that far along the walk."""
        way %= self.length
        i = bisect_right(self.marks, way) - 1
        a, b = self.sides[i]
        share = (way - self.marks[i]) / (self.marks[i + 1] - self.marks[i])
        return a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])

    def opening(self, opening: Opening) -> Stretch:
        """Where its jambs stand."""
        edge = self.room.edge(opening.edge)
        i = [edge.start == p for p in self.room.outline].index(True)
        whole = self.marks[i + 1] - self.marks[i]
        width = opening.width.units
        near = Fraction(opening.offset.units) if edge.forward else whole - opening.offset.units - width
        return self.marks[i] + near, self.marks[i] + near + width

    def pieces(self, low: Fraction, high: Fraction) -> tuple[Ring, ...]:
        """The straight pieces of the walk between two places; one of no length where they are the same."""
        if high < low:
            high += self.length
        corners = [mark + turn * self.length for turn in (-1, 0, 1) for mark in self.marks[:-1]]
        stops = [low, *(mark for mark in corners if low < mark < high), high]
        return tuple((self.point(a), self.point(b)) for a, b in pairwise(stops))

    def widened(self, jambs: Stretch, least: int, room_low: Fraction, room_high: Fraction) -> Stretch:
        """Both jambs moved outward alike until the straight way between them is `least`."""
        low, high = jambs
        missing = least - (high - low)
        if missing <= 0:
            return jambs
        room_low = min([room_low, *((low - jut) % self.length for jut in self.juts)])
        room_high = min([room_high, *((jut - high) % self.length for jut in self.juts)])

        def moved(by: Fraction) -> Stretch:
            return low - min(by, room_low), high + min(by, room_high)

        def wide(by: Fraction) -> bool:
            a, b = moved(by)
            return _square(self.point(a), self.point(b)) >= least * least

        turns = [(low - mark) % self.length for mark in self.marks] + [
            (mark - high) % self.length for mark in self.marks
        ]
        steps = sorted({missing / 2, missing, *(t for t in (*turns, room_low, room_high) if missing / 2 < t < missing)})
        if wide(steps[0]):
            return moved(steps[0])
        for short, enough in pairwise(steps):
            if wide(enough):
                for _ in range(HALVINGS):
                    middle = (short + enough) / 2
                    short, enough = (short, middle) if wide(middle) else (middle, enough)
                return moved(enough)
        return moved(missing)


def lanes(project: Project, in_the_way: tuple[Obstacle, ...]) -> tuple[Lane, ...]:
    """Every route of a project past obstacles that stand in its way.

    Gaps are told apart by their shortest line alone: where that is cut off by a wall, the gap is taken for none.
    """
    walk = Walk(project.room)
    return tuple(_lane(walk, route, in_the_way) for route in project.room.routes)


def _lane(walk: Walk, route: Route, obstacles: tuple[Obstacle, ...]) -> Lane:
    room = walk.room
    least = (route.width + 2 * room.tolerance).units
    start, end = walk.opening(room.opening(route.start)), walk.opening(room.opening(route.end))
    right_half, left_half = (end[0] - start[1]) % walk.length / 2, (start[0] - end[1]) % walk.length / 2
    a, b = walk.widened(start, least, left_half, right_half), walk.widened(end, least, right_half, left_half)
    right, left = (
        walk.pieces(a[1] % walk.length, b[0] % walk.length),
        walk.pieces(b[1] % walk.length, a[0] % walk.length),
    )
    loops = [(_loop(o), o.radius.units) for o in obstacles]
    inside = shapely.Polygon(walk.ring).buffer(1)

    def near(one: Ring, other: Ring, distance: int) -> bool:
        """Whether no disc gets through between, the wall that may lie between them not counted."""
        if square_distance(one, other) >= Fraction(distance) ** 2:
            return False
        return bool(inside.covers(shapely.shortest_line(shapely.LineString(one), shapely.LineString(other))))

    return Lane(
        left=left,
        right=right,
        past=(route.width + room.tolerance).units,
        may_be_left=tuple(not any(near(core, part, least + r) for part in right) for core, r in loops),
        may_be_right=tuple(not any(near(core, part, least + r) for part in left) for core, r in loops),
        same=tuple(
            (i, j)
            for j, (b, rb) in enumerate(loops)
            for i, (a, ra) in enumerate(loops[:j])
            if near(a, b, least + ra + rb)
        ),
        # Jambs of a widened opening may be a hair too near.
        blocked=any(near(one, other, least - 2) for one in left for other in right),
    )


def _loop(obstacle: Obstacle) -> Ring:
    core = tuple((Fraction(p.x.units), Fraction(p.y.units)) for p in obstacle.core)
    return (*core, core[0])


def square_distance(a: Ring, b: Ring) -> Fraction:
    """The squared distance between two open chains that do not cross (a ring repeats its first point)."""
    return min(
        min(_to_segment(p, s) for p, s in ((s[0], t), (s[1], t), (t[0], s), (t[1], s)))
        for s in pairwise(a)
        for t in pairwise(b)
    )


def _to_segment(p: Vec, segment: tuple[Vec, Vec]) -> Fraction:
    a, b = segment
    along, reach = _to(a, b), _to(a, p)
    length = along[0] ** 2 + along[1] ** 2
    share = (along[0] * reach[0] + along[1] * reach[1]) / length if length else Fraction(0)
    share = min(max(share, Fraction(0)), Fraction(1))
    x, y = reach[0] - share * along[0], reach[1] - share * along[1]
    return x * x + y * y


def _to(a: Vec, b: Vec) -> Vec:
    return b[0] - a[0], b[1] - a[1]


def _square(a: Vec, b: Vec) -> Fraction:
    return (a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2
