"""What the next seat would cost: the single changes by which one more would fit."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from fitter.domain.layout import Layout
from fitter.domain.project import Project
from fitter.domain.why import Cure, Ease
from fitter.workflow.cures.curing import cure_by, levers
from fitter.workflow.cures.questions import Questions

_EASY = (Ease.CUSHIONS, Ease.ROUTE, Ease.OFFSET)
"""What is decided with a word in the file; doors, things and walls are looked at only where all is asked for."""


def near_misses(
    project: Project,
    layout: Layout,
    questions: Callable[[Project], Questions] = Questions,
    *,
    all_kinds: bool = False,
    told: Callable[[str], None] | None = None,
) -> tuple[Cure, ...]:
    """Each single change by which one more seat would fit than the best layout has, by the smallest step that does.

    Args:
        project: that was fitted.
        layout: its best.
        questions: asks about a project.
        all_kinds: whether doors, spans, things that could be moved and edges are looked at too.
        told: hears what is being tried.

    Returns:
        Changes, easiest first; none where no more seats are wanted, or where no single change brings one.

    Raises:
        TimeUp: not known within the limit.
        CheckError: the checker refuses a layout that was found.
    """
    wish, seats = project.wish, layout.seats + 1
    if wish.most is not None and seats > wish.most:
        return ()
    wanted = replace(project, wish=replace(wish, least=seats))
    ask, found = questions(wanted), []
    for lever in levers(wanted):
        # What was wished for in words is wished for with any number of seats.
        if lever.facts == ("least",) or lever.ease is Ease.ARRANGEMENT or not (all_kinds or lever.ease in _EASY):
            continue
        if told:
            told(lever.name)
        if ask.without(frozenset(lever.facts)) is not None and (cure := cure_by(lever, ask)) is not None:
            found.append(cure)
    return tuple(found)
