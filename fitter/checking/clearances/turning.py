"""Places that one can only leave the way one came, and whether a wheelchair can turn there."""

from __future__ import annotations

from collections.abc import Iterator
from math import floor, hypot

import shapely
from shapely import Point
from shapely.geometry.base import BaseGeometry

from fitter.checking.case import DUST
from fitter.checking.clearances.held import Held
from fitter.domain.benchmarks import PINCH, ROUTE, TURNING
from fitter.domain.findings import Finding
from fitter.domain.wishes import Shape
from rooms.clearance import free_floor
from rooms.lengths import UNITS_PER_INCH, ZERO, Length
from rooms.room import EdgeKind, Opening

_FINE = UNITS_PER_INCH / 64
"""To which the largest circle is found."""

_QUAD_SEGS = 32
"""Segments of a quarter circle: at 30 in, true to 0.01 in."""

_HELP = "a T does as well, in a square of {} with arms {} wide"


def dead_end(held: Held) -> Iterator[Finding]:
    """A room with one way in, whose floor past the seats has no circle to turn in."""
    room = held.project.room
    # Over a step or a drop nobody leaves on wheels.
    open_edges = any(edge.kind is EdgeKind.OPEN and not edge.drop for edge in room.edges)
    if len(room.openings) != 1 or open_edges:
        return
    way = held.size(PINCH).units - DUST.units
    if _reached(held, room.openings[0], free_floor(room), way) is None:
        return  # barred by what the room itself holds, so that nothing is known of how one gets in
    circle = _largest_circle(held, room.openings[0], way)
    if held.short(circle, TURNING):
        found = (
            f"the largest free circle is {held.tell(circle)}" if circle else f"no circle of {held.asked(PINCH)} is free"
        )
        message = f"`{room.openings[0].name}` is the only way in, and past the seats {found}"
        message += f"; {held.asked(TURNING)} let a wheelchair turn"
        help = _HELP.format(held.asked(TURNING), held.asked(ROUTE))
        yield held.missed(TURNING, "dead-end", message, "room.openings.0", help)


def between_arms(held: Held) -> Iterator[Finding]:
    """A U too narrow inside for a wheelchair that came in to turn."""
    if held.layout.shape is not Shape.U:
        return
    deck = held.layout.runs[0].deck
    wide = deck.x1 - deck.x0
    if held.short(wide, TURNING):
        message = f"between the arms {held.tell(wide)} are free; {held.asked(TURNING)} let a wheelchair turn there"
        help = _HELP.format(held.asked(TURNING), held.asked(ROUTE))
        yield held.missed(TURNING, "dead-end-in-u", message, "wish.shape", help)


def _largest_circle(held: Held, door: Opening, way: float) -> Length:
    """Diameter of the largest circle on free floor that is reached from a door; zero where the way there is barred.

    Args:
        held: the layout.
        door: the only one.
        way: how wide the way to it is.

    Returns:
        The diameter, no larger than the one that is asked for.
    """
    floor_free = free_floor(held.project.room).difference(held.whole)
    reached = _reached(held, door, floor_free, way)
    if reached is None:
        return ZERO
    low, high = float(way), float(held.size(TURNING).units)
    if _fits(floor_free, reached, high - DUST.units):
        return held.size(TURNING)
    while high - low > _FINE:
        middle = (low + high) / 2
        low, high = (middle, high) if _fits(floor_free, reached, middle) else (low, middle)
    return Length(floor(low))


def _reached(held: Held, door: Opening, free: BaseGeometry, width: float) -> BaseGeometry | None:
    """Where the centre of a disc may be that came in through a door."""
    a, b = ((spot.x.units, spot.y.units) for spot in held.project.room.jambs(door))
    size = hypot(b[0] - a[0], b[1] - a[1])
    deep = width / 2 + held.project.room.tolerance.units
    start = Point((a[0] + b[0]) / 2 - (b[1] - a[1]) / size * deep, (a[1] + b[1]) / 2 + (b[0] - a[0]) / size * deep)
    centres = shapely.get_parts(free.buffer(-width / 2, quad_segs=_QUAD_SEGS)).tolist()
    near = [part for part in centres if part.distance(start) <= 2 * DUST.units]
    return near[0] if near else None


def _fits(free: BaseGeometry, reached: BaseGeometry, width: float) -> bool:
    """Whether a disc of some width lies on free floor, where a narrower one has come."""
    # Wherever the centre of the wider disc may be, that of the narrower one may be too.
    return bool(free.buffer(-width / 2, quad_segs=_QUAD_SEGS).intersects(reached))
