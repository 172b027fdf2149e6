"""From every part a chain of contacts leads to the ground, over feet that stand on it."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator

import numpy as np

from fitter.checking.wood.built import DOWN, POSTS, UP, Built
from fitter.checking.wood.solids import TINY, Floats, inches
from fitter.domain.findings import Finding
from fitter.domain.woodwork import PartRole

_STANDING = (*POSTS, PartRole.ARM_POST, PartRole.LEG, PartRole.SHELF_LEG)
"""Upright wood that has a foot of its own."""

_INSET = 0.5
"""How far a foot may stand from the end of what lies on two of them, inches."""


def _spots(built: Built) -> tuple[list[int], Floats, Floats]:
    """What stands on the floor: feet, and where those have no height whatever else would stand on one without them.

    Returns:
        Part, low and high corner of each spot; an end panel without feet stands on a spot at each end.
    """
    parts = built.of(PartRole.FOOT)
    low, high = [built.solids.part_low[n] for n in parts], [built.solids.part_high[n] for n in parts]
    if not built.levels.foot:
        for number in (*built.of(*_STANDING), *_lying(built)):
            for a, b in _ends(built, number):
                under = [
                    at for at, foot in enumerate(parts) if (low[at][:2] < b[:2]).all() and (high[at][:2] > a[:2]).all()
                ]
                if not under:
                    parts, low, high = [*parts, number], [*low, a], [*high, b]
    return parts, np.array(low).reshape(-1, 3), np.array(high).reshape(-1, 3)


def _lying(built: Built) -> list[int]:
    """The lowest pieces of mitred ends."""
    found = []
    for number in built.of(PartRole.ARM_PIECE):
        size = built.solids.part_high[number] - built.solids.part_low[number]
        if built.solids.part_low[number][2] < inches(built.levels.foot) + TINY and size[2] < max(size[:2]):
            found.append(number)
    return found


def _ends(built: Built, number: int) -> list[tuple[Floats, Floats]]:
    """Where a part stands: on its whole plan if it is upright, else on a square at each end."""
    low, high = built.solids.part_low[number], built.solids.part_high[number]
    if built.parts[number].role is not PartRole.ARM_PIECE:
        return [(low, high)]
    along = int((high - low)[:2].argmax())
    wide = built.solids.sizes[number][1]
    first, last = high.copy(), low.copy()
    first[along], last[along] = low[along] + wide, high[along] - wide
    return [(low, first), (last, high)]


def all_reach_ground(built: Built) -> Iterator[Finding]:
    """Every part is reached through contacts from what stands on the floor."""
    reached = set(_spots(built)[0])
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
    """All that stands does so on the floor below it; a foot carries with its whole top, at the height of all feet."""
    numbers, low, high = _spots(built)
    if not numbers:
        yield built.fault("no-foot", "the frame has no foot")
        return
    floor, slack = _floor(built, low, high)
    for at, number in enumerate(numbers):
        if abs(low[at][2] - floor[at]) > slack:
            ends, lies = built.tell(low[at][2]), built.tell(floor[at])
            message = f"{built.name(number)} ends at {ends}, the floor there lies at {lies}"
            yield built.fault("foot-off-floor", message, low[at])
        if built.parts[number].role is PartRole.FOOT:
            yield from _foot(built, number)


def _foot(built: Built, number: int) -> Iterator[Finding]:
    low, high, usual = built.solids.part_low[number], built.solids.part_high[number], inches(built.levels.foot)
    # Where the floor falls far, posts and legs reach down to feet of the usual height.
    deep = falls(built) and abs(high[2] - low[2] - usual) < TINY
    if abs(high[2] - usual) > TINY and not deep:
        yield built.fault("foot-height", f"{built.name(number)} does not end at the height of the feet", high)
    rows = built.contacts.on(number, built.solids.face_axis(number, UP))
    if built.contacts.area[rows].sum() < 0.95 * (high - low)[0] * (high - low)[1]:
        yield built.fault("foot-beside", f"{built.name(number)} does not carry with its whole top", high)


def falls(built: Built) -> bool:
    """Whether feet make up for a floor that falls."""
    return built.project.room.slope is not None and built.made.level


def _floor(built: Built, low: Floats, high: Floats) -> tuple[Floats, float]:
    """How high the floor lies under the middle of each spot, from that under the highest; and what may be missed.

    The floor falls from one side of a foot to the other, and a foot's height is on the mark.
    """
    slope = built.project.room.slope
    if slope is None or not falls(built):
        return np.zeros(len(low)), TINY
    edge = built.project.room.edge(slope.toward)
    # The edge has the room on its left, so the floor falls toward its right, square to it.
    along = np.array([float((edge.end.x - edge.start.x).inch), float((edge.end.y - edge.start.y).inch)])
    down = np.array([along[1], -along[0]]) / np.hypot(*along)
    pose = built.layout.pose
    turn = np.array([[float(pose.cos), float(-pose.sin)], [float(pose.sin), float(pose.cos)]])
    level = -float(slope.fall) * ((low + high)[:, :2] / 2 @ turn.T @ down)
    across = float(np.linalg.norm((high - low)[:, :2], axis=1).max())
    return level - level.max(), float(slope.fall) * across + built.one_mark + TINY


def standing_on_feet(built: Built) -> Iterator[Finding]:
    """Every post and leg stands on a foot with its whole end, every mitred end on two; or on the floor without feet."""
    bare = set(_spots(built)[0]) - set(built.of(PartRole.FOOT))
    for number in built.of(*_STANDING):
        low, high = built.solids.part_low[number], built.solids.part_high[number]
        rows = built.touching(number, built.solids.face_axis(number, DOWN), (PartRole.FOOT,))
        area = sum(built.contacts.area[row] for row in rows)
        if number not in bare and area < 0.95 * (high - low)[0] * (high - low)[1]:
            yield built.fault("no-foot", f"{built.name(number)} stands on no foot", low)
    for number in _lying(built):
        if number not in bare:
            yield from _two_feet(built, number)


def _two_feet(built: Built, number: int) -> Iterator[Finding]:
    rows = built.touching(number, built.solids.face_axis(number, DOWN), (PartRole.FOOT,))
    length = built.solids.sizes[number][0]
    first = min((built.contacts.low[row][0] for row in rows), default=length)
    last = max((built.contacts.high[row][0] for row in rows), default=0.0)
    if len(rows) < 2 or first > _INSET or last < length - _INSET:
        yield built.fault("no-foot", f"{built.name(number)} lacks a foot at an end", built.middle(number))
