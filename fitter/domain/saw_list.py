"""The order in which the saw goes through a board, and where it is set."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from itertools import pairwise
from typing import TypeAlias

from fitter.domain.cuts import BoardPlan, Cut, CutOptions, PlannedBoard, kerf_along
from fitter.domain.woodwork import EndCut
from rooms.lengths import ZERO, Length, Unit

SMALL = Length.inches(12)
"""Common practice: what is shorter is not held by hand beside a running blade."""
SMALL_METRIC = Length.millimetres(300)


def small(unit: Unit) -> Length:
    """Length below which a piece is not held by hand beside a running blade: a foot, or 300 mm; common practice."""
    return SMALL if unit.imperial else SMALL_METRIC


class Frees(StrEnum):
    """What falls off at a saw cut."""

    TRIM = "trim"
    PART = "part"
    WASTE = "waste"
    STRETCH = "stretch"


@dataclass(frozen=True)
class Stroke:
    r"""One saw cut. All places are measured along the board from its first end, to long points.

    Args:
        number: in the order of sawing on its board, from 1.
        frees: what falls off.
        mark: of the part that it finishes; empty where it finishes none.
        lean: how it runs across the board: 0 square, 1 to the right on its far side (`/`), -1 to the left (`\`).
        start: where what it frees begins.
        line: where the saw is set. Its blade runs beyond the line, of trim and waste before it.
        held: the longer of both pieces that it parts, which is the one to hold.
    """

    number: int
    frees: Frees
    mark: str
    lean: int
    start: Length
    line: Length
    held: Length

    @property
    def step(self) -> Length:
        """From the freshly sawn end to the line."""
        return self.line - self.start


@dataclass(frozen=True)
class Stretch:
    """What is sawn in one go: a whole board, or a length that it was first cut to.

    Args:
        start: on the board.
        end: on the board.
        strokes: in the order of sawing.
        rest: mark of the part that is left behind the last of them; empty where that is an offcut, or nothing.
    """

    start: Length
    end: Length
    strokes: tuple[Stroke, ...]
    rest: str = ""

    @property
    def length(self) -> Length:
        """Of the stretch."""
        return self.end - self.start


@dataclass(frozen=True)
class Sawing:
    """How one board is sawn.

    Args:
        board: what and where.
        first: cuts that make a long board short enough to be handled, before all others.
        stretches: along the board.
    """

    board: PlannedBoard
    first: tuple[Stroke, ...]
    stretches: tuple[Stretch, ...]

    @property
    def strokes(self) -> tuple[Stroke, ...]:
        """All cuts in the order of sawing."""
        return (*self.first, *(stroke for stretch in self.stretches for stroke in stretch.strokes))


@dataclass(frozen=True)
class Stop:
    """One setting of a stop block.

    Args:
        section: of the boards.
        length: from the stop to the blade, long points if mitred.
        leans: of both ends, the one that points to the lower number first.
        count: pieces that are cut with it.
        marks: theirs.
        boards: numbers of the boards that they are cut from.
    """

    section: str
    length: Length
    leans: tuple[int, int]
    count: int
    marks: tuple[str, ...]
    boards: tuple[int, ...]


_Setting: TypeAlias = tuple[str, Length, tuple[int, int]]
"""A section, the length from the stop to the blade, and how both ends lean."""


def sawing(board: PlannedBoard, options: CutOptions, handled: Length | None = None) -> Sawing:
    """How a board is sawn, from its first end on.

    Args:
        board: with its cuts along it.
        options: the kerf counts.
        handled: longest piece that a person can handle; None for no limit. A longer board is cut between two parts
            first, as near to that length as can be, as often as it takes, and last where its offcut begins.
    """
    parts = board.cuts
    ends = [(0, ZERO)]  # number of the first part, and where the stretch begins
    if handled is not None and board.length > handled:
        for number, (before, after) in enumerate(pairwise(parts), 1):
            if after.end - ends[-1][1] > handled:
                ends.append((number, min(after.start, before.end + options.kerf)))
        if board.length - ends[-1][1] > handled and board.offcut:
            ends.append((len(parts), board.length - board.offcut))
    numbered = iter(range(1, 2 * len(parts) + 3))
    first = tuple(
        Stroke(
            next(numbered), Frees.STRETCH, "", parts[part - 1].leans[1], ends[n][1], parts[part - 1].end,
            max(parts[part - 1].end - ends[n][1], board.length - at),
        )
        for n, (part, at) in enumerate(ends[1:])
    )  # fmt: skip
    stretches = []
    for n, (part, at) in enumerate(ends):
        final = n + 1 == len(ends)
        until = len(parts) if final else ends[n + 1][0]
        end = board.length if final else parts[until - 1].end
        strokes = _strokes(parts, (part, until), (at, end), options, final=final)
        done = tuple(replace(stroke, number=next(numbered)) for stroke in strokes)
        whole = until > part and not _sawn_off(parts[until - 1], end, final=final)
        rest = parts[until - 1].mark if whole else ""
        stretches.append(Stretch(at, end, done, rest))
    return Sawing(board, first, tuple(stretches))


def _sawn_off(part: Cut, end: Length, *, final: bool) -> bool:
    """Whether the last part of a stretch still has to be sawn off; not where it ends with the stretch."""
    return final and (part.end < end or part.leans[1] != 0)


def _strokes(
    parts: Sequence[Cut], numbers: tuple[int, int], ends: tuple[Length, Length], options: CutOptions, *, final: bool
) -> Iterator[Stroke]:
    """The saw cuts of the parts of a stretch."""
    (part, until), (here, end) = numbers, ends
    face = parts[part - 1].leans[1] if part else 0
    for number in range(part, until):
        cut = parts[number]
        lean, off = cut.leans
        trimmed = number == 0 and bool(cut.start or lean)
        if trimmed or lean != face:
            frees = Frees.TRIM if number == 0 else Frees.WASTE
            yield Stroke(0, frees, "", lean, here, cut.start, max(cut.start - here, end - cut.start))
        if number + 1 < until or _sawn_off(cut, end, final=final):
            yield Stroke(0, Frees.PART, cut.mark, off, cut.start, cut.end, max(cut.length, end - cut.end))
        here, face = min(cut.end + options.kerf, end), off


def short_first(plan: BoardPlan, options: CutOptions, least: Length) -> BoardPlan:
    """The same boards, turned end for end where that keeps hands away from the blade.

    Parts that are too short to be held are sawn first, while the rest of the board is long; all boards of a section are
    sawn the same way round, so that a stop block is set but once.

    Args:
        plan: whose boards begin with long parts.
        options: the kerf counts.
        least: that can be held.
    """
    sections = dict.fromkeys(board.section for board in plan.boards for cut in board.cuts if cut.length < least)
    boards = tuple(turned(board, options) if board.section in sections else board for board in plan.boards)
    kept = sum(_kept(new, options) - _kept(old, options) for new, old in zip(boards, plan.boards, strict=True))
    return replace(plan, boards=boards, waste=plan.waste - Length(kept))


def _kept(board: PlannedBoard, options: CutOptions) -> int:
    return board.offcut.units if board.offcut >= options.least_offcut else 0


def turned(board: PlannedBoard, options: CutOptions) -> PlannedBoard:
    """A board turned end for end in its plane: what is sawn last comes first, and the offcut stays at the end."""
    low, high = board.cuts[0].start, board.cuts[-1].end
    cuts = tuple(
        Cut(cut.mark, low + high - cut.end, low + high - cut.start, (_other(cut, 1), _other(cut, 0)))
        for cut in reversed(board.cuts)
    )
    kerf = Length(kerf_along(options.kerf)) if cuts[-1].leans[1] else options.kerf
    return replace(board, cuts=cuts, offcut=max(ZERO, board.length - high - kerf))


def _other(cut: Cut, which: int) -> EndCut:
    end = cut.ends[which]
    return end if end.square else replace(end, low=not end.low)


def stops(boards: Sequence[PlannedBoard]) -> tuple[Stop, ...]:
    """Lengths that are cut more than once, each with one setting of a stop block, in the order of sawing.

    Args:
        boards: numbered from 1 in this order.
    """
    found: dict[_Setting, list[tuple[str, int]]] = {}
    for number, board in enumerate(boards, 1):
        for cut in board.cuts:
            found.setdefault(_setting(board, cut), []).append((cut.mark, number))
    return tuple(
        Stop(
            *key, len(those), tuple(dict.fromkeys(mark for mark, _ in those)), tuple(dict.fromkeys(n for _, n in those))
        )
        for section in dict.fromkeys(board.section for board in boards)
        for key in _in_turn([board for board in boards if board.section == section])
        if len(those := found[key]) > 1
    )


def _setting(board: PlannedBoard, cut: Cut) -> _Setting:
    return board.section, cut.length, _alike(cut.leans)


def _in_turn(boards: Sequence[PlannedBoard]) -> Iterator[_Setting]:
    """Settings in an order that goes along every board from its first end, where there is one."""
    rows = [[_setting(board, cut) for cut in board.cuts] for board in boards]
    waiting: dict[_Setting, dict[_Setting, None]] = {key: {} for row in rows for key in row}
    for row in rows:
        for before, after in pairwise(row):
            if before != after:
                waiting[after][before] = None
    while waiting:
        # Mitred parts may alternate, and then no order serves.
        free = next((key for key, others in waiting.items() if not others), next(iter(waiting)))
        del waiting[free]
        for others in waiting.values():
            others.pop(free, None)
        yield free


def _alike(leans: tuple[int, int]) -> tuple[int, int]:
    r"""One way to tell the ends of a part, however it is turned or flipped: a trapezoid is told as `/ \`."""
    first, last = leans
    return max((first, last), (last, first), (-first, -last), (-last, -first))
