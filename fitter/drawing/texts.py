"""Places for short texts: in lines, around a point, within a shape, along a direction."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import atan2, cos, degrees, hypot, radians, sin

import shapely
from shapely.geometry import Polygon

from fitter.drawing.page import SMALL, Role, Spot, Text

AIR = 0.6  # between a text and whatever it must not touch, mm
_LEAN = 75.0  # a text leans at most so far to the right of upright lines, degrees
_TURNS = (45, 135, 32, 148, 58, 122, 20, 160, 70, 110, 26, 154, 38, 142, 52, 128, 64, 116)
COMPASS = tuple(side * turn for turn in _TURNS for side in (1, -1))
"""Directions in which names are tried, degrees; slanting ones first."""


def stacked(
    lines: Sequence[str],
    first: Spot,
    *,
    anchor: float = 0.0,
    height: float = SMALL,
    role: Role = Role.LABEL,
    masked: bool = False,
) -> tuple[Text, ...]:
    """Lines of text one below the other, the first one's baseline at `first`."""
    return tuple(
        Text((first[0], first[1] - 1.7 * height * i), line, height, 0.0, anchor, role, masked)
        for i, line in enumerate(lines)
    )


def around(text: str, target: Spot, reach: float, *, role: Role = Role.LABEL, height: float = SMALL) -> Iterable[Text]:
    """Places for a short text around a point, nearest first."""
    width = Text(target, text, height).width
    for ring in range(12):
        for angle in COMPASS:
            radius = reach + ring * 1.5
            x = target[0] + (radius + width / 2) * cos(radians(angle))
            y = target[1] + (radius + height / 2) * sin(radians(angle)) - height / 2
            yield Text((x, y), text, height, 0.0, 0.5, role)


def within(text: str, ring: Sequence[Spot], *, role: Role = Role.LABEL, height: float = SMALL) -> Iterable[Text]:
    """Places for a text inside a polygon, from its middle outward."""
    shape = Polygon(ring)
    middle = shape.representative_point() if not shape.contains(shape.centroid) else shape.centroid
    x0, y0, x1, y1 = shape.bounds
    clear = shape.buffer(-AIR, join_style="mitre")
    shapely.prepare(clear)
    grid = [
        (middle.x + dx * (x1 - x0) / 16, middle.y + dy * (y1 - y0) / 16) for dx in range(-8, 9) for dy in range(-8, 9)
    ]
    for x, y in sorted(grid, key=lambda spot: (round(hypot(spot[0] - middle.x, spot[1] - middle.y), 3), spot)):
        text_there = Text((x, y - height / 2), text, height, 0.0, 0.5, role)
        if clear.contains(Polygon(text_there.box)):
            yield text_there


def readable(direction: Spot) -> float:
    """The angle of a text along a direction, turned so that it reads from the bottom or from the right.

    Lines that lean a little past the vertical, as taped walls do, still read from the right.
    """
    angle = degrees(atan2(direction[1], direction[0]))
    angle = angle - 180 if angle > 180 - _LEAN else angle + 180 if angle <= -_LEAN else angle
    return round(angle, 6)
