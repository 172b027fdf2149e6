"""Whether a layout finds room: within the outline, clear of obstacles and doors, with leg room and open routes."""

from __future__ import annotations

from collections.abc import Iterator
from math import atan2, cos, hypot, pi, sin

from shapely import Point, Polygon
from shapely.geometry.base import BaseGeometry

from fitter.checking.case import Case
from fitter.domain.findings import Finding
from fitter.domain.requirements import obstacle_key
from rooms.clearance import lets_through, outline
from rooms.lengths import Length
from rooms.room import Height, Hinge, Obstacle, Opening, Room, Swing

ROUTE_DUST = Length.inches("2/100")
"""What the arcs of a moved disc may take from a route."""

_LEAF_STEPS = 256
"""Chords of a quarter circle: at 48 in, true to 0.0003 in."""


def inside(case: Case) -> Iterator[Finding]:
    """Every footprint box keeps the tolerance from everything outside the outline."""
    room = case.project.room
    floor = outline(room)
    for box in case.layout.footprint:
        thing, name = case.area(box), f"the footprint at {case.tell_box(box)}"
        if not floor.buffer(case.dust).covers(thing):
            yield case.fault("outside-room", f"{name} lies outside the room", "room")
        elif (gap := floor.exterior.distance(thing)) < room.tolerance.units - case.dust:
            message = f"{name} is {_tell(case, gap)} from the outline, {case.tell(room.tolerance)} is the tolerance"
            yield case.fault("too-close", message, "room.tolerance")


def apart(case: Case) -> Iterator[Finding]:
    """The footprint keeps clear of each obstacle and each door's swing; of what lies low, only what has feet does."""
    room = case.project.room
    things = case.areas(case.layout.footprint)
    layout = case.layout
    standing = [*(post.box for post in layout.posts), *(end.box for end in layout.ends)]
    feet = case.areas([*standing, *(fill.box for fill in layout.built_fills)])
    for n, obstacle in enumerate(room.obstacles):
        near = feet if obstacle.height is Height.LOW else things
        gap, need = min(_gap(obstacle, thing) for thing in near), obstacle.clear + room.tolerance
        if gap < need.units - case.dust:
            message = f"{_tell(case, gap)} to {obstacle.name}, at least {case.tell(need)} are needed"
            yield case.fault("too-close", message, f"{obstacle_key(room, n)}.clear")
    for n, opening in enumerate(room.openings):
        if opening.swing is not Swing.IN:
            continue
        leaf = _leaf(room, opening)
        if min(_between(leaf, thing) for thing in things) < room.tolerance.units - case.dust:
            yield case.fault("in-swing", f"the leaf of {opening.name} strikes the seats", f"room.openings.{n}.swing")


def legroom(case: Case) -> Iterator[Finding]:
    """The leg room keeps the tolerance from everything outside and from obstacles themselves, but for low ones."""
    room = case.project.room
    floor, least = outline(room), room.tolerance.units - case.dust
    for run in case.layout.runs:
        strip = case.area(run.legroom)
        if not floor.buffer(case.dust).covers(strip) or floor.exterior.distance(strip) < least:
            message = f"the {run.side} run has less than {case.tell(case.legroom)} before it to the outline"
            yield case.fault("legroom", message, "wish.legroom")
        for obstacle in room.obstacles:
            if obstacle.height is not Height.LOW and _gap(obstacle, strip) < least:
                message = f"the {run.side} run has less than {case.tell(case.legroom)} before it to {obstacle.name}"
                yield case.fault("legroom", message, "wish.legroom")


def routes(case: Case) -> Iterator[Finding]:
    """A disc of the route's width can be taken along every route, past the footprint."""
    room = case.project.room
    things = case.areas(case.layout.footprint)
    for n, route in enumerate(room.routes):
        if not lets_through(room, route, things, route.width - ROUTE_DUST):
            message = f"{route.name} is less than {case.tell(route.width)} wide past the seats"
            yield case.fault("route-blocked", message, f"room.routes.{n}.width")


def _gap(obstacle: Obstacle, thing: Polygon) -> float:
    spots = [(spot.x.units, spot.y.units) for spot in obstacle.core]
    core: BaseGeometry = Polygon(spots) if len(spots) > 2 else Point(spots[0])
    return _between(core, thing) - obstacle.radius.units


def _between(one: BaseGeometry, other: Polygon) -> float:
    """How far two things are apart; less than nothing where they overlap, since to touch may be far enough."""
    shared = one.intersection(other)
    x0, y0, x1, y1 = shared.bounds if shared.area else (0.0, 0.0, 0.0, 0.0)
    # By its mean width, so that a sliver along a face is as nothing.
    return -shared.area / hypot(x1 - x0, y1 - y0) if shared.area else float(one.distance(other))


def _leaf(room: Room, opening: Opening) -> Polygon:
    """What the door leaf sweeps, by chords of its arc."""
    edge, jambs = room.edge(opening.edge), room.jambs(opening)
    first, second = jambs if edge.forward else jambs[::-1]
    hinge, other = (first, second) if opening.hinge is Hinge.FIRST else (second, first)
    closed = atan2(other.y.units - hinge.y.units, other.x.units - hinge.x.units)
    # From the jamb met first on an anticlockwise walk the leaf turns anticlockwise into the room.
    way = 1 if hinge == jambs[0] else -1
    turns = [closed + way * pi / 2 * step / _LEAF_STEPS for step in range(_LEAF_STEPS + 1)]
    x, y, radius = hinge.x.units, hinge.y.units, opening.width.units
    return Polygon([(x, y), *((x + radius * cos(turn), y + radius * sin(turn)) for turn in turns)])


def _tell(case: Case, gap: float) -> str:
    return case.tell(Length(round(gap)))
