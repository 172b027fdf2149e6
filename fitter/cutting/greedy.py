"""What a careful person does without a computer: the longest part that fits, on the first board that has room."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from fitter.cutting.job import Job
from fitter.cutting.master import Column


@dataclass
class _Load:
    """A board being filled.

    Args:
        sort: of the board.
        parts: kinds of the parts on it, with how many of each.
        width: of all of them.
    """

    sort: int
    parts: dict[int, int] = field(default_factory=dict)
    width: int = 0


def by_hand(job: Job) -> list[Column] | None:
    """First-fit decreasing, boards on hand first, then one length throughout; the best of all lengths.

    Afterwards each board is changed for the cheapest that holds its parts.

    Returns:
        A pattern for each board; None where the boards on hand do not suffice and none can be bought.
    """
    plans = [plan for first in _firsts(job) if (plan := _Bench(job, first).plan()) is not None]
    return min(plans, key=lambda plan: (sum(job.sorts[sort].cost for sort, _ in plan), len(plan)), default=None)


def _firsts(job: Job) -> Iterator[int | None]:
    sold = [number for number, sort in enumerate(job.sorts) if not sort.on_hand]
    if not sold:
        yield None
    yield from sold


class _Bench:
    """Boards being filled, with what is free on each beside the widths of its parts.

    Args:
        job: what is cut.
        length: the sort that is bought as long as a part fits on it; None where none is sold.
    """

    def __init__(self, job: Job, length: int | None) -> None:
        self._job = job
        self._loads: list[_Load] = []
        self._free: NDArray[np.int64] = np.zeros(64, dtype=np.int64)
        sorts = list(enumerate(job.sorts))
        # Boards on hand from the shortest on, then the one length, then others for what does not fit on that.
        hand = [number for number, sort in reversed(sorts) if sort.on_hand for _ in range(sort.most or 0)]
        others = sorted((n for n, sort in sorts if not sort.on_hand), key=lambda n: job.sorts[n].cost)
        self._hand, self._sold = hand, [*([length] if length is not None else []), *others]

    def plan(self) -> list[Column] | None:
        """All parts laid; None if boards run out."""
        for kind, entry in enumerate(self._job.kinds):
            left = entry.count
            for number in np.flatnonzero(self._free[: len(self._loads)] >= entry.width):
                left -= self._put(int(number), kind, left)
                if not left:
                    break
            while left:
                if not self._opened(kind):
                    return None
                left -= self._put(len(self._loads) - 1, kind, left)
        return [(self._smaller(load), self._pattern(load)) for load in self._loads]

    def _opened(self, kind: int) -> bool:
        """Take a new board that holds the part."""
        job = self._job
        for number in [*self._hand, *self._sold]:
            if self._most(_Load(number), kind, 1):
                break
        else:
            return False
        if number in self._hand:
            self._hand.remove(number)
        if len(self._loads) == len(self._free):
            self._free = np.concatenate((self._free, np.zeros_like(self._free)))
        self._free[len(self._loads)] = job.sorts[number].room
        self._loads.append(_Load(number))
        return True

    def _put(self, number: int, kind: int, most: int) -> int:
        """Lay as many parts of a kind on a board as fit; how many that are."""
        load = self._loads[number]
        put = self._most(load, kind, most)
        if put:
            load.parts[kind] = load.parts.get(kind, 0) + put
            load.width += put * self._job.kinds[kind].width
            self._free[number] -= put * self._job.kinds[kind].width
        return put

    def _most(self, load: _Load, kind: int, most: int) -> int:
        """How many more parts of a kind fit on a board, with what mitres take beside the widths."""
        free = self._job.sorts[load.sort].room - load.width
        width = self._job.kinds[kind].width
        most = min(most, free // width)
        while most > 0 and free - most * width < self._extra({**load.parts, kind: load.parts.get(kind, 0) + most}):
            most -= 1
        return most

    def _extra(self, parts: dict[int, int]) -> int:
        nesting, kinds = self._job.nesting, self._job.kinds
        if len(nesting.states) == 1:
            return 0
        return nesting.least_extra(kinds[kind].edges for kind, count in parts.items() for _ in range(count))

    def _smaller(self, load: _Load) -> int:
        """The cheapest board that is sold and holds what is on this one; itself if none is cheaper."""
        sorts = self._job.sorts
        need = load.width + self._extra(load.parts)
        fits = [number for number, sort in enumerate(sorts) if not sort.on_hand and sort.room >= need]
        return min([load.sort, *fits], key=lambda number: sorts[number].cost)

    def _pattern(self, load: _Load) -> tuple[int, ...]:
        return tuple(load.parts.get(kind, 0) for kind in range(len(self._job.kinds)))
