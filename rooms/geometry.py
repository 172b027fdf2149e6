"""Points of the plan and the few exact questions about them that the room and its survey share."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from rooms.lengths import Length


class Point(NamedTuple):
    """A point of the room frame: x along the first side, y to the left of it."""

    x: Length
    y: Length


def signed_area(ring: tuple[Point, ...]) -> Fraction:
    """Area of a ring in square units, positive when it runs anticlockwise (the shoelace formula)."""
    twice = sum(a.x.units * b.y.units - b.x.units * a.y.units for a, b in zip(ring, (*ring[1:], ring[0]), strict=True))
    return Fraction(twice, 2)


def side_of(a: Point, b: Point, c: Point) -> int:
    """Where `c` lies as one walks from `a` to `b`: 1 left, -1 right, 0 on the line; exact."""
    cross = (b.x.units - a.x.units) * (c.y.units - a.y.units) - (b.y.units - a.y.units) * (c.x.units - a.x.units)
    return (cross > 0) - (cross < 0)


def within_box(a: Point, b: Point, c: Point) -> bool:
    """Whether `c` lies in the upright box that `a` and `b` span, its border included."""
    return min(a.x, b.x) <= c.x <= max(a.x, b.x) and min(a.y, b.y) <= c.y <= max(a.y, b.y)


def segments_meet(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether the closed segments ab and cd share a point; exact."""
    towards_c, towards_d = side_of(a, b, c), side_of(a, b, d)
    towards_a, towards_b = side_of(c, d, a), side_of(c, d, b)
    if towards_c * towards_d < 0 and towards_a * towards_b < 0:
        return True
    touching = ((towards_c, a, b, c), (towards_d, a, b, d), (towards_a, c, d, a), (towards_b, c, d, b))
    return any(side == 0 and within_box(p, q, r) for side, p, q, r in touching)
