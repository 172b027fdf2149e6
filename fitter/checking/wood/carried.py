"""Every seat is carried: slats fill each run from end to end, evenly, with no gap wider than allowed or dangerous."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import numpy as np
import shapely

from fitter.checking.wood.built import Built, Span, Way, holes, sides
from fitter.checking.wood.solids import TINY, Floats, inches
from fitter.domain.findings import Finding
from fitter.domain.layout import Module, Side
from fitter.domain.woodwork import PartRole

ENTRAPS = (3.5, 9.0)
"""Openings between these, inches, can hold a head: CPSC Public Playground Safety Handbook, B.2.5."""


@dataclass(frozen=True)
class Field:
    """What slats of one run fill without a break.

    Args:
        way: of the run whose slats these are; they run from its back to its front.
        span: from where to where along it, gaps at both ends included.
    """

    way: Way
    span: Span


def entraps(gap: float) -> bool:
    """Whether a gap is of a dangerous width."""
    return ENTRAPS[0] + TINY < gap < ENTRAPS[1] - TINY


def other_run(module: Module) -> Side:
    """The run that meets the owner of a corner place there: its slats cross the place."""
    assert module.corner is not None
    return module.corner if module.run is Side.MAIN else Side.MAIN


def slat_way(built: Built, module: Module) -> Way:
    """The way of the run whose slats carry a module."""
    return built.ways[other_run(module) if module.corner else module.run]


def fields(built: Built) -> Iterator[Field]:
    """Every field of seat slats, as the layout has it."""
    rail = built.mark(built.project.frame.rail.thickness)
    for run in built.layout.runs:
        way = built.ways[run.side]
        low, high = sides(run.deck)
        span = [float(low[way.along]), float(high[way.along])]
        for corner in built.layout.corners:
            if not _meets(corner, run.side):
                continue
            # The slats go on through the corner place, as far as the inner face of the owner's back rail; those of the
            # owner begin at the cross rail, which stands back as far as cushions overhang the wood.
            a, b = sides(corner.box)
            through = other_run(corner) is run.side
            if a[way.along] < low[way.along] - TINY:
                span[0] = float(a[way.along]) + rail if through else span[0] - built.overhang
            else:
                span[1] = float(b[way.along]) - rail if through else span[1] + built.overhang
        pitch = inches(run.pitch)
        # The main run of an L whose corner is at its left is counted from there, down the axis.
        down = run.side is Side.MAIN and built.case.first is Side.LEFT
        start, step = (float(high[way.along]), -pitch) if down else (float(low[way.along]), pitch)
        breaks = [start + step * split.line for split in built.layout.splits if split.run is run.side]
        stops = [span[0], *sorted(breaks), span[1]]
        yield from (Field(way, (a, b)) for a, b in pairwise(stops) if b - a > TINY)


def _meets(corner: Module, run: Side) -> bool:
    return run is Side.MAIN or corner.corner is run


@dataclass(frozen=True)
class _Slats:
    """The seat slats, with an index over their plans."""

    built: Built

    @cached_property
    def numbers(self) -> list[int]:
        return self.built.of(PartRole.SEAT_SLAT)

    @cached_property
    def low(self) -> Floats:
        return self.built.solids.part_low[self.numbers]

    @cached_property
    def high(self) -> Floats:
        return self.built.solids.part_high[self.numbers]

    @cached_property
    def tree(self) -> shapely.STRtree:
        return shapely.STRtree(shapely.box(self.low[:, 0], self.low[:, 1], self.high[:, 0], self.high[:, 1]))

    def within(self, way: Way, span: Span) -> list[int]:
        """Rows of those of a run's direction that lie in a stretch of it, in order along it."""
        box = _box(way, span, (way.back, way.front))
        rows = np.sort(self.tree.query(box))
        lying = np.abs(self.built.solids.axes[self.numbers][rows, 0, way.deep]) > 0.5
        middle = (self.low[rows, way.along] + self.high[rows, way.along]) / 2
        rows = rows[lying & (middle > span[0]) & (middle < span[1])]
        return list(rows[np.argsort(self.low[rows, way.along], kind="stable")])


def _box(way: Way, along: Span, deep: Span) -> shapely.Polygon:
    a, b = sorted(along), sorted(deep)
    x, y = (a, b) if way.along == 0 else (b, a)
    return shapely.box(x[0] + TINY, y[0] + TINY, x[1] - TINY, y[1] - TINY)


def slats_spread(built: Built) -> Iterator[Finding]:
    """In each field gaps are equal but for a mark, no wider than asked and not dangerous; tops lie at the deck."""
    slats, used = _Slats(built), set[int]()
    limit = inches(built.made.slat_gap)
    for field in fields(built):
        rows = slats.within(field.way, field.span)
        used.update(rows)
        spans = [(float(slats.low[r, field.way.along]), float(slats.high[r, field.way.along])) for r in rows]
        yield from gaps_even(built, f"seat slats of the {field.way.side} run", field.way, field.span, spans, limit)
    deck = inches(built.levels.deck)
    for row, number in enumerate(slats.numbers):
        if row not in used:
            yield built.fault("slat-stray", f"{built.name(number)} lies in no run of slats", built.middle(number))
        if abs(slats.high[row, 2] - deck) > TINY:
            message = f"{built.name(number)} does not lie with its top at the deck"
            yield built.fault("slat-off-deck", message, built.middle(number))


def gaps_even(
    built: Built, what: str, way: Way, within: Span, spans: Sequence[Span], limit: float
) -> Iterator[Finding]:
    """Gaps of one space: none wider than the limit, none dangerous, all alike but for a mark."""
    stops = [within[0], *(x for span in spans for x in span), within[1]]
    gaps = [(a, b) for a, b in zip(stops[::2], stops[1::2], strict=True)]
    sizes = [b - a for a, b in gaps]
    for (a, b), size in zip(gaps, sizes, strict=True):
        if size > limit + TINY:
            message = f"a gap between {what} is {built.tell(size)} wide, more than {built.tell(limit)},"
            yield built.fault("gap-too-wide", message, _at(built, way, (a + b) / 2))
        if entraps(size):
            message = f"a gap between {what} is {built.tell(size)} wide, where a head can be caught,"
            yield built.fault("opening-entraps", message, _at(built, way, (a + b) / 2))
    if max(sizes) - min(sizes) > built.one_mark + TINY:
        message = f"gaps between {what} are uneven: {built.tell(min(sizes))} to {built.tell(max(sizes))}"
        yield built.fault("gaps-uneven", message, _at(built, way, within[0]))


def _at(built: Built, way: Way, along: float) -> Floats:
    """A point on a run's back line at the height of the deck."""
    point = np.array([0.0, 0.0, inches(built.levels.deck)])
    point[way.along], point[way.deep] = along, way.back
    return point


def modules_carried(built: Built) -> Iterator[Finding]:
    """Under every module, its table corners too, what carries it at the deck leaves no gap wider than asked.

    Looked at between the posts of back and front; there all slats run, and beside them only rails and ends carry.
    """
    solids, deck = built.solids, inches(built.levels.deck)
    chosen = np.flatnonzero(
        solids.square & (np.abs(solids.high[:, 2] - deck) < TINY)
        | (solids.low[:, 2] < deck - TINY) & (solids.high[:, 2] > deck)
    )
    low, high = solids.low[chosen], solids.high[chosen]
    tree = shapely.STRtree(shapely.box(low[:, 0], low[:, 1], high[:, 0], high[:, 1]))
    for module in built.layout.modules:
        way = slat_way(built, module)
        a, b = sides(module.box)
        along, zone = (float(a[way.along]), float(b[way.along])), _zone(built, way)
        rows = np.sort(tree.query(_box(way, along, zone)))
        worst = _widest(way, along, zone, low[rows], high[rows])
        if worst[1] - worst[0] > inches(built.made.slat_gap) + TINY:
            message = (
                f"the seat of place {module.place} of the {module.run} run is not carried"
                f" over {built.tell(worst[1] - worst[0])}"
            )
            yield built.fault("seat-uncarried", message, _at(built, way, sum(worst) / 2))


def _zone(built: Built, way: Way) -> Span:
    """From the inner face of back posts to that of front posts, on the deep axis, low first."""
    frame, made = built.project.frame, built.made
    post, rail = built.mark(frame.post.width), built.mark(frame.rail.thickness)
    back = way.back + way.sign * max(post, rail)
    front = way.front - way.sign * (built.overhang + max(post, rail + built.mark(made.reveal_beside)))
    return min(back, front), max(back, front)


def _widest(way: Way, along: Span, zone: Span, low: Floats, high: Floats) -> Span:
    """The widest stretch along a run that nothing carries, over all lines across which something begins or ends."""
    edges = np.concatenate([low[:, way.deep], high[:, way.deep], zone])
    stops = np.unique(np.round(edges[(edges >= zone[0]) & (edges <= zone[1])], 4))
    worst: Span = (along[0], along[0])
    for line in (stops[1:] + stops[:-1]) / 2:
        here = (low[:, way.deep] < line) & (high[:, way.deep] > line)
        spans = list(zip(low[here, way.along].tolist(), high[here, way.along].tolist(), strict=True))
        for hole in holes(along, spans):
            if hole[1] - hole[0] > worst[1] - worst[0]:
                worst = hole
    return worst
