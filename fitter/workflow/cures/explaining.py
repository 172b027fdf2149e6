"""Why a project is impossible: what clashes, first; then what would make it fit."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from fitter.domain.layout import Layout
from fitter.domain.project import Project
from fitter.domain.requirements import Requirement, requirements, walked
from fitter.domain.why import Clash, Cure, Why
from fitter.workflow.cures.curing import cures, levers
from fitter.workflow.cures.pairs import pairs
from fitter.workflow.cures.questions import Questions
from fitter.workflow.cures.steps import told_in_steps
from fitter.workflow.cures.written import Again

_MOST_CLASHES = 3
_SHED = ("stock:", "buy")


@dataclass
class Explainer:
    """Explains an impossible project in two halves, so that the first can be told while the second is worked out.

    Args:
        project: that is impossible.
        limit: seconds for all; None for no limit.
        again: reads the project's file again with changes, so that no cure is told that does not do as it is written;
            None where the project came from no file.
    """

    project: Project
    limit: float | None = None
    again: Again | None = None

    def __post_init__(self) -> None:
        self.questions = Questions(self.project, None if self.limit is None else time.monotonic() + self.limit)

    def clash(self, known: tuple[str, ...] = ()) -> Clash:
        """What clashes, with its steps.

        Args:
            known: a minimal set of requirements that cannot hold together, where one is known already.

        Raises:
            TimeUp: not known within the limit.
        """
        ids = self.questions.whole_clash(known or self.questions.clash())
        return told_in_steps(self.project, ids, self.questions)

    def spared(self, first: Clash) -> Layout | None:
        """A layout that meets all but the most easily changed fact of a clash; None where there is none.

        Raises:
            TimeUp: not known within the limit.
        """
        return self.questions.without(frozenset((_easiest(first),)))

    def why(
        self, first: Clash, told: Callable[[str], None] | None = None, kept: Callable[[Cure], None] | None = None
    ) -> Why:
        """All of it.

        Args:
            first: what clashes.
            told: hears what is being tried.
            kept: hears of each cure as soon as it is known.

        Raises:
            TimeUp: not known within the limit.
            CheckError: the checker refuses a cure's layout.
        """
        found, idle = cures(self.project, self.questions, told, self.again, kept, first.gap)
        clashes = (first,) if found else (first, *self._more(first))
        both = () if found else pairs(self.project, self.questions, told, self.again, kept)
        return Why(
            clashes,
            found or both,
            self._helpless(idle, clashes),
            uninvolved(self.project, clashes),
            spared=self.spared(first),
        )

    def _helpless(self, idle: Sequence[str], clashes: Sequence[Clash]) -> tuple[str, ...]:
        """Of the changes that do not help alone, those that one might expect it of: they are about what clashes."""
        in_clash = {fact.id for clash in clashes for fact in clash.facts}
        named = {lever.idle: lever.facts for lever in levers(self.project)}
        if walked(in_clash):
            in_clash |= {f"edge:{edge.name}" for edge in self.project.room.edges}
        return tuple(name for name in idle if in_clash.intersection(named[name]))

    def _more(self, first: Clash) -> list[Clash]:
        """Further clashes, each of what is left when the most easily changed fact of those before it is given up."""
        found, off = [first], frozenset[str]()
        while len(found) < _MOST_CLASHES:
            off |= {_easiest(found[-1])}
            ids = self.questions.clash(off)
            if not ids:
                break
            found.append(told_in_steps(self.project, self.questions.whole_clash(ids, off), self.questions))
        return found[1:]


def _easiest(clash: Clash) -> str:
    """The id of its fact that is most easily changed."""
    return min(clash.facts, key=lambda fact: fact.rank).id


def uninvolved(project: Project, clashes: Sequence[Clash]) -> tuple[Requirement, ...]:
    """The requirements of a project that are in no clash, nor told of in its steps.

    All edges have part with a route; and all that is in the shed, with what may be bought or is there.
    """
    in_clash = {fact.id for clash in clashes for fact in clash.facts}
    in_clash |= {fact.id for clash in clashes for step in clash.steps for fact in step.premises}
    shed = any(name.startswith(_SHED) for name in in_clash)
    out = (*(("edge:",) if walked(in_clash) else ()), *(_SHED if shed else ()))
    facts = (fact for fact in requirements(project) if fact.id not in in_clash)
    return tuple(fact for fact in facts if not fact.id.startswith(out))
