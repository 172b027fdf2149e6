"""The longest offcut that some boards can leave, found exactly: the longest part that may be asked for besides."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from fitter.cutting.branching import Search
from fitter.cutting.columns import Generator
from fitter.cutting.job import Job, Kind
from fitter.cutting.master import Column
from fitter.cutting.nesting import SQUARE_FACE
from fitter.cutting.patterns import boards_of, rest
from fitter.cutting.realising import Realiser, Says


def longest(search: Search, plan: Sequence[Column]) -> tuple[list[Column], bool]:
    """A cutting from the same boards that leaves the longest offcut on one of them.

    What can be had besides the parts can be had shorter too, so halving finds the longest; each step asks whether
    these boards yield the parts and one more.

    Args:
        search: that knows the job.
        plan: to begin with.

    Returns:
        The cutting, and whether none leaves a longer one.
    """
    job, boards, best, sure = search.source.job, boards_of(search.source.job, plan), list(plan), True
    free = sum(sort.room * count for sort, count in zip(job.sorts, boards, strict=True))
    free -= sum(kind.width * kind.count for kind in job.kinds)
    low = max(rest(job, column) for column in best)
    high = min(free, max(job.sorts[sort].room for sort, _ in best))
    while low < high:
        length = (low + high + 1) // 2
        answer = Realiser(Generator(_with(job, length), search.source.clock)).ask(boards)
        if answer.says is Says.YES:
            best = _without_it(job, answer.plan)
            low = max(length, max(rest(job, column) for column in best))
        else:
            sure = sure and answer.says is not Says.OPEN
            high = length - 1
    return best, sure


def _with(job: Job, width: int) -> Job:
    """The job with one square part more, without a name."""
    return replace(job, kinds=(*job.kinds, Kind(width, 1, ((SQUARE_FACE, SQUARE_FACE),), ())))


def _without_it(job: Job, plan: Sequence[Column]) -> list[Column]:
    """A cutting without that part, and without parts that are too many."""
    left = list(job.demand)
    kept = []
    for sort, counts in plan:
        own = tuple(min(count, need) for count, need in zip(counts[:-1], left, strict=True))
        left = [need - count for need, count in zip(left, own, strict=True)]
        kept += [(sort, own)] if any(own) else []
    return kept
