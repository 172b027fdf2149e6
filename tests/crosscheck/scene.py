"""All that stays put in a project, seen from one layout frame as convex things to keep away from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from math import ceil, floor

from cones import Cone, Dir, cross, direction, fine, loose_tangent, polygon, tangent
from frames import Outside, Ring, View, convex_obstacle, outline, outside, swing
from lanes import Lane, lanes

from fitter.domain.project import Project
from rooms.room import Height, Obstacle

Bound = tuple[Dir, int]
"""A direction, and the least value of u·p over a box."""


@dataclass(frozen=True)
class Thing:
    """A convex thing in one frame, and how far boxes keep from it.

    Args:
        cones: directions in which a box may lie.
        distance: to keep, in marks.
        ways: directions with the least value there of a box that keeps the distance; those last named are a
            little too kind (see `loose_tangent`), the first `sure` of them are not.
        sure: how many.
        behind: for a wall what lies wholly behind it, where it does not narrow the way.
    """

    cones: tuple[Cone, ...]
    distance: Fraction
    ways: tuple[Bound, ...]
    sure: int
    behind: tuple[Bound, ...] = ()


@dataclass(frozen=True)
class Way:
    """A route in one frame: what is left, what is right, and each obstacle in its way with the colours it may take."""

    left: tuple[Thing, ...]
    right: tuple[Thing, ...]
    obstacles: tuple[tuple[Thing, ...], ...]
    lane: Lane


class Ground:
    """What a project's room is in any frame; made once.

    Args:
        project: the problem.
        nudge: marks added to every distance that must be kept.
    """

    def __init__(self, project: Project, nudge: Fraction) -> None:
        self.project, self.nudge = project, nudge
        self.ring = outline(project.room)
        self.outside: Outside = outside(self.ring)
        self.tall = tuple(o for o in project.room.obstacles if o.height is not Height.LOW)
        self.flat = tuple(o for o in project.room.obstacles if o.height is Height.LOW)
        self.lanes = lanes(project, self.tall)

    @property
    def blocked(self) -> bool:
        """Whether the walls alone close a route."""
        return any(lane.blocked for lane in self.lanes)

    @property
    def tolerance(self) -> Fraction:
        """What every box keeps from walls, in marks."""
        return self.marks(self.project.room.tolerance.units)

    def marks(self, units: int) -> Fraction:
        """A distance to keep, in marks, as nudged."""
        return Fraction(units, self.project.mark.units) + self.nudge


class Scene:
    """What boxes keep away from in one frame; its things are made when they are first asked for.

    Args:
        ground: the room.
        view: the frame.
    """

    def __init__(self, ground: Ground, view: View) -> None:
        self.ground, self.view = ground, view
        ring = view.ring(ground.ring)
        self.hull = [(float(x), float(y)) for x, y in ring]
        xs, ys = [p[0] for p in ring], [p[1] for p in ring]
        self.reach = floor(min(xs)), ceil(max(xs)), floor(min(ys)), ceil(max(ys))
        """Least and greatest x, then y, of the room."""

    @cached_property
    def planes(self) -> tuple[Bound, ...]:
        """The half planes that hold the room, the tolerance taken off."""
        cos, sin = self.view.cos, self.view.sin
        found = []
        for u, at in self.ground.outside.planes:
            turned = direction(cos * u[0] + sin * u[1], cos * u[1] - sin * u[0])
            found.append((turned, tangent(turned, self.view.see(at), self.ground.tolerance)))
        return tuple(found)

    @cached_property
    def pockets(self) -> tuple[Thing, ...]:
        """What lies outside the room but within its hull."""
        parts = self.ground.outside.pockets
        return tuple(self._thing(polygon(self.view.ring(part)), self.ground.tolerance) for part in parts)

    @cached_property
    def hard(self) -> tuple[Thing, ...]:
        """What all that stands or overhangs keeps off, beside the hull."""
        room = self.ground.project.room
        swings = (swing(self.view, room, opening) for opening in room.openings)
        doors = (self._thing(cones, self.ground.tolerance) for cones in swings if cones is not None)
        return (*self.pockets, *self._obstacles(self.ground.tall, clear=True), *doors)

    @cached_property
    def open(self) -> tuple[Thing, ...]:
        """What leg room keeps off, beside the hull."""
        return (*self.pockets, *self._obstacles(self.ground.tall, clear=False))

    @cached_property
    def low(self) -> tuple[Thing, ...]:
        """What feet keep off, beside all that."""
        return self._obstacles(self.ground.flat, clear=True)

    @cached_property
    def ways(self) -> tuple[Way, ...]:
        """The routes."""
        return tuple(self._way(lane) for lane in self.ground.lanes)

    def _way(self, lane: Lane) -> Way:
        past = self.ground.marks(lane.past)

        tall = tuple(self._obstacle(obstacle, past) for obstacle in self.ground.tall)
        return Way(self._walls(lane.left, past), self._walls(lane.right, past), tall, lane)

    def _obstacles(self, obstacles: tuple[Obstacle, ...], *, clear: bool) -> tuple[Thing, ...]:
        found: list[Thing] = []
        for obstacle in obstacles:
            more = obstacle.clear.units if clear else 0
            found += self._obstacle(obstacle, self.ground.marks(self.ground.project.room.tolerance.units + more))
        return tuple(found)

    def _obstacle(self, obstacle: Obstacle, distance: Fraction) -> tuple[Thing, ...]:
        """The convex parts of an obstacle."""
        core = tuple((Fraction(p.x.units), Fraction(p.y.units)) for p in obstacle.core)
        parts = convex_obstacle(self.view, core, Fraction(obstacle.radius.units))
        return tuple(self._thing(cones, distance) for cones in parts)

    def _thing(self, wide: Sequence[Cone], distance: Fraction) -> Thing:
        """A convex thing to keep a distance from; directions in which no box of the room gets so far are left out."""
        cones = tuple(part for cone in wide for part in fine(cone, distance))
        sure, kind = bounds(cones, distance)
        certain = tuple(bound for bound in sure if self._reached(bound))
        return Thing(cones, distance, (*certain, *(bound for bound in kind if self._reached(bound))), len(certain))

    def _walls(self, pieces: Sequence[Ring], distance: Fraction) -> tuple[Thing, ...]:
        """Straight walls one after another, with the room on their left.

        A box that is wholly behind a wall is cut off by it: from that wall, and from one that meets it in a
        corner of the room, since the nearest way to that one ends in the corner.
        """
        rings = [self.view.ring(piece) for piece in pieces]
        behind = [self._behind(ring) for ring in rings]
        found = []
        for n, ring in enumerate(rings):
            excused = list(behind[n])
            if n and _turns_left(rings[n - 1], ring):
                excused += behind[n - 1]
            if n + 1 < len(rings) and _turns_left(ring, rings[n + 1]):
                excused += behind[n + 1]
            wall = self._thing(polygon(ring[:1] if ring[0] == ring[1] else ring), distance)
            ways = (*excused, *wall.ways)
            found.append(replace(wall, ways=ways, sure=wall.sure + len(excused), behind=tuple(excused)))
        return tuple(found)

    def _behind(self, ring: Ring) -> list[Bound]:
        """What a box is that lies wholly behind a wall, if it can."""
        a, b = ring
        if a == b:
            return []
        outward = direction(b[1] - a[1], a[0] - b[0])
        return [bound for bound in [(outward, tangent(outward, a, Fraction(0)))] if self._reached(bound)]

    def _reached(self, bound: Bound) -> bool:
        u, least = bound
        # A negative nudge lets boxes stand out of the room, by less than a mark.
        least -= abs(u[0]) + abs(u[1])
        return any(u[0] * x + u[1] * y >= least for x, y in self.hull)


def _turns_left(one: Ring, other: Ring) -> bool:
    """Whether the room has a corner of less than half a turn where one wall ends and the other begins."""
    (a, b), (_, c) = one, other
    return cross((b[0] - a[0], b[1] - a[1]), (c[0] - b[0], c[1] - b[1])) > 0


def bounds(cones: Sequence[Cone], distance: Fraction) -> tuple[list[Bound], list[Bound]]:
    """What parts a box from a convex thing: exact tangents, and loose ones between them."""
    sure, kind = [], []
    for cone in cones:
        reach = cone.radius + distance
        sure += [(u, tangent(u, cone.centre, reach)) for u in (cone.low, cone.high)]
        if reach > 0:
            u, half = cone.middle
            kind.append((u, loose_tangent(u, half, cone.centre, reach)))
    return list(dict.fromkeys(sure)), list(dict.fromkeys(kind))
