"""From lists of parts and boards to a plan, section by section."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from fitter.cutting.aims import chosen
from fitter.cutting.branching import FLOW, LACKING, Search, search
from fitter.cutting.clock import Clock
from fitter.cutting.columns import Generator
from fitter.cutting.greedy import by_hand
from fitter.cutting.job import Job, job_of
from fitter.cutting.sawing import sawn
from fitter.domain.cuts import Aim, BoardPlan, CutOptions, Piece, PlannedBoard, Reached, Stock
from rooms.lengths import Length


class NoPlanError(Exception):
    """Boards that do not yield the parts.

    Args:
        section: whose.
        piece: that no board is long enough for; None where the boards on hand are too few and none are sold.
        proven: whether that is certain; else time ran out before any plan was found.
    """

    def __init__(self, section: str, piece: Piece | None = None, *, proven: bool = True) -> None:
        super().__init__(f"no boards of {section} yield its parts")
        self.section = section
        self.piece = piece
        self.proven = proven


class NoPriceError(ValueError):
    """A board that is sold without a price, where others have one."""

    def __init__(self, stock: Stock) -> None:
        super().__init__(f"a board of {stock.section} has no price")
        self.stock = stock


@dataclass(frozen=True)
class _Section:
    """The answer for one section."""

    search: Search
    boards: list[PlannedBoard]
    reached: tuple[Reached, ...]


def plan_boards(
    pieces: Sequence[Piece], stocks: Sequence[Stock], options: CutOptions, limit: float | None = None
) -> BoardPlan:  # fmt: skip
    """The cheapest boards that yield all parts, and where to saw them.

    Args:
        pieces: the parts; at least one.
        stocks: the boards. If none of those that are sold has a price, the length bought counts in its place.
        options: how boards are cut, and the order of aims.
        limit: seconds for all sections together; then the best found so far is given, with its bound.

    Raises:
        NoPriceError: some boards that are sold have a price, and one has none.
        NoPlanError: no boards yield the parts, or none were found in the time.
    """
    priced = _priced(stocks)
    clock = Clock(limit)
    sections = list(dict.fromkeys(piece.section for piece in pieces))
    answers = []
    for section in sections:
        own = tuple(piece for piece in pieces if piece.section == section)
        job = job_of(own, tuple(stock for stock in stocks if stock.section == section), options, priced=priced)
        answers.append(_answer(job, section, options, clock))
    plan = _joined(answers, pieces, options, priced=priced)
    return replace(plan, interrupted=clock.interrupted)


def _priced(stocks: Sequence[Stock]) -> bool:
    sold = [stock for stock in stocks if stock.sold]
    priced = any(stock.price is not None for stock in sold)
    unknown = next((stock for stock in sold if stock.price is None), None)
    if priced and unknown is not None:
        raise NoPriceError(unknown)
    return priced


def _answer(job: Job, section: str, options: CutOptions, clock: Clock) -> _Section:
    longest = max((sort.room for sort in job.sorts), default=0)
    for kind in job.kinds:
        if kind.width + job.nesting.least_extra([kind.edges]) > longest:
            raise NoPlanError(section, kind.pieces[0])
    found = search(Generator(job, clock), by_hand(job))
    if found.best is None:
        raise NoPlanError(section, proven=found.proven)
    best = chosen(found, options)
    return _Section(found, sawn(job, best.plan, options), best.reached)


def _joined(
    answers: Sequence[_Section], pieces: Sequence[Piece], options: CutOptions, *, priced: bool
) -> BoardPlan:  # fmt: skip
    boards = tuple(board for answer in answers for board in answer.boards)
    cost = sum(answer.search.cost for answer in answers)
    bound = sum(answer.search.bound for answer in answers)
    reached = [Reached(Aim.COST, cost, bound)]
    wood = sum(_wood(piece) for piece in pieces)
    for number, aim in enumerate(aim for aim in options.aims if aim is not Aim.COST):
        values = [answer.reached[number] for answer in answers]
        pick = max if aim is Aim.OFFCUT else sum
        known = [each.bound for each in values if each.bound is not None]
        value = pick(each.value for each in values)
        best = pick(known) if len(known) == len(values) else None
        if aim is Aim.OFFCUT:
            value = max(board.offcut.units for board in boards)
            # What is left for defects may lie in an offcut too, and is not looked at.
            best = value if best is not None and not options.defects else None
        reached.append(Reached(aim, value, best))
    kept = sum(board.offcut.units for board in boards if board.offcut >= options.least_offcut)
    waste = sum(board.length.units for board in boards) - wood - kept
    return BoardPlan(
        boards,
        cost if priced else None,
        bound if priced else None,
        tuple(reached),
        Length(waste),
        tuple(_notes(answers)),
    )


def _wood(piece: Piece) -> int:
    """What parts take of a board's length, a mitre counted at its middle; in units, to the unit above."""
    return piece.count * (piece.length.units - sum(end.recess.units for end in piece.ends) // 2)


def _notes(answers: Sequence[_Section]) -> list[str]:
    notes = []
    for step in (LACKING, FLOW):
        if times := sum(answer.search.tolerant.get(step, 0) for answer in answers):
            notes.append(f"{times} of the steps of the proof rest on floating point: {step}")
    if any(answer.search.source.job.rounded for answer in answers):
        notes.append("lengths have so fine a measure in common that parts were rounded up and boards down a little")
    if any(len(answer.search.source.job.nesting.states) > 1 for answer in answers):
        notes.append("mitred parts were laid out on a quarter of the shop mark, rounded up")
    blanks = [piece.mark for answer in answers for piece in answer.search.source.job.blanks]
    if blanks:
        notes.append(
            f"{', '.join(blanks)}: laid as square blanks, since the mitres run another way than most or a face has to "
            "stay up; the proof covers plans that do so"
        )
    return notes
