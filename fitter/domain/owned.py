"""What is in the shed: what a layout takes of it, what it leaves there, and what buying more would bring."""

from __future__ import annotations

from dataclasses import dataclass, replace

from fitter.domain.cushions import Condition, Conditions, Cushion
from fitter.domain.findings import Finding, Severity
from fitter.domain.layout import Layout, Verdict
from fitter.domain.outcome import LayoutResult
from fitter.domain.project import Project

BUY_KEY = "wish.buy_at_most"
ONLY_OWNED, BUY_AT_MOST = "--only-owned", "--buy-at-most"


@dataclass(frozen=True)
class Stayed:
    """How a kind of cushion that is owned is used up.

    Args:
        cushion: name of the kind.
        own: how many there are.
        used: how many of these the layout takes, at most all of them.
        conditions: of those used; empty where the file says nothing of them.
        left: of those left over; likewise.
    """

    cushion: str
    own: int
    used: int
    conditions: Conditions = ()
    left: Conditions = ()

    @property
    def over(self) -> int:
        """How many are left over."""
        return self.own - self.used


def shed(project: Project, layout: Layout) -> tuple[Stayed, ...]:
    """What a layout makes of each kind of which some are owned, in the order of the file.

    Those in the best condition are used first: within a kind they are all alike to the layout.
    """
    used = {row.cushion: row.used for row in layout.purchases}
    return tuple(_stayed(kind, min(used.get(kind.name, 0), kind.own)) for kind in project.cushions if kind.own)


def _stayed(kind: Cushion, used: int) -> Stayed:
    taken: list[tuple[Condition, int]] = []
    left: list[tuple[Condition, int]] = []
    rest = used
    for condition, count in kind.conditions:
        here = min(count, rest)
        rest -= here
        taken += [(condition, here)] if here else []
        left += [(condition, count - here)] if count > here else []
    return Stayed(kind.name, kind.own or 0, used, tuple(taken), tuple(left))


def limited(project: Project, most: int, flag: str) -> Project:
    """The same project where at most so many cushions are bought, as a flag of the command line asks.

    Args:
        project: as its file says.
        most: how many may be bought.
        flag: `ONLY_OWNED` or `BUY_AT_MOST`.

    Returns:
        A project whose findings name the kinds of which none are owned, where none may be bought.
    """
    wish = replace(project.wish, buy_most=most)
    said = flag if flag == ONLY_OWNED else f"{flag} {most}"
    notes = tuple(_none_owned(project)) if most == 0 else ()
    return replace(
        project, wish=wish, flags={**project.flags, BUY_KEY: said}, findings=(*project.findings, *notes)
    )  # fmt: skip


def _none_owned(project: Project) -> list[Finding]:
    return [
        Finding(
            "none-owned",
            f"cushion `{kind.name}` has no `own`, so none of it is in the shed and none is used",
            f"cushions.{number}",
            project.place(f"cushions.{number}"),
            "write how many there are under `own`",
            severity=Severity.NOTE,
        )
        for number, kind in enumerate(project.cushions)
        if kind.own is None
    ]


@dataclass(frozen=True)
class Step:
    """What can be had where so many cushions may be bought.

    Args:
        most: how many may be bought.
        verdict: how the answer stands.
        shown: the best layout; None where there is none.
    """

    most: int
    verdict: Verdict
    shown: LayoutResult | None

    @property
    def bought(self) -> int | None:
        """How many the layout buys; None without one."""
        return None if self.shown is None else sum(row.buy for row in self.shown.layout.purchases)


@dataclass(frozen=True)
class Buying:
    """What buying would bring, step by step.

    Args:
        wanted: how many may be bought at most.
        steps: with none bought first, then one more each; the last one has all that buying brings.
        closed: whether it is proven that up to `wanted` nothing is better than the last step.
        interrupted: whether the user stopped it.
    """

    wanted: int
    steps: tuple[Step, ...]
    closed: bool
    interrupted: bool = False
