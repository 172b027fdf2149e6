"""The signs of a board: parts, offcuts to keep, waste and saw cuts, with a sample of each for the key."""

from __future__ import annotations

from collections.abc import Iterator

from shapely.geometry import Polygon

from fitter.drawing.leaders import dot_at
from fitter.drawing.page import SMALL, Area, Dash, Item, Line, Pen, Role, Spot, Text
from fitter.drawing.view import hatching

OPEN, CLOSE = 2.6, 1.5
"""Between the strokes of what is kept and of waste, mm."""
_SLANTED = "slanted cut: measure to its dot, on the far edge (above) or the near one (below)"


def filled(ring: tuple[Spot, ...], role: Role, gap: float, *, crossed: bool) -> Iterator[Item]:
    """A white area with strokes one way, or both ways."""
    yield Area(ring, 1.0, role, Pen.FINE)
    shape = Polygon(ring)
    if not shape.is_valid or shape.is_empty:
        return
    for rising in (True, False) if crossed else (True,):
        for stroke in hatching(shape, gap, rising):
            yield Line(stroke, Pen.FINE, Role.HATCH)


def samples() -> Iterator[tuple[tuple[Item, ...], str]]:
    """The signs, each 13 mm wide and about the base line, with what they stand for."""
    box = ((0.0, -1.6), (13.0, -1.6), (13.0, 1.6), (0.0, 1.6))
    yield (Area(box, 1.0, Role.PART, Pen.FINE),), "part, with its mark and length"
    yield tuple(filled(box, Role.UNSEEN, OPEN, crossed=False)), "offcut to keep"
    yield tuple(filled(box, Role.BARE, CLOSE, crossed=True)), "waste"
    cut = (Line(((3.0, 1.6), (3.0, -1.6)), Pen.FINE, Role.LEADER), Text((4.0, -SMALL / 2), "3", SMALL, role=Role.MARK))
    yield cut, "third saw cut, its running measure below"
    slant = Line(((4.6, -1.6), (8.4, 1.6)), Pen.MEDIUM, Role.CUT)
    yield (Area(box, 1.0, Role.PART, Pen.FINE), slant, *_to_the_far_edge(8.4)), _SLANTED
    yield (Line(((6.5, 1.6), (6.5, -1.6)), Pen.HEAVY, Role.SPLIT),), "first cut of a long board; a new rule begins"


def _to_the_far_edge(x: float) -> tuple[Item, ...]:
    """The sign of a measure that goes to the long point on the upper edge of a sample."""
    return (
        Line(((x, 1.6), (x, -1.6)), Pen.FINE, Role.LEADER, Dash.SHORT),
        Line(((x, -1.6), (x, -2.4)), Pen.FINE, Role.LEADER),
        dot_at((x, 1.6)),
    )
