"""Variants of a plan side by side at one scale, with a table below them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil

from fitter.domain.layout import Layout, Pose
from fitter.domain.project import Project
from fitter.drawing.arranging import Panel, Rectangle, moved_to
from fitter.drawing.block import WIDTH, title_block
from fitter.drawing.captions import Caption
from fitter.drawing.corners import draw_posts
from fitter.drawing.draft import Draft
from fitter.drawing.page import MEDIUM, Item, Line, Page, Pen, Role, Spot, bounds, moved
from fitter.drawing.panel import heading
from fitter.drawing.plan import framed
from fitter.drawing.seats import draw_shape
from fitter.drawing.seen_key import hung, seen_key
from fitter.drawing.sheets import MARGIN, Scale, Sheet, scales, sheets
from fitter.drawing.variants_table import PAD as _PAD
from fitter.drawing.variants_table import Table, TableBlock
from fitter.drawing.view import View
from rooms.lengths import ZERO
from rooms.room import Point

_READABLE = 5.0  # a module is drawn at least so wide on a page that has the table too, mm
_LEVEL = Pose(Point(ZERO, ZERO), Fraction(1), Fraction(0), None)


@dataclass(frozen=True)
class Cell:
    """One variant.

    Args:
        head: its number and name.
        lines: what is told below its picture.
        layout: what is drawn; its place does not count.
    """

    head: str
    lines: tuple[str, ...]
    layout: Layout


@dataclass(frozen=True)
class Sheetful:
    """What is shown of a plan and its variants.

    Args:
        cells: those that are drawn, the published one first.
        table: of all of them.
        says: for the title block, a paragraph each.
    """

    cells: tuple[Cell, ...]
    table: Table
    says: tuple[str, ...]


def variants_pages(project: Project, shown: Sheetful, sheet: str | None = None) -> tuple[Page, ...]:
    """Draw variants side by side, with the table on the same page if they stay readable, else on pages of its own.

    Args:
        project: title, note and unit.
        shown: what to draw; at least one cell.
        sheet: name of a paper that must be used; None to choose.

    Returns:
        One page, or as many as it takes.

    Raises:
        ValueError: no such sheet, or a variant or the table is too large for it.
    """
    papers = sheets(project.unit.imperial, sheet)
    for size in dict.fromkeys(paper.name.split()[0] for paper in papers):
        same = [paper for paper in papers if paper.name.split()[0] == size]
        found = [page for paper in same if (page := _together(project, shown, paper)) is not None]
        if found:
            page = min(found, key=lambda page: page.denominator)
            if _module(project, shown, page.denominator) >= _READABLE:
                return (page,)
    # The last of the papers, lying.
    return _apart(project, shown, papers[-2])


def _module(project: Project, shown: Sheetful, denominator: int) -> float:
    """How wide the narrowest module is on paper, mm."""
    view = View(denominator, project.unit)
    return min(view.of(run.pitch) for cell in shown.cells for run in cell.layout.runs)


def _together(project: Project, shown: Sheetful, paper: Sheet) -> Page | None:
    """Pictures and table on one page, at the largest usual scale; None if they are too large."""
    area = _area(paper)
    told = TableBlock(shown.table, area[2] - area[0] - 2 * _PAD)
    if not told.fits:
        return None
    for scale in scales(project.unit.imperial):
        room = (area[0], area[1] + told.height, area[2], area[3])
        if (items := _grid(project, shown.cells, scale, room)) is not None:
            table = told.items((area[0] + _PAD, area[1] + told.height - _PAD))
            return _page(project, shown, paper, scale, (*items, *table))
    return None


def _apart(project: Project, shown: Sheetful, paper: Sheet) -> tuple[Page, ...]:
    """Pictures on one page or two, then the table on as many as it takes."""
    area = _area(paper)
    width = area[2] - area[0] - 2 * _PAD
    scale, pages = _pictured(project, shown, paper, area)
    rest = shown.table.rows
    while pages:
        blocks = (TableBlock(_part(shown.table, rest, many), width) for many in range(len(rest), 0, -1))
        block = next((block for block in blocks if block.height <= area[3] - area[1]), None)
        if block is None or not block.fits:
            break
        items = tuple(block.items((area[0] + _PAD, area[3] - _PAD)))
        pages.append(_page(project, shown, paper, scale, items))
        rest = rest[len(block.shown.rows) :]
        if not rest:
            return tuple(pages)
    message = "the variants are too large for the sheet at every usual scale; name a larger sheet"
    raise ValueError(message)


def _pictured(project: Project, shown: Sheetful, paper: Sheet, area: Rectangle) -> tuple[Scale, list[Page]]:
    """All pictures on one page as long as they stay readable, else in two halves, at the largest scale; or no page."""
    half = ceil(len(shown.cells) / 2)
    halves = [cells for cells in (shown.cells[:half], shown.cells[half:]) if cells]
    known = scales(project.unit.imperial)
    readable = [scale for scale in known if _module(project, shown, scale.denominator) >= _READABLE]
    for parts, those in (([shown.cells], readable), (halves, known)):
        for scale in those:
            grids = [_grid(project, cells, scale, area) for cells in parts]
            if all(items is not None for items in grids):
                return scale, [_page(project, shown, paper, scale, items) for items in grids if items is not None]
    return known[-1], []


def _part(table: Table, rest: Sequence[tuple[str, ...]], many: int) -> Table:
    """Some rows of the table; paragraphs follow the last one."""
    return replace(table, rows=tuple(rest[:many]), paragraphs=table.paragraphs if many == len(rest) else ())


def _area(paper: Sheet) -> Rectangle:
    """What the title block leaves of a sheet."""
    return MARGIN, MARGIN, paper.width - MARGIN - WIDTH, paper.height - MARGIN


def _page(project: Project, shown: Sheetful, paper: Sheet, scale: Scale, items: Sequence[Item]) -> Page:
    title = title_block(heading(project), scale, paper.name, shown.says)
    x1, y0, y1 = paper.width - MARGIN - WIDTH, MARGIN, paper.height - MARGIN
    border = Line(((x1, y0), (x1, y1)), Pen.MEDIUM, Role.PANEL)
    view = View(scale.denominator, project.unit)
    key = seen_key(project, [cell.layout for cell in shown.cells], view, room=False)
    column = (x1, y0, x1 + WIDTH, y1)
    panel = (*moved_to(title, (x1, y0 + title[1])), *hung(key, title, column), border)
    return framed(project.title, paper, scale, items, Panel(panel, _area(paper)), (0.0, 0.0))


def _picture(project: Project, cell: Cell, view: View) -> tuple[Item, ...]:
    """The furniture from above with its posts, its main run along the paper, whatever way it stood."""
    layout, draft = replace(cell.layout, pose=_LEVEL), Draft()
    draw_shape(draft, layout, view)
    draw_posts(draft, project, layout, view)
    return tuple(draft.items)


def _grid(project: Project, cells: Sequence[Cell], scale: Scale, area: Rectangle) -> tuple[Item, ...] | None:
    """Equal columns, each row as high as it needs, with as few columns as fit; None if nothing does."""
    view = View(scale.denominator, project.unit)
    pictures = [_picture(project, cell, view) for cell in cells]
    sizes = [bounds(picture) for picture in pictures]
    for columns in range(1, len(cells) + 1):
        wide = (area[2] - area[0]) / columns
        if any(x1 - x0 > wide - 2 * _PAD for x0, _, x1, _ in sizes):
            return None
        captions = [Caption.of(cell.head, cell.lines, wide - 2 * _PAD) for cell in cells]
        rows = [range(first, min(first + columns, len(cells))) for first in range(0, len(cells), columns)]
        heights = [
            max(sizes[n][3] - sizes[n][1] for n in row) + _PAD + max(captions[n].depth for n in row) + 2 * _PAD
            for row in rows
        ]
        if sum(heights) <= area[3] - area[1]:
            return tuple(_filled(pictures, captions, rows, heights, (area[0], area[3], wide)))
    return None


def _filled(
    pictures: Sequence[tuple[Item, ...]],
    captions: Sequence[Caption],
    rows: Sequence[range],
    heights: Sequence[float],
    corner: tuple[float, float, float],
) -> Iterator[Item]:
    """Each picture above its caption, cells parted by fine lines; the corner is left, top and a cell's width."""
    left, top, wide = corner
    for row, high in zip(rows, heights, strict=True):
        depth = _PAD + max(captions[n].depth for n in row)
        for column, n in enumerate(row):
            x = left + column * wide
            x0, y0, x1, _ = bounds(pictures[n])
            shift: Spot = (x + (wide - x0 - x1) / 2, top - high + depth + _PAD - y0)
            yield from (moved(item, shift) for item in pictures[n])
            at = (x + _PAD, top - high + depth - MEDIUM)
            yield from captions[n].items(at)
            yield Line(((x + wide, top - high), (x + wide, top)), Pen.FINE, Role.PANEL)
        yield Line(((left, top - high), (left + wide * len(row), top - high)), Pen.FINE, Role.PANEL)
        top -= high
