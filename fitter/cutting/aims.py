"""The aims after cost, one after another, each with all before it kept."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fitter.cutting.branching import Search, open_limits
from fitter.cutting.clock import TimeUpError
from fitter.cutting.job import Job
from fitter.cutting.master import Column
from fitter.cutting.offcut import longest
from fitter.cutting.patterns import boards_of, repeated, rest
from fitter.cutting.realising import Says
from fitter.domain.cuts import Aim, CutOptions, OnHand, Reached

_MOST_VECTORS = 50_000
_MOST_TRIALS = 40
"""Numbers of boards that are tried in earnest before a plan is left as it is."""


@dataclass(frozen=True)
class Chosen:
    """A plan with what was reached of each aim after cost.

    Args:
        plan: a pattern for each board, no part too many.
        reached: aim by aim.
    """

    plan: tuple[Column, ...]
    reached: tuple[Reached, ...]


def chosen(search: Search, options: CutOptions) -> Chosen:
    """The best of the cheapest plans.

    Aims that depend on the boards alone (fewest, least waste) are taken before those that depend on the cuts (fewest
    patterns, longest offcut), each group in the user's order.

    Args:
        search: that found a plan; unless it is proven the cheapest, other aims are only told.
        options: with the aims.
    """
    job = search.source.job
    plan = _trimmed(job, search.best or [])
    count = _Count(job, options)
    first = [aim for aim in options.aims if aim in (Aim.BOARDS, Aim.WASTE)]
    later = [aim for aim in options.aims if aim in (Aim.PATTERNS, Aim.OFFCUT)]
    proven = sure = False
    try:
        if search.proven and first:
            plan, proven = _fewer_boards(search, plan, first, count)
        if search.proven and later[:1] == [Aim.OFFCUT]:
            plan, sure = longest(search, plan)
        if search.proven and Aim.PATTERNS in later:
            plan = repeated(search, plan, later)
    except TimeUpError:
        pass
    except KeyboardInterrupt:
        search.source.clock.interrupt()
    reached = []
    for aim in [aim for aim in options.aims if aim is not Aim.COST]:
        value = _value(job, plan, aim, count)
        if aim in first:
            bound = value if proven else None
        elif aim is Aim.PATTERNS:
            bound = len({sort for sort, _ in plan})  # boards of different length are different patterns
        else:
            bound = value if sure else None
        reached.append(Reached(aim, value, bound))
    return Chosen(tuple(plan), tuple(reached))


@dataclass(frozen=True)
class _Count:
    """Which boards count as used."""

    job: Job
    options: CutOptions

    def counts(self, sort: int) -> bool:
        return not self.job.sorts[sort].on_hand or self.options.on_hand is OnHand.CHEAPER

    def vector(self, boards: Sequence[int], aims: Sequence[Aim]) -> tuple[int, ...]:
        number = sum(count for sort, count in enumerate(boards) if self.counts(sort))
        length = sum(count * self.job.sorts[sort].length for sort, count in enumerate(boards) if self.counts(sort))
        return tuple(number if aim is Aim.BOARDS else length for aim in aims)


def _value(job: Job, plan: Sequence[Column], aim: Aim, count: _Count) -> int:
    if aim is Aim.PATTERNS:
        return len(set(plan))
    if aim is Aim.OFFCUT:
        return max((rest(job, column) * job.grid for column in plan), default=0)
    number, length = count.vector(boards_of(job, plan), (Aim.BOARDS, Aim.WASTE))
    return number if aim is Aim.BOARDS else length


def _trimmed(job: Job, plan: Sequence[Column]) -> list[Column]:
    """A plan without parts that are too many, and without boards that then are empty."""
    left = list(job.demand)
    kept = []
    for sort, pattern in sorted(plan):
        counts = tuple(min(count, need) for count, need in zip(pattern, left, strict=True))
        left = [need - count for count, need in zip(counts, left, strict=True)]
        if any(counts):
            kept.append((sort, counts))
    return kept


def _fewer_boards(search: Search, plan: list[Column], aims: Sequence[Aim], count: _Count) -> tuple[list[Column], bool]:
    """The cheapest plan with the best boards, and whether that is proven."""
    job = search.source.job
    now = count.vector(boards_of(job, plan), aims)
    found = _Vectors(search, count, aims, now)
    better = sorted((count.vector(boards, aims), boards) for boards in found)
    proven, trials = found.complete, 0
    for vector, boards in better:
        if vector >= now:
            break
        if not all(worth.admits(job.demand, boards) for worth in search.source.worths):
            continue
        trials += 1
        if trials > _MOST_TRIALS:
            return plan, False
        answer = search.realiser.ask(boards)
        if answer.says is Says.YES:
            return _trimmed(job, answer.plan), proven
        proven = proven and answer.says is not Says.OPEN
    return plan, proven


class _Vectors:
    """All numbers of boards that cost exactly so much, might be better than those of a plan, and hold enough worth.

    Boards on hand that do not count are all there for the taking.
    """

    def __init__(self, search: Search, count: _Count, aims: Sequence[Aim], now: tuple[int, ...]) -> None:
        self.complete = True
        self._search, self._count, self._aims, self._now = search, count, aims, now
        self._job = search.source.job
        self._most = open_limits(self._job, search.cost + 1).high
        sorts = self._job.sorts
        self._asked = sorted((n for n in range(len(sorts)) if count.counts(n)), key=lambda n: -sorts[n].cost)
        self._worth = search.source.worths[:2][-1]
        self._steps = 0

    def __iter__(self) -> Iterator[tuple[int, ...]]:
        boards = [0 if number in self._asked else most for number, most in enumerate(self._most)]
        rooms = self._worth.rooms
        held = sum(count * room for count, room in zip(boards, rooms, strict=True))
        # Boards that cost nothing can always hold what they hold.
        held += sum(self._most[n] * rooms[n] for n in self._asked if not self._job.sorts[n].cost)
        yield from self._from(0, boards, self._search.cost, self._worth.needs(self._job.demand) - held)

    def _from(self, at: int, boards: list[int], left: int, needs: int) -> Iterator[tuple[int, ...]]:
        self._steps += 1
        if self._steps > _MOST_VECTORS:
            self.complete = False
        if not self.complete or self._count.vector(boards, self._aims) >= self._now:
            return
        if at == len(self._asked):
            if left == 0:
                yield tuple(boards)
            return
        if self._hopeless(at, boards, left, needs):
            return
        sort = self._asked[at]
        cost, room = self._job.sorts[sort].cost, self._worth.rooms[sort]
        most = min(self._most[sort], left // cost) if cost else self._most[sort]
        # The last one has to take all the money that is left.
        last = at == len(self._asked) - 1 and cost
        numbers = range(left // cost, most + 1 if left % cost == 0 else 0) if last else range(most + 1)
        for number in numbers:
            boards[sort] = number
            yield from self._from(at + 1, boards, left - number * cost, needs - number * room * (cost > 0))
        boards[sort] = 0

    def _hopeless(self, at: int, boards: list[int], left: int, needs: int) -> bool:
        """Whether the money that is left buys too little worth, or takes too many boards to be spent."""
        sorts, rest = self._job.sorts, self._asked[at:]
        if not any(needs * sorts[n].cost <= left * self._worth.rooms[n] for n in rest if sorts[n].cost) and needs > 0:
            return True
        if self._aims[0] is not Aim.BOARDS:
            return False
        (used,) = self._count.vector(boards, (Aim.BOARDS,))
        return left > (self._now[0] - used) * sorts[rest[0]].cost
