"""Board plans of tiny lists against a search through every way of laying the parts on boards.

The search shares no code with the engine: it lays parts one after another on boards, in real units, with their long
points and the areas of mitred ends, and knows nothing of widths, grids or patterns.
"""

from __future__ import annotations

from functools import cache
from itertools import permutations, product

import pytest
from cut_cases import Lists, tiny

from fitter.checking import check_plan
from fitter.cutting import NoPlanError, plan_boards
from fitter.domain.cuts import Aim, CutOptions, OnHand, Piece, Stock
from fitter.domain.woodwork import Slant
from rooms.lengths import Length

KERF = Length.inches("1/8")
ROOT = 1437
"""The kerf times the root of two, in units, rounded up."""
SLACK = Length.inches("1/64").units
"""Mitred parts are laid out on a quarter of the mark, rounded up; the engine may lose that much a part."""


def ways(piece: Piece) -> list[tuple[int, int]]:
    """Leans of both faces in each way that a part may lie."""
    first, last = piece.leans
    over = next((end.over for end in piece.ends if not end.square), Slant.WIDTH)
    if piece.face_up:
        return sorted({(first, last), (last, first) if over is Slant.WIDTH else (-last, -first)})
    return sorted({(first, last), (last, first), (-first, -last), (-last, -first)})


@cache
def needed(parts: tuple[Piece, ...]) -> int:
    """The shortest length that yields some parts, in units, over all orders and ways."""
    if not any(any(piece.leans) for piece in parts):
        return sum(piece.length.units for piece in parts) + (len(parts) - 1) * KERF.units
    best = 10**9
    for order in permutations(parts):
        for leans in product(*(ways(piece) for piece in order)):
            end, face, recess = 0, 0, 0
            for number, (piece, (first, last)) in enumerate(zip(order, leans, strict=True)):
                own = max(each.recess.units for each in piece.ends)
                if number == 0:
                    start = 0
                elif first and first == face:
                    # One cut makes both faces; each part's long point lies over the other's short one.
                    start = end - min(own, recess) + ROOT
                else:
                    start = end + (ROOT if first or face else KERF.units)
                end, face, recess = start + piece.length.units, last, own
            best = min(best, end)
    return best


def cheapest(lists: Lists, options: CutOptions, slack: int = 0) -> int | None:
    """The least cost over all cuttings; None if there is none."""
    pieces, stocks = lists
    parts = sorted((p for piece in pieces for p in [piece] * piece.count), key=lambda p: (-p.length.units, p.mark))
    sold = [stock for stock in stocks if stock.sold]
    hand = tuple(stock for stock in stocks for _ in range(stock.have or 0))
    best: list[int | None] = [None]

    def price(load: tuple[Piece, ...]) -> int | None:
        length = needed(load) + slack * len(load)
        return min((s.price or 0 for s in sold if options.usable(s.length).units >= length), default=None)

    def total(loads: list[tuple[Piece, ...]], boards: tuple[Stock, ...]) -> int | None:
        """What these loads cost, boards on hand given to the loads that save most: every assignment is tried."""
        if not loads:
            return 0
        found = []
        bought = price(loads[0])
        rest = total(loads[1:], boards) if bought is not None else None
        if bought is not None and rest is not None:
            found.append(bought + rest)
        for number, board in enumerate(boards):
            if options.usable(board.length).units >= needed(loads[0]) + slack * len(loads[0]):
                rest = total(loads[1:], boards[:number] + boards[number + 1 :])
                found += [rest] if rest is not None else []
        return min(found, default=None)

    def lay(at: int, loads: list[tuple[Piece, ...]]) -> None:
        if at == len(parts):
            cost = total(loads, hand)
            if cost is not None and (best[0] is None or cost < best[0]):
                best[0] = cost
            return
        seen = set()
        for number, load in enumerate([*loads, ()]):
            if load not in seen:
                seen.add(load)
                lay(at + 1, [*loads[:number], (*load, parts[at]), *loads[number + 1 :]])

    lay(0, [])
    return best[0]


def planned(lists: Lists, options: CutOptions) -> int | None:
    pieces, stocks = lists
    try:
        plan = plan_boards(pieces, stocks, options)
    except NoPlanError:
        return None
    assert plan.proven
    assert check_plan(pieces, stocks, options, plan) == ()
    return plan.cost


@pytest.mark.parametrize("seed", range(60))
def test_square_parts_cost_what_the_cheapest_of_all_cuttings_costs(seed: int) -> None:
    options = CutOptions(KERF, trim=Length.inches("1/2") if seed % 2 else Length(0), on_hand=list(OnHand)[seed % 3 % 2])
    lists = tiny(seed)
    assert planned(lists, options) == cheapest(lists, options)


@pytest.mark.sweep
@pytest.mark.parametrize("seed", range(1000, 1400))
def test_square_parts_again(seed: int) -> None:
    test_square_parts_cost_what_the_cheapest_of_all_cuttings_costs(seed)


@pytest.mark.sweep
@pytest.mark.parametrize("seed", [*range(12, 30), *range(1000, 1300)])
def test_mitred_parts_again(seed: int) -> None:
    test_mitred_parts_cost_what_the_cheapest_of_all_cuttings_costs(seed)


@pytest.mark.parametrize("seed", range(12))
def test_mitred_parts_cost_what_the_cheapest_of_all_cuttings_costs(seed: int) -> None:
    """Never less than the search, and never more than a search that gives each part the engine's rounding."""
    options = CutOptions(KERF, aims=(Aim.COST,))
    lists = tiny(seed, mitred=True, most=5)
    found, least, most = planned(lists, options), cheapest(lists, options), cheapest(lists, options, 3 * SLACK)
    assert (found is None) <= (most is None)
    if found is not None:
        assert least is not None
        assert least <= found
        assert most is None or found <= most
