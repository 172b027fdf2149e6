"""Sticks of wood from boxes: which way the grain runs, which side is wide, and what is cut out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

from fitter.domain.frame import Section
from fitter.domain.wishes import Side
from fitter.domain.woodwork import SQUARE, EndCut, Housing, Number, Part, PartRole, Vector
from rooms.lengths import Length

Cuboid: TypeAlias = tuple[int, int, int, int, int, int]
"""x0, y0, z0, x1, y1, z1 in units."""

_UNIT: tuple[Vector, Vector, Vector] = ((1, 0, 0), (0, 1, 0), (0, 0, 1))


@dataclass(frozen=True)
class Stick:
    """A kind of stick before it has a place.

    Args:
        role: what it is.
        run: that it belongs to.
        section: that it is cut from.
        shows: which face is to be seen.
        place: where it is, in words.
    """

    role: PartRole
    run: Side
    section: Section
    shows: str = ""
    place: str = ""


def stick(
    kind: Stick,
    box: Cuboid,
    along: int,
    wide: int,
    *,
    cuts: tuple[EndCut, EndCut] = (SQUARE, SQUARE),
    out: Sequence[Cuboid] = (),
) -> Part:
    """A part that fills a box of the layout frame.

    Args:
        kind: what it is.
        box: what it fills; a slanted end takes its share away.
        along: number of the axis (0 x, 1 y, 2 z) that the grain runs along.
        wide: number of the axis that its width lies along.
        cuts: of the ends at the low and the high side of `along`; a long point is `low` at the low side of its axis.
        out: boxes that are cut out of it.
    """
    thick = 3 - along - wide
    # The third axis turns round where the three would be left-handed; no cut is ever made across the thickness.
    turned = (along, wide) not in ((0, 1), (1, 2), (2, 0))
    through = tuple(-x if turned else x for x in _UNIT[thick])
    origin: list[int] = list(box[:3])
    if turned:
        origin[thick] = box[3 + thick]
    housings = tuple(_housing(hole, box, along, wide, thick, turned) for hole in out)
    length, width, thickness = (Length(box[3 + axis] - box[axis]) for axis in (along, wide, thick))
    return Part(
        role=kind.role, run=kind.run, section=kind.section, length=length, width=width, thickness=thickness,
        origin=_point(origin), along=_UNIT[along], across=_UNIT[wide], through=_point(through),
        cuts=cuts, housings=housings, shows=kind.shows, place=kind.place,
    )  # fmt: skip


def _point(numbers: Sequence[Number]) -> Vector:
    x, y, z = numbers
    return x, y, z


def _housing(hole: Cuboid, box: Cuboid, along: int, wide: int, thick: int, turned: bool) -> Housing:
    """A hole in the part's own axes."""
    low = [hole[axis] - box[axis] for axis in (along, wide, thick)]
    high = [hole[3 + axis] - box[axis] for axis in (along, wide, thick)]
    if turned:
        size = box[3 + thick] - box[thick]
        low[2], high[2] = size - high[2], size - low[2]
    return Housing(*(Length(units) for pair in zip(low, high, strict=True) for units in pair))


def tilted(kind: Stick, origin: Vector, axes: tuple[Vector, Vector, Vector], size: tuple[int, int, int]) -> Part:
    """A part with axes of its own.

    Args:
        kind: what it is.
        origin: where its axes meet.
        axes: unit vectors along the grain, across the width, through the thickness; those of a left-handed three
            are put right by walking the grain from its other end.
        size: length, width and thickness in units.
    """
    along, across, through = axes
    length, width, thickness = map(Length, size)
    if not _right_handed(along, across, through):
        origin = _point([o + size[0] * a for o, a in zip(origin, along, strict=True)])
        along = _point([-a for a in along])
    return Part(
        role=kind.role, run=kind.run, section=kind.section, length=length, width=width, thickness=thickness,
        origin=origin, along=along, across=across, through=through, shows=kind.shows, place=kind.place,
    )  # fmt: skip


def _right_handed(a: Vector, b: Vector, c: Vector) -> bool:
    cross = (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])
    return sum(x * y for x, y in zip(cross, c, strict=True)) > 0
