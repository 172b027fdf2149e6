"""A foot under everything that stands on the floor, as high as the floor falls away there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from math import hypot

from fitter.domain.frame import Section
from fitter.domain.woodwork import Part, PartRole
from fitter.frame.sticks import Cuboid, Stick, stick
from fitter.frame.strips import Site
from rooms.lengths import Length

_STANDING = {
    PartRole.SUPPORT_POST, PartRole.BACK_POST, PartRole.INNER_POST, PartRole.CORNER_POST, PartRole.ARM_POST,
    PartRole.LEG, PartRole.SHELF_LEG,
}  # fmt: skip


@dataclass(frozen=True)
class _Stand:
    """A spot that wants a foot: who stands there, and its plan."""

    part: Part
    plan: tuple[int, int, int, int]


def feet(site: Site, parts: Iterable[Part]) -> tuple[list[Part], list[Part], Length]:
    """Feet for all parts that stand on the floor.

    Args:
        site: for the slope of the room.
        parts: of the frame.

    Returns:
        The parts, posts and legs longer where the floor falls farther than a foot can be made high; the feet; and how
        much lower the floor lies under the lowest than under the highest, to the mark.
    """
    whole = list(parts)
    stands = [(n, stand) for n, part in enumerate(whole) for stand in _stands(site, part)]
    depths = [_depth(site, stand.plan) for _, stand in stands]
    highest = min(depths, default=0.0)
    mark = site.mark
    drops = [round((depth - highest) / mark) * mark for depth in depths]
    made = []
    for (n, stand), drop in zip(stands, drops if site.options.level else [0] * len(drops), strict=True):
        if drop and stand.part.role in _STANDING and _foot_stock(site, stand, drop) is None:
            whole[n] = _longer(stand.part, drop)
            made += _foot(site, stand, drop, site.levels.foot.units - drop)
        else:
            made += _foot(site, stand, drop, site.levels.foot.units)
    return whole, made, Length(max(drops, default=0))


def _longer(part: Part, drop: int) -> Part:
    """The same post or leg, reaching farther down."""
    x, y, z = part.origin
    more = Length(drop)
    holes = tuple(replace(hole, a0=hole.a0 + more, a1=hole.a1 + more) for hole in part.housings)
    return replace(part, origin=(x, y, z - drop), length=part.length + more, housings=holes)


def _stands(site: Site, part: Part) -> Iterator[_Stand]:
    """Where a part stands on feet: an end panel's lowest piece at both of its ends."""
    xs, ys, zs = ([int(corner[axis]) for corner in part.corners] for axis in range(3))
    box = (min(xs), min(ys), max(xs), max(ys))
    if min(zs) != site.levels.foot.units:
        return
    if part.role in _STANDING:
        yield _Stand(part, box)
    elif part.role is PartRole.ARM_PIECE and part.along[2] == 0:
        axis = 0 if part.along[0] else 1
        for low in (True, False):
            plan = list(box)
            if low:
                plan[2 + axis] = box[axis] + part.width.units
            else:
                plan[axis] = box[2 + axis] - part.width.units
            yield _Stand(part, (plan[0], plan[1], plan[2], plan[3]))


def _depth(site: Site, plan: tuple[int, int, int, int]) -> float:
    """How far the floor has fallen at the middle of a plan, in units, from some fixed height."""
    slope = site.project.room.slope
    if slope is None:
        return 0.0
    edge = next(edge for edge in site.project.room.edges if edge.name == slope.toward)
    dx, dy = edge.end.x.units - edge.start.x.units, edge.end.y.units - edge.start.y.units
    x0, y0, x1, y1 = plan
    x, y = site.layout.pose.to_room(Length((x0 + x1) // 2), Length((y0 + y1) // 2))
    # The room lies to the left of an edge: the outward normal is (dy, -dx).
    return float(slope.fall) * (float(x) * dy - float(y) * dx) / hypot(dx, dy)


def _foot(site: Site, stand: _Stand, drop: int, top: int) -> list[Part]:
    """A pad with its grain lying, ripped to its height; under an end panel on a steep floor a standing stub."""
    x0, y0, x1, y1 = stand.plan
    if top + drop <= 0:
        return []
    long = 0 if x1 - x0 >= y1 - y0 else 1
    box: Cuboid = (x0, y0, -drop, x1, y1, top)
    section = _stock(site, min(x1 - x0, y1 - y0), top + drop)
    if section is None:
        kind = Stick(
            PartRole.FOOT, stand.part.run, stand.part.section, place=f"under {stand.part.role}, end grain sealed"
        )
        return [stick(kind, box, 2, 1 - long)]
    kind = Stick(PartRole.FOOT, stand.part.run, section, place=f"under {stand.part.role}")
    return [stick(kind, box, long, 1 - long)]


def _foot_stock(site: Site, stand: _Stand, drop: int) -> Section | None:
    """What a foot as high as the floor falls could be ripped from."""
    x0, y0, x1, y1 = stand.plan
    return _stock(site, min(x1 - x0, y1 - y0), site.levels.foot.units + drop)


def _stock(site: Site, across: int, high: int) -> Section | None:
    """The thinnest section that a foot can be ripped from."""
    made, frame = site.options, site.project.frame
    known = (made.foot, made.upright, frame.rail, made.arm, frame.post)
    able = [s for s in known if site.thick(s) >= high and site.wide(s) >= across]
    return min(able, key=lambda section: (section.thickness, section.width), default=None)
