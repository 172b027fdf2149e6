"""The plan of a layout in its room, on the smallest sheet that shows it at a readable scale."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

from fitter.domain.layout import Layout, Run
from fitter.domain.project import Project
from fitter.drawing.arranging import Panel, arrange, placed_inside
from fitter.drawing.block import Built, title_block
from fitter.drawing.corners import name_gap
from fitter.drawing.draft import Draft
from fitter.drawing.ground import draw_low, draw_room, name_corners, name_things
from fitter.drawing.measures import draw_measures
from fitter.drawing.page import Area, Item, Page, Pen, Role, Spot, moved
from fitter.drawing.panel import blocks, heading, seats_line
from fitter.drawing.seats import draw_seats, name_seats
from fitter.drawing.sheets import MARGIN, Scale, Sheet, scales, sheets
from fitter.drawing.view import View
from fitter.drawing.ways import draw_ways, name_narrows, name_ways
from rooms.lengths import Length

READABLE = 15.0
"""A module is drawn at least this wide on a sheet that is preferred, mm (common practice)."""


@dataclass(frozen=True)
class Over:
    """What is drawn over the furniture of a plan, and which boxes stand beside it instead of the usual ones.

    Args:
        draw: draws it, true to scale.
        blocks: the boxes at a scale, in the order in which they are placed.
    """

    draw: Callable[[Draft, View], None]
    blocks: Callable[[View], tuple[Built, ...]]


def plan_page(
    project: Project,
    layout: Layout,
    sheet: str | None = None,
    verdict: str = "",
    *,
    says: Sequence[str] = (),
    over: Over | None = None,
) -> Page:
    """Draw a layout in its room, true to scale.

    The smallest sheet that shows modules readably is taken, at the largest usual scale that fits; where no
    sheet does, the one with the largest scale.

    Args:
        project: the room, the cushions, title and note.
        layout: what to draw.
        sheet: name of a paper that must be used; None to choose.
        verdict: a line for the title block that says how the answer stands.
        says: more lines for the title block.
        over: what is drawn over the furniture; None for a plain plan.

    Returns:
        The page.

    Raises:
        ValueError: no such sheet, or the room is too large for the smallest usual scale.
    """
    best: Page | None = None
    papers = sheets(project.unit.imperial, sheet)
    sketch = _Sketch(project, layout, tuple(line for line in (seats_line(layout), *says, verdict) if line), over)
    least = min(min(run.pitch, _deck(run)) for run in layout.runs)
    for size in dict.fromkeys(paper.name.split()[0] for paper in papers):
        same = [paper for paper in papers if paper.name.split()[0] == size]
        page = next(sketch.pages(same), None)
        if page is None:
            continue
        if best is None or page.denominator < best.denominator:
            best = page
        if View(best.denominator, project.unit).of(least) >= READABLE:
            return best
    if best is None:
        message = "the room is too large for the sheet at every usual scale; name a larger sheet"
        raise ValueError(message)
    return best


def _deck(run: Run) -> Length:
    return min(run.deck.x1 - run.deck.x0, run.deck.y1 - run.deck.y0)


@dataclass
class _Sketch:
    """A layout on the way to its page; what was drawn at a scale is kept for the next paper."""

    project: Project
    layout: Layout
    says: tuple[str, ...]
    over: Over | None = None
    drawn: dict[int, tuple[Item, ...]] = field(default_factory=dict)

    def pages(self, papers: Sequence[Sheet]) -> Iterator[Page]:
        """Pages that work on papers of one size, largest scale first, lying before standing."""
        for scale in scales(self.project.unit.imperial):
            view = View(scale.denominator, self.project.unit)
            others = self.over.blocks(view) if self.over else blocks(self.project, self.layout, view)
            for paper in papers:
                frame = (MARGIN, MARGIN, paper.width - MARGIN, paper.height - MARGIN)
                title = title_block(heading(self.project), scale, paper.name, self.says)
                for panel in arrange(title, others, frame, paper.landscape):
                    if not _may_fit(self.project, scale, panel):
                        continue
                    shift = placed_inside(self.at(scale), panel.plan)
                    if shift is not None:
                        yield framed(self.project.title, paper, scale, self.at(scale), panel, shift)

    def at(self, scale: Scale) -> tuple[Item, ...]:
        """The drawing at a scale."""
        if scale.denominator not in self.drawn:
            self.drawn[scale.denominator] = draw_plan(self.project, self.layout, scale, self.over)
        return self.drawn[scale.denominator]


def _may_fit(project: Project, scale: Scale, panel: Panel) -> bool:
    """Whether the bare outline fits; saves drawing what cannot."""
    wide, high = extent(project, scale)
    return wide < panel.plan[2] - panel.plan[0] and high < panel.plan[3] - panel.plan[1]


def extent(project: Project, scale: Scale) -> tuple[float, float]:
    """Width and height of the room's outline on paper, mm."""
    view = View(scale.denominator, project.unit)
    spots = [view.at(point) for point in project.room.outline]
    xs, ys = [x for x, _ in spots], [y for _, y in spots]
    return max(xs) - min(xs), max(ys) - min(ys)


def framed(title: str, paper: Sheet, scale: Scale, items: Sequence[Item], panel: Panel, shift: Spot) -> Page:
    """A page with its border, the drawing moved to its place, and the panel."""
    w, h = paper.width, paper.height
    ring = ((MARGIN, MARGIN), (w - MARGIN, MARGIN), (w - MARGIN, h - MARGIN), (MARGIN, h - MARGIN))
    everything = (
        Area(ring, None, Role.FRAME, Pen.HEAVY),
        *(moved(item, shift) for item in items),
        *panel.items,
    )
    return Page(title, paper.name, w, h, scale.denominator, scale.written, shift, everything)


def draw_plan(project: Project, layout: Layout, scale: Scale, over: Over | None = None) -> tuple[Item, ...]:
    """Everything that is to scale, with its dimensions and names; the room's origin lies at (0, 0)."""
    room, view, draft = project.room, View(scale.denominator, project.unit), Draft()
    draw_ways(draft, room, layout, view)
    draw_room(draft, room, view)
    draw_seats(draft, project, layout, view)
    draw_low(draft, room, view)
    if over is not None:
        over.draw(draft, view)
    name_corners(draft, room, view)
    draw_measures(draft, project, layout, view)
    name_narrows(draft, room, layout, view)
    name_seats(draft, layout, view)
    name_gap(draft, layout, view)
    name_things(draft, room, view)
    name_ways(draft, room, layout, view)
    return tuple(draft.items)
