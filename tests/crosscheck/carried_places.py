"""The best frame that is carried in pieces where low things lie: what lies under its posts is looked up in every place.

For rooms of doll's size without routes.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np
from carried_designs import Bare, Saw, Stretch, bare, saw
from designs import Rect, wished
from places import Place, extent, places

from fitter.domain.project import Project

Spot = tuple[int, str, int]
"""A run, `front`, `back` or `split`, and the module line."""


def best_over_low_things(project: Project) -> tuple[int, ...] | None:
    """The greatest worth of all layouts in all places, in the order of the wish; None if none stands anywhere."""
    by, best = saw(project), None
    layouts = list(bare(project, extent(project)))
    for place in places(project):
        place.everywhere()
        for each in layouts:
            if each.form.aligned is place.aligned:
                for timber in _timbers(each, place, by):
                    found = max(wished(project, (*worth, *timber)) for worth in each.worths)
                    best = found if best is None else max(best, found)
    return best


def _timbers(each: Bare, place: Place, by: Saw) -> Iterator[tuple[int, int]]:
    """Posts and lengths saved, for all that may lie under the posts of a layout in the places where it stands."""
    corners = tuple(each.form._corner_posts())
    good = place.standing(each.design((), (*each.ends, *corners)))
    if not good.any():
        return
    spots = dict(_spots(each, by))
    free = [np.logical_and.reduce([place.may_stand(box, "foot") for box in boxes]) for boxes in spots.values()]
    rows = {tuple(bool(one[n]) for one in free) for n in np.flatnonzero(good)} if free else {()}
    for row in rows:
        under = {spot for spot, clear in zip(spots, row, strict=True) if not clear}
        runs = [_over(run, n, under) for n, run in enumerate(each.runs)]
        timber = each.timber(runs, by)
        if timber is not None:
            yield timber


def _spots(each: Bare, by: Saw) -> Iterator[tuple[Spot, list[Rect]]]:
    """Where posts may stand, with their plans."""
    across, post = each.form.across(), by.post
    for n, run in enumerate(each.runs):

        def plan(line: int, low: int, n: int = n) -> Rect:
            a, b = across[2 * n + line]
            return (low, a, low + post, b) if n == 0 else (a, low, b, low + post)

        for line, (name, face) in enumerate((("front", run.front), ("back", run.back))):
            yield from (((n, name, at), [plan(line, at - run.half)]) for at in face[2])
        for at in run.back[2]:
            pair = [
                plan(line, low)
                for line, (start, stop, _) in enumerate((run.front, run.back))
                for low in (at - post, at)
                if start <= low and low + post <= stop
            ]
            yield (n, "split", at), pair


def _over(run: Stretch, n: int, under: set[Spot]) -> Stretch:
    """A run where low things lie under some of its posts."""
    front, back, whole = (
        frozenset(at for number, name, at in under if (number, name) == (n, kind))
        for kind in ("front", "back", "split")
    )
    return replace(run, blocked=(front, back), whole=whole)
