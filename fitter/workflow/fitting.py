"""A project to a verdict: solved, then checked, with what the room itself has to say about its routes."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import floor

from fitter.checking import check_layout, route_widths
from fitter.checking.clearances import clearances
from fitter.domain.fills import eased
from fitter.domain.findings import Finding
from fitter.domain.layout import Answer, Layout, Verdict
from fitter.domain.outcome import Blocked, FitResult, LayoutResult
from fitter.domain.project import Project
from fitter.domain.requirements import requirements
from fitter.domain.wishes import FillWish
from fitter.model import Progress
from fitter.workflow.costing import boards_of
from fitter.workflow.easing import with_more_ease
from fitter.workflow.filling import filled
from fitter.workflow.solving import Solved, solved, solved_apart
from rooms.clearance import widest_passage
from rooms.lengths import Length

__all__ = ["fit", "judged"]


@dataclass(frozen=True)
class _Checked:
    layout: Layout
    findings: tuple[Finding, ...]


def fit(
    project: Project,
    limit: float | None = None,
    progress: Progress | None = None,
    *,
    layouts: int = 1,
    apart: bool = False,
) -> FitResult:
    """Find the best layouts of a project and check them.

    Args:
        project: what is asked.
        limit: seconds for the solver; None for no limit.
        progress: told each step of the solver.
        layouts: how many different layouts are wanted, best first.
        apart: whether the solver works in a process of its own, so that its limit is hard and an interruption keeps
            the best so far.

    Returns:
        The verdict with all that belongs to it; `fault` when the checker does not accept a layout.

    Raises:
        SolverError: the solver's process failed.
    """

    def solve(asked: Project, left: float | None) -> Solved:
        return (solved_apart if apart else solved)(asked, layouts, left, progress)

    return judged(project, with_more_ease(project, solve(project, limit), limit, solve))


def judged(project: Project, told: Solved) -> FitResult:
    """What the answers of the solver are worth, once their layouts have been checked.

    Args:
        project: what was asked.
        told: by the solver; at least one answer.

    Returns:
        The result that may be shown.
    """
    first, last = told.answers[0], told.answers[-1]
    if first.layout is None:
        return replace(_without(project, first), interrupted=told.interrupted)
    shown: list[LayoutResult] = []
    faults: list[Finding] = []
    for rank, answer in enumerate(told.answers, start=1):
        if answer.layout is not None:
            checked = _check(project, answer.layout)
            faults += checked.findings
            verdict = Verdict.FAULT if checked.findings else answer.verdict
            boards = None if checked.findings else boards_of(eased(project, checked.layout), answer)
            said = () if checked.findings else clearances(project, checked.layout)
            shown.append(LayoutResult(rank, verdict, checked.layout, answer.proofs, boards, said))
    exhausted = last.verdict is Verdict.IMPOSSIBLE
    whole = Verdict.PROVEN if last.verdict in (Verdict.PROVEN, Verdict.IMPOSSIBLE) else Verdict.FOUND
    return FitResult(
        Verdict.FAULT if faults else whole,
        tuple(shown),
        checked=tuple(faults),
        seconds=last.seconds,
        interrupted=told.interrupted,
        exhausted=exhausted,
    )


def _check(project: Project, layout: Layout) -> _Checked:
    """The layout with the widths of its routes, and what the checker holds against it.

    The checker sees the layout as the solver left it, so that the widths cannot vouch for themselves; only then is
    the room beyond its ends filled, where that is asked for, and all of it checked once more.
    """
    findings = check_layout(project, layout, bare=True)
    if not findings and project.wish.fill is not FillWish.NONE:
        layout = filled(project, layout)
        findings = check_layout(project, layout)
    return _Checked(replace(layout, routes=route_widths(project, layout)) if not findings else layout, findings)


def _without(project: Project, answer: Answer) -> FitResult:
    facts = {fact.id: fact for fact in requirements(project)}
    clash = tuple(facts[name] for name in facts if name in answer.clash)
    asked = {name.partition(":")[2] for name in answer.clash if name.startswith("route:")}
    return FitResult(
        answer.verdict, bounds=answer.proofs, clash=clash, blocked=_blocked(project, asked), seconds=answer.seconds
    )


def _blocked(project: Project, names: set[str]) -> tuple[Blocked, ...]:
    """Which of these routes the empty room is too narrow for, and where."""
    found = []
    for route in project.room.routes:
        if route.name in names:
            passage = widest_passage(project.room, route, ())
            clear = Length(floor(passage.clear + 0.5))
            if clear < route.width:
                found.append(Blocked(route.name, route.width, clear, passage.names))
    return tuple(found)
