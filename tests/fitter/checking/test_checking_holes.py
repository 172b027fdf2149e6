"""A hole in the ground is checked like whatever stands there, and told by its own key."""

from __future__ import annotations

from dataclasses import replace

from yards import inch, straight

from fitter.checking import check_layout
from rooms.room import Obstacle, Point


def test_seats_over_a_hole_are_told_at_its_key() -> None:
    """The second thing of the room is the first of its holes."""
    yard = straight()
    hole = Obstacle("well", (Point(inch(60), inch(17)),), inch(3), hole=True)
    room = replace(yard.project.room, obstacles=(*yard.project.room.obstacles, hole))
    faults = check_layout(replace(yard.project, room=room), yard.layout)
    assert [(fault.code, fault.key) for fault in faults] == [("too-close", "room.holes.0.clear")]
