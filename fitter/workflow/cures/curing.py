"""Every single change that makes an impossible project fit, each by the smallest step that does, solved and checked."""

from __future__ import annotations

from collections.abc import Callable

from fitter.domain.layout import Layout
from fitter.domain.project import Project
from fitter.domain.why import Cure, Ease
from fitter.workflow.cures.least import Reached, least
from fitter.workflow.cures.lever import Lever
from fitter.workflow.cures.questions import Questions
from fitter.workflow.cures.rooms import edge_levers, obstacle_levers, opening_levers
from fitter.workflow.cures.settings import cushion_levers, frame_levers, route_levers
from fitter.workflow.cures.wishes import wish_levers

Told = Callable[[str], None]


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


def cure_by(lever: Lever, questions: Questions) -> Cure | None:
    """The smallest step of a lever that makes it fit; None where none does.

    Raises:
        TimeUp: not known within the limit.
    """

    def at(step: int) -> Layout | None:
        project = lever.at(step)
        return None if project is None else questions.layout(project)

    def may(low: int, high: int) -> bool:
        assert lever.easier is not None
        return questions.layout(*lever.easier(low, high)) is not None

    reached = least(lever.steps, at, None if lever.easier is None or lever.steps == 1 else may)
    return None if reached is None else _cure(lever, reached)


def _cure(lever: Lever, reached: Reached) -> Cure:
    told = lever.told(reached.step)
    return Cure(
        lever.facts, told.ease or lever.ease, told.says, told.changes, reached.step, reached.layout, reached.least,
        told.caution,
    )  # fmt: skip


def cures(project: Project, questions: Questions, told: Told | None = None) -> tuple[tuple[Cure, ...], tuple[str, ...]]:
    """Try every lever by itself.

    Args:
        project: that is impossible.
        questions: asks.
        told: hears what is being tried.

    Returns:
        What helps, easiest first; and the names of levers that do not help alone.
    """
    tried, found = levers(project), []
    for lever in tried:
        if told:
            told(lever.name)
        # Where the fact itself is no hindrance, no step of it helps.
        may = questions.without(frozenset(lever.facts)) is not None
        if may and (cure := cure_by(lever, questions)) is not None:
            found.append(cure)
    helped = {fact for cure in found for fact in cure.facts}
    idle = [lever.name for lever in tried if not helped.issuperset(lever.facts)]
    return tuple(sorted(_nearest(found), key=lambda cure: cure.ease)), tuple(dict.fromkeys(idle))


def _nearest(found: list[Cure]) -> list[Cure]:
    """Of a thing that may be moved to several sides, the shortest way only."""
    shortest: dict[tuple[str, ...], Cure] = {}
    for cure in found:
        if cure.ease is Ease.OBSTACLE and (cure.facts not in shortest or cure.step < shortest[cure.facts].step):
            shortest[cure.facts] = cure
    return [cure for cure in found if cure.ease is not Ease.OBSTACLE or shortest[cure.facts] is cure]
