"""Least cost of small workshop lists against another solver's model: parts to boards one by one."""

from __future__ import annotations

from itertools import pairwise

import pytest
from cut_cases import Lists, workshop
from ortools.sat.python import cp_model

from fitter.checking import check_plan
from fitter.cutting import plan_boards
from fitter.domain.cuts import Aim, CutOptions
from rooms.lengths import Length

SEEDS = range(12)


def assigned(lists: Lists, options: CutOptions, seconds: float, slots: int = 24) -> tuple[int, bool]:
    """The least cost that CP-SAT finds, and whether it proves it: how many of each part on each board, and which board.

    Lengths are counted in sixteenths; the kerf goes with each part and once with each board; at most `slots` boards.
    """
    pieces, stocks = lists
    mark = Length.inches("1/16")
    kerf = options.kerf // mark
    model = cp_model.CpModel()
    slots = min(sum(piece.count for piece in pieces), slots)
    boards = [[model.new_bool_var("") for _ in stocks] for _ in range(slots)]
    cuts = [[model.new_int_var(0, piece.count, "") for piece in pieces] for _ in range(slots)]
    rooms = [options.usable(stock.length) // mark + kerf for stock in stocks]
    widths = [piece.length // mark + kerf for piece in pieces]
    for board, cut in zip(boards, cuts, strict=True):
        model.add(sum(board) <= 1)
        used = sum(width * count for width, count in zip(widths, cut, strict=True))
        model.add(used <= sum(room * chosen for room, chosen in zip(rooms, board, strict=True)))
    for number, piece in enumerate(pieces):
        model.add(sum(cut[number] for cut in cuts) == piece.count)
    for number, stock in enumerate(stocks):
        if stock.have is not None:
            model.add(sum(board[number] for board in boards) <= stock.have)
    lengths = [sum(room * chosen for room, chosen in zip(rooms, board, strict=True)) for board in boards]
    for before, after in pairwise(lengths):
        model.add(before >= after)
    costs = [stock.price or 0 for stock in stocks]
    model.minimize(sum(cost * chosen for board in boards for cost, chosen in zip(costs, board, strict=True)))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_time_in_seconds = seconds
    status = solver.solve(model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return -1, False
    return round(solver.objective_value), status == cp_model.OPTIMAL


@pytest.mark.parametrize("seed", SEEDS)
def test_small_lists_cost_the_same(seed: int) -> None:
    options = CutOptions(kerf=Length.inches("1/8"), aims=(Aim.COST,))
    pieces, stocks = workshop(seed, most=20, offcuts=2 * (seed % 2))
    # Few of each part, so that the other solver can prove its answer.
    pieces = tuple(piece for piece in pieces if piece.count <= 3)[:8]
    plan = plan_boards(pieces, stocks, options)
    assert plan.proven
    assert check_plan(pieces, stocks, options, plan) == ()
    cost, proven = assigned((pieces, stocks), options, 20)
    assert plan.cost is not None
    assert plan.cost == cost if proven else plan.cost <= cost or cost < 0
