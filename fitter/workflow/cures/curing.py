"""Every single change that makes an impossible project fit, each by the smallest step that does, solved and checked."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from fitter.domain.layout import Layout
from fitter.domain.project import Project
from fitter.domain.why import Cure, Ease
from fitter.workflow.cures.least import Reached, least
from fitter.workflow.cures.lever import Lever
from fitter.workflow.cures.questions import Questions
from fitter.workflow.cures.rooms import edge_levers, obstacle_levers, opening_levers
from fitter.workflow.cures.settings import cushion_levers, frame_levers, route_levers
from fitter.workflow.cures.wishes import wish_levers
from fitter.workflow.cures.written import MORE_MARKS, Again, layout_as_written

Told = Callable[[str], None]
Kept = Callable[[Cure], None]


def levers(project: Project) -> list[Lever]:
    """Everything that a person may change, easiest first, else in the order of the file."""
    found = [
        *wish_levers(project),
        *cushion_levers(project),
        *route_levers(project),
        *obstacle_levers(project),
        *opening_levers(project),
        *frame_levers(project),
        *edge_levers(project),
    ]
    return sorted((lever for lever in found if lever.steps > 0), key=lambda lever: lever.ease)


def cure_by(lever: Lever, questions: Questions, again: Again | None = None) -> Cure | None:
    """The smallest step of a lever that makes it fit, and still does as the file says it; None where none does.

    Args:
        lever: what is changed.
        questions: asks.
        again: reads the changed file; None where a project came from none.

    Raises:
        TimeUp: not known within the limit.
    """

    def at(step: int) -> Layout | None:
        project = lever.at(step)
        if project is None:
            return None
        if lever.keeps is not None:
            return questions.keeping(lever.facts[0], project, lever.keeps(step))
        return questions.layout(project)

    def may(low: int, high: int) -> bool:
        assert lever.easier is not None
        return questions.layout(*lever.easier(low, high)) is not None

    reached = least(lever.steps, at, None if lever.easier is None or lever.steps == 1 else may)
    return None if reached is None else _cure(lever, reached, questions, again)


def _cure(lever: Lever, reached: Reached, questions: Questions, again: Again | None) -> Cure | None:
    """The first step from there on that does as it is written: rounding may spoil the least one."""
    for step in range(reached.step, min(reached.step + MORE_MARKS, lever.steps) + 1):
        meant = lever.at(step)
        if meant is None:
            continue
        told, found = lever.told(step), reached.layout if step == reached.step else None
        layout = layout_as_written(again, told.changes, meant, found, questions)
        if layout is not None:
            least = reached.least and step == reached.step
            return Cure(
                lever.facts, told.ease or lever.ease, told.says, told.changes, step, layout, least, told.caution
            )  # fmt: skip
    return None


def cures(
    project: Project,
    questions: Questions,
    told: Told | None = None,
    again: Again | None = None,
    kept: Kept | None = None,
) -> tuple[tuple[Cure, ...], tuple[str, ...]]:
    """Try every lever by itself.

    Args:
        project: that is impossible.
        questions: asks.
        told: hears what is being tried.
        again: reads the changed file; None where the project came from none.
        kept: hears of each cure as soon as it is known; of a thing that may be moved to several sides more than one.

    Returns:
        What helps, easiest first; and the names of levers that do not help alone.
    """
    tried, found, helped = levers(project), list[Cure](), set[str]()
    for lever in tried:
        if told:
            told(lever.name)
        # Where the fact itself is no hindrance, no step of it helps.
        may = questions.without(frozenset(lever.facts)) is not None
        if may and (cure := cure_by(lever, questions, again)) is not None:
            found.append(cure)
            helped.add(lever.name)
            if kept:
                kept(cure)
    idle = [lever.name for lever in tried if lever.name not in helped]
    return ranked(found), tuple(dict.fromkeys(idle))


def ranked(found: Sequence[Cure]) -> tuple[Cure, ...]:
    """Cures, easiest first, in their order where they are equally easy."""
    return tuple(sorted(_nearest(found), key=lambda cure: cure.ease))


def _nearest(found: Sequence[Cure]) -> list[Cure]:
    """Of a thing that may be moved to several sides, the shortest way only."""
    shortest: dict[tuple[str, ...], Cure] = {}
    for cure in found:
        if cure.ease is Ease.OBSTACLE and (cure.facts not in shortest or cure.step < shortest[cure.facts].step):
            shortest[cure.facts] = cure
    return [cure for cure in found if cure.ease is not Ease.OBSTACLE or shortest[cure.facts] is cure]
