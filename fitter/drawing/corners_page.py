"""Corner treatments side by side at one scale, with the table of them and the diagram of the notch below."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fitter.domain.layout import Layout
from fitter.domain.project import Project
from fitter.domain.tradeoff import Step
from fitter.drawing.arranging import Panel, Rectangle, moved_to
from fitter.drawing.block import WIDTH, title_block
from fitter.drawing.captions import Caption
from fitter.drawing.corners_key import corners_key
from fitter.drawing.corners_plot import front_plot
from fitter.drawing.corners_sketch import corner_sketch
from fitter.drawing.page import MEDIUM, Item, Line, Page, Pen, Role, Spot, bounds, moved
from fitter.drawing.panel import heading
from fitter.drawing.plan import framed
from fitter.drawing.sheets import MARGIN, Scale, Sheet, scales, sheets
from fitter.drawing.variants_table import PAD as TABLE_PAD
from fitter.drawing.variants_table import Table, TableBlock
from fitter.drawing.view import View

_AIR = 3.5  # around a picture, mm
_COLUMNS = 3
_PLOT = 92.0  # least width of the diagram, mm
_HIGH = 70.0  # least height of it, mm
_READABLE = 24  # denominator of the smallest scale that shows a notch well


@dataclass(frozen=True)
class Cell:
    """One treatment.

    Args:
        head: its name.
        lines: what is told below its picture.
        layout: whose corner is drawn; None where there is none.
    """

    head: str
    lines: tuple[str, ...]
    layout: Layout | None


@dataclass(frozen=True)
class Comparison:
    """What is shown of all treatments.

    Args:
        cells: one each.
        table: of all of them.
        steps: how the notch shrinks; may be empty.
        says: for the title block, a paragraph each.
    """

    cells: tuple[Cell, ...]
    table: Table
    steps: tuple[Step, ...]
    says: tuple[str, ...]


def corners_pages(project: Project, shown: Comparison, sheet: str | None = None) -> tuple[Page, ...]:
    """Draw all treatments on one page, or where the sheet is too small, table and diagram on a second one.

    Args:
        project: title, note, unit and wood.
        shown: what to draw; at least one cell has a layout.
        sheet: name of a paper that must be used; None to choose.

    Returns:
        One page or two.

    Raises:
        ValueError: no such sheet, or it is too small.
    """
    papers = [paper for paper in sheets(project.unit.imperial, sheet) if paper.landscape]
    for paper in papers:
        found = _together(project, shown, paper)
        if found is not None and (found.denominator <= _READABLE or paper is papers[-1]):
            return (found,)
    apart = _apart(project, shown, papers[-1])
    if not apart:
        message = "the corners or their table are too large for the sheet; name a larger sheet"
        raise ValueError(message)
    return apart


def _area(paper: Sheet) -> Rectangle:
    """What the title block leaves of a sheet."""
    return MARGIN, MARGIN, paper.width - MARGIN - WIDTH, paper.height - MARGIN


def _together(project: Project, shown: Comparison, paper: Sheet) -> Page | None:
    area = _area(paper)
    foot = _foot(project, shown, area)
    if foot is None:
        return None
    items, height = foot
    for scale in scales(project.unit.imperial):
        grid = _grid(project, shown.cells, scale, (area[0], area[1] + height, area[2], area[3]))
        if grid is not None:
            return _page(project, shown, paper, scale, (*grid, *items))
    return None


def _apart(project: Project, shown: Comparison, paper: Sheet) -> tuple[Page, ...]:
    area = _area(paper)
    foot = _foot(project, shown, area) or _stacked(project, shown, area)
    for scale in scales(project.unit.imperial):
        grid = _grid(project, shown.cells, scale, area)
        if grid is not None and foot is not None:
            low = area[3] - foot[1] - area[1]
            second = tuple(moved(item, (0.0, low)) for item in foot[0])
            pages = grid, second
            return tuple(_page(project, shown, paper, scale, items) for items in pages)
    return ()


def _foot(project: Project, shown: Comparison, area: Rectangle) -> tuple[tuple[Item, ...], float] | None:
    """The table and, right of it, the diagram, along the foot of the area; and their height. None if too wide."""
    plot = _PLOT if shown.steps else 0.0
    told = TableBlock(shown.table, area[2] - area[0] - plot - 2 * TABLE_PAD)
    if not told.fits:
        return None
    height = max(told.height, _HIGH if shown.steps else 0.0)
    if height > area[3] - area[1]:
        return None
    items: list[Item] = list(told.items((area[0] + TABLE_PAD, area[1] + height - TABLE_PAD)))
    if shown.steps:
        at = area[2] - plot
        drawn = front_plot(shown.steps, project.unit.imperial, plot - 2 * TABLE_PAD, height - 2 * TABLE_PAD)
        items += [moved(item, (at + TABLE_PAD, area[1] + TABLE_PAD)) for item in drawn]
        items.append(Line(((at, area[1]), (at, area[1] + height)), Pen.FINE, Role.PANEL))
    return tuple(items), height


def _stacked(project: Project, shown: Comparison, area: Rectangle) -> tuple[tuple[Item, ...], float] | None:
    """The table above the diagram."""
    width = area[2] - area[0] - 2 * TABLE_PAD
    told = TableBlock(shown.table, width)
    height = told.height + (_HIGH + 2 * TABLE_PAD if shown.steps else 0.0)
    if not told.fits or height > area[3] - area[1]:
        return None
    items: list[Item] = list(told.items((area[0] + TABLE_PAD, area[1] + height - TABLE_PAD)))
    if shown.steps:
        drawn = front_plot(shown.steps, project.unit.imperial, width, _HIGH)
        items += [moved(item, (area[0] + TABLE_PAD, area[1] + TABLE_PAD)) for item in drawn]
    return tuple(items), height


def _grid(project: Project, cells: Sequence[Cell], scale: Scale, area: Rectangle) -> tuple[Item, ...] | None:
    """Equal cells in rows of three, each picture above its caption; None where they are too large."""
    view = View(scale.denominator, project.unit)
    pictures = [() if cell.layout is None else corner_sketch(project, cell.layout, view) for cell in cells]
    wide = (area[2] - area[0]) / _COLUMNS
    sizes = [bounds(picture) if picture else (0.0, 0.0, 0.0, 0.0) for picture in pictures]
    captions = [Caption.of(cell.head, cell.lines, wide - 2 * _AIR) for cell in cells]
    rows = [range(first, min(first + _COLUMNS, len(cells))) for first in range(0, len(cells), _COLUMNS)]
    heights = [
        max(sizes[n][3] - sizes[n][1] + 2 * _AIR for n in row) + _AIR + max(captions[n].depth for n in row)
        for row in rows
    ]
    if any(x1 - x0 > wide - 2 * _AIR for x0, _, x1, _ in sizes) or sum(heights) > area[3] - area[1]:
        return None
    spare = (area[3] - area[1] - sum(heights)) / len(rows)
    return tuple(_filled(pictures, captions, rows, [high + spare for high in heights], (area[0], area[3], wide)))


def _filled(
    pictures: Sequence[tuple[Item, ...]],
    captions: Sequence[Caption],
    rows: Sequence[range],
    heights: Sequence[float],
    corner: tuple[float, float, float],
) -> Iterator[Item]:
    """The corner is left, top and a cell's width. Corners of one row lie on one line, so that they compare."""
    left, top, wide = corner
    for row, high in zip(rows, heights, strict=True):
        drawn = [bounds(pictures[n]) for n in row if pictures[n]]
        x0, y0 = min((b[0] for b in drawn), default=0.0), min((b[1] for b in drawn), default=0.0)
        x1, y1 = max((b[2] for b in drawn), default=0.0), max((b[3] for b in drawn), default=0.0)
        for column, n in enumerate(row):
            x = left + column * wide
            at = (x + _AIR, top - _AIR - MEDIUM)
            yield from captions[n].items(at)
            below = _AIR + max(captions[each].depth for each in row)
            room = high - below
            shift: Spot = (x + (wide - x0 - x1) / 2, top - below - (room + y0 + y1) / 2)
            yield from (moved(item, shift) for item in pictures[n])
            if x + wide < left + _COLUMNS * wide - 1.0:
                yield Line(((x + wide, top - high), (x + wide, top)), Pen.FINE, Role.PANEL)
        yield Line(((left, top - high), (left + wide * _COLUMNS, top - high)), Pen.FINE, Role.PANEL)
        top -= high


def _page(project: Project, shown: Comparison, paper: Sheet, scale: Scale, items: Sequence[Item]) -> Page:
    title = title_block(heading(project), scale, paper.name, shown.says)
    x1, y0, y1 = paper.width - MARGIN - WIDTH, MARGIN, paper.height - MARGIN
    layouts = [cell.layout for cell in shown.cells if cell.layout]
    key = corners_key(project, layouts, View(scale.denominator, project.unit), steps=bool(shown.steps))
    border = Line(((x1, y0), (x1, y1)), Pen.MEDIUM, Role.PANEL)
    panel = (*moved_to(title, (x1, y0 + title[1])), *moved_to(key, (x1, y1)), border)
    return framed(project.title, paper, scale, items, Panel(panel, _area(paper)), (0.0, 0.0))
