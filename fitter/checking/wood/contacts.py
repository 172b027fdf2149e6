"""Where parts touch: faces that lie in one plane, look at each other, and share area."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely

from fitter.checking.wood.near import neighbours
from fitter.checking.wood.solids import RINGS, TINY, Counts, Floats, Solids

LEAST = 1e-2
"""A contact narrower than this, inches, is no contact: edges that meet bear nothing."""


@dataclass(frozen=True)
class Contacts:
    """Every contact from both sides, sorted by the part it is told of.

    Housings cut a part into pieces, so two parts may touch in several contacts of one plane.

    Args:
        one: the part that it is told of.
        other: the part that touches it.
        face: the face of `one`, 2·axis + end, where it lies on the outside of the part; -1 in a housing.
        theirs: the same of the other part.
        low: least coordinates of the shared area in the axes of `one` (along, across, through), inches.
        high: greatest ones.
        area: shared, square inches.
        spot: the middle of it in space.
        normal: out of `one`.
    """

    one: Counts
    other: Counts
    face: Counts
    theirs: Counts
    low: Floats
    high: Floats
    area: Floats
    spot: Floats
    normal: Floats

    def of(self, part: int) -> slice:
        """Where the contacts of a part stand."""
        starts = self._starts
        return slice(starts[part], starts[part + 1]) if part + 1 < len(starts) else slice(0, 0)

    @cached_property
    def _starts(self) -> list[int]:
        """Where the contacts of each part begin, and where the last end; up to the last part that touches any."""
        return [int(at) for at in np.searchsorted(self.one, np.arange(int(self.one.max(initial=-1)) + 2))]

    def on(self, part: int, face: int) -> Counts:
        """The contacts on a face of a part."""
        rows = self.of(part)
        return np.asarray(np.flatnonzero(self.face[rows] == face) + rows.start)

    @cached_property
    def pairs(self) -> dict[tuple[int, int], float]:
        """The parts that touch, the lower number first, with the area that they share."""
        half = self.one < self.other
        found: dict[tuple[int, int], float] = {}
        rows = zip(self.one[half].tolist(), self.other[half].tolist(), self.area[half].tolist(), strict=True)
        for one, other, area in rows:
            found[one, other] = found.get((one, other), 0.0) + area
        return found


def contacts(solids: Solids, near: tuple[Counts, Counts] | None = None) -> Contacts:
    """Find every contact.

    Args:
        solids: the parts.
        near: pairs of pieces that may touch, where they are known.
    """
    one, other = near or neighbours(solids)
    both = solids.square[one] & solids.square[other]
    found = [_square(solids, one[both], other[both]), _askew(solids, one[~both], other[~both])]
    a, fa, b, fb, rings = (np.concatenate(column) for column in zip(*found, strict=True))
    # From the other side the same ring is walked the other way round; area and extent do not mind.
    return _told(solids, np.concatenate([a, b]), np.concatenate([fa, fb]), rings)


_Found = tuple[Counts, Counts, Counts, Counts, Floats]
"""Piece, its face, the other piece, its face, and corners of what they share: n × 8 × 3, the last one repeated."""


def _square(solids: Solids, one: Counts, other: Counts) -> _Found:
    """Contacts of boxes along the axes: rectangles."""
    low = np.maximum(solids.low[one], solids.low[other])
    high = np.minimum(solids.high[one], solids.high[other])
    columns: list[_Found] = []
    for axis in range(3):
        rest = [k for k in range(3) if k != axis]
        wide = (high[:, rest] - low[:, rest] > LEAST).all(axis=1)
        for a, b, up in ((one, other, 1), (other, one, 0)):
            at = np.flatnonzero(wide & (np.abs(solids.high[a, axis] - solids.low[b, axis]) < TINY))
            mine, theirs = solids.facing[one[at], 2 * axis + up], solids.facing[other[at], 2 * axis + 1 - up]
            columns.append((one[at], mine, other[at], theirs, _rectangles(low[at], high[at], axis)))
    a, fa, b, fb, rings = (np.concatenate(column) for column in zip(*columns, strict=True))
    return a, fa, b, fb, rings


def _rectangles(low: Floats, high: Floats, axis: int) -> Floats:
    u, v = (k for k in range(3) if k != axis)
    rings = np.repeat(low[:, None, :], 8, axis=1)
    rings[:, :, axis] = ((low + high) / 2)[:, None, axis]
    rings[:, 1:3, u] = high[:, None, u]
    rings[:, 2:4, v] = high[:, None, v]
    return rings


def _askew(solids: Solids, one: Counts, other: Counts) -> _Found:
    """Contacts of any convex pieces: what the polygons of two faces share in their common plane."""
    facing = np.einsum("pfk,pgk->pfg", solids.normals[one], solids.normals[other])
    apart = np.abs(solids.offsets[one][:, :, None] + solids.offsets[other][:, None, :])
    pair, fa, fb = np.nonzero((facing < -1 + 1e-7) & (apart < TINY))
    a, b = one[pair], other[pair]
    first, second = solids.corners[a[:, None], RINGS[fa]], solids.corners[b[:, None], RINGS[fb]]
    base, u, v = _plane(first, solids.normals[a, fa])
    shared = shapely.intersection(_flat(first, base, u, v), _flat(second, base, u, v))
    fine = np.flatnonzero(shapely.area(shared) > LEAST * LEAST)
    rings = np.zeros((len(fine), 8, 3))
    for row, at in enumerate(fine.tolist()):
        ring = shapely.get_coordinates(shared[at])[:-1][:8]
        space = base[at] + ring[:, :1] * u[at] + ring[:, 1:] * v[at]
        rings[row] = np.concatenate([space, np.repeat(space[-1:], 8 - len(space), axis=0)])
    return a[fine], fa[fine], b[fine], fb[fine], rings


def _plane(ring: Floats, normal: Floats) -> tuple[Floats, Floats, Floats]:
    """An origin and two unit vectors in the plane of each ring."""
    # The longest edge is the steadiest direction: a triangle has an edge of no length.
    edges = np.roll(ring, -1, axis=1) - ring
    longest = np.linalg.norm(edges, axis=2).argmax(axis=1)
    u = edges[np.arange(len(ring)), longest]
    u = u / np.maximum(np.linalg.norm(u, axis=1, keepdims=True), TINY)
    return ring[:, 0], u, np.cross(normal, u)


def _flat(ring: Floats, base: Floats, u: Floats, v: Floats) -> Floats:
    rel = ring - base[:, None, :]
    flat = np.stack([np.einsum("nck,nk->nc", rel, u), np.einsum("nck,nk->nc", rel, v)], axis=2)
    return np.asarray(shapely.polygons(flat))


def _told(solids: Solids, piece: Counts, face: Counts, rings: Floats) -> Contacts:
    """Each contact in the axes of the part that it is told of, sorted by part; the second half is the other side."""
    half = len(rings)
    against, facing = np.roll(piece, half), np.roll(face, half)
    rings = np.concatenate([rings, rings])
    part, other = solids.part[piece], solids.part[against]
    local = np.einsum("nck,nlk->ncl", rings - solids.origins[part][:, None, :], solids.axes[part])
    fan = np.cross(rings[:, 1:-1] - rings[:, :1], rings[:, 2:] - rings[:, :1]).sum(axis=1)
    mine = np.where(solids.outer[piece, face], face, -1)
    theirs = np.where(solids.outer[against, facing], facing, -1)
    order = np.lexsort((other, part))
    return Contacts(
        one=part[order],
        other=other[order],
        face=mine[order],
        theirs=theirs[order],
        low=local.min(axis=1)[order],
        high=local.max(axis=1)[order],
        area=(np.linalg.norm(fan, axis=1) / 2)[order],
        spot=((rings.min(axis=1) + rings.max(axis=1)) / 2)[order],
        normal=solids.normals[piece, face][order],
    )
