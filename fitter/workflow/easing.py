"""More ease for the cushions, as much as their limits and the room allow: solved anew, from the greatest ease down."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import replace

from fitter.domain.fills import marks_to_stretch, with_ease
from fitter.domain.layout import Layout, Stretch, Verdict
from fitter.domain.project import Project
from fitter.domain.wishes import FillWish
from fitter.workflow.solving import Solved

__all__ = ["with_more_ease"]

Solve = Callable[[Project, float | None], Solved]


def with_more_ease(project: Project, told: Solved, limit: float | None, solve: Solve) -> Solved:
    """The answers with as much more ease as leaves seats, whole cushions, what is bought and the runs as they are.

    All kinds that are used get the same number of marks more, each up to its own limit. Every number of marks is asked
    from the most down, each time first whether such a layout is possible at all, so none that would do is missed.

    Args:
        project: what was asked.
        told: the answers without more ease; they stay where the best is not proven, or no more ease is possible.
        limit: seconds for all solving together; None for no limit.
        solve: solves a project within so many seconds.

    Returns:
        The answers of the project with that ease, whose layouts tell how much more it is.
    """
    base, started = told.answers[0], time.monotonic() - told.answers[-1].seconds
    if project.wish.fill not in (FillWish.EASE, FillWish.ANY) or base.layout is None:
        return told
    used = {module.cushion for module in base.layout.modules}
    marks = {kind.name: marks_to_stretch(project, kind) for kind in project.cushions if kind.name in used}
    for count in range(max(marks.values(), default=0), 0, -1):
        most = {name: min(count, some) for name, some in marks.items() if some}
        more = tuple(Stretch(name, project.mark * some) for name, some in most.items())
        wider = with_ease(project, more)
        found = told
        for trial in (_narrowed(wider, base.layout), wider):
            left = None if limit is None else started + limit - time.monotonic()
            if told.interrupted or base.verdict is not Verdict.PROVEN or (left is not None and left <= 0):
                return told
            found = solve(trial, left)
            if not found.answers or not _alike(base.layout, found.answers[0].layout):
                break
        else:
            return _marked(found, more)
        if found.interrupted:
            return replace(told, interrupted=True)
    return told


def _narrowed(project: Project, layout: Layout) -> Project:
    """The project where only what such a layout is like is wanted: where it cannot be, that is soon proven."""
    wish = replace(
        project.wish, shape=layout.shape, hand=layout.hand or project.wish.hand, corner=layout.corner or
        project.wish.corner, least=layout.seats,
    )  # fmt: skip
    return replace(project, wish=wish)


def _alike(one: Layout, other: Layout | None) -> bool:
    """Whether two layouts seat the same people on the same cushions in the same runs."""
    return other is not None and _kind(one) == _kind(other)


def _kind(layout: Layout) -> tuple[object, ...]:
    runs = [(run.side, run.cushion, run.turned, run.count) for run in layout.runs]
    return layout.shape, layout.corner, layout.seats, layout.notches, layout.purchases, runs


def _marked(found: Solved, more: tuple[Stretch, ...]) -> Solved:
    """The answers whose layouts tell of which kinds that they use the ease is stretched."""
    answers = []
    for answer in found.answers:
        layout = answer.layout
        if layout is not None:
            used = {module.cushion for module in layout.modules}
            layout = replace(layout, eased=tuple(stretch for stretch in more if stretch.cushion in used))
        answers.append(replace(answer, layout=layout))
    return replace(found, answers=tuple(answers))
