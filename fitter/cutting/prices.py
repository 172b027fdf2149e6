"""Dual prices of a cutting, verified in whole numbers and completed over all lengths."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

import numpy as np

from fitter.cutting.branching import open_limits
from fitter.cutting.clock import Clock
from fitter.cutting.columns import Generator
from fitter.cutting.greedy import by_hand
from fitter.cutting.job import Job, job_of
from fitter.cutting.knapsack import Knapsack
from fitter.domain.board_prices import BoardPrices
from fitter.domain.cuts import CutOptions, Piece, Stock

_FAR = 2**53


def board_prices(
    pieces: Sequence[Piece], stocks: Sequence[Stock], options: CutOptions, *, priced: bool = True
) -> tuple[BoardPrices, ...]:  # fmt: skip
    """What lengths are worth, section by section, as the best mixture of patterns for these parts prices them.

    Args:
        pieces: parts that all have a board that is long enough.
        stocks: boards; the prices hold for any parts that are cut from them.
        options: how they are cut.
        priced: whether cost counts; else the length bought.
    """
    found = []
    for section in dict.fromkeys(piece.section for piece in pieces):
        own = tuple(piece for piece in pieces if piece.section == section)
        boards = tuple(stock for stock in stocks if stock.section == section)
        found.append(_prices(section, job_of(own, boards, options, priced=priced), options))
    return tuple(found)


def _prices(section: str, job: Job, options: CutOptions) -> BoardPrices:
    if any(not sort.cost and not sort.on_hand for sort in job.sorts):
        return BoardPrices(
            section, options.kerf, (0,), (Fraction(0),), Fraction(0)
        )  # what costs nothing bounds nothing
    longest = max(sort.room for sort in job.sorts)
    # Other lists may have more of a part than this one: patterns are bounded by the board alone.
    many = tuple(longest // kind.width for kind in job.kinds)
    source = Generator(job, Clock(), many)
    for column in by_hand(job) or ():
        source.master.offer(column)
    worth = source.solve(job.demand, open_limits(job, None), _FAR).worth
    knapsack = Knapsack(job, many)
    knapsack.fill(worth.kinds)
    row = knapsack.widths()
    scale = _scale(job, [int(row[sort.room]) for sort in job.sorts], worth.scale)
    rises = [0, *(int(step) + 1 for step in np.flatnonzero(np.diff(row)))]
    hand = [sort for sort in job.sorts if sort.on_hand]
    free = sum((sort.most or 0) * min(Fraction(0), sort.cost - int(row[sort.room]) / scale) for sort in hand)
    steps = tuple(step * job.grid for step in rises)
    return BoardPrices(
        section, options.kerf, steps, tuple(int(row[step]) / scale for step in rises), Fraction(free)
    )  # fmt: skip


def _scale(job: Job, rooms: Sequence[int], scale: int) -> Fraction:
    """By what worth is divided so that no board that is sold holds more than it costs, to the last digit."""
    least = Fraction(scale)
    for sort, room in zip(job.sorts, rooms, strict=True):
        if not sort.on_hand:
            least = max(least, Fraction(room, sort.cost))
    return least
