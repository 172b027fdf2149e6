"""What buying brings: every step is what a fit with that limit gives, and no more are solved than it takes."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from fitter.domain.cushions import Cushion
from fitter.domain.findings import Finding
from fitter.domain.layout import Layout, Verdict
from fitter.domain.outcome import FitResult
from fitter.domain.owned import BUY_AT_MOST, ONLY_OWNED, Buying, limited
from fitter.domain.project import Project
from fitter.project import read_project
from fitter.workflow.fitting import fit
from fitter.workflow.owning import buying
from rooms.lengths import Length

STOOP = """\
units: in
room:
  sides: {AB: 112, BC: 54, CD: 112, DA: 54}
  turns: {A: left, B: left, C: left, D: left}
  edges: {AB: wall, BC: railing, CD: step, DA: railing}
cushions:
  - {name: square, size: [24, 24, 5], own: 1, price: 40}
  - {name: other, size: [20, 22, 5], own: 1}
wish: {shape: straight, against: [AB]}
"""
SQUARE = Cushion("square", Length.inches(24), Length.inches(24), Length.inches(5))


def stoop() -> Project:
    return read_project("stoop.yaml", STOOP)


def bought(layout: Layout | None) -> int:
    assert layout is not None
    return sum(row.buy for row in layout.purchases)


class Counter:
    """Solves, and counts how often with which limit."""

    def __init__(self) -> None:
        self.asked: list[int | None] = []

    def __call__(self, project: Project) -> FitResult:
        self.asked.append(project.wish.buy_most)
        return fit(project)


def stepped(project: Project, wanted: int, solve: Counter) -> Buying:
    found, wrong = buying(project, fit(limited(project, 0, ONLY_OWNED)), wanted, solve)
    assert wrong is None
    return found


def test_each_step_is_what_its_limit_gives() -> None:
    solve = Counter()
    found = stepped(stoop(), 5, solve)
    assert [step.most for step in found.steps] == list(range(len(found.steps)))
    assert found.closed
    # A run has one kind: the one square that is owned, and 112 in between two ends take three more.
    assert [step.shown.layout.seats for step in found.steps if step.shown] == [1, 2, 3, 4]
    for step in found.steps:
        alone = fit(limited(stoop(), step.most, BUY_AT_MOST))
        assert step.shown is not None
        assert (step.verdict, step.shown.layout) == (alone.verdict, alone.layout)
    # The one limit that was asked for, and those below what it buys.
    assert solve.asked == [5, 1, 2]


def test_nothing_is_solved_where_nothing_may_be_bought() -> None:
    solve = Counter()
    assert [step.most for step in stepped(stoop(), 0, solve).steps] == [0]
    assert solve.asked == []


def test_one_look_is_enough_where_buying_brings_nothing() -> None:
    full = replace(stoop(), cushions=(replace(SQUARE, own=9, price=Fraction(40)),))
    solve = Counter()
    found = stepped(full, 7, solve)
    assert ([step.most for step in found.steps], found.closed, solve.asked) == ([0], True, [7])


def test_a_layout_that_the_checker_refuses_is_handed_on() -> None:
    wrong = FitResult(Verdict.FAULT, checked=(Finding("seats", "made up"),))
    found, handed = buying(stoop(), fit(limited(stoop(), 0, ONLY_OWNED)), 3, lambda _: wrong)
    assert handed is wrong
    assert not found.closed


def test_an_answer_without_proof_closes_nothing() -> None:
    project = stoop()
    whole = fit(limited(project, 3, BUY_AT_MOST))
    unproven = replace(whole, verdict=Verdict.FOUND, interrupted=True)
    found, _ = buying(project, fit(limited(project, 0, ONLY_OWNED)), 3, lambda _: unproven)
    assert (found.closed, found.interrupted) == (False, True)
    assert found.steps[-1].most == bought(whole.layout)
