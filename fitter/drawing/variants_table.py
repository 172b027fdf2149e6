"""A table on a page: narrow columns, heads of several words in several lines, paragraphs below."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fitter.drawing.metrics import text_width, wrap
from fitter.drawing.page import SMALL, Item, Line, Pen, Role, Spot, Text

PAD = 4.0  # around the table, mm
_LEADING = 4.2
_GAP = 3.0  # between columns, at least, mm
_LAST = 30.0  # a last column that is broken into lines is at least so wide, mm


@dataclass(frozen=True)
class Table:
    """What a table says.

    Args:
        heads: of its columns.
        rows: the last column may be broken into lines.
        right: columns that end, and do not begin, on one line.
        spare: columns that are left out where there is no room for all.
        paragraphs: below it.
    """

    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    right: frozenset[int]
    spare: frozenset[int] = frozenset()
    paragraphs: tuple[str, ...] = ()


class TableBlock:
    """The table and the paragraphs below it, broken at a width.

    Where not all columns fit beside each other, the spare ones are left out, and the last one follows below its row.
    """

    def __init__(self, shown: Table, width: float) -> None:
        self.shown, self.width = shown, width
        self.beside = self._set(range(len(shown.heads) - 1)) + _LAST <= width
        if not self.beside:
            self._set([n for n in range(len(shown.heads) - 1) if n not in shown.spare])
        left = self.starts[1] if not self.beside else self.ends[-1] + _GAP
        self.left = left
        self.last = [wrap(row[-1], SMALL, width - left) for row in shown.rows]
        self.below = [line for each in shown.paragraphs for line in (*wrap(each, SMALL, width), "")]

    def _set(self, columns: Sequence[int]) -> float:
        """Give some columns their places; heads of several words stand in several lines. Returns their width."""
        self.columns = list(columns)
        self.heads = [tuple(self.shown.heads[n].split()) for n in self.columns]
        cells = [
            [*head, *(row[n] for row in self.shown.rows)] for n, head in zip(self.columns, self.heads, strict=True)
        ]
        wide = [max(text_width(cell, SMALL) for cell in column) for column in cells]
        self.starts = [sum(wide[:n]) + _GAP * n for n in range(len(wide))]
        self.ends = [start + size for start, size in zip(self.starts, wide, strict=True)]
        return self.ends[-1] + _GAP

    @property
    def fits(self) -> bool:
        """Whether it is no wider than it may be."""
        return self.ends[-1] <= self.width

    @property
    def height(self) -> float:
        """Of all, mm, with room around it."""
        lines = sum(map(self._lines, self.last))
        return 2 * PAD + _LEADING * (self._tall + 0.5 + lines + 0.5 + len(self.below))

    def _lines(self, last: Sequence[str]) -> int:
        """Lines that a row takes."""
        return max(1, len(last)) if self.beside else 1 + len(last)

    @property
    def _tall(self) -> int:
        """Lines of the heads."""
        return max(map(len, self.heads))

    def items(self, corner: Spot) -> Iterator[Item]:
        """Table and paragraphs, their upper left corner at a place."""
        x, y = corner
        y -= SMALL
        for line in range(self._tall):
            # The last words of all heads stand on one line.
            at = [line - self._tall + len(head) for head in self.heads]
            yield from self._row([head[n] if n >= 0 else "" for head, n in zip(self.heads, at, strict=True)], (x, y))
            y -= _LEADING
        if self.beside:
            yield Text((x + self.left, y + _LEADING), self.shown.heads[-1], SMALL, role=Role.PANEL)
        y += 0.5 * _LEADING
        yield Line(((x, y), (x + self.width, y)), Pen.FINE, Role.PANEL)
        y -= _LEADING
        for row, last in zip(self.shown.rows, self.last, strict=True):
            yield from self._row([row[n] for n in self.columns], (x, y))
            first = y if self.beside else y - _LEADING
            for n, text in enumerate(last):
                yield Text((x + self.left, first - n * _LEADING), text, SMALL, role=Role.PANEL)
            y -= _LEADING * self._lines(last)
        y -= 0.5 * _LEADING
        for text in self.below:
            if text:
                yield Text((x, y), text, SMALL, role=Role.PANEL)
            y -= _LEADING

    def _row(self, cells: Sequence[str], at: Spot) -> Iterator[Text]:
        for place, (n, text) in enumerate(zip(self.columns, cells, strict=True)):
            anchored = n in self.shown.right
            x = self.ends[place] if anchored else self.starts[place]
            if text:
                yield Text((at[0] + x, at[1]), text, SMALL, anchor=float(anchored), role=Role.PANEL)
