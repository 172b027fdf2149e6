"""From every part a chain of contacts leads to the ground, over feet that stand on it."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator

import numpy as np

from fitter.checking.wood.built import DOWN, POSTS, UP, Built
from fitter.checking.wood.solids import TINY, Floats, inches
from fitter.domain.findings import Finding
from fitter.domain.woodwork import PartRole

_STANDING = (*POSTS, PartRole.ARM_POST, PartRole.LEG)
"""Upright wood that has a foot of its own."""

_INSET = 0.5
"""How far a foot may stand from the end of what lies on two of them, inches."""


def all_reach_ground(built: Built) -> Iterator[Finding]:
    """Every part is reached from the feet through contacts."""
    reached = set(built.of(PartRole.FOOT))
    waiting = deque(sorted(reached))
    while waiting:
        number = waiting.popleft()
        for other in built.contacts.other[built.contacts.of(number)].tolist():
            if other not in reached:
                reached.add(other)
                waiting.append(other)
    for number in range(len(built.parts)):
        if number not in reached:
            yield built.fault("not-grounded", f"{built.name(number)} hangs in the air", built.middle(number))


def feet_on_ground(built: Built) -> Iterator[Finding]:
    """Each foot stands on the floor below it and carries something with its whole top, at the height of all feet."""
    for number in built.of(PartRole.FOOT):
        low, high = built.solids.part_low[number], built.solids.part_high[number]
        if abs(high[2] - inches(built.levels.foot)) > TINY:
            yield built.fault("foot-height", f"{built.name(number)} does not end at the height of the feet", high)
        floor = _floor(built, low, high)
        if not min(floor) - TINY <= low[2] <= max(floor) + built.one_mark + TINY:
            message = (
                f"{built.name(number)} ends at {built.tell(low[2])}, the floor there lies at {built.tell(floor[0])}"
            )
            yield built.fault("foot-off-floor", message, low)
        rows = built.contacts.on(number, built.solids.face_axis(number, UP))
        top = (high - low)[0] * (high - low)[1]
        if built.contacts.area[rows].sum() < 0.95 * top:
            yield built.fault("foot-beside", f"{built.name(number)} does not carry with its whole top", high)


def _floor(built: Built, low: Floats, high: Floats) -> list[float]:
    """How high the floor lies at the corners of a foot, told from the floor under the highest foot; nought or less."""
    slope = getattr(built.project.room, "slope", None)
    if slope is None or not built.made.level:
        return [0.0]
    edge = built.project.room.edge(slope.toward)
    # The edge has the room on its left, so the floor falls toward its right, square to it.
    dx, dy = (float((edge.end.x - edge.start.x).inch), float((edge.end.y - edge.start.y).inch))
    down = np.array([dy, -dx]) / np.hypot(dx, dy)
    feet = built.of(PartRole.FOOT)
    corners = np.concatenate([_plan(built.solids.part_low[n], built.solids.part_high[n]) for n in feet])
    pose = built.layout.pose
    turn = np.array([[float(pose.cos), float(-pose.sin)], [float(pose.sin), float(pose.cos)]])
    level = -float(slope.fall) * (corners @ turn.T @ down)
    centres = level.reshape(-1, 4).mean(axis=1)
    own = -float(slope.fall) * (_plan(low, high) @ turn.T @ down)
    return [float(value - centres.max()) for value in (own.mean(), own.min(), own.max())]


def _plan(low: Floats, high: Floats) -> Floats:
    return np.array([[x, y] for x in (low[0], high[0]) for y in (low[1], high[1])])


def standing_on_feet(built: Built) -> Iterator[Finding]:
    """Every post and leg stands on a foot with its whole end; every mitred end stands on two, front and back."""
    for number in built.of(*_STANDING):
        low, high = built.solids.part_low[number], built.solids.part_high[number]
        rows = built.touching(number, built.solids.face_axis(number, DOWN), (PartRole.FOOT,))
        area = sum(built.contacts.area[row] for row in rows)
        if area < 0.95 * (high - low)[0] * (high - low)[1]:
            yield built.fault("no-foot", f"{built.name(number)} stands on no foot", np.append(low[:2], low[2]))
    for number in built.of(PartRole.ARM_PIECE):
        low, high = built.solids.part_low[number], built.solids.part_high[number]
        if low[2] < inches(built.levels.foot) + TINY and (high - low)[2] < max((high - low)[:2]):
            yield from _two_feet(built, number)


def _two_feet(built: Built, number: int) -> Iterator[Finding]:
    rows = built.touching(number, built.solids.face_axis(number, DOWN), (PartRole.FOOT,))
    length = built.solids.sizes[number][0]
    first = min((built.contacts.low[row][0] for row in rows), default=length)
    last = max((built.contacts.high[row][0] for row in rows), default=0.0)
    if len(rows) < 2 or first > _INSET or last < length - _INSET:
        yield built.fault("no-foot", f"{built.name(number)} lacks a foot at an end", built.middle(number))
