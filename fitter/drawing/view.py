"""From the room to the paper: true scale, and small vector helpers."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import hypot

from shapely.geometry import LineString, MultiLineString, Polygon

from fitter.domain.layout import Box, Pose
from fitter.drawing.page import Spot
from rooms.lengths import UNITS_PER_MM, Length, Unit, format_length
from rooms.room import Point


@dataclass(frozen=True)
class View:
    """A scale, and the system that lengths are written in.

    Args:
        denominator: true sizes are this many times those on paper.
        unit: of the project.
    """

    denominator: int
    unit: Unit

    def of(self, length: Length) -> float:
        """A length on paper, mm."""
        return length.units / (UNITS_PER_MM * self.denominator)

    def at(self, point: Point) -> Spot:
        """A point of the room frame on paper, mm from where the frame's origin lies."""
        return self.of(point.x), self.of(point.y)

    def exact(self, point: tuple[Fraction, Fraction]) -> Spot:
        """The same for a point given in units."""
        size = UNITS_PER_MM * self.denominator
        return float(point[0] / size), float(point[1] / size)

    def real(self, millimetres: float) -> Length:
        """The true length of a distance on paper, to the nearest unit."""
        return Length(round(millimetres * UNITS_PER_MM * self.denominator))

    def ring(self, pose: Pose, box: Box) -> tuple[Spot, ...]:
        """A box of the layout frame on paper, from its (x0, y0) corner, anticlockwise."""
        return tuple(self.exact(corner) for corner in pose.outline(box))

    def written(self, length: Length, *, feet: bool = True) -> str:
        """A length as the drawing shows it: millimetres without their name, which a note gives once."""
        return format_length(length, self.unit, feet=feet).removesuffix(" mm")


def towards(start: Spot, end: Spot) -> Spot:
    """The unit vector from one point to another."""
    size = hypot(end[0] - start[0], end[1] - start[1]) or 1.0
    return (end[0] - start[0]) / size, (end[1] - start[1]) / size


def along(start: Spot, direction: Spot, distance: float, aside: float = 0.0) -> Spot:
    """A point `distance` along a direction and `aside` to its left."""
    x, y = direction
    return start[0] + distance * x - aside * y, start[1] + distance * y + aside * x


def middle(a: Spot, b: Spot) -> Spot:
    """Half way between two points."""
    return (a[0] + b[0]) / 2, (a[1] + b[1]) / 2


def ring_of(shape: Polygon) -> tuple[Spot, ...]:
    """The corners of a polygon, its holes left out."""
    return tuple((x, y) for x, y in shape.exterior.coords[:-1])


def hatching(shape: Polygon, gap: float = 1.4, rising: bool = True) -> tuple[tuple[Spot, Spot], ...]:
    """Parallel strokes at 45 degrees that fill a polygon, `gap` millimetres apart."""
    if shape.is_empty:
        return ()
    x0, y0, x1, y1 = shape.bounds
    size = (x1 - x0) + (y1 - y0)
    step = gap * 2**0.5
    strokes = []
    for i in range(1, int(size / step) + 1):
        shift = i * step
        ends = (x0 + shift - (y1 - y0), x0 + shift)
        low, high = ends if rising else ends[::-1]
        strokes.append(LineString([(low, y0), (high, y1)]))
    cut = MultiLineString(strokes).intersection(shape)
    lines = [part for part in getattr(cut, "geoms", (cut,)) if part.geom_type == "LineString" and part.length > 0.2]
    return tuple(sorted((line.coords[0], line.coords[-1]) for line in lines))
