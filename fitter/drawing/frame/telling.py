"""How slats are spread, in words and as places in a picture."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby, pairwise

from fitter.domain.wishes import Side
from fitter.domain.woodwork import PartRole, Spread, Woodwork
from fitter.drawing.view import View
from rooms.lengths import Length

Span = tuple[Length, Length]


def slats_told(woodwork: Woodwork, side: Side, role: PartRole, view: View) -> tuple[str, ...]:
    """A line for each different way in which slats of a run are spread: how many, how wide, with which gaps."""
    rows = []
    for spread in woodwork.spreads:
        if spread.run is side and spread.role is role:
            count = f"{spread.count} {role}{'s' if spread.count != 1 else ''}"
            rows.append((f"{count} of {view.written(spread.slat, feet=False)}, {_gaps(spread, view)}", spread.place))
    order = list(dict.fromkeys(words for words, _ in rows))
    if len(rows) == 1:
        return tuple(order)
    ranked = sorted(rows, key=lambda row: order.index(row[0]))
    groups = [(words, [place for _, place in group]) for words, group in groupby(ranked, key=lambda row: row[0])]
    return tuple(f"{', '.join(places)}: {words}" for words, places in groups)


def _gaps(spread: Spread, view: View) -> str:
    sizes = sorted(set(spread.gaps))
    if len(sizes) == 1:
        return f"gaps {view.written(sizes[0], feet=False)}"
    counts = [(spread.gaps.count(size), view.written(size, feet=False)) for size in sizes]
    return ", ".join(f"{count} gap{'s' if count > 1 else ''} {size}" for count, size in counts)


def field(slats: Sequence[Span], spreads: Sequence[Spread]) -> Span | None:
    """From where to where the space of the first slats in a picture reaches, gaps at its ends included.

    Args:
        slats: of a run, from left to right; those at one place told once.
        spreads: of the run.

    Returns:
        The space of the spread that these slats follow, whichever end it is told from; None if they follow none.
    """
    for spread in spreads:
        for gaps in (spread.gaps, spread.gaps[::-1]):
            first = slats[: spread.count]
            between = tuple(b[0] - a[1] for a, b in pairwise(first))
            if len(first) == spread.count and between == gaps[1:-1]:
                return first[0][0] - gaps[0], first[-1][1] + gaps[-1]
    return None
