"""A room with one edge moved parallel to itself, or one thing moved, all else staying where it is."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import hypot

from rooms.lengths import ZERO, Length
from rooms.room import Edge, Obstacle, Opening, Point, Room
from rooms.survey.ring import is_simple

_HAIR = Length(4)
"""So much rounding moves a corner at most."""


def edge_moved(room: Room, name: str, by: Length) -> Room | None:
    """The room with an edge moved outward, parallel to itself; its neighbours are prolonged or shortened to meet it.

    Openings in the moved edge move straight out with it; all others, and the things in the room, stay where they are.

    Args:
        room: as taped.
        name: of the edge.
        by: how far, positive; corners are rounded to the unit.

    Returns:
        The room; None where a neighbour would vanish, runs nearly parallel to the edge, an opening no longer fits, or
        the edge would meet another part of the outline.
    """
    ring = _ring(room)
    n = next(k for k, edge in enumerate(ring) if edge.name == name)
    before, edge, after = ring[n - 1], ring[n], ring[(n + 1) % len(ring)]
    start, end = _met(edge, before, by), _met(edge, after, by)
    if start is None or end is None:
        return None
    moved = {name: (start, end), before.name: (before.start, start), after.name: (end, after.end)}
    edges = tuple(
        replace(e, start=moved[e.name][0], end=moved[e.name][1]) if e.name in moved else e for e in room.edges
    )
    if any(_turned(old, new) for old, new in zip(room.edges, edges, strict=True)):
        return None
    spots = {edge.start: start, edge.end: end}
    corners = tuple((letter, spots.get(point, point)) for letter, point in room.corners)
    found = replace(room, corners=corners, edges=edges)
    openings = [_kept(room, opening, found) for opening in room.openings]
    if any(opening is None for opening in openings) or not is_simple(found.outline):
        return None
    return replace(found, openings=tuple(o for o in openings if o is not None))


def obstacle_moved(obstacle: Obstacle, dx: Length, dy: Length) -> Obstacle:
    """A thing moved in the room frame."""
    return replace(obstacle, core=tuple(Point(p.x + dx, p.y + dy) for p in obstacle.core))


def _ring(room: Room) -> list[Edge]:
    """The edges in the order of an anticlockwise walk."""
    return [*room.edges] if room.edges[0].forward else [*reversed(room.edges)]


def _met(edge: Edge, other: Edge, by: Length) -> Point | None:
    """Where a neighbour's line meets the edge's line once that has moved outward, that is to its right."""
    ex, ey = edge.end.x.units - edge.start.x.units, edge.end.y.units - edge.start.y.units
    ox, oy = other.end.x.units - other.start.x.units, other.end.y.units - other.start.y.units
    cross, size = ex * oy - ey * ox, hypot(ex, ey)
    if abs(cross) < size * hypot(ox, oy) / 10:
        return None  # within six degrees of parallel: an inch outward would move the corner by ten
    shared = edge.start if edge.start == other.end else edge.end
    # The corner slides along the neighbour by `by` over the sine of the angle between them.
    share = Fraction(-by.units) * Fraction(size) / cross
    return Point(Length(round(shared.x.units + share * ox)), Length(round(shared.y.units + share * oy)))


def _turned(old: Edge, new: Edge) -> bool:
    """Whether an edge has vanished or now runs the other way."""
    a = (old.end.x.units - old.start.x.units, old.end.y.units - old.start.y.units)
    b = (new.end.x.units - new.start.x.units, new.end.y.units - new.start.y.units)
    return a[0] * b[0] + a[1] * b[1] <= 0


def _kept(room: Room, opening: Opening, moved: Room) -> Opening | None:
    """An opening of an edge whose first corner may have slid along it, at its place; None if it no longer fits."""
    old, new = room.edge(opening.edge), moved.edge(opening.edge)
    first_old, first_new = (old.start, new.start) if old.forward else (old.end, new.end)
    offset = opening.offset - _along(old, first_old, first_new)
    if offset < -_HAIR or offset + opening.width > new.length + _HAIR:
        return None
    # One that ends in a corner still does, whatever rounding has made of that.
    return replace(opening, offset=max(ZERO, min(offset, new.length - opening.width)))


def _along(edge: Edge, a: Point, b: Point) -> Length:
    """From a to b along an edge as it is written: from its first corner to its second."""
    ex, ey = edge.end.x.units - edge.start.x.units, edge.end.y.units - edge.start.y.units
    dot = ex * (b.x.units - a.x.units) + ey * (b.y.units - a.y.units)
    units = round(dot / hypot(ex, ey))
    return Length(units if edge.forward else -units)
