"""A fit to everything that has to be bought for it."""

from __future__ import annotations

from dataclasses import replace

from fitter.domain.frame import Board
from fitter.domain.layout import Verdict
from fitter.domain.outcome import FitResult
from fitter.domain.project import Project
from fitter.domain.surfaces import Touch, polygon_area
from fitter.domain.takeoff import BuyResult, PriceList
from fitter.domain.woodwork import Woodwork
from fitter.frame.contacts import contacts
from fitter.takeoff import board_name, takeoff
from fitter.workflow.boards import boards_of
from fitter.workflow.framing import frame
from rooms.lengths import Unit

__all__ = ["buy", "touching"]


def buy(
    project: Project, fit: FitResult, rank: int = 1, prices: PriceList | None = None, limit: float | None = None
) -> BuyResult:
    """Take off what one layout of an answer asks to be bought.

    Args:
        project: what was asked.
        fit: an answer, which has a layout of that rank or tells why not.
        rank: of the layout, from 1.
        prices: of what the project file does not price; None for none.
        limit: seconds for all board plans together; None for no limit.
    """
    prices = prices or PriceList()
    boards = tuple(_priced(board, prices, project.unit) for board in project.shop.boards)
    priced = replace(project, shop=replace(project.shop, boards=boards))
    framed = frame(priced, fit, rank)
    found = boards_of(priced, framed, limit)
    if framed.shown is None or framed.woodwork is None or found.verdict is Verdict.FAULT:
        return BuyResult(found)
    taken = takeoff(
        priced, framed.shown.layout, framed.woodwork, found.boards, touching(framed.woodwork), prices
    )  # fmt: skip
    return BuyResult(found, taken)


def _priced(board: Board, prices: PriceList, unit: Unit) -> Board:
    """A board with the price of the list, where the file has none."""
    if board.price is not None:
        return board
    found = prices.find(board_name(board.section, board.length, unit))
    if found is None:
        return board
    return replace(board, price=found.price / (found.pack.amount if found.pack else 1))


def touching(woodwork: Woodwork) -> tuple[Touch, ...]:
    """Every two parts that touch in a plane, with the area that they share there."""
    return tuple(
        Touch((each.first, each.second), sum(polygon_area(patch) for patch in each.patches))
        for each in contacts(woodwork.parts)
    )
