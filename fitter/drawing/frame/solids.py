"""Wood as flat faces in space: parts, parts moved, parts sawn through by a plane. In units of length, as floats."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TypeAlias

from fitter.domain.woodwork import Part, Vector

Spot3: TypeAlias = tuple[float, float, float]
Face3: TypeAlias = tuple[Spot3, ...]
"""A flat convex polygon, its corners anticlockwise seen from outside."""

# Of a piece whose corners are numbered 4i + 2j + k with i, j, k along its own axes: low and high side of each axis.
_RINGS = ((0, 1, 3, 2), (4, 6, 7, 5), (0, 4, 5, 1), (2, 3, 7, 6), (0, 2, 6, 4), (1, 5, 7, 3))


@dataclass(frozen=True)
class Solid:
    """Something with flat faces.

    Args:
        number: which part it is.
        faces: of its hull, anticlockwise seen from outside; a face may be told in several flat pieces.
        pieces: faces of the convex solids that fill it without overlapping.
    """

    number: int
    faces: tuple[Face3, ...]
    pieces: tuple[tuple[Face3, ...], ...]

    @property
    def spots(self) -> tuple[Spot3, ...]:
        """All corners, face by face."""
        return tuple(spot for face in self.faces for spot in face)


def dot(a: Spot3, b: Spot3) -> float:
    """The scalar product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Spot3, b: Spot3) -> Spot3:
    """The vector product."""
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]


def minus(a: Spot3, b: Spot3) -> Spot3:
    """The difference of two vectors."""
    return a[0] - b[0], a[1] - b[1], a[2] - b[2]


def plus(a: Spot3, b: Spot3, times: float = 1.0) -> Spot3:
    """A vector and a multiple of another one."""
    return a[0] + times * b[0], a[1] + times * b[1], a[2] + times * b[2]


def unit(a: Spot3) -> Spot3:
    """The vector of length 1 in the same direction; nil stays nil."""
    size = dot(a, a) ** 0.5 or 1.0
    return a[0] / size, a[1] / size, a[2] / size


def normal(face: Face3) -> Spot3:
    """The unit vector that points out of a face (Newell's sum, which no three corners in a line can spoil)."""
    total: Spot3 = (0.0, 0.0, 0.0)
    for a, b in pairwise((*face, face[0])):
        total = plus(total, cross(minus(a, face[0]), minus(b, face[0])))
    return unit(total)


def solid_of(part: Part, number: int, shift: Spot3 = (0.0, 0.0, 0.0)) -> Solid:
    """A part in its place, or moved from there by a shift in units."""

    def spot(corner: Vector) -> Spot3:
        return plus((float(corner[0]), float(corner[1]), float(corner[2])), shift)

    vertices, faces = part.mesh
    return Solid(
        number,
        tuple(tuple(spot(vertices[i]) for i in face) for face in faces),
        tuple(tuple(tuple(spot(piece[i]) for i in ring) for ring in _RINGS) for piece in part.pieces),
    )


@dataclass(frozen=True)
class Plane:
    """All spots whose product with a unit vector is `at`; what lies beyond it, along the vector, is taken away."""

    outward: Spot3
    at: float

    def over(self, spot: Spot3) -> float:
        """How far a spot lies beyond the plane, in units; negative on the side that stays."""
        return dot(self.outward, spot) - self.at


def sawn(solid: Solid, plane: Plane) -> Solid | None:
    """What a plane leaves of a solid; None if nothing. The faces of the saw cut close its pieces, not its hull."""
    faces = _kept(solid.faces, plane)
    pieces: list[tuple[Face3, ...]] = []
    for piece in solid.pieces:
        closing = _cap(piece, plane)
        rest = (*_kept(piece, plane), *((closing,) if closing else ()))
        if len(rest) > 3:
            pieces.append(rest)
    return Solid(solid.number, faces, tuple(pieces)) if pieces else None


def _kept(faces: Sequence[Face3], plane: Plane) -> tuple[Face3, ...]:
    """What a plane leaves of faces."""
    return tuple(rest for face in faces if len(rest := _clipped(face, plane)) >= 3)


def cuts(solid: Solid, plane: Plane) -> tuple[Face3, ...]:
    """The faces that the plane lays open, one of each convex piece that it goes through."""
    return tuple(cap for piece in solid.pieces if (cap := _cap(piece, plane)))


def _clipped(face: Face3, plane: Plane) -> Face3:
    """The piece of a face that stays."""
    kept: list[Spot3] = []
    for a, b in pairwise((*face, face[0])):
        if plane.over(a) <= 0:
            kept.append(a)
        if (plane.over(a) < 0 < plane.over(b)) or (plane.over(b) < 0 < plane.over(a)):
            kept.append(_between(a, b, plane))
    return tuple(kept)


def _between(a: Spot3, b: Spot3, plane: Plane) -> Spot3:
    """Where an edge goes through; the same to the last digit, whichever of its faces asks."""
    first, last = sorted((a, b))
    share = plane.over(first) / (plane.over(first) - plane.over(last))
    return plus(first, minus(last, first), share)


def _cap(piece: Sequence[Face3], plane: Plane) -> Face3 | None:
    """The cut through a convex piece, seen from where the rest was taken away; None if the plane passes by it."""
    over = [plane.over(spot) for face in piece for spot in face]
    if min(over) >= 0 or max(over) <= 0:
        return None
    spots = list(dict.fromkeys(spot for face in piece for spot in _touched(face, plane)))
    middle = plus((0.0, 0.0, 0.0), _sum(spots), 1 / len(spots))
    across = unit(minus(spots[0], middle))
    up = cross(plane.outward, across)
    return tuple(sorted(spots, key=lambda spot: _turn(dot(minus(spot, middle), across), dot(minus(spot, middle), up))))


def _touched(face: Face3, plane: Plane) -> Iterator[Spot3]:
    for a, b in pairwise((*face, face[0])):
        if plane.over(a) == 0:
            yield a
        elif plane.over(a) * plane.over(b) < 0:
            yield _between(a, b, plane)


def _sum(spots: Sequence[Spot3]) -> Spot3:
    return sum(s[0] for s in spots), sum(s[1] for s in spots), sum(s[2] for s in spots)


def _turn(x: float, y: float) -> float:
    """Grows with the angle of (x, y), from 0 to 4."""
    size = abs(x) + abs(y) or 1.0
    return y / size + 1 if x > 0 else 3 - y / size
