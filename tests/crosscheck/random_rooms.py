"""Random rooms with a route, made to hold what routes are hard at.

Thin walls and cupboards with doors in them, doors in corners and beside corners that jut into the room, two doors
on one edge or with a jamb in common, holes, low things, and things that stand in a wall. Coordinates in inches.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import cos, pi, sin, tau
from random import Random

from shapely import Polygon, affinity, box
from shapely.ops import unary_union

from rooms.clearance import free_floor
from rooms.lengths import UNITS_PER_INCH, Length
from rooms.room import Edge, EdgeKind, Height, Obstacle, Opening, Point, Room, Route, signed_area


@dataclass(frozen=True)
class Case:
    """A room with one route, and furniture that stands anywhere, turned anyhow.

    Args:
        room: with its route.
        furniture: boxes in units that hang together; they may stand in a wall or on an obstacle.
    """

    room: Room
    furniture: tuple[Polygon, ...]

    @property
    def route(self) -> Route:
        """The only route."""
        return self.room.routes[0]


def case(seed: int) -> Case:
    """A random room; the same for the same seed."""
    rng = Random(seed)
    while True:
        shape = (_steps, _star, _cut, _cupboards)[seed % 4](rng)
        edges = _edges(rng, shape)
        openings = _openings(rng, edges)
        if openings is None or not shape.is_valid:
            continue
        obstacles = tuple(_obstacle(rng, shape, f"thing {k}") for k in range(rng.randint(0, 3)))
        tolerance = Length.inches(rng.choice(("0", "1/8", "1/4", "1/2")))
        route = Route("way", "door", "gate", Length.inches(rng.randint(18, 48)))
        corners = tuple((edge.name, edge.start) for edge in edges)
        return Case(Room(corners, edges, openings, obstacles, (route,), tolerance), _furniture(rng, shape))


def seated(seed: int, tries: int = 40) -> Iterator[tuple[tuple[int, int, int, int], ...]]:
    """Furniture that stands in the room of the same seed as a layout may: up to two boxes, upright, in whole units."""
    rng, room = Random(f"seated {seed}"), case(seed).room
    floor = free_floor(room)
    if not floor.area:
        return
    low_x, low_y, high_x, high_y = (round(edge) for edge in floor.bounds)
    for _ in range(tries):
        x, y = rng.randint(low_x, high_x), rng.randint(low_y, high_y)
        long, deep, side = (rng.randint(*span) * UNITS_PER_INCH for span in ((16, 90), (16, 34), (16, 60)))
        if rng.random() < 0.5:
            long, deep = deep, long
        arm = x if rng.random() < 0.5 else x + long - min(long, 20 * UNITS_PER_INCH)
        boxes = [(x, y, x + long, y + deep), (arm, y + deep, arm + min(long, 20 * UNITS_PER_INCH), y + deep + side)]
        boxes = boxes[: rng.randint(1, 2)]
        if all(floor.covers(box(*each)) for each in boxes):
            yield tuple(boxes)


def point(x: float, y: float) -> Point:
    """A point, from inches."""
    return Point(Length(round(x * UNITS_PER_INCH)), Length(round(y * UNITS_PER_INCH)))


def _steps(rng: Random) -> Polygon:
    """A concave outline with square corners only: a few boxes on a 6 in grid, joined."""
    while True:
        boxes = []
        for _ in range(rng.randint(1, 4)):
            x, y = 6 * rng.randint(0, 20), 6 * rng.randint(0, 20)
            boxes.append(box(x, y, x + 6 * rng.randint(5, 25), y + 6 * rng.randint(5, 25)))
        shape = unary_union(boxes)
        if isinstance(shape, Polygon) and not shape.interiors:
            return shape.simplify(0)


def _star(rng: Random) -> Polygon:
    """A skew outline: corners about a middle, some of them drawn in."""
    turns = sorted(rng.uniform(0, tau) for _ in range(rng.randint(4, 9)))
    while max(b - a for a, b in zip(turns, [*turns[1:], turns[0] + tau], strict=True)) > pi * 0.9:
        turns = sorted(rng.uniform(0, tau) for _ in range(rng.randint(4, 9)))
    return Polygon([(r * cos(t), r * sin(t)) for t in turns for r in (rng.uniform(40, 140),)])


def _cut(rng: Random) -> Polygon:
    """A box with thin walls or wedges standing into it."""
    shape = box(0, 0, rng.uniform(100, 220), rng.uniform(100, 220))
    for _ in range(rng.randint(1, 3)):
        wide, far = rng.choice((2, 4, 6, 20)), rng.uniform(30, 160)
        wedge = Polygon([(-wide, -9), (wide, -9), (rng.choice((1, wide)), far), (-1, far)])
        spot = shape.exterior.interpolate(rng.uniform(0, 1), normalized=True)
        shape = _without(
            shape, affinity.translate(affinity.rotate(wedge, 90 * rng.randint(0, 3), (0, 0)), spot.x, spot.y)
        )
    return shape


def _cupboards(rng: Random) -> Polygon:
    """A box with closets and wall ends standing into it, square and as thick as a door's route is wide, or less."""
    wide, deep = 6 * rng.randint(18, 40), 6 * rng.randint(18, 40)
    shape = box(0, 0, wide, deep)
    for _ in range(rng.randint(1, 3)):
        thick, far = rng.choice((2, 6, 12, 24, 36)), 6 * rng.randint(4, 20)
        at = 6 * rng.randint(2, 30)
        closet = rng.choice((
            box(at, 0, at + thick, far),
            box(at, deep - far, at + thick, deep),
            box(0, at, far, at + thick),
            box(wide - far, at, wide, at + thick),
        ))  # fmt: skip
        shape = _without(shape, closet)
    return shape


def _without(shape: Polygon, cut: Polygon) -> Polygon:
    """A shape less a cut; as it was if it would fall apart or get a hole."""
    rest = shape.difference(cut)
    return rest if isinstance(rest, Polygon) and not rest.interiors else shape


def _edges(rng: Random, shape: Polygon) -> tuple[Edge, ...]:
    forward = rng.random() < 0.5
    ring = [point(x, y) for x, y in list(shape.exterior.coords)[:-1]]
    ring = [a for a, b in zip(ring, [*ring[1:], ring[0]], strict=True) if a != b]
    ring = ring if signed_area(tuple(ring)) > 0 else ring[::-1]
    edges = [
        Edge(f"e{k}", rng.choice(list(EdgeKind)), a, b, forward)
        for k, (a, b) in enumerate(zip(ring, [*ring[1:], ring[0]], strict=True))
    ]
    return tuple(edges if forward else edges[::-1])


def _openings(rng: Random, edges: tuple[Edge, ...]) -> tuple[Opening, ...] | None:
    """Two openings, often with a jamb in a corner, on one edge, or with a jamb in common."""
    openings: list[Opening] = []
    for name in ("door", "gate"):
        wide = [edge for edge in edges if edge.length > Length.inches(14)]
        if not wide:
            return None
        edge = rng.choice(wide)
        if openings and rng.random() < 0.15:
            edge = next(edge for edge in edges if edge.name == openings[0].edge)
        width = min(Length.inches(rng.randint(12, 60)), edge.length)
        left = (edge.length - width).units
        places = [0, left, rng.randint(0, left), rng.randint(0, left)]
        if openings and openings[0].edge == edge.name:
            after = (openings[0].offset + openings[0].width).units
            places += [after, after] if after <= left else []
        offset = rng.choice(places)
        if openings and openings[0].edge == edge.name:
            low, high = openings[0].offset.units, (openings[0].offset + openings[0].width).units
            if low < offset + width.units and offset < high:
                return None
        openings.append(Opening(name, edge.name, Length(offset), width))
    return tuple(openings)


def _obstacle(rng: Random, shape: Polygon, name: str) -> Obstacle:
    """A round or a square thing anywhere, in a wall too; of any height, or a hole."""
    kind = rng.choice((Height.FULL, Height.FULL, Height.REACH, Height.LOW, None))
    height, hole = kind or Height.FULL, kind is None
    low_x, low_y, high_x, high_y = shape.bounds
    x, y = rng.uniform(low_x, high_x), rng.uniform(low_y, high_y)
    if rng.random() < 0.4:
        return Obstacle(name, (point(x, y),), Length.inches(rng.randint(2, 20)), height=height, hole=hole)
    wide, deep = rng.uniform(3, 40), rng.uniform(3, 40)
    turned = affinity.rotate(box(x, y, x + wide, y + deep), rng.choice((0, 0, rng.uniform(0, 90))))
    ring = tuple(point(*corner) for corner in list(turned.exterior.coords)[:-1])
    return Obstacle(name, ring if signed_area(ring) > 0 else ring[::-1], height=height, hole=hole)


def _furniture(rng: Random, shape: Polygon) -> tuple[Polygon, ...]:
    """No boxes, one, or two that stand together in an L; in units."""
    kind = rng.randint(0, 2)
    low_x, low_y, high_x, high_y = shape.bounds
    x, y = rng.uniform(low_x, high_x), rng.uniform(low_y, high_y)
    long, deep, side = rng.uniform(20, 90), rng.uniform(20, 34), rng.uniform(20, 60)
    boxes = (box(x, y, x + long, y + deep), box(x, y + deep, x + deep, y + deep + side))[:kind]
    turn = rng.choice((0, 90, 180, rng.uniform(0, 360)))
    turned = [affinity.rotate(each, turn, (x, y)) for each in boxes]
    return tuple(affinity.scale(each, UNITS_PER_INCH, UNITS_PER_INCH, origin=(0, 0)) for each in turned)
