"""What comes out when one number of a project is varied: stretches of values with the same answer."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from fitter.domain.amounts import Amount
from fitter.domain.findings import Finding
from fitter.domain.layout import Layout, Verdict
from fitter.domain.outcome import FitResult
from fitter.domain.project import Project


class Shown(StrEnum):
    """What can be shown of an answer, as a command line names it."""

    SEATS = "seats"
    LAYOUT = "layout"
    COST = "cost"
    NOTCHED = "notched"
    TALL = "tall"
    BUY = "buy"
    POSTS = "posts"
    LENGTHS = "lengths"
    OFF_EDGE = "off_edge"
    AREA = "area"
    VERDICT = "verdict"


Value = int | tuple[str, ...] | None
"""A count, cents, shop marks or square units; the words of a layout; None where there is nothing."""


@dataclass(frozen=True)
class Look:
    """What is shown of the answer at one value.

    Args:
        verdict: of that answer; None where the file cannot be used at that value.
        values: what is shown, in the order in which it was asked for; empty without a layout.
    """

    verdict: Verdict | None
    values: tuple[Value, ...] = ()


@dataclass(frozen=True)
class Stretch:
    """Values one after another at which the answer is the same.

    Args:
        first: the first of them.
        last: the last of them.
        count: how many they are.
        look: the answer at the first of them.
        until: the answer at the last; it differs only in money that rises or falls evenly with a price.
        solved: whether every one of these values was solved for itself.
        project: that of the first value; None where the file cannot be used there.
        layout: of an answer within it, where there is one.
        result: why no layout fits, at the first value; None where one does.
        refusal: why the file cannot be used, at the first value; None where it can.
    """

    first: Amount
    last: Amount
    count: int
    look: Look
    until: Look
    solved: bool
    project: Project | None = None
    layout: Layout | None = None
    result: FitResult | None = None
    refusal: Finding | None = None


@dataclass(frozen=True)
class Sweep:
    """A whole sweep.

    Args:
        key: of the number that varies.
        step: between two values.
        shown: what is shown, in order.
        stretches: in the order of the values, without a gap.
        values: how many there are.
        solves: how often the layout model was asked.
        related: whether it is known how the number bears on the answer, at least in places.
        interrupted: whether the user stopped it.
        written: what the file says there now; None where it says nothing.
        called: the key with the names of things; empty where that is the key.
    """

    key: str
    step: Amount
    shown: tuple[Shown, ...]
    stretches: tuple[Stretch, ...]
    values: int
    solves: int
    related: bool
    interrupted: bool = False
    written: str | None = None
    called: str = ""

    @property
    def name(self) -> str:
        """The key as a reader finds it in the file."""
        return self.called or self.key

    @property
    def usable(self) -> Project | None:
        """A project of it, for its title and units."""
        return next((stretch.project for stretch in self.stretches if stretch.project is not None), None)
