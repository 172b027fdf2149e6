"""A frame to its boards: parts to pieces, planned and checked section by section."""

from __future__ import annotations

import time
from collections.abc import Sequence
from dataclasses import replace

from fitter.checking import check_plan
from fitter.cutting import NoPlanError, plan_boards
from fitter.domain.board_list import BoardList, SectionPlan
from fitter.domain.cuts import CutOptions, CutResult, Piece, Stock
from fitter.domain.frame import Board
from fitter.domain.layout import Verdict
from fitter.domain.outcome import FitResult, FrameResult
from fitter.domain.project import Project
from fitter.domain.saw_list import short_first, small
from fitter.domain.woodwork import SQUARE, EndCut, Part
from fitter.workflow.framing import frame
from rooms.lengths import Length, round_half_up

__all__ = ["boards", "boards_of", "options_of", "pieces_of"]

_Shape = tuple[EndCut, EndCut]


def boards(
    project: Project, fit: FitResult, rank: int = 1, limit: float | None = None, given: CutOptions | None = None
) -> BoardList:
    """The cheapest boards for the frame of one layout of an answer.

    Args:
        project: what was asked.
        fit: an answer, which has a layout of that rank or tells why not.
        rank: of the layout, from 1.
        limit: seconds for all board plans together; None for no limit.
        given: aims, defects and boards on hand; the project says the rest.
    """
    return boards_of(project, frame(project, fit, rank), limit, given)


def boards_of(
    project: Project, framed: FrameResult, limit: float | None = None, given: CutOptions | None = None
) -> BoardList:
    """The cheapest boards for a frame.

    Args:
        project: its shop.
        framed: without a frame that its proof accepts there are no boards.
        limit: seconds for all board plans together; None for no limit.
        given: aims, defects and boards on hand; the project says the rest.
    """
    started = time.monotonic()
    options = options_of(project, given)
    if framed.woodwork is None or framed.checked:
        return BoardList(framed, (), options)
    pieces, stocks = pieces_of(framed.woodwork.parts), _stocks(project, framed.woodwork.parts)
    sections = []
    for section in dict.fromkeys(piece.section for piece in pieces):
        own = tuple(piece for piece in pieces if piece.section == section)
        every = tuple(stock for stock in stocks if stock.section == section)
        left = None if limit is None else max(0.01, limit - (time.monotonic() - started))
        sections.append(_planned(own, every, options, left))
    ripped = {part.mark: part for part in framed.woodwork.parts if _ripped(part)}
    return BoardList(framed, tuple(sections), options, tuple(ripped.values()), time.monotonic() - started)


def options_of(project: Project, given: CutOptions | None = None) -> CutOptions:
    """How boards are cut. A board that is too long to be carried is cut first, so it is not left out.

    Args:
        project: kerf and trim.
        given: aims, defects and boards on hand; the usual ones if None.
    """
    return replace(
        given or CutOptions(),
        kerf=project.shop.kerf,
        trim=project.shop.trim,
        mark=project.mark,
        longest_carried=None,
        least_offcut=small(project.unit),
    )


def pieces_of(parts: Sequence[Part]) -> tuple[Piece, ...]:
    """The parts of a frame as pieces to be cut, equal ones together, in the order of the list.

    A mitred part with a face that shows keeps that face up; it does not matter which way round a square one lies.
    """
    counts: dict[Piece, int] = {}
    names = _names(parts)
    for part in parts:
        ends = _first_way(part.cuts)
        mitred = any(not end.square for end in ends)
        piece = Piece(part.mark, names[part.section.name], part.length, 1, ends, mitred and bool(part.shows))
        counts[piece] = counts.get(piece, 0) + 1
    return tuple(
        Piece(piece.mark, piece.section, piece.length, count, piece.ends, piece.face_up)
        for piece, count in counts.items()
    )


def _names(parts: Sequence[Part]) -> dict[str, str]:
    """One name for sections of one size: `4x4` and `89 x 89 mm` in a metric file are cut from the same boards."""
    sizes: dict[tuple[Length, Length], str] = {}
    sections = dict.fromkeys(part.section for part in parts)
    return {each.name: sizes.setdefault((each.thickness, each.width), each.name) for each in sections}


def _stocks(project: Project, parts: Sequence[Part]) -> tuple[Stock, ...]:
    names = _names(parts)
    return tuple(_stock(board, names[board.section]) for board in project.shop.boards if board.section in names)


def _first_way(ends: _Shape) -> _Shape:
    """One way to give the ends of a part whose faces may be either: two trapezoids are equal, however they stand."""
    first, last = ends
    if first.square and last.square:
        return SQUARE, SQUARE
    if (first.over, first.low, first.recess) == (last.over, last.low, last.recess) and not first.low:
        return EndCut(first.recess, first.over), EndCut(last.recess, last.over)
    return ends


def _ripped(part: Part) -> bool:
    return (part.width, part.thickness) != (part.section.width, part.section.thickness)


def _planned(
    pieces: tuple[Piece, ...], every: tuple[Stock, ...], options: CutOptions, limit: float | None
) -> SectionPlan:  # fmt: skip
    section = pieces[0].section
    if not every:
        return SectionPlan(section, pieces)
    stocks, unpriced = _priced(every)
    longest = max(options.usable(stock.length) for stock in stocks)
    over = [piece for piece in pieces if piece.length > longest]
    if over:
        worst = max(over, key=lambda piece: piece.length)
        return SectionPlan(section, pieces, stocks, unpriced, too_long=worst, longest=longest)
    result, lacking = _cut(pieces, stocks, options, limit)
    return SectionPlan(section, pieces, stocks, unpriced, result, lacking, longest)


def _stock(board: Board, section: str) -> Stock:
    price = None if board.price is None else round_half_up(board.price * 100)
    return Stock(section, board.length, price, board.have)


def _priced(stocks: tuple[Stock, ...]) -> tuple[tuple[Stock, ...], tuple[Stock, ...]]:
    """The boards that count, and those that cannot be weighed against others since only they have no price."""
    if not any(stock.price is not None for stock in stocks):
        return stocks, ()
    lacking = tuple(stock for stock in stocks if stock.sold and stock.price is None)
    return tuple(stock for stock in stocks if stock not in lacking), lacking


def _cut(
    pieces: tuple[Piece, ...], stocks: tuple[Stock, ...], options: CutOptions, limit: float | None
) -> tuple[CutResult, Piece | None]:
    """The plan of one section, short parts first where that is safer, checked; and a part that no board yields."""
    started = time.monotonic()
    section = pieces[0].section
    try:
        plan = plan_boards(pieces, stocks, options, limit)
    except NoPlanError as error:
        verdict = Verdict.IMPOSSIBLE if error.proven else Verdict.UNKNOWN
        return CutResult(verdict, section=section, seconds=time.monotonic() - started), error.piece
    plan = short_first(plan, options, options.least_offcut)
    checked = check_plan(pieces, stocks, options, plan)
    verdict = Verdict.FAULT if checked else Verdict.PROVEN if plan.proven else Verdict.FOUND
    return CutResult(verdict, plan, section, checked, time.monotonic() - started), None
