"""What of the deck no cushion covers: the gap behind the cushions, and what smaller ones leave of a corner place."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from fitter.domain.layout import Box, Layout, Module
from fitter.domain.wishes import Side


def gap_strips(layout: Layout) -> tuple[Box, ...]:
    """The strips between cushions and backs, run by run; none where the cushions lie against the backs.

    A run's strip goes on through its corner places, but for those of a table. Two strips share the corner of a place.
    """
    return tuple(_strips(layout)) if layout.gap else ()


def _strips(layout: Layout) -> Iterator[Box]:
    gap = layout.gap
    places = {place.corner: place.box for place in layout.corners if place.cushion is not None}
    for run in layout.runs:
        deck = run.deck
        if run.side is Side.MAIN:
            low = places[Side.RIGHT].x0 if Side.RIGHT in places else deck.x0
            high = places[Side.LEFT].x1 if Side.LEFT in places else deck.x1
            yield Box(low, deck.y0, high, deck.y0 + gap)
        else:
            y0 = places[run.side].y0 if run.side in places else deck.y0
            x0 = deck.x0 if run.side is Side.RIGHT else deck.x1 - gap
            yield Box(x0, y0, x0 + gap, deck.y1)


def beyond_gap(layout: Layout, place: Module) -> tuple[Box, ...]:
    """The strips of a corner place that its cushion leaves uncovered, the gap behind the cushions left out.

    Args:
        layout: the layout.
        place: one of its corner places.
    """
    if place.cover is None or not layout.gap:
        return place.bare
    box, gap = place.box, layout.gap
    low = gap if place.corner is Side.RIGHT else -gap
    return replace(place, box=Box(max(box.x0, box.x0 + low), box.y0 + gap, min(box.x1, box.x1 + low), box.y1)).bare
