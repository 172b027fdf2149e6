"""Whether readings fix a shape, how well each is checked, and which further tie would help most."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from rooms.survey.network import Network, Points, Reals, free, rank
from rooms.survey.readings import Readings

CHECKED = 0.1
"""A redundancy number below this counts as unchecked: a slip shows with less than a tenth of its size.

Common practice in adjusting survey networks after Baarda's reliability theory (from memory).
"""
_LOOSEST = 20
"""A corner that is uncertain by more than the perimeter over this is not fixed (common practice)."""
_LOOSE = 1e-9
"""Share of the greatest diagonal term that is added to the normal equations of a shape that may be loose."""


@dataclass(frozen=True)
class Line:
    """A line that could be taped: its corners, and its name."""

    first: int
    second: int
    name: str


def untaped(readings: Readings, *, sides: bool) -> tuple[Line, ...]:
    """Lines not yet taped, ties first in the order of the corners, then sides if wanted."""
    taped = {frozenset((readings.index(a), readings.index(b))) for a, b, _ in (*readings.sides, *readings.ties)}
    count = len(readings.corners)
    lines = [(i, j) for i in range(count) for j in range(i + 1, count) if frozenset((i, j)) not in taped]
    ties = [Line(i, j, readings.pair(i, j)) for i, j in lines if not readings.neighbours(i, j)]
    edges = [(i, j) if j - i == 1 else (j, i) for i, j in lines if readings.neighbours(i, j)]
    return (*ties, *(Line(i, j, readings.pair(i, j)) for i, j in edges if sides))


@dataclass(frozen=True)
class Precision:
    """What readings tell of a shape, to first order; every reading is counted in its own limit.

    Args:
        rows: the design matrix J.
        cofactors: (J'J)^-1, the covariance of the free coordinates where each reading's limit is one.
    """

    rows: Reals
    cofactors: Reals

    @cached_property
    def numbers(self) -> Reals:
        """Redundancy numbers: the share of a slip in each reading that shows in its own residual, 0 to 1."""
        return 1.0 - self.variances(self.rows)

    @cached_property
    def residual_cofactors(self) -> Reals:
        """I - J (J'J)^-1 J', which makes residuals of slips; its diagonal holds the redundancy numbers."""
        return np.eye(len(self.rows)) - self.rows @ self.cofactors @ self.rows.T

    @property
    def spread(self) -> float:
        """The uncertainty of the least certain coordinate, in units."""
        return float(np.sqrt(max(0.0, float(np.max(np.diag(self.cofactors))))))

    def variances(self, rows: Reals) -> Reals:
        """Variance of each function of the coordinates whose derivatives are given."""
        return np.asarray(np.sum((rows @ self.cofactors) * rows, axis=1))


def precision(net: Network, points: Points) -> Precision:
    """The precision of a shape that the readings fix."""
    rows = net.design(points)
    return Precision(rows, np.asarray(np.linalg.pinv(rows.T @ rows, rcond=1e-15, hermitian=True)))


def is_fixed(net: Network, points: Points, known: Precision) -> bool:
    """Whether the readings hold every corner, by rank of the design matrix and by how well they hold it."""
    return rank(known.rows) >= net.unknowns and known.spread <= _perimeter(points) / _LOOSEST


def _perimeter(points: Points) -> float:
    return float(np.sum(abs(points - np.roll(points, 1))))


def line_rows(net: Network, points: Points, lines: Sequence[Line]) -> Reals:
    """What the design matrix gains if lines are taped, a row for each."""
    first = np.array([line.first for line in lines], dtype=np.intp)
    second = np.array([line.second for line in lines], dtype=np.intp)
    rows = np.zeros((len(lines), net.count), dtype=np.complex128)
    along = (points[second] - points[first]) / abs(points[second] - points[first]) / net.error
    rows[np.arange(len(lines)), second], rows[np.arange(len(lines)), first] = along, -along
    return free(rows)


def settling(readings: Readings, net: Network, points: Points) -> tuple[str, ...]:
    """The fewest further lines, one after another, that fix the shape: each the one that is known least.

    The line with the greatest variance a'(J'J)^-1 a adds most to the determinant of J'J (a greedy D-optimal
    design; from memory). Where the shape is loose that variance is without bound, and the faint term added to
    J'J makes it finite. Ties are tried before sides.
    """
    lines = untaped(readings, sides=True)
    rows = net.design(points)
    added = line_rows(net, points, lines)
    normal = rows.T @ rows
    faint = _LOOSE * max(float(np.max(np.diag(normal), initial=0.0)), 1.0 / net.error**2)
    cofactors = np.linalg.inv(normal + faint * np.eye(len(normal)))
    missing = net.unknowns - rank(rows)
    bound = (_perimeter(points) / _LOOSEST) ** 2
    reach = added @ cofactors
    chosen: list[int] = []
    while len(chosen) < len(lines):
        loose = np.max(np.diag(cofactors)) > bound if not missing else len(chosen) < missing
        if chosen and not loose:
            break
        variances = np.sum(reach * added, axis=1)
        variances[chosen] = 0.0
        best = _first_greatest(variances)
        if variances[best] < 1e-6:
            break
        chosen.append(best)
        share = reach[best] / (1 + variances[best])
        cofactors = cofactors - np.outer(share, reach[best])
        reach = reach - np.outer(added @ reach[best], share)
    return tuple(lines[place].name for place in chosen)


def _first_greatest(values: Reals) -> int:
    """The place of the greatest value; of those equal but for rounding the first."""
    return int(np.flatnonzero(values >= np.max(values) * (1 - 1e-6))[0])


def next_tie(readings: Readings, net: Network, points: Points, known: Precision) -> str | None:
    """The tie that would check most of the taped readings that nothing checks; None if none is left to tape.

    The gain of a new row a is (J Q a)^2 / (1 + a'Qa) with Q = (J'J)^-1 (Sherman and Morrison's update).
    """
    lines = untaped(readings, sides=False)
    if not lines:
        return None
    added = line_rows(net, points, lines)
    gain = (known.rows @ known.cofactors @ added.T) ** 2 / (1 + known.variances(added))
    after = (known.numbers[:, None] + gain)[: len(net.spans)]
    scores = [(int(np.sum(column >= CHECKED)), round(float(np.sum(column)), 9)) for column in after.T]
    return lines[max(range(len(lines)), key=lambda k: (scores[k], -k))].name
