"""The banks of a route in rooms that one can measure in the head."""

from __future__ import annotations

from dataclasses import replace

import pytest
from open_ways import Boxes, leaves_open
from route_cases import CASES, DOOR, GATE, RouteCase, inches, point, tub

from fitter.model.banks import banks
from fitter.model.walkways import Bar, walkways
from rooms.room import EdgeKind, Obstacle, Opening, Room, Route

ASKED = [(name, asked) for name, found in CASES.items() for asked in found.clear]
SPLINTER = 1 / 64


@pytest.mark.parametrize(("name", "asked"), ASKED)
def test_furniture_leaves_a_route_open_where_it_is_wide_enough(name: str, asked: float) -> None:
    """Each case of `route_cases` tells what goes wrong without its treatment."""
    found = CASES[name]
    assert leaves_open(walkways(found.room(asked))[0], found.in_units) == (asked <= found.clear[asked])


@pytest.mark.parametrize(("name", "asked"), [pair for pair in ASKED if CASES[pair[0]].boxes])
def test_the_limit_beside_furniture_is_sharp(name: str, asked: float) -> None:
    """A splinter less passes, a splinter more does not, where the furniture leaves the narrowest place."""
    found = CASES[name]
    if leaves_open(walkways(found.room(asked))[0], ()) and (clear := found.clear[asked]) < 40:
        assert leaves_open(walkways(found.room(clear - SPLINTER))[0], found.in_units)
        assert not leaves_open(walkways(found.room(clear + SPLINTER))[0], found.in_units)


@pytest.mark.parametrize("kind", list(EdgeKind))
@pytest.mark.parametrize(
    "name", ["a door in a corner", "two openings that meet in a corner", "furniture behind a closet"]
)
def test_whatever_stands_along_an_edge_ends_the_room(name: str, kind: EdgeKind) -> None:
    """A door on a step, and a route along one, are no different: nobody is led over the brink of it."""
    found = CASES[name]
    for asked, clear in found.clear.items():
        assert leaves_open(walkways(found.room(asked, kind))[0], found.in_units) == (asked <= clear)


def test_furniture_may_be_of_another_bank_for_each_of_two_routes_that_cross() -> None:
    """In the lower left corner it is on the left from door to gate, and on the right from west to east.

    One side for all routes would bar one of them: it stands 8 in from the walls on both sides of the corner.
    """
    room = _with_crossing(RouteCase("", {}).room(36))
    along, across = walkways(room)
    corner: Boxes = (_box(8, 8, 72, 20),)
    for way, own in ((along, 0), (across, 1)):
        assert leaves_open(way, corner)
        assert not leaves_open(replace(way, banks=(way.banks[own], way.banks[own])), corner)
    middle: Boxes = (_box(70, 30, 130, 68),)
    assert not leaves_open(along, middle)
    assert not leaves_open(across, middle)


def _with_crossing(room: Room) -> Room:
    more = (Opening("east", "e1", inches(30), inches(40)), Opening("west", "e3", inches(30), inches(40)))
    crossing = Route("across", "west", "east", inches(36))
    return replace(room, openings=(*room.openings, *more), routes=(*room.routes, crossing))


def _box(x0: float, y0: float, x1: float, y1: float) -> tuple[int, int, int, int]:
    low, high = (inches(x0).units, inches(y0).units), (inches(x1).units, inches(y1).units)
    return (*low, *high)


def test_left_and_right_are_those_of_one_who_walks_in() -> None:
    """From the door in the lower edge, the wall at x = 200 is on the right."""
    room = RouteCase("", {}).room(36)
    left, right = banks(room, room.routes[0])
    assert {point.x for point in left.points} == {inches(0), inches(80)}
    assert {point.x for point in right.points} == {inches(120), inches(200)}


def test_a_thing_is_of_the_bank_that_it_is_near_to() -> None:
    """A tub 30 in from the left wall is of the left bank of a route of 36 in, and of none of a route of 24 in."""
    bed = RouteCase("", {}, obstacles=(tub(30, 40, 60, 60),))
    near, free = (walkways(bed.room(asked))[0] for asked in (36, 24))
    corners = set(bed.obstacles[0].core)
    assert [[set(bar.points) == corners for bar in bank].count(True) for bank in near.banks] == [1, 0]
    assert [[set(bar.points) == corners for bar in bank].count(True) for bank in free.banks] == [0, 0]


def test_things_too_near_to_each_other_are_of_one_bank() -> None:
    """Three tubs 30 in apart from the left wall to the right one bar a route of 36 in, and none of 24 in."""
    tubs = tuple(replace(tub(x, 40, x + 26, 60), name=f"tub {x}") for x in (30, 86, 142))
    row = RouteCase("", {}, obstacles=tubs)
    assert walkways(row.room(36))[0].blocked
    assert not walkways(row.room(24))[0].blocked


def test_a_route_from_an_opening_to_itself_is_refused() -> None:
    """It has no two banks."""
    room = RouteCase("", {}, doors=(DOOR, GATE)).room(36)
    with pytest.raises(ValueError, match="`way` goes from `door` to itself"):
        banks(room, replace(room.routes[0], end="door"))


def test_a_circle_in_a_wall_stays_whole_but_beside_an_opening() -> None:
    """A whole one is a single centre; what a wall leaves of it has a hundred sides."""
    circle = Obstacle("post", (point(200, 50),), inches(9))
    whole, cut = (
        walkways(RouteCase("", {}, doors=doors, obstacles=(circle,)).room(24))[0]
        for doors in ((DOOR, GATE), (("e1", 62, 38), ("e3", 30, 40)))
    )
    assert [bar for bar in whole.banks[1] if len(bar.points) != 2] == [Bar(circle.core, inches(33))]
    assert [len(bar.points) > 100 for bar in cut.banks[0] if len(bar.points) != 2] == [True]
