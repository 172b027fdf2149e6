"""Where a moving box keeps its distance from a convex thing that stays: plain integer arithmetic.

A box is at least d away from a convex piece if and only if some direction u parts them by d. Around the
piece the directions fall into cones; within one cone the same point of the piece and the same corner of the
box decide. All coordinates are shop marks in the layout frame.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import atan2, ceil, cos, floor, gcd, hypot, isqrt, lcm, sin, tau

Vec = tuple[Fraction, Fraction]
Dir = tuple[int, int]
AXES: tuple[Dir, ...] = ((1, 0), (0, 1), (-1, 0), (0, -1))
LARGEST = 1 << 30
"""Longer direction vectors are rounded, which turns them by less than 1e-9 rad."""
KIND = 12.0
"""Marks that a corner may stand too near, before the place is looked at exactly."""


@dataclass(frozen=True)
class Cone:
    """Directions from `low` anticlockwise to `high` in which `centre` is decisive, swollen by `radius`."""

    low: Dir
    high: Dir
    centre: Vec
    radius: Fraction

    @property
    def corner(self) -> tuple[bool, bool]:
        """Whether the deciding corner of the box is that of its high x, and of its high y."""
        return self.low[0] + self.high[0] < 0, self.low[1] + self.high[1] < 0

    @property
    def middle(self) -> tuple[Dir, float]:
        """A direction near the middle, and the greatest angle to any direction of the cone."""
        start = atan2(self.low[1], self.low[0])
        angle = (atan2(self.high[1], self.high[0]) - start) % tau
        u = direction(cos(start + angle / 2), sin(start + angle / 2))
        return u, angle / 2 + 1e-8

    def cut(self, u: Dir) -> tuple[Cone, ...]:
        """Two cones that meet at `u`; the cone itself if `u` is not strictly inside."""
        if cross(self.low, u) <= 0 or cross(u, self.high) <= 0:
            return (self,)
        return Cone(self.low, u, self.centre, self.radius), Cone(u, self.high, self.centre, self.radius)


def direction(x: Fraction | float, y: Fraction | float) -> Dir:
    """A whole vector in that direction; exact where that needs no great numbers."""
    if isinstance(x, Fraction) and isinstance(y, Fraction):
        scale = lcm(x.denominator, y.denominator)
        a, b = int(x * scale), int(y * scale)
        common = gcd(a, b)
        a, b = a // common, b // common
        if max(abs(a), abs(b)) <= LARGEST:
            return a, b
        return _rounded(Fraction(a), Fraction(b))
    return _rounded(Fraction(x), Fraction(y))


def _rounded(x: Fraction, y: Fraction) -> Dir:
    size = max(abs(x), abs(y))
    return round(x / size * LARGEST), round(y / size * LARGEST)


def cross(a: Sequence[int | Fraction], b: Sequence[int | Fraction]) -> int | Fraction:
    """Twice the area between two vectors, positive when `b` lies anticlockwise of `a`."""
    return a[0] * b[1] - a[1] * b[0]


def polygon(points: Sequence[Vec], radius: Fraction = Fraction(0)) -> tuple[Cone, ...]:
    """The cones of a convex ring (anticlockwise), a segment or a point, swollen by `radius`."""
    if len(points) == 1:
        return tuple(Cone(AXES[i], AXES[(i + 1) % 4], points[0], radius) for i in range(4))
    normals = [direction(b[1] - a[1], a[0] - b[0]) for a, b in zip(points, (*points[1:], points[0]), strict=True)]
    wide = [Cone(normals[i - 1], normals[i], points[i], radius) for i in range(len(points))]
    return tuple(part for cone in wide for part in _by_axes(cone))


def quarter_disc(hinge: Vec, closed: Vec, opened: Vec) -> tuple[Cone, ...]:
    """The cones of a door's swing: both leaves start at `hinge`, `opened` a quarter turn after `closed`."""
    a = direction(closed[0] - hinge[0], closed[1] - hinge[1])
    b = direction(opened[0] - hinge[0], opened[1] - hinge[1])
    leaf = root_above((closed[0] - hinge[0]) ** 2 + (closed[1] - hinge[1]) ** 2)
    back_a, back_b = (-a[0], -a[1]), (-b[0], -b[1])
    none = Fraction(0)
    wide = (
        Cone(back_b, a, closed, none),
        Cone(a, b, hinge, leaf),
        Cone(b, back_a, opened, none),
        Cone(back_a, back_b, hinge, none),
    )
    return tuple(part for cone in wide for part in _by_axes(cone))


def _by_axes(cone: Cone) -> tuple[Cone, ...]:
    start = atan2(cone.low[1], cone.low[0])
    width = (atan2(cone.high[1], cone.high[0]) - start) % tau
    if cross(cone.low, cone.high) == 0 and width < 1:
        return ()
    turns = sorted(((atan2(u[1], u[0]) - start) % tau, u) for u in AXES)
    inside = [u for turn, u in turns if cross(cone.low, u) > 0 and 0 < turn < width and cross(u, cone.high) > 0]
    if cross(cone.low, cone.high) == 0:
        inside = [u for _, u in turns if cross(cone.low, u) > 0]
    marks = (cone.low, *inside, cone.high)
    return tuple(Cone(u, v, cone.centre, cone.radius) for u, v in pairwise(marks))


def fine(cone: Cone, distance: Fraction) -> tuple[Cone, ...]:
    """The cone, halved until `loose_tangent` is off by no more than `KIND`."""
    u, half = cone.middle
    if float(cone.radius + distance) * (1 - cos(half)) <= KIND or len(cone.cut(u)) == 1:
        return (cone,)
    return tuple(part for child in cone.cut(u) for part in fine(child, distance))


def root_above(square: Fraction) -> Fraction:
    """The root where it is rational, else a hair (under 1e-15 of it) above it."""
    top, bottom = isqrt(square.numerator), isqrt(square.denominator)
    if top * top == square.numerator and bottom * bottom == square.denominator:
        return Fraction(top, bottom)
    scale = 1 << 120
    return Fraction(isqrt(square.numerator * scale * scale // square.denominator) + 1, scale)


def tangent(u: Dir, centre: Vec, distance: Fraction) -> int:
    """The least whole value of u·corner that keeps the box `distance` away in direction `u`."""
    return ceil(u[0] * centre[0] + u[1] * centre[1] + distance * root_above(Fraction(u[0] ** 2 + u[1] ** 2)))


def loose_tangent(u: Dir, half: float, centre: Vec, distance: Fraction) -> int:
    """As `tangent`, but never refuses a box that is `distance` away in a direction within `half` of `u`."""
    reach = float(max(distance, Fraction(0))) * cos(half) * hypot(*u)
    return floor(u[0] * centre[0] + u[1] * centre[1] + Fraction(reach)) - 1 - (abs(u[0]) + abs(u[1])) // 10**9


def apart(cones: Sequence[Cone], corners: Sequence[tuple[int, int]], distance: Fraction) -> bool:
    """Whether a box (its corner for each cone) is really `distance` away from the piece."""
    for cone, (x, y) in zip(cones, corners, strict=True):
        for u in (cone.low, cone.high):
            if u[0] * x + u[1] * y >= tangent(u, cone.centre, cone.radius + distance):
                return True
        v = (x - cone.centre[0], y - cone.centre[1])
        between = cross(cone.low, v) >= 0 and cross(v, cone.high) >= 0
        if between and any(v) and v[0] ** 2 + v[1] ** 2 >= max(cone.radius + distance, Fraction(0)) ** 2:
            return True
    return False
