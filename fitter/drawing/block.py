"""Boxes of text beside a drawing: written line by line, with a border; and the title block, which every sheet has."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

from fitter.drawing.metrics import text_width, wrap
from fitter.drawing.page import LARGE, MEDIUM, SMALL, Area, Item, Line, Pen, Role, Text
from fitter.drawing.sheets import Scale
from fitter.drawing.view import View
from rooms.lengths import UNITS_PER_MM, Length, Unit

WIDTH = 63.0
PAD = 2.0
LEADING = 4.2
_GAP = 2.0  # between a text and the value that stands at its end, at least, mm
CAUTION = "Check every length against the tape before sawing; local codes decide about fire, guards and exits."

Built: TypeAlias = tuple[tuple[Item, ...], float]
"""The things in a box whose upper left corner lies at (0, 0), and its height."""


@dataclass
class Block:
    """A box in the making; its upper left corner lies at (0, 0), `depth` grows downward."""

    depth: float = PAD
    items: list[Item] = field(default_factory=list)

    def write(self, text: str, height: float = SMALL) -> None:
        """Write a text, broken into as many lines as it needs."""
        for line in wrap(text, height, WIDTH - 2 * PAD):
            self.depth += height
            self.items.append(Text((PAD, -self.depth), line, height, role=Role.PANEL))
            self.depth += 0.68 * height

    def row(self, cells: Sequence[tuple[float, float, str]]) -> None:
        """Write cells into one line, each given by its place across, its anchor and its text."""
        self.depth += SMALL
        for x, anchor, text in cells:
            self.items.append(Text((x, -self.depth), text, SMALL, anchor=anchor, role=Role.PANEL))
        self.depth += LEADING - SMALL

    def told(self, text: str, *values: tuple[float, str]) -> None:
        """Write a text, broken where it must be, with values on its last line, each given by its right end."""
        widest = min((right - text_width(value, SMALL) for right, value in values), default=WIDTH - PAD)
        *before, last = wrap(text, SMALL, widest - PAD - _GAP) or ("",)
        for line in before:
            self.row([(PAD, 0.0, line)])
        self.row([(PAD, 0.0, last), *((right, 1.0, value) for right, value in values)])

    def rule(self) -> None:
        """Draw a line across."""
        self.depth += 0.6
        self.items.append(Line(((0.0, -self.depth), (WIDTH, -self.depth)), Pen.FINE, Role.PANEL))
        self.depth += 1.6

    def closed(self) -> Built:
        """The items with a border around them, and the height of the box."""
        height = self.depth + PAD / 2
        ring = ((0.0, -height), (WIDTH, -height), (WIDTH, 0.0), (0.0, 0.0))
        return (Area(ring, 1.0, Role.PANEL, Pen.MEDIUM), *self.items), height


@dataclass(frozen=True)
class Heading:
    """What every sheet of a project says of itself.

    Args:
        title: of the project.
        file: that it was read from; empty if none.
        unit: that lengths are written in.
        tolerance: of one tape reading; 0 where nothing was taped.
        note: such as that demo data is invented; empty if none.
    """

    title: str
    file: str
    unit: Unit
    tolerance: Length
    note: str = ""


def title_block(heading: Heading, scale: Scale, sheet: str, says: Sequence[str]) -> Built:
    """The box that says what a drawing is.

    Args:
        heading: of the project.
        scale: of the drawing.
        sheet: name of the paper.
        says: what is shown, a paragraph each; empty ones are left out.
    """
    block = Block()
    fits = text_width(heading.title, LARGE) <= WIDTH - 2 * PAD
    block.write(heading.title, LARGE if fits else MEDIUM)
    if heading.file:
        block.write(heading.file)
    block.rule()
    block.write(f"Scale {scale.written}")
    block.write(f"Sheet {sheet}")
    _scale_bar(block, scale, heading.unit)
    block.rule()
    for line in says:
        block.write(line)
    block.rule()
    block.write(_unit_line(heading))
    if heading.note:
        block.write(heading.note)
    block.rule()
    block.write(CAUTION)
    return block.closed()


def _unit_line(heading: Heading) -> str:
    unit = "feet and inches" if heading.unit.imperial else "millimetres"
    if not heading.tolerance:
        # Of a list of parts, where nothing was taped.
        return f"Lengths in {unit}"
    tolerance = View(1, heading.unit).written(heading.tolerance, feet=False)
    return f"Lengths in {unit}, between finished faces; tape tolerance {tolerance}"


_BARS = {
    True: tuple(Length.inches(12 * feet) for feet in (64, 32, 16, 8, 4, 2, 1)),
    False: tuple(Length.millimetres(mm) for mm in (50000, 20000, 10000, 5000, 2000, 1000, 500, 200)),
}


def _scale_bar(block: Block, scale: Scale, unit: Unit) -> None:
    """A bar of four equal parts, black and white in turn, true to scale."""
    per_mm = UNITS_PER_MM * scale.denominator
    whole = next(length for length in _BARS[unit.imperial] if length.units / per_mm <= WIDTH - 10.0)
    part = whole.units / per_mm / 4
    block.depth += 1.0
    top = -block.depth
    for i in range(4):
        x = 4.0 + i * part
        ring = ((x, top - 1.5), (x + part, top - 1.5), (x + part, top), (x, top))
        block.items.append(Area(ring, 0.0 if i % 2 == 0 else 1.0, Role.PANEL, Pen.FINE))
    block.depth += 2.4
    block.row([(4.0 + i * part, 0.5, _bar_label(Length(whole.units * i // 4), unit, last=i == 4)) for i in (0, 2, 4)])


def _bar_label(length: Length, unit: Unit, *, last: bool) -> str:
    number = f"{float(Unit.FT.of(length) if unit.imperial else Unit.M.of(length)):g}"
    return f"{number} {'ft' if unit.imperial else 'm'}" if last else number
