"""What stands beside the drawing of a survey: what it says, the key, tables of corners and readings."""

from __future__ import annotations

from collections.abc import Iterator

from fitter.drawing.block import LEADING, PAD, WIDTH, Block, Built, Heading
from fitter.drawing.metrics import wrap
from fitter.drawing.page import MEDIUM, SMALL, Arc, Area, Dash, Item, Line, Pen, Role, moved
from fitter.drawing.survey_signs import CROWD, ellipse_ring, fine
from fitter.drawing.texts import stacked
from fitter.drawing.view import View
from fitter.project import RoomReading
from rooms.lengths import Length
from rooms.survey import WITHIN, ReadingKind, Residual, Survey
from rooms.survey.wording import listed

_ROWS = 20
"""Rows of a table that stay in one box, so that boxes can be shared out among columns."""
_LONG = 13.0


def heading(reading: RoomReading) -> Heading:
    """What the sheet says of the project."""
    return Heading(reading.title, reading.file, reading.unit, reading.room.tolerance, reading.note)


def says(reading: RoomReading, survey: Survey) -> tuple[str, ...]:
    """What the readings come to, for the title block."""
    view = View(1, reading.unit)
    count = len(survey.residuals)
    lines = [f"Survey: {count} readings, {survey.redundancy} more than the shape needs"]
    if survey.ratio is not None and survey.misclosure is not None:
        missed = fine(survey.misclosure, view).lstrip("+")
        lines.append(f"sides and turns miss closing by {missed}, 1:{survey.ratio}")
    if survey.suspicion is not None:
        names = [suspect.name for suspect in survey.suspicion.suspects]
        lines.append(f"stands out: {names[0]}" if len(names) == 1 else f"one of these may be wrong: {listed(names)}")
    if len(survey.residuals) > CROWD:
        lines.append("lengths that find no room on the drawing are in the table")
    return tuple(lines)


def key_block(reading: RoomReading, survey: Survey, factor: int) -> Built:
    """The box that explains the signs that occur; ellipses are enlarged by `factor`."""
    block = Block()
    block.write("Key", MEDIUM)
    for items, text in _signs(reading, survey, factor):
        centre = -(block.depth + 2.2)
        block.items.extend(moved(item, (PAD + 1.0, centre)) for item in items)
        lines = wrap(text, SMALL, WIDTH - 2 * PAD - 18.0)
        block.items.extend(stacked(lines, (PAD + 18.0, centre - SMALL / 2), role=Role.PANEL))
        block.depth += 5.4 + LEADING * (len(lines) - 1)
    return block.closed()


def _signs(reading: RoomReading, survey: Survey, factor: int) -> Iterator[tuple[tuple[Item, ...], str]]:
    kinds = {residual.kind for residual in survey.residuals}
    stroke = ((0.0, 0.0), (_LONG, 0.0))
    taped = "taped length (adjusted less taped)"
    if ReadingKind.SIDE in kinds:
        yield (Line(stroke, Pen.HEAVY, Role.PANEL),), f"side: {taped}"
    if sum(r.kind is ReadingKind.SIDE for r in survey.residuals) < len(survey.points):
        yield (Line(stroke, Pen.HEAVY, Role.PANEL, Dash.LONG),), "side that was not taped"
    if ReadingKind.TIE in kinds:
        yield (Line(stroke, Pen.FINE, Role.PANEL, Dash.CENTRE),), f"tie: {taped}"
    if ReadingKind.TURN in kinds:
        yield (Arc((4.0, -1.5), 4.5, 0.0, 90.0, Pen.FINE, Role.PANEL),), "corner whose turn was read"
    first, second = (name for name, _ in survey.points[:2])
    sample = Area(ellipse_ring((_LONG / 2, 0.0), 4.0, 1.6, 20.0), None, Role.PANEL, Pen.FINE)
    held = f"corner {first} and the direction to {second} are held"
    size = f"drawn {factor} times as large" if factor > 1 else "to scale"
    if any(ellipse.long and not ellipse.short for ellipse in survey.ellipses):
        size += ", a flat one as a stroke"
    yield (sample,), f"holds the corner in {round(100 * WITHIN)} of 100 such surveys, {size}; {held}"


def corner_block(reading: RoomReading, survey: Survey) -> Built:
    """The table of corners: half axes of the ellipses and the direction of the long one."""
    block = Block()
    block.write("Corners, plus or minus", MEDIUM)
    right = WIDTH - PAD
    block.row([(PAD, 0.0, "corner"), (28.0, 1.0, "long"), (42.0, 1.0, "short"), (right, 1.0, "direction")])
    block.rule()
    view = View(1, reading.unit)
    for ellipse in survey.ellipses:
        direction = f"{ellipse.direction:.0f}°" if ellipse.long else "–"
        sizes = [fine(length, view).lstrip("+") for length in (ellipse.long, ellipse.short)]
        cells = [(28.0, 1.0, sizes[0]), (42.0, 1.0, sizes[1]), (right, 1.0, direction)]
        block.row([(PAD, 0.0, ellipse.corner), *cells])
    return block.closed()


def reading_blocks(reading: RoomReading, survey: Survey) -> tuple[Built, ...]:
    """The table of readings, the greatest share of its limit first, in boxes of some rows each."""
    rows, boxes = survey.residuals, []
    for start in range(0, len(rows), _ROWS):
        block = Block()
        block.write("Readings" if start == 0 else "Readings, continued", MEDIUM)
        right = WIDTH - PAD
        block.row([(PAD, 0.0, "reading"), (34.0, 1.0, "taped"), (50.0, 1.0, "off"), (right, 1.0, "w")])
        block.rule()
        for residual in rows[start : start + _ROWS]:
            read, off, test = _row(residual, View(1, reading.unit))
            block.row([(PAD, 0.0, residual.name), (34.0, 1.0, read), (50.0, 1.0, off), (right, 1.0, test)])
        if start + _ROWS >= len(rows):
            block.rule()
            block.write("off: adjusted less taped; w: that in its own standard deviations")
        boxes.append(block.closed())
    return tuple(boxes)


def _row(residual: Residual, view: View) -> tuple[str, str, str]:
    """Reading, residual and standardised residual as written."""
    test = "–" if residual.standardised is None else f"{residual.standardised:.1f}"
    test = test.replace("-0.0", "0.0").replace("-", "−")
    if isinstance(residual.reading, Length) and isinstance(residual.residual, Length):
        return view.written(residual.reading), fine(residual.residual, view), test
    off = f"{float(str(residual.residual)):+.2f}°".replace("-0.00", "0.00").replace("+0.00", "0.00").replace("-", "−")
    return f"{residual.reading:.1f}°", off, test
