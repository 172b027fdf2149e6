"""Why nothing fits, and what would make it fit."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum, StrEnum

from fitter.domain.layout import Layout
from fitter.domain.requirements import Requirement


class Ease(IntEnum):
    """What a cure changes, easiest first."""

    SEATS = 1
    CUSHIONS = 2
    ROUTE = 3
    OFFSET = 4
    ARRANGEMENT = 5
    FRAME = 6
    READING = 7
    OBSTACLE = 8
    EDGE = 9


@dataclass(frozen=True)
class Change:
    """One value of the project file that is written anew.

    Args:
        key: its path, such as `room.routes.0.width`.
        before: what it says now, as it would be written; empty where nothing is written.
        after: what would be written instead; a list or a mapping as the file's format writes them in one line.
        flag: the flag of the command line that beats the file there, as it would have to be; empty for none.
    """

    key: str
    before: str
    after: str
    flag: str = ""


@dataclass(frozen=True)
class Cure:
    """A change that alone makes it fit, or a pair of them that does, solved again with everything else as it is.

    Args:
        facts: ids of the requirements that it eases.
        ease: how easily that is changed.
        says: what to do, as a clause: "ask for 2 seats instead of 3".
        changes: of the file.
        step: how far it goes, in what a tape shows, in seats or in cushions.
        layout: that then fits, passed by the checker.
        smallest: whether it is proven that no smaller step of this kind does.
        caution: what to mind; empty if nothing.
        pair: whether it is two changes, neither of which does alone.
        seats: how many are asked for at least with it; which layout has them is not settled.
    """

    facts: tuple[str, ...]
    ease: Ease
    says: str
    changes: tuple[Change, ...]
    step: int
    layout: Layout
    smallest: bool = True
    caution: str = ""
    pair: bool = False
    seats: int = 1


@dataclass(frozen=True)
class Step:
    """One conclusion, with what it rests on.

    Args:
        premises: facts, each with its own place in the file.
        concludes: a clause; empty where the premises speak for themselves.
    """

    premises: tuple[Requirement, ...]
    concludes: str


@dataclass(frozen=True)
class Clash:
    """Facts that cannot hold together, each of them needed for that.

    Args:
        facts: in file order.
        steps: from the facts to what is missing; empty where no short way was found.
        missing: what is missing in all, as a clause; empty likewise.
        gap: the same in shop marks, or in seats; 0 likewise.
    """

    facts: tuple[Requirement, ...]
    steps: tuple[Step, ...] = ()
    missing: str = ""
    gap: int = 0


class Sought(StrEnum):
    """How far cures were looked for."""

    NOT = "not looked for"
    PART = "not all looked for"
    ALL = "all looked for"


@dataclass(frozen=True)
class Why:
    """Why nothing fits.

    Args:
        clashes: the most changeable one first; more than one where no single change lifts them all.
        cures: easiest first.
        helpless: kinds of change of what clashes that were tried and do not help alone, as nouns.
        uninvolved: facts that are in no clash.
        sought: how far cures were looked for.
        spared: a layout that meets all but the most easily changed fact of the first clash; None where there is none,
            or it was not asked for.
    """

    clashes: tuple[Clash, ...]
    cures: tuple[Cure, ...] = ()
    helpless: tuple[str, ...] = ()
    uninvolved: tuple[Requirement, ...] = ()
    sought: Sought = Sought.ALL
    spared: Layout | None = None
