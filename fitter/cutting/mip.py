"""Whole-number programmes for the last questions; the only other use of the library is in `master`."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from enum import Enum

import numpy as np
from highspy import _core as highs

INFINITY = highs.kHighsInf
MIXED = highs.HighsModelStatus.kOptimal
"""Status of a linear programme that is solved."""


class Ended(Enum):
    """How a programme ended; `NONE`: it has no answer, as far as floating point tells."""

    SOLVED = "solved"
    NONE = "none"
    OPEN = "open"


@dataclass
class Programme:
    """min Σ c x over whole x in [0, most], subject to rows of which each lies between two numbers.

    Args:
        rows: lower and upper end of each.
        costs: of each variable.
        most: of each variable.
        entries: of each variable, rows and coefficients.
    """

    rows: list[tuple[float, float]]
    costs: list[float] = field(default_factory=list)
    most: list[float] = field(default_factory=list)
    entries: list[Sequence[tuple[int, float]]] = field(default_factory=list)

    def add(self, cost: float, most: float, entries: Sequence[tuple[int, float]]) -> int:
        """Add a variable; its number comes back."""
        self.costs.append(cost)
        self.most.append(most)
        self.entries.append(entries)
        return len(self.costs) - 1

    def solve(
        self, nodes: int, seconds: float | None, start: Sequence[int] | None = None
    ) -> tuple[Ended, tuple[int, ...], float]:
        """Solve it.

        Args:
            nodes: of the search at most, so that the same programme always ends the same way.
            seconds: at most; None for no limit.
            start: an answer to begin with.

        Returns:
            How it ended, the answer (empty if there is none), and the bound of its cost.
        """
        solver = silent_solver()
        solver.setOptionValue("mip_max_nodes", nodes)
        # Costs are whole: what is less than one better is not better.
        solver.setOptionValue("mip_abs_gap", 0.999)
        solver.setOptionValue("mip_rel_gap", 0.0)
        if seconds is not None:
            solver.setOptionValue("time_limit", seconds)
        solver.passModel(self._model())
        if start is not None:
            solution = highs.HighsSolution()
            solution.col_value = [float(value) for value in start]
            solver.setSolution(solution)
        solver.run()
        status, info = solver.getModelStatus(), solver.getInfo()
        if status == highs.HighsModelStatus.kInfeasible:
            return Ended.NONE, (), 0.0
        found = info.primal_solution_status == highs.SolutionStatus.kSolutionStatusFeasible
        values = tuple(round(value) for value in solver.getSolution().col_value) if found else ()
        solved = status == highs.HighsModelStatus.kOptimal
        return Ended.SOLVED if solved else Ended.OPEN, values, info.mip_dual_bound

    def _model(self) -> highs.HighsLp:
        model = highs.HighsLp()
        model.num_col_, model.num_row_ = len(self.costs), len(self.rows)
        model.col_cost_ = np.array(self.costs)
        model.col_lower_ = np.zeros(len(self.costs))
        model.col_upper_ = np.array(self.most, dtype=float)
        model.row_lower_ = np.array([low for low, _ in self.rows], dtype=float)
        model.row_upper_ = np.array([high for _, high in self.rows], dtype=float)
        model.integrality_ = [highs.HighsVarType.kInteger] * len(self.costs)
        model.a_matrix_.format_ = highs.MatrixFormat.kColwise
        model.a_matrix_.start_ = np.cumsum([0, *(len(entries) for entries in self.entries)])
        model.a_matrix_.index_ = np.array([row for entries in self.entries for row, _ in entries])
        model.a_matrix_.value_ = np.array([value for entries in self.entries for _, value in entries], dtype=float)
        return model


def silent_solver() -> highs._Highs:
    """A solver that prints nothing, uses one thread and gives the same answer every time."""
    # The public class, a subclass, prints a banner on standard output as it is made.
    solver = highs._Highs()
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("threads", 1)
    solver.setOptionValue("random_seed", 0)
    return solver
