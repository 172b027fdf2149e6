"""The least cost, proven: best bound first, branching on how many boards of each sort there are.

Prices are not proportional to length, so rounding up the relaxed cost proves nothing; what is missing sits in a few
whole numbers, the boards of each sort. Fixing those changes only limits of rows, never the patterns that are asked for.
Where all of them are whole, the cost is settled, and what is left to answer is whether a cutting with exactly these
boards exists (`realising`).
"""

from __future__ import annotations

import heapq
from dataclasses import dataclass, field, replace
from math import floor

from fitter.cutting.clock import TimeUpError
from fitter.cutting.columns import Generator, Mixture
from fitter.cutting.dive import dive
from fitter.cutting.job import Job
from fitter.cutting.master import Column, Limits
from fitter.cutting.realising import Realiser, Says

_NEARLY = 1e-6


LACKING = "limits of boards that leave parts without a place"
FLOW = "numbers of boards that have no whole cutting"
"""Steps of a proof that rest on the tolerances of floating point."""


@dataclass(frozen=True, order=True)
class Node:
    """A part of the search that is open, the lowest bound first."""

    bound: int
    number: int
    limits: Limits = field(compare=False)


@dataclass
class Search:
    """What is known of a job.

    Args:
        source: of its mixtures.
        realiser: answers whether some boards suffice.
        best: the cheapest cutting found; None so far.
        cost: of it; without one, more than any could cost.
        bound: that nothing is cheaper than.
        nodes: that were opened.
        unsettled: bounds of what could not be answered.
        tolerant: steps of the proof that rest on tolerances of floating point.
    """

    source: Generator
    realiser: Realiser
    best: list[Column] | None
    cost: int
    bound: int = 0
    nodes: int = 0
    unsettled: list[int] = field(default_factory=list)
    tolerant: dict[str, int] = field(default_factory=dict)

    @property
    def proven(self) -> bool:
        """Whether nothing is cheaper."""
        return self.bound >= self.cost

    def keep(self, plan: list[Column]) -> None:
        """Take a cutting if it is cheaper than the best so far."""
        cost = sum(self.source.job.sorts[sort].cost for sort, _ in plan)
        if cost < self.cost or self.best is None:
            self.best, self.cost = plan, cost

    def rests_on(self, step: str) -> None:
        """Note a step that integers do not cover."""
        self.tolerant[step] = self.tolerant.get(step, 0) + 1


def open_limits(job: Job, cost: int | None) -> Limits:
    """Limits that every cutting keeps which costs less than `cost`."""
    parts = sum(job.demand)
    high = []
    for sort in job.sorts:
        most = parts if sort.most is None else min(sort.most, parts)
        high.append(min(most, (cost - 1) // sort.cost) if cost is not None and sort.cost else most)
    return Limits((0,) * len(high), tuple(max(0, count) for count in high), 0, min(parts, sum(high)))


def search(source: Generator, by_hand: list[Column] | None) -> Search:
    """The cheapest cutting.

    Args:
        source: of the job's mixtures; its clock may end the search.
        by_hand: a cutting to begin with.

    Returns:
        The best found with a bound; without any cutting and with nothing open, none is possible.
    """
    job = source.job
    dearest = sum(job.demand) * max(sort.cost for sort in job.sorts) + 1
    state = Search(source, Realiser(source), None, dearest)
    if by_hand is not None:
        state.keep(by_hand)
        for column in by_hand:
            source.master.offer(column)
    open_nodes = [Node(0, 0, open_limits(job, None))]
    try:
        while open_nodes and open_nodes[0].bound < state.cost:
            # The node stays until it is done, so that the bound holds if time runs out on the way.
            children = _explored(state, open_nodes[0])
            heapq.heappop(open_nodes)
            for limits, bound in children:
                state.nodes += 1
                heapq.heappush(open_nodes, Node(bound, state.nodes, limits))
    except TimeUpError:
        pass
    except KeyboardInterrupt:
        source.clock.interrupt()
    state.bound = min([node.bound for node in open_nodes[:1]] + state.unsettled + [state.cost])
    if not state.proven:
        state.bound = max(state.bound, source.bound(open_limits(job, None)))
    return state


def _explored(state: Search, node: Node) -> list[tuple[Limits, int]]:
    """What is left open of a node, each with its bound."""
    job = state.source.job
    limits = _tightened(job, node.limits, state.cost)
    if limits.empty:
        return []
    known = max((worth.bound(job, job.demand, limits) for worth in state.source.worths), default=0)
    if known >= state.cost:
        return []
    if known > node.bound:
        return [(limits, known)]
    mixture = state.source.solve(job.demand, limits, state.cost)
    if mixture.bound >= state.cost:
        return []
    if mixture.lacking:
        state.rests_on(LACKING)
        return []
    if node.number == 0 and (plan := dive(state.source, limits, state.cost, mixture)) is not None:
        state.keep(plan)
    bound = max(node.bound, mixture.bound)
    amounts = _boards(state.source, mixture)
    return [(child, bound) for child in _branched(state, limits, amounts, bound)]


def _branched(state: Search, limits: Limits, amounts: list[float], bound: int) -> list[Limits]:
    """Two halves of a node that part at a fraction; where all are whole, what is left of it without these boards."""
    total = sum(amounts)
    if _off(total) > _NEARLY:
        return [replace(limits, most=floor(total)), replace(limits, least=floor(total) + 1)]
    weights = [max(1, sort.cost) * _off(amount) for sort, amount in zip(state.source.job.sorts, amounts, strict=True)]
    at = max(range(len(weights)), key=lambda number: weights[number])
    if _off(amounts[at]) > _NEARLY:
        return _halves(limits, at, floor(amounts[at]), floor(amounts[at]) + 1)
    boards = tuple(round(amount) for amount in amounts)
    answer = state.realiser.ask(boards)
    if answer.says is Says.YES:
        state.keep(list(answer.plan))
        if state.cost <= bound:
            return []
    elif answer.says is Says.NO_BY_TOLERANCE:
        state.rests_on(FLOW)
    elif answer.says is Says.OPEN:
        state.unsettled.append(bound)
    return _without(limits, boards)


def _without(limits: Limits, boards: tuple[int, ...]) -> list[Limits]:
    """All but one vector of boards, in parts that do not overlap."""
    parts = []
    for number, count in enumerate(boards):
        parts += _halves(limits, number, count - 1, count + 1)
        limits = replace(limits, low=_with(limits.low, number, count), high=_with(limits.high, number, count))
    return parts


def _halves(limits: Limits, sort: int, most: int, least: int) -> list[Limits]:
    """Limits with at most, and with at least, so many boards of a sort; what is empty is left out."""
    halves = []
    if limits.low[sort] <= most:
        halves.append(replace(limits, high=_with(limits.high, sort, most)))
    if limits.high[sort] >= least:
        halves.append(replace(limits, low=_with(limits.low, sort, least)))
    return halves


def _with(values: tuple[int, ...], at: int, value: int) -> tuple[int, ...]:
    return (*values[:at], value, *values[at + 1 :])


def _tightened(job: Job, limits: Limits, cost: int) -> Limits:
    """Limits that every cutting of a node keeps which is cheaper than the best so far."""
    open_ones = open_limits(job, cost)
    high = tuple(min(pair) for pair in zip(limits.high, open_ones.high, strict=True))
    return replace(limits, high=high, most=min(limits.most, open_ones.most))


def _boards(source: Generator, mixture: Mixture) -> list[float]:
    """How many boards of each sort a mixture takes."""
    amounts = [0.0] * len(source.job.sorts)
    for (sort, _), amount in zip(source.master.columns, mixture.relaxed.amounts, strict=False):
        amounts[sort] += amount
    return amounts


def _off(value: float) -> float:
    """How far a number is from a whole one."""
    return abs(value - round(value))
