"""One board as a strip under a running rule: its parts, its saw cuts numbered in their order, what is left."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from fitter.domain.cuts import Cut, CutOptions, kerf_along
from fitter.domain.saw_list import Frees, Sawing, Stretch, Stroke
from fitter.drawing.boards_signs import CLOSE, OPEN, filled
from fitter.drawing.leaders import dot_at
from fitter.drawing.metrics import ASCENT, CAPITAL, DESCENT, text_width
from fitter.drawing.page import SMALL, Area, Dash, Item, Line, Pen, Role, Spot, Text, bounds
from fitter.drawing.view import View
from rooms.lengths import ZERO, Length

HIGH = 12.5
"""Height of a strip, mm; boards are drawn to scale along their length only."""
_RULE = 1.2  # from the board to its rule, mm
_LEADER = 3.2  # from the board to the numbers of its cuts, mm
_AIR = 0.7  # around a text, mm
_LINE = SMALL / CAPITAL * (ASCENT + DESCENT)  # what a line of text takes across, mm


@dataclass(frozen=True)
class Strip:
    """A board, drawn with the lower left corner of its first end at (0, 0).

    Args:
        sawn: the board and the order of its cuts.
        name: what stands over it.
        options: kerf, and the least offcut that is kept.
        view: scale and unit.
        room: how far to the right numbers may stand, mm.
    """

    sawn: Sawing
    name: str
    options: CutOptions
    view: View
    room: float

    def items(self) -> tuple[Item, ...]:
        """All of it.

        Raises:
            ValueError: the cuts lie so close that their numbers find no room.
        """
        return (*self._wood(), *self._rules(), *self._cuts(), *self._names())

    def _wood(self) -> Iterator[Item]:
        board = self.sawn.board
        # What is not drawn over stays black: the saw cuts, true to scale.
        yield Area(_rectangle(0.0, self.view.of(board.length)), 0.0, Role.CUT, Pen.FINE)
        for ring in self._wasted():
            yield from filled(ring, Role.BARE, CLOSE, crossed=True)
        for cut in board.cuts:
            yield Area(self.ring(cut), 1.0, Role.PART, Pen.FINE)
        if self._kept:
            ring = _rectangle(self.view.of(board.length - board.offcut), self.view.of(board.length))
            yield from filled(ring, Role.UNSEEN, OPEN, crossed=False)

    @property
    def _kept(self) -> bool:
        """Whether the offcut is worth keeping."""
        return self.sawn.board.offcut >= self.options.least_offcut

    def ring(self, cut: Cut) -> tuple[Spot, ...]:
        """A part's corners, the near edge below."""
        first, last = cut.ends
        near = (ZERO if first.low else first.recess), (ZERO if last.low else last.recess)
        far = (first.recess if first.low else ZERO), (last.recess if last.low else ZERO)
        x = self.view.of
        return (
            (x(cut.start + near[0]), 0.0),
            (x(cut.end - near[1]), 0.0),
            (x(cut.end - far[1]), HIGH),
            (x(cut.start + far[0]), HIGH),
        )

    def _wasted(self) -> Iterator[tuple[Spot, ...]]:
        """What falls off before the first part and between parts that share no cut; saw cuts are left black."""
        cuts = self.sawn.board.cuts
        first = self.ring(cuts[0])
        blade = self._blade(cuts[0].leans[0])
        yield from _wide(((0.0, 0.0), (first[0][0] - blade, 0.0), (first[3][0] - blade, HIGH), (0.0, HIGH)))
        for before, after in pairwise(cuts):
            if before.leans[1] != after.leans[0]:
                left, right = self.ring(before), self.ring(after)
                one, other = self._blade(before.leans[1]), self._blade(after.leans[0])
                low, high = (left[1][0] + one, right[0][0] - other), (left[2][0] + one, right[3][0] - other)
                yield from _wide(
                    ((low[0], 0.0), (max(low), 0.0), (max(high), HIGH), (high[0], HIGH)),
                )
        last = self.ring(cuts[-1])
        board = self.sawn.board
        end = self.view.of(board.length - board.offcut if self._kept else board.length)
        blade = self._blade(cuts[-1].leans[1])
        yield from _wide(((last[1][0] + blade, 0.0), (end, 0.0), (end, HIGH), (last[2][0] + blade, HIGH)))

    def _blade(self, lean: int) -> float:
        return self.view.of(Length(kerf_along(self.options.kerf)) if lean else self.options.kerf)

    def _rules(self) -> Iterator[Item]:
        """A rule over each stretch, which begins where running measures begin."""
        for stretch in self.sawn.stretches:
            yield from self._rule(stretch)
        yield Text((0.0, HIGH + _RULE + 6.3), self.name, SMALL)

    def _rule(self, stretch: Stretch) -> Iterator[Item]:
        imperial = self.view.unit.imperial
        one, each = (Length.inches(3), 4) if imperial else (Length.millimetres(100), 5)
        low, start = HIGH + _RULE, self.view.of(stretch.start)
        end = start + self.view.of(stretch.length)
        yield Line(((start, low), (end, low)), Pen.FINE, Role.LEVEL)
        for number in range(stretch.length // one + 1):
            x, long = start + self.view.of(one * number), number % each == 0
            yield Line(((x, low), (x, low + (2.0 if long else 1.1))), Pen.FINE, Role.LEVEL)
            if long and number:
                told = self.view.written(one * number).removesuffix(' 0"')
                if x + text_width(told, SMALL) / 2 < end:
                    yield Text((x, low + 2.5), told, SMALL, anchor=0.5)

    def _cuts(self) -> Iterator[Item]:
        """Each saw cut with a leader from the point that its running measure is for, and both below."""
        starts = {stroke: stretch.start for stretch in self.sawn.stretches for stroke in stretch.strokes}
        strokes = sorted(self.sawn.strokes, key=lambda stroke: (stroke.line, stroke.number))
        widths = [max(_LINE, text_width(str(stroke.number), SMALL)) + _AIR for stroke in strokes]
        places = spread([self.view.of(stroke.line) for stroke in strokes], widths, (-_LINE, self.room))
        narrow = dict(self._unnamed())
        for stroke, x in zip(strokes, places, strict=True):
            yield from self._leader(stroke, x)
            below = -_LEADER - SMALL - _AIR
            yield Text((x, below), str(stroke.number), SMALL, anchor=0.5, role=Role.MARK)
            told = self.view.written(stroke.line - starts.get(stroke, ZERO), feet=False)
            edge = f", {_edge(stroke)}" if stroke.lean else ""
            mark = f"  {narrow[stroke]}" if stroke in narrow else ""
            middle = SMALL / CAPITAL * (ASCENT - DESCENT) / 2
            yield Text((x + middle, below - 1.2), told + edge + mark, SMALL, angle=90.0, anchor=1.0)

    def _leader(self, stroke: Stroke, below: float) -> Iterator[Item]:
        """From a number below to the line of its cut, up to a dot on the edge where a slanted one is measured."""
        line = self.view.of(stroke.line)
        pen = Pen.HEAVY if stroke.frees is Frees.STRETCH else Pen.FINE
        if pen is Pen.HEAVY:
            yield Line(((self._foot(stroke), 0.0), (self._head(stroke), HIGH)), pen, Role.SPLIT)
        if _far(stroke):
            # Broken, since a whole line across the board would be a square saw cut.
            yield Line(((line, HIGH), (line, 0.0)), Pen.FINE, Role.LEADER, Dash.SHORT)
        yield Line(((line, 0.0), (line, -0.8), (below, -_LEADER + 0.4), (below, -_LEADER)), pen, Role.LEADER)
        if stroke.lean:
            yield dot_at((line, HIGH if _far(stroke) else 0.0))

    def _foot(self, stroke: Stroke) -> float:
        """Where a saw cut meets the near edge, mm."""
        return self.view.of(stroke.line) + (self._back(stroke) if _far(stroke) else 0.0)

    def _head(self, stroke: Stroke) -> float:
        """Where it meets the far edge, mm."""
        return self.view.of(stroke.line) + (0.0 if _far(stroke) else self._back(stroke))

    def _back(self, stroke: Stroke) -> float:
        """By how much the other edge is off the line: before it where the part lies before, mm."""
        if not stroke.lean:
            return 0.0
        recess = max(end.recess for cut in self.sawn.board.cuts for end in cut.ends)
        return self.view.of(recess) * (-1 if stroke.frees in (Frees.PART, Frees.STRETCH) else 1)

    def _names(self) -> Iterator[Item]:
        for cut in self.sawn.board.cuts:
            yield from self._name(cut)
        board = self.sawn.board
        if self._kept:
            room = self.view.of(board.length - board.offcut), self.view.of(board.length)
            yield from _lines(("offcut", self.view.written(board.offcut, feet=False)), room, masked=True)

    def _name(self, cut: Cut) -> Iterator[Text]:
        """Mark and length within a part."""
        return _lines((cut.mark, self.view.written(cut.length, feet=False)), self._inside(cut))

    def _inside(self, cut: Cut) -> tuple[float, float]:
        """From where to where a part is whole across its width, mm."""
        near0, near1, far1, far0 = (x for x, _ in self.ring(cut))
        return max(near0, far0), min(near1, far1)

    def _unnamed(self) -> Iterator[tuple[Stroke, str]]:
        """Cuts that finish a part which is too narrow for its mark."""
        parts = {cut.end: cut for cut in self.sawn.board.cuts}
        for stroke in self.sawn.strokes:
            cut = parts.get(stroke.line)
            if stroke.frees is Frees.PART and cut is not None and not any(self._name(cut)):
                yield stroke, cut.mark


def _far(stroke: Stroke) -> bool:
    """Whether the line of a slanted cut, a long point, lies on the far edge."""
    finishes = stroke.frees in (Frees.PART, Frees.STRETCH)
    return stroke.lean != 0 and (stroke.lean < 0) != finishes


def _edge(stroke: Stroke) -> str:
    return "far" if _far(stroke) else "near"


def _lines(told: tuple[str, str], room: tuple[float, float], *, masked: bool = False) -> Iterator[Text]:
    """Two lines in a strip; upright where it is narrow, only the first where it is very narrow, else none."""
    middle, wide = sum(room) / 2, room[1] - room[0] - 2 * _AIR
    if max(text_width(line, SMALL) for line in told) <= wide:
        for number, line in enumerate(told):
            yield Text((middle, HIGH / 2 + 1.0 - number * 4.4), line, SMALL, anchor=0.5, masked=masked)
        return
    upright = [line for line in told if text_width(line, SMALL) <= HIGH - _AIR][: int((wide + _AIR) // _LINE)]
    if upright[:1] != [told[0]]:
        return
    shift = SMALL / CAPITAL * (ASCENT - DESCENT) / 2
    for number, line in enumerate(upright):
        x = middle + shift + (number - (len(upright) - 1) / 2) * _LINE
        yield Text((x, HIGH / 2), line, SMALL, angle=90.0, anchor=0.5, masked=masked)


def spread(places: Sequence[float], widths: Sequence[float], limits: tuple[float, float]) -> list[float]:
    """Middles of things in a row, each as near to its place as their widths let it be (pool adjacent violators).

    Args:
        places: rising.
        widths: of each thing, with the air around it.
        limits: of the row.

    Raises:
        ValueError: the row is too short for all.

    >>> spread([10.0, 11.0], [4.0, 4.0], (0.0, 40.0))
    [8.5, 12.5]
    """
    before = [0.0]
    for one, other in pairwise(widths):
        before.append(before[-1] + (one + other) / 2)
    if not places:
        return []
    low = limits[0] + widths[0] / 2
    high = limits[1] - widths[-1] / 2 - before[-1]
    if high < low:
        message = "the cuts of a board lie too close for the sheet; name a larger sheet"
        raise ValueError(message)
    pools: list[tuple[float, int]] = []
    for place, shift in zip(places, before, strict=True):
        mean, count = place - shift, 1
        while pools and pools[-1][0] > mean:
            other, more = pools.pop()
            mean, count = (mean * count + other * more) / (count + more), count + more
        pools.append((mean, count))
    flat = [min(max(mean, low), high) for mean, count in pools for _ in range(count)]
    return [mean + shift for mean, shift in zip(flat, before, strict=True)]


def _rectangle(x0: float, x1: float) -> tuple[Spot, ...]:
    return (x0, 0.0), (x1, 0.0), (x1, HIGH), (x0, HIGH)


def _wide(ring: tuple[Spot, ...]) -> Iterator[tuple[Spot, ...]]:
    """A ring if it is wide enough to be seen."""
    if max(ring[1][0] - ring[0][0], ring[2][0] - ring[3][0]) > 0.3:
        low, high = max(ring[0][0], ring[1][0]), max(ring[3][0], ring[2][0])
        yield ring[0], (low, 0.0), (high, HIGH), ring[3]


def extent(items: Sequence[Item]) -> tuple[float, float]:
    """The lowest and the highest place of some items, mm."""
    _, low, _, high = bounds(items)
    return low, high
