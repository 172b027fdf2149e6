"""The plans of several layouts, each on a page of its own, after a page that shows them side by side."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil

from fitter.domain.differences import differences
from fitter.domain.layout import Layout
from fitter.domain.outcome import LayoutResult
from fitter.domain.project import Project
from fitter.drawing.arranging import Panel, Rectangle, moved_to
from fitter.drawing.block import WIDTH, Built, title_block
from fitter.drawing.corners import draw_posts
from fitter.drawing.draft import Draft
from fitter.drawing.ground import draw_low, draw_room
from fitter.drawing.metrics import wrap
from fitter.drawing.page import MEDIUM, SMALL, Item, Line, Page, Pen, Role, Spot, Text, bounds, moved
from fitter.drawing.panel import heading
from fitter.drawing.plan import extent, framed, plan_page
from fitter.drawing.seats import draw_shape
from fitter.drawing.seen_key import hung, seen_key
from fitter.drawing.sheets import MARGIN, Scale, Sheet, scales, sheets
from fitter.drawing.texts import stacked
from fitter.drawing.view import View

_PAD = 4.0  # around each picture of the overview, mm
_LEADING = 4.2
_CLEAR = 3.0  # a cushion narrower than this is too small to be seen; the words make room for it, mm


def plan_pages(
    project: Project, layouts: Sequence[LayoutResult], *, sheet: str | None = None, verdicts: Sequence[str] = ()
) -> tuple[Page, ...]:
    """Draw each layout on a page of its own; several on sheets of one size, after an overview.

    Args:
        project: the room, the cushions, title and note.
        layouts: what to draw, best first; at least one.
        sheet: name of a paper that must be used; None to choose.
        verdicts: a line for the title block of each.

    Returns:
        The overview, if there are several layouts; then their pages in order.

    Raises:
        ValueError: no such sheet, or the room is too large for the smallest usual scale.
    """
    said = [*verdicts, *("" for _ in layouts[len(verdicts) :])]
    if len(layouts) == 1:
        return (plan_page(project, layouts[0].layout, sheet, said[0]),)
    captions = [_caption(project, layouts, shown) for shown in layouts]

    def drawn(n: int, paper: str | None) -> Page:
        return plan_page(project, layouts[n].layout, paper, said[n], says=captions[n])

    pages = [drawn(n, sheet) for n in range(len(layouts))]
    size = _size(max(pages, key=lambda page: page.width * page.height))
    pages = [page if _size(page) == size else drawn(n, size) for n, page in enumerate(pages)]
    return (*overview_pages(project, layouts, layouts, size), *pages)


def _size(page: Page) -> str:
    """The name of a page's paper without the way it lies."""
    return page.sheet.split()[0]


def _caption(project: Project, layouts: Sequence[LayoutResult], shown: LayoutResult) -> list[str]:
    """Which one of how many it is, and in what it differs from the best."""
    differs = differences(project, layouts[0].layout, shown.layout, View(1, project.unit).written)
    return [f"{shown.rank} of {len(layouts)}" + (f": {'; '.join(differs)}" if shown.rank > 1 else "")]


def overview_pages(
    project: Project,
    layouts: Sequence[LayoutResult],
    shown: Sequence[LayoutResult],
    sheet: str,
    names: Sequence[str] = (),
) -> tuple[Page, ...]:
    """Small pictures of layouts, at one scale a page, each with what the objectives count.

    Args:
        project: the room, title and note.
        layouts: all that there are, best first.
        shown: those to show.
        sheet: name of the paper; it lies or stands, whichever gives the larger scale.
        names: of all layouts, where each has one; what differs from the best is then not told.

    Returns:
        One page, or as many as it takes.

    Raises:
        ValueError: no such sheet, or the room is too large for the smallest usual scale.
    """
    found = (
        next(_grids(project, layouts, shown, paper, names), None) for paper in sheets(project.unit.imperial, sheet)
    )
    pages = [page for page in found if page is not None]
    if pages:
        return (min(pages, key=lambda page: page.denominator),)
    if len(shown) == 1:
        message = "the room is too large for the sheet at every usual scale; name a larger sheet"
        raise ValueError(message)
    half = ceil(len(shown) / 2)
    parts = (shown[:half], shown[half:])
    return tuple(page for part in parts for page in overview_pages(project, layouts, part, sheet, names))


def named_pages(
    project: Project, layouts: Sequence[LayoutResult], names: Sequence[str], *, sheet: str | None = None
) -> tuple[Page, ...]:
    """Layouts that were found for different questions in one room, side by side, each with a name.

    Args:
        project: the room, title and note.
        layouts: ranked from 1; at least one.
        names: one for each.
        sheet: name of a paper that must be used; None for the smallest that shows them all on one page.

    Raises:
        ValueError: no such sheet, or the room is too large for the smallest usual scale.
    """
    usual = dict.fromkeys(paper.name.split()[0] for paper in sheets(project.unit.imperial))
    papers = list(usual) if sheet is None else [sheet]
    found = [overview_pages(project, layouts, layouts, paper, names) for paper in papers]
    return min(found, key=len)


def _grids(
    project: Project,
    layouts: Sequence[LayoutResult],
    shown: Sequence[LayoutResult],
    paper: Sheet,
    names: Sequence[str] = (),
) -> Iterator[Page]:
    """Pages that work on a paper, largest scale first, fewest columns first.

    What differs is written below each picture unless that would leave no room to see it.
    """
    area = _area(paper)
    least = min(run.pitch for each in shown for run in each.layout.runs)
    for full in (True, False):
        for scale in scales(project.unit.imperial):
            if full and View(scale.denominator, project.unit).of(least) < _CLEAR:
                continue
            grids = [_Grid(area, columns, ceil(len(shown) / columns)) for columns in range(1, len(shown) + 1)]
            grids = [grid for grid in grids if grid.may_hold(project, scale)]
            pictures = [_picture(project, each.layout, scale) for each in shown] if grids else []
            for grid in grids:
                width = grid.wide - 2 * _PAD
                captions = [
                    _named(each, names[each.rank - 1], width, project)
                    if names
                    else _lines(project, layouts, each, width, full=full)
                    for each in shown
                ]
                if grid.holds(pictures, captions):
                    count = f"{len(layouts)} {'cushions' if names else 'layouts'} side by side, best first"
                    part = f"layouts {shown[0].rank} to {shown[-1].rank} of {len(layouts)} side by side"
                    says = count if len(shown) == len(layouts) else part
                    key = seen_key(project, [e.layout for e in shown], View(scale.denominator, project.unit), room=True)
                    yield _sheet(project, paper, scale, key, tuple(grid.filled(pictures, captions)), says)
                    break


def _area(paper: Sheet) -> Rectangle:
    """What the title block leaves of a sheet."""
    return MARGIN, MARGIN, paper.width - MARGIN - WIDTH, paper.height - MARGIN


def _sheet(project: Project, paper: Sheet, scale: Scale, key: Built, items: tuple[Item, ...], says: str) -> Page:
    title = title_block(heading(project), scale, paper.name, [says])
    area = _area(paper)
    border = Line(((area[2], area[1]), (area[2], area[3])), Pen.MEDIUM, Role.PANEL)
    column = (area[2], area[1], area[2] + WIDTH, area[3])
    panel = (*moved_to(title, (area[2], area[1] + title[1])), *hung(key, title, column), border)
    return framed(project.title, paper, scale, items, Panel(panel, area), (0.0, 0.0))


def _picture(project: Project, layout: Layout, scale: Scale) -> tuple[Item, ...]:
    """The room and the furniture, without names and lengths."""
    view, draft = View(scale.denominator, project.unit), Draft()
    draw_room(draft, project.room, view)
    draw_shape(draft, layout, view)
    draw_posts(draft, project, layout, view)
    draw_low(draft, project.room, view)
    return tuple(draft.items)


Caption = tuple[str, tuple[str, ...]]


def _lines(
    project: Project, layouts: Sequence[LayoutResult], shown: LayoutResult, width: float, *, full: bool
) -> Caption:
    """The head line below a picture, and what follows it, broken at a width."""
    layout = shown.layout
    written = View(1, project.unit).written
    form = [str(layout.shape) + (f", short run on the {layout.hand}" if layout.hand else "")]
    if layout.corner:
        form.append(str(layout.corner))
    counts = [
        _counted(layout.notches, "notched"),
        f"{sum(row.buy for row in layout.purchases)} to buy",
        _counted(len(layout.posts), "post", "posts"),
        _counted(len(layout.rail_lengths), "rail length", "rail lengths"),
        f"{written(layout.off_edge)} off edge {layout.pose.edge}" if layout.pose.edge else "free standing",
    ]
    lines = [", ".join(form), ", ".join(counts)]
    if full and (differs := differences(project, layouts[0].layout, layout, written) if shown.rank > 1 else ()):
        lines.append("differs: " + "; ".join(differs))
    head = f"{shown.rank}   {_counted(layout.seats, 'seat', 'seats')}"
    return head, tuple(part for line in lines for part in wrap(line, SMALL, width))


def _named(shown: LayoutResult, name: str, width: float, project: Project) -> Caption:
    """The same where each layout has a name: that comes first, and nothing is told of what differs."""
    head, told = _lines(project, (shown,), shown, width, full=False)
    return head, (*wrap(name, SMALL, width), *told)


def _counted(number: int, one: str, many: str = "") -> str:
    return f"{number} {one if number == 1 or not many else many}"


class _Grid:
    """Equal cells, row by row from the upper left."""

    def __init__(self, area: Rectangle, columns: int, rows: int) -> None:
        self.area, self.columns = area, columns
        self.wide = (area[2] - area[0]) / columns
        self.high = (area[3] - area[1]) / rows

    def may_hold(self, project: Project, scale: Scale) -> bool:
        """Whether a cell holds the bare outline; saves drawing what does not fit."""
        wide, high = extent(project, scale)
        return wide < self.wide and high < self.high

    def holds(self, pictures: Sequence[tuple[Item, ...]], captions: Sequence[Caption]) -> bool:
        """Whether every picture fits into its cell above the longest caption."""
        room = self.high - _depth(captions) - 2 * _PAD
        for picture in pictures:
            x0, y0, x1, y1 = bounds(picture)
            if x1 - x0 > self.wide - 2 * _PAD or y1 - y0 > room:
                return False
        heads = (Text((0.0, 0.0), head, MEDIUM).width for head, _ in captions)
        return max(heads) <= self.wide - 2 * _PAD

    def filled(self, pictures: Sequence[tuple[Item, ...]], captions: Sequence[Caption]) -> Iterator[Item]:
        """Each picture in the middle of its cell, its caption below it."""
        depth = _depth(captions)
        for n, (picture, (head, lines)) in enumerate(zip(pictures, captions, strict=True)):
            left = self.area[0] + n % self.columns * self.wide
            top = self.area[3] - n // self.columns * self.high
            x0, y0, x1, y1 = bounds(picture)
            low = top - self.high + depth + _PAD
            shift = (left + (self.wide - x0 - x1) / 2, (low + top - _PAD - y0 - y1) / 2)
            yield from (moved(item, shift) for item in picture)
            place: Spot = (left + _PAD, low - _PAD - MEDIUM)
            yield Text(place, head, MEDIUM)
            yield from stacked(lines, (place[0], place[1] - 1.9 * MEDIUM))
            yield from _borders(left, top, self.wide, self.high)


def _borders(left: float, top: float, wide: float, high: float) -> Iterator[Line]:
    yield Line(((left, top - high), (left + wide, top - high)), Pen.FINE, Role.PANEL)
    yield Line(((left + wide, top - high), (left + wide, top)), Pen.FINE, Role.PANEL)


def _depth(captions: Sequence[Caption]) -> float:
    return _PAD + MEDIUM + 1.9 * MEDIUM + _LEADING * max(len(lines) for _, lines in captions)
