"""Where parts touch: faces of different parts that lie in one plane, look at each other and overlap.

All exact: planes are keyed by rational numbers, and overlaps are clipped in rationals. Boxes that lie along the axes,
nearly all of a frame, are compared as integers in bulk; an index over their plans keeps the work near n log n.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import gcd, lcm

import numpy as np
import shapely

from fitter.domain.woodwork import Part, Vector

_Ints = np.ndarray[tuple[int, ...], np.dtype[np.int64]]
_Polygon = tuple[Vector, ...]


@dataclass(frozen=True)
class Contact:
    """Two parts that touch in one plane.

    Args:
        first: index of one part, below `second`.
        second: index of the other.
        normal: of the plane, from the first part into the second; whole numbers without a common divisor.
        patches: convex polygons in which they touch, in units, without common area; more than one where a part has
            housings.
    """

    first: int
    second: int
    normal: tuple[int, int, int]
    patches: tuple[_Polygon, ...]


def contacts(parts: Sequence[Part]) -> tuple[Contact, ...]:
    """Every contact with an area, ordered by the parts' indices, then by plane.

    Args:
        parts: of one woodwork; they may not overlap, which is checked elsewhere.
    """
    found: dict[tuple[int, int, tuple[int, int, int], Fraction], list[_Polygon]] = {}
    for i, j, normal, offset, patch in _touching(parts):
        if i > j:
            i, j, normal, offset = j, i, (-normal[0], -normal[1], -normal[2]), -offset
        found.setdefault((i, j, normal, offset), []).append(patch)
    return tuple(Contact(i, j, normal, tuple(found[key])) for key in sorted(found) for i, j, normal, _ in (key,))


_Touch = tuple[int, int, tuple[int, int, int], Fraction, _Polygon]


def _touching(parts: Sequence[Part]) -> Iterator[_Touch]:
    """Pairs of faces that touch: indices, the normal from the first, its plane's offset along it, what they share."""
    owner: list[int] = []
    low: list[tuple[int, ...]] = []
    high: list[tuple[int, ...]] = []
    for i, part in enumerate(parts):
        for box in _boxes(part) or (_around(part),):
            owner.append(i)
            low.append(box[0])
            high.append(box[1])
    if len(owner) < 2:
        return
    whole = np.array([_boxes(part) is not None for part in parts])
    owners, lows, highs = np.array(owner), np.array(low, dtype=np.int64), np.array(high, dtype=np.int64)
    a, b = _near(owners, lows, highs)
    both = whole[owners[a]] & whole[owners[b]]
    yield from _boxes_touching(owners, lows, highs, a[both], b[both])
    askew = zip(owners[a[~both]].tolist(), owners[b[~both]].tolist(), strict=True)
    for i, j in sorted(set(askew)):
        yield from _faces_touching(i, j, parts[i], parts[j])


@lru_cache(maxsize=4096)
def _boxes(part: Part) -> tuple[tuple[tuple[int, ...], tuple[int, ...]], ...] | None:
    """Its pieces as lowest and highest corner, where it lies along the axes with square ends on whole units."""
    axes = (part.along, part.across, part.through)
    if not (part.cuts[0].square and part.cuts[1].square) or any(x not in (-1, 0, 1) for axis in axes for x in axis):
        return None
    if any(x.denominator != 1 for x in part.origin):
        return None
    if part.housings:
        return tuple((_corner(piece, min), _corner(piece, max)) for piece in part.pieces)
    sizes = (part.length.units, part.width.units, part.thickness.units)
    start = tuple(int(x) for x in part.origin)
    reach = tuple(sum(size * int(axis[k]) for size, axis in zip(sizes, axes, strict=True)) for k in range(3))
    return (
        (
            tuple(min(x, x + d) for x, d in zip(start, reach, strict=True)),
            tuple(max(x, x + d) for x, d in zip(start, reach, strict=True)),
        ),
    )


def _corner(piece: _Polygon, pick: type[min] | type[max]) -> tuple[int, ...]:  # type: ignore[valid-type]
    return tuple(int(pick(point[k] for point in piece)) for k in range(3))  # type: ignore[operator]


def _around(part: Part) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """A box of whole units around a part, one unit wider than it needs to be."""
    return (
        tuple(min(p[k] for p in part.corners).__floor__() - 1 for k in range(3)),
        tuple(max(p[k] for p in part.corners).__ceil__() + 1 for k in range(3)),
    )


def _near(owners: _Ints, low: _Ints, high: _Ints) -> tuple[_Ints, _Ints]:
    """Pairs of boxes of different parts that meet or overlap, each pair once, in order."""
    plans = shapely.box(low[:, 0], low[:, 1], high[:, 0], high[:, 1])
    a, b = shapely.STRtree(plans).query(plans)
    keep = (a < b) & (owners[a] != owners[b]) & (low[a, 2] <= high[b, 2]) & (low[b, 2] <= high[a, 2])
    a, b = a[keep], b[keep]
    order = np.lexsort((b, a))
    return a[order], b[order]


def _boxes_touching(owners: _Ints, low: _Ints, high: _Ints, a: _Ints, b: _Ints) -> Iterator[_Touch]:
    start, stop = np.maximum(low[a], low[b]), np.minimum(high[a], high[b])
    shared = stop - start
    touch = ((shared == 0).sum(axis=1) == 1) & ((shared > 0).sum(axis=1) == 2)
    a, b, start, stop, shared = a[touch], b[touch], start[touch], stop[touch], shared[touch]
    axis = (shared == 0).argmax(axis=1)
    rows = np.arange(len(a))
    sign = np.where(high[a, axis][rows.tolist()] == low[b, axis], 1, -1) if len(a) else rows
    found = zip(owners[a].tolist(), owners[b].tolist(), axis.tolist(), sign.tolist(), strict=True)
    for (i, j, k, s), lowest, highest in zip(found, start.tolist(), stop.tolist(), strict=True):
        normal = (s * (k == 0), s * (k == 1), s * (k == 2))
        yield i, j, normal, Fraction(s * lowest[k]), _rectangle(lowest, highest, k)


def _rectangle(low: list[int], high: list[int], k: int) -> _Polygon:
    """The corners in order of a box that is flat along axis k."""
    u, v = (k + 1) % 3, (k + 2) % 3
    corners = []
    for at_u, at_v in ((low, low), (high, low), (high, high), (low, high)):
        point = [Fraction(low[k])] * 3
        point[u], point[v] = Fraction(at_u[u]), Fraction(at_v[v])
        corners.append((point[0], point[1], point[2]))
    return tuple(corners)


@lru_cache(maxsize=4096)
def _faces(part: Part) -> dict[tuple[tuple[int, int, int], Fraction], list[_Polygon]]:
    """Faces by the primitive normal that looks out of them and the plane's offset along it."""
    points, rings = part.mesh
    faces: dict[tuple[tuple[int, int, int], Fraction], list[_Polygon]] = {}
    for ring in rings:
        polygon = tuple(points[i] for i in ring)
        normal = _primitive(_cross(_minus(polygon[1], polygon[0]), _minus(polygon[2], polygon[0])))
        faces.setdefault((normal, _dot(normal, polygon[0])), []).append(polygon)
    return faces


def _faces_touching(i: int, j: int, one: Part, other: Part) -> Iterator[_Touch]:
    against = _faces(other)
    for (normal, offset), polygons in _faces(one).items():
        opposite = against.get(((-normal[0], -normal[1], -normal[2]), -offset))
        for mine in polygons if opposite else ():
            for theirs in opposite or ():
                if patch := _shared(mine, theirs, normal):
                    yield i, j, normal, offset, patch


def _shared(mine: _Polygon, theirs: _Polygon, normal: tuple[int, int, int]) -> _Polygon | None:
    """What two convex polygons of one plane share, clipped edge by edge (Sutherland and Hodgman); None without area."""
    drop = max(range(3), key=lambda k: abs(normal[k]))
    u, v = (drop + 1) % 3, (drop + 2) % 3
    ring = list(mine)
    edges = list(zip(theirs, (*theirs[1:], theirs[0]), strict=True))
    if _area(theirs, u, v) < 0:
        edges = [(q, p) for p, q in edges]
    for p, q in edges:
        sides = [(q[u] - p[u]) * (x[v] - p[v]) - (q[v] - p[v]) * (x[u] - p[u]) for x in ring]
        ring = list(_clipped(ring, sides))
        if not ring:
            return None
    tidy = tuple(point for k, point in enumerate(ring) if point != ring[k - 1])
    return tidy if len(tidy) > 2 and _area(tidy, u, v) else None


def _clipped(ring: list[Vector], sides: list[Fraction]) -> Iterator[Vector]:
    for k, (point, side) in enumerate(zip(ring, sides, strict=True)):
        before, was = ring[k - 1], sides[k - 1]
        if was * side < 0:
            share = was / (was - side)
            yield (
                before[0] + share * (point[0] - before[0]),
                before[1] + share * (point[1] - before[1]),
                before[2] + share * (point[2] - before[2]),
            )
        if side >= 0:
            yield point


def _area(polygon: _Polygon, u: int, v: int) -> Fraction:
    """Twice the signed area of a polygon's picture on two axes."""
    pairs = zip(polygon, (*polygon[1:], polygon[0]), strict=True)
    return sum((p[u] * q[v] - p[v] * q[u] for p, q in pairs), Fraction(0))


def _minus(a: Vector, b: Vector) -> Vector:
    return a[0] - b[0], a[1] - b[1], a[2] - b[2]


def _cross(a: Vector, b: Vector) -> Vector:
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]


def _dot(a: tuple[int, int, int], b: Vector) -> Fraction:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def _primitive(normal: Vector) -> tuple[int, int, int]:
    """The same direction in whole numbers without a common divisor."""
    scale = lcm(*(x.denominator for x in normal))
    x, y, z = (int(n * scale) for n in normal)
    common = gcd(x, y, z)
    return x // common, y // common, z // common
