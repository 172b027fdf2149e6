"""What a layout must keep clear of, as convex pieces in the room frame."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import shapely

from rooms.lengths import ZERO, Length
from rooms.room import Hinge, Opening, Point, Room, Swing


@dataclass(frozen=True)
class Piece:
    """A convex piece of forbidden ground.

    Args:
        points: corners anticlockwise; one for the centre of a round thing; two for a half-plane, whose
            forbidden side lies to the right of the line from the first to the second.
        facts: ids of the requirements that it comes from; dropping any one lifts it.
        seats: distance that wood and cushions keep from it (what stands on the floor, where `feet_only`).
        legs: distance that leg room keeps from it; None if leg room may lie on it.
        half_plane: whether it is a half-plane.
        feet_only: whether it is low: posts and ends keep off it, and all else may pass over.
        arc: radius of a quarter disc about the first point, from the second to the third; zero for all else.
    """

    points: tuple[Point, ...]
    facts: tuple[str, ...]
    seats: Length
    legs: Length | None
    half_plane: bool = False
    feet_only: bool = False
    arc: Length = ZERO


def pieces(room: Room) -> tuple[Piece, ...]:
    """Everything outside the outline, every obstacle and every door swing, as convex pieces."""
    return (*_outside(room), *_obstacles(room), *_swings(room))


def _outside(room: Room) -> list[Piece]:
    """The complement of the outline: a half-plane per edge of its hull, and the pockets in between."""
    outline = room.outline
    names = _edge_names(room)
    hull = _hull(outline)
    found: list[Piece] = []
    for first, last in zip(hull, (*hull[1:], hull[0] + len(outline)), strict=True):
        chain = [outline[n % len(outline)] for n in range(first, last + 1)]
        facts = tuple(f"edge:{names[n % len(outline)]}" for n in range(first, last))
        found.append(Piece((chain[0], chain[-1]), facts, room.tolerance, room.tolerance, half_plane=True))
        if len(chain) > 2 and not all(_turn(chain[0], chain[-1], p) == 0 for p in chain):
            for part in convex_parts(chain):
                found.append(Piece(part, facts, room.tolerance, room.tolerance))
    return found


def _edge_names(room: Room) -> list[str]:
    """Name of the edge that begins at each corner of the outline."""
    starts = {edge.start: edge.name for edge in room.edges}
    return [starts[point] for point in room.outline]


def _hull(outline: Sequence[Point]) -> list[int]:
    """Indices of the corners that lie on the convex hull, those in the middle of a hull edge included."""
    hull = shapely.MultiPoint([(p.x.units, p.y.units) for p in outline]).convex_hull.exterior.coords
    ring = _points(hull)
    sides = list(zip(ring, (*ring[1:], ring[0]), strict=True))
    return [n for n, point in enumerate(outline) if any(_turn(a, b, point) == 0 for a, b in sides)]


def _obstacles(room: Room) -> list[Piece]:
    found = []
    for obstacle in room.obstacles:
        keep = obstacle.radius + room.tolerance
        for part in convex_parts(obstacle.core):
            facts = (f"obstacle:{obstacle.name}",)
            legs = None if obstacle.low else keep
            found.append(Piece(part, facts, keep + obstacle.clear, legs, feet_only=obstacle.low))
    return found


def _swings(room: Room) -> list[Piece]:
    return [
        Piece(_leaf(room, opening), (f"swing:{opening.name}",), room.tolerance, None, arc=opening.width)
        for opening in room.openings
        if opening.swing is Swing.IN
    ]


def _leaf(room: Room, opening: Opening) -> tuple[Point, Point, Point]:
    """The hinge, and the free edge of the leaf where it is closed and a quarter turn open, anticlockwise."""
    first, second = room.jambs(opening)
    forward = room.edge(opening.edge).forward
    at_start = (opening.hinge is Hinge.FIRST) == forward
    hinge, closed = (first, second) if at_start else (second, first)
    x, y = closed.x - hinge.x, closed.y - hinge.y
    # The room lies to the left of first -> second.
    if at_start:
        return hinge, closed, Point(hinge.x - y, hinge.y + x)
    return hinge, Point(hinge.x + y, hinge.y - x), closed


def convex_parts(ring: Sequence[Point]) -> list[tuple[Point, ...]]:
    """Cut a simple polygon into convex parts with its own corners, anticlockwise.

    Triangles of a constrained Delaunay triangulation are joined across each diagonal that leaves both of its ends
    convex (Hertel and Mehlhorn, 1983). Joining only widens angles, so that one look at each diagonal is enough.
    A ring of one or two points is returned as it is.
    """
    points = _without_straight_corners(ring)
    if len(points) < 3:
        return [tuple(points)]
    polygon = shapely.Polygon([(p.x.units, p.y.units) for p in points])
    cut = shapely.constrained_delaunay_triangles(polygon)
    parts = {n: _anticlockwise(_points(triangle.exterior.coords)) for n, triangle in enumerate(cut.geoms)}
    owner = {side: n for n, part in parts.items() for side in _sides(part)}
    for start, end in list(owner):
        one, other = owner[start, end], owner.get((end, start))
        # A side without another part is the polygon's own; one within a part was joined across already.
        if other not in (None, one) and (whole := _joined(parts[one], parts[other], start, end)):
            owner.update(dict.fromkeys(_sides(parts.pop(other)), one))
            parts[one] = whole
    return [_without_straight_corners(part) for part in parts.values()]


def _points(coordinates: Iterable[tuple[float, ...]]) -> tuple[Point, ...]:
    ring = [Point(Length(int(x)), Length(int(y))) for x, y, *_ in coordinates]
    return tuple(ring[:-1])


def _sides(ring: tuple[Point, ...]) -> list[tuple[Point, Point]]:
    return list(zip(ring, (*ring[1:], ring[0]), strict=True))


def _joined(a: tuple[Point, ...], b: tuple[Point, ...], start: Point, end: Point) -> tuple[Point, ...] | None:
    """Two convex parts as one across a side of both, from `start` to `end` in the first; None if that is not convex."""
    i, j = a.index(end), b.index(start)
    # The first from the side's end round to its start, then the second from its start round to its end.
    ring = (*a[i:], *a[:i], *b[j + 1 :], *b[:j])[:-1]
    around, across = len(a) - 1, len(ring)
    turns = (_turn(ring[k - 1], ring[k], ring[(k + 1) % across]) for k in (0, around))
    return ring if all(turn >= 0 for turn in turns) else None


def _without_straight_corners(ring: Sequence[Point]) -> tuple[Point, ...]:
    if len(ring) < 3:
        return tuple(ring)
    kept = [ring[n] for n in range(len(ring)) if _turn(ring[n - 1], ring[n], ring[(n + 1) % len(ring)]) != 0]
    return tuple(kept)


def _anticlockwise(ring: tuple[Point, ...]) -> tuple[Point, ...]:
    return ring if _turn(*ring[:3]) > 0 else tuple(reversed(ring))


def _turn(a: Point, b: Point, c: Point) -> int:
    """Positive when a, b, c turn left (twice the signed area of the triangle, square units)."""
    return (b.x.units - a.x.units) * (c.y.units - a.y.units) - (b.y.units - a.y.units) * (c.x.units - a.x.units)
