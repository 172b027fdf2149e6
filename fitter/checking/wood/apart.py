"""No two parts lie in each other, none in a cushion, and none outside the layout's footprint."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import numpy as np
import shapely

from fitter.checking.wood.built import Built, sides
from fitter.checking.wood.near import depths, middle
from fitter.checking.wood.solids import TINY, Floats, inches
from fitter.domain.findings import Finding
from fitter.domain.layout import Module


def parts_apart(built: Built) -> Iterator[Finding]:
    """No two parts share space; each pair is told once, where its deepest pieces meet."""
    one, other = built.near
    deep = depths(built.solids, one, other)
    worst: dict[tuple[int, int], int] = {}
    for row in np.flatnonzero(deep > TINY).tolist():
        pair = int(built.solids.part[one[row]]), int(built.solids.part[other[row]])
        if pair not in worst or deep[row] > deep[worst[pair]]:
            worst[pair] = row
    for (first, second), row in sorted(worst.items()):
        message = f"{built.name(first)} and {built.name(second)} lie {built.tell(deep[row])} deep in each other"
        yield built.fault("parts-overlap", message, middle(built.solids, one[row], other[row]))


def cushions_free(built: Built) -> Iterator[Finding]:
    """No part stands in the place of a seat cushion, from the deck to its top."""
    for module in built.layout.modules:
        if module.cushion is None:
            continue
        kind = built.case.option(module).cushion
        bottom = inches(built.levels.deck)
        top = bottom + inches(kind.size[2])
        for low, high in _foam(module):
            for number in _inside(built, np.append(low, bottom), np.append(high, top)):
                message = (
                    f"{built.name(number)} sticks into the cushion of place {module.place} of the {module.run} run"
                )
                yield built.fault("wood-in-cushion", message, built.middle(number))


def _foam(module: Module) -> Iterator[tuple[Floats, Floats]]:
    """What the cushion covers of its place, less its notch, as plans without overlap.

    A notch goes from the corner of the place at the post: what lies between it and the backs is cut away or open.
    """
    low, high = sides(module.cover or module.box)
    cuts = [sides(box) for box in module.notch.cut] if module.notch else []
    if module.notch:
        whole = sides(module.notch.box)
        left = whole[0][0] - low[0] < high[0] - whole[1][0]
        # Each rectangle that is cut out, drawn out to the two sides of the cushion beside the post.
        cuts = [
            (np.minimum(a, low) if left else np.array([a[0], low[1]]), b if left else np.array([high[0], b[1]]))
            for a, b in cuts
        ]
    stops = [np.unique([low[k], high[k], *(x[k] for cut in cuts for x in cut)]) for k in (0, 1)]
    for x0, x1 in pairwise(stops[0].tolist()):
        for y0, y1 in pairwise(stops[1].tolist()):
            middle = np.array([x0 + x1, y0 + y1]) / 2
            inside = (middle > low).all() and (middle < high).all()
            if inside and not any((middle > a).all() and (middle < b).all() for a, b in cuts):
                yield np.array([x0, y0]), np.array([x1, y1])


def _inside(built: Built, low: Floats, high: Floats) -> Iterator[int]:
    """Parts that lie in a cuboid, exactly for boxes along the axes, by face planes for the others."""
    solids = built.solids
    shared = np.minimum(solids.high, high) - np.maximum(solids.low, low)
    told: set[int] = set()
    for piece in np.flatnonzero((shared > TINY).all(axis=1)).tolist():
        number = int(solids.part[piece])
        if number not in told and (solids.square[piece] or _meets(built, piece, low, high)):
            told.add(number)
            yield number


def _meets(built: Built, piece: int, low: Floats, high: Floats) -> bool:
    """Whether no face of a piece, nor of the cuboid, parts them; a rare edge against an edge counts as meeting."""
    corner = np.array(np.meshgrid(*zip(low, high, strict=True), indexing="ij")).reshape(3, -1).T
    out = corner @ built.solids.normals[piece].T - built.solids.offsets[piece]
    return bool((out.min(axis=0) < -TINY).all())


def inside_footprint(built: Built) -> Iterator[Finding]:
    """In plan every part lies within the boxes that the layout counts as its footprint, at any height."""
    if not built.parts:
        return
    areas = [shapely.box(*low, *high) for low, high in (sides(box) for box in built.layout.footprint)]
    ground = shapely.buffer(shapely.union_all(areas), TINY, join_style="mitre")
    shapely.prepare(ground)
    plans = shapely.convex_hull(shapely.multipoints(list(built.solids.corners[:, :, :2])))
    told: set[int] = set()
    for piece in np.flatnonzero(~shapely.covers(ground, plans)).tolist():
        number = int(built.solids.part[piece])
        if number not in told:
            told.add(number)
            beyond = np.asarray(shapely.get_coordinates(shapely.centroid(plans[piece] - ground))[0])
            spot = np.append(beyond, built.middle(number)[2])
            yield built.fault("outside-footprint", f"{built.name(number)} stands out of the layout", spot)
