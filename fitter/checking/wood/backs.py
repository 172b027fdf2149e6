"""Each run has its back panel, from end to end: uprights, rails between them, slats spread between those."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from fitter.checking.wood.built import Built, Span, Way, holes, sides
from fitter.checking.wood.carried import entraps, gaps_even
from fitter.checking.wood.solids import TINY, Floats, inches
from fitter.domain.findings import Finding
from fitter.domain.layout import Run, Side
from fitter.domain.woodwork import PartRole

_RAILS = (PartRole.BOTTOM_RAIL, PartRole.TOP_RAIL)
_ROLES = (PartRole.UPRIGHT, *_RAILS, PartRole.BACK_SLAT)


@dataclass(frozen=True)
class _Panel:
    """The parts that stand in the plan of a run's back, in order along it.

    Args:
        run: whose back it is.
        way: how the run lies.
        parts: by role.
    """

    run: Run
    way: Way
    parts: dict[PartRole, list[int]]


def _panels(built: Built) -> Iterator[_Panel]:
    """Each run's panel; what stands in no back at all is left to `inside_footprint` and to its contacts."""
    numbers = built.of(*_ROLES)
    middles = np.array([built.middle(number) for number in numbers]).reshape(-1, 3)
    for run in built.layout.runs:
        way = built.ways[run.side]
        low, high = sides(run.back)
        inside = np.all((middles[:, :2] > low - TINY) & (middles[:, :2] < high + TINY), axis=1).tolist()
        order = np.argsort(middles[:, way.along], kind="stable")
        chosen = [numbers[at] for at in order if inside[at]]
        parts = {role: [number for number in chosen if built.parts[number].role is role] for role in _ROLES}
        yield _Panel(run, way, parts)


def _extent(built: Built, run: Run) -> Span:
    """What a panel must reach: its run with the corner places that the main run passes, and an arm's own one."""
    way = built.ways[run.side]
    low, high = sides(run.deck)
    places = [sides(corner.box) for corner in built.layout.corners if run.side in (Side.MAIN, corner.corner)]
    return (
        float(min([low[way.along], *(a[way.along] for a, _ in places)])),
        float(max([high[way.along], *(b[way.along] for _, b in places)])),
    )


def _span(built: Built, number: int, way: Way) -> Span:
    return float(built.solids.part_low[number][way.along]), float(built.solids.part_high[number][way.along])


def panels_whole(built: Built) -> Iterator[Finding]:
    """Uprights with rails between them, above and below, fill each back from end to end, in bays as wide as allowed."""
    for panel in _panels(built):
        uprights = [_span(built, number, panel.way) for number in panel.parts[PartRole.UPRIGHT]]
        extent = _extent(built, panel.run)
        for role in _RAILS:
            rails = [_span(built, number, panel.way) for number in panel.parts[role]]
            for a, b in holes(extent, _with_corners(built, panel.way, [*uprights, *rails])):
                if b - a > TINY:
                    message = f"the back of the {panel.run.side} run has no {role} over {built.tell(b - a)}"
                    yield built.fault("back-incomplete", message, _at(built, panel.way, (a + b) / 2))
        for a, b in holes(extent, uprights):
            if b - a > built.mark(built.made.back_span) + TINY:
                message = f"the back of the {panel.run.side} run spans {built.tell(b - a)} between uprights"
                yield built.fault("back-bay-too-wide", message, _at(built, panel.way, (a + b) / 2))


def _with_corners(built: Built, way: Way, spans: list[Span]) -> list[Span]:
    """Corner posts may stand where a panel begins."""
    posts = built.of(PartRole.CORNER_POST)
    beside = [n for n in posts if built.solids.part_low[n][way.deep] < way.back < built.solids.part_high[n][way.deep]]
    return [*spans, *(_span(built, number, way) for number in beside)]


def _at(built: Built, way: Way, along: float) -> Floats:
    point = np.array([0.0, 0.0, inches(built.levels.back_bottom)])
    point[way.along], point[way.deep] = along, way.back
    return point


def back_slats_spread(built: Built) -> Iterator[Finding]:
    """In each bay between uprights the gaps of the slats are equal but for a mark, no wider than asked."""
    limit = inches(built.made.back_gap)
    for panel in _panels(built):
        uprights = [_span(built, number, panel.way) for number in panel.parts[PartRole.UPRIGHT]]
        slats = [_span(built, number, panel.way) for number in panel.parts[PartRole.BACK_SLAT]]
        what = f"back slats of the {panel.run.side} run"
        ends = (min((a for a, _ in uprights), default=0.0), max((b for _, b in uprights), default=0.0))
        for bay in holes(ends, uprights):
            inside = [span for span in slats if bay[0] - TINY < sum(span) / 2 < bay[1] + TINY]
            yield from gaps_even(built, what, panel.way, bay, inside, limit)


def panel_heights(built: Built) -> Iterator[Finding]:
    """Uprights reach from the underside of the seat rails to the top of the back; its rails end it below and above."""
    levels = built.levels
    bottom, top = inches(levels.back_bottom), inches(levels.back_top)
    wanted = inches(levels.rail_bottom), top
    for number in built.of(PartRole.UPRIGHT):
        reach = built.solids.part_low[number][2], built.solids.part_high[number][2]
        if abs(reach[0] - wanted[0]) > TINY or abs(reach[1] - wanted[1]) > TINY:
            message = f"{built.name(number)} does not reach from the rails to the top of the back"
            yield built.fault("upright-height", message, built.middle(number))
    for panel in _panels(built):
        for number in panel.parts[PartRole.UPRIGHT]:
            reach = built.solids.part_low[number], built.solids.part_high[number]
            front = reach[1 if panel.way.sign > 0 else 0][panel.way.deep]
            if abs(front - panel.way.back) > TINY:
                message = f"{built.name(number)} does not stand against the back line of the seat"
                yield built.fault("upright-off-line", message, built.middle(number))
        for role, level in ((PartRole.BOTTOM_RAIL, bottom), (PartRole.TOP_RAIL, top)):
            for number in panel.parts[role]:
                yield from _at_height(built, panel.way, number, level)


def _at_height(built: Built, way: Way, number: int, level: float) -> Iterator[Finding]:
    """A bottom rail's front lower edge lies at the back line and level; a top rail ends within a mark of its level.

    A leaning panel turns about that edge; its slant height is on the mark, so its top may miss the level a little.
    """
    low = built.parts[number].role is PartRole.BOTTOM_RAIL
    corners = built.solids.corners[int(built.solids.part.searchsorted(number))]
    edge = corners[:, 2].min() if low and not built.made.lean else corners[:, 2].max()
    if low and built.made.lean:
        front = way.sign * corners[:, way.deep]
        # The lower front edge of a tilted rail is the lowest of what stands at the back line.
        edge = corners[front > front.max() - 10][np.abs(corners[:, way.deep] - way.back) < TINY, 2].min(initial=np.inf)
    slack = TINY if low or not built.made.lean else built.one_mark + TINY
    if abs(edge - level) > slack:
        message = f"{built.name(number)} does not lie at the height of its back: {built.tell(level)}"
        yield built.fault("back-height", message, built.middle(number))


def under_backs(built: Built) -> Iterator[Finding]:
    """Between the deck and the back no head can be caught."""
    gap = inches(built.levels.back_bottom) - inches(built.levels.deck)
    if entraps(gap):
        message = f"the opening under the back is {built.tell(gap)} high, where a head can be caught"
        yield built.fault("opening-entraps", message)
