"""The best pattern for each board, given what each part is worth: one table of whole numbers for all boards."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitter.cutting.job import Job

Pattern = tuple[int, ...]
"""How many of each kind are cut from one board."""

NEVER = -(2**61)
"""The worth of what cannot be; no sum of true worths comes near it."""


@dataclass(frozen=True)
class _Item:
    """Some copies of a kind, taken together or not at all."""

    kind: int
    copies: int
    width: int
    moves: tuple[tuple[int, int], ...]


class Knapsack:
    """V(q) = the greatest worth of parts whose widths add up to at most q (a bounded knapsack, by dynamic programming).

    Copies are split into powers of two, so that each is one sweep over the row; the row is kept for each state of the
    nesting.

    Args:
        job: what is cut.
        demand: how many of each kind at most.
    """

    def __init__(self, job: Job, demand: Sequence[int]) -> None:
        self._job = job
        self._longest = max(sort.room for sort in job.sorts)
        self._items = [
            _Item(number, copies, copies * kind.width, job.nesting.moves(kind.edges, copies))
            for number, kind in enumerate(job.kinds)
            for copies in powers(min(demand[number], self._longest // kind.width))
        ]
        first = np.full((len(job.nesting.states), self._longest + 1), NEVER, dtype=np.int64)
        first[0] = 0
        self._tables: list[NDArray[np.int64]] = [first]
        self._worth: Sequence[int] = ()

    def fill(self, worth: Sequence[int]) -> None:
        """Work the table out for what each kind is worth, whole and not negative."""
        self._worth = worth
        tables = self._tables[:1]
        for item in self._items:
            before = tables[-1]
            value = worth[item.kind] * item.copies
            if value <= 0 or item.width > self._longest:
                tables.append(before)
                continue
            after = before.copy()
            for old, new in item.moves:
                row = after[new, item.width :]
                np.maximum(row, before[old, : self._longest + 1 - item.width] + value, out=row)
            tables.append(after)
        self._tables = tables

    def best(self, room: int) -> int:
        """The greatest worth that a board of some room can hold."""
        return max(int(self._tables[-1][state, room - extra]) for state, extra in self._ends(room))

    def widths(self) -> NDArray[np.int64]:
        """The greatest worth by widths alone, whatever mitres take beside them, for every room up to the longest."""
        row: NDArray[np.int64] = self._tables[-1].max(axis=0)
        return row

    def pattern(self, room: int) -> Pattern:
        """A pattern of that worth."""
        state, extra = max(self._ends(room), key=lambda end: int(self._tables[-1][end[0], room - end[1]]))
        left = room - extra
        counts = [0] * len(self._job.kinds)
        for step in range(len(self._items) - 1, -1, -1):
            before, after = self._tables[step], self._tables[step + 1]
            if before is after or before[state, left] == after[state, left]:
                continue
            item = self._items[step]
            worth = after[state, left] - self._worth[item.kind] * item.copies
            left -= item.width
            state = next(old for old, new in item.moves if new == state and before[old, left] == worth)
            counts[item.kind] += item.copies
        return tuple(counts)

    def _ends(self, room: int) -> list[tuple[int, int]]:
        return [(state, extra) for state, extra in enumerate(self._job.nesting.extra) if extra <= room]


def powers(count: int) -> list[int]:
    """Powers of two and a rest that make every number up to `count`.

    >>> powers(6)
    [1, 2, 3]
    """
    powers = []
    power = 1
    while count > 0:
        powers.append(min(power, count))
        count -= power
        power *= 2
    return powers
