"""Whether a layout stands in the room as it may: edge, outline, obstacles, doors, leg room and routes."""

from __future__ import annotations

from collections.abc import Iterator
from math import atan2, cos, hypot, pi, remainder, sin

from shapely import Point, Polygon
from shapely.geometry.base import BaseGeometry

from fitter.checking.case import Case
from fitter.domain.findings import Finding
from rooms.clearance import lets_through, outline
from rooms.lengths import Length
from rooms.room import Edge, Hinge, Obstacle, Opening, Room, Swing

DUST = Length.inches("2/1000")
"""What a distance in floats may be short of the exact one."""

ROUTE_DUST = Length.inches("2/100")
"""What the arcs of a moved disc may take from a route."""

AIM = 1e-6
"""Radians by which a layout frame may miss the direction of its edge."""

_LEAF_STEPS = 256
"""Chords of a quarter circle: at 48 in, true to 0.0003 in."""


def pose(case: Case) -> Iterator[Finding]:
    """The layout frame is truly turned, along its edge and from that edge's first corner."""
    where, room = case.layout.pose, case.project.room
    if where.cos**2 + where.sin**2 != 1:
        yield case.fault("pose", "the layout's turn is no true rotation")
    if where.edge is None:
        misses = [remainder(_miss(case, edge), pi / 2) for edge in room.edges]
        if min(abs(miss) for miss in misses) > AIM:
            yield case.fault("pose", f"the layout is turned {where.turned:.4f} degrees, along no edge")
    elif where.edge not in [edge.name for edge in room.edges]:
        yield case.fault("pose", f"the layout backs onto {where.edge}, which the room has not")
    else:
        edge = room.edge(where.edge)
        if abs(_miss(case, edge)) > AIM:
            yield case.fault("pose", f"the layout is turned {where.turned:.4f} degrees, not along edge {edge.name}")
        if where.origin != edge.start:
            yield case.fault("pose", f"the layout is not counted from the first corner of edge {edge.name}")


def _miss(case: Case, edge: Edge) -> float:
    """Angle from an edge to the layout's x axis, in radians."""
    turn = case.layout.pose
    dx, dy = edge.end.x.units - edge.start.x.units, edge.end.y.units - edge.start.y.units
    return atan2(float(dx * turn.sin - dy * turn.cos), float(dx * turn.cos + dy * turn.sin))


def against(case: Case) -> Iterator[Finding]:
    """The back of the main run lies along an edge that was asked: near it, and half of it over the edge."""
    wish, where = case.project.wish, case.layout.pose
    if (wish.against is None) != (where.edge is None) or (wish.against and where.edge not in wish.against):
        asked = "free" if wish.against is None else ", ".join(wish.against)
        yield case.fault(
            "against", f"the layout backs onto {where.edge or 'no edge'}, {asked} is asked", "wish.against"
        )
    off = case.main.deck.y0 - case.back - _lowest(case)
    # A lowest place that is no whole mark may be rounded to one.
    slack = case.mark if where.edge is None else Length(0)
    if abs(case.layout.off_edge - off) > slack:
        told, right = case.tell(case.layout.off_edge), case.tell(off)
        yield case.fault("against", f"the back is told to be {told} off the edge, it is {right}")
    if where.edge is None or where.edge not in [edge.name for edge in case.project.room.edges]:
        return
    if not Length(0) <= off <= wish.off_wall:
        most = case.tell(wish.off_wall)
        message = f"the back is {case.tell(off)} off edge {where.edge}, at most {most} are asked"
        yield case.fault("against", message, "wish.off_wall")
    low = min(case.main.deck.x0, case.corner.box.x0 if case.corner else case.main.deck.x0)
    high = max(case.main.deck.x1, case.corner.box.x1 if case.corner else case.main.deck.x1)
    edge = case.project.room.edge(where.edge)
    size = hypot(edge.end.x.units - edge.start.x.units, edge.end.y.units - edge.start.y.units)
    over = min(float(high.units), size) - max(float(low.units), 0.0)
    if 2 * (over + DUST.units) < (high - low).units:
        yield case.fault("against", f"less than half of the back lies over edge {edge.name}", "wish.against")


def _lowest(case: Case) -> Length:
    """Where the backing edge, or else the lowest corner of the outline, lies in the layout frame."""
    turn = case.layout.pose
    if turn.edge is not None:
        return Length(0)
    return Length(round(min(
        (corner.y.units - turn.origin.y.units) * turn.cos - (corner.x.units - turn.origin.x.units) * turn.sin
        for corner in case.project.room.outline
    )))  # fmt: skip


def inside(case: Case) -> Iterator[Finding]:
    """Every footprint box keeps the tolerance from everything outside the outline."""
    room = case.project.room
    floor = outline(room)
    for box in case.layout.footprint:
        thing, name = case.area(box), f"the footprint at {case.tell_box(box)}"
        if not floor.buffer(DUST.units).covers(thing):
            yield case.fault("outside-room", f"{name} lies outside the room", "room")
        elif (gap := floor.exterior.distance(thing)) < (room.tolerance - DUST).units:
            message = f"{name} is {_tell(case, gap)} from the outline, {case.tell(room.tolerance)} is the tolerance"
            yield case.fault("too-close", message, "room.tolerance")


def apart(case: Case) -> Iterator[Finding]:
    """Every footprint box keeps clear of each obstacle and of each door's swing."""
    room = case.project.room
    things = case.areas(case.layout.footprint)
    for n, obstacle in enumerate(room.obstacles):
        gap, need = min(_gap(obstacle, thing) for thing in things), obstacle.clear + room.tolerance
        if gap < (need - DUST).units:
            message = f"{_tell(case, gap)} to {obstacle.name}, at least {case.tell(need)} are needed"
            yield case.fault("too-close", message, f"room.obstacles.{n}.clear")
    for n, opening in enumerate(room.openings):
        if opening.swing is not Swing.IN:
            continue
        leaf = _leaf(room, opening)
        if min(leaf.distance(thing) for thing in things) < (room.tolerance - DUST).units:
            yield case.fault("in-swing", f"the leaf of {opening.name} strikes the seats", f"room.openings.{n}.swing")


def legroom(case: Case) -> Iterator[Finding]:
    """The leg room keeps the tolerance from everything outside and from obstacles themselves."""
    room = case.project.room
    floor, least = outline(room), (room.tolerance - DUST).units
    for run in case.layout.runs:
        strip = case.area(run.legroom)
        if not floor.buffer(DUST.units).covers(strip) or floor.exterior.distance(strip) < least:
            message = f"the {run.side} run has less than {case.tell(case.legroom)} before it to the outline"
            yield case.fault("legroom", message, "wish.legroom")
        for obstacle in room.obstacles:
            if _gap(obstacle, strip) < least:
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
    return float(core.distance(thing)) - obstacle.radius.units


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
