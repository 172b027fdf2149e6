"""A sweep as a page of steps: the varied number to the right, what is shown of the answers upward, one band each."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import Enum

from fitter.drawing.arranging import moved_to
from fitter.drawing.block import WIDTH, Block
from fitter.drawing.metrics import text_width
from fitter.drawing.page import LARGE, MEDIUM, SMALL, Area, Dash, Item, Line, Page, Pen, Role, Text
from fitter.drawing.sheets import MARGIN, Sheet, sheets

_LEVELS = 24.0  # room for what stands beside the bands, mm
_VALUES = 32.0  # and below them
_HEAD = 8.0  # and above each
_HIGHEST = 48.0
_WORDS = 11.0
_APART = 1.7 * SMALL  # between two lines of text, mm
_AIR = 3.0  # between a band's border and its highest step
_MOST_KEYS = 18


class State(Enum):
    """How an answer stands."""

    PROVEN = "proven"
    FOUND = "found, not proven"
    NONE = "no layout fits"
    UNKNOWN = "unknown"
    WRONG = "the file is wrong"


@dataclass(frozen=True)
class Piece:
    """Values with the same answer.

    Args:
        first: the number of the first of them, counted from 0.
        last: that of the last.
        label: how the first is written.
        state: of the answer.
    """

    first: int
    last: int
    label: str
    state: State


@dataclass(frozen=True)
class Level:
    """A value that is shown, as it is at the first and at the last of the values of a piece."""

    start: float
    end: float
    start_text: str
    end_text: str


@dataclass(frozen=True)
class Band:
    """One thing that is shown.

    Args:
        title: what it is.
        levels: by piece; None where there is nothing. Empty where words are shown.
        words: by piece; None likewise.
    """

    title: str
    levels: tuple[Level | None, ...] = ()
    words: tuple[str | None, ...] = ()


@dataclass(frozen=True)
class Chart:
    """What the page shows.

    Args:
        title: of the project.
        file: that it was read from.
        says: paragraphs for the block beside.
        axis: what varies.
        pieces: in order, from value 0 on, without a gap.
        end: how the last value is written.
        bands: from above.
    """

    title: str
    file: str
    says: tuple[str, ...]
    axis: str
    pieces: tuple[Piece, ...]
    end: str
    bands: tuple[Band, ...]


def sweep_page(chart: Chart, *, imperial: bool, sheet: str | None = None) -> Page:
    """Draw a sweep.

    Args:
        chart: what to show.
        imperial: whether papers of the United States are usual.
        sheet: name of a paper that must be used; None for the smallest usual one that holds all bands.

    Raises:
        ValueError: there is no such sheet, or it is too small for so many bands.
    """
    papers = [paper for paper in sheets(imperial, sheet) if paper.landscape]
    for paper in papers:
        plot = _Plot(chart, paper)
        if plot.each >= _WORDS + 4.0:
            items = (*_border(paper), *plot.items(), *plot.block())
            return Page(chart.title, paper.name, paper.width, paper.height, 1, "no scale", (0.0, 0.0), items)
    message = f"{len(chart.bands)} bands do not fit on the sheet; show less, or name a larger sheet"
    raise ValueError(message)


def _border(paper: Sheet) -> Iterator[Item]:
    right, high = paper.width - MARGIN, paper.height - MARGIN
    yield Area(((MARGIN, MARGIN), (right, MARGIN), (right, high), (MARGIN, high)), None, Role.FRAME, Pen.HEAVY)


class _Plot:
    """The bands of a chart on a paper."""

    def __init__(self, chart: Chart, paper: Sheet) -> None:
        self.chart, self.paper = chart, paper
        self.left, self.right = MARGIN + _LEVELS, paper.width - MARGIN - WIDTH - 8.0
        self.low, self.high = MARGIN + _VALUES, paper.height - MARGIN - 2.0
        self.count = chart.pieces[-1].last + 1
        worded = sum(bool(band.words) for band in chart.bands)
        room = self.high - self.low - _HEAD * len(chart.bands) - _WORDS * worded
        plain = len(chart.bands) - worded
        self.each = min(_HIGHEST, room / plain) if plain else (_WORDS + 4.0 if room >= 0 else 0.0)
        self.keys: dict[str, str] = {}
        self.left_out = 0

    def x(self, number: float) -> float:
        """Where a value lies, by its number; each takes as much room as any other."""
        return self.left + (number + 0.5) / self.count * (self.right - self.left)

    def items(self) -> tuple[Item, ...]:
        """Bands from above, then the values below."""
        found: list[Item] = []
        top = self.high
        for number, band in enumerate(self.chart.bands):
            high = top - _HEAD
            low = high - (_WORDS if band.words else self.each)
            found.append(Text((self.left, high + 2.0), band.title, MEDIUM, role=Role.LABEL))
            found += self._grounds(low, high, named=number == 0)
            found += self._words(band, low, high) if band.words else self._steps(band, low, high)
            ring = ((self.left, low), (self.right, low), (self.right, high), (self.left, high))
            found.append(Area(ring, None, Role.PANEL, Pen.FINE))
            top = low
        found += self._values(top)
        return tuple(found)

    def _grounds(self, low: float, high: float, *, named: bool) -> Iterator[Item]:
        """Grey where there is no answer, with the reason in the first band."""
        for piece in self.chart.pieces:
            if piece.state in (State.PROVEN, State.FOUND):
                continue
            x0, x1 = self.x(piece.first - 0.5), self.x(piece.last + 0.5)
            yield Area(((x0, low), (x1, low), (x1, high), (x0, high)), 0.85, Role.HATCH)
            width = text_width(piece.state.value, SMALL)
            middle, centre = (x0 + x1) / 2, (low + high) / 2
            if named and width + 2.0 <= x1 - x0:
                yield Text((middle, centre - SMALL / 2), piece.state.value, SMALL, 0.0, 0.5, Role.LABEL)
            elif named and width + 2.0 <= high - low and x1 - x0 >= _APART:
                yield Text((middle + SMALL / 2, centre), piece.state.value, SMALL, 90.0, 0.5, Role.LABEL)

    def _steps(self, band: Band, low: float, high: float) -> Iterator[Item]:
        """A step for each piece, and how high it is written at the left."""
        known = [level for level in band.levels if level is not None]
        heights = [height for level in known for height in (level.start, level.end)]
        if not heights:
            return
        least, most = min(heights), max(heights)

        def y(value: float) -> float:
            share = (value - least) / (most - least) if most > least else 0.5
            return low + _AIR + share * (high - low - 2 * _AIR)

        yield from self._level_texts(known, y)
        for n, (piece, level) in enumerate(zip(self.chart.pieces, band.levels, strict=True)):
            if level is None:
                continue
            x0, x1 = self.x(piece.first - 0.5), self.x(piece.last + 0.5)
            dash = Dash.SOLID if piece.state is State.PROVEN else Dash.HIDDEN
            yield Line(((x0, y(level.start)), (x1, y(level.end))), Pen.HEAVY, Role.LEVEL, dash)
            after = band.levels[n + 1] if n + 1 < len(band.levels) else None
            if after is not None and after.start != level.end:
                yield Line(((x1, y(level.end)), (x1, y(after.start))), Pen.FINE, Role.LEVEL, Dash.DOTTED)

    def _level_texts(self, known: Sequence[Level], y: object) -> Iterator[Item]:
        at = y if callable(y) else float
        written = dict(
            sorted((height, text) for level in known for height, text in (
                (level.start, level.start_text), (level.end, level.end_text)))
        )  # fmt: skip
        ends = [min(written), max(written)]
        taken: list[float] = []
        for height in [*ends, *(height for height in written if height not in ends)]:
            place = at(height)
            if all(abs(place - other) >= _APART for other in taken):
                taken.append(place)
                yield Line(((self.left, place), (self.right, place)), Pen.FINE, Role.PANEL, Dash.DOTTED)
                yield Text((self.left - 1.5, place - SMALL / 2), written[height], SMALL, 0.0, 1.0, Role.LABEL)

    def _words(self, band: Band, low: float, high: float) -> Iterator[Item]:
        """A box for each piece with its words, or with a letter for them where it is narrow."""
        runs: list[tuple[int, int, str | None]] = []
        for piece, word in zip(self.chart.pieces, band.words, strict=True):
            if runs and runs[-1][2] == word:
                runs[-1] = (runs[-1][0], piece.last, word)
            else:
                runs.append((piece.first, piece.last, word))
        for first, last, word in runs:
            x0, x1 = self.x(first - 0.5), self.x(last + 0.5)
            if word is None:
                continue
            yield Area(((x0, low), (x1, low), (x1, high), (x0, high)), None, Role.LEVEL, Pen.MEDIUM)
            middle = ((x0 + x1) / 2, (low + high - SMALL) / 2)
            if text_width(word, SMALL) + 2.0 <= x1 - x0:
                yield Text(middle, word, SMALL, 0.0, 0.5, Role.LABEL)
            else:
                letter = self.keys.setdefault(word, _letter(len(self.keys)))
                if text_width(letter, SMALL) + 1.0 <= x1 - x0:
                    yield Text(middle, letter, SMALL, 0.0, 0.5, Role.LABEL)

    def _values(self, top: float) -> Iterator[Item]:
        """Where pieces begin, as far as there is room to write it, and what varies."""
        marks = [(piece.first, piece.label) for piece in self.chart.pieces]
        last = (self.chart.pieces[-1].last, self.chart.end)
        # Both ends of the range are always written.
        taken: list[float] = []
        for number, label in dict.fromkeys([marks[0], last, *marks[1:]]):
            x = self.x(number)
            if any(abs(x - other) < _APART for other in taken):
                self.left_out += 1
                continue
            taken.append(x)
            yield Line(((x, top), (x, top - 2.0)), Pen.MEDIUM, Role.PANEL)
            yield Text((x + SMALL / 2, top - 3.0), label, SMALL, 90.0, 1.0, Role.LABEL)
        middle = (self.left + self.right) / 2
        longest = max(text_width(label, SMALL) for _, label in (*marks, last))
        low = max(MARGIN + 3.0, top - 3.0 - longest - _APART)
        yield Text((middle, low), self.chart.axis, SMALL, 0.0, 0.5, Role.LABEL)

    def block(self) -> Iterator[Item]:
        """What the page is, at its right; letters that stand for words are told there."""
        block = Block()
        block.write(self.chart.title, LARGE if text_width(self.chart.title, LARGE) <= WIDTH - 4.0 else MEDIUM)
        block.write(self.chart.file)
        block.rule()
        block.write(f"Sheet {self.paper.name}")
        block.rule()
        for line in self.chart.says:
            block.write(line)
        if any(piece.state is State.FOUND for piece in self.chart.pieces):
            block.write("Broken lines: found, not proven best")
        if self.left_out:
            block.write(f"{self.left_out} more steps begin where there is no room to write it: see the table.")
        if self.keys:
            block.rule()
            for word, letter in list(self.keys.items())[:_MOST_KEYS]:
                block.write(f"{letter}: {word}")
        built = block.closed()
        yield from moved_to(built, (self.paper.width - MARGIN - WIDTH, self.paper.height - MARGIN))


def _letter(number: int) -> str:
    """A, B and so on; after Z come AA, AB and so on."""
    letters = ""
    number += 1
    while number:
        number, part = divmod(number - 1, 26)
        letters = chr(ord("A") + part) + letters
    return letters
