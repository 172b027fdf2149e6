"""What stands beside the plan: title block, scale bar, key of signs, tables of cushions, rails and routes."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from fitter.domain.layout import Face, Layout, Side
from fitter.domain.project import Project
from fitter.drawing.draft import stacked
from fitter.drawing.metrics import text_width, wrap
from fitter.drawing.page import LARGE, MEDIUM, SMALL, Area, Item, Line, Pen, Role, Spot, Text, bounds, moved
from fitter.drawing.seats import SIDE_LETTER
from fitter.drawing.sheets import Scale
from fitter.drawing.signs import Sign, signs
from fitter.drawing.view import View
from fitter.drawing.ways import pairs, route_words
from rooms.lengths import UNITS_PER_MM, Length, Unit

WIDTH = 63.0
_PAD = 2.0
_LEADING = 4.2
CAUTION = "Check every length against the tape before sawing; local codes decide about fire, guards and exits."


@dataclass
class Block:
    """A box of the panel in the making; its upper left corner lies at (0, 0), `depth` grows downward."""

    depth: float = _PAD
    items: list[Item] = field(default_factory=list)

    def write(self, text: str, height: float = SMALL) -> None:
        """Write a text, broken into as many lines as it needs."""
        for line in wrap(text, height, WIDTH - 2 * _PAD):
            self.depth += height
            self.items.append(Text((_PAD, -self.depth), line, height, role=Role.PANEL))
            self.depth += 0.68 * height

    def row(self, cells: Sequence[tuple[float, float, str]]) -> None:
        """Write cells into one line, each given by its place across, its anchor and its text."""
        self.depth += SMALL
        for x, anchor, text in cells:
            self.items.append(Text((x, -self.depth), text, SMALL, anchor=anchor, role=Role.PANEL))
        self.depth += _LEADING - SMALL

    def rule(self) -> None:
        """Draw a line across."""
        self.depth += 0.6
        self.items.append(Line(((0.0, -self.depth), (WIDTH, -self.depth)), Pen.FINE, Role.PANEL))
        self.depth += 1.6

    def closed(self) -> tuple[tuple[Item, ...], float]:
        """The items with a border around them, and the height of the box."""
        height = self.depth + _PAD / 2
        ring = ((0.0, -height), (WIDTH, -height), (WIDTH, 0.0), (0.0, 0.0))
        return (Area(ring, 1.0, Role.PANEL, Pen.MEDIUM), *self.items), height


def title_block(
    project: Project, layout: Layout, scale: Scale, sheet: str, verdict: str
) -> tuple[tuple[Item, ...], float]:
    """The box that says what the drawing is."""
    block = Block()
    fits = text_width(project.title, LARGE) <= WIDTH - 2 * _PAD
    block.write(project.title, LARGE if fits else MEDIUM)
    if project.file:
        block.write(project.file)
    block.rule()
    block.write(f"Scale {scale.written}")
    block.write(f"Sheet {sheet}")
    _scale_bar(block, scale, project.unit)
    block.rule()
    block.write(_seats_line(layout))
    if verdict:
        block.write(verdict)
    block.rule()
    block.write(_unit_line(project))
    if project.note:
        block.write(project.note)
    block.rule()
    block.write(CAUTION)
    return block.closed()


def _seats_line(layout: Layout) -> str:
    shape = f"{layout.shape}, {layout.hand} hand" if layout.hand else str(layout.shape)
    return f"{layout.seats} seats, {shape}" + (f", {layout.corner}" if layout.corner else "")


def _unit_line(project: Project) -> str:
    unit = "feet and inches" if project.unit.imperial else "millimetres"
    tolerance = View(1, project.unit).written(project.room.tolerance, feet=False)
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


def key_block(project: Project, layout: Layout) -> tuple[tuple[Item, ...], float]:
    """The box that explains the signs that occur."""
    block = Block()
    block.write("Key", MEDIUM)
    for sign in signs(project.room, layout):
        _sign_row(block, sign)
    return block.closed()


def _sign_row(block: Block, sign: Sign) -> None:
    middle = -(block.depth + 2.2)
    block.items.extend(moved(item, (_PAD + 1.0, middle)) for item in sign.items)
    lines = wrap(sign.says, SMALL, WIDTH - 2 * _PAD - 18.0)
    block.items.extend(stacked(lines, (_PAD + 18.0, middle - SMALL / 2), role=Role.PANEL))
    block.depth += 5.4 + _LEADING * (len(lines) - 1)


def cushion_block(project: Project, layout: Layout) -> tuple[tuple[Item, ...], float]:
    """The box that counts cushions and says what the letters of the runs stand for."""
    block = Block()
    block.write("Cushions", MEDIUM)
    written = View(1, project.unit).written
    kinds = {cushion.name: cushion for cushion in project.cushions}
    for name in dict.fromkeys(module.cushion for module in layout.modules if module.cushion is not None):
        used = [module for module in layout.modules if module.cushion == name]
        turned = ", turned" if all(module.turned for module in used) else ""
        size = " × ".join(written(length, feet=False) for length in kinds[name].size) if name in kinds else ""
        block.write(f"{len(used)} × {name}")
        block.write(f"{size}{turned}".strip(", "))
    for run in layout.runs:
        block.write(f"{SIDE_LETTER[run.side]} {run.side} run: {run.count} modules of {written(run.pitch, feet=False)}")
    if layout.corner is not None:
        block.write("C corner place")
    return block.closed()


def rail_block(project: Project, layout: Layout) -> tuple[tuple[Item, ...], float]:
    """The table of rails; equal rails of one line share a row."""
    block = Block()
    block.write("Rails", MEDIUM)
    block.row([(_PAD, 0.0, "run"), (15.0, 0.0, "face"), (29.0, 0.0, "bay"), (WIDTH - _PAD, 1.0, "length")])
    block.rule()
    rows: dict[tuple[Side, Face, Length], list[int]] = {}
    for rail in layout.rails:
        rows.setdefault((rail.run, rail.face, rail.length), []).append(rail.bay)
    for (side, face, length), bays in rows.items():
        cells = [(_PAD, 0.0, str(side)), (15.0, 0.0, str(face)), (29.0, 0.0, _numbers(bays))]
        count = f"{len(bays)} × " if len(bays) > 1 else ""
        written = View(1, project.unit).written(length, feet=False)
        block.row([*cells, (WIDTH - _PAD, 1.0, count + written)])
    return block.closed()


def _numbers(bays: Sequence[int]) -> str:
    if len(bays) > 2 and list(bays) == list(range(bays[0], bays[-1] + 1)):
        return f"{bays[0]} to {bays[-1]}"
    return ", ".join(map(str, bays))


def route_block(project: Project, layout: Layout) -> tuple[tuple[Item, ...], float]:
    """The list of routes with the width found."""
    block = Block()
    block.write("Routes", MEDIUM)
    view = View(1, project.unit)
    for route, found in pairs(project.room, layout):
        block.write(f"{route.name}: {route_words(found, view)}")
    block.write("clear: what is left at the narrowest place after the tape tolerance")
    return block.closed()


@dataclass(frozen=True)
class Panel:
    """The panel's boxes on a sheet, and the part of the sheet that they leave for the plan.

    Args:
        items: placed on the page.
        plan: least x, least y, greatest x, greatest y of the free part, mm.
    """

    items: tuple[Item, ...]
    plan: tuple[float, float, float, float]


Built = tuple[tuple[Item, ...], float]


def arrange(
    title: Built, others: Sequence[Built], frame: tuple[float, float, float, float], landscape: bool
) -> Panel | None:
    """Place the boxes in a column at the right of a lying sheet, or in a strip at the foot of a standing one.

    The title block goes to the lower right corner, as ISO 7200 has it (from memory).

    Returns:
        None if the boxes do not fit.
    """
    x0, y0, x1, y1 = frame
    if landscape:
        for count in (1, 2):
            left = x1 - count * WIDTH
            columns = [left + WIDTH * i for i in range(count)]
            if placed := _flow(title, others, columns, y0, y1 - y0):
                border = Line(((left, y0), (left, y1)), Pen.MEDIUM, Role.PANEL)
                return Panel((*placed, border), (x0, y0, left, y1))
        return None
    count = int((x1 - x0) // WIDTH)
    columns = [x1 - WIDTH * (count - i) for i in range(count)]
    height = title[1]
    while height < 0.6 * (y1 - y0):
        if placed := _flow(title, others, columns, y0, height):
            border = Line(((x0, y0 + height), (x1, y0 + height)), Pen.MEDIUM, Role.PANEL)
            return Panel((*placed, border), (x0, y0 + height, x1, y1))
        height += 5.0
    return None


def _flow(
    title: Built, others: Sequence[Built], columns: Sequence[float], foot: float, height: float
) -> tuple[Item, ...]:
    """Fill columns from the top, the last one down to the title block; empty if there is too much."""
    items: list[Item] = [moved(item, (columns[-1], foot + title[1])) for item in title[0]]
    column, top = 0, foot + height
    if len(columns) == 1 and title[1] > height:
        return ()
    for block, size in others:
        while top - size < foot + (title[1] if column == len(columns) - 1 else 0.0) - 1e-6:
            column, top = column + 1, foot + height
            if column == len(columns):
                return ()
        items.extend(moved(item, (columns[column], top)) for item in block)
        top -= size
    return tuple(items)


def blocks(project: Project, layout: Layout) -> tuple[Built, ...]:
    """All boxes but the title block, in the order in which they are placed."""
    makers: list[Callable[[Project, Layout], Built]] = [key_block, cushion_block]
    if layout.rails:
        makers.append(rail_block)
    if project.room.routes:
        makers.append(route_block)
    return tuple(make(project, layout) for make in makers)


def placed_inside(items: Sequence[Item], plan: tuple[float, float, float, float]) -> Spot | None:
    """By how much the plan moves to stand in the middle of the free part; None if it is too large."""
    x0, y0, x1, y1 = bounds(items)
    left, low, right, high = plan
    if x1 - x0 > right - left - 4.0 or y1 - y0 > high - low - 4.0:
        return None
    return (left + right - x0 - x1) / 2, (low + high - y0 - y1) / 2
