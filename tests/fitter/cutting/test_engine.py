"""The parts of the engine by themselves."""

from __future__ import annotations

from itertools import product
from random import Random

import pytest
from cut_cases import tiny, workshop

from fitter.cutting.arcs import arcs, flow
from fitter.cutting.branching import open_limits, search
from fitter.cutting.clock import Clock
from fitter.cutting.columns import Generator, Worth
from fitter.cutting.greedy import by_hand
from fitter.cutting.job import Job, job_of
from fitter.cutting.knapsack import Knapsack
from fitter.cutting.realising import Realiser, Says
from fitter.domain.cuts import CutOptions, kerf_along
from rooms.lengths import Length

OPTIONS = CutOptions(kerf=Length.inches("1/8"))


def job(seed: int, *, mitred: bool = False) -> Job:
    pieces, stocks = tiny(seed, mitred=mitred)
    return job_of(pieces, stocks, OPTIONS, priced=True)


def fits(job: Job, counts: tuple[int, ...], room: int) -> bool:
    used = sum(count * kind.width for count, kind in zip(counts, job.kinds, strict=True))
    parts = [kind.edges for count, kind in zip(counts, job.kinds, strict=True) for _ in range(count)]
    return used + job.nesting.least_extra(parts) <= room


@pytest.mark.parametrize("kerf", ["1/8", "3/32", "1", "1/64"])
def test_what_a_mitre_takes_along_the_board_is_the_least_whole_number_above(kerf: str) -> None:
    """K √2 rounded up: its square is no less than twice that of the kerf, and one less is."""
    units, along = Length.inches(kerf).units, kerf_along(Length.inches(kerf))
    assert (along - 1) ** 2 < 2 * units**2 <= along**2


@pytest.mark.parametrize("seed", range(15))
@pytest.mark.parametrize("mitred", [False, True])
def test_best_pattern_is_the_best_of_all_patterns(seed: int, mitred: bool) -> None:
    cut = job(seed, mitred=mitred)
    random = Random(seed)
    worth = [random.randint(0, 50) for _ in cut.kinds]
    knapsack = Knapsack(cut, cut.demand)
    knapsack.fill(worth)
    for sort in cut.sorts:
        all_patterns = product(*(range(count + 1) for count in cut.demand))
        values = [
            sum(count * value for count, value in zip(counts, worth, strict=True))
            for counts in all_patterns
            if fits(cut, counts, sort.room)
        ]
        pattern = knapsack.pattern(sort.room)
        assert fits(cut, pattern, sort.room)
        assert knapsack.best(sort.room) == max(values)
        assert sum(count * value for count, value in zip(pattern, worth, strict=True)) == max(values)


@pytest.mark.parametrize("seed", range(20))
def test_any_worth_bounds_the_cost(seed: int) -> None:
    """Not only what a solver said: any whole numbers give a bound."""
    cut = job_of(*workshop(seed, most=30), OPTIONS, priced=True)
    found = search(Generator(cut, Clock()), by_hand(cut))
    assert found.proven
    random = Random(seed)
    knapsack = Knapsack(cut, cut.demand)
    for _ in range(5):
        kinds = tuple(random.randint(0, 2 * kind.width) for kind in cut.kinds)
        knapsack.fill(kinds)
        worth = Worth(
            random.randint(1, 20), kinds, random.randint(-5, 5), tuple(knapsack.best(s.room) for s in cut.sorts)
        )
        assert worth.bound(cut, cut.demand, open_limits(cut, None)) <= found.cost
        boards = tuple(sum(sort == number for sort, _ in found.best or []) for number in range(len(cut.sorts)))
        assert worth.admits(cut.demand, boards)


@pytest.mark.parametrize("seed", range(10))
@pytest.mark.parametrize("mitred", [False, True])
def test_flow_and_the_quick_ways_answer_alike(seed: int, mitred: bool) -> None:
    """Some numbers of boards, up to two of each sort, of which about half suffice."""
    cut = job(seed, mitred=mitred)
    source = Generator(cut, Clock())
    realiser = Realiser(source)
    every = list(product(*(range(min(2, sort.most or 2) + 1) for sort in cut.sorts)))[1:]
    for boards in Random(seed).sample(every, min(6, len(every))):
        answer = realiser.ask(boards)
        assert answer.says is not Says.OPEN
        _, plan = flow(cut, boards, arcs(cut, boards, source.worths), 1000, None)
        assert bool(plan) == (answer.says is Says.YES)
        for found in (plan, answer.plan):
            for sort, counts in found:
                assert fits(cut, counts, cut.sorts[sort].room)
            if found:
                made = [sum(counts[kind] for _, counts in found) for kind in range(len(cut.kinds))]
                assert all(have >= need for have, need in zip(made, cut.demand, strict=True))
                assert all(sum(s == n for s, _ in found) <= count for n, count in enumerate(boards))


@pytest.mark.parametrize("seed", range(10))
def test_by_hand_makes_every_part_and_costs_no_less_than_the_best(seed: int) -> None:
    cut = job_of(*workshop(seed, most=60, offcuts=2), OPTIONS, priced=True)
    plan = by_hand(cut)
    assert plan is not None
    made = [sum(counts[kind] for _, counts in plan) for kind in range(len(cut.kinds))]
    assert tuple(made) == cut.demand
    assert all(fits(cut, counts, cut.sorts[sort].room) for sort, counts in plan)
    assert search(Generator(cut, Clock()), plan).cost <= sum(cut.sorts[sort].cost for sort, _ in plan)


def test_a_grid_too_fine_is_made_coarser_on_the_safe_side() -> None:
    """Millimetres and an inch kerf have 1/40 mm in common, of which six metres have too many."""
    pieces, stocks = tiny(1)
    odd = CutOptions(kerf=Length(1))
    cut = job_of(pieces, stocks, odd, priced=True)
    assert cut.rounded
    for kind in cut.kinds:
        assert kind.width * cut.grid >= kind.pieces[0].length.units + 1
    for sort in cut.sorts:
        assert sort.room * cut.grid <= sort.length + 1
