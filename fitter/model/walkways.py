"""Walkways without search: a disc passes iff the furniture can be counted to one bank of the route.

The two openings of a route split the outline into a left and a right bank. Obstacles too near to a bank
for the disc to pass between belong to it. The furniture is one connected thing: the disc gets through iff
it keeps the route's width from everything of the left bank, or from everything of the right bank.

Only gaps that run through the inside count. Where the shortest way between two straight things leads out of the
room, they may still see each other past a corner or a jamb; both are then nearer to that corner than to each
other, so it joins them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from fitter.model.banks import DUST, Bank, Line, banks, xy
from fitter.model.pieces import convex_parts
from fitter.model.sight import Sight
from rooms.lengths import ZERO, Length
from rooms.room import Obstacle, Point, Room, Route

_QUAD_SEGS = 64
"""Segments of a quarter circle where a round thing is cut by a wall: at 20 in, true to 0.0015 in."""


@dataclass(frozen=True)
class Bar:
    """A convex thing on a bank, and the distance that furniture of the other bank keeps from it.

    Args:
        points: one, two (a stretch of the outline, the room on its left) or more, anticlockwise.
        keep: width of the route, plus the tolerance, plus the radius of a round thing.
        behind: lines that end the room: nothing that lies wholly to the right of one of them sees the bar.
    """

    points: tuple[Point, ...]
    keep: Length
    behind: tuple[Line, ...] = ()


@dataclass(frozen=True)
class Walkway:
    """A route with its banks.

    Args:
        route: as asked.
        banks: things of the left bank and of the right bank (left as one walks from start to end).
        blocked: whether it is too narrow with no furniture at all.
    """

    route: Route
    banks: tuple[tuple[Bar, ...], tuple[Bar, ...]]
    blocked: bool


@dataclass(frozen=True)
class _Thing:
    """What one walks round, in one piece.

    Args:
        sides: its straight sides within the room, or its centre, in units.
        reach: units by which it reaches beyond them.
        parts: the convex parts that it is made of within the room.
        radius: by which it reaches beyond its parts.
        round: the circle that a wall cuts it from; None if there is none.
    """

    sides: tuple[BaseGeometry, ...]
    reach: float
    parts: tuple[tuple[Point, ...], ...]
    radius: Length = ZERO
    round: _Circle | None = None


@dataclass(frozen=True)
class _Circle:
    """A round thing that stands in a wall: its centre, its radius and what lies outside the room, in units."""

    centre: tuple[Point, ...]
    radius: Length
    outside: BaseGeometry


def walkways(room: Room) -> tuple[Walkway, ...]:
    """The banks of every route of a room."""
    if not room.routes:
        return ()
    floor = shapely.Polygon([xy(p) for p in room.outline])
    things = [thing for obstacle in room.obstacles if not obstacle.low for thing in _things(obstacle, floor)]
    inside = floor.buffer(DUST, join_style="mitre")
    shapely.prepare(inside)
    return tuple(_walkway(room, route, things, inside) for route in room.routes)


def _things(obstacle: Obstacle, floor: shapely.Polygon) -> list[_Thing]:
    """An obstacle; where a wall cuts it, each piece within the room for itself: what joins them lies outside."""
    core = [xy(p) for p in obstacle.core]
    solid = shapely.Polygon(core) if len(core) > 2 else shapely.Point(core[0])
    whole = solid.buffer(obstacle.radius.units, quad_segs=_QUAD_SEGS) if obstacle.radius else solid
    if floor.covers(whole):
        parts = tuple(convex_parts(obstacle.core))
        return [_Thing(_sides(solid), float(obstacle.radius.units), parts, obstacle.radius)]
    pieces = [piece for piece in shapely.get_parts(floor.intersection(whole)) if piece.area]
    circle = None
    if len(pieces) == len(core) == 1:
        circle = _Circle(obstacle.core, obstacle.radius, whole.difference(floor))
    return [_Thing(_sides(piece), 0.0, tuple(_whole_units(piece)), round=circle) for piece in pieces]


def _whole_units(piece: shapely.Polygon) -> Iterator[tuple[Point, ...]]:
    """The convex parts of an area with its corners moved to whole units."""
    for area in shapely.get_parts(shapely.set_precision(piece, 1.0)):
        ring = [Point(Length(round(x)), Length(round(y))) for x, y in area.exterior.coords[:-1]]
        yield from convex_parts(ring if area.exterior.is_ccw else ring[::-1])


def _sides(shape: BaseGeometry) -> tuple[BaseGeometry, ...]:
    if not shape.area:
        return (shape,)
    rings = (shape.exterior, *shape.interiors)
    return tuple(shapely.LineString(side) for ring in rings for side in pairwise(ring.coords))


def _walkway(room: Room, route: Route, things: Sequence[_Thing], inside: BaseGeometry) -> Walkway:
    both = banks(room, route)
    groups, faces = _groups(room, route, both, things, inside)
    owned = [[thing for thing, its in zip(things, groups[2:], strict=True) if its == group] for group in groups[:2]]
    left, right = (
        (*_outline_bars(room, route, bank), *_thing_bars(room, route, bank, own))
        for bank, own in zip(both, owned, strict=True)
    )
    if groups[0] == groups[1]:
        return Walkway(route, (left, right), blocked=True)
    if faces:
        sight = Sight(room)
        left, right = (tuple(_hidden(bar, sight) for bar in bars) for bars in (left, right))
    return Walkway(route, (left, right), blocked=False)


def _hidden(bar: Bar, sight: Sight) -> Bar:
    """A bar that knows more of the walls that hide it."""
    more = sight.hiding(bar.points, float(bar.keep.units))
    return replace(bar, behind=tuple(dict.fromkeys([*bar.behind, *more])))


def _outline_bars(room: Room, route: Route, bank: Bank) -> Iterator[Bar]:
    keep = route.width + room.tolerance
    for wall in bank.walls:
        # From behind a wall every gap to it runs through it.
        yield Bar(wall, keep, (wall,))
    for tip in bank.tips:
        yield Bar((tip.point,), keep, tip.behind)


def _thing_bars(room: Room, route: Route, bank: Bank, things: Sequence[_Thing]) -> Iterator[Bar]:
    keep = route.width + room.tolerance
    for thing in things:
        if thing.round is not None and _walled_in(thing.round, room, bank, keep):
            yield Bar(thing.round.centre, keep + thing.round.radius)
        else:
            yield from (Bar(part, keep + thing.radius) for part in thing.parts)


def _walled_in(circle: _Circle, room: Room, bank: Bank, keep: Length) -> bool:
    """Whether a whole circle bars no more than what a wall leaves of it, and is the simpler thing.

    Who comes near to its outside comes near to the outline first: no harm where that is of the same bank.
    """
    outline = shapely.LinearRing([xy(point) for point in room.outline])
    near = outline.intersection(circle.outside.buffer(keep.units))
    own = shapely.union_all(list(_bank_parts(bank))).buffer(DUST)
    return bool(near.difference(own).length < DUST)


def _groups(
    room: Room, route: Route, both: tuple[Bank, Bank], things: Sequence[_Thing], inside: BaseGeometry
) -> tuple[list[int], bool]:
    """What hangs together since no disc passes between, and whether the banks are two faces of a thin wall somewhere.

    Returns:
        A number for the left bank, for the right bank and for each thing: the same for those that hang together.
        True if both banks come nearer to each other than the route is wide, but out of sight.
    """
    # Every wall and every obstacle loses the tolerance.
    tolerance = float(room.tolerance.units)
    nodes = [
        *((side, part, tolerance) for side, bank in enumerate(both) for part in _bank_parts(bank)),
        *((2 + n, part, thing.reach + tolerance) for n, thing in enumerate(things) for part in thing.sides),
    ]
    owner = np.array([node for node, _, _ in nodes])
    shapes = np.array([shape for _, shape, _ in nodes])
    reach = np.array([far for _, _, far in nodes])
    width = route.width.units - DUST
    tree = shapely.STRtree(shapes)
    a, b = tree.query(shapes, predicate="dwithin", distance=width + reach + float(reach.max()))
    apart = owner[a] < owner[b]
    a, b = a[apart], b[apart]
    lines = shapely.shortest_line(shapes[a], shapes[b])
    gaps = shapely.length(lines)
    narrow = gaps - reach[a] - reach[b] < width
    groups = list(range(2 + len(things)))
    for one, other, line, gap in zip(owner[a[narrow]], owner[b[narrow]], lines[narrow], gaps[narrow], strict=True):
        # Sight is asked for last: few pairs still need it.
        if groups[one] != groups[other] and (not gap or inside.covers(line)):
            old, new = groups[other], groups[one]
            groups = [new if group == old else group for group in groups]
    return groups, bool((owner[b[narrow]] == 1).any())


def _bank_parts(bank: Bank) -> Iterator[BaseGeometry]:
    """Its walls, and its jambs for themselves: the shortest way between two walls may lead out through a door."""
    for wall in bank.walls:
        yield shapely.LineString([xy(point) for point in wall])
    for point in dict.fromkeys((bank.points[0], bank.points[-1])):
        yield shapely.Point(xy(point))
