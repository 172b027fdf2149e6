"""Where routes are narrow, and over what length, in rooms that one can measure in the head."""

from __future__ import annotations

from collections.abc import Sequence
from math import acos, sin

import pytest
from route_cases import Ring, inches, point, walls
from shapely import Polygon, box

from rooms.clearance import NarrowPlace, lets_through, narrow_places
from rooms.lengths import UNITS_PER_INCH, Length
from rooms.room import Height, Obstacle, Opening, Room, Route

HALL: Ring = ((0, 0), (200, 0), (200, 100), (0, 100))
ROUTE = Route("way", "door", "gate", inches(32))
FINE = 0.02
"""Inches: pieces of a side are measured by their middles."""

ROUND = 0.15
"""The same at an arc, whose last piece is narrow as a whole or not at all."""

Boxes = Sequence[tuple[float, float, float, float]]


def hall(
    *things: Obstacle, ring: Ring = HALL, tolerance: str = "0", low: tuple[str, float, float] = ("e3", 30, 40)
) -> Room:
    """A room with a door in its left wall and a gate in its right one."""
    gate = ("e1", 30.0, 40.0) if ring == HALL else ("e2", 0.0, 34.0)
    doors = (low if ring == HALL else ("e5", 0.0, 34.0), gate)
    openings = tuple(
        Opening(name, edge, inches(at), inches(wide))
        for name, (edge, at, wide) in zip(("door", "gate"), doors, strict=True)
    )
    return Room((), walls(ring), openings, things, (), Length.inches(tolerance))


def areas(boxes: Boxes) -> list[Polygon]:
    return [box(*(side * UNITS_PER_INCH for side in each)) for each in boxes]


def found(room: Room, boxes: Boxes = (), *, full: float = 36, least: float = 32) -> tuple[NarrowPlace, ...] | None:
    return narrow_places(room, ROUTE, areas(boxes), full=inches(full), least=inches(least), apart=inches(48))


def measured(room: Room, boxes: Boxes = (), *, full: float = 36, least: float = 32) -> list[tuple[float, float]]:
    """Width and length of each place, in inches."""
    places = found(room, boxes, full=full, least=least)
    assert places is not None
    return [(place.clear / UNITS_PER_INCH, place.length / UNITS_PER_INCH) for place in places]


def test_a_wide_way_has_none() -> None:
    assert found(hall()) == ()
    assert found(hall(), [(80, 36, 120, 100)]) == ()


@pytest.mark.parametrize(("gap", "long"), [(34, 24), (35.9375, 40), (32, 5), (33, 70)])
def test_a_box_beside_a_wall_makes_a_place_as_long_as_itself(gap: float, long: float) -> None:
    """One who is near its corner is near the wall a little longer, which does not count."""
    assert measured(hall(), [(80, gap, 80 + long, 100)]) == [pytest.approx((gap, long), abs=FINE)]


def test_the_tolerance_of_the_wall_comes_off() -> None:
    assert measured(hall(tolerance="1/2"), [(80, 34.5, 104, 100)]) == [pytest.approx((34, 24), abs=FINE)]


@pytest.mark.parametrize(("gap", "radius"), [(35, 16), (34, 16), (34, 8), (33, 40)])
def test_a_round_thing_beside_a_wall(gap: float, radius: float) -> None:
    """Narrow where radius · (1 - cos) is less than what is missing: between ±angle, a chord of 2 · radius · sin."""
    angle = acos(1 - (36 - gap) / radius)
    pot = Obstacle("pot", (point(100, gap + radius),), inches(radius))
    (place,) = measured(hall(pot), [(60, gap + 2 * radius, 140, 120)])
    assert place == pytest.approx((gap, 2 * radius * sin(angle)), abs=ROUND)


def test_a_bend_is_counted_along_its_inner_side() -> None:
    """A passage of 34 in turns a corner: 66 in before it and 66 after, less 2 at each door, which count as 36 wide."""
    bend: Ring = ((0, 0), (100, 0), (100, 100), (66, 100), (66, 34), (0, 34))
    assert measured(hall(ring=bend)) == [pytest.approx((34, 128), abs=FINE)]


def test_between_two_posts_that_are_as_good_as_points() -> None:
    posts = [Obstacle(name, (point(100, y),), inches(1)) for name, y in (("low", 31), ("high", 66))]
    bars = [
        Obstacle(name, tuple(point(x, y) for x, y in ((99, a), (101, a), (101, b), (99, b))))
        for name, a, b in (("lower", 0, 30), ("upper", 67, 100))
    ]
    ((clear, length),) = measured(hall(*posts, *bars))
    assert clear == pytest.approx(33, abs=FINE)
    # As long as the posts are thick, and no longer.
    assert length <= 2 + FINE


def test_what_stands_free_is_passed_on_the_side_with_the_shorter_place() -> None:
    """Below the tub 33 1/2 in for 60, above it 33 past a nib of 12: the wider way has the longer pinch."""
    tub = Obstacle("tub", tuple(point(*spot) for spot in ((60, 33.5), (120, 33.5), (120, 60), (60, 60))))
    ((clear, length),) = measured(hall(tub), [(84, 93, 96, 100)])
    assert (clear, length) == pytest.approx((33, 12), abs=FINE)
    # Where that side is no way at all, the other one is taken.
    ((clear, length),) = measured(hall(tub), [(84, 80, 96, 100)])
    assert (clear, length) == pytest.approx((33.5, 60), abs=FINE)


def test_no_way_of_the_least_width() -> None:
    assert found(hall(), [(80, 31.9, 104, 100)]) is None
    assert found(hall(), [(80, 0, 104, 100)]) is None


@pytest.mark.parametrize(("between", "places"), [(48, [10, 10]), (47.9, [67.9]), (5, [25])])
def test_places_that_are_near_to_each_other_are_one(between: float, places: list[float]) -> None:
    boxes = [(40, 34, 50, 100), (50 + between, 34, 60 + between, 100), (40, 90, 60 + between, 100)]
    assert [length for _, length in measured(hall(), boxes)] == [pytest.approx(each, abs=2 * FINE) for each in places]


def test_what_leaves_the_least_width_is_named() -> None:
    pot = Obstacle("pot", (point(100, 49),), inches(16))
    places = found(hall(pot), [(80, 99, 120, 100)])
    assert places is not None
    assert [sorted(place.names) for place in places] == [["furniture", "pot"]]


def test_a_low_thing_narrows_nothing() -> None:
    drain = Obstacle("drain", (point(100, 50),), inches(40), height=Height.LOW)
    assert found(hall(drain)) == ()


@pytest.mark.parametrize("gap", [32.5, 34, 35.9])
def test_a_disc_of_the_full_width_does_not_pass_where_a_place_is_told(gap: float) -> None:
    room, boxes = hall(), [(80.0, gap, 104.0, 100.0)]
    assert measured(room, boxes)
    wide = Route("way", "door", "gate", inches(36))
    assert not lets_through(room, wide, areas(boxes), inches(36))
    assert lets_through(room, wide, areas(boxes), inches(gap - 0.05))
