"""Keeping an axis-parallel rectangle away from a convex piece: exact tests and linear clauses.

All arithmetic is exact: the rectangle counts shop marks, the piece whole fine units of the frame.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from math import atan2, cos, floor, gcd, hypot, inf, isqrt, pi
from typing import NamedTuple, TypeVar

from fitter.model.frames import Vector

_P = TypeVar("_P")
TURN = 2 * pi
NEAR_DIRECTION = 1 << 9  # the same where a short number will do
FINE_DIRECTION = 1 << 15  # components of a direction between two normals; only relaxed bounds use it


Marks = int | Fraction
Place = tuple[Marks, Marks]


class Rect(NamedTuple):
    """A rectangle in shop marks; fractions stand between marks, where the solver thinks before it rounds."""

    x0: Marks
    y0: Marks
    x1: Marks
    y1: Marks

    def moved(self, dx: Marks, dy: Marks) -> Rect:
        """The same rectangle elsewhere."""
        return Rect(self.x0 + dx, self.y0 + dy, self.x1 + dx, self.y1 + dy)


class Atom(NamedTuple):
    """One linear way to be clear: a·x + b·y >= least, at the rectangle's corner that is worst for (a, b)."""

    a: int
    b: int
    least: int

    def holds(self, rect: Rect) -> bool:
        """Whether the rectangle satisfies it."""
        x = rect.x0 if self.a > 0 else rect.x1
        y = rect.y0 if self.b > 0 else rect.y1
        return self.a * x + self.b * y >= self.least

    def slack(self, rect: Rect) -> float:
        """How far the rectangle may move before it breaks it, in marks; negative where it does."""
        x = rect.x0 if self.a > 0 else rect.x1
        y = rect.y0 if self.b > 0 else rect.y1
        return float(self.a * x + self.b * y - self.least) / hypot(self.a, self.b)


@dataclass(frozen=True)
class Ground:
    """A convex piece in a frame, and how far a rectangle keeps from it.

    Args:
        points: corners anticlockwise in fine units; two points of a half-plane, the forbidden side to the right.
        keep: distance in fine units.
        mark: fine units per shop mark.
        reach: marks from the piece to the farthest place that a rectangle may take.
        half_plane: whether it is one.
        behind: lines; being wholly to the right of one of them also counts as clear, however near
            (the gap then runs through a wall).
        arc: radius in fine units, where the piece is a quarter disc about its first point, from the second to the
            third; 0 for all else.
    """

    points: tuple[Vector, ...]
    keep: int
    mark: int
    reach: int
    half_plane: bool = False
    behind: tuple[tuple[Vector, Vector], ...] = ()
    arc: int = 0

    @cached_property
    def normals(self) -> tuple[Atom, ...]:
        """Clear along a side of the rectangle or a normal of the piece, exactly."""
        return _normal_atoms(self)

    @cached_property
    def beside(self) -> tuple[float, float, float, float]:
        """Places (in marks) that a rectangle beside the piece keeps to: left of, right of, below, above.

        They restate the four atoms along the axes, which settle nearly every test.
        """
        if self.half_plane:
            return -inf, inf, -inf, inf
        right, left, above, below = (atom.least for atom in self.normals[:4])
        return -left, right, -below, above

    @cached_property
    def sides(self) -> tuple[tuple[Vector, Vector], ...]:
        """The straight ones."""
        sides = _sides(self.points)
        return (sides[0], sides[2]) if self.arc else tuple(sides)


def is_clear(rect: Rect, ground: Ground) -> bool:
    """Whether the rectangle keeps its distance, decided exactly."""
    left, right, below, above = ground.beside
    if rect.x0 >= right or rect.x1 <= left or rect.y0 >= above or rect.y1 <= below:
        return True
    if any(atom.holds(rect) for atom in ground.normals):
        return True
    m = ground.mark
    x0, y0, x1, y1 = rect.x0 * m, rect.y0 * m, rect.x1 * m, rect.y1 * m
    if ground.half_plane or (ground.keep == 0 and len(ground.points) > 2 and not ground.arc):
        return False
    square = ground.keep**2
    if any(_square_to_rect(p, x0, y0, x1, y1) < square for p in ground.points):
        return False
    corners = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
    if any(_nearer(corner, a, b, square) for a, b in ground.sides for corner in corners):
        return False
    if ground.arc:
        return not _in_quarter(ground, corners)
    return not _overlap(ground.points, corners)


def atoms(ground: Ground, splits: Sequence[float], bits: int) -> tuple[Atom, ...]:
    """Linear ways to be clear, at least one of which holds whenever the rectangle keeps its distance.

    Directions along the rectangle's sides and the piece's normals are exact. Where corner faces corner the
    gap is Euclidean: a direction within `half` of the true one still sees a gap of keep × cos(half), so
    one direction per sector between exact ones (and `splits`) loses no feasible place.

    Args:
        ground: the piece.
        splits: angles (radians) at which sectors are cut finer.
        bits: size of the coefficients; normals that need more are rounded to it, on the safe side.
    """
    exact = ground.normals
    short = tuple(_rounded(atom, ground, bits) for atom in exact)
    if ground.half_plane or ground.keep == ground.arc == 0:
        return short
    angles = sorted({*(_angle(atom) for atom in exact), *splits})
    between = []
    for low, high in zip(angles, (*angles[1:], angles[0] + TURN), strict=True):
        half = (high - low) / 2
        if 1e-7 < half < pi / 2:
            between.append(_slanted(ground, low + half, cos(half)))
    return (*short, *between)


def facing(rect: Rect, ground: Ground) -> float:
    """Angle of the shortest way from the piece to the rectangle, radians."""
    m = ground.mark
    box = (rect.x0 * m, rect.y0 * m, rect.x1 * m, rect.y1 * m)
    ways = []
    if ground.arc:
        dx, dy = _to_rect(ground.points[0], *box)
        if _in_cone(ground.points, dx, dy):
            return atan2(dy, dx)
    for point in ground.points:
        dx, dy = _to_rect(point, *box)
        ways.append((dx * dx + dy * dy, dx, dy))
    _, dx, dy = min(ways)
    return atan2(dy, dx)


def faced(rect: Rect, ground: Ground) -> Atom:
    """A way to be clear in the direction in which the rectangle lies, never weaker than the distance demands."""
    angle = facing(rect, ground)
    a, b = round(NEAR_DIRECTION * cos(angle)), round(NEAR_DIRECTION * cos(angle - pi / 2))
    return _exact(ground, a, b)


def _normal_atoms(ground: Ground) -> tuple[Atom, ...]:
    """Clear along a side of the rectangle or a normal of the piece, exactly."""
    if ground.half_plane:
        (ax, ay), (bx, by) = ground.points
        return (_exact(ground, ay - by, bx - ax),)
    axes = ((1, 0), (-1, 0), (0, 1), (0, -1))
    found = [_exact(ground, a, b) for a, b in axes]
    # To the right of a side is outward.
    ways = [(by - ay, ax - bx) for (ax, ay), (bx, by) in ground.sides if ((ax, ay), (bx, by)) not in ground.behind]
    if ground.arc:
        (hx, hy), *tips = ground.points
        ways += [(x - hx, y - hy) for x, y in tips]
    found += [_exact(ground, a, b) for a, b in ways if a and b]
    for line in ground.behind:
        a, b = line[1][1] - line[0][1], line[0][0] - line[1][0]
        found.append(_atom(a, b, max(a * x + b * y for x, y in line), 0, ground.mark))
    return tuple(found)


def _exact(ground: Ground, a: int, b: int) -> Atom:
    """The atom of direction (a, b): whole numbers make the Euclidean bound exact on the grid of marks."""
    common = gcd(a, b) or 1
    a, b = a // common, b // common
    if ground.arc and _in_cone(ground.points, a, b):
        x, y = ground.points[0]
        return _atom(a, b, a * x + b * y, ground.arc + ground.keep, ground.mark)
    return _atom(a, b, max(a * x + b * y for x, y in ground.points), ground.keep, ground.mark)


def _atom(a: int, b: int, farthest: int, keep: int, mark: int) -> Atom:
    """At least `keep` beyond the farthest point of something, `farthest` being its a·x + b·y."""
    square = keep * keep * (a * a + b * b)
    root = isqrt(square)
    return Atom(a, b, -(-(farthest + root + (root * root < square)) // mark))


def _rounded(atom: Atom, ground: Ground, bits: int) -> Atom:
    """The same direction with short coefficients, weakened so that no place within reach is lost.

    The coefficients of a skew wall in a turned frame are as long as the frame's denominator, and the solver's
    arithmetic is many times faster on short ones. The slope's best rational approximation changes s·(a, b) by
    (e, f), and the left side by e·x + f·y, which is known at the piece and changes by at most
    (|e| + |f|) × reach from there.
    """
    largest = max(abs(atom.a), abs(atom.b))
    if largest.bit_length() <= bits:
        return atom
    steep = abs(atom.b) > abs(atom.a)
    slope = Fraction(atom.a, atom.b) if steep else Fraction(atom.b, atom.a)
    near = slope.limit_denominator(1 << bits)
    a, b = (near.numerator, near.denominator) if steep else (near.denominator, near.numerator)
    share = Fraction(near.denominator, largest)
    if (atom.b if steep else atom.a) < 0:
        a, b = -a, -b
    e, f = a - atom.a * share, b - atom.b * share
    x, y = (Fraction(c, ground.mark) for c in ground.points[0])
    least = atom.least * share + e * x + f * y - (abs(e) + abs(f)) * ground.reach
    return Atom(a, b, floor(least))


def _slanted(ground: Ground, angle: float, share: float) -> Atom:
    """A relaxed atom: never stronger than the true distance demands, whatever rounding does."""
    a, b = round(FINE_DIRECTION * cos(angle)), round(FINE_DIRECTION * cos(angle - pi / 2))
    points, keep = ground.points, ground.keep
    if ground.arc and _in_cone(points, cos(angle), cos(angle - pi / 2)):
        points, keep = points[:1], ground.arc + ground.keep
    farthest = max(a * x + b * y for x, y in points)
    # The rounded direction is off by up to 1/FINE_DIRECTION rad; cos falls at most by that much.
    gap = keep * hypot(a, b) * (share - 1.5 / FINE_DIRECTION) * (1 - 1e-12)
    return Atom(a, b, (farthest + int(gap) - 1) // ground.mark)


def _angle(atom: Atom) -> float:
    return atan2(atom.b, atom.a)


def _sides(points: Sequence[_P]) -> list[tuple[_P, _P]]:
    if len(points) < 2:
        return []
    return list(zip(points, (*points[1:], points[0]), strict=True))


def _square_to_rect(p: Vector, x0: Marks, y0: Marks, x1: Marks, y1: Marks) -> Marks:
    dx, dy = max(x0 - p[0], 0, p[0] - x1), max(y0 - p[1], 0, p[1] - y1)
    return dx * dx + dy * dy


def _to_rect(p: Vector, x0: Marks, y0: Marks, x1: Marks, y1: Marks) -> Place:
    """The shortest way from a point to a rectangle."""
    return max(x0, min(p[0], x1)) - p[0], max(y0, min(p[1], y1)) - p[1]


def _nearer(p: Place, a: Vector, b: Vector, square: int) -> bool:
    """Whether p lies nearer to the inside of segment ab than the root of `square` (its ends are seen to apart)."""
    ux, uy, vx, vy = b[0] - a[0], b[1] - a[1], p[0] - a[0], p[1] - a[1]
    along, length = ux * vx + uy * vy, ux * ux + uy * uy
    across = ux * vy - uy * vx
    return 0 <= along <= length and across * across < square * length


def _in_cone(points: Sequence[Vector], x: Marks | float, y: Marks | float) -> bool:
    """Whether a direction from the first of three points leads between the other two, or to one of them."""
    (hx, hy), (ax, ay), (bx, by) = points
    return (ax - hx) * y >= (ay - hy) * x and (by - hy) * x >= (bx - hx) * y


def _in_quarter(ground: Ground, corners: Sequence[Place]) -> bool:
    """Whether a rectangle that is near to no side or corner of a quarter disc meets it, grown by `keep` at its arc.

    What of the rectangle lies in the quarter plane and is nearest to the hinge, is its nearest place to the hinge of
    all, or lies on one of the straight sides; so that it either enters a side, or its nearest place decides.
    """
    (x0, y0), (x1, y1) = corners[0], corners[2]
    (hx, hy), (ax, ay), (bx, by) = ground.points
    if any(_enters(one, two, x0, y0, x1, y1) for one, two in ground.sides):
        return True
    dx, dy = _to_rect((hx, hy), x0, y0, x1, y1)
    if dx * dx + dy * dy >= (ground.arc + ground.keep) ** 2 or not _in_cone(ground.points, dx, dy):
        return False
    # The nearest place lies in the quarter plane or on its border, and then any corner within shows on which side.
    return any(
        (ax - hx) * (y - hy) > (ay - hy) * (x - hx) and (by - hy) * (x - hx) > (bx - hx) * (y - hy)
        for x, y in ((hx + dx, hy + dy), *corners)
    )


def _enters(a: Vector, b: Vector, x0: Marks, y0: Marks, x1: Marks, y1: Marks) -> bool:
    """Whether a segment runs through the inside of a rectangle (Liang and Barsky, 1984)."""
    low, high = Fraction(0), Fraction(1)
    for start, along, least, most in ((a[0], b[0] - a[0], x0, x1), (a[1], b[1] - a[1], y0, y1)):
        if not along:
            if not least < start < most:
                return False
            continue
        first, last = sorted((Fraction(least - start) / along, Fraction(most - start) / along))
        low, high = max(low, first), min(high, last)
    return low < high


def _overlap(points: Sequence[Vector], corners: Sequence[Place]) -> bool:
    """Whether a rectangle and a piece whose borders keep apart still lie one within the other, or cross."""
    x0, y0 = corners[0]
    x1, y1 = corners[2]
    if any(x0 < x < x1 and y0 < y < y1 for x, y in points):
        return True
    sides = _sides(points)
    if len(points) > 2 and any(
        all((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0]) > 0 for a, b in sides) for x, y in corners
    ):
        return True
    return any(_cross(a, b, c, d) for a, b in sides for c, d in _sides(corners))


def _cross(a: Place, b: Place, c: Place, d: Place) -> bool:
    def side(p: Place, q: Place, r: Place) -> int:
        turn = (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])
        return (turn > 0) - (turn < 0)

    return side(a, b, c) * side(a, b, d) < 0 and side(c, d, a) * side(c, d, b) < 0
