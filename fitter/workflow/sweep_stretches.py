"""What is known of each value of a sweep, and the stretches that this makes."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from fitter.domain.findings import Finding
from fitter.domain.layout import Verdict
from fitter.domain.project import Project
from fitter.domain.sweeps import Look, Shown, Stretch
from fitter.project.varying import Variable
from fitter.workflow.sweep_readings import Asker, Reading

Progress = Callable[[int, int, int], None]
"""Told how many values are known, of how many, and after how many solves."""


@dataclass
class Line:
    """What is known of all values so far."""

    asker: Asker
    values: int
    progress: Progress | None
    known: dict[int, Look] = field(default_factory=dict)
    readings: dict[int, Reading] = field(default_factory=dict)
    prices: dict[int, int] = field(default_factory=dict)
    """In cents, by index, where nothing but a price differs from the neighbour."""

    def learn(self, index: int, look: Look) -> None:
        """Know the answer at a value."""
        self.known[index] = look

    def told(self) -> None:
        """Tell how far the work has come."""
        if self.progress:
            self.progress(len(self.known), self.values, self.asker.solves)


def with_money(look: Look, shown: Sequence[Shown], cents: int) -> Look:
    """The same answer with so much money to spend, where that is shown."""
    values = (cents if one is Shown.COST else value for one, value in zip(shown, look.values, strict=True))
    return replace(look, values=tuple(values))


def stretches(variable: Variable, projects: Sequence[Project | Finding], line: Line) -> Iterator[Stretch]:
    """Values with the same answer, put together."""
    start = 0
    for end in range(1, len(projects) + 1):
        if end == len(projects) or not _goes_on(line, projects, start, end):
            yield _stretch(variable, projects, line, start, end - 1)
            start = end


def _goes_on(line: Line, projects: Sequence[Project | Finding], start: int, index: int) -> bool:
    """Whether a value belongs to the stretch that begins at `start` and reaches up to the value before it."""
    here, before = projects[index], projects[index - 1]
    if isinstance(here, Finding) or isinstance(before, Finding):
        return isinstance(here, Finding) and isinstance(before, Finding) and _fault(here) == _fault(before)
    look, last = line.known.get(index, _UNKNOWN), line.known.get(index - 1, _UNKNOWN)
    shown = line.asker.shown
    if Shown.COST not in shown or index not in line.prices or not (look.values and last.values):
        return look == last
    even = with_money(look, shown, 0) == with_money(last, shown, 0)
    return even and _slope(line, index - 1) == _slope(line, start)


def _slope(line: Line, index: int) -> Fraction | None:
    """By how many cents money rises from a value to the next for each cent of the price."""
    at = line.asker.shown.index(Shown.COST)
    here, after = line.known[index].values[at], line.known[index + 1].values[at]
    run = line.prices[index + 1] - line.prices[index]
    if not isinstance(here, int) or not isinstance(after, int) or not run:
        return None
    return Fraction(after - here, run)


_UNKNOWN = Look(Verdict.UNKNOWN)


def _fault(finding: Finding) -> tuple[str, str]:
    return finding.code, finding.key


def _stretch(
    variable: Variable, projects: Sequence[Project | Finding], line: Line, start: int, end: int
) -> Stretch:  # fmt: skip
    first, last = variable.values[start], variable.values[end]
    project = projects[start]
    look, until = line.known.get(start, _UNKNOWN), line.known.get(end, _UNKNOWN)
    readings = [line.readings[index] for index in range(start, end + 1) if index in line.readings]
    layout = next((each.layout for each in readings if each.layout is not None), None)
    result = next((each.result for each in readings if each.result is not None), None)
    return Stretch(
        first,
        last,
        end - start + 1,
        look,
        until,
        len(readings) == end - start + 1,
        project if isinstance(project, Project) else None,
        layout,
        result,
        project if isinstance(project, Finding) else None,
    )
