"""The widest passage from gaps, and the model's banks, against moving a disc, on random rooms."""

from __future__ import annotations

from dataclasses import replace

import pytest
from open_ways import Boxes, leaves_open
from random_rooms import case, seated
from shapely import Polygon, box

from fitter.checking.room import ROUTE_DUST
from fitter.model.walkways import walkways
from rooms.clearance import lets_through, widest_passage
from rooms.lengths import UNITS_PER_INCH, Length
from rooms.room import Height

AGREE = Length.inches("0.05")
"""What the arcs of a moved disc may take from a passage."""

SPLINTER = Length.inches("1/128")
LEAST = Length.inches(6)
"""Narrower passages are not asked for."""

SAMPLE = range(60)
MANY = range(1000, 3000, 100)


def _wrong_width(seed: int) -> str | None:
    """What is wrong with the widest passage: a disc hardly wider gets through too, or one hardly narrower does not."""
    room, furniture = case(seed).room, case(seed).furniture
    (route,) = room.routes
    width = Length(round(widest_passage(room, route, furniture).clear))
    told = f"room {seed}: {float(width.units) / UNITS_PER_INCH:.3f} in are told, and"
    if lets_through(room, route, furniture, width + AGREE):
        return f"{told} more gets through"
    if width > AGREE and not lets_through(room, route, furniture, width - AGREE):
        return f"{told} less does not get through"
    return None


def _wrong_banks(seed: int, places: int) -> list[str]:
    """Furniture of which the model's banks say something else than a disc of the route's width does."""
    room = case(seed).room
    (route,), (way,) = room.routes, walkways(room)
    found = []
    for boxes in ((), *list(seated(seed))[:places]):
        left_open = leaves_open(way, boxes)
        width = route.width - AGREE if left_open else route.width + AGREE
        if lets_through(room, route, _areas(boxes), width) != left_open:
            found.append(f"room {seed}, {boxes}: the banks say {'open' if left_open else 'barred'}")
    return found


def _wrong_limit(seed: int, places: int) -> list[str]:
    """Furniture past which the model's banks take a route hardly narrower or wider than the gaps leave for the other.

    The checker moves the disc, so that it must let through what the banks leave open.
    """
    room, found = case(seed).room, []
    for boxes in ((), *list(seated(seed))[:places]):
        clear = round(widest_passage(room, room.routes[0], _areas(boxes)).clear)
        for width in (Length(max(1, clear)) + step for step in (-SPLINTER, SPLINTER) if clear > LEAST.units):
            route = replace(room.routes[0], width=width)
            asked = replace(room, routes=(route,))
            # A route of another width has other ends, and they may leave another passage.
            over = widest_passage(asked, route, _areas(boxes)).clear - width.units
            left_open = leaves_open(walkways(asked)[0], boxes)
            told = f"room {seed}, {boxes}: {over:+.1f} units at {width.units}, the banks say"
            if abs(over) > SPLINTER.units / 2 and left_open != (over > 0):
                found.append(f"{told} {'open' if left_open else 'barred'}")
            if left_open and not lets_through(asked, route, _areas(boxes), width - ROUTE_DUST):
                found.append(f"{told} open, the disc does not")
    return found


def _areas(boxes: Boxes) -> tuple[Polygon, ...]:
    return tuple(box(*each) for each in boxes)


def test_gaps_and_disc_agree_on_some_rooms() -> None:
    """A sample for every day."""
    assert [wrong for seed in SAMPLE if (wrong := _wrong_width(seed))] == []


def test_banks_and_disc_agree_on_some_rooms() -> None:
    """A sample for every day, with no furniture and in two places each."""
    assert [wrong for seed in SAMPLE for wrong in _wrong_banks(seed, 2)] == []


def test_banks_are_as_sharp_as_gaps_in_some_rooms() -> None:
    """A sample for every day, with no furniture and in two places each."""
    assert [wrong for seed in SAMPLE for wrong in _wrong_limit(seed, 2)] == []


@pytest.mark.sweep
@pytest.mark.parametrize("first", MANY)
def test_gaps_and_disc_agree_on_many_rooms(first: int) -> None:
    """Two thousand rooms that the sample does not hold."""
    assert [wrong for seed in range(first, first + 100) if (wrong := _wrong_width(seed))] == []


@pytest.mark.sweep
@pytest.mark.parametrize("first", MANY)
def test_banks_and_disc_agree_on_many_rooms(first: int) -> None:
    """The same rooms, with furniture that stands where a layout may."""
    assert [wrong for seed in range(first, first + 100) for wrong in _wrong_banks(seed, 2)] == []


@pytest.mark.sweep
@pytest.mark.parametrize("first", MANY)
def test_banks_are_as_sharp_as_gaps_in_many_rooms(first: int) -> None:
    """The same rooms once more, at the width where open turns to barred."""
    assert [wrong for seed in range(first, first + 100) for wrong in _wrong_limit(seed, 1)] == []


def test_random_rooms_are_of_every_sort() -> None:
    """The sample holds what routes are hard at."""
    rooms = [case(seed).room for seed in SAMPLE]
    obstacles = [obstacle for room in rooms for obstacle in room.obstacles]
    assert {obstacle.height for obstacle in obstacles} == set(Height)
    assert any(obstacle.hole for obstacle in obstacles)
    assert any(obstacle.radius for obstacle in obstacles)
    assert any(not room.edges[0].forward for room in rooms)
    assert {len(case(seed).furniture) for seed in SAMPLE} == {0, 1, 2}
    doors = [room.openings for room in rooms]
    assert any(a.edge == b.edge for a, b in doors)
    assert any(not opening.offset for pair in doors for opening in pair)
    assert any(set(room.jambs(a)) & set(room.jambs(b)) for room, (a, b) in zip(rooms, doors, strict=True))
    assert any(room.jambs(opening)[0] == room.edge(opening.edge).start for room in rooms for opening in room.openings)
    widths = [widest_passage(found.room, found.route, found.furniture).clear for found in map(case, SAMPLE)]
    assert min(widths) == 0
    assert max(widths) > 30 * UNITS_PER_INCH
    assert {walkways(room)[0].blocked for room in rooms} == {True, False}
