"""Which solids come near each other, and which of them lie in each other."""

from __future__ import annotations

import numpy as np
import shapely

from fitter.checking.wood.solids import TINY, Counts, Floats, Solids


def neighbours(solids: Solids) -> tuple[Counts, Counts]:
    """Pairs of pieces of different parts whose boxes touch, the lower number first, in order.

    An index over the plan leaves what stands above each other, so the work grows as n log n with the run's length.
    """
    low, high = solids.low - TINY, solids.high + TINY
    plans = shapely.box(low[:, 0], low[:, 1], high[:, 0], high[:, 1])
    one, other = shapely.STRtree(plans).query(plans)
    keep = (one < other) & (solids.part[one] != solids.part[other])
    one, other = one[keep], other[keep]
    level = (low[one, 2] <= high[other, 2]) & (low[other, 2] <= high[one, 2])
    one, other = one[level], other[level]
    order = np.lexsort((other, one))
    return one[order], other[order]


def depths(solids: Solids, one: Counts, other: Counts) -> Floats:
    """How deep each pair of convex pieces lie in each other, inches; nought or less where they are apart.

    By the separating axis theorem: convex solids are apart exactly if some face's normal, or the cross product of an
    edge of each, parts their shadows. Boxes along the axes are parted by an axis, so those need no other.
    """
    box = np.minimum(solids.high[one], solids.high[other]) - np.maximum(solids.low[one], solids.low[other])
    deep = box.min(axis=1)
    askew = (deep > TINY) & ~(solids.square[one] & solids.square[other])
    deep[askew] = np.minimum(deep[askew], _askew(solids, one[askew], other[askew]))
    return np.asarray(deep)


def _askew(solids: Solids, one: Counts, other: Counts) -> Floats:
    edges = _edges(solids)
    crossed = np.cross(edges[one][:, :, None, :], edges[other][:, None, :, :]).reshape(len(one), edges.shape[1] ** 2, 3)
    axes = np.concatenate([solids.normals[one], solids.normals[other], crossed], axis=1)
    size = np.linalg.norm(axes, axis=2)
    axes = axes / np.where(size > 1e-6, size, 1.0)[:, :, None]
    a = np.einsum("pak,pck->pac", axes, solids.corners[one])
    b = np.einsum("pak,pck->pac", axes, solids.corners[other])
    shared = np.minimum(a.max(axis=2), b.max(axis=2)) - np.maximum(a.min(axis=2), b.min(axis=2))
    return np.asarray(np.where(size > 1e-6, shared, np.inf).min(axis=1, initial=np.inf))


def _edges(solids: Solids) -> Floats:
    """Directions of the edges of each piece: its three axes, and both ends' slanted ones; pieces × 7 × 3."""
    corner = solids.corners
    slanted = [corner[:, b] - corner[:, a] for a, b in ((0, 2), (0, 1), (4, 6), (4, 5))]
    own = solids.axes[solids.part]
    found = np.concatenate([own, np.stack(slanted, axis=1)], axis=1)
    size = np.linalg.norm(found, axis=2, keepdims=True)
    return np.asarray(found / np.maximum(size, TINY))


def middle(solids: Solids, one: int, other: int) -> Floats:
    """A spot where two pieces meet: the middle of what their boxes share."""
    low = np.maximum(solids.low[one], solids.low[other])
    high = np.minimum(solids.high[one], solids.high[other])
    return np.asarray((low + high) / 2)
