"""Marks for the labels: run, kind and number; equal parts of a run share one."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace

from fitter.domain.wishes import Side
from fitter.domain.woodwork import EndCut, Housing, Part, PartRole
from rooms.lengths import Length

RUNS = {Side.MAIN: "M", Side.LEFT: "L", Side.RIGHT: "R"}
KINDS = {
    PartRole.SUPPORT_POST: "P",
    PartRole.BACK_POST: "BP",
    PartRole.INNER_POST: "IP",
    PartRole.CORNER_POST: "KP",
    PartRole.FOOT: "F",
    PartRole.FRONT_RAIL: "FR",
    PartRole.BACK_RAIL: "BR",
    PartRole.CROSS_RAIL: "XR",
    PartRole.LEDGER: "LB",
    PartRole.ARM_PIECE: "A",
    PartRole.ARM_POST: "AP",
    PartRole.ARM_RAIL: "AR",
    PartRole.LEG: "G",
    PartRole.END_RAIL: "ER",
    PartRole.CLEAT: "C",
    PartRole.SHORT_CLEAT: "SC",
    PartRole.SEAT_SLAT: "S",
    PartRole.UPRIGHT: "U",
    PartRole.BOTTOM_RAIL: "LR",
    PartRole.TOP_RAIL: "TR",
    PartRole.BACK_SLAT: "B",
    PartRole.CORNER_BOARD: "KB",
    PartRole.TABLE_BEARER: "TB",
    PartRole.TABLE_BOARD: "T",
    PartRole.SHELF_LEG: "HG",
    PartRole.SHELF_RAIL: "HR",
    PartRole.SHELF_SLAT: "H",
    PartRole.ARM_BEARER: "AB",
    PartRole.ARM_TIE: "AT",
    PartRole.ARM_BOARD: "AH",
}
"""Letters of each kind of part."""

_ROLES = tuple(PartRole)
_SIDES = tuple(Side)


def marked(parts: Sequence[Part]) -> tuple[Part, ...]:
    """The parts with their marks, sorted by run, then role, then number.

    Within a run and a kind, equal parts carry one number; the numbers follow the order in which the parts come along
    the run, so that a run that grows keeps the marks it had.
    """
    ordered = sorted(parts, key=lambda part: (_SIDES.index(part.run), _ROLES.index(part.role)))
    numbers: dict[tuple[Side, PartRole], dict[object, int]] = defaultdict(dict)
    found = []
    for part in ordered:
        known = numbers[part.run, part.role]
        number = known.setdefault(shape_of(part), len(known) + 1)
        found.append((number, replace(part, mark=f"{RUNS[part.run]}-{KINDS[part.role]}{number}")))
    order = sorted(found, key=lambda pair: (_SIDES.index(pair[1].run), _ROLES.index(pair[1].role), pair[0]))
    return tuple(part for _, part in order)


def shape_of(part: Part) -> object:
    """What two parts that may change places have in common; a part may be turned end for end and over."""
    size = (part.section, part.length, part.width, part.thickness)
    if not part.housings and all(cut.square for cut in part.cuts):
        return size
    return size, min(_poses(part))


def _poses(part: Part) -> list[tuple[object, ...]]:
    """Cuts and housings as seen in the four ways in which a stick can be turned about its own axes."""
    ways: list[tuple[object, ...]] = []
    for ends in (False, True):
        for over in (False, True):
            # Turning about one axis reverses the two others.
            b, c = (over, ends != over)
            cuts = tuple(_turned(cut, b if str(cut.over) == "width" else c) for cut in part.cuts)
            holes = sorted(_moved(part, hole, ends, b, c) for hole in part.housings)
            ways.append((tuple(reversed(cuts)) if ends else cuts, tuple(holes)))
    return ways


def _turned(cut: EndCut, flipped: bool) -> tuple[int, str, bool]:
    return cut.recess.units, str(cut.over), cut.low != flipped if cut.recess else True


def _moved(part: Part, hole: Housing, a: bool, b: bool, c: bool) -> tuple[int, ...]:
    sides = (
        (hole.a0, hole.a1, part.length, a),
        (hole.b0, hole.b1, part.width, b),
        (hole.c0, hole.c1, part.thickness, c),
    )
    return tuple(x for low, high, size, flip in sides for x in _side(low, high, size, flip))


def _side(low: Length, high: Length, size: Length, flip: bool) -> tuple[int, int]:
    return ((size - high).units, (size - low).units) if flip else (low.units, high.units)
