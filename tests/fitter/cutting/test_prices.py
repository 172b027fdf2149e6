"""Prices of lengths bound the boards of any list, not only of the one that they come from."""

from __future__ import annotations

from dataclasses import replace
from random import Random

import pytest
from cut_cases import workshop

from fitter.cutting import board_prices, plan_boards
from fitter.domain.cuts import Aim, CutOptions, Piece
from fitter.domain.woodwork import EndCut, Slant
from rooms.lengths import Length

OPTIONS = CutOptions(kerf=Length.inches("1/8"), aims=(Aim.COST,))
MOST_GAP = 6
"""Per cent; CUTTING figures: the relaxed cost lies at most 5.8 % under the least."""


@pytest.mark.parametrize("seed", range(10))
def test_prices_bound_other_lists_from_the_same_boards(seed: int) -> None:
    """Other lengths, counts and marks; boards on hand among the boards every other time."""
    pieces, stocks = workshop(seed, most=60, offcuts=3 * (seed % 2))
    (prices,) = board_prices(pieces, stocks, OPTIONS)
    random = Random(seed)
    for _ in range(3):
        others = [
            replace(piece, length=piece.length + Length(random.randint(-8000, 8000)), count=random.randint(1, 6))
            for piece in random.sample(pieces, random.randint(1, 8))
        ]
        others = [piece for piece in others if piece.length.units > 0]
        plan = plan_boards(others, stocks, OPTIONS)
        assert plan.cost is not None
        assert prices.bound(others) <= plan.cost


@pytest.mark.parametrize("seed", range(6))
def test_prices_are_near_the_cost_of_their_own_list(seed: int) -> None:
    pieces, stocks = workshop(seed)
    (prices,) = board_prices(pieces, stocks, OPTIONS)
    plan = plan_boards(pieces, stocks, OPTIONS)
    assert plan.cost is not None
    assert plan.cost * (100 - MOST_GAP) <= 100 * prices.bound(pieces) <= 100 * plan.cost


@pytest.mark.parametrize("seed", range(6))
def test_what_fits_on_a_board_is_worth_no_more_than_it_costs(seed: int) -> None:
    pieces, stocks = workshop(seed, most=60)
    (prices,) = board_prices(pieces, stocks, OPTIONS)
    random = Random(seed)
    for stock in stocks:
        for _ in range(40):
            room, worth = stock.length + OPTIONS.kerf, prices.constant
            while (length := Length(random.randint(1, stock.length.units))) + OPTIONS.kerf <= room:
                room -= length + OPTIONS.kerf
                worth += prices.price_of(length)
            assert stock.price is not None
            assert worth <= stock.price


def test_a_longer_part_is_worth_no_less() -> None:
    pieces, stocks = workshop(2)
    (prices,) = board_prices(pieces, stocks, OPTIONS)
    worth = [prices.price_of(Length.inches(length)) for length in range(1, 190)]
    assert worth == sorted(worth)
    assert worth[-1] > 0


def test_mitred_lists_are_bounded_too() -> None:
    pieces, stocks = workshop(4, most=60)
    (prices,) = board_prices(pieces, stocks, OPTIONS)
    mitre = EndCut(Length.inches("7/2"), Slant.WIDTH)
    others = [Piece("T", "2x4", Length.inches(30), 7, (mitre, mitre)), Piece("S", "2x4", Length.inches(22), 5)]
    plan = plan_boards(others, stocks, OPTIONS)
    assert plan.cost is not None
    assert 0 < prices.bound(others) <= plan.cost
