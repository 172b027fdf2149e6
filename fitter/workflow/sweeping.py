"""One number of a project over a range: exactly where the answer changes, with few solves.

**What is asked.** Of each value v the answer A(v) is what the model finds best there, as far as it is shown. Wanted are
all values of the grid at which A changes, no fewer: an answer that comes and goes between two equal ones is not to be
missed. So two equal answers say nothing by themselves about those between them; what says it is a bound.

**What a reading is.** `Asker.read` makes the objectives least one after another, in the order of the project, until
those that are shown are settled; where the layout is shown in a word, until no layout with another word is as good.
It gives the values reached, ranks r1, r2, …, and the number d of them that decide: *every* layout of that project
whose first d ranks are these shows the same. Ranks are compared in dictionary order, as the search does.

**The bound over an interval.** Let `less_asked` know that each project from value i to value j asks no more than the
one before it, for at least d leading values. Take v between. The best of i is a layout of v, no worse there: so
best(v) is no worse than best(i) in the first d ranks. The best of v is a layout of j, no worse there: so best(j) is no
worse than best(v). If best(i) and best(j) agree in the first d ranks, best(v) has the same ranks, being squeezed
between them; and as a layout of j with those d ranks it shows what j shows, d being the number that decides at j.
Nothing changes in between, whatever other layouts come and go. So one solve at either end is one for all values
between. Where each project asks no less than the one before it, it is the same with i and j changed over.

Where both ends disagree, something changes between, and the middle is solved: the model is asked in earnest for each
half. Halving alone would be blind; here no half is left before the bound closes it, or each of its values is solved.
A change costs about as many solves as the number of values has binary digits.

**Prices** change what is cheapest at every value. But the money of any one choice (layout, posts, boards) is a straight
line over the price, so the least money of all is concave. Where it lies on one straight line at both ends and in the
middle, it does so throughout; and a choice that is best somewhere strictly between touches that line there without
passing under it at the ends, so it lies on it everywhere. Hence the same choices tie at all values strictly between,
and whatever comes after money is as in the middle (`_straight`). The ends are solved: there more may tie.

**Where nothing is known** of how a number bears on the answer (no bound for enough ranks), every value is solved.

Values for which the file itself is wrong part the range; each sound part is swept by itself. An answer that was not
proven within its time bounds nothing: between two such with the same look, nothing is solved, and all are `found`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from fitter.domain.findings import Finding, ProjectError, Severity
from fitter.domain.layout import Verdict
from fitter.domain.project import Project
from fitter.domain.sweeps import Look, Shown, Sweep
from fitter.domain.wishes import Objective
from fitter.model import WHOLE, less_asked, price_change
from fitter.project.varying import Variable
from fitter.workflow.sweep_readings import Asker, FaultError, Reading, StoppedError, order_of
from fitter.workflow.sweep_stretches import Line, Progress, stretches, with_money

__all__ = ["FaultError", "Progress", "Sweep", "sweep"]


def sweep(
    variable: Variable,
    shown: Sequence[Shown],
    limit: float | None = None,
    progress: Progress | None = None,
    *,
    apart: bool = False,
) -> Sweep:
    """Find where the answer changes.

    Args:
        variable: the number and its values.
        shown: of the answer; what is not shown does not count as a change.
        limit: seconds for each solve; None for no limit.
        progress: told after each solve.
        apart: whether the solver works in a process of its own, which makes its limit hard.

    Returns:
        Stretches of values with the same answer.

    Raises:
        FaultError: the checker does not accept a layout of the solver.
        SolverError: the solver's process failed.
    """
    line = Line(Asker(tuple(shown), limit, apart), len(variable.values), progress)
    projects: list[Project | Finding] = [_project(variable, n) for n in range(len(variable.values))]
    line.known.update({n: Look(None) for n, project in enumerate(projects) if isinstance(project, Finding)})
    related = interrupted = False
    try:
        for sound in _runs(projects):
            part = _Part(line, sound)
            related = related or part.related
            part.settle()
    except StoppedError:
        interrupted = True
    return Sweep(
        variable.key,
        variable.step,
        tuple(shown),
        tuple(stretches(variable, projects, line)),
        len(variable.values),
        line.asker.solves,
        related,
        interrupted,
        variable.written,
        variable.called,
    )


def _project(variable: Variable, index: int) -> Project | Finding:
    """The project with one of the values, or what is wrong with it."""
    try:
        return variable.project(variable.values[index])
    except ProjectError as error:
        return next(finding for finding in error.findings if finding.severity is Severity.ERROR)


def _runs(projects: Sequence[Project | Finding]) -> Iterator[dict[int, Project]]:
    """Sound projects one after another, by their index."""
    numbered = enumerate(projects)
    for sound, group in groupby(numbered, lambda pair: isinstance(pair[1], Project)):
        if sound:
            yield {index: project for index, project in group if isinstance(project, Project)}


@dataclass(frozen=True)
class _Link:
    """How two neighbouring values bear on each other.

    Args:
        up: for how many leading values of the answer the higher one asks no more.
        down: for how many the lower one does.
        price: the price of both in cents, where nothing else differs.
    """

    up: int
    down: int
    price: tuple[int, int] | None


class _Part:
    """A part of the range in which the file is sound at every value.

    Args:
        line: what is known so far.
        projects: by index, without a gap.
    """

    def __init__(self, line: Line, projects: dict[int, Project]) -> None:
        self.line, self.projects = line, projects
        self.first, self.last = min(projects), max(projects)
        self.links: list[_Link] = []
        self.twin: dict[int, int] = {self.first: self.first}
        for n in range(self.first, self.last):
            low, high = projects[n], projects[n + 1]
            link = _Link(less_asked(high, low), less_asked(low, high), price_change(low, high))
            self.links.append(link)
            if link.price is not None:
                line.prices[n], line.prices[n + 1] = link.price
            # Two projects that ask the same are solved once.
            self.twin[n + 1] = self.twin[n] if min(link.up, link.down) >= WHOLE else n + 1

    @property
    def related(self) -> bool:
        """Whether anything is known of how the values bear on each other."""
        return any(link.up or link.down or link.price for link in self.links)

    def settle(self) -> None:
        """Find the answer at every value."""
        self.read(self.first)
        self.read(self.last)
        waiting = [(self.first, self.last)]
        while waiting:
            low, high = waiting.pop()
            if high - low < 2 or self._same(low, high) or self._straight(low, high):
                continue
            middle = (low + high) // 2
            self.read(middle)
            waiting += [(middle, high), (low, middle)]

    def read(self, index: int, depth: int = 0) -> Reading:
        """The answer at a value, made best in so many ranks at least, where there are so many."""
        twin = self.twin[index]
        reading = self.line.readings.get(twin)
        short = reading is not None and reading.proven and reading.layout is not None and len(reading.ranks) < depth
        if reading is None or short:
            reading = self.line.asker.read(twin, self.projects[twin], depth)
            self.line.readings[twin] = reading
            self.line.learn(index, reading.look)
            self.line.told()
        self.line.learn(index, reading.look)
        return reading

    def _between(self, low: int, high: int) -> list[_Link]:
        return self.links[low - self.first : high - self.first]

    def _fill(self, low: int, high: int, look: Look) -> None:
        for index in range(low + 1, high):
            self.line.learn(index, look)
        self.line.told()

    def _same(self, low: int, high: int) -> bool:
        """Whether the answer at both ends is that at every value between."""
        one, other = self.read(low), self.read(high)
        if one.look != other.look:
            return False
        proven = one.proven and other.proven
        links = self._between(low, high)
        if proven and not (
            self._squeezed(other, one, min(link.up for link in links))
            or self._squeezed(one, other, min(link.down for link in links))
        ):
            return False
        self._fill(low, high, one.look)
        return True

    def _squeezed(self, easier: Reading, harder: Reading, known: int) -> bool:
        """Whether the answer to the project that asks most reaches what decides that to the one that asks least.

        Args:
            easier: asks no more than any project up to the harder one.
            harder: asks no less.
            known: for how many ranks that is known.
        """
        if not known:
            return False
        if easier.layout is None or harder.layout is None:
            return easier.layout is None and harder.layout is None
        need = easier.decided
        if need > known:
            return False
        if len(harder.ranks) < need:
            harder = self.read(harder.index, need)
        return harder.proven and harder.ranks[:need] == easier.ranks[:need]

    def _straight(self, low: int, high: int) -> bool:
        """Whether money is a straight line of the price between both ends, and all else as in the middle."""
        links = self._between(low, high)
        if any(link.price is None for link in links):
            return False
        prices = [self.line.prices[index] for index in range(low, high + 1)]
        order = order_of(self.projects[low])
        if Objective.MONEY not in order or prices[0] == prices[-1]:
            return False
        money = order.index(Objective.MONEY)
        middle = (low + high) // 2
        if not prices[0] < prices[middle - low] < prices[-1]:
            return False
        ends = self.read(low, money + 1), self.read(middle, money + 1), self.read(high, money + 1)
        if not all(each.verdict is Verdict.PROVEN and len(each.ranks) > money for each in ends):
            return False
        if len({each.ranks[:money] for each in ends}) > 1:
            return False
        cents = [each.ranks[money] for each in ends]
        run, rise = prices[-1] - prices[0], cents[2] - cents[0]
        if (cents[1] - cents[0]) * run != rise * (prices[middle - low] - prices[0]):
            return False
        for index in range(low + 1, high):
            spent = cents[0] + rise * (prices[index - low] - prices[0]) // run
            self.line.learn(index, with_money(ends[1].look, self.line.asker.shown, spent))
        self.line.told()
        return True
