"""Where parts touch: faces of different parts that lie in one plane, look at each other and overlap.

All exact: planes are keyed by rational numbers, and overlaps are clipped in rationals. Boxes that lie along the axes,
nearly all of a frame, are compared as integers in bulk; an index over their plans keeps the work near n log n.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import product
from math import gcd, lcm

import numpy as np
import shapely

from fitter.domain.woodwork import Number, Part, Vector

_Ints = np.ndarray[tuple[int, ...], np.dtype[np.int64]]
_Polygon = tuple[Vector, ...]


@dataclass(frozen=True)
class Contact:
    """Two parts that touch in one plane.

    Args:
        first: index of one part, below `second`.
        second: index of the other.
        normal: of the plane, from the first part into the second; whole numbers without a common divisor.
        patches: convex polygons in which they touch, in units, without common area; more than one where a housing
            leaves them no rectangle.
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
    found: dict[tuple[int, int, tuple[int, int, int], Number], list[_Polygon]] = {}
    for i, j, normal, offset, patch in _touching(parts):
        if i > j:
            i, j, normal, offset = j, i, (-normal[0], -normal[1], -normal[2]), -offset
        found.setdefault((i, j, normal, offset), []).append(patch)
    return tuple(Contact(*key[:3], _joined(found[key], key[2])) for key in sorted(found))


_Touch = tuple[int, int, tuple[int, int, int], Number, _Polygon]
_Box = tuple[tuple[int, ...], tuple[int, ...]]
_Faces = dict[tuple[tuple[int, int, int], Number], list[_Polygon]]


def _touching(parts: Sequence[Part]) -> Iterator[_Touch]:
    """Pairs of faces that touch: indices, the normal from the first, its plane's offset along it, what they share."""
    boxes = [_boxes(part) for part in parts]
    owner = [i for i, these in enumerate(boxes) for _ in these or (0,)]
    if len(owner) < 2:
        return
    bounds = [box for these, part in zip(boxes, parts, strict=True) for box in these or (_around(part),)]
    owners, limits = np.array(owner), np.array(bounds, dtype=np.int64)
    low, high = limits[:, 0], limits[:, 1]
    whole = np.array([bool(these) for these in boxes])[owners]
    a, b = _near(owners, low, high)
    both = whole[a] & whole[b]
    yield from _boxes_touching(owners, low, high, a[both], b[both])
    askew = sorted(set(zip(owners[a[~both]].tolist(), owners[b[~both]].tolist(), strict=True)))
    faces = {i: _faces(parts[i]) for i in sorted({i for pair in askew for i in pair})}
    for i, j in askew:
        yield from _faces_touching(i, j, faces[i], faces[j])


def _boxes(part: Part) -> tuple[_Box, ...]:
    """Its pieces as lowest and highest corner, where it lies along the axes with square ends on whole units."""
    axes = (part.along, part.across, part.through)
    if not (part.cuts[0].square and part.cuts[1].square) or any(x not in (-1, 0, 1) for axis in axes for x in axis):
        return ()
    if any(x.denominator != 1 for x in part.origin):
        return ()
    # Of an upright box the first corner and the last are opposite.
    ends = [(piece[0], piece[-1]) for piece in (part.pieces if part.housings else (_diagonal(part),))]
    return tuple(
        (
            tuple(int(min(pair)) for pair in zip(*two, strict=True)),
            tuple(int(max(pair)) for pair in zip(*two, strict=True)),
        )
        for two in ends
    )


def _diagonal(part: Part) -> tuple[Vector, Vector]:
    return part.origin, part.at(part.length.units, part.width.units, part.thickness.units)


def _around(part: Part) -> _Box:
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
    flat = start == stop
    touch = (flat.sum(axis=1) == 1) & ((start < stop).sum(axis=1) == 2)
    a, b, axis = a[touch], b[touch], flat[touch].argmax(axis=1)
    ahead = high[a, axis] == low[b, axis]
    found = zip(owners[a].tolist(), owners[b].tolist(), axis.tolist(), ahead.tolist(), strict=True)
    for (i, j, k, first), lowest, highest in zip(found, start[touch].tolist(), stop[touch].tolist(), strict=True):
        sign = 1 if first else -1
        normal = (sign * (k == 0), sign * (k == 1), sign * (k == 2))
        yield i, j, normal, sign * lowest[k], _rectangle(lowest, highest, k)


def _rectangle(low: Sequence[Number], high: Sequence[Number], k: int) -> _Polygon:
    """The corners in order of a box that is flat along axis k."""
    u, v = (k + 1) % 3, (k + 2) % 3
    corners = []
    for at_u, at_v in ((low, low), (high, low), (high, high), (low, high)):
        point = [low[k]] * 3
        point[u], point[v] = at_u[u], at_v[v]
        corners.append((point[0], point[1], point[2]))
    return tuple(corners)


def _joined(patches: list[_Polygon], normal: tuple[int, int, int]) -> tuple[_Polygon, ...]:
    """Patches of one plane, those of parts with housings put together again to rectangles as large as may be."""
    axis = next((k for k in range(3) if normal[k] and not any(normal[:k]) and not any(normal[k + 1 :])), None)
    if len(patches) < 2 or axis is None or any(len(patch) != 4 for patch in patches):
        return tuple(patches)
    boxes = [tuple((min(x), max(x)) for x in zip(*patch, strict=True)) for patch in patches]
    u, v = (axis + 1) % 3, (axis + 2) % 3
    if any(patch[0][k] != patch[1][k] and patch[0][k] != patch[3][k] for patch in patches for k in (u, v)):
        return tuple(patches)
    ways = [_strung(_strung(boxes, a), b) for a, b in ((u, v), (v, u))]
    best = max(ways, key=lambda way: max((box[u][1] - box[u][0]) * (box[v][1] - box[v][0]) for box in way))
    return tuple(_rectangle([x[0] for x in box], [x[1] for x in box], axis) for box in best)


_Span = tuple[tuple[Number, Number], ...]


def _strung(boxes: list[_Span], axis: int) -> list[_Span]:
    """Boxes that follow each other along an axis and are alike across it, as one."""
    rows: dict[_Span, list[tuple[Number, Number]]] = {}
    for box in sorted(boxes):
        row = rows.setdefault(box[:axis] + box[axis + 1 :], [])
        if row and row[-1][1] == box[axis][0]:
            row[-1] = (row[-1][0], box[axis][1])
        else:
            row.append(box[axis])
    return [(*rest[:axis], span, *rest[axis:]) for rest, row in rows.items() for span in row]


def _faces(part: Part) -> _Faces:
    """Faces by the primitive normal that looks out of them and the plane's offset along it."""
    points, rings = part.mesh
    faces: _Faces = {}
    for ring in rings:
        polygon = tuple(points[i] for i in ring)
        normal = _primitive(_cross(_minus(polygon[1], polygon[0]), _minus(polygon[2], polygon[0])))
        faces.setdefault((normal, _dot(normal, polygon[0])), []).append(polygon)
    return faces


def _faces_touching(i: int, j: int, one: _Faces, other: _Faces) -> Iterator[_Touch]:
    for (normal, offset), polygons in one.items():
        opposite = other.get(((-normal[0], -normal[1], -normal[2]), -offset), [])
        for mine, theirs in product(polygons, opposite):
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


def _clipped(ring: list[Vector], sides: list[Number]) -> Iterator[Vector]:
    for k, (point, side) in enumerate(zip(ring, sides, strict=True)):
        before, was = ring[k - 1], sides[k - 1]
        if was * side < 0:
            share = Fraction(was) / (was - side)
            yield (
                before[0] + share * (point[0] - before[0]),
                before[1] + share * (point[1] - before[1]),
                before[2] + share * (point[2] - before[2]),
            )
        if side >= 0:
            yield point


def _area(polygon: _Polygon, u: int, v: int) -> Number:
    """Twice the signed area of a polygon's picture on two axes."""
    pairs = zip(polygon, (*polygon[1:], polygon[0]), strict=True)
    return sum(p[u] * q[v] - p[v] * q[u] for p, q in pairs)


def _minus(a: Vector, b: Vector) -> Vector:
    return a[0] - b[0], a[1] - b[1], a[2] - b[2]


def _cross(a: Vector, b: Vector) -> Vector:
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]


def _dot(a: tuple[int, int, int], b: Vector) -> Number:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def _primitive(normal: Vector) -> tuple[int, int, int]:
    """The same direction in whole numbers without a common divisor."""
    scale = lcm(*(x.denominator for x in normal))
    x, y, z = (int(n * scale) for n in normal)
    common = gcd(x, y, z)
    return x // common, y // common, z // common
