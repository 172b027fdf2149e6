"""Whether readings fix a shape, how well each is checked, and which further tie would help most."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from rooms.survey.network import Network, Points, Reals, free, rank, scaled, span_row
from rooms.survey.readings import Readings

CHECKED = 0.1
"""A redundancy number below this counts as unchecked: a slip shows with less than a tenth of its size.

Common practice in adjusting survey networks after Baarda's reliability theory (from memory).
"""
_LOOSEST = 20
"""A corner that is uncertain by more than the perimeter over this is not fixed (common practice)."""


@dataclass(frozen=True)
class Line:
    """A line that could be taped: its corners, and its name."""

    first: int
    second: int
    name: str


def untaped(readings: Readings, *, sides: bool) -> tuple[Line, ...]:
    """Lines not yet taped, ties first in the order of the corners, then sides if wanted."""
    taped = [sorted((readings.index(a), readings.index(b))) for a, b, _ in (*readings.sides, *readings.ties)]
    count = len(readings.corners)
    lines = [(i, j) for i in range(count) for j in range(i + 1, count) if [i, j] not in taped]
    ties = [Line(i, j, readings.pair(i, j)) for i, j in lines if not readings.neighbours(i, j)]
    edges = [(i, j) if j - i == 1 else (j, i) for i, j in lines if readings.neighbours(i, j)]
    return (*ties, *(Line(i, j, readings.pair(i, j)) for i, j in edges if sides))


def is_fixed(net: Network, points: Points) -> bool:
    """Whether the readings hold every corner, by rank of the design matrix and by how well they hold it."""
    if rank(net.design(points)) < net.unknowns:
        return False
    perimeter = float(np.sum(abs(points - np.roll(points, 1))))
    return spread(net, points) <= perimeter / _LOOSEST


def spread(net: Network, points: Points) -> float:
    """Standard error of the least certain coordinate, in units: the root of the greatest of diag (J'J)^-1."""
    return float(np.sqrt(np.max(np.diag(_cofactors(net.design(points))))))


def _cofactors(rows: Reals) -> Reals:
    return np.asarray(np.linalg.pinv(rows.T @ rows, rcond=1e-15, hermitian=True))


def settling(readings: Readings, net: Network, points: Points) -> tuple[str, ...]:
    """The fewest further lines, one after another, that fix the shape: each the one that holds it best.

    Each choice is proved by the rank that the design matrix gains; ties are tried before sides.
    """
    rows = scaled(net.design(points))
    chosen: list[str] = []
    for _ in range(net.unknowns + 1):
        if rank(rows) >= net.unknowns and chosen:
            break
        best = _strongest(readings, points, rows, chosen)
        if best is None:
            break
        line, rows = best
        chosen.append(line.name)
    return tuple(chosen)


def _strongest(readings: Readings, points: Points, rows: Reals, chosen: list[str]) -> tuple[Line, Reals] | None:
    have = rank(rows)
    best: tuple[float, Line, Reals] | None = None
    for line in untaped(readings, sides=True):
        row = scaled(free(span_row(points, line.first, line.second)))
        wider = np.vstack([rows, row])
        singular = np.linalg.svd(wider, compute_uv=False)
        strength = round(float(singular[min(have, len(singular) - 1)]), 9)
        if line.name not in chosen and strength > 1e-6 and (best is None or strength > best[0]):
            best = (strength, line, wider)
    return best and best[1:]


def redundancy_numbers(net: Network, points: Points) -> Reals:
    """The share of a slip in each reading that shows in its own residual, 0 to 1: 1 - diag(J (J'J)^-1 J')."""
    rows = net.design(points)
    return np.asarray(1.0 - np.einsum("ij,ji->i", rows, np.linalg.pinv(rows)))


def next_tie(readings: Readings, net: Network, points: Points) -> str | None:
    """The tie that would check most of the taped readings that nothing checks; None if none is left to tape.

    The gain of a new row a is (J Q a)^2 / (1 + a'Qa) with Q = (J'J)^-1 (Sherman and Morrison's update).
    """
    lines = untaped(readings, sides=False)
    if not lines:
        return None
    rows = net.design(points)
    cofactors = _cofactors(rows)
    added = np.array([free(span_row(points, line.first, line.second)) / net.error for line in lines])
    gain = (rows @ cofactors @ added.T) ** 2 / (1 + np.einsum("ij,jk,ik->i", added, cofactors, added))
    after = (redundancy_numbers(net, points)[:, None] + gain)[: len(net.spans)]
    scores = [(int(np.sum(column >= CHECKED)), round(float(np.sum(column)), 9)) for column in after.T]
    return lines[max(range(len(lines)), key=lambda k: (scores[k], -k))].name
