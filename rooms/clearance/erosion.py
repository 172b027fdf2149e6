"""The widest disc along a route by moving the disc's centre: a second opinion on `widest_passage`.

Where the centre of a disc may be is the floor less all that is nearer than its radius to a thing. The disc
gets through if one piece of what remains reaches both openings. Nothing but the widened openings is shared
with the gaps of `widest_passage`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise
from math import dist

import numpy as np
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
        things = standing(room, furniture)
        self.areas = [thing.shape for thing in things if thing.shape.area]
        faces = [(side, thing.reach) for thing in things for side in sides(thing.shape)]
        corners = [(spot, keep) for side, keep in faces for spot in side.coords]
        posts = [(spot, tolerance) for chain in (ways.left, ways.right) for spot in _posts(chain)]
        self.walls = [wall for wall in (*ways.left, *ways.right) if wall.start != wall.end]
        self.tolerance = tolerance
        self.faces, self.face_keep = _pieces([face for face in faces if face[0].length])
        spots = dict.fromkeys([*posts, *corners])
        self.spots, self.spot_keep = _pieces([(Point(spot), keep) for spot, keep in spots])
        lines = [LineString([wall.start, wall.end]) for wall in self.walls]
        self.pieces = np.array([*lines, *self.faces, *self.spots])
        shapely.prepare(self.floor)

    def passes(self, width: float) -> bool:
        """Whether a disc of this width gets through."""
        strips = [_strip(wall, width / 2 + self.tolerance) for wall in self.walls]
        bands = shapely.buffer(self.faces, width / 2 + self.face_keep, cap_style="flat")
        discs = shapely.buffer(self.spots, width / 2 + self.spot_keep, quad_segs=_QUAD_SEGS)
        around = np.array([*strips, *bands, *discs])
        if self._joined(around):
            return True
        # Not all that is near is in sight: it may lie behind a thin wall that a door stands in.
        parts, owner = shapely.get_parts(shapely.intersection(self.floor, around), return_index=True)
        seen = shapely.distance(parts, self.pieces[owner]) < _HAIR
        return bool(not seen.all()) and self._joined(parts[seen])

    def _joined(self, taken: Iterable[BaseGeometry]) -> bool:
        """Whether one piece of floor that is not taken reaches both openings."""
        places = shapely.get_parts(self.floor.difference(unary_union([*self.areas, *taken])))
        # Rounding leaves slivers, and may leave the centre a hair off the line of the opening.
        return any(
            place.area > _HAIR * place.length and all(place.distance(end) < _HAIR for end in self.ends)
            for place in places
        )


def _pieces(things: Sequence[tuple[BaseGeometry, float]]) -> tuple[np.ndarray, np.ndarray]:
    """Shapes, and what the disc keeps from each besides its radius."""
    shapes = np.empty(len(things), dtype=object)
    shapes[:] = [shape for shape, _ in things]
    return shapes, np.array([keep for _, keep in things])


def _strip(wall: Wall, reach: float) -> Polygon:
    """The floor straight before a wall, which lies on its left; behind it, it forbids nothing."""
    (ax, ay), (bx, by) = wall.start, wall.end
    size = dist(wall.start, wall.end)
    x, y = (ay - by) / size * reach, (bx - ax) / size * reach
    return Polygon([wall.start, wall.end, (bx + x, by + y), (ax + x, ay + y)])


def _posts(chain: Sequence[Wall]) -> list[Spot]:
    """The ends of a chain and its corners that jut into the room: in other corners a wall is nearer."""
    juts = [
        b.start
        for a, b in pairwise(chain)
        if (a.end[0] - a.start[0]) * (b.end[1] - b.start[1])
        < (a.end[1] - a.start[1]) * (b.end[0] - b.start[0])
    ]
    return [chain[0].start, *juts, chain[-1].end]
