"""The boards of a frame as rows: what to buy, how each section stands, stop-block settings."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import groupby

from fitter.domain.board_list import BoardList, SectionPlan
from fitter.domain.cuts import BoardPlan, PlannedBoard
from fitter.domain.layout import Verdict
from fitter.domain.saw_list import stops
from fitter.domain.woodwork import Part
from fitter.report.cuts_rows import LEANS, cents, share
from fitter.report.words import Teller, counted
from rooms.lengths import ZERO, Length

UNKNOWN = "?"
"""Stands for a price that nobody has told; never for nothing."""
BUY_HEADS = ("section", "length", "pieces", "each", "cost")
SECTION_HEADS = ("section", "parts", "boards", "cost", "waste", "proof")
STOP_HEADS = ("stop at", "section", "ends", "pieces", "marks", "on boards")
RIP_HEADS = ("mark", "section", "width", "thickness")
_MOST_MARKS = 4


def buy(made: BoardList, tell: Teller) -> Iterator[tuple[str, ...]]:
    """A row for each kind of board to buy, and one for all; a price that is not known is `?`."""
    bought = [board for board in made.boards if not board.on_hand]
    kinds = Counter((board.section, board.length, board.price) for board in bought)
    for (section, length, price), count in kinds.items():
        paid = (UNKNOWN, UNKNOWN) if price is None else (cents(price), cents(price * count))
        yield section, tell(length), str(count), *paid
    if len(kinds) > 1:
        whole = sum((board.length for board in bought), ZERO)
        known = made.cost is not None
        total = cents(made.cost or 0) if known else UNKNOWN
        lacking = any(board.price is None for board in bought)
        yield "all", tell(whole), str(len(bought)), "", f"{total} + ?" if known and lacking else total


def sections(made: BoardList) -> Iterator[tuple[str, ...]]:
    """How each section that has a plan stands."""
    for section in made.sections:
        plan = section.result.plan if section.result else None
        if plan is not None and section.boards:
            whole = [board.length for board in plan.boards]
            cost = cents(section.cost) if section.cost is not None else UNKNOWN
            number = str(len(section.boards))
            yield section.section, str(section.count), number, cost, share(plan.waste, whole), _proof(plan)


def _proof(plan: BoardPlan) -> str:
    if plan.proven:
        return "proven: none is cheaper" if plan.cost is not None else "proven: none takes less length"
    if plan.cost is None or plan.bound is None:
        return "found, not proven"
    return f"found: none under {cents(plan.bound)}"


def lacking(made: BoardList, tell: Teller, cut: Teller) -> Iterator[str]:
    """What is not planned, and why."""
    for section in made.sections:
        told = f"{section.section}: {counted(section.count, 'part')}, {tell(section.wood)} end to end"
        if not section.stocks:
            yield f"{told}; no board of {section.section} is named under `shop.boards`"
        elif section.too_long is not None:
            yield f"{told}; {_too_long(section, tell, cut)}"
        elif section.result is not None and section.result.plan is None:
            if section.result.verdict is Verdict.IMPOSSIBLE:
                yield f"{told}; the boards on hand do not yield them, and none are sold"
            else:
                yield f"{told}; time ran out before any plan was found"
        for stock in section.unpriced:
            yield (
                f"{section.section}, {tell(stock.length)}: left out, since it has no price and others of the section "
                "have one; the plan may be cheaper with it"
            )


def _too_long(section: SectionPlan, tell: Teller, cut: Teller) -> str:
    part, longest = section.too_long, section.longest
    assert part is not None, "only of a section with such a part"
    assert longest is not None, "its boards are named"
    return (
        f"`{part.mark}` is {cut(part.length)} long, and the longest board yields {cut(longest)}: name a board of at "
        f"least {tell(part.length)} and both trims, or splice a rail over a post"
    )


def stop_rows(boards: Sequence[PlannedBoard], cut: Teller) -> Iterator[tuple[str, ...]]:
    """A row for each setting of a stop block that serves more than once."""
    for stop in stops(boards):
        ends = " ".join(LEANS[lean] for lean in stop.leans)
        marks = ", ".join(stop.marks[:_MOST_MARKS]) + (", …" if len(stop.marks) > _MOST_MARKS else "")
        yield cut(stop.length), stop.section, ends, str(stop.count), marks, spans(stop.boards)


def spans(numbers: Sequence[int]) -> str:
    """Rising numbers, neighbours drawn together.

    >>> spans((1, 2, 3, 5, 8, 9))
    '1-3, 5, 8, 9'
    """
    told = []
    for _, group in groupby(enumerate(numbers), key=lambda pair: pair[1] - pair[0]):
        run = [number for _, number in group]
        told += [f"{run[0]}-{run[-1]}"] if len(run) > 2 else [str(number) for number in run]
    return ", ".join(told)


def ripped(parts: Sequence[Part], cut: Teller) -> Iterator[tuple[str, ...]]:
    """A row for each mark that is made narrower or thinner than its board."""
    for part in parts:
        yield (
            part.mark,
            part.section.name,
            _to(part.section.width, part.width, cut),
            _to(part.section.thickness, part.thickness, cut),
        )


def _to(whole: Length, made: Length, cut: Teller) -> str:
    return cut(made) if whole == made else f"{cut(whole)} to {cut(made)}"
