"""A picture of wood on the way to its page: what is seen, drawn to scale, and what is written on it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from fitter.domain.woodwork import Part
from fitter.drawing.draft import Draft
from fitter.drawing.frame.sight import Seen, Sight
from fitter.drawing.frame.solids import Solid
from fitter.drawing.frame.strokes import merged
from fitter.drawing.page import MEDIUM, SMALL, Dash, Item, Line, Pen, Role, Segment, Spot, Text, bounds, moved
from fitter.drawing.view import View
from rooms.lengths import UNITS_PER_MM

_UNDER = 7.0  # from a picture to its name, mm


@dataclass(frozen=True)
class Paper:
    """From units of a picture to millimetres on paper.

    Args:
        view: the scale.
        enlarged: so many times, where axes that run aslant are to be to scale.
    """

    view: View
    enlarged: float = 1.0

    @property
    def _size(self) -> float:
        return UNITS_PER_MM * self.view.denominator / self.enlarged

    def at(self, spot: Spot) -> Spot:
        """A spot of a picture, in units, on paper."""
        return spot[0] / self._size, spot[1] / self._size

    def back(self, spot: Spot) -> Spot:
        """The other way."""
        return spot[0] * self._size, spot[1] * self._size

    def lines(self, segments: Iterable[Segment]) -> list[Segment]:
        """Segments of a picture on paper."""
        return [(self.at(a), self.at(b)) for a, b in segments]


@dataclass(frozen=True)
class Scene:
    """Parts seen along a direction, with what is seen of each.

    Args:
        parts: all parts of the frame, by number.
        solids: those that are drawn.
        sight: of them.
        seen: of each solid.
        paper: that they are drawn on.
    """

    parts: Sequence[Part]
    solids: tuple[Solid, ...]
    sight: Sight
    seen: tuple[Seen, ...]
    paper: Paper

    def foremost(self, spots: Sequence[Spot]) -> list[int | None]:
        """The part that is seen at each spot on paper."""
        return self.sight.foremost([self.paper.back(spot) for spot in spots])


def draw_wood(draft: Draft, scene: Scene, pen: Pen, dashed: Callable[[Part], bool] | None = None) -> None:
    """Draw the visible edges of all solids, and the hidden ones of some.

    Args:
        draft: the drawing so far.
        scene: what is seen.
        pen: for visible edges.
        dashed: whose hidden edges are drawn; None for nobody's.
    """
    visible = merged(scene.paper.lines(piece for seen in scene.seen for piece in seen.visible))
    draft.add(*(Line(stroke, pen, Role.PART) for stroke in visible))
    if dashed is None:
        return
    hidden = [piece for seen in scene.seen if dashed(scene.parts[seen.number]) for piece in seen.hidden]
    strokes = merged(scene.paper.lines(hidden), visible)
    draft.add(*(Line(stroke, Pen.FINE, Role.UNSEEN, Dash.HIDDEN) for stroke in strokes))


@dataclass(frozen=True)
class Picture:
    """Something drawn, with its name and notes below it; `items` lie around an origin of their own."""

    items: tuple[Item, ...]
    name: str
    notes: tuple[str, ...] = ()

    def titled(self) -> tuple[Item, ...]:
        """The items with name and notes below their middle."""
        x0, y0, x1, _ = bounds(self.items)
        middle, top = (x0 + x1) / 2, y0 - _UNDER
        if not self.name:
            return self.items
        texts = [Text((middle, top), self.name, MEDIUM, 0.0, 0.5)]
        for n, note in enumerate(self.notes):
            texts.append(Text((middle, top - 5.2 - 4.2 * n), note, SMALL, 0.0, 0.5))
        return (*self.items, *texts)


def stacked_up(pictures: Sequence[Picture], gap: float) -> tuple[Item, ...]:
    """Pictures one below the other, their middles in line; the lower left corner of all lies at (0, 0)."""
    placed: list[Item] = []
    blocks = [picture.titled() for picture in pictures]
    sizes = [bounds(block) for block in blocks]
    wide = max(x1 - x0 for x0, _, x1, _ in sizes)
    top = sum(y1 - y0 for _, y0, _, y1 in sizes) + gap * (len(blocks) - 1)
    for block, (x0, y0, x1, y1) in zip(blocks, sizes, strict=True):
        placed.extend(moved(item, ((wide - x0 - x1) / 2, top - y1)) for item in block)
        top -= y1 - y0 + gap
    return tuple(placed)


def in_rows(pictures: Sequence[Picture], columns: int, gap: float) -> tuple[Item, ...]:
    """Pictures side by side, so many in a row, their feet in line; the lower left corner of all lies near (0, 0)."""
    placed: list[Item] = []
    low = 0.0
    for start in range((len(pictures) - 1) // columns * columns, -1, -columns):
        row = [picture.titled() for picture in pictures[start : start + columns]]
        sizes = [bounds(block) for block in row]
        left, below = 0.0, min(y0 for _, y0, _, _ in sizes)
        for block, (x0, _, x1, _) in zip(row, sizes, strict=True):
            placed.extend(moved(item, (left - x0, low - below)) for item in block)
            left += x1 - x0 + gap
        low += max(y1 for _, _, _, y1 in sizes) - below + gap
    return tuple(placed)
