"""Parts as arrays of convex solids, in inches: what every fact about the wood is worked out from.

Nothing here is taken from the builder: corners are worked out anew, in floats, from the numbers of a part alone.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise, product
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from fitter.domain.woodwork import Part, PartRole, Slant, Vector
from rooms.lengths import UNITS_PER_INCH, Length

Floats: TypeAlias = NDArray[np.float64]
Counts: TypeAlias = NDArray[np.intp]
Flags: TypeAlias = NDArray[np.bool_]

TINY = 1e-3
"""What places that should be the same may be apart, inches: less than any shop mark, far more than floats lose."""

LOW, HIGH = 0, 1
RINGS = np.array([[0, 1, 3, 2], [4, 6, 7, 5], [0, 4, 5, 1], [2, 3, 7, 6], [0, 2, 6, 4], [1, 5, 7, 3]])
"""Corners of the six faces of a piece (corner 4i + 2j + k): number 2·axis + end, seen from outside anticlockwise."""


_CORNERS = np.array(list(product((0, 1), repeat=3)), dtype=np.float64)


def inches(length: Length) -> float:
    """A length as a float."""
    return length.units / UNITS_PER_INCH


def _vector(vector: Vector) -> tuple[float, float, float]:
    return (float(vector[0]), float(vector[1]), float(vector[2]))


@dataclass(frozen=True)
class Solids:
    """Every part cut into convex pieces of eight corners.

    Args:
        parts: in the order of the woodwork.
        corners: of each piece, in space; pieces × 8 × 3.
        own: the same in the part's own axes (along, across, through).
        part: to which part each piece belongs, rising.
        outer: whether a face of a piece lies on the part's own face of that number; pieces × 6.
        axes: unit vectors along, across and through of each part, as rows; parts × 3 × 3.
        origins: of each part; parts × 3.
        sizes: length, width and thickness; parts × 3.
    """

    parts: tuple[Part, ...]
    corners: Floats
    own: Floats
    part: Counts
    outer: Flags
    axes: Floats
    origins: Floats
    sizes: Floats

    @cached_property
    def low(self) -> Floats:
        """Lowest coordinates of each piece; pieces × 3."""
        return np.asarray(self.corners.min(axis=1))

    @cached_property
    def high(self) -> Floats:
        """Highest coordinates of each piece; pieces × 3."""
        return np.asarray(self.corners.max(axis=1))

    @cached_property
    def normals(self) -> Floats:
        """Outward unit normals of the faces; zero for a face without area; pieces × 6 × 3."""
        rings = self.corners[:, RINGS]
        raw = np.cross(rings[:, :, 2] - rings[:, :, 0], rings[:, :, 3] - rings[:, :, 1])
        size = np.linalg.norm(raw, axis=2, keepdims=True)
        return np.asarray(np.where(size > TINY * TINY, raw / np.maximum(size, TINY * TINY), 0.0))

    @cached_property
    def offsets(self) -> Floats:
        """How far each face lies out along its normal; pieces × 6."""
        return np.asarray(np.einsum("pfk,pfk->pf", self.normals, self.corners[:, RINGS].mean(axis=2)))

    @cached_property
    def square(self) -> Flags:
        """Whether a piece is a cuboid along the axes of the layout frame, so that its low and high say it all."""
        box = np.stack([self.low, self.high], axis=1)
        ideal = box[:, _CORNERS.astype(np.intp), np.arange(3)]
        far = np.abs(self.corners[:, :, None, :] - ideal[:, None, :, :]).max(axis=3).min(axis=2).max(axis=1)
        return np.asarray(far < TINY / 10)

    @cached_property
    def facing(self) -> Counts:
        """Which face of a square piece looks down or up an axis of the layout frame: column 2·axis + end."""
        return np.stack(
            [(self.normals[:, :, axis] * sign).argmax(axis=1) for axis in range(3) for sign in (-1, 1)], axis=1
        )

    @cached_property
    def part_low(self) -> Floats:
        """Lowest coordinates of each part; parts × 3."""
        return self._over_parts(self.low, np.minimum)

    @cached_property
    def part_high(self) -> Floats:
        """Highest coordinates of each part; parts × 3."""
        return self._over_parts(self.high, np.maximum)

    @cached_property
    def roles(self) -> NDArray[np.object_]:
        """Of each part."""
        return np.array([part.role for part in self.parts], dtype=object)

    def of(self, *roles: PartRole) -> list[int]:
        """The parts of some roles, in order."""
        wanted = set(roles)
        return [number for number, part in enumerate(self.parts) if part.role in wanted]

    def face_axis(self, number: int, direction: Floats) -> int:
        """Which face of a part, 2·axis + end, looks most along a direction."""
        along = self.axes[number] @ direction
        axis = int(np.abs(along).argmax())
        return 2 * axis + int(along[axis] > 0)

    def _over_parts(self, values: Floats, better: np.ufunc) -> Floats:
        if not len(self.parts):
            return np.zeros((0, 3))
        return np.asarray(better.reduceat(values, np.searchsorted(self.part, np.arange(len(self.parts))), axis=0))


def solids(parts: tuple[Part, ...]) -> Solids:
    """Cut parts into convex pieces.

    Raises:
        ValueError: a part that is all cut away.
    """
    axes = np.array([[_vector(v) for v in (p.along, p.across, p.through)] for p in parts]).reshape(-1, 3, 3)
    origins = np.array([_vector(p.origin) for p in parts]).reshape(-1, 3) / UNITS_PER_INCH
    sizes = np.array([[inches(s) for s in (p.length, p.width, p.thickness)] for p in parts]).reshape(-1, 3)
    whole, uncut = sizes[:, None, :] * _CORNERS, np.ones((1, 6), dtype=bool)
    own, owner, outer = [], [], []
    for number, part in enumerate(parts):
        cells, faces = _cells(part) if part.housings else (_slanted(part, whole[number]), uncut)
        if not len(cells):
            message = f"nothing is left of {part.role} {part.mark}"
            raise ValueError(message)
        own.append(cells)
        outer.append(faces)
        owner.append(np.full(len(cells), number, dtype=np.intp))
    local = np.concatenate([*own, np.zeros((0, 8, 3))])
    index = np.concatenate([*owner, np.zeros(0, dtype=np.intp)])
    corners = origins[index][:, None, :] + np.einsum("pcl,plk->pck", local, axes[index])
    edges = np.concatenate([*outer, np.zeros((0, 6), dtype=bool)])
    return Solids(tuple(parts), corners, local, index, edges, axes, origins, sizes)


def _slanted(part: Part, corners: Floats) -> Floats:
    """The corners of a part without housings, in its own axes, from those of its square length."""
    if all(cut.square for cut in part.cuts):
        return corners[None]
    corners = corners.copy()
    far = corners[:, 0] > 0
    for end, cut in enumerate(part.cuts):
        # The short point lies on the far side of the axis from the long one.
        axis = 1 if cut.over is Slant.WIDTH else 2
        short = (corners[:, axis] > 0) == cut.low
        chosen = short & (far == bool(end))
        corners[chosen, 0] += inches(cut.recess) * (-1 if end else 1)
    return corners[None]


def _cells(part: Part) -> tuple[Floats, Flags]:
    """What housings leave of a square part, cut along all their planes; and which faces are the part's own."""
    size = (part.length.units, part.width.units, part.thickness.units)
    holes = [((h.a0, h.a1), (h.b0, h.b1), (h.c0, h.c1)) for h in part.housings]
    spans = [[(hole[axis][0].units, hole[axis][1].units) for hole in holes] for axis in range(3)]
    stops = [sorted({0, size[k], *(x for span in spans[k] for x in span if 0 < x < size[k])}) for k in range(3)]
    cells, faces = [], []
    for box in product(*(tuple(pairwise(stop)) for stop in stops)):
        if any(all(span[n][0] <= lo and hi <= span[n][1] for span, (lo, hi) in zip(spans, box, strict=True))
               for n in range(len(holes))):  # fmt: skip
            continue
        cells.append([[box[k][end] / UNITS_PER_INCH for k, end in enumerate(at)] for at in product((0, 1), repeat=3)])
        faces.append([side in (0, size[k]) for k in range(3) for side in box[k]])
    return np.array(cells).reshape(-1, 8, 3), np.array(faces, dtype=bool).reshape(-1, 6)
