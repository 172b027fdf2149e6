"""Parts made by hand, two or a few at a time, in inches."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from yards import project as asked

from fitter.domain.frame import Section
from fitter.domain.layout import Side
from fitter.domain.project import Project
from fitter.domain.woodwork import EndCut, Joint, Part, PartRole, Slant, Vector
from fitter.frame.joints import joints
from rooms.lengths import Length, Unit

R = PartRole
Box = tuple[str, str, str, str, str, str]
AXES: tuple[Vector, Vector, Vector] = ((1, 0, 0), (0, 1, 0), (0, 0, 1))


def units(inches: str) -> int:
    """Inches in units."""
    return Length.inches(Fraction(inches)).units


def part(role: PartRole, box: Box, along: int, wide: int, *, run: Side = Side.MAIN, piece: int = 1) -> Part:
    """A part that fills a box (low x, y, z, then high), its grain and its width along two of the axes."""
    low, high = [units(side) for side in box[:3]], [units(side) for side in box[3:]]
    thick = 3 - along - wide
    origin, through = list(low), list(AXES[thick])
    if (along, wide) not in ((0, 1), (1, 2), (2, 0)):
        origin[thick], through = high[thick], [-x for x in through]
    size = [Length(high[axis] - low[axis]) for axis in (along, wide, thick)]
    return Part(
        role, run, Section("any", size[2], size[1]), *size, (origin[0], origin[1], origin[2]),
        AXES[along], AXES[wide], (through[0], through[1], through[2]), piece=piece,
    )  # fmt: skip


def mitred(whole: Part, *, low: bool) -> Part:
    """The same with both ends at 45°, long at the low or the high side of its width."""
    cut = EndCut(whole.width, Slant.WIDTH, low)
    return replace(whole, cuts=(cut, cut))


def rail(width: str = "11/2", role: PartRole = R.FRONT_RAIL) -> Part:
    """A rail of 40 in along x from x = 3 1/2, 1 1/2 thick, its faces at y = 0 and 1 1/2, so wide."""
    return part(role, ("7/2", "0", "5", "87/2", "3/2", str(5 + Fraction(width))), 0, 2)


POST = part(R.SUPPORT_POST, ("0", "-2", "0", "7/2", "3/2", "12"), 2, 0)
"""A 4x4 that the low end of the rail butts against."""


def metric() -> Project:
    """The invented project with its shop in millimetres."""
    return replace(asked(), unit=Unit.MM)


def joined(*parts: Part, project: Project | None = None) -> tuple[Joint, ...]:
    """What holds these parts."""
    return joints(parts, project or asked())


def turned(whole: Part, cos: Fraction, sin: Fraction, axis: int) -> Part:
    """A part turned about a line through the origin along an axis."""

    def spin(vector: Vector) -> Vector:
        u, v = (axis + 1) % 3, (axis + 2) % 3
        new = list(vector)
        new[u], new[v] = cos * vector[u] - sin * vector[v], sin * vector[u] + cos * vector[v]
        return new[0], new[1], new[2]

    return replace(
        whole,
        origin=spin(whole.origin),
        along=spin(whole.along),
        across=spin(whole.across),
        through=spin(whole.through),
    )
