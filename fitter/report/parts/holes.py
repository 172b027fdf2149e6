"""Where a part is bored, seen from the part alone: how far from its ends and edges."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import isqrt

from fitter.domain.drilling import Bore, drill, told_drill
from fitter.domain.woodwork import Fastener, Fixing, Part, Vector, Woodwork
from fitter.report.parts.batches import Batch
from fitter.report.parts.sides import toward
from rooms.lengths import Length, Unit

__all__ = ["Bore", "Hole", "drill", "holes", "patterns", "told_drill"]


@dataclass(frozen=True)
class Hole:
    """One hole of a part.

    Args:
        bore: what it is for.
        size: of its screw, nail or bolt, as it is sold.
        drill: width of the hole; of a pocket that of the hole for the shank.
        depth: along the hole, pockets included.
        through: whether it comes out on the other side.
        face: the side that it is bored from: an end, an edge or a face of the part.
        flat: 0, 1 or 2: that side is an end, an edge or a wide face.
        spot: where it begins, in the part's own axes, to the nearest unit.
        countersunk: whether the head is let in.
    """

    bore: Bore
    size: str
    drill: Length
    depth: Length
    through: bool
    face: str
    flat: int
    spot: tuple[Length, Length, Length]
    countersunk: bool

    @property
    def prepared(self) -> bool:
        """Whether it is bored before parts are put together; pilots are bored through the part that is held."""
        return self.bore is not Bore.PILOT


def holes(woodwork: Woodwork, unit: Unit) -> tuple[tuple[Hole, ...], ...]:
    """The holes of each part, part by part; first along it, then across.

    Args:
        woodwork: with its fasteners.
        unit: of the file, for the drills that are sold.
    """
    found: list[list[Hole]] = [[] for _ in woodwork.parts]
    for joint in woodwork.joints:
        for fastener in joint.fasteners:
            for number, bore in _bored(fastener):
                found[number] += _hole(woodwork.parts[number], fastener, bore, unit)
    return tuple(tuple(sorted(those, key=_order)) for those in found)


def patterns(batch: Batch, every: tuple[tuple[Hole, ...], ...]) -> tuple[tuple[tuple[int, ...], tuple[Hole, ...]], ...]:
    """Which sticks of a mark are bored alike: their numbers from 1 in the order of the list, and the holes of one.

    Args:
        batch: sticks of one mark; they are cut alike, but screws that cross may shift a hole.
        every: the holes of each part.
    """
    alike: dict[tuple[Hole, ...], list[int]] = {}
    for place, number in enumerate(batch.numbers, start=1):
        alike.setdefault(tuple(hole for hole in every[number] if hole.prepared), []).append(place)
    return tuple((tuple(places), those) for those, places in alike.items() if those)


def _order(hole: Hole) -> tuple[object, ...]:
    return hole.bore, hole.face, hole.drill, hole.spot


def _bored(fastener: Fastener) -> Iterator[tuple[int, Bore]]:
    """The parts that are bored for a fastener; a nail without a pilot hole needs none."""
    kind = fastener.kind
    if kind is Fixing.BOLT:
        yield from ((fastener.through, Bore.BOLT), (fastener.into, Bore.BOLT))
        return
    if kind in (Fixing.SCREW, Fixing.POCKET_SCREW) or (kind is Fixing.NAIL and fastener.pilot):
        yield fastener.through, Bore.POCKET if kind is Fixing.POCKET_SCREW else Bore.CLEARANCE
    if fastener.pilot:
        yield fastener.into, Bore.PILOT


def _hole(part: Part, fastener: Fastener, bore: Bore, unit: Unit) -> Iterator[Hole]:
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
        bore, fastener.size, drill(fastener, bore, unit), Length(isqrt(round(squares))), through,
        toward(part.run, outward), axis, (spot[0], spot[1], spot[2]),
        fastener.countersunk and bore is Bore.CLEARANCE,
    )  # fmt: skip


def _own(part: Part, point: Vector) -> Vector:
    """A point in the axes of a part."""
    x, y, z = (p - o for p, o in zip(point, part.origin, strict=True))
    a, b, c = (dx * x + dy * y + dz * z for dx, dy, dz in (part.along, part.across, part.through))
    return a, b, c
