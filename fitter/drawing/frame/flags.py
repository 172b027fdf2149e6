"""Heights at the side of a picture: a line from each, its height above the floor and its name."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from fitter.drawing.draft import Draft
from fitter.drawing.page import SMALL, Line, Pen, Role, Text
from fitter.drawing.view import View
from rooms.lengths import Length

_GAP = 1.5
_JOG = 5.0
_SHOULDER = 3.0
_APART = 4.4


@dataclass(frozen=True)
class Level:
    """A height above the floor, and what lies there."""

    name: str
    height: Length


def draw_levels(draft: Draft, levels: Sequence[Level], edge: float, view: View) -> None:
    """Draw flags at the right of a picture, their texts spread so that none overlaps.

    Args:
        draft: the drawing so far; the floor lies at y = 0.
        levels: in any order; those of one height share a flag.
        edge: where the picture ends, mm.
        view: the scale.
    """
    names: dict[Length, list[str]] = {}
    for level in sorted(levels, key=lambda level: level.height):
        names.setdefault(level.height, []).append(level.name)
    heights = [view.of(height) for height in names]
    for (height, said), text in zip(names.items(), _spread(heights), strict=True):
        y = view.of(height)
        start, elbow = edge + _GAP, edge + _GAP + _SHOULDER
        shoulder = elbow + _JOG
        line = ((start, y), (elbow, y), (shoulder, text), (shoulder + _SHOULDER, text))
        words = f"{view.written(height, feet=False)}  {', '.join(said)}"
        spot = (shoulder + _SHOULDER + 1.0, text - SMALL / 2)
        draft.add(Line(line, Pen.FINE, Role.LEVEL), Text(spot, words, SMALL, role=Role.LEVEL))


def _spread(heights: Sequence[float]) -> list[float]:
    """Places for texts, in order and apart, as near to their heights as may be (pooled like steps of a stair)."""
    groups: list[list[float]] = []
    for height in heights:
        groups.append([height])
        while len(groups) > 1 and _low(groups[-1]) < _low(groups[-2]) + _APART * len(groups[-2]):
            last = groups.pop()
            groups[-1].extend(last)
    return [_low(group) + _APART * n for group in groups for n in range(len(group))]


def _low(group: Sequence[float]) -> float:
    """Where the lowest text of a group goes, so that the group as a whole lies nearest to its heights."""
    return sum(height - _APART * n for n, height in enumerate(group)) / len(group)
