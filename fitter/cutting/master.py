"""The linear programme over patterns: how much of each to cut, and what that makes parts and boards worth."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitter.cutting.job import Job
from fitter.cutting.knapsack import Pattern
from fitter.cutting.mip import INFINITY, MIXED, silent_solver

Column = tuple[int, Pattern]
"""A pattern on a board of a sort: the sort's number and the counts."""


@dataclass(frozen=True)
class Limits:
    """How many boards of each sort, and of all together.

    Args:
        low: of each sort, at least.
        high: of each sort, at most.
        least: of all.
        most: of all.
    """

    low: tuple[int, ...]
    high: tuple[int, ...]
    least: int
    most: int

    @property
    def empty(self) -> bool:
        """Whether no numbers of boards keep them."""
        crossed = any(low > high for low, high in zip(self.low, self.high, strict=True))
        return crossed or max(self.least, sum(self.low)) > min(self.most, sum(self.high))


@dataclass(frozen=True)
class Relaxed:
    """An answer of the linear programme, in floating point.

    Args:
        value: of its objective.
        amounts: of each column.
        worth: dual of each kind's demand.
        sorts: dual of each sort's limit.
        total: dual of the limit of all boards.
        lacking: how much of the demand is met by nothing.
    """

    value: float
    amounts: tuple[float, ...]
    worth: tuple[float, ...]
    sorts: tuple[float, ...]
    total: float
    lacking: float


class Master:
    """min Σ c x over patterns x ≥ 0, so that demands are met and boards keep their limits.

    What is lacking may be bought at a price that no board comes near, so that there always is an answer.

    Args:
        job: what is cut.
        lack: that price, for one part.
    """

    def __init__(self, job: Job, lack: int) -> None:
        self._job = job
        self.columns: list[Column] = []
        self._known: set[Column] = set()
        # The patterns once more, so that all can be compared with a demand at once; rows are doubled as they run out.
        self._patterns = np.zeros((64, len(job.kinds)), dtype=np.int64)
        self._open = np.ones(64, dtype=np.bool_)
        self._demand: tuple[int, ...] = job.demand
        self._bounds: dict[int, tuple[float, float]] = {}
        self._solver = silent_solver()
        # A start from the last answer is quicker than what can be saved by simplifying anew.
        self._solver.setOptionValue("presolve", "off")
        for count in job.demand:
            self._solver.addRow(count, INFINITY, 0, [], [])
        for _ in range(len(job.sorts) + 1):
            self._solver.addRow(0, INFINITY, 0, [], [])
        for kind in range(len(job.kinds)):
            self._solver.addCol(lack, 0, INFINITY, 1, [kind], [1.0])

    def lack(self, price: int) -> None:
        """Change the price of what is lacking."""
        for kind in range(len(self._job.kinds)):
            self._solver.changeColCost(kind, price)

    def offer(self, column: Column) -> bool:
        """Add a column that the demand admits; False if it is there already."""
        if column in self._known:
            return False
        self._known.add(column)
        if len(self.columns) == len(self._open):
            self._patterns = np.vstack((self._patterns, np.zeros_like(self._patterns)))
            self._open = np.concatenate((self._open, np.ones_like(self._open)))
        self._patterns[len(self.columns)] = column[1]
        self.columns.append(column)
        sort, pattern = column
        kinds = len(self._job.kinds)
        used = [kind for kind, count in enumerate(pattern) if count]
        rows = [*used, kinds + sort, kinds + len(self._job.sorts)]
        values = [*(float(pattern[kind]) for kind in used), 1.0, 1.0]
        self._solver.addCol(self._job.sorts[sort].cost, 0, INFINITY, len(rows), rows, values)
        return True

    def limit(self, demand: Sequence[int], limits: Limits) -> None:
        """Set what is needed and how many boards there may be; patterns with more parts than that are shut out."""
        kinds = len(self._job.kinds)
        if tuple(demand) != self._demand:
            self._ask(tuple(demand))
        for sort, (low, high) in enumerate(zip(limits.low, limits.high, strict=True)):
            self._bound(kinds + sort, low, high)
        self._bound(kinds + len(self._job.sorts), limits.least, limits.most)

    def _ask(self, demand: tuple[int, ...]) -> None:
        for kind, count in enumerate(demand):
            self._bound(kind, count, INFINITY)
        self._demand = demand
        fits: NDArray[np.bool_] = np.all(self._patterns[: len(self.columns)] <= np.array(demand), axis=1)
        changed = np.flatnonzero(fits != self._open[: len(self.columns)])
        for number in changed:
            self._solver.changeColBounds(len(demand) + int(number), 0, INFINITY if fits[number] else 0)
        self._open[changed] = fits[changed]

    def _bound(self, row: int, low: float, high: float) -> None:
        if self._bounds.get(row) != (low, high):
            self._bounds[row] = (low, high)
            self._solver.changeRowBounds(row, low, high)

    def solve(self) -> Relaxed:
        """The best mixture of the columns there are."""
        self._solver.run()
        status = self._solver.getModelStatus()
        assert status == MIXED, f"a mixture must exist, and the solver says {status}"
        solution = self._solver.getSolution()
        kinds, sorts = len(self._job.kinds), len(self._job.sorts)
        amounts, duals = solution.col_value, solution.row_dual
        return Relaxed(
            self._solver.getInfo().objective_function_value,
            tuple(amounts[kinds:]),
            tuple(duals[:kinds]),
            tuple(duals[kinds : kinds + sorts]),
            duals[kinds + sorts],
            sum(amounts[:kinds]),
        )
