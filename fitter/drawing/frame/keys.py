"""Boxes beside frame drawings: what the lines mean, and the parts with their sections, lengths and counts."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import groupby

from shapely.geometry import box

from fitter.domain.woodwork import Part, PartRole
from fitter.drawing.block import LEADING, PAD, WIDTH, Block, Built
from fitter.drawing.metrics import text_width, wrap
from fitter.drawing.page import MEDIUM, SMALL, Area, Dash, Item, Line, Pen, Role, moved
from fitter.drawing.signs import Sign
from fitter.drawing.texts import stacked
from fitter.drawing.view import View, hatching, ring_of

_LONG = 13.0
_ROWS = 16  # of one box of parts
_SECTION = 17.0  # where the column of sections begins, mm
_COUNT = 42.0  # where the column of counts ends, mm


def key_block(signs: Iterable[Sign], notes: Sequence[str] = ()) -> Built:
    """The box that explains lines and hatchings."""
    block = Block()
    block.write("Key", MEDIUM)
    for sign in signs:
        middle = -(block.depth + 2.2)
        block.items.extend(moved(item, (PAD + 1.0, middle)) for item in sign.items)
        lines = wrap(sign.says, SMALL, WIDTH - 2 * PAD - 18.0)
        block.items.extend(stacked(lines, (PAD + 18.0, middle - SMALL / 2), role=Role.PANEL))
        block.depth += 5.4 + LEADING * (len(lines) - 1)
    for note in notes:
        block.write(note)
    return block.closed()


def elevation_signs(*, floor: bool) -> tuple[Sign, ...]:
    """What lines in an elevation, or in a picture from above, mean; `floor` where that is drawn."""
    lines = (
        Sign((_stroke(Pen.MEDIUM),), "seen from this side"),
        Sign((_stroke(Pen.FINE, Dash.HIDDEN),), "behind: posts, cleats, rails"),
    )
    return (*lines, Sign((_stroke(Pen.WIDE),), "floor")) if floor else lines


def section_signs() -> tuple[Sign, ...]:
    """What lines and hatchings in a section mean."""
    shape = box(0.0, -1.7, _LONG, 1.7)
    ring = ring_of(shape)
    outline = Area(ring, None, Role.PANEL, Pen.WIDE)
    crossed: tuple[Item, ...] = tuple(Line((ring[i], ring[i + 2]), Pen.FINE, Role.PANEL) for i in (0, 1))
    hatched: tuple[Item, ...] = tuple(Line(stroke, Pen.FINE, Role.PANEL) for stroke in hatching(shape, 1.2))
    return (
        Sign((outline, *crossed), "cut across the grain"),
        Sign((outline, *hatched), "cut along the grain"),
        Sign((_stroke(Pen.FINE),), "beyond the cut"),
        Sign((_stroke(Pen.FINE, Dash.LONG),), "cushion"),
    )


def _stroke(pen: Pen, dash: Dash = Dash.SOLID) -> Line:
    return Line(((0.0, 0.0), (_LONG, 0.0)), pen, Role.PANEL, dash)


def part_blocks(parts: Sequence[Part], view: View) -> tuple[Built, ...]:
    """The parts by role: mark, section, count and length; as many boxes as it takes.

    Args:
        parts: those of a drawing, in the order of lists.
        view: with the unit that lengths are written in.
    """
    order = list(PartRole)
    ranked = sorted(parts, key=lambda part: order.index(part.role))
    groups = [(role, list(group)) for role, group in groupby(ranked, key=lambda part: part.role)]
    rows: list[tuple[PartRole, Part, int]] = []
    for role, group in groups:
        for mark in dict.fromkeys(part.mark for part in group):
            same = [part for part in group if part.mark == mark]
            rows.append((role, same[0], len(same)))
    return tuple(_part_block(rows[n : n + _ROWS], view, first=n == 0) for n in range(0, len(rows), _ROWS))


def _part_block(rows: Sequence[tuple[PartRole, Part, int]], view: View, *, first: bool) -> Built:
    block = Block()
    block.write("Parts" if first else "Parts, continued", MEDIUM)
    right = WIDTH - PAD
    block.row([(PAD, 0.0, "mark"), (_SECTION, 0.0, "section"), (_COUNT, 1.0, "count"), (right, 1.0, "length")])
    block.rule()
    for role, group in groupby(rows, key=lambda row: row[0]):
        block.row([(PAD, 0.0, str(role).capitalize())])
        for _, part, count in group:
            _part_rows(block, part, count, view)
    return block.closed()


def _part_rows(block: Block, part: Part, count: int, view: View) -> None:
    """One row, or two where the name of the section is too long to stand before the count."""
    name = part.section.name.removesuffix(" mm")
    mark, section = (PAD + 2.0, 0.0, part.mark), (_SECTION, 0.0, name)
    values = ((_COUNT, 1.0, str(count)), (WIDTH - PAD, 1.0, view.written(part.length, feet=False)))
    if _SECTION + text_width(name, SMALL) > _COUNT - text_width(str(count), SMALL) - 1.0:
        block.row([mark, section])
        block.row(values)
    else:
        block.row([mark, section, *values])
    if part.width != part.section.width:
        block.row([(_SECTION, 0.0, f"ripped to {view.written(part.width, feet=False)}")])
