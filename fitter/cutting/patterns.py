"""Fewer settings of the stop block, and one long offcut: which patterns to use, with the boards given.

Only patterns that the search has met are looked at, so the answer is the best found and not proven.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from fitter.cutting.branching import Search
from fitter.cutting.job import Job
from fitter.cutting.master import Column
from fitter.cutting.mip import INFINITY, Programme
from fitter.cutting.realising import meets
from fitter.domain.cuts import Aim

_MOST_PATTERNS = 60
_NODES = 1
"""Of the library's search; more find little more, and take seconds."""


def boards_of(job: Job, plan: Sequence[Column]) -> tuple[int, ...]:
    """How many boards of each sort a plan takes."""
    return tuple(sum(sort == number for sort, _ in plan) for number in range(len(job.sorts)))


def rest(job: Job, column: Column) -> int:
    """What is left of a board behind its parts and their saw cuts, in steps."""
    sort, pattern = column
    used = sum(count * kind.width for count, kind in zip(pattern, job.kinds, strict=True))
    parts = (kind.edges for count, kind in zip(pattern, job.kinds, strict=True) for _ in range(count))
    return job.sorts[sort].room - used - job.nesting.least_extra(parts)


def repeated(search: Search, plan: list[Column], aims: Sequence[Aim]) -> list[Column]:
    """A plan from the same boards with fewer patterns, or a longer offcut.

    Args:
        search: whose patterns are looked at.
        plan: to begin with.
        aims: patterns and offcut, in their order; where the offcut comes first, the plan leaves the longest.
    """
    question = _Question.of(search, plan)
    kept: dict[Aim, int] = {}
    for number, aim in enumerate(aims):
        # An offcut that comes first is the longest already.
        if number or aim is Aim.PATTERNS:
            plan = question.better(aim, plan, kept, search.source.clock.left)
            search.source.clock.check()
        kept[aim] = question.value(aim, plan)
    return plan


@dataclass(frozen=True)
class _Question:
    """How many of each pattern (x), whether it is used (y), and which one's offcut counts (b).

    Args:
        job: what is cut.
        pool: patterns, those of the first plan among them.
        boards: of each sort.
    """

    job: Job
    pool: tuple[Column, ...]
    boards: tuple[int, ...]

    @classmethod
    def of(cls, search: Search, plan: Sequence[Column]) -> _Question:
        """The question with the patterns that a cutting from these boards can use, the least wasteful first."""
        job, worth, boards = search.source.job, search.source.worths[-1], boards_of(search.source.job, plan)
        slack = sum(count * room for count, room in zip(boards, worth.rooms, strict=True)) - worth.needs(job.demand)
        used = dict.fromkeys(plan)
        wasted = [
            (lost, column)
            for column in search.source.master.columns
            if boards[column[0]] and column not in used
            and (lost := worth.rooms[column[0]] - worth.needs(column[1])) <= slack
        ]  # fmt: skip
        return cls(job, (*used, *(column for _, column in sorted(wasted)[:_MOST_PATTERNS])), boards)

    def value(self, aim: Aim, plan: Sequence[Column]) -> int:
        """What an aim comes to: patterns, or steps of the longest offcut."""
        return len(set(plan)) if aim is Aim.PATTERNS else max(rest(self.job, column) for column in plan)

    def better(self, aim: Aim, plan: list[Column], kept: dict[Aim, int], seconds: float | None) -> list[Column]:
        """The best plan that is found for an aim, with others kept."""
        programme = self._programme(aim, kept)
        _, values, _ = programme.solve(_NODES, seconds, self._start(plan))
        if not values:
            return plan
        amounts = values[: len(self.pool)]
        found = [column for column, amount in zip(self.pool, amounts, strict=True) for _ in range(amount)]
        if not meets(self.job, found, self.boards):
            return plan
        gain = self.value(aim, found) - self.value(aim, plan)
        return found if (gain < 0 if aim is Aim.PATTERNS else gain > 0) else plan

    def _programme(self, aim: Aim, kept: dict[Aim, int]) -> Programme:
        kinds, sorts = len(self.job.kinds), len(self.boards)
        rests = [rest(self.job, column) for column in self.pool]
        rows = [(float(count), float(count)) for count in (*self.job.demand, *self.boards)]
        used, once, long, link = kinds + sorts, kinds + sorts + 1, kinds + sorts + 2, kinds + sorts + 3
        rows += [
            (0.0, float(kept.get(Aim.PATTERNS, len(self.pool)))),
            (0.0, 1.0),
            (float(kept.get(Aim.OFFCUT, 0)), INFINITY),
        ]
        for column in self.pool:
            rows += [(-float(self._most(column)), 0.0), (0.0, INFINITY)]
        programme = Programme(rows)
        for number, (sort, pattern) in enumerate(self.pool):
            entries = [(kind, float(count)) for kind, count in enumerate(pattern) if count]
            entries += [(kinds + sort, 1.0), (link + 2 * number, 1.0), (link + 2 * number + 1, 1.0)]
            programme.add(0.0, self._most((sort, pattern)), entries)
        for number, column in enumerate(self.pool):
            cost = 1.0 if aim is Aim.PATTERNS else 0.0
            programme.add(cost, 1, [(used, 1.0), (link + 2 * number, -float(self._most(column)))])
        for number, left in enumerate(rests):
            cost = -float(left) if aim is Aim.OFFCUT else 0.0
            programme.add(cost, 1, [(once, 1.0), (long, float(left)), (link + 2 * number + 1, -1.0)])
        return programme

    def _start(self, plan: Sequence[Column]) -> list[int]:
        amounts = [plan.count(column) for column in self.pool]
        longest = max(range(len(self.pool)), key=lambda n: (amounts[n] > 0, rest(self.job, self.pool[n])))
        return [*amounts, *(int(amount > 0) for amount in amounts), *(int(n == longest) for n in range(len(self.pool)))]

    def _most(self, column: Column) -> int:
        """How many boards of a pattern make no part too often."""
        needs = [need // count for count, need in zip(column[1], self.job.demand, strict=True) if count]
        return min([self.boards[column[0]], *needs])
