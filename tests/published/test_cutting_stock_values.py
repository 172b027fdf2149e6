"""Cutting-stock problems with a known optimum: no kerf, more parts than needed may be cut.

W, rolls of 5600 mm (encyclopaedia text, graphsearch.epfl.ch, concept 826868): 73 rolls, with the trim loss published.
G, Gilmore and Gomory 1961 as in the cutting-stock model of GAMS (data from miro.gams.com): 453, computed with another
exact method; its area bound is 416. S, data of a public course repository: 74, computed, and its area bound. C,
Chvátal, Linear Programming, ch. 13 (data from memory): 44, its area bound. A, a textbook of a modelling language (data
from memory): 47, computed. Triplets: Falkenauer 1996, a third of the parts by construction.
"""

from __future__ import annotations

import pytest
from cut_cases import Lists, listed, triplets

from fitter.checking import check_plan
from fitter.cutting import plan_boards
from fitter.domain.cuts import Aim, CutOptions

_W = listed(5600, [
    (1380, 22), (1520, 25), (1560, 12), (1710, 14), (1820, 18), (1880, 18), (1930, 20), (2000, 10), (2050, 12),
    (2100, 14), (2140, 16), (2150, 18), (2200, 20),
])  # fmt: skip
_G = listed(100, [(45, 97), (36, 610), (31, 395), (14, 211)])
_S = listed(22, [(7, 110), (5, 120), (3, 80)])
_C = listed(91, [("25.5", 78), ("22.5", 40), (20, 30), (15, 30)])
_A = listed(110, [(20, 48), (45, 35), (50, 24), (55, 10), (75, 8)])

OPTIONS = CutOptions(aims=(Aim.COST,))


@pytest.mark.parametrize(
    ("lists", "boards"), [(_W, 73), (_G, 453), (_S, 74), (_C, 44), (_A, 47)], ids=["W", "G", "S", "C", "A"]
)
def test_published_problem_takes_its_known_number_of_boards(lists: Lists, boards: int) -> None:
    pieces, stocks = lists
    plan = plan_boards(pieces, stocks, OPTIONS)
    assert (plan.cost, plan.bound, len(plan.boards)) == (boards, boards, boards)
    assert check_plan(pieces, stocks, OPTIONS, plan) == ()


def test_published_trim_loss_of_the_rolls() -> None:
    """1640 mm of 408,800, the 0.401 % that is published for W."""
    pieces, stocks = _W
    plan = plan_boards(pieces, stocks, CutOptions(aims=(Aim.COST,), least_offcut=stocks[0].length))
    assert plan.waste.mm == 1640
    assert round(100 * 1640 / (73 * 5600), 3) == 0.401


@pytest.mark.parametrize(("seed", "boards"), [(1, 20), (2, 20), (3, 20), (4, 20), (5, 40), (6, 40)])
def test_triplets_leave_nothing(seed: int, boards: int) -> None:
    pieces, stocks = triplets(seed, boards)
    plan = plan_boards(pieces, stocks, OPTIONS)
    assert (plan.cost, plan.bound) == (boards, boards)
    assert plan.waste.units == 0
    assert check_plan(pieces, stocks, OPTIONS, plan) == ()
