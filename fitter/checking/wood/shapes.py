"""Each part is a stick that its section yields, each mark tells one shape, and the heights fit the project."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TypeAlias

import numpy as np

from fitter.checking.wood.built import Built
from fitter.checking.wood.solids import TINY, inches
from fitter.domain.findings import Finding
from fitter.domain.woodwork import EndCut, Part, PartRole, Slant
from rooms.lengths import Length

_Shape: TypeAlias = tuple[PartRole, str, int, int, int, tuple[tuple[int, int, int, int, int, int], ...]]


_BEARER = 0.75
"""A table lower than this above boards on the deck, inches, has no bearers: they would be too thin to rip."""


def sticks(built: Built) -> Iterator[Finding]:
    """Axes are square to each other and right-handed, sizes within the section and lengths on the mark."""
    axes = built.solids.axes
    square = np.abs(np.einsum("nik,njk->nij", axes, axes) - np.eye(3)).max(axis=(1, 2), initial=0.0) < 1e-9
    right = np.linalg.det(axes) > 0
    for number, part in enumerate(built.parts):
        if not (square[number] and right[number]):
            yield built.fault("axes-askew", f"the axes of {built.name(number)} are not square to each other")
        wrong = _unsawn(built, part)
        if wrong:
            yield built.fault("part-unsawn", f"{built.name(number)} {wrong}", built.middle(number))


def _unsawn(built: Built, part: Part) -> str:
    """Why a part cannot be sawn; empty if it can."""
    mark, section = built.project.mark, part.section
    if min(part.length, part.width, part.thickness) <= Length(0):
        return "has a side of no length"
    if part.length.units % mark.units:
        return f"is {built.case.tell(part.length)} long, which is not on the shop mark"
    sizes = sorted((part.width, part.thickness))
    board = sorted((section.width.ceil_to(mark), section.thickness.ceil_to(mark)))
    if sizes[0] > board[0] or sizes[1] > board[1]:
        return f"is thicker than {section.name}"
    if _recess(part, 0) + _recess(part, 1) > part.length:
        return "is cut askew beyond its length"
    if part.housings and not all(cut.square for cut in part.cuts):
        return "has a housing and a slanted end"
    return ""


def _recess(part: Part, end: int) -> Length:
    """How much a slanted end takes from one side; ends that recede on opposite sides take nothing together."""
    first, last = part.cuts
    cut: EndCut = part.cuts[end]
    opposite = not (first.square or last.square) and (first.over, first.low) != (last.over, last.low)
    return cut.recess if end == 0 or not opposite else Length(0)


def marks(built: Built) -> Iterator[Finding]:
    """Each part has a mark, and parts of one mark are alike."""
    seen: dict[str, tuple[_Shape, int]] = {}
    for number, part in enumerate(built.parts):
        if not part.mark:
            yield built.fault("mark-missing", f"{built.name(number)} has no mark", built.middle(number))
            continue
        shape = _shape(part)
        first = seen.setdefault(part.mark, (shape, number))
        if first[0] != shape:
            message = f"{built.name(number)} and {built.name(first[1])} share a mark but differ"
            yield built.fault("mark-of-two", message, built.middle(number))


def _shape(part: Part) -> _Shape:
    """What is sawn: alike for parts that are the same but for being turned end for end or over."""
    cuts = sorted((cut.recess.units, 0, 0, 0, 0, int(cut.over is Slant.WIDTH)) for cut in part.cuts)
    holes = sorted((0, (h.a1 - h.a0).units, (h.b1 - h.b0).units, (h.c1 - h.c0).units, 0, 2) for h in part.housings)
    rows = (*cuts, *holes)
    return part.role, part.section.name, part.length.units, part.width.units, part.thickness.units, rows


def heights(built: Built) -> Iterator[Finding]:
    """The heights that are told follow from the project; those that it leaves open, only from each other."""
    levels, made = built.levels, built.made
    cushion = inches(built.case.option(built.case.main).cushion.size[2])
    deck, seat = inches(levels.deck), inches(levels.seat)
    rail, mark = inches(built.project.frame.rail.width), built.one_mark + TINY
    wanted = {
        "foot": (inches(levels.foot), inches(made.foot_height)),
        "underside of the rails": (inches(levels.rail_bottom), deck - rail),
        "seat": (seat, deck + cushion),
        "seat that is sat on": (inches(levels.sat_on), seat - float(made.compression) * cushion),
    }
    if made.reveal_below is not None:
        wanted["gap below the rails"] = inches(levels.rail_bottom), inches(made.reveal_below)
    else:
        wanted["seat as asked"] = seat, inches(made.seat_height)
    asked = (("arm", levels.arm, made.arm_height), ("back", levels.back_top, made.back_height))
    wanted |= {what: (inches(told), inches(want)) for what, told, want in asked if want is not None}
    # A table that would lie too low for bearers lies with its boards on the deck.
    lowest = deck + built.mark(made.table.thickness)
    table = seat if made.table_height is None else inches(made.table_height)
    wanted["table"] = inches(levels.table), max(table, lowest) if table - lowest < _BEARER else table
    for what, (told, want) in wanted.items():
        if abs(told - want) > mark:
            yield built.fault(
                "height-astray", f"the height of the {what} is {built.tell(told)}, not {built.tell(want)}"
            )
    order = (levels.foot, levels.rail_bottom, levels.deck, levels.seat, levels.back_top)
    if list(order) != sorted(order) or not levels.deck <= levels.back_bottom < levels.back_top:
        yield built.fault("height-astray", "the heights of the frame are not in order")
