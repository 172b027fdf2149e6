"""The widest disc along a route by moving the disc's centre: a second opinion on `widest_passage`.

Where the centre of a disc may be is the floor less all that is nearer than its radius to a thing. The disc
gets through if one piece of what remains reaches both openings. Nothing but the widened openings is shared
with the gaps of `widest_passage`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np
import shapely
from shapely import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from rooms.clearance.chains import chains
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
    corners = disc.floor.bounds
    low, high = 0.0, corners[2] - corners[0] + corners[3] - corners[1]
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
        things = standing(room, self.floor, furniture)
        self.areas = [thing.shape for thing in things if thing.shape.area]
        walls = [
            (LineString([wall.start, wall.end]), tolerance)
            for wall in (*ways.left, *ways.right)
            if wall.start != wall.end
        ]
        faces = [(side, thing.reach) for thing in things for side in sides(thing.shape)]
        jambs = [((*wall.start,), tolerance) for wall in (*ways.left, *ways.right)]
        jambs += [((*wall.end,), tolerance) for wall in (*ways.left, *ways.right)]
        corners = [(spot, keep) for side, keep in faces for spot in side.coords]
        spots = [(Point(spot), keep) for spot, keep in dict.fromkeys([*jambs, *corners])]
        self.pieces = [_pieces(walls), _pieces([face for face in faces if face[0].length]), _pieces(spots)]
        shapely.prepare(self.floor)

    def passes(self, width: float) -> bool:
        """Whether a disc of this width gets through."""
        (walls, far), (faces, off), (spots, away) = self.pieces
        around = np.concatenate(
            [
                # The room lies on the left of a wall; on its right it forbids nothing.
                shapely.buffer(walls, width / 2 + far, cap_style="flat", single_sided=True),
                shapely.buffer(faces, width / 2 + off, cap_style="flat"),
                shapely.buffer(spots, width / 2 + away, quad_segs=_QUAD_SEGS),
            ]
        )
        if self._joined(around):
            return True
        # Not all that is near is in sight: it may lie behind a thin wall that a door stands in.
        parts, owner = shapely.get_parts(shapely.intersection(self.floor, around), return_index=True)
        seen = shapely.distance(parts, np.concatenate([walls, faces, spots])[owner]) < _HAIR
        return bool(not seen.all()) and self._joined(parts[seen])

    def _joined(self, taken: Iterable[BaseGeometry]) -> bool:
        """Whether one piece of floor that is not taken reaches both openings."""
        places = self.floor.difference(unary_union([*self.areas, *taken]))
        # Rounding may leave the centre a hair off the line of the opening.
        return any(
            all(place.distance(end) < _HAIR for end in self.ends) for place in shapely.get_parts(places)
        )


def _pieces(things: Sequence[tuple[BaseGeometry, float]]) -> tuple[np.ndarray, np.ndarray]:
    """Shapes, and what the disc keeps from each besides its radius."""
    shapes = np.empty(len(things), dtype=object)
    shapes[:] = [shape for shape, _ in things]
    return shapes, np.array([keep for _, keep in things])
