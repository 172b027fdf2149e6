"""What every fact about the wood is checked on: the frame as it is told, beside the layout that it is meant for."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TypeAlias

import numpy as np

from fitter.checking.case import Case
from fitter.checking.wood.contacts import Contacts, contacts
from fitter.checking.wood.near import neighbours
from fitter.checking.wood.solids import Counts, Floats, Solids, inches, solids
from fitter.checking.wood.steel import Steel
from fitter.domain.findings import Finding
from fitter.domain.frame import Carpentry
from fitter.domain.layout import Box, Layout, Run, Side
from fitter.domain.project import Project
from fitter.domain.woodwork import Levels, Part, PartRole, Woodwork
from rooms.lengths import UNITS_PER_INCH, Length

Span: TypeAlias = tuple[float, float]
"""From where to where, inches."""

DOWN, UP = np.array([0.0, 0.0, -1.0]), np.array([0.0, 0.0, 1.0])

SEAT_RAILS = (PartRole.FRONT_RAIL, PartRole.BACK_RAIL, PartRole.CROSS_RAIL)
POSTS = (PartRole.SUPPORT_POST, PartRole.BACK_POST, PartRole.INNER_POST, PartRole.CORNER_POST)


@dataclass(frozen=True)
class Way:
    """How a run lies: along which axis it goes, and where its back and its front are, in inches.

    Args:
        side: the run.
        along: axis number along the run, 0 or 1.
        deep: axis number from its back to its front.
        back: where the back line of its deck lies on that axis.
        front: where the front line does.
    """

    side: Side
    along: int
    deep: int
    back: float
    front: float

    @property
    def sign(self) -> int:
        """1 where the front lies higher than the back, else -1."""
        return 1 if self.front > self.back else -1

    def depth(self, at: float) -> float:
        """How far a place on the deep axis lies before the back line."""
        return (at - self.back) * self.sign


def way(run: Run) -> Way:
    """How a run lies in the layout frame; that of a corner place is the way of the run that owns it."""
    deck = run.deck
    if run.side is Side.MAIN:
        return Way(run.side, 0, 1, inches(deck.y0), inches(deck.y1))
    low, high = inches(deck.x0), inches(deck.x1)
    return Way(run.side, 1, 0, *((low, high) if run.side is Side.RIGHT else (high, low)))


def sides(box: Box) -> tuple[Floats, Floats]:
    """Low and high corner of a plan, inches."""
    return np.array([inches(box.x0), inches(box.y0)]), np.array([inches(box.x1), inches(box.y1)])


def union(spans: Iterable[Span]) -> list[Span]:
    """Spans that overlap or touch, joined, in order."""
    found: list[Span] = []
    for low, high in sorted(spans):
        if found and low <= found[-1][1] + 1e-3:
            found[-1] = found[-1][0], max(high, found[-1][1])
        else:
            found.append((low, high))
    return found


def holes(within: Span, spans: Iterable[Span]) -> list[Span]:
    """What spans leave open of a span, in order."""
    at, found = within[0], []
    for low, high in union(spans):
        if low > at and at < within[1]:
            found.append((at, min(low, within[1])))
        at = max(at, high)
    if at < within[1]:
        found.append((at, within[1]))
    return found


@dataclass(frozen=True)
class Built:
    """The wood beside the project and the layout; all that is measured here is in inches.

    Args:
        project: what was asked.
        layout: what the wood is meant for; it must have passed its own checks.
        woodwork: what is to be shown.
    """

    project: Project
    layout: Layout
    woodwork: Woodwork

    @cached_property
    def case(self) -> Case:
        """The layout with the sizes that follow from the project."""
        return Case(self.project, self.layout)

    @property
    def levels(self) -> Levels:
        """Heights."""
        return self.woodwork.levels

    @property
    def made(self) -> Carpentry:
        """How it is to be built."""
        return self.project.frame.carpentry

    @property
    def parts(self) -> tuple[Part, ...]:
        """Every stick."""
        return self.woodwork.parts

    @cached_property
    def solids(self) -> Solids:
        """Every stick as solids."""
        return solids(self.woodwork.parts)

    @cached_property
    def near(self) -> tuple[Counts, Counts]:
        """Pieces that come near each other."""
        return neighbours(self.solids)

    @cached_property
    def contacts(self) -> Contacts:
        """Where they touch."""
        return contacts(self.solids, self.near)

    @cached_property
    def steel(self) -> Steel:
        """Every fastener of every joint."""
        return Steel.of(self.solids, self.woodwork.joints)

    @cached_property
    def ways(self) -> dict[Side, Way]:
        """How each run lies."""
        return {run.side: way(run) for run in self.layout.runs}

    @cached_property
    def _by_role(self) -> dict[PartRole, list[int]]:
        found: dict[PartRole, list[int]] = defaultdict(list)
        for number, part in enumerate(self.woodwork.parts):
            found[part.role].append(number)
        return found

    def of(self, *roles: PartRole, run: Side | None = None) -> list[int]:
        """The parts of some roles, those of a run if one is given, in order."""
        found = sorted(number for role in roles for number in self._by_role.get(role, ()))
        return [number for number in found if run is None or self.parts[number].run is run]

    def is_a(self, number: int, roles: Sequence[PartRole]) -> bool:
        """Whether a part has one of some roles."""
        return self.parts[number].role in roles

    def touching(self, number: int, face: int, roles: Sequence[PartRole]) -> list[int]:
        """Rows of `contacts` on a face of a part, with parts of some roles."""
        others = self.contacts.other
        return [row for row in self.contacts.on(number, face).tolist() if self.is_a(others[row], roles)]

    def mark(self, length: Length) -> float:
        """A size as it is built: up to the shop mark."""
        return inches(length.ceil_to(self.project.mark))

    @cached_property
    def overhang(self) -> float:
        """How far cushions come forward over the front of the wood."""
        return self.mark(self.project.frame.overhang)

    @cached_property
    def one_mark(self) -> float:
        """The shop mark."""
        return inches(self.project.mark)

    def tell(self, size: float) -> str:
        """A size for a message."""
        return self.case.tell(Length(round(float(size) * UNITS_PER_INCH)))

    def spot(self, point: Floats) -> str:
        """A point for a message: along the backs, into the room, up from the floor."""
        return f"{self.tell(point[0])} along, {self.tell(point[1])} deep, {self.tell(point[2])} up"

    def middle(self, number: int) -> Floats:
        """The middle of a part's box."""
        return np.asarray((self.solids.part_low[number] + self.solids.part_high[number]) / 2)

    def name(self, number: int) -> str:
        """A part for a message: mark, what it is, where."""
        part = self.parts[number]
        where = ", ".join(text for text in (f"{part.run} run", part.place) if text)
        return f"{part.mark or 'unmarked'} ({part.role}, {where})"

    def fault(self, code: str, message: str, point: Floats | None = None) -> Finding:
        """What is wrong, with the spot in lengths."""
        where = f" at {self.spot(point)}" if point is not None else ""
        return Finding(code, message + where)


Fact: TypeAlias = Callable[[Built], Iterable[Finding]]
