"""One kind of change, in small steps away from what the file says."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from fitter.domain.layout import Layout
from fitter.domain.project import Project
from fitter.domain.why import Change, Ease
from fitter.domain.wishes import Objective
from rooms.lengths import Length

Easier = tuple[Project, frozenset[str]]
"""A project, and the requirements that are switched off in it."""


Aim = tuple[Objective, Callable[[Layout], int]]


@dataclass(frozen=True)
class Told:
    """A step in words.

    Args:
        says: what to do, as a clause.
        changes: of the file.
        caution: what to mind; empty if nothing.
        ease: where the step is easier or harder than the lever's others; else None.
    """

    says: str
    changes: tuple[Change, ...]
    caution: str = ""
    ease: Ease | None = None


@dataclass(frozen=True)
class Lever:
    """A change that can be made by more or less.

    Args:
        facts: ids of the requirements that it eases.
        ease: how easily it is changed.
        name: what is changed, as a noun: "the width of the route to the gate".
        steps: how far it goes, in steps of what a tape shows, one cushion or one seat.
        at: the project at a step, 1 or more; None where it makes no sense there.
        told: a step in words, once it is known to do.
        easier: a question that holds a layout wherever one of the steps from one to another does, or None where none is
            known for them; None where each step only makes it easier.
        keeps: the clearance at a step, where a step changes but how far one stays off a thing, or a route's banks.
        surely: holds a layout wherever one of the steps does, also where `easier` may miss it by less than a mark; None
            where that misses none.
        within: whether what fits at a step meets all that the project asks for but the facts, so that no step helps
            where not even that can be met.
        aim: where a step allows an objective so much and changes nothing else: the objective, and the step that a
            layout needs. Each step only makes it easier then.
        reach: how far it goes, in words; empty where nothing lies beyond.
    """

    facts: tuple[str, ...]
    ease: Ease
    name: str
    steps: int
    at: Callable[[int], Project | None]
    told: Callable[[int], Told]
    easier: Callable[[int, int], Easier | None] | None = None
    keeps: Callable[[int], Length] | None = None
    surely: Callable[[int, int], Easier | None] | None = None
    within: bool = True
    aim: Aim | None = None
    reach: str = ""

    @property
    def idle(self) -> str:
        """How it is named where no step of it helps."""
        return f"{self.name} ({self.reach})" if self.reach else self.name
