"""The plan of a layout in its room, on the smallest sheet that shows it at a readable scale."""

from __future__ import annotations

from collections.abc import Iterator

from fitter.domain.layout import Layout
from fitter.domain.project import Project
from fitter.drawing.draft import Draft
from fitter.drawing.ground import draw_room, name_corners, name_things
from fitter.drawing.measures import draw_measures
from fitter.drawing.page import Area, Item, Page, Pen, Role, Spot, moved
from fitter.drawing.panel import Panel, arrange, blocks, placed_inside, title_block
from fitter.drawing.seats import draw_seats, name_seats
from fitter.drawing.sheets import MARGIN, Scale, Sheet, scales, sheets
from fitter.drawing.view import View
from fitter.drawing.ways import draw_ways, name_narrows, name_ways

READABLE = 15.0
"""A module is drawn at least this wide on a sheet that is preferred, mm (common practice)."""


def plan_page(project: Project, layout: Layout, sheet: str | None = None, verdict: str = "") -> Page:
    """Draw a layout in its room, true to scale.

    The smallest sheet that shows modules readably is taken, at the largest usual scale that fits; where no
    sheet does, the one with the largest scale.

    Args:
        project: the room, the cushions, title and note.
        layout: what to draw.
        sheet: name of a paper that must be used; None to choose.
        verdict: a line for the title block that says how the answer stands.

    Returns:
        The page.

    Raises:
        ValueError: no such sheet, or the room is too large for the smallest usual scale.
    """
    best: Page | None = None
    papers = sheets(project.unit.imperial, sheet)
    drawn: dict[int, tuple[Item, ...]] = {}
    for size in dict.fromkeys(paper.name.split()[0] for paper in papers):
        same = [paper for paper in papers if paper.name.split()[0] == size]
        page = next(_pages(project, layout, same, verdict, drawn), None)
        if page is None:
            continue
        if best is None or page.denominator < best.denominator:
            best = page
        if View(page.denominator, project.unit).of(layout.runs[0].pitch) >= READABLE:
            return page if best.denominator != page.denominator else best
    if best is None:
        message = "the room is too large for the sheet at every usual scale; name a larger sheet"
        raise ValueError(message)
    return best


def _pages(
    project: Project, layout: Layout, papers: list[Sheet], verdict: str, drawn: dict[int, tuple[Item, ...]]
) -> Iterator[Page]:
    """Pages that work on papers of one size, largest scale first, lying before standing."""
    others = blocks(project, layout)
    for scale in scales(project.unit.imperial):
        for paper in papers:
            frame = (MARGIN, MARGIN, paper.width - MARGIN, paper.height - MARGIN)
            title = title_block(project, layout, scale, paper.name, verdict)
            panel = arrange(title, others, frame, paper.landscape)
            if panel is None or not _may_fit(project, scale, panel):
                continue
            if scale.denominator not in drawn:
                drawn[scale.denominator] = draw_plan(project, layout, scale)
            items = drawn[scale.denominator]
            shift = placed_inside(items, panel.plan)
            if shift is not None:
                yield _page(project, paper, scale, items, panel, shift)


def _may_fit(project: Project, scale: Scale, panel: Panel) -> bool:
    """Whether the bare outline fits; saves drawing what cannot."""
    view = View(scale.denominator, project.unit)
    spots = [view.at(point) for point in project.room.outline]
    wide = max(x for x, _ in spots) - min(x for x, _ in spots)
    high = max(y for _, y in spots) - min(y for _, y in spots)
    return wide < panel.plan[2] - panel.plan[0] and high < panel.plan[3] - panel.plan[1]


def _page(project: Project, paper: Sheet, scale: Scale, items: tuple[Item, ...], panel: Panel, shift: Spot) -> Page:
    w, h = paper.width, paper.height
    ring = ((MARGIN, MARGIN), (w - MARGIN, MARGIN), (w - MARGIN, h - MARGIN), (MARGIN, h - MARGIN))
    everything = (
        Area(ring, None, Role.FRAME, Pen.HEAVY),
        *(moved(item, shift) for item in items),
        *panel.items,
    )
    return Page(project.title, paper.name, w, h, scale.denominator, scale.written, shift, everything)


def draw_plan(project: Project, layout: Layout, scale: Scale) -> tuple[Item, ...]:
    """Everything that is to scale, with its dimensions and names; the room's origin lies at (0, 0)."""
    room, view, draft = project.room, View(scale.denominator, project.unit), Draft()
    draw_ways(draft, room, layout, view)
    draw_room(draft, room, view)
    draw_seats(draft, layout, view)
    name_corners(draft, room, view)
    draw_measures(draft, room, layout, view)
    name_narrows(draft, room, layout, view)
    name_seats(draft, layout, view)
    name_things(draft, room, view)
    name_ways(draft, room, layout, view)
    return tuple(draft.items)
