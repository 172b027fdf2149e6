"""What the next seat would cost a project that fits."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from fitter.domain.layout import Layout
from fitter.domain.project import Project
from fitter.domain.why import Cure, Sought
from fitter.domain.wishes import Objective


class Looked(StrEnum):
    """How far it is looked for what the next seat would cost."""

    NO = "no"
    EASY = "easy"
    ALL = "all"


@dataclass(frozen=True)
class NearMiss:
    """A single change by which more seats would fit.

    Args:
        change: with the smallest step that brings another seat.
        seats: that the best layout has then.
    """

    change: Cure
    seats: int


@dataclass(frozen=True)
class NextSeat:
    """What one more seat than the best layout has would cost.

    Args:
        seats: one more than it has.
        misses: easiest first, then the nearest; none where no single change that was tried brings one.
        helpless: changes that were tried and bring none by themselves, as nouns.
        unsettled: changes of which that is not known, since it would take too long.
        looked: at which changes.
        sought: whether all of them were tried.
    """

    seats: int
    misses: tuple[NearMiss, ...] = ()
    helpless: tuple[str, ...] = ()
    unsettled: tuple[str, ...] = ()
    looked: Looked = Looked.EASY
    sought: Sought = Sought.ALL


def next_seat(project: Project, layout: Layout) -> int | None:
    """The number of seats beyond the best layout's; None where no more are wanted, or something else comes first."""
    wish, seats = project.wish, layout.seats + 1
    wanted = wish.most is None or seats <= wish.most
    return seats if wanted and wish.prefer[0] is Objective.SEATS else None
