"""A board plan checked again by plain arithmetic, and by the areas of mitred neighbours."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import pairwise

from shapely.geometry import Polygon

from fitter.domain.cuts import Aim, BoardPlan, Cut, CutOptions, Piece, PlannedBoard, Stock
from fitter.domain.findings import Finding
from fitter.domain.woodwork import EndCut
from rooms.lengths import Length

__all__ = ["check_plan"]

_HAIR = 1e-3
"""Units, 1/8,000,000 in: what floating-point distances may be off."""


def check_plan(
    pieces: Sequence[Piece], stocks: Sequence[Stock], options: CutOptions, plan: BoardPlan
) -> tuple[Finding, ...]:
    """What is wrong with a plan, by its boards and cuts alone.

    Args:
        pieces: that were asked for.
        stocks: that there are.
        options: kerf, trim and the longest board that can be carried.
        plan: to be checked.

    Returns:
        Nothing if every part is there just once, as it was asked for, on a board that exists, a saw cut from its
        neighbours, and all totals add up.
    """
    findings = [*_parts(pieces, plan), *_stock(stocks, options, plan), *_totals(plan)]
    for number, board in enumerate(plan.boards, 1):
        findings += [Finding(code, f"board {number}: {message}") for code, message in _board(board, options)]
    return tuple(findings)


def _parts(pieces: Sequence[Piece], plan: BoardPlan) -> Iterator[Finding]:
    asked: Counter[tuple[str, str, Length, object]] = Counter()
    for piece in pieces:
        asked[(piece.section, piece.mark, piece.length, _shape(piece.ends))] += piece.count
    cut: Counter[tuple[str, str, Length, object]] = Counter(
        (board.section, cut.mark, cut.length, _shape(cut.ends)) for board in plan.boards for cut in board.cuts
    )  # fmt: skip
    for key in dict.fromkeys([*asked, *cut]):
        if asked[key] != cut[key]:
            yield Finding("part-count", f"part `{key[1]}` is asked for {asked[key]} times and cut {cut[key]} times")
    held = {(piece.section, piece.mark, piece.length): piece for piece in pieces if piece.face_up}
    for board in plan.boards:
        for one in board.cuts:
            known = held.get((board.section, one.mark, one.length))
            if known is not None and one.leans not in _face_up(known):
                yield Finding("part-flipped", f"part `{one.mark}` lies with the wrong face up")


def _shape(ends: tuple[EndCut, EndCut]) -> object:
    """A part's ends, however it is turned or flipped: both may change places, and both may change sides."""
    first, last = ((end.recess, end.over, end.low) if end.recess else (end.recess, None, True) for end in ends)
    flipped = [(recess, over, not low if recess else low) for recess, over, low in (first, last)]
    return frozenset({(first, last), (last, first), (flipped[0], flipped[1]), (flipped[1], flipped[0])})


def _face_up(piece: Piece) -> tuple[tuple[int, int], ...]:
    first, last = piece.leans
    over = next((end.over for end in piece.ends if end.recess), None)
    turned = (-last, -first) if over is not None and over.value == "thickness" else (last, first)
    return (first, last), turned


def _stock(stocks: Sequence[Stock], options: CutOptions, plan: BoardPlan) -> Iterator[Finding]:
    for board in plan.boards:
        same = [stock for stock in stocks if (stock.section, stock.length) == (board.section, board.length)]
        if not any(stock.have if board.on_hand else stock.sold and stock.price == board.price for stock in same):
            yield Finding("no-such-board", f"there is no {board.section} board of {board.length.units} units like that")
        if options.longest_carried is not None and board.length > options.longest_carried:
            yield Finding("board-too-long", f"a board of {board.length.units} units cannot be carried")
    used = Counter((board.section, board.length) for board in plan.boards if board.on_hand)
    have: Counter[tuple[str, object]] = Counter()
    for stock in stocks:
        have[(stock.section, stock.length)] += stock.have or 0
    for key, count in used.items():
        if count > have[key]:
            yield Finding("not-on-hand", f"{count} boards of {key[0]} are taken, and {have[key]} are on hand")


def _totals(plan: BoardPlan) -> Iterator[Finding]:
    bought = [board for board in plan.boards if not board.on_hand]
    if plan.cost is not None:
        cost = sum(board.price or 0 for board in bought)
        if cost != plan.cost:
            yield Finding("wrong-cost", f"the boards cost {cost} and the plan says {plan.cost}")
        if plan.bound is None or plan.bound > plan.cost:
            yield Finding("wrong-bound", f"the bound is {plan.bound} and the cost {plan.cost}")
    elif plan.reached[0].value != sum(board.length.units for board in bought):
        yield Finding("wrong-cost", "the length of the boards does not add up")
    if [reached.aim for reached in plan.reached[:1]] != [Aim.COST]:
        yield Finding("wrong-aims", "the first aim is not the cost")
    wood = sum(_wood(cut) for board in plan.boards for cut in board.cuts)
    whole = sum(board.length.units for board in plan.boards)
    if not 0 <= plan.waste.units <= whole - wood + len(plan.boards):
        yield Finding("wrong-waste", f"a waste of {plan.waste.units} units does not go with boards of {whole}")


def _wood(cut: Cut) -> int:
    return cut.length.units - sum(end.recess.units for end in cut.ends) // 2


def _board(board: PlannedBoard, options: CutOptions) -> Iterator[tuple[str, str]]:
    """What is wrong on one board."""
    if not board.cuts:
        yield "board-empty", "nothing is cut from it"
        return
    first, last = min(cut.start for cut in board.cuts), max(cut.end for cut in board.cuts)
    if first < options.trim or last > options.trim + options.usable(board.length):
        yield "off-board", f"cuts from {first.units} to {last.units} are not on the board of {board.length.units} units"
    rest = (board.length - last).units
    if not max(0, rest - 2 * options.kerf.units) <= board.offcut.units <= max(0, rest - options.kerf.units):
        yield "wrong-offcut", f"an offcut of {board.offcut.units} units cannot be left of {rest}"
    for before, after in [*pairwise(board.cuts), *zip(board.cuts, board.cuts[2:], strict=False)]:
        if not _apart(before, after, options):
            yield "overlap", f"`{before.mark}` and `{after.mark}` are less than a saw cut apart"


def _apart(before: Cut, after: Cut, options: CutOptions) -> bool:
    if all(end.square for end in (*before.ends, *after.ends)):
        return after.start - before.end >= options.kerf
    return bool(_area(before).distance(_area(after)) >= options.kerf.units - _HAIR)


def _area(cut: Cut) -> Polygon:
    """The part as seen on its mitred side, lengthways along x; its depth is what a mitre of 45° recedes."""
    first, last = cut.ends
    depth = max(first.recess.units, last.recess.units, 1)
    start, end = cut.start.units, cut.end.units
    low = (start + (0 if first.low else first.recess.units), end - (0 if last.low else last.recess.units))
    high = (start + (first.recess.units if first.low else 0), end - (last.recess.units if last.low else 0))
    return Polygon([(low[0], 0), (low[1], 0), (high[1], depth), (high[0], depth)])
