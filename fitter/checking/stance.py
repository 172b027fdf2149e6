"""Whether a layout stands to the edges of the room as it may: its turn, its backing edge and the run along it."""

from __future__ import annotations

from collections.abc import Iterator
from math import atan2, hypot, pi, remainder

from fitter.checking.case import Case
from fitter.domain.findings import Finding
from fitter.domain.layout import Side
from fitter.domain.wishes import Shape
from rooms.lengths import ZERO, Length
from rooms.room import Edge

AIM = 1e-6
"""Radians by which a layout frame may miss the direction of its edge."""

_TURN = {Side.MAIN: 0.0, Side.RIGHT: pi / 2, Side.LEFT: -pi / 2}
"""From the direction of the backing edge to the layout's x axis, by the run that lies along the edge."""


def pose(case: Case) -> Iterator[Finding]:
    """The layout frame is truly turned, so that the aligned run lies along its edge, and begins at its first corner."""
    where, room = case.layout.pose, case.project.room
    if where.cos**2 + where.sin**2 != 1:
        yield case.fault("pose", "the layout's turn is no true rotation")
    if where.edge is None:
        misses = [remainder(_miss(case, edge), pi / 2) for edge in room.edges]
        if min(abs(miss) for miss in misses) > AIM:
            yield case.fault("pose", f"the layout is turned {where.turned:.4f} degrees, along no edge")
        return
    edge = _edge(case)
    if edge is None:
        yield case.fault("pose", f"the layout backs onto {where.edge}, which the room has not")
        return
    if abs(remainder(_miss(case, edge) - _TURN[where.aligned], 2 * pi)) > AIM:
        message = f"the layout is turned {where.turned:.4f} degrees, its {where.aligned} run not along edge {edge.name}"
        yield case.fault("pose", message)
    if where.origin != edge.start:
        yield case.fault("pose", f"the layout is not counted from the first corner of edge {edge.name}")


def _edge(case: Case) -> Edge | None:
    return next((edge for edge in case.project.room.edges if edge.name == case.layout.pose.edge), None)


def _miss(case: Case, edge: Edge) -> float:
    """Angle from an edge to the layout's x axis, in radians."""
    turn = case.layout.pose
    dx, dy = edge.end.x.units - edge.start.x.units, edge.end.y.units - edge.start.y.units
    return atan2(float(dx * turn.sin - dy * turn.cos), float(dx * turn.cos + dy * turn.sin))


def longest(case: Case) -> Iterator[Finding]:
    """No run is longer than the one along the edge: the main run, or in a U it may be an arm; free, a U is as it is."""
    shape, where = case.layout.shape, case.layout.pose
    if where.aligned is not Side.MAIN and (shape is not Shape.U or where.edge is None):
        message = f"the {where.aligned} run of a {shape} layout is told to lie along {where.edge or 'no edge'}"
        yield case.fault("longest", message)
    if shape is Shape.U and where.edge is None:
        return
    run = case.layout.run(where.aligned) or case.main
    for other in case.layout.runs:
        if case.length(other) > case.length(run):
            sizes = (case.tell(case.length(other)), case.tell(case.length(run)))
            yield case.fault("longest", f"the {other.side} run is {sizes[0]} long, the {run.side} run {sizes[1]}")


def against(case: Case) -> Iterator[Finding]:
    """The back of the aligned run lies along an edge that was asked: near it, and half of it over the edge."""
    wish, where = case.project.wish, case.layout.pose
    if (wish.against is None) != (where.edge is None) or (wish.against and where.edge not in wish.against):
        asked = "free" if wish.against is None else ", ".join(wish.against)
        yield case.fault(
            "against", f"the layout backs onto {where.edge or 'no edge'}, {asked} is asked", "wish.against"
        )
    off = _off(case)
    # A lowest place that is no whole mark may be rounded to one.
    slack = case.mark if where.edge is None else ZERO
    if abs(case.layout.off_edge - off) > slack:
        told, right = case.tell(case.layout.off_edge), case.tell(off)
        yield case.fault("against", f"the back is told to be {told} off the edge, it is {right}")
    if (edge := _edge(case)) is not None:
        yield from _near(case, edge, off)
        yield from _over(case, edge)


def _near(case: Case, edge: Edge, off: Length) -> Iterator[Finding]:
    most = case.project.wish.off_wall
    if not ZERO <= off <= most:
        message = f"the back is {case.tell(off)} off edge {edge.name}, at most {case.tell(most)} are asked"
        yield case.fault("against", message, "wish.off_wall")


def _over(case: Case, edge: Edge) -> Iterator[Finding]:
    low, high = _along(case)
    size = hypot(edge.end.x.units - edge.start.x.units, edge.end.y.units - edge.start.y.units)
    over = min(float(high.units), size) - max(float(low.units), 0.0)
    if 2 * (over + case.dust) < (high - low).units:
        yield case.fault("against", f"less than half of the back lies over edge {edge.name}", "wish.against")


def _off(case: Case) -> Length:
    """From the edge, or when free standing from the lowest corner of the outline, to the outer face of the back."""
    match case.layout.pose.aligned:
        case Side.RIGHT:
            return case.x - case.back
        case Side.LEFT:
            return -(case.x + case.width + case.back)
    return case.y - case.back - _lowest(case)


def _along(case: Case) -> tuple[Length, Length]:
    """From where to where the aligned run with its corner places lies, along the edge from its first corner."""
    side = case.layout.pose.aligned
    arm = case.layout.run(side)
    if side is Side.MAIN or arm is None:
        return case.x, case.x + case.width
    top = case.front + case.length(arm)
    return (-top, -case.y) if side is Side.RIGHT else (case.y, top)


def _lowest(case: Case) -> Length:
    """Where the backing edge, or else the lowest corner of the outline, lies in the layout frame."""
    turn = case.layout.pose
    if turn.edge is not None:
        return ZERO
    return Length(round(min(
        (corner.y.units - turn.origin.y.units) * turn.cos - (corner.x.units - turn.origin.x.units) * turn.sin
        for corner in case.project.room.outline
    )))  # fmt: skip
