"""The widest disc that can be taken along a route, from gaps alone.

What stands in the room and the two chains of walls are nodes; between any two of them lies a gap. A disc
is stopped only by a row of things from the left chain to the right chain whose every gap is narrower than
the disc. So the widest disc is the least, over all such rows, of the widest gap in the row: a minimax
path. Gaps count only when they run through the inside: two flanks of a thin wall are no gap.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from shapely import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from rooms.clearance.chains import Chains, Spot, Wall, chains
from rooms.clearance.shapes import QUAD_SEGS, core, outline
from rooms.lengths import Length
from rooms.room import Room, Route

FURNITURE = "furniture"
"""What the furniture is called in a passage."""

LEFT, RIGHT = 0, 1
"""Nodes of the walls on the left and on the right; things that stand in the room have those after them."""

DIGITS = 3
"""Digits of a unit that a width keeps, so that two gaps that are equally wide are so on every machine."""

_DUST = 1.0
"""Units by which a gap may run outside the outline before it counts as blocked by a wall."""


@dataclass(frozen=True)
class Passage:
    """The narrowest place on the widest way along a route.

    Args:
        clear: diameter of the widest disc that gets through, in units, tolerance taken off; 0 if none does.
        names: the two things that leave the gap: an edge, an obstacle, or `furniture`.
        points: where the gap begins on the face of the first and ends on that of the second, in units, as taped.
        door: the narrower of both openings' own widths.
    """

    clear: float
    names: tuple[str, str]
    points: tuple[Spot, Spot]
    door: Length


@dataclass(frozen=True)
class Standing:
    """Something on the floor: its name, its shape in units, and how far beyond its shape it reaches."""

    name: str
    shape: BaseGeometry
    reach: float


@dataclass(frozen=True)
class Part:
    """A straight piece, or the centre, of something that stands: its node, its name, how far it reaches."""

    node: int
    name: str
    shape: BaseGeometry
    reach: float


@dataclass(frozen=True)
class Gap:
    """The shortest way from one part to another."""

    width: float
    parts: tuple[Part, Part]
    line: LineString


def widest_passage(room: Room, route: Route, furniture: Sequence[Polygon]) -> Passage:
    """How wide a route is past what stands in the room.

    Args:
        room: outline, openings and obstacles; its tolerance is taken off every wall and obstacle.
        route: joins two different openings. Where an opening is wider than the route, its own width
            (less the tolerance at both jambs) bounds the passage; where it is narrower, the route's.
        furniture: boxes in units that together are one connected thing; may be none.

    Returns:
        The clear width and the gap that decides it.
    """
    ways = chains(room, route)
    floor = outline(room).buffer(_DUST, join_style="mitre")
    shapely.prepare(floor)
    parts = parts_of(room, ways, furniture)
    groups = list(range(max(part.node for part in parts) + 1))
    door = min(room.opening(name).width for name in (route.start, route.end))
    for gap in sorted(gaps_of(parts), key=lambda gap: gap.width):
        one, other = (groups[part.node] for part in gap.parts)
        # Sight is asked for last: only the few gaps that join two groups need it.
        if one == other or (gap.line.length and not floor.covers(gap.line)):
            continue
        groups = [one if group == other else group for group in groups]
        if groups[LEFT] == groups[RIGHT]:
            break
    names = (gap.parts[0].name, gap.parts[1].name)
    return Passage(max(gap.width, 0.0), names, _faces(gap, room.tolerance.units), door)


def _faces(gap: Gap, tolerance: int) -> tuple[Spot, Spot]:
    """Where a gap begins and ends on the faces of its parts, a radius off the middle of what is round.

    Where the two lap over each other, both are the same spot within both.
    """
    size = float(gap.line.length)
    # Walls and straight sides reach as far as the tolerance, furniture not at all, what is round a radius more.
    one, other = (max(0.0, part.reach - tolerance) for part in gap.parts)
    if one + other > size:
        one, other = (size * radius / (one + other) for radius in (one, other))
    start, end = (gap.line.interpolate(place) for place in (one, size - other))
    return (start.x, start.y), (end.x, end.y)


def parts_of(room: Room, ways: Chains, furniture: Sequence[Polygon]) -> list[Part]:
    """The straight pieces of all that a route passes: walls are of the node `LEFT` or `RIGHT`, then thing by thing."""
    return [*_walls(room, ways), *_things(room, furniture)]


def _walls(room: Room, ways: Chains) -> Iterator[Part]:
    for node, chain in ((LEFT, ways.left), (RIGHT, ways.right)):
        first, last = chain[0], chain[-1]
        # Jambs stand for themselves too: the shortest way between two walls may lead out through a door.
        jambs = (Wall(first.edge, first.start, first.start), Wall(last.edge, last.end, last.end))
        for wall in (*chain, *jambs):
            yield _wall(room, node, wall)


def _wall(room: Room, node: int, wall: Wall) -> Part:
    shape = LineString([wall.start, wall.end]) if wall.start != wall.end else Point(wall.start)
    return Part(node, wall.edge, shape, room.tolerance.units)


def standing(room: Room, furniture: Sequence[Polygon]) -> list[Standing]:
    """What stands on the floor, each thing in one piece.

    What reaches into a wall is clipped to the floor, and each piece of it then stands for itself, since
    what joins them lies outside. What is low narrows no way: people walk over it.

    Args:
        room: for its obstacles and its tolerance.
        furniture: boxes in units.

    Returns:
        Name, shape and reach of each.
    """
    floor, tolerance = outline(room), float(room.tolerance.units)
    things: list[Standing] = []
    for obstacle in room.obstacles:
        if obstacle.low:
            continue
        radius = float(obstacle.radius.units)
        whole = core(obstacle).buffer(radius, quad_segs=QUAD_SEGS) if radius else core(obstacle)
        if floor.covers(whole):
            things.append(Standing(obstacle.name, core(obstacle), radius + tolerance))
        else:
            things += [Standing(obstacle.name, piece, tolerance) for piece in _areas(floor.intersection(whole))]
    if furniture:
        whole = unary_union(furniture)
        pieces = [whole] if floor.covers(whole) else _areas(floor.intersection(whole))
        things += [Standing(FURNITURE, piece, 0.0) for piece in pieces]
    return things


def _areas(shape: BaseGeometry) -> list[Polygon]:
    return [part for part in shapely.get_parts(shape).tolist() if isinstance(part, Polygon) and part.area]


def _things(room: Room, furniture: Sequence[Polygon]) -> Iterator[Part]:
    for node, thing in enumerate(standing(room, furniture), RIGHT + 1):
        for side in sides(thing.shape):
            yield Part(node, thing.name, side, thing.reach)


def sides(shape: BaseGeometry) -> list[BaseGeometry]:
    """The straight sides of an area; a point as it is."""
    rings = [ring for area in _areas(shape) for ring in (area.exterior, *area.interiors)]
    return [LineString(side) for ring in rings for side in pairwise(ring.coords)] or [shape]


def gaps_of(parts: Sequence[Part]) -> Iterator[Gap]:
    """Every gap between parts of different things."""
    nodes = np.array([part.node for part in parts])
    reach = np.array([part.reach for part in parts])
    shapes = np.array([part.shape for part in parts])
    a, b = np.nonzero(nodes[:, None] < nodes[None, :])
    lines = shapely.shortest_line(shapes[a], shapes[b])
    sizes = shapely.length(lines)
    for one, other, line, size in zip(a.tolist(), b.tolist(), lines, sizes, strict=True):
        width = round(float(size - reach[one] - reach[other]), DIGITS)
        yield Gap(width, (parts[one], parts[other]), line)
