"""The saw list: board by board, cut by cut."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from rich.console import Console

from fitter.domain.cuts import CutOptions, PlannedBoard
from fitter.domain.saw_list import Frees, Sawing, Stretch, Stroke, sawing, stops
from fitter.report.cuts_rows import LEANS, Alike, alike
from fitter.report.printing import print_table, say
from fitter.report.sawing.rows import STOP_HEADS, spans, stop_rows
from fitter.report.words import Teller
from rooms.lengths import ZERO, Length

SAW_HEADS = ("cut", "saw", "frees", "part by part", "running")


@dataclass(frozen=True)
class Saw:
    """What is sawn, and how it is told.

    Args:
        boards: in the order of work, numbered from 1.
        options: how they are cut.
        small: what is shorter is not held by hand beside a blade.
        handled: longest piece that a person can handle; None where that is not said.
        tell: writes lengths of boards.
        cut: writes lengths of cuts.
        key: where `handled` could be said; empty where it cannot.
    """

    boards: tuple[PlannedBoard, ...]
    options: CutOptions
    small: Length
    handled: Length | None
    tell: Teller
    cut: Teller
    key: str = ""


def print_saw_list(console: Console, saw: Saw) -> None:
    """Print how to read the list, the settings of a stop block, and every board with its cuts."""
    _title(console, "saw list")
    for line in _reading(saw):
        say(console, line, 2)
    if stops(saw.boards):
        _title(console, "one setting of the stop block for many pieces, in turn")
        print_table(console, STOP_HEADS, stop_rows(saw.boards, saw.cut))
    for group in alike(saw.boards):
        _print_board(console, saw, group)


def _title(console: Console, title: str) -> None:
    console.print()
    console.print(title, style="bold")


def _reading(saw: Saw) -> Iterator[str]:
    """How to read the list, and what to mind at the saw; only what occurs."""
    trim = f", {saw.cut(saw.options.trim)} trimmed off each end" if saw.options.trim else ""
    kerf = f"Saw cut {saw.cut(saw.options.kerf)}" if saw.options.kerf else "Saw cuts are not counted"
    yield f"{kerf}{trim}. Set the blade beyond the line, of trim and waste before it."
    yield (
        "`part by part` is measured from the end that was sawn last, `running` from the first end of the board: "
        "lay out by one, check by the other."
    )
    if any(any(cut.leans) for board in saw.boards for cut in board.cuts):
        yield (
            "Lay the board with its mitred side up and its first end to the left: `|` is square, `/` leans to the "
            "right on the far edge, `\\` to the left, at 45°. Lengths go from long point to long point; `near` and "
            "`far` say on which edge of the board that point lies."
        )
    cuts = [cut.length for board in saw.boards for cut in board.cuts]
    if cuts and min(cuts) < saw.small:
        yield (
            f"Parts under {saw.cut(saw.small)} are sawn first, while the board is still long. Never hold a shorter "
            "piece by hand beside a running blade."
        )
    longest = max((board.length for board in saw.boards), default=ZERO)
    if saw.handled is None and saw.key:
        yield f"Boards go to the saw whole, up to {saw.tell(longest)}: `{saw.key}` is not said."
    elif saw.handled is not None and longest > saw.handled:
        yield f"Boards over {saw.tell(saw.handled)} are first cut between two parts, so that they can be carried."


def _print_board(console: Console, saw: Saw, group: Alike) -> None:
    board, last = group.board, group.first + group.count - 1
    sawn = sawing(board, saw.options, saw.handled)
    name = f"board {group.first}" if group.count == 1 else f"boards {group.first} to {last}"
    more = (", on hand" if board.on_hand else "") + (", all alike" if group.count > 1 else "")
    _title(console, f"{name} of {len(saw.boards)}: {board.section}, {saw.tell(board.length)}{more}")
    if sawn.first:
        print_table(console, SAW_HEADS, (row(stroke, ZERO, saw.cut) for stroke in sawn.first))
    for number, stretch in enumerate(sawn.stretches, 1):
        if sawn.first:
            length = f"length {number} of {len(sawn.stretches)}, {saw.cut(stretch.length)}, measured from its own end"
            say(console, length)
        print_table(console, SAW_HEADS, (row(stroke, stretch.start, saw.cut) for stroke in stretch.strokes))
        say(console, _left(sawn, stretch, number == len(sawn.stretches), saw.options.least_offcut, saw.cut))
    if saw.handled is not None and any(stretch.length > saw.handled for stretch in sawn.stretches):
        say(console, f"caution: what is left is longer than the {saw.tell(saw.handled)} that can be carried", 2)
    if unsafe := [stroke.number for stroke in sawn.strokes if stroke.held < saw.small]:
        word = "cut" if len(unsafe) == 1 else "cuts"
        leave = "leaves" if len(unsafe) == 1 else "leave"
        caution = f"caution: {word} {spans(unsafe)} {leave} less than {saw.cut(saw.small)} to hold; "
        say(console, f"{caution}clamp the piece, or fix it to a longer one", 2)


def row(stroke: Stroke, start: Length, cut: Teller) -> tuple[str, str, str, str, str]:
    """A saw cut as a row; `start` is where running measures begin."""
    frees = {
        Frees.PART: stroke.mark,
        Frees.TRIM: "trim" if stroke.line else "waste",
        Frees.WASTE: "waste",
        Frees.STRETCH: "a length",
    }[stroke.frees]
    # A sliver between two parts of different ends: its length is nobody's concern.
    step = "" if stroke.frees is Frees.WASTE else cut(stroke.step)
    return str(stroke.number), LEANS[stroke.lean], frees, step, cut(stroke.line - start) + _edge(stroke)


def _edge(stroke: Stroke) -> str:
    """The edge of the board that the long point lies on."""
    if not stroke.lean:
        return ""
    finishes = stroke.frees in (Frees.PART, Frees.STRETCH)
    return ", far" if (stroke.lean > 0) == finishes else ", near"


def _left(sawn: Sawing, stretch: Stretch, final: bool, least: Length, cut: Teller) -> str:
    """What is there when the last cut of a stretch is done."""
    if stretch.rest:
        return f"left: {stretch.rest}, which is finished"
    rest = sawn.board.offcut if final else ZERO
    if not rest:
        return "nothing is left"
    return f"left: {cut(rest)}, {'an offcut to keep' if rest >= least else 'waste'}"
