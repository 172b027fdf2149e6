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
    feet = built.of(PartRole.FOOT)
    if not feet:
        yield built.fault("no-foot", "the frame has no foot")
        return
    floor, slack = _floor(built, feet)
    for at, number in enumerate(feet):
        low, high = built.solids.part_low[number], built.solids.part_high[number]
        usual = inches(built.levels.foot)
        # Where the floor falls far, posts and legs reach down to feet of the usual height.
        if abs(high[2] - usual) > TINY and abs(high[2] - low[2] - usual) > TINY:
            yield built.fault("foot-height", f"{built.name(number)} does not end at the height of the feet", high)
        if abs(low[2] - floor[at]) > slack:
            message = (
                f"{built.name(number)} ends at {built.tell(low[2])}, the floor there lies at {built.tell(floor[at])}"
            )
            yield built.fault("foot-off-floor", message, low)
        rows = built.contacts.on(number, built.solids.face_axis(number, UP))
        top = (high - low)[0] * (high - low)[1]
        if built.contacts.area[rows].sum() < 0.95 * top:
            yield built.fault("foot-beside", f"{built.name(number)} does not carry with its whole top", high)


def _floor(built: Built, feet: list[int]) -> tuple[Floats, float]:
    """How high the floor lies under the middle of each foot, from that under the highest; and what feet may miss it by.

    The floor falls from one side of a foot to the other, and a foot's height is on the mark.
    """
    slope = built.project.room.slope
    if slope is None or not built.made.level:
        return np.zeros(len(feet)), TINY
    edge = built.project.room.edge(slope.toward)
    # The edge has the room on its left, so the floor falls toward its right, square to it.
    along = np.array([float((edge.end.x - edge.start.x).inch), float((edge.end.y - edge.start.y).inch)])
    down = np.array([along[1], -along[0]]) / np.hypot(*along)
    pose = built.layout.pose
    turn = np.array([[float(pose.cos), float(-pose.sin)], [float(pose.sin), float(pose.cos)]])
    low, high = built.solids.part_low[feet], built.solids.part_high[feet]
    level = -float(slope.fall) * ((low + high)[:, :2] / 2 @ turn.T @ down)
    across = float(np.linalg.norm((high - low)[:, :2], axis=1).max())
    return level - level.max(), float(slope.fall) * across + built.one_mark + TINY


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
