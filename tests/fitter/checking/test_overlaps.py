"""Things that overlap the seats are noticed where nothing has to be kept off them but themselves."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from fitter.checking import check_layout
from fitter.model import any_layout
from fitter.project import read_project
from rooms.lengths import ZERO, Length
from rooms.room import Hinge, Obstacle, Opening, Point, Swing

DATA = {
    "units": "in",
    "room": {"tolerance": "0", "corners": {"A": ["0", "0"], "B": ["100", "0"], "C": ["100", "80"], "D": ["0", "80"]}},
    "cushions": [{"name": "seat", "size": ["24", "24", "5"], "price": "50"}],
    "wish": {"seats": {"least": "3"}, "shape": "straight", "legroom": "18", "against": ["AB"], "off_wall": "1"},
}
PROJECT = read_project("overlaps.yaml", json.dumps(DATA))


def inches(*size: float) -> Point:
    x, y = (Length.inches(str(value)) for value in size)
    return Point(x, y)


def thing(x: float, y: float) -> Obstacle:
    corners = (inches(x, y), inches(x + 4, y), inches(x + 4, y + 4), inches(x, y + 4))
    return Obstacle("planter", corners)


@pytest.mark.parametrize(("x", "y", "found"), [(50, 10, True), (50, 30, True), (50, 60, False), (96, 76, False)])
def test_a_thing_without_clear_ground(x: float, y: float, found: bool) -> None:
    """On the seats, in their leg room, and elsewhere; in a room without a tolerance."""
    layout = any_layout(PROJECT)
    assert layout is not None
    assert not check_layout(PROJECT, layout)
    crowded = replace(PROJECT, room=replace(PROJECT.room, obstacles=(thing(x, y),)))
    assert bool(check_layout(crowded, layout)) is found


def test_a_thing_that_only_touches() -> None:
    layout = any_layout(PROJECT)
    assert layout is not None
    right = max(float(x) for box in layout.footprint for x, _ in layout.pose.outline(box)) / 8128
    for x, found in ((right, False), (right - 0.0625, True)):
        crowded = replace(PROJECT, room=replace(PROJECT.room, obstacles=(thing(x, 10),)))
        assert any("planter" in finding.message for finding in check_layout(crowded, layout)) is found


def test_a_door_that_strikes_the_seats() -> None:
    layout = any_layout(PROJECT)
    assert layout is not None
    door = Opening("door", "AB", Length.inches(40), Length.inches(30), Swing.IN, Hinge.FIRST)
    crowded = replace(PROJECT, room=replace(PROJECT.room, openings=(door,)))
    assert [finding.code for finding in check_layout(crowded, layout)] == ["in-swing"]
    assert PROJECT.room.tolerance == ZERO
