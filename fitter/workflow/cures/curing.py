"""Every single change that makes an impossible project fit, each by the smallest step that does, solved and checked."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from typing import TypeVar

from fitter.domain.layout import Layout
from fitter.domain.project import Project
from fitter.domain.why import Cure, Ease
from fitter.domain.wishes import Objective
from fitter.workflow.cures.least import May, Reached, SpentError, Try, least, nearest
from fitter.workflow.cures.lever import Lever
from fitter.workflow.cures.questions import Questions
from fitter.workflow.cures.rooms import edge_levers, obstacle_levers, opening_levers
from fitter.workflow.cures.settings import cushion_levers, ease_levers, frame_levers, route_levers
from fitter.workflow.cures.wishes import wish_levers
from fitter.workflow.cures.written import MORE_MARKS, Again, layout_as_written
from rooms.room import Edge

_Each = TypeVar("_Each")

_CLOSE = 4
"""Steps before the least one that are asked one by one, where a question for several is a mark or two too kind."""

Told = Callable[[str], None]
Kept = Callable[[Cure], None]


def levers(project: Project) -> list[Lever]:
    """Everything that a person may change, easiest first, else in the order of the file."""
    found = [
        *wish_levers(project),
        *cushion_levers(project),
        *ease_levers(project),
        *route_levers(project),
        *obstacle_levers(project),
        *opening_levers(project),
        *frame_levers(project),
        *edge_levers(project),
    ]
    return sorted((lever for lever in found if lever.steps > 0), key=lambda lever: lever.ease)


def cure_by(lever: Lever, questions: Questions, again: Again | None = None, guess: int = 0) -> Cure | None:
    """The smallest step of a lever that makes it fit, and still does as the file says it; None where none does.

    Args:
        lever: what is changed.
        questions: asks.
        again: reads the changed file; None where a project came from none.
        guess: a step that may well be the smallest; 0 for none.

    Raises:
        TimeUp: not known within the limit.
    """
    # Where the fact itself is no hindrance, no step of it helps.
    if lever.within and questions.without(frozenset(lever.facts)) is None:
        return None
    if lever.aim is not None:
        aimed = _aimed(lever, *lever.aim, questions)
        return None if aimed is None else _cure(lever, aimed, questions, again)
    at, may = asking(lever, questions)
    try:
        reached = least(lever.steps, at, may, guess=guess)
    except SpentError:
        questions.unsettled.append(lever.name)
        return None
    if reached is not None and reached.least and lever.surely is not None:
        far = reached.step - _CLOSE
        question = lever.surely(1, far - 1) if far > 1 else None
        none = far <= 1 or (question is not None and questions.layout(*question) is None)
        reached = replace(reached, least=none and not any(at(step) for step in range(max(1, far), reached.step)))
    return None if reached is None else _cure(lever, reached, questions, again)


def nearest_cure(ways: Sequence[Lever], questions: Questions, again: Again | None = None) -> Cure | None:
    """The smallest step of any of several levers that move one thing, each to another side.

    Args:
        ways: one for each side.
        questions: asks.
        again: reads the changed file; None where a project came from none.

    Raises:
        TimeUp: not known within the limit.
    """
    try:
        found = nearest([(way.steps, *asking(way, questions)) for way in ways])
    except SpentError:
        questions.unsettled.append(ways[0].name)
        return None
    return None if found is None else _cure(ways[found[0]], found[1], questions, again)


def _aimed(lever: Lever, aim: Objective, step: Callable[[Layout], int], questions: Questions) -> Reached | None:
    """The step that the best layout needs by an objective, where the farthest step is allowed."""
    project = lever.at(lever.steps)
    layout = None if project is None else questions.best(project, aim)
    return None if layout is None else Reached(max(1, step(layout)), layout)


def asking(lever: Lever, questions: Questions) -> tuple[Try, May | None]:
    """What `least` asks of a lever: whether anything fits at a step, and whether it may at any of several."""

    def at(step: int) -> Layout | None:
        project = lever.at(step)
        if project is None:
            return None
        if lever.keeps is not None:
            return questions.keeping(lever.facts[0], project, lever.keeps(step))
        return questions.layout(project)

    easier = lever.easier
    if easier is None:
        return at, None

    def may(low: int, high: int) -> bool | None:
        question = easier(low, high)
        return None if question is None else questions.layout(*question) is not None

    return at, may


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
                lever.facts, told.ease or lever.ease, told.says, told.changes, step, layout, least, told.caution,
                seats=meant.wish.least,
            )  # fmt: skip
    return None


def cures(
    project: Project,
    questions: Questions,
    told: Told | None = None,
    again: Again | None = None,
    kept: Kept | None = None,
    guess: int = 0,
    among: Callable[[Lever], bool] | None = None,
) -> tuple[tuple[Cure, ...], tuple[str, ...]]:
    """Try every lever by itself.

    Args:
        project: that is impossible.
        questions: asks.
        told: hears what is being tried.
        again: reads the changed file; None where the project came from none.
        kept: hears of each cure as soon as it is known.
        guess: how far an edge may well have to move, in marks; 0 for no guess.
        among: whether a lever is tried at all; None for every one.

    Returns:
        What helps, easiest first; and the names of levers that do not help alone.
    """
    tried = [lever for lever in levers(project) if among is None or among(lever)]
    found, helped = list[Cure](), set[str]()
    for ways in _grouped(tried):
        if told:
            told(ways[0].name)
        if len(ways) > 1:
            cure = nearest_cure(ways, questions, again)
        else:
            cure = cure_by(ways[0], questions, again, _guess(project, ways[0], found, guess))
        if cure is not None:
            found.append(cure)
            helped.add(ways[0].name)
            if kept:
                kept(cure)
    idle = [lever.idle for lever in tried if lever.name not in helped and lever.name not in questions.unsettled]
    return ranked(found), tuple(dict.fromkeys(idle))


def _guess(project: Project, lever: Lever, found: Sequence[Cure], missing: int) -> int:
    """How far an edge may well have to move: as far as the one across from it, else by what is missing."""
    if lever.ease is not Ease.EDGE:
        return 0
    edge = project.room.edge(lever.facts[0].removeprefix("edge:"))
    for cure in found:
        if cure.ease in (Ease.EDGE, Ease.READING) and len(cure.facts) == 1:
            other = project.room.edge(cure.facts[0].removeprefix("edge:"))
            if _parallel(edge, other):
                return cure.step
    return missing


def _parallel(one: Edge, other: Edge) -> bool:
    """Whether two edges run along each other, to within a few degrees."""
    ax, ay = one.end.x - one.start.x, one.end.y - one.start.y
    bx, by = other.end.x - other.start.x, other.end.y - other.start.y
    cross = ax.units * by.units - ay.units * bx.units
    return abs(cross) * 20 < one.length.units * other.length.units


def _grouped(found: Sequence[Lever]) -> list[list[Lever]]:
    """Levers one by one, but those together that move the same thing to its several sides."""
    groups: list[list[Lever]] = []
    for lever in found:
        same = lever.ease is Ease.OBSTACLE and groups and groups[-1][0].ease is Ease.OBSTACLE
        if same and groups[-1][0].facts == lever.facts:
            groups[-1].append(lever)
        else:
            groups.append([lever])
    return groups


def ranked(found: Sequence[Cure]) -> tuple[Cure, ...]:
    """Cures, easiest first, in their order where they are equally easy; those that say the same only once."""
    return tuple(sorted(told_once(found, lambda cure: cure.says), key=lambda cure: cure.ease))


def told_once(found: Iterable[_Each], says: Callable[[_Each], str]) -> Iterable[_Each]:
    """The first of all that say the same, in their order."""
    first: dict[str, _Each] = {}
    for each in found:
        first.setdefault(says(each), each)
    return first.values()
