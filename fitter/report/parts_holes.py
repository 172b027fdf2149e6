"""Where a part is bored, seen from the part alone: how far from its ends and edges."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import isqrt

from fitter.domain.woodwork import Fastener, Fixing, Part, Vector, Woodwork
from fitter.report.parts_sides import toward
from rooms.lengths import Length


@dataclass(frozen=True)
class Hole:
    """One hole of a part.

    Args:
        fixing: what goes through it.
        size: of that, as it is sold.
        diameter: of the hole; for a pocket that of the screw's shank.
        depth: along the hole, pockets included.
        through: whether it comes out on the other side.
        face: the side that it is bored from: an end, an edge or a face of the part.
        flat: 0, 1 or 2: that side is an end, an edge or a wide face.
        spot: where it begins, in the part's own axes, to the nearest unit.
        countersunk: whether the head is let in.
    """

    fixing: Fixing
    size: str
    diameter: Length
    depth: Length
    through: bool
    face: str
    flat: int
    spot: tuple[Length, Length, Length]
    countersunk: bool


def holes(woodwork: Woodwork) -> tuple[tuple[Hole, ...], ...]:
    """The holes of each part, part by part; first along it, then across."""
    found: list[list[Hole]] = [[] for _ in woodwork.parts]
    for joint in woodwork.joints:
        for fastener in joint.fasteners:
            for number, diameter in _bored(fastener):
                found[number] += _hole(woodwork.parts[number], fastener, diameter)
    return tuple(tuple(sorted(those, key=_order)) for those in found)


def _order(hole: Hole) -> tuple[object, ...]:
    return hole.fixing, hole.face, hole.diameter, hole.spot


def _bored(fastener: Fastener) -> Iterator[tuple[int, Fraction]]:
    """The parts that are bored for a fastener, and how wide; nothing is bored for a nail without a pilot hole."""
    whole = fastener.kind is not Fixing.NAIL
    if fastener.kind is Fixing.GLUE:
        return
    for number, diameter in (
        (fastener.through, fastener.diameter if whole else fastener.pilot),
        (fastener.into, fastener.diameter if fastener.kind is Fixing.BOLT else fastener.pilot),
    ):
        if diameter:
            yield number, diameter


def _hole(part: Part, fastener: Fastener, diameter: Fraction) -> Iterator[Hole]:
    """The way of a fastener through a part, from the surface that the drill enters; none if it misses the part."""
    head, tip = _own(part, fastener.head), _own(part, fastener.tip)
    way = tuple(end - start for start, end in zip(head, tip, strict=True))
    enters: tuple[Fraction, int] | None = None
    leaves = Fraction(1)
    through = False
    for axis, size in enumerate((part.length, part.width, part.thickness)):
        if not way[axis]:
            if not 0 <= head[axis] <= size.units:
                return
            continue
        near, far = sorted(Fraction(face - head[axis]) / way[axis] for face in (0, size.units))
        # A pocket is bored from before the seat of the head, so the way has no beginning.
        if enters is None or near > enters[0]:
            enters = (near, axis)
        if far <= leaves:
            leaves, through = far, True
    if enters is None or enters[0] >= leaves:
        return
    start, axis = enters
    spot = tuple(Length(round(h + start * w)) for h, w in zip(head, way, strict=True))
    side = (part.along, part.across, part.through)[axis]
    outward = side if way[axis] < 0 else (-side[0], -side[1], -side[2])
    squares = sum(step * step for step in way) * (leaves - start) ** 2
    yield Hole(
        fastener.kind, fastener.size, Length(round(diameter)), Length(isqrt(round(squares))), through,
        toward(part.run, outward), axis, (spot[0], spot[1], spot[2]), fastener.countersunk,
    )  # fmt: skip


def _own(part: Part, point: Vector) -> Vector:
    """A point in the axes of a part."""
    x, y, z = (p - o for p, o in zip(point, part.origin, strict=True))
    a, b, c = (dx * x + dy * y + dz * z for dx, dy, dz in (part.along, part.across, part.through))
    return a, b, c
