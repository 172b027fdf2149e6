"""Column generation (Gilmore and Gomory, 1961), with a bound that rests on whole numbers alone."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

from fitter.cutting.clock import Clock
from fitter.cutting.job import Job
from fitter.cutting.knapsack import Knapsack
from fitter.cutting.master import Limits, Master, Relaxed

_FINE = 10**9
"""How finely worth is counted against the dearest board."""
_TOLERANCE = 1e-6
_DEARER = (1, 1000, 1000)
"""By how much what is lacking gets dearer, step by step, before a branch is given up as impossible."""


@dataclass(frozen=True)
class Worth:
    """A dual answer in whole numbers, each `scale` times what it stands for.

    Args:
        scale: of all the others.
        kinds: what one part of each kind is worth.
        total: dual of the limit of all boards.
        rooms: the most that a board of each sort can hold, V(room).
    """

    scale: int
    kinds: tuple[int, ...]
    total: int
    rooms: tuple[int, ...]

    def needs(self, demand: Sequence[int]) -> int:
        """What all parts are worth together: so much the boards must be able to hold."""
        return sum(count * worth for count, worth in zip(demand, self.kinds, strict=True))

    def admits(self, demand: Sequence[int], boards: Sequence[int]) -> bool:
        """Whether some numbers of boards may yield some parts, as far as this answer can tell."""
        return sum(count * room for count, room in zip(boards, self.rooms, strict=True)) >= self.needs(demand)

    def bound(self, job: Job, demand: Sequence[int], limits: Limits) -> int:
        """What no cutting within some limits costs less than.

        Any worth gives a dual answer that is feasible whatever a solver said: the dual of a sort's limit is its cost
        less the total's dual less the most that such a board can hold.
        """
        value = self.needs(demand) + self.total * (limits.least if self.total > 0 else limits.most)
        for number, sort in enumerate(job.sorts):
            dual = self.scale * sort.cost - self.total - self.rooms[number]
            value += dual * (limits.low[number] if dual > 0 else limits.high[number])
        return -(-value // self.scale)

    def eased(self, job: Job) -> Worth:
        """The same less a share, so that no board that is sold holds more than it costs (Farley, 1990).

        While patterns are still missing, this bounds the cost better.
        """
        kinds, rooms = (tuple(_FINE * value for value in values) for values in (self.kinds, self.rooms))
        sold = [(room, sort.cost) for room, sort in zip(rooms, job.sorts, strict=True) if sort.cost]
        return Worth(max([1, *(-(-room // cost) for room, cost in sold)]), kinds, 0, rooms)


@dataclass(frozen=True)
class Mixture:
    """The best mixture of patterns, or why there is none that matters.

    Args:
        bound: whole cost that no cutting is below.
        relaxed: the answer of the linear programme.
        worth: the dual answer that gave the bound.
        lacking: whether parts are missing in it: no cutting keeps the limits, as far as floating point tells.
    """

    bound: int
    relaxed: Relaxed
    worth: Worth
    lacking: bool


class Generator:
    """Solves mixtures for one job; patterns once found are kept.

    Args:
        job: what is cut.
        clock: asked before each step.
        copies: of each kind that a pattern may have; None for no more than are needed.

    Attributes:
        worths: dual answers for the whole demand; the first one is its length, the second that of the first mixture.
    """

    def __init__(self, job: Job, clock: Clock, copies: Sequence[int] | None = None) -> None:
        self.job = job
        self.clock = clock
        dearest = max((sort.cost for sort in job.sorts), default=0)
        self._scale = max(1, _FINE // max(1, dearest))
        self._lack = 2 * max(1, dearest)
        self._slack = _TOLERANCE * max(1, dearest)
        self.master = Master(job, self._lack)
        self._whole = Knapsack(job, job.demand if copies is None else copies)
        self.worths = [self._begun()]
        self._last: Worth | None = None

    def _begun(self) -> Worth:
        """One pattern for each sort at least, so that every limit can be kept; and what length alone says of worth."""
        widths = tuple(kind.width for kind in self.job.kinds)
        self._whole.fill(widths)
        for number, sort in enumerate(self.job.sorts):
            self.master.offer((number, self._whole.pattern(sort.room)))
        return Worth(1, widths, 0, tuple(self._whole.best(sort.room) for sort in self.job.sorts))

    def solve(self, demand: Sequence[int], limits: Limits, cap: int) -> Mixture:
        """The best mixture for some demand within some limits.

        Args:
            demand: of each kind, at most that of the job.
            limits: of boards.
            cap: once the bound is as high as that, nothing more is asked.
        """
        knapsack = self._whole if tuple(demand) == self.job.demand else Knapsack(self.job, demand)
        self.master.limit(demand, limits)
        found: Mixture | None = None
        price = self._lack
        for dearer in _DEARER:
            price *= dearer
            if dearer > 1:
                self.master.lack(price)
            found = self._rounds(knapsack, demand, limits, cap, found)
            if not found.lacking or found.bound >= cap:
                break
        if price > self._lack:
            self.master.lack(self._lack)
        assert found is not None
        if knapsack is self._whole:
            # Of a part of the demand, fewer copies are asked for, so that its V does not hold for all patterns.
            self.worths.append(found.worth)
        return found

    def bound(self, limits: Limits) -> int:
        """What is known of the cost by all worths so far, however far the search has come."""
        known = [*self.worths, *([self._last] if self._last is not None else [])]
        return max(worth.eased(self.job).bound(self.job, self.job.demand, limits) for worth in known)

    def _rounds(
        self, knapsack: Knapsack, demand: Sequence[int], limits: Limits, cap: int, best: Mixture | None
    ) -> Mixture:
        """Add patterns until none is worth more than its board."""
        while True:
            self.clock.check()
            relaxed = self.master.solve()
            worth = self._worth(knapsack, relaxed)
            if knapsack is self._whole:
                self._last = worth
            bound = worth.bound(self.job, demand, limits)
            better = best is None or bound >= best.bound
            lacking = relaxed.lacking > _TOLERANCE
            if best is None or better:
                best = Mixture(bound, relaxed, worth, lacking)
            best = Mixture(best.bound, relaxed, best.worth, lacking)
            settled = not lacking and best.bound >= ceil(relaxed.value - self._slack)
            if best.bound >= cap or settled or not self._more(knapsack, relaxed, worth):
                return best

    def _worth(self, knapsack: Knapsack, relaxed: Relaxed) -> Worth:
        kinds = tuple(max(0, int(self._scale * value)) for value in relaxed.worth)
        knapsack.fill(kinds)
        rooms = tuple(knapsack.best(sort.room) for sort in self.job.sorts)
        return Worth(self._scale, kinds, round(self._scale * relaxed.total), rooms)

    def _more(self, knapsack: Knapsack, relaxed: Relaxed, worth: Worth) -> bool:
        """Add the best pattern of each sort that is worth more than its board; False if there is none."""
        added = False
        for number, sort in enumerate(self.job.sorts):
            cost = sort.cost - relaxed.sorts[number] - relaxed.total
            if worth.rooms[number] > self._scale * (cost + self._slack):
                added |= self.master.offer((number, knapsack.pattern(sort.room)))
        return added
