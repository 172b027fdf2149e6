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
from fitter.drawing.draft import Draft
from fitter.drawing.metrics import text_width, wrap
from fitter.drawing.page import MEDIUM, SMALL, Area, Item, Line, Page, Pen, Role, Spot, Text, bounds, moved
from fitter.drawing.panel import heading
from fitter.drawing.plan import framed
from fitter.drawing.seats import draw_shape
from fitter.drawing.sheets import MARGIN, Scale, Sheet, scales, sheets
from fitter.drawing.texts import stacked
from fitter.drawing.view import View
from rooms.lengths import ZERO
from rooms.room import Point

_PAD = 4.0  # around each picture and the table, mm
_LEADING = 4.2
_GAP = 3.0  # between columns of the table, at least, mm
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
        heads: of the table.
        rows: of it; the last column may be broken into lines.
        right: columns that end, and do not begin, on one line.
        paragraphs: below the table.
        says: for the title block, a paragraph each.
    """

    cells: tuple[Cell, ...]
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    right: frozenset[int]
    paragraphs: tuple[str, ...]
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
    told = _Told(shown, area[2] - area[0] - 2 * _PAD)
    if not told.fits:
        return None
    for scale in scales(project.unit.imperial):
        room = (area[0], area[1] + told.height, area[2], area[3])
        if (items := _grid(project, shown.cells, scale, room)) is not None:
            table = told.items((area[0] + _PAD, area[1] + told.height - _PAD))
            return _page(project, shown, paper, scale, (*items, *table))
    return None


def _apart(project: Project, shown: Sheetful, paper: Sheet) -> tuple[Page, ...]:
    """Pictures at the largest scale that takes two pages at most, then the table on as many as it takes."""
    area = _area(paper)
    half = ceil(len(shown.cells) / 2)
    pages: list[Page] = []
    for scale in scales(project.unit.imperial):
        parts = [shown.cells] if _grid(project, shown.cells, scale, area) else [shown.cells[:half], shown.cells[half:]]
        grids = [_grid(project, cells, scale, area) for cells in parts if cells]
        if all(items is not None for items in grids):
            pages = [_page(project, shown, paper, scale, items) for items in grids if items is not None]
            break
    rest, width = shown.rows, area[2] - area[0] - 2 * _PAD
    while pages:
        fitting = (n for n in range(len(rest), 0, -1) if _Told(_part(shown, rest, n), width).height <= _high(area))
        many = next(fitting, 0)
        told = _Told(_part(shown, rest, many), width)
        if not told.fits or (rest and not many):
            break
        items = tuple(told.items((area[0] + _PAD, area[3] - _PAD)))
        pages.append(_page(project, shown, paper, scale, items))
        rest = rest[many:]
        if not rest:
            return tuple(pages)
    message = "the variants are too large for the sheet at every usual scale; name a larger sheet"
    raise ValueError(message)


def _part(shown: Sheetful, rest: Sequence[tuple[str, ...]], many: int) -> Sheetful:
    """Some rows of the table; paragraphs follow the last one."""
    return replace(shown, rows=tuple(rest[:many]), paragraphs=shown.paragraphs if many == len(rest) else ())


def _area(paper: Sheet) -> Rectangle:
    """What the title block leaves of a sheet."""
    return MARGIN, MARGIN, paper.width - MARGIN - WIDTH, paper.height - MARGIN


def _high(area: Rectangle) -> float:
    return area[3] - area[1]


def _page(project: Project, shown: Sheetful, paper: Sheet, scale: Scale, items: Sequence[Item]) -> Page:
    title = title_block(heading(project), scale, paper.name, shown.says)
    x1, y0, y1 = paper.width - MARGIN - WIDTH, MARGIN, paper.height - MARGIN
    border = Line(((x1, y0), (x1, y1)), Pen.MEDIUM, Role.PANEL)
    panel = (*moved_to(title, (x1, y0 + title[1])), border)
    return framed(project.title, paper, scale, items, Panel(panel, _area(paper)), (0.0, 0.0))


def _picture(cell: Cell, view: View) -> tuple[Item, ...]:
    """The furniture from above with its posts, its main run along the paper, whatever way it stood."""
    layout, draft = replace(cell.layout, pose=_LEVEL), Draft()
    draw_shape(draft, layout, view)
    for post in layout.posts:
        draft.add(Area(view.ring(layout.pose, post.box), 0.0, Role.POST, Pen.FINE))
    return tuple(draft.items)


def _grid(project: Project, cells: Sequence[Cell], scale: Scale, area: Rectangle) -> tuple[Item, ...] | None:
    """Equal columns, each row as high as it needs, with as few columns as fit; None if nothing does."""
    view = View(scale.denominator, project.unit)
    pictures = [_picture(cell, view) for cell in cells]
    sizes = [bounds(picture) for picture in pictures]
    for columns in range(1, len(cells) + 1):
        wide = (area[2] - area[0]) / columns
        if any(x1 - x0 > wide - 2 * _PAD for x0, _, x1, _ in sizes):
            return None
        captions = [_caption(cell, wide - 2 * _PAD) for cell in cells]
        rows = [range(first, min(first + columns, len(cells))) for first in range(0, len(cells), columns)]
        heights = [
            max(sizes[n][3] - sizes[n][1] for n in row) + max(_depth(captions[n]) for n in row) + 2 * _PAD
            for row in rows
        ]
        if sum(heights) <= area[3] - area[1]:
            return tuple(_filled(pictures, captions, rows, heights, (area[0], area[3], wide)))
    return None


_Caption = tuple[tuple[str, ...], tuple[str, ...]]


def _caption(cell: Cell, width: float) -> _Caption:
    return wrap(cell.head, MEDIUM, width), tuple(part for line in cell.lines for part in wrap(line, SMALL, width))


def _depth(caption: _Caption) -> float:
    return _PAD + 1.7 * MEDIUM * len(caption[0]) + _LEADING * len(caption[1])


def _filled(
    pictures: Sequence[tuple[Item, ...]],
    captions: Sequence[_Caption],
    rows: Sequence[range],
    heights: Sequence[float],
    corner: tuple[float, float, float],
) -> Iterator[Item]:
    """Each picture above its caption, cells parted by fine lines; the corner is left, top and a cell's width."""
    left, top, wide = corner
    for row, high in zip(rows, heights, strict=True):
        depth = max(_depth(captions[n]) for n in row)
        for column, n in enumerate(row):
            x = left + column * wide
            x0, y0, x1, _ = bounds(pictures[n])
            shift: Spot = (x + (wide - x0 - x1) / 2, top - high + depth + _PAD - y0)
            yield from (moved(item, shift) for item in pictures[n])
            heads, lines = captions[n]
            at = (x + _PAD, top - high + depth - MEDIUM)
            yield from stacked(heads, at, height=MEDIUM)
            yield from stacked(lines, (at[0], at[1] - 1.7 * MEDIUM * len(heads)))
            yield Line(((x + wide, top - high), (x + wide, top)), Pen.FINE, Role.PANEL)
        yield Line(((left, top - high), (left + wide * len(row), top - high)), Pen.FINE, Role.PANEL)
        top -= high


class _Told:
    """The table and the paragraphs below it, broken at a width."""

    def __init__(self, shown: Sheetful, width: float) -> None:
        self.shown, self.width = shown, width
        every = [shown.heads, *shown.rows]
        columns = range(len(shown.heads))
        wide = [max(text_width(row[n], SMALL) for row in every) for n in columns]
        self.starts = [sum(wide[:n]) + _GAP * n for n in columns]
        self.ends = [start + size for start, size in zip(self.starts, wide, strict=True)]
        last = width - self.starts[-1]
        self.fits = last >= min(wide[-1], 30.0)
        self.last = [wrap(row[-1], SMALL, last) or ("",) if self.fits else (row[-1],) for row in shown.rows]
        self.below = [line for each in shown.paragraphs for line in (*wrap(each, SMALL, width), "")]

    @property
    def height(self) -> float:
        """Of all, mm, with room around it."""
        return 2 * _PAD + _LEADING * (1.5 + sum(map(len, self.last)) + 0.5 + len(self.below))

    def items(self, corner: Spot) -> Iterator[Item]:
        """Table and paragraphs, their upper left corner at a place."""
        x, y = corner
        y -= SMALL
        yield from self._row(self.shown.heads[:-1], (x, y))
        yield Text((x + self.starts[-1], y), self.shown.heads[-1], SMALL, role=Role.PANEL)
        y -= 0.5 * _LEADING
        yield Line(((x, y), (x + self.width, y)), Pen.FINE, Role.PANEL)
        y -= _LEADING
        for row, lines in zip(self.shown.rows, self.last, strict=True):
            yield from self._row(row[:-1], (x, y))
            for n, line in enumerate(lines):
                yield Text((x + self.starts[-1], y - n * _LEADING), line, SMALL, role=Role.PANEL)
            y -= _LEADING * len(lines)
        y -= 0.5 * _LEADING
        for line in self.below:
            if line:
                yield Text((x, y), line, SMALL, role=Role.PANEL)
            y -= _LEADING

    def _row(self, cells: Sequence[str], at: Spot) -> Iterator[Text]:
        for n, text in enumerate(cells):
            anchored = n in self.shown.right
            x = self.ends[n] if anchored else self.starts[n]
            if text:
                yield Text((at[0] + x, at[1]), text, SMALL, anchor=float(anchored), role=Role.PANEL)
