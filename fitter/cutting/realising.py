"""Whether a cutting with exactly so many boards of each sort exists."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from fitter.cutting.arcs import arcs, flow
from fitter.cutting.columns import Generator
from fitter.cutting.dive import dive
from fitter.cutting.job import Job
from fitter.cutting.master import Column, Limits
from fitter.cutting.mip import Ended, Programme

_POOL_NODES = 60
_ARC_NODES = 5_000
"""Nodes of the library's search, not seconds, so that the same job always ends the same way."""
_MOST_ARCS = 60_000
_MOST_COLUMNS = 600
_WORTHS = 6
"""Dual answers that are tried on arcs: the last ones, which belong to boards like those in question."""


class Says(Enum):
    """Yes, no by whole numbers, no as far as floating point tells, or not known."""

    YES = "yes"
    NO = "no"
    NO_BY_TOLERANCE = "no by tolerance"
    OPEN = "open"


def meets(job: Job, plan: Sequence[Column], boards: Sequence[int]) -> bool:
    """Whether a cutting makes every part from these boards; whole numbers, so that no rounded answer slips through."""
    made = [sum(pattern[kind] for _, pattern in plan) for kind in range(len(job.kinds))]
    used = [sum(sort == number for sort, _ in plan) for number in range(len(boards))]
    enough = all(count >= need for count, need in zip(made, job.demand, strict=True))
    return enough and all(count <= most for count, most in zip(used, boards, strict=True))


@dataclass(frozen=True)
class Answer:
    """An answer with, if yes, a pattern for each board."""

    says: Says
    plan: tuple[Column, ...] = ()


class Realiser:
    """Answers for one job.

    Args:
        source: of its mixtures.
    """

    def __init__(self, source: Generator) -> None:
        self._source = source
        self._known: dict[tuple[int, ...], Answer] = {}

    def ask(self, boards: tuple[int, ...]) -> Answer:
        """Whether some boards suffice; tries what is quick first."""
        if boards not in self._known:
            self._known[boards] = self._asked(boards)
        return self._known[boards]

    def _asked(self, boards: tuple[int, ...]) -> Answer:
        job = self._source.job
        cost = sum(sort.cost * count for sort, count in zip(job.sorts, boards, strict=True))
        limits = Limits((0,) * len(boards), boards, 0, sum(boards))
        if any(not worth.admits(job.demand, boards) for worth in self._source.worths):
            return Answer(Says.NO)
        mixture = self._source.solve(job.demand, limits, cost + 1)
        if any(not worth.admits(job.demand, boards) for worth in self._source.worths[-1:]):
            return Answer(Says.NO)
        if mixture.lacking:
            return Answer(Says.NO_BY_TOLERANCE)
        if (plan := dive(self._source, limits, cost + 1, mixture)) is not None:
            return Answer(Says.YES, tuple(plan))
        if pooled := self._from_pool(boards):
            return Answer(Says.YES, pooled)
        return self._by_flow(boards)

    def _from_pool(self, boards: Sequence[int]) -> tuple[Column, ...]:
        """A cutting from the patterns at hand that such a cutting can use."""
        job, worth = self._source.job, self._source.worths[-1]
        slack = sum(count * room for count, room in zip(boards, worth.rooms, strict=True)) - worth.needs(job.demand)
        columns = [
            column for column in self._source.master.columns
            if boards[column[0]] and worth.rooms[column[0]] - worth.needs(column[1]) <= slack
        ]  # fmt: skip
        if len(columns) > _MOST_COLUMNS:
            return ()
        kinds = len(job.kinds)
        rows = [(float(count), float("inf")) for count in job.demand] + [(0.0, float(count)) for count in boards]
        programme = Programme(rows)
        for sort, pattern in columns:
            entries = [(kind, float(count)) for kind, count in enumerate(pattern) if count]
            programme.add(0.0, float(boards[sort]), [*entries, (kinds + sort, 1.0)])
        _, amounts, _ = programme.solve(_POOL_NODES, self._source.clock.left)
        plan = [column for column, amount in zip(columns, amounts, strict=False) for _ in range(amount)]
        return tuple(plan) if meets(job, plan, boards) else ()

    def _by_flow(self, boards: tuple[int, ...]) -> Answer:
        job = self._source.job
        found = arcs(job, boards, self._source.worths[-_WORTHS:])
        if len(found) > _MOST_ARCS:
            return Answer(Says.OPEN)
        ended, plan = flow(job, boards, found, _ARC_NODES, self._source.clock.left)
        self._source.clock.check()
        if meets(job, plan, boards):
            return Answer(Says.YES, tuple(plan))
        return Answer(Says.NO_BY_TOLERANCE if ended is Ended.NONE else Says.OPEN)
