"""Where no single change helps: two changes that do together, each as small as the other allows."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import combinations

from fitter.domain.layout import Layout
from fitter.domain.project import Project
from fitter.domain.why import Change, Cure
from fitter.workflow.cures.curing import asking, levers
from fitter.workflow.cures.least import May, Reached, SpentError, least
from fitter.workflow.cures.lever import Lever
from fitter.workflow.cures.questions import Questions
from fitter.workflow.cures.written import MORE_MARKS, Again, layout_as_written

_MOST_PAIRS = 3
_MOST_ASKED = 32
"""Questions about one change of a pair, while the other is held."""


def pairs(
    project: Project,
    questions: Questions,
    told: Callable[[str], None] | None = None,
    again: Again | None = None,
    kept: Callable[[Cure], None] | None = None,
) -> tuple[Cure, ...]:
    """Pairs of changes that make it fit together, easiest first, three at most.

    Args:
        project: that no single change helps.
        questions: asks.
        told: hears what is being tried.
        again: reads the changed file; None where the project came from none.
        kept: hears of each cure as soon as it is known.
    """
    found: list[Cure] = []
    ways = levers(project)
    tried = sorted(combinations(range(len(ways)), 2), key=lambda pair: (sum(ways[n].ease for n in pair), pair))
    for a, b in tried:
        one, other = ways[a], ways[b]
        if set(one.facts) == set(other.facts):
            continue
        if told:
            told(f"{one.name} with {other.name}")
        within = one.within and other.within
        if within and questions.without(frozenset((*one.facts, *other.facts))) is None:
            continue
        cure = both(one, other, questions, again)
        if cure is not None:
            found.append(cure)
            if kept:
                kept(cure)
        if len(found) == _MOST_PAIRS:
            break
    return tuple(found)


def both(one: Lever, other: Lever, questions: Questions, again: Again | None = None) -> Cure | None:
    """The least step of the first with the second as far as that takes, then the least of the second with that."""
    seconds: dict[int, Reached | None] = {}

    def after(step: int) -> Lever | None:
        changed = one.at(step)
        return None if changed is None else _again(other, changed)

    def second_least(step: int, then: Lever) -> Reached | None:
        if step not in seconds:
            seconds[step] = least(then.steps, *asking(then, questions), _MOST_ASKED)
        return seconds[step]

    def some(step: int) -> Layout | None:
        then = after(step)
        if then is None:
            return None
        if then.easier is None:
            return asking(then, questions)[0](then.steps)
        reached = second_least(step, then)
        return None if reached is None else reached.layout

    try:
        first = least(one.steps, some, _may_with(one, other, questions), _MOST_ASKED)
        then = None if first is None else after(first.step)
        second = None if first is None or then is None else second_least(first.step, then)
    except SpentError:
        questions.unsettled.append(f"{one.name} with {other.name}")
        return None
    if first is None or second is None or then is None:
        return None
    told = one.told(first.step)
    for step in range(second.step, min(second.step + MORE_MARKS, then.steps) + 1):
        more = then.told(step)
        changes, known = _merged((*told.changes, *more.changes)), second.layout if step == second.step else None
        meant = then.at(step)
        layout = layout_as_written(again, changes, meant, known, questions)
        if layout is not None and meant is not None:
            return Cure(
                (*one.facts, *other.facts),
                max(one.ease, other.ease),
                f"{told.says}, and {more.says}",
                changes,
                first.step + step,
                layout,
                smallest=False,
                caution="; ".join(dict.fromkeys(filter(None, (told.caution, more.caution)))),
                pair=True,
                seats=meant.wish.least,
            )
    return None


def _may_with(one: Lever, other: Lever, questions: Questions) -> May | None:
    """Whether anything may fit at several steps of the first lever with the second at any; None as for one lever."""
    easier = one.easier
    if easier is None:
        return None

    def may(low: int, high: int) -> bool | None:
        question = easier(low, high)
        then = None if question is None else _again(other, question[0])
        if question is None or then is None:
            return None
        if then.easier is None:
            farthest = then.at(then.steps)
            rest = None if farthest is None else (farthest, frozenset[str]())
        else:
            rest = then.easier(1, then.steps)
        return None if rest is None else questions.layout(rest[0], question[1] | rest[1]) is not None

    return may


def _merged(changes: Sequence[Change]) -> tuple[Change, ...]:
    """One change for each key, from what it says now to what the last one makes of it."""
    found: dict[str, Change] = {}
    for change in changes:
        found[change.key] = replace(change, before=found.get(change.key, change).before)
    return tuple(found.values())


def _again(lever: Lever, project: Project) -> Lever | None:
    """The same lever of a project that has been changed already, which makes it more than a smaller clearance alone."""
    found = [each for each in levers(project) if (each.name, each.facts) == (lever.name, lever.facts)]
    same = [each for each in found if each.told(1).says == lever.told(1).says]
    return next((replace(each, keeps=None) for each in same or found), None)
