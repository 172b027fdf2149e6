"""Areas of flat faces, of whole parts, and of what touches."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import isqrt

from fitter.domain.woodwork import Part, Vector
from rooms.lengths import UNITS_PER_INCH, UNITS_PER_MM


@dataclass(frozen=True)
class Touch:
    """Two parts that touch.

    Args:
        parts: their indices.
        area: of what they share, in square units.
    """

    parts: tuple[int, int]
    area: int


def polygon_area(polygon: Sequence[Vector]) -> int:
    """Of a flat polygon in space, to the nearest square unit.

    Half the length of the sum of the cross products of its corners, taken from the first one.
    """
    x0, y0, z0 = polygon[0]
    spokes = [(x - x0, y - y0, z - z0) for x, y, z in polygon[1:]]
    x = sum(a[1] * b[2] - a[2] * b[1] for a, b in pairwise(spokes))
    y = sum(a[2] * b[0] - a[0] * b[2] for a, b in pairwise(spokes))
    z = sum(a[0] * b[1] - a[1] * b[0] for a, b in pairwise(spokes))
    # The root of four times the square, so that the last step rounds the half.
    return (isqrt(int(Fraction(x * x + y * y + z * z))) + 1) // 2


def surface(part: Part) -> int:
    """Of all faces of a part, housings cut out, in square units."""
    points, faces = part.mesh
    return sum(polygon_area([points[i] for i in face]) for face in faces)


def square_feet(area: int) -> Fraction:
    """Square units in square feet."""
    return Fraction(area, (12 * UNITS_PER_INCH) ** 2)


def square_metres(area: int) -> Fraction:
    """Square units in square metres."""
    return Fraction(area, (1000 * UNITS_PER_MM) ** 2)
