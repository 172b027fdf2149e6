"""Chains of dimensions: where their lines run, and where a text goes that does not fit between its ticks."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from math import cos, radians, sin

from fitter.drawing.draft import Draft
from fitter.drawing.page import SMALL, Dimension, Segment, Spot, Text, ticks
from fitter.drawing.texts import readable
from fitter.drawing.view import along, middle
from rooms.lengths import Length

# ASME Y14.5 and ISO 129-1 habits (from memory): a gap before and an overshoot behind each extension line,
# the first dimension line 10 mm from the outline, the next ones 7 mm apart.
GAP = 1.5
OVERSHOOT = 2.0
FIRST = 10.0
STEP = 7.0
_ABOVE = 1.0
_TRIES = 24
_RAISED = (4.6, -6.6, 8.8, -10.8, 13.0, -15.0)
CLEAR = (5.3, -7.3, 9.8, -11.8, 14.3, -16.3)
"""How far above or below its line a text is tried that does not fit between its ticks; clear of texts that do, mm."""


@dataclass(frozen=True)
class Chain:
    """Dimensions that share one line.

    Args:
        feet: points measured between, in order along `direction`.
        direction: unit vector; the chain lies to its right.
        lengths: true length of each part.
        labels: how each is written.
        raised: where texts are tried that do not fit between their ticks: how far above the line, mm.
    """

    feet: tuple[Spot, ...]
    direction: Spot
    lengths: tuple[Length, ...]
    labels: tuple[str, ...]
    raised: tuple[float, ...] = _RAISED


def draw_chain(draft: Draft, chain: Chain, base: float, first: float = FIRST, step: float = STEP) -> float:
    """Draw a chain at the nearest free distance.

    Args:
        draft: the drawing so far.
        chain: what to draw.
        base: how far to the right of the first foot the things end that the chain keeps off, mm.
        first: distance of the first dimension line from there, mm.
        step: from one distance that is tried to the next, mm.

    Returns:
        How far from the first foot it was drawn, mm.
    """
    mark = draft.mark()
    for strict in (True, False):
        for i in range(_TRIES):
            if _draw_at(draft, chain, base + first + step * i, strict):
                return base + first + step * i
            draft.back_to(mark)
    _draw_at(draft, chain, base + first + step * _TRIES, strict=False, certain=True)
    return base + first + step * _TRIES


def _draw_at(draft: Draft, chain: Chain, offset: float, strict: bool, certain: bool = False) -> bool:
    spots = [_on_line(chain, foot, offset) for foot in chain.feet]
    if not certain and not draft.line_free((spots[0], spots[-1]), strict=strict):
        return False
    pairs = list(pairwise(spots))
    draft.reserve(spot for pair in pairs for tick in ticks(pair) for spot in tick)
    dimensions = []
    last = len(chain.labels) - 1
    for i, (ends, feet) in enumerate(zip(pairs, pairwise(chain.feet), strict=True)):
        found = _place(draft, ends, chain.labels[i], (i == 0, i == last), strict, chain.raised)
        if found is None and not certain:
            return False
        text, tail = found or (_beside(ends, chain.labels[i], 0.0, _ABOVE), ())
        dimension = Dimension(feet, ends, chain.lengths[i], text, (), tail)
        draft.add(dimension)
        dimensions.append(dimension)
    return _extend(draft, chain, spots, dimensions)


def _on_line(chain: Chain, foot: Spot, offset: float) -> Spot:
    """The place on the dimension line that stands over a foot."""
    x, y = chain.direction
    start = chain.feet[0]
    aside = (foot[0] - start[0]) * y - (foot[1] - start[1]) * x
    return along(foot, chain.direction, 0, aside - offset)


def _extend(draft: Draft, chain: Chain, spots: list[Spot], dimensions: list[Dimension]) -> bool:
    """Give each dimension its extension lines, broken for texts; a shared one is the first one's."""
    lines = [_extension(foot, spot) for foot, spot in zip(chain.feet, spots, strict=True)]
    for i, dimension in enumerate(dimensions):
        own = lines[:2] if i == 0 else lines[i + 1 : i + 2]
        pieces = tuple(piece for line in own if line for piece in draft.broken(line))
        draft.finish(dimension, pieces)
    return True


def _extension(foot: Spot, spot: Spot) -> Segment | None:
    dx, dy = spot[0] - foot[0], spot[1] - foot[1]
    size = (dx * dx + dy * dy) ** 0.5
    if size <= GAP + OVERSHOOT:
        return None
    outward = (dx / size, dy / size)
    return along(foot, outward, GAP), along(spot, outward, OVERSHOOT)


def _beside(ends: Segment, label: str, shift: float, rise: float) -> Text:
    """A text over the middle of a dimension line, shifted in reading direction and raised from it."""
    angle = readable((ends[1][0] - ends[0][0], ends[1][1] - ends[0][1]))
    reading = (cos(radians(angle)), sin(radians(angle)))
    spot = along(middle(*ends), reading, shift, rise)
    return Text(spot, label, SMALL, angle, 0.5)


def _place(
    draft: Draft,
    ends: Segment,
    label: str,
    outer: tuple[bool, bool],
    strict: bool,
    raised: tuple[float, ...] = _RAISED,
) -> tuple[Text, tuple[Spot, ...]] | None:
    for text, tail in _places(ends, label, outer, raised):
        if strict and not draft.off_furniture(text):
            continue
        if draft.free(text, strict=strict) and (not tail or draft.off_texts(tail)):
            return text, tail
    return None


def _places(
    ends: Segment, label: str, outer: tuple[bool, bool], raised: tuple[float, ...]
) -> Iterator[tuple[Text, tuple[Spot, ...]]]:
    """Where the text may go: between the ticks, beyond an outer tick, or raised with a leader."""
    text = _beside(ends, label, 0.0, _ABOVE)
    size = ((ends[1][0] - ends[0][0]) ** 2 + (ends[1][1] - ends[0][1]) ** 2) ** 0.5
    room = size - text.width - 3.0
    if room >= 0:
        yield text, ()
        for share in (-0.4, 0.4):
            yield _beside(ends, label, share * room, _ABOVE), ()
        return
    direction = ((ends[1][0] - ends[0][0]) / (size or 1.0), (ends[1][1] - ends[0][1]) / (size or 1.0))
    flipped = (cos(radians(text.angle)) * direction[0] + sin(radians(text.angle)) * direction[1]) < 0
    away = size / 2 + text.width / 2 + 1.8
    for is_outer, end, sign in ((outer[1], ends[1], 1.0), (outer[0], ends[0], -1.0)):
        if is_outer:
            tail = (end, along(end, direction, sign * (text.width + 2.4)))
            yield _beside(ends, label, away * (-sign if flipped else sign), _ABOVE), tail
    for rise in raised:
        for shift in (0.0, 0.5, -0.5, 0.9, -0.9):
            lifted = _beside(ends, label, shift * text.width, rise)
            foot = _beside(ends, label, shift * text.width * 0.6, rise - 1.2 if rise > 0 else rise + SMALL + 1.0)
            yield lifted, (middle(*ends), foot.at)


def draw_span(draft: Draft, start: Spot, end: Spot, length: Length, label: str) -> None:
    """Draw one dimension straight between two points, its text beside it or at the end of a leader."""
    ends = (start, end)
    for strict in (True, False):
        if found := _place(draft, ends, label, (True, True), strict):
            # Where it stands over a line it hides that line, or it could not be read.
            text = found[0] if draft.free(found[0]) else replace(found[0], masked=True)
            draft.add(Dimension(ends, ends, length, text, (), found[1]))
            return
        for sign in (1, -1):
            for rise in (4.6 + 2.0 * i for i in range(20)):
                raised = _beside(ends, label, 0.0, sign * rise)
                tail = (
                    middle(*ends),
                    _beside(ends, label, 0.0, rise - 1.2 if sign > 0 else SMALL + 1.0 - rise).at,
                )
                if draft.free(raised, strict=strict) and draft.off_texts(tail):
                    draft.add(Dimension(ends, ends, length, raised, (), tail))
                    return
