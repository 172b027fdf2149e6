"""Chains of dimensions below, above and at the left of a picture."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from fitter.drawing.chains import CLEAR, STEP, Chain, draw_chain
from fitter.drawing.draft import Draft
from fitter.drawing.page import Spot
from fitter.drawing.view import View
from rooms.lengths import Length


def chain_below(draft: Draft, places: Sequence[Length], foot: float, first: float, view: View) -> float:
    """Draw a chain below a picture.

    Args:
        draft: the drawing so far.
        places: from left to right.
        foot: the height on paper that it measures at, mm.
        first: distance of the first dimension line from there, mm.
        view: the scale.

    Returns:
        The distance at which a next chain may be tried.
    """
    feet = [(view.of(place), foot) for place in places]
    return STEP + draw_chain(draft, _chain(feet, (1.0, 0.0), places, view), 0.0, first)


def chain_above(draft: Draft, places: Sequence[Length], foot: float, first: float, view: View) -> float:
    """The same above a picture; `places` from left to right."""
    falling = list(places)[::-1]
    feet = [(view.of(place), foot) for place in falling]
    return STEP + draw_chain(draft, _chain(feet, (-1.0, 0.0), falling, view), 0.0, first)


def chain_at_left(draft: Draft, heights: Sequence[Length], edge: float, first: float, view: View) -> float:
    """The same at the left of a picture; `heights` from low to high, measured at the place `edge`."""
    falling = list(heights)[::-1]
    feet = [(edge, view.of(height)) for height in falling]
    return STEP + draw_chain(draft, _chain(feet, (0.0, -1.0), falling, view), 0.0, first)


def _chain(feet: Sequence[Spot], direction: Spot, places: Sequence[Length], view: View) -> Chain:
    lengths = tuple(abs(b - a) for a, b in pairwise(places))
    labels = tuple(view.written(length, feet=False) for length in lengths)
    return Chain(tuple(feet), direction, lengths, labels, CLEAR)


def begun(spans: Sequence[tuple[Length, Length]], before: Length, after: Length) -> tuple[Length, ...]:
    """The first gap, the first slat, the next gap, and the rest of a row of slats.

    Args:
        spans: of the slats, from left to right.
        before: where the first gap begins.
        after: where the last gap ends.
    """
    places = [before, *(place for span in spans[:2] for place in span)][:4]
    return tuple(sorted({*places, after}))
