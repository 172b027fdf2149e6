"""What every fact is checked on: a project, a layout of it, and the sizes that follow from the project."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from shapely import Polygon

from fitter.domain.cushions import Cushion, Option
from fitter.domain.findings import Finding
from fitter.domain.layout import Box, Layout, Module, Run, Side
from fitter.domain.project import Project
from fitter.domain.wishes import CornerKind, EndKind
from rooms.lengths import ZERO, Length, format_length

DUST = Length.inches("2/1000")
"""What a distance in floats may be short of the exact one."""

HAIR = 0.01
"""Units that floats alone may make of an exact distance in a room; far less than two places on the mark differ by."""

HANDS = (Side.RIGHT, Side.LEFT)
"""Both ends of a chain of runs, in the order in which the main run is counted."""


@dataclass(frozen=True)
class Case:
    """A layout beside the project that it is meant for: a chain of a main run and an arm at neither, one or both hands.

    Sizes are rounded up to the shop mark, as they are built. What depends on a cushion is worked out from the project's
    cushion, not taken from the layout; only the counts, the options and the place of the main deck are. A distance may
    be short by `dust` units.
    """

    project: Project
    layout: Layout
    dust: float = float(DUST.units)

    @property
    def mark(self) -> Length:
        """The shop mark."""
        return self.project.mark

    @property
    def post(self) -> Length:
        """Side of a post."""
        return self.project.frame.post.width.ceil_to(self.mark)

    @property
    def rail(self) -> Length:
        """Thickness of a rail."""
        return self.project.frame.rail.thickness.ceil_to(self.mark)

    @property
    def back(self) -> Length:
        """Thickness of the back panel."""
        return self.project.frame.back_thickness.ceil_to(self.mark)

    @property
    def overhang(self) -> Length:
        """How far the cushions come forward over the front of the wood."""
        return self.project.frame.overhang.ceil_to(self.mark)

    @property
    def legroom(self) -> Length:
        """Clear depth before the fronts."""
        return self.project.wish.legroom.ceil_to(self.mark)

    def end(self, kind: EndKind) -> Length:
        """Thickness of an end."""
        frame = self.project.frame
        thickness = frame.arm_thickness if kind is EndKind.ARMED else frame.open_end_thickness
        return thickness.ceil_to(self.mark)

    @property
    def main(self) -> Run:
        """The main run."""
        return self.layout.runs[0]

    @property
    def arms(self) -> tuple[Run, ...]:
        """The runs that meet the main run at a corner, in the order of the layout."""
        return self.layout.runs[1:]

    @property
    def first(self) -> Side:
        """The hand that the main run is counted from: the corner of an L, else the right."""
        return Side.LEFT if [arm.side for arm in self.arms] == [Side.LEFT] else Side.RIGHT

    def cushion(self, name: str | None) -> Cushion | None:
        """The kind of that name, if the project has it."""
        return next((cushion for cushion in self.project.cushions if cushion.name == name), None)

    def option(self, thing: Run | Module) -> Option:
        """How the cushions of a run, or the one of a corner place, lie; the kind must be known."""
        kinds = [cushion for cushion in self.project.cushions if cushion.name == thing.cushion]
        return Option(kinds[0], thing.turned)

    def pitch(self, thing: Run | Module) -> Length:
        """Room per cushion along the run, from the cushion itself."""
        return self.option(thing).pitch(self.mark)

    def deck(self, thing: Run | Module) -> Length:
        """From front to back of the cushion that lies there, from the cushion itself."""
        return self.option(thing).deck(self.mark)

    def cut(self, kind: Cushion, wood: Length) -> Length:
        """How deep a corner cushion is cut for wood that stands so far out from a back, up to the mark.

        Air is kept around the wood; half the ease, and as much as the cushion overhangs, lie between it and the back.
        """
        air, ease = self.project.frame.notch_clearance.units, Fraction(kind.ease.units, 2)
        marks = -((ease + self.overhang.units - air - wood.units) // self.mark.units)
        return self.mark * max(0, marks)

    @cached_property
    def gap(self) -> Length:
        """How far all cushions lie off the backs: what they overhang, and where runs are spread what the posts ask.

        Of the corner cushions of a spread the one whose post asks most decides.
        """
        if self.layout.corner is not CornerKind.SPREAD:
            return self.overhang
        names = [module.cushion for module in self.layout.modules if module.corner is not None]
        kinds = [kind for kind in map(self.cushion, names) if kind is not None]
        return self.overhang + max((self.cut(kind, self.post) for kind in kinds), default=ZERO)

    def depth(self, run: Run) -> Length:
        """From the back of a run's place to its front line: its cushion and the gap behind it."""
        return self.deck(run) + self.gap

    def wood(self, run: Run) -> Length:
        """From the back of a run's place to the front of its wood."""
        return self.depth(run) - self.overhang

    def length(self, run: Run) -> Length:
        """Pitches of a run; corner places are not counted."""
        return self.pitch(run) * run.count

    def reach(self, hand: Side) -> Length:
        """How far the corner place at a hand reaches along the main run: the depth of the arm; zero without one."""
        arm = self.layout.run(hand)
        return self.depth(arm) if arm else ZERO

    @property
    def x(self) -> Length:
        """Low-x end of the back line, corner places included."""
        return self.main.deck.x0 - self.reach(Side.RIGHT)

    @property
    def y(self) -> Length:
        """The back line of the main run."""
        return self.main.deck.y0

    @property
    def front(self) -> Length:
        """The front line of the main run, where arms begin."""
        return self.y + self.depth(self.main)

    @property
    def width(self) -> Length:
        """Of the back line, corner places included."""
        return self.reach(Side.RIGHT) + self.length(self.main) + self.reach(Side.LEFT)

    def seen(self, box: Box, hand: Side) -> Box:
        """A box as it would lie were that hand the right one: the left is turned over about the middle of the chain.

        The deck corner stays where it is, and to turn over twice is to do nothing.
        """
        if hand is not Side.LEFT:
            return box
        both = self.x * 2 + self.width
        return Box(both - box.x1, box.y0, both - box.x0, box.y1)

    def owner(self, hand: Side) -> Side:
        """The run that owns the corner place at a hand: the longer; of equal ones the aligned, else the main run."""
        arm, aligned = self.layout.run(hand), self.layout.pose.aligned
        arm_length, main_length = (self.length(arm) if arm else ZERO), self.length(self.main)
        if arm_length == main_length:
            return hand if aligned is hand else Side.MAIN
        return hand if arm_length > main_length else Side.MAIN

    def area(self, box: Box) -> Polygon:
        """A box in the room, in units."""
        return Polygon([(float(x), float(y)) for x, y in self.layout.pose.outline(box)])

    def areas(self, boxes: Sequence[Box]) -> tuple[Polygon, ...]:
        """Boxes in the room, in units."""
        return tuple(self.area(box) for box in boxes)

    def tell(self, length: Length) -> str:
        """A length for a message."""
        return format_length(length, self.project.unit, denominator=64, feet=False)

    def tell_box(self, box: Box) -> str:
        """A box for a message: its span along the backs, then into the room."""
        x0, y0, x1, y1 = (self.tell(size) for size in (box.x0, box.y0, box.x1, box.y1))
        return f"{x0} to {x1} along, {y0} to {y1} deep"

    def fault(self, code: str, message: str, key: str = "") -> Finding:
        """What is wrong, with its place in the project file."""
        return Finding(code, message, key, self.project.place(key))
