"""Walls that hide a thing on one bank of a route from furniture on their other side.

Only gaps that run through the inside count. Mostly nothing need be done about the others: who stands behind a wall
is nearer to that wall than to what it hides, and both are of one bank. It is otherwise where an opening stands in a
thin wall, in the side of a closet say: the wall's two faces are then of different banks, and furniture behind
the closet would seem near to both though it leaves the way free.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import dist

import shapely

from fitter.model.banks import DUST, Line, xy
from rooms.room import Point, Room


class Sight:
    """Which walls of a room hide a thing from all that lies on their other side.

    Args:
        room: for its outline.
    """

    def __init__(self, room: Room) -> None:
        outline = room.outline
        walls = list(zip(outline, (*outline[1:], outline[0]), strict=True))
        self.inner = shapely.Polygon([xy(point) for point in outline]).buffer(-DUST, join_style="mitre")
        shapely.prepare(self.inner)
        # Furniture may lie on either side of a wall's line, and the thing on the other.
        self.lines: list[Line] = [*walls, *((b, a) for a, b in walls)]

    def hiding(self, points: Sequence[Point], reach: float) -> Iterator[Line]:
        """Lines with the thing on their left that end what can be seen of it.

        Args:
            points: of a convex thing.
            reach: distance within which the thing matters, units.

        Yields:
            Lines along walls: every way of at most `reach` from the thing to what lies wholly to the right of
            one runs through a wall. Lines without floor within reach on their right are left out.
        """
        spots = [xy(point) for point in points]
        near = shapely.MultiPoint(spots).convex_hull.buffer(reach)
        for line in self.lines:
            sides = [_left_of(line, spot) for spot in spots]
            # Something in the line itself can be seen from both of its sides.
            if min(sides) < -DUST or max(sides) <= DUST or min(sides) >= reach:
                continue
            a, b = _drawn_out(line, 2 * reach + dist(spots[0], xy(line[0])))
            crossing = shapely.LineString([a, b]).intersection(near)
            if self.inner.intersects(crossing) or not self._floor_beyond(a, b, near):
                continue
            yield line

    def _floor_beyond(self, a: tuple[float, float], b: tuple[float, float], near: shapely.Geometry) -> bool:
        beyond = shapely.LineString([a, b]).buffer(-dist(a, b), single_sided=True)
        return bool(self.inner.intersects(beyond.intersection(near)))


def _left_of(line: Line, spot: tuple[float, float]) -> float:
    """How far a spot lies to the left of a line, units."""
    (ax, ay), (bx, by) = xy(line[0]), xy(line[1])
    return ((bx - ax) * (spot[1] - ay) - (by - ay) * (spot[0] - ax)) / dist((ax, ay), (bx, by))


def _drawn_out(line: Line, far: float) -> tuple[tuple[float, float], tuple[float, float]]:
    """A line with both ends moved outward."""
    (ax, ay), (bx, by) = xy(line[0]), xy(line[1])
    share = far / dist((ax, ay), (bx, by))
    x, y = (bx - ax) * share, (by - ay) * share
    return (ax - x, ay - y), (bx + x, by + y)
