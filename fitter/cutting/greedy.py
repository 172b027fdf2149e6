"""What a careful person does without a computer: the longest part that fits, on the first board that has room."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from fitter.cutting.job import Job
from fitter.cutting.master import Column


@dataclass
class _Load:
    """A board being filled."""

    sort: int
    counts: list[int]
    width: int = 0
    parts: list[int] = field(default_factory=list)


def by_hand(job: Job) -> list[Column] | None:
    """First-fit decreasing, boards on hand first, then one length throughout; the best of all lengths.

    Afterwards each board is changed for the cheapest that holds its parts.

    Returns:
        A pattern for each board; None where the boards on hand do not suffice and none can be bought.
    """
    plans = [plan for first in _firsts(job) if (plan := _filled(job, first)) is not None]
    return min(plans, key=lambda plan: (sum(job.sorts[sort].cost for sort, _ in plan), len(plan)), default=None)


def _firsts(job: Job) -> Iterator[int | None]:
    sold = [number for number, sort in enumerate(job.sorts) if not sort.on_hand]
    if not sold:
        yield None
    yield from sold


def _filled(job: Job, sold: int | None) -> list[Column] | None:
    loads: list[_Load] = []
    for kind, entry in enumerate(job.kinds):
        left = entry.count
        for load in loads:
            left -= _put(job, load, kind, left)
        while left:
            opened = _opened(job, loads, kind, sold)
            if opened is None:
                return None
            loads.append(opened)
            left -= _put(job, opened, kind, left)
    return [(_smaller(job, load), tuple(load.counts)) for load in loads]


def _put(job: Job, load: _Load, kind: int, most: int) -> int:
    """Lay as many parts of a kind on a board as fit; how many that are."""
    put = 0
    while put < most and _fits(job, load, kind, job.sorts[load.sort].room):
        load.counts[kind] += 1
        load.width += job.kinds[kind].width
        load.parts.append(kind)
        put += 1
    return put


def _fits(job: Job, load: _Load, kind: int, room: int) -> bool:
    width = load.width + job.kinds[kind].width
    if width > room:
        return False
    return _extra(job, [*load.parts, kind]) <= room - width


def _extra(job: Job, parts: list[int]) -> int:
    if len(job.nesting.states) == 1:
        return 0
    return job.nesting.least_extra(job.kinds[kind].edges for kind in parts)


def _opened(job: Job, loads: list[_Load], kind: int, sold: int | None) -> _Load | None:
    """A new board that holds the part: the shortest on hand, else of the one length, else the cheapest."""
    used = [sum(load.sort == number for load in loads) for number in range(len(job.sorts))]
    hand = [number for number, sort in enumerate(job.sorts) if sort.on_hand and used[number] < (sort.most or 0)]
    others = [number for number, sort in enumerate(job.sorts) if not sort.on_hand]
    others.sort(key=lambda number: job.sorts[number].cost)
    choice = [*reversed(hand), *([sold] if sold is not None else []), *others]
    empty = [0] * len(job.kinds)
    for number in choice:
        load = _Load(number, list(empty))
        if _fits(job, load, kind, job.sorts[number].room):
            return load
    return None


def _smaller(job: Job, load: _Load) -> int:
    """The cheapest board that is sold and holds what is on this one."""
    need = load.width + _extra(job, load.parts)
    fits = [number for number, sort in enumerate(job.sorts) if not sort.on_hand and sort.room >= need]
    return min([load.sort, *fits], key=lambda number: job.sorts[number].cost)
