"""Areas of the room as shapely shapes; coordinates are floats in units of 1/8128 in."""

from __future__ import annotations

from math import acos, ceil, cos, hypot, pi, sin, tau

from shapely import MultiPolygon, Polygon
from shapely import Point as Spot
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from rooms.lengths import UNITS_PER_INCH
from rooms.room import Hinge, Obstacle, Opening, Room, Swing

EXCESS = UNITS_PER_INCH / 32
"""A round thing is drawn as a polygon that holds it and is at most this much larger."""

QUAD_SEGS = 64
"""Segments of a quarter circle where a shape is grown: at 18 in the arc is true to 0.0014 in."""


def outline(room: Room) -> Polygon:
    """The floor inside the outline, in units."""
    return Polygon([(corner.x.units, corner.y.units) for corner in room.outline])


def core(obstacle: Obstacle) -> BaseGeometry:
    """The polygon, or the centre, that an obstacle's radius is counted from."""
    spots = [(corner.x.units, corner.y.units) for corner in obstacle.core]
    return Polygon(spots) if len(spots) > 2 else Spot(spots[0])


def solid(obstacle: Obstacle) -> Polygon:
    """A polygon that holds the whole obstacle; a round one is at most 1/32 in larger than it is.

    Args:
        obstacle: a polygon, or a centre with a radius.

    Returns:
        The polygon, in units, without clear distance and without tolerance.
    """
    if not obstacle.radius:
        return core(obstacle)
    radius, count = float(obstacle.radius.units), 4 * _sides(obstacle.radius.units, pi / 2)
    if len(obstacle.core) > 2:
        # Where a polygon is grown, a corner may be rounded in steps half as long again.
        return core(obstacle).buffer(radius / cos(1.5 * pi / count), quad_segs=count // 4)
    middle, reach = obstacle.core[0], radius / cos(pi / count)
    turns = [tau * step / count for step in range(count)]
    return Polygon([(middle.x.units + reach * cos(turn), middle.y.units + reach * sin(turn)) for turn in turns])


def swing_sector(room: Room, opening: Opening) -> Polygon | None:
    """The floor that a door leaf sweeps as it turns into the room.

    The quarter disc about the hinge jamb with radius = opening width, between the closed leaf and the
    quarter turn into the room.

    Args:
        room: the room that the opening belongs to.
        opening: the door.

    Returns:
        A polygon that holds the sector and is at most 1/32 in larger, in units; None if no leaf turns in.
    """
    if opening.swing is not Swing.IN:
        return None
    edge, jambs = room.edge(opening.edge), room.jambs(opening)
    at_start = (opening.hinge is Hinge.FIRST) == edge.forward
    hinge = jambs[0 if at_start else 1]
    dx, dy = edge.end.x.units - edge.start.x.units, edge.end.y.units - edge.start.y.units
    size, way = hypot(dx, dy), 1 if at_start else -1
    leaf = (way * dx / size, way * dy / size)
    # The room lies to the left of its edges, wherever the hinge is.
    inward = (-dy / size, dx / size)
    radius = float(opening.width.units)
    count = _sides(opening.width.units, pi / 2)
    step = pi / 2 / count
    tips = [(0.0, 1.0), *(((k + 0.5) * step, 1 / cos(step / 2)) for k in range(count)), (pi / 2, 1.0)]
    rim = [(radius * far * cos(turn), radius * far * sin(turn)) for turn, far in tips]
    x, y = hinge.x.units, hinge.y.units
    return Polygon([(x, y), *((x + u * leaf[0] + v * inward[0], y + u * leaf[1] + v * inward[1]) for u, v in rim)])


def free_floor(room: Room) -> Polygon | MultiPolygon:
    """What is surely floor to walk on: edges moved in and obstacles grown by the tolerance (Euclidean), in units.

    What is low, a drain or a hatch, is floor.
    """
    tolerance = float(room.tolerance.units)
    taken = [
        core(obstacle).buffer(obstacle.radius.units + tolerance, quad_segs=QUAD_SEGS)
        for obstacle in room.obstacles
        if not obstacle.low
    ]
    return outline(room).buffer(-tolerance, quad_segs=QUAD_SEGS).difference(unary_union(taken))


def _sides(radius: int, angle: float) -> int:
    """How many tangents make an arc that is nowhere more than EXCESS outside the circle."""
    return max(1, ceil(angle / (2 * acos(radius / (radius + EXCESS)))))
