"""The drawing of a survey: the outline with what was taped, how far each reading is off, and error ellipses."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from fitter.drawing.arranging import arrange, moved_to, placed_inside
from fitter.drawing.block import WIDTH, Built, title_block
from fitter.drawing.draft import Draft
from fitter.drawing.page import Area, Item, Page, Pen, Role
from fitter.drawing.plan import framed
from fitter.drawing.sheets import MARGIN, Scale, Sheet, scales, sheets
from fitter.drawing.survey_signs import (
    draw_ellipses,
    draw_outline,
    draw_ties,
    draw_turns,
    enlarged,
    label_lengths,
    name_every_corner,
)
from fitter.drawing.survey_tables import corner_block, heading, key_block, reading_blocks, says
from fitter.drawing.view import View
from fitter.project import RoomReading
from rooms.survey import Survey

READABLE = 15.0
"""The shortest side is drawn at least this long on a sheet that is preferred, mm (common practice)."""


def survey_pages(reading: RoomReading, sheet: str | None = None) -> tuple[Page, ...]:
    """Draw a survey, true to scale.

    The smallest sheet that shows the shortest side readably is taken, at the largest usual scale that fits;
    where no sheet does, the one with the largest scale.

    Args:
        reading: of a room, with its survey.
        sheet: name of a paper that must be used; None to choose.

    Returns:
        The drawing; and pages with the rest of the readings where they are too many to stand beside it.

    Raises:
        ValueError: there is no survey, no such sheet, or the room is too large for the smallest usual scale.
    """
    if reading.survey is None:
        message = "the corners are given by coordinates, so there are no readings to draw"
        raise ValueError(message)
    papers = sheets(reading.unit.imperial, sheet)
    sketch = _Sketch(reading, reading.survey)
    shortest = min(edge.length for edge in reading.room.edges)
    best: tuple[Page, ...] = ()
    for size in dict.fromkeys(paper.name.split()[0] for paper in papers):
        same = [paper for paper in papers if paper.name.split()[0] == size]
        pages = sketch.pages(same)
        if pages and (not best or pages[0].denominator < best[0].denominator):
            best = pages
        if best and View(best[0].denominator, reading.unit).of(shortest) >= READABLE:
            return best
    if not best:
        message = "the room is too large for the sheet at every usual scale; name a larger sheet"
        raise ValueError(message)
    return best


@dataclass
class _Sketch:
    """A survey on the way to its pages; what was drawn at a scale is kept for the next paper."""

    reading: RoomReading
    survey: Survey
    drawn: dict[int, tuple[Item, ...]] = field(default_factory=dict)

    def pages(self, papers: Sequence[Sheet]) -> tuple[Page, ...]:
        """The drawing with the tables beside it, else those on more pages; empty if it is too large."""
        tables = [corner_block(self.reading, self.survey), *reading_blocks(self.reading, self.survey)]
        beside = next(self._drawings(papers, tables), None)
        if beside is not None:
            return (beside,)
        alone = next(self._drawings(papers, ()), None)
        return () if alone is None else (alone, *self._listings(alone, papers, tables))

    def _drawings(self, papers: Sequence[Sheet], tables: Sequence[Built]) -> Iterator[Page]:
        """Pages that work on papers of one size, largest scale first, lying before standing."""
        for scale in scales(self.reading.unit.imperial):
            others = (key_block(self.reading, self.survey, self._enlarged(scale)), *tables)
            for paper in papers:
                title = title_block(heading(self.reading), scale, paper.name, says(self.reading, self.survey))
                for panel in arrange(title, others, _frame(paper), paper.landscape):
                    if not self._may_fit(scale, panel.plan):
                        continue
                    items = self.at(scale)
                    shift = placed_inside(items, panel.plan)
                    if shift is not None:
                        yield framed(self.reading.title, paper, scale, items, panel, shift)

    def _listings(self, drawing: Page, papers: Sequence[Sheet], tables: Sequence[Built]) -> Iterator[Page]:
        """The tables in columns, on sheets like that of the drawing."""
        paper = next(paper for paper in papers if paper.name == drawing.sheet)
        left, low, right, high = _frame(paper)
        ring = ((left, low), (right, low), (right, high), (left, high))
        columns = [left + n * WIDTH for n in range(int((right - left) // WIDTH))]
        rest = list(tables)
        while rest:
            items: list[Item] = [Area(ring, None, Role.FRAME, Pen.HEAVY)]
            for column in columns:
                top = high
                while rest and rest[0][1] <= top - low + 1e-6:
                    block = rest.pop(0)
                    items.extend(moved_to(block, (column, top)))
                    top -= block[1]
            yield Page(drawing.title, paper.name, paper.width, paper.height, 1, "no scale", (0.0, 0.0), tuple(items))

    def _enlarged(self, scale: Scale) -> int:
        return enlarged(self.survey, View(scale.denominator, self.reading.unit))

    def _may_fit(self, scale: Scale, plan: tuple[float, float, float, float]) -> bool:
        """Whether the bare outline fits; saves drawing what cannot."""
        view = View(scale.denominator, self.reading.unit)
        spots = [view.at(point) for point in self.reading.room.outline]
        wide = max(x for x, _ in spots) - min(x for x, _ in spots)
        high = max(y for _, y in spots) - min(y for _, y in spots)
        return wide < plan[2] - plan[0] and high < plan[3] - plan[1]

    def at(self, scale: Scale) -> tuple[Item, ...]:
        """The drawing at a scale; the first corner lies at (0, 0)."""
        if scale.denominator not in self.drawn:
            view, draft = View(scale.denominator, self.reading.unit), Draft()
            draw_ties(draft, self.survey, view)
            draw_turns(draft, self.survey, view)
            draw_ellipses(draft, self.survey, view)
            draw_outline(draft, self.survey, view)
            name_every_corner(draft, self.reading.room, view)
            label_lengths(draft, self.survey, view)
            self.drawn[scale.denominator] = tuple(draft.items)
        return self.drawn[scale.denominator]


def _frame(paper: Sheet) -> tuple[float, float, float, float]:
    return (MARGIN, MARGIN, paper.width - MARGIN, paper.height - MARGIN)
