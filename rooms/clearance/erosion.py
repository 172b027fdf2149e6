"""The widest disc along a route by moving the disc's centre: a second opinion on `widest_passage`.

Where the centre of a disc may be is the floor less all that is nearer than its radius to a thing. The disc
gets through if one piece of what remains reaches both openings. Nothing but the widened openings is shared
with the gaps of `widest_passage`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from math import dist

import shapely
from shapely import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from rooms.clearance.chains import Spot, Wall, chains
from rooms.clearance.passage import sides, standing
from rooms.clearance.shapes import outline
from rooms.lengths import Length
from rooms.room import Room, Route

_FINE = 64.0
"""Units (1/127 in) to which the bisection goes."""

_QUAD_SEGS = 32
"""Segments of a quarter circle: at 18 in, the radius of a common route, true to 0.006 in."""

_HAIR = 0.01
"""Units within which two shapes touch: floats of this size are true to a millionth of a unit."""


def lets_through(room: Room, route: Route, furniture: Sequence[Polygon], width: Length) -> bool:
    """Whether a disc of a width can be taken along a route.

    Args:
        room: its edges move in and its obstacles grow by its tolerance.
        route: joins two different openings, each widened as `chains` says.
        furniture: boxes in units, exact.
        width: of the disc.

    Returns:
        True if its centre can get from one opening to the other.
    """
    return _Disc(room, route, furniture).passes(float(width.units))


def widest_by_erosion(room: Room, route: Route, furniture: Sequence[Polygon]) -> float:
    """Diameter in units of the widest disc that can be taken along a route, by bisection; 0 if none can."""
    disc = _Disc(room, route, furniture)
    # No place in an opening is farther from both jambs than half of its length.
    low, high = 0.0, min(end.length for end in disc.ends)
    while high - low > _FINE:
        middle = (low + high) / 2
        low, high = (middle, high) if disc.passes(middle) else (low, middle)
    return low


class _Disc:
    """A disc of any width on its way along one route."""

    def __init__(self, room: Room, route: Route, furniture: Sequence[Polygon]) -> None:
        ways, tolerance = chains(room, route), float(room.tolerance.units)
        self.floor = outline(room)
        self.ends = (LineString(ways.start), LineString(ways.end))
        self.doors = [door for spots in (ways.start, ways.end) for door in pairwise(spots)]
        things = standing(room, furniture)
        self.areas = [thing.shape for thing in things if thing.shape.area]
        faces = [(tuple(side.coords), thing.reach) for thing in things for side in sides(thing.shape)]
        walls = [((wall.start, wall.end), tolerance) for wall in (*ways.left, *ways.right)]
        both = [(line, keep) for face, keep in faces for line in (face, face[::-1])]
        # Each with what the disc keeps from it besides its radius; the disc is on its left.
        self.lines = [(line, keep) for line, keep in (*walls, *both) if line[0] != line[-1]]
        posts = [(spot, tolerance) for chain in (ways.left, ways.right) for spot in _posts(chain)]
        corners = [(spot, keep) for face, keep in faces for spot in face]
        self.spots = list(dict.fromkeys([*posts, *corners]))

    def passes(self, width: float) -> bool:
        """Whether a disc of this width gets through."""
        near = list(self._near(width / 2))
        if self._joined(taken for taken, _ in near):
            return True
        # Not all that is near is in sight: it may lie behind a thin wall that a door stands in.
        if not self._floor_behind(width / 2 + max(keep for _, keep in (*self.lines, *self.spots))):
            return False
        return self._joined(taken.difference(unary_union(list(hidden))) for taken, hidden in near)

    def _near(self, radius: float) -> Iterator[tuple[BaseGeometry, Iterator[BaseGeometry]]]:
        """Where the centre is too near to a thing, and what doors, as parts of walls, hide of that."""
        for (a, b), keep in self.lines:
            aside = _left(a, b, radius + keep)
            yield _swept(a, b, aside, aside), self._hidden_aside(aside)
        for spot, keep in self.spots:
            yield (
                Point(spot).buffer(radius + keep, quad_segs=_QUAD_SEGS),
                self._hidden_from(spot, radius + keep),
            )

    def _hidden_aside(self, aside: Spot) -> Iterator[BaseGeometry]:
        return (_swept(p, q, aside, aside) for p, q in self.doors)

    def _hidden_from(self, spot: Spot, reach: float) -> Iterator[BaseGeometry]:
        for p, q in self.doors:
            if _HAIR < Point(spot).distance(LineString([p, q])) < reach:
                yield _swept(p, q, _from(spot, p, reach), _from(spot, q, reach))

    def _floor_behind(self, reach: float) -> bool:
        """Whether some of the room lies behind a door, near enough to matter."""
        for p, q in self.doors:
            out = _left(q, p, reach)
            wide = ((p[0] + out[1], p[1] - out[0]), (q[0] - out[1], q[1] + out[0]))
            if self.floor.intersection(_swept(*wide, out, out)).area > _HAIR * reach:
                return True
        return False

    def _joined(self, taken: Iterable[BaseGeometry]) -> bool:
        """Whether one piece of floor that is not taken reaches both openings."""
        places = shapely.get_parts(self.floor.difference(unary_union([*self.areas, *taken])))
        # Rounding leaves slivers, and may leave the centre a hair off the line of the opening.
        return any(
            place.area > _HAIR * place.length and all(place.distance(end) < _HAIR for end in self.ends)
            for place in places
        )


def _left(a: Spot, b: Spot, reach: float) -> Spot:
    """The way to the left of a line, `reach` long."""
    share = reach / dist(a, b)
    return (a[1] - b[1]) * share, (b[0] - a[0]) * share


def _swept(a: Spot, b: Spot, aside: Spot, beside: Spot) -> BaseGeometry:
    """What a line passes over when its ends move."""
    moved = [(a[0] + aside[0], a[1] + aside[1]), (b[0] + beside[0], b[1] + beside[1])]
    return LineString([a, b, *moved]).convex_hull


def _from(spot: Spot, end: Spot, reach: float) -> Spot:
    """The way on from a spot past the end of a door, until it is surely out of reach."""
    far = 100 * reach / dist(spot, end)
    return (end[0] - spot[0]) * far, (end[1] - spot[1]) * far


def _posts(chain: Sequence[Wall]) -> list[Spot]:
    """The ends of a chain and its corners that jut into the room: in other corners a wall is nearer."""
    juts = [
        b.start
        for a, b in pairwise(chain)
        if (a.end[0] - a.start[0]) * (b.end[1] - b.start[1]) < (a.end[1] - a.start[1]) * (b.end[0] - b.start[0])
    ]
    return [chain[0].start, *juts, chain[-1].end]
