"""Variants of a published plan: each with its layout, its wood and its boards, and whether the file's room holds it."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction

from fitter.domain.board_list import BoardList
from fitter.domain.designs import Change
from fitter.domain.layout import Layout, Verdict
from fitter.domain.outcome import FitResult
from fitter.domain.project import Project
from fitter.domain.requirements import Requirement
from fitter.domain.spending import Spent
from fitter.domain.woodwork import Part
from rooms.lengths import Length, round_half_up

BoardKind = tuple[str, Length]
"""A section, and how long its board is as sold."""


@dataclass(frozen=True)
class Cushions:
    """What a layout takes of one kind of cushion.

    Args:
        name: of the kind.
        seats: seat cushions.
        backs: back cushions that go with them.
        own: how many the project's author has; None if not said.
        price: of one with its back cushion; None if not said.
    """

    name: str
    seats: int
    backs: int
    own: int | None
    price: Fraction | None

    @property
    def buy(self) -> int:
        """How many the author would have to buy; a reader buys all."""
        return max(0, self.seats - (self.own or 0))

    @property
    def cost(self) -> int | None:
        """Of all of them, in cents; None where the price is not known."""
        return None if self.price is None else round_half_up(self.price * self.seats * 100)


@dataclass(frozen=True)
class Variant:
    """A design on open ground.

    Args:
        number: 0 for the published one.
        change: against the published design; None for that itself.
        ground: the project on open ground that it stands in.
        boards: its boards, with its frame, its layout and how they stand; where it cannot be built, why.
        cushions: what it takes of each kind, in the order of the file.
        lacks: why it cannot be built where no requirement forbids it; empty if not so.
        here: whether it stands in the author's own room; None where it was not asked.
    """

    number: int
    change: Change | None
    ground: Project
    boards: BoardList
    cushions: tuple[Cushions, ...] = ()
    lacks: str = ""
    here: FitResult | None = None

    @property
    def verdict(self) -> Verdict:
        """How layout and frame stand; boards that cannot be had or planned are told by themselves, our mistakes not."""
        return Verdict.FAULT if self.boards.verdict is Verdict.FAULT else self.boards.framed.verdict

    @property
    def built(self) -> bool:
        """Whether there is a layout with a frame that its proof accepts."""
        framed = self.boards.framed
        return framed.woodwork is not None and self.verdict is not Verdict.FAULT

    @property
    def layout(self) -> Layout:
        """Of a variant that is built."""
        shown = self.boards.framed.shown
        assert shown is not None, "it is built"
        return shown.layout

    @property
    def parts(self) -> tuple[Part, ...]:
        """The sticks of a variant that is built."""
        woodwork = self.boards.framed.woodwork
        assert woodwork is not None, "it is built"
        return woodwork.parts

    @property
    def clash(self) -> tuple[Requirement, ...]:
        """What forbids it."""
        return self.boards.framed.fit.clash

    @property
    def size(self) -> tuple[Length, Length]:
        """Over all: along the main run's back, and square to it."""
        boxes = self.layout.footprint
        xs, ys = [(box.x0, box.x1) for box in boxes], [(box.y0, box.y1) for box in boxes]
        return max(x for _, x in xs) - min(x for x, _ in xs), max(y for _, y in ys) - min(y for y, _ in ys)

    @property
    def bought(self) -> Counter[BoardKind]:
        """Boards to buy."""
        return Counter((board.section, board.length) for board in self.boards.boards)

    @property
    def spent(self) -> Spent:
        """Boards and cushions."""
        costs = [kind.cost for kind in self.cushions]
        known = [cost for cost in costs if cost is not None]
        wood = {each.section: each.wood.units for each in self.boards.sections if each.cost is None}
        kinds = {kind.name: kind.seats for kind in self.cushions if kind.price is None}
        return Spent(self.boards.cost, sum(known) if known else None, wood, kinds)

    @property
    def posts(self) -> int:
        """Interior and corner posts."""
        return len(self.layout.posts)


@dataclass(frozen=True)
class Variants:
    """A published plan with its variants.

    Args:
        fit: the answer that was published, in the author's room.
        base: the same design on open ground; None where there is no layout, or time ran out before.
        variants: in the order of `changes`.
        moved: what of the base stands otherwise than published, in words; empty where nothing does.
        interrupted: whether the user stopped the work.
    """

    fit: FitResult
    base: Variant | None = None
    variants: tuple[Variant, ...] = ()
    moved: tuple[str, ...] = ()
    interrupted: bool = False

    @property
    def every(self) -> tuple[Variant, ...]:
        """The base, then its variants."""
        return (*(() if self.base is None else (self.base,)), *self.variants)

    @property
    def verdict(self) -> Verdict:
        """A mistake of ours first, then what is not proven; that some variant cannot be built is an answer."""
        if self.base is None:
            told = self.fit.layout is None or self.fit.verdict is Verdict.FAULT
            return self.fit.verdict if told else Verdict.UNKNOWN
        found = [variant.verdict for variant in self.every]
        found += [variant.here.verdict for variant in self.variants if variant.here and _open(variant.here)]
        found += [variant.boards.verdict for variant in self.every if variant.built]
        found.append(self.fit.verdict)
        order = (Verdict.FAULT, Verdict.FOUND, Verdict.UNKNOWN)
        worst = next((verdict for verdict in order if verdict in found), Verdict.PROVEN)
        return Verdict.FOUND if worst is Verdict.UNKNOWN else worst


def _open(here: FitResult) -> bool:
    """Whether it is not known that a variant stands in the author's room, or does not; some place is enough."""
    return here.verdict in (Verdict.UNKNOWN, Verdict.FAULT)


def cushions_of(project: Project, layout: Layout) -> tuple[Cushions, ...]:
    """What a layout takes of each kind, in the order of the file; a back cushion goes with each that is sold with one.

    Args:
        project: of the author, who may have some.
        layout: any.
    """
    used = Counter(module.cushion for module in layout.modules)
    return tuple(
        Cushions(kind.name, used[kind.name], used[kind.name] if kind.back else 0, kind.own, kind.price)
        for kind in project.cushions
        if used[kind.name]
    )
