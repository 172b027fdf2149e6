"""What every fact is checked on: a project, a layout of it, and the sizes that follow from the project."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shapely import Polygon

from fitter.domain.cushions import Cushion, Option
from fitter.domain.findings import Finding
from fitter.domain.layout import Box, Layout, Module, Run, Side
from fitter.domain.project import Project
from fitter.domain.wishes import EndKind
from rooms.lengths import Length, format_length


@dataclass(frozen=True)
class Case:
    """A layout beside the project that it is meant for.

    Sizes are rounded up to the shop mark, as they are built.
    """

    project: Project
    layout: Layout

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
    def side(self) -> Run | None:
        """The short run; None in a straight layout."""
        return self.layout.runs[1] if len(self.layout.runs) > 1 else None

    @property
    def corner(self) -> Module | None:
        """What fills the corner place; None in a straight layout."""
        return next((module for module in self.layout.modules if module.place == 0), None)

    def cushion(self, name: str) -> Cushion | None:
        """The kind of that name, if the project has it."""
        return next((cushion for cushion in self.project.cushions if cushion.name == name), None)

    def option(self, run: Run) -> Option:
        """How the cushions of a run lie; the run's kind must be known."""
        kinds = [cushion for cushion in self.project.cushions if cushion.name == run.cushion]
        return Option(kinds[0], run.turned)

    def pitch(self, run: Run) -> Length:
        """Room per cushion along a run, from the cushion itself."""
        return self.option(run).pitch(self.mark)

    def deck(self, run: Run) -> Length:
        """Deck depth of a run, from the cushion itself."""
        return self.option(run).deck(self.mark)

    def plain(self, box: Box) -> Box:
        """A box as if the corner lay at the low-x end: mirrored where it lies at the left hand."""
        return Box(-box.x1, box.y0, -box.x0, box.y1) if self.layout.hand is Side.LEFT else box

    @property
    def start(self) -> tuple[Length, Length]:
        """The deck corner (X, Y), with the corner at the low-x end."""
        deck = self.plain(self.main.deck)
        return (deck.x0 - self.deck(self.side) if self.side else deck.x0), deck.y0

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
