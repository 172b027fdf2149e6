"""Designs: what a layout has chosen, wherever it stands, and the neighbouring designs that a reader may want."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import StrEnum

from fitter.domain.cushions import Option, options
from fitter.domain.layout import Layout, Module
from fitter.domain.project import Project
from fitter.domain.wishes import CornerKind, EndKind, Shape, Side
from rooms.lengths import Length

ARMS = (Side.RIGHT, Side.LEFT)
STEPS = (-1, 1, 2)
"""Modules more or less than published; two more show whether one more is like the next."""


@dataclass(frozen=True)
class Laid:
    """One way to lay one kind of cushion, by the name of the kind."""

    cushion: str
    turned: bool = False


@dataclass(frozen=True)
class RunDesign:
    """A run: how its cushions lie, and how many modules it has."""

    laid: Laid
    count: int


@dataclass(frozen=True)
class Design:
    """All choices of a layout but its place.

    Args:
        main: the main run.
        right: the right arm, if there is one.
        left: the left arm, if there is one.
        corner: the treatment of every corner; None for a straight run.
        right_corner: what lies in the right corner place; None for nothing, or no such place.
        left_corner: the same of the left one.
        right_end: the end of the chain of runs at the right hand.
        left_end: the other one.
    """

    main: RunDesign
    right: RunDesign | None
    left: RunDesign | None
    corner: CornerKind | None
    right_corner: Laid | None
    left_corner: Laid | None
    right_end: EndKind
    left_end: EndKind

    @property
    def shape(self) -> Shape:
        """Straight, L or U, by the number of arms."""
        return (Shape.STRAIGHT, Shape.L, Shape.U)[len(self.arms)]

    @property
    def arms(self) -> tuple[Side, ...]:
        """The arms that there are, the right one first."""
        return tuple(side for side in ARMS if self.run(side) is not None)

    @property
    def hand(self) -> Side | None:
        """The side of the arm of an L; else None."""
        return self.arms[0] if self.shape is Shape.L else None

    def run(self, side: Side) -> RunDesign | None:
        """The run of that side, if there is one."""
        return {Side.MAIN: self.main, Side.RIGHT: self.right, Side.LEFT: self.left}[side]

    def runs(self) -> Iterator[tuple[Side, RunDesign]]:
        """The runs that there are, the main one first."""
        for side in (Side.MAIN, *ARMS):
            if (run := self.run(side)) is not None:
                yield side, run

    def in_corner(self, arm: Side) -> Laid | None:
        """What lies in an arm's corner place."""
        return self.right_corner if arm is Side.RIGHT else self.left_corner

    def end(self, hand: Side) -> EndKind:
        """The end of the chain at a hand."""
        return self.right_end if hand is Side.RIGHT else self.left_end

    def mirrored(self) -> Design:
        """The same with right and left exchanged."""
        return replace(
            self,
            right=self.left,
            left=self.right,
            right_corner=self.left_corner,
            left_corner=self.right_corner,
            right_end=self.left_end,
            left_end=self.right_end,
        )

    def with_run(self, side: Side, run: RunDesign) -> Design:
        """The same with another run at a side."""
        if side is Side.MAIN:
            return replace(self, main=run)
        return replace(self, right=run) if side is Side.RIGHT else replace(self, left=run)


def design_of(layout: Layout) -> Design:
    """The choices of a layout."""
    runs = {run.side: RunDesign(Laid(run.cushion, run.turned), run.count) for run in layout.runs}
    corners = {module.corner: _laid(module) for module in layout.corners}
    ends = {end.hand: end.kind for end in layout.ends}
    return Design(
        main=runs[Side.MAIN],
        right=runs.get(Side.RIGHT),
        left=runs.get(Side.LEFT),
        corner=layout.corner,
        right_corner=corners.get(Side.RIGHT),
        left_corner=corners.get(Side.LEFT),
        right_end=ends[Side.RIGHT],
        left_end=ends[Side.LEFT],
    )


def _laid(module: Module) -> Laid | None:
    return None if module.cushion is None else Laid(module.cushion, module.turned)


class What(StrEnum):
    """What a variant changes."""

    COUNT = "modules"
    HAND = "hand"
    CUSHION = "cushion"
    CORNER = "corner"


@dataclass(frozen=True)
class Change:
    """A neighbour of a published design.

    Args:
        what: it changes.
        design: what comes of it.
        run: whose number of modules is changed; else None.
        more: modules more than published, negative for fewer; 0 where that is not what changes.
        laid: how cushions lie on every run; None where that is not what changes.
        swapped: whether the arm of an L became the longer run, so that both runs change roles and the hand changes.
    """

    what: What
    design: Design
    run: Side | None = None
    more: int = 0
    laid: Laid | None = None
    swapped: bool = False


def changes(project: Project, base: Design) -> tuple[Change, ...]:
    """Every neighbour of a design: modules by run, the other hand, other cushions, other corner treatments.

    Args:
        project: its cushions.
        base: the published design.

    Returns:
        In that order; runs, cushions and treatments in the order of every list. No run has less than one module.
    """
    return (
        *_counts(project, base),
        *([Change(What.HAND, base.mirrored())] if base.shape is Shape.L else []),
        *_cushions(project, base),
        *(Change(What.CORNER, _treated(base, kind)) for kind in CornerKind if base.corner not in (None, kind)),
    )


def _treated(base: Design, kind: CornerKind) -> Design:
    """Another corner treatment; on a table lies no cushion."""
    if kind.cushioned:
        return replace(base, corner=kind)
    return replace(base, corner=kind, right_corner=None, left_corner=None)


def _counts(project: Project, base: Design) -> Iterator[Change]:
    for side, run in base.runs():
        for more in STEPS:
            if run.count + more >= 1:
                grown = base.with_run(side, replace(run, count=run.count + more))
                design = _longest_first(project, grown)
                yield Change(What.COUNT, design, side, more, swapped=design is not grown)


def _cushions(project: Project, base: Design) -> Iterator[Change]:
    for option in options(project.cushions):
        laid = Laid(option.cushion.name, option.turned)
        if all(run.laid == laid for _, run in base.runs()):
            continue
        design = base
        for side, run in base.runs():
            # As many seats as before; one more where they do not come out even.
            seats = run.count * option_of(project, run.laid).cushion.seats
            design = design.with_run(side, RunDesign(laid, -(-seats // option.cushion.seats)))
        corners = {arm: laid if design.in_corner(arm) else None for arm in ARMS}
        design = replace(design, right_corner=corners[Side.RIGHT], left_corner=corners[Side.LEFT])
        turned = _longest_first(project, design)
        yield Change(What.CUSHION, turned, laid=laid, swapped=turned is not design)


def option_of(project: Project, laid: Laid) -> Option:
    """The option of a way to lay a cushion."""
    kind = next(cushion for cushion in project.cushions if cushion.name == laid.cushion)
    return Option(kind, laid.turned)


def run_length(project: Project, run: RunDesign) -> Length:
    """Of a run, without corner places."""
    return option_of(project, run.laid).pitch(project.mark) * run.count


def _longest_first(project: Project, design: Design) -> Design:
    """The design itself; of an L whose arm is the longer run, the same furniture named the other way round.

    Seen from the seats of a right arm, the former main run lies on the left. What lies in the corner place is
    named by the main run, so it counts as turned where it did not.
    """
    hand = design.hand
    arm = design.run(hand) if hand else None
    if hand is None or arm is None or run_length(project, arm) <= run_length(project, design.main):
        return design
    across = _across(project, design.in_corner(hand))
    left = hand is Side.RIGHT
    return replace(
        design,
        main=arm,
        right=None if left else design.main,
        left=design.main if left else None,
        right_corner=None if left else across,
        left_corner=across if left else None,
    )


def _across(project: Project, laid: Laid | None) -> Laid | None:
    """A cushion as it is named from the other run; a square one looks the same, one that may not turn is named so."""
    if laid is None:
        return None
    other = Laid(laid.cushion, not laid.turned)
    ways = {Laid(option.cushion.name, option.turned) for option in options(project.cushions)}
    return other if other in ways else laid
