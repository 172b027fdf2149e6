"""Layouts that are laid out by hand pass the checker, wherever they stand."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hand_built import INSIDE, LEFT, MAIN, RIGHT
from tampering import codes, laid, moved, roomed
from yards import ALONG, Yard, box, free, inch, mixed, slim, straight, u, u_right_along, yards

from fitter.domain.layout import Face, Side
from rooms.lengths import ZERO
from rooms.room import Point

YARDS = yards()


@pytest.mark.parametrize("name", YARDS)
def test_right_layout_passes(name: str) -> None:
    """Straight, L and U, either hand, every treatment, every owner, mixed options, over a drain."""
    assert codes(YARDS[name]) == []


def test_a_layout_moved_as_a_whole_is_still_right() -> None:
    yard = straight()
    assert codes(laid(yard, moved(yard.layout, "7/16", "-1/16"))) == []


def test_backing_onto_another_edge() -> None:
    yard = roomed(straight(), routes=(), openings=(), obstacles=())
    pose = replace(ALONG, origin=Point(inch(220), ZERO), cos=Fraction(0), sin=Fraction(1), edge="BC")
    assert codes(laid(yard, replace(yard.layout, pose=pose))) == []


def test_free_standing_from_either_side() -> None:
    """Turned half round, the backs are as far off the other side."""
    yard = roomed(straight(), routes=(), openings=(), obstacles=())
    asked, layout = free(yard.project), yard.layout
    assert codes(Yard(asked, replace(layout, pose=replace(ALONG, edge=None)))) == []
    far = replace(ALONG, origin=Point(inch(220), inch(150)), cos=Fraction(-1), edge=None)
    assert codes(Yard(asked, replace(layout, pose=far))) == []


def test_a_u_by_its_coordinates() -> None:
    """The numbers of a U with squares of 24 1/4 in, worked out on paper from the deck corner (20, 5)."""
    layout = u(INSIDE).layout
    main, left, right = layout.runs
    assert (main.side, left.side, right.side) == (MAIN, LEFT, RIGHT)
    assert main.deck == box("177/4", 5, 117, "117/4")
    assert right.deck == box(20, "117/4", "177/4", "311/4")
    assert left.deck == box(117, "117/4", "565/4", "311/4")
    assert main.back == box("33/2", "3/2", "579/4", 5)
    assert left.back == box("565/4", 5, "579/4", "311/4")
    assert left.legroom == box(99, "117/4", 117, "311/4")
    assert [(m.place, m.box) for m in layout.corners] == [
        (0, box(20, 5, "177/4", "117/4")),
        (4, box(117, 5, "565/4", "117/4")),
    ]
    crosses = [rail for rail in layout.rails if rail.face is Face.CROSS]
    assert [(rail.run, rail.box) for rail in crosses] == [
        (LEFT, box(117, "13/2", "237/2", "103/4")),
        (RIGHT, box("171/4", "13/2", "177/4", "103/4")),
    ]


def test_a_u_along_its_right_arm_in_the_room() -> None:
    """Its back stands 1 1/2 in off AB, its main run beyond, with its back away from A."""
    layout = u_right_along(INSIDE, (2, 3, 1)).layout
    assert layout.off_edge == inch("3/2")
    right = layout.run(RIGHT)
    assert right is not None
    # y = -150 is x = 150 in the room; the arm of 72 3/4 in begins 24 1/4 in nearer to A.
    spots = layout.pose.outline(right.deck)
    assert min(x for x, _ in spots) == inch(53).units
    assert max(x for x, _ in spots) == inch("503/4").units
    assert min(y for _, y in spots) == inch(5).units


@pytest.mark.parametrize(("hand", "low"), [(RIGHT, 27), (LEFT, 28)])
def test_odd_half_mark_goes_to_the_side_of_the_higher_lines(hand: Side, low: int) -> None:
    """A post of 55 marks stands 27 before its line and 28 behind it, as its run is counted; here the first in front."""
    layout = slim(hand).layout
    post = layout.posts[0]
    start = layout.runs[0].deck
    line = start.x0 + inch("97/4") if hand is RIGHT else start.x1 - inch("97/4")
    assert (post.run, post.face, post.line) == (MAIN, Face.FRONT, 1)
    assert line - post.box.x0 == inch(f"{low}/16")


def test_cushions_to_buy_are_those_not_owned() -> None:
    found = [(p.cushion, p.used, p.buy) for p in mixed().layout.purchases]
    assert found == [("square", 4, 0), ("slim", 2, 2), ("bench", 1, 0), ("stool", 1, 1)]
