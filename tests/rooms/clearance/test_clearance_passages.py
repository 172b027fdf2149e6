"""Chains and passages in rooms that one can measure in the head."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import pytest
from route_cases import CASES
from shapely import Polygon, box

from rooms.clearance import chains, lets_through, widest_by_erosion, widest_passage
from rooms.lengths import UNITS_PER_INCH, ZERO, Length
from rooms.room import Edge, EdgeKind, Obstacle, Opening, Point, Room, Route

INCH = UNITS_PER_INCH
BOX = ((0, 0), (200, 0), (200, 100), (0, 100))
DOOR, GATE = ("e0", 80, 40), ("e2", 80, 40)
NAMES = ("door", "gate")


def _room(
    ring: Sequence[tuple[float, float]] = BOX,
    doors: Sequence[tuple[str, float, float]] = (DOOR, GATE),
    obstacles: tuple[Obstacle, ...] = (),
    tolerance: str = "0",
) -> Room:
    points = [_point(x, y) for x, y in ring]
    edges = tuple(
        Edge(f"e{n}", EdgeKind.WALL, a, b)
        for n, (a, b) in enumerate(zip(points, [*points[1:], points[0]], strict=True))
    )
    openings = tuple(
        Opening(name, edge, Length.inches(str(at)), Length.inches(str(wide)))
        for name, (edge, at, wide) in zip(NAMES, doors, strict=True)
    )
    return Room((), edges, openings, obstacles, (), Length.inches(tolerance))


def _point(x: float, y: float) -> Point:
    return Point(Length.inches(str(x)), Length.inches(str(y)))


def _route(width: int = 36) -> Route:
    return Route("way", "door", "gate", Length.inches(width))


def _sofa(*sizes: float) -> Polygon:
    return box(*(size * INCH for size in sizes))


def _both(room: Room, furniture: Sequence[Polygon] = (), width: int = 36) -> tuple[float, float]:
    by_gaps = widest_passage(room, _route(width), furniture).clear / INCH
    return by_gaps, widest_by_erosion(room, _route(width), furniture) / INCH


def test_left_and_right_are_those_of_one_who_walks_in() -> None:
    """From the door in the lower edge, the wall at x = 200 is on the right."""
    ways = chains(_room(), _route())
    assert [wall.edge for wall in ways.right] == ["e0", "e1", "e2"]
    assert [wall.edge for wall in ways.left] == ["e2", "e3", "e0"]
    assert ways.start == ((80 * INCH, 0.0), (120 * INCH, 0.0))


def test_a_narrow_opening_is_widened_to_both_sides() -> None:
    """30 in for a route of 36 in with 1/4 in of tolerance: 3 1/4 in more on each side."""
    room = _room(doors=(("e0", 80, 30), GATE), tolerance="1/4")
    start = chains(room, _route()).start
    assert start == (pytest.approx((76.75 * INCH, 0)), pytest.approx((113.25 * INCH, 0)))
    assert widest_passage(room, _route(), ()).door == Length.inches(30)
    assert _both(room) == (pytest.approx(36, abs=1e-6), pytest.approx(36, abs=0.05))


def test_an_opening_in_a_corner_is_widened_round_it() -> None:
    """The straight way across is as wide as the route, though the corner is cut."""
    start = chains(_room(doors=(("e0", 0, 30), GATE)), _route()).start
    assert len(start) == 3
    (x0, y0), corner, (x1, y1) = start
    assert (x0, corner, y1) == (0, (0, 0), 0)
    assert ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5 == pytest.approx(36 * INCH)
    assert _both(_room(doors=(("e0", 0, 30), GATE))) == (pytest.approx(36), pytest.approx(36, abs=0.05))


def test_a_door_that_ends_a_narrow_corridor_does_not_hide_it() -> None:
    """The corridor of 30 in is the finding, not the door of 30 in at its end."""
    ring = ((0, 0), (30, 0), (30, 90), (200, 90), (200, 200), (0, 200))
    room = _room(ring, (("e0", 0, 30), ("e4", 20, 60)))
    passage = widest_passage(room, _route(), ())
    assert passage.clear == pytest.approx(30 * INCH)
    assert set(passage.names) == {"e1", "e5"}
    assert _both(room)[1] == pytest.approx(30, abs=0.05)


def test_two_openings_side_by_side_leave_a_point_between_them() -> None:
    """4 in of wall between them are not enough to widen both; what remains is a post."""
    room = _room(doors=(("e0", 60, 30), ("e0", 94, 30)))
    ways = chains(room, _route())
    assert len(ways.right) == 1
    assert ways.right[0].start == pytest.approx(ways.right[0].end)
    assert ways.right[0].start == pytest.approx((92 * INCH, 0))
    gaps, disc = _both(room)
    assert gaps == pytest.approx(36)
    assert disc == pytest.approx(36, abs=0.05)


@pytest.mark.parametrize(
    ("furniture", "tolerance", "clear", "names"),
    [
        ((), "0", 40, {"e2"}),
        ((_sofa(0, 40, 170, 70),), "0", 30, {"e1", "furniture"}),
        ((_sofa(0, 40, 170, 70),), "1/2", 29.5, {"e1", "furniture"}),
        ((_sofa(0, 40, 90, 70), _sofa(90, 40, 170, 70)), "1/2", 29.5, {"e1", "furniture"}),
        ((_sofa(20, 40, 170, 70),), "0", 30, {"e1", "furniture"}),
        ((_sofa(0, 40, 200, 70),), "0", 0, {"e1", "furniture"}),
    ],
)
def test_past_furniture(furniture: tuple[Polygon, ...], tolerance: str, clear: float, names: set[str]) -> None:
    """Between furniture and a wall the tolerance is lost once, and the wider way round counts."""
    room = _room(tolerance=tolerance)
    passage = widest_passage(room, _route(), furniture)
    assert passage.clear / INCH == pytest.approx(clear)
    assert names <= set(passage.names) or clear == 0
    assert _both(room, furniture)[1] == pytest.approx(clear, abs=0.05)


def test_past_a_round_obstacle_the_tolerance_is_lost_twice() -> None:
    """A bowl of 12 in radius with its middle 40 in from either wall: 28 in less twice 1/4 in."""
    ring = ((0, 0), (80, 0), (80, 200), (0, 200))
    bowl = Obstacle("bowl", (_point(40, 100),), Length.inches(12))
    room = _room(ring, (("e0", 20, 40), ("e2", 20, 40)), (bowl,), "1/4")
    passage = widest_passage(room, _route(), ())
    assert passage.clear / INCH == pytest.approx(27.5)
    assert "bowl" in passage.names
    assert sorted(round(x / INCH, 6) for x, _ in passage.points) in ([0, 28], [52, 80])
    assert _both(room)[1] == pytest.approx(27.5, abs=0.05)


def test_between_two_round_things_a_gap_goes_from_face_to_face() -> None:
    """Bowls of 10 and 15 in radius, their middles 60 in apart along a slope of 4 in 3: 35 in are left as taped.

    From (34, 26) + 10 along (0.6, 0.8) to (70, 74) - 15 along the same; the walls leave less beside them.
    """
    ring = ((0, 0), (104, 0), (104, 100), (0, 100))
    bowls = (
        Obstacle("small", (_point(34, 26),), Length.inches(10)),
        Obstacle("large", (_point(70, 74),), Length.inches(15)),
    )
    room = _room(ring, (("e1", 5, 40), ("e3", 5, 40)), bowls, "1/8")
    passage = widest_passage(room, _route(), ())
    assert passage.clear / INCH == pytest.approx(35 - 2 * 0.125)
    by_name = dict(zip(passage.names, passage.points, strict=True))
    assert by_name["small"] == pytest.approx((40 * INCH, 34 * INCH))
    assert by_name["large"] == pytest.approx((61 * INCH, 62 * INCH))


def test_where_a_round_thing_laps_over_furniture_the_gap_is_one_spot() -> None:
    """Bowls of 20 in radius touch both walls, and 1/2 in of a bench between them lies within either."""
    bowls = tuple(Obstacle(f"bowl {y}", (_point(100, y),), Length.inches(20)) for y in (20, 80))
    room = _room(BOX, (("e1", 30, 40), ("e3", 30, 40)), bowls, "1")
    passage = widest_passage(room, _route(), (_sofa(90, 39.5, 110, 60.5),))
    assert passage.clear == 0
    assert "furniture" in passage.names
    start, end = passage.points
    assert start == pytest.approx(end)
    assert start[1] / INCH == pytest.approx(39.5) or start[1] / INCH == pytest.approx(60.5)


def test_between_two_obstacles() -> None:
    """Two tubs that stand at the walls and leave 25 in at a slant: 15 along and 20 across."""
    low = tuple(_point(x, y) for x, y in ((0, 40), (90, 40), (90, 45), (0, 45)))
    high = tuple(_point(x, y) for x, y in ((105, 65), (200, 65), (200, 70), (105, 70)))
    room = _room(obstacles=(Obstacle("low", low), Obstacle("high", high)), tolerance="1/8")
    passage = widest_passage(room, _route(), ())
    assert passage.clear / INCH == pytest.approx(24.75)
    assert set(passage.names) == {"low", "high"}
    assert _both(room)[1] == pytest.approx(24.75, abs=0.05)


def test_two_flanks_of_a_thin_wall_are_no_gap() -> None:
    """A wall of 2 in stands into the room between door and gate; the way leads round its end."""
    ring = ((0, 0), (99, 0), (99, 60), (101, 60), (101, 0), (200, 0), (200, 100), (0, 100))
    room = _room(ring, (("e0", 30, 40), ("e4", 30, 40)))
    gaps, disc = _both(room)
    assert gaps == pytest.approx(40)
    assert disc == pytest.approx(40, abs=0.05)


def test_a_door_in_a_thin_wall_does_not_see_what_lies_behind_the_wall() -> None:
    """Behind the wall with the door a niche of 5 in follows; it does not narrow the door."""
    ring = ((0, 0), (90, 0), (90, 90), (92, 90), (92, 0), (97, 0), (97, 200), (0, 200))
    room = _room(ring, (("e1", 20, 50), ("e7", 20, 50)))
    gaps, disc = _both(room)
    assert gaps == pytest.approx(50)
    assert disc == pytest.approx(50, abs=0.05)


@pytest.mark.parametrize("name", CASES)
def test_special_cases(name: str) -> None:
    """Each case of `route_cases` tells what goes wrong without its treatment."""
    found = CASES[name]
    for asked, clear in found.clear.items():
        room = found.room(asked)
        assert widest_passage(room, room.routes[0], found.furniture).clear / INCH == pytest.approx(clear, abs=1e-3)
        assert widest_by_erosion(room, room.routes[0], found.furniture) / INCH == pytest.approx(clear, abs=0.05)


@pytest.mark.parametrize("kind", list(EdgeKind))
def test_whatever_stands_along_an_edge_ends_the_room(kind: EdgeKind) -> None:
    """A door on a step, and a route along one, are no different: nobody is led over the brink of it."""
    found = CASES["two openings that meet in a corner"]
    room = found.room(36, kind)
    assert widest_passage(room, room.routes[0], found.furniture).clear / INCH == pytest.approx(found.clear[36])


def test_a_route_from_an_opening_to_itself_is_refused() -> None:
    """It has no two walls beside it."""
    with pytest.raises(ValueError, match="`way` goes from `door` to itself"):
        chains(_room(), replace(_route(), end="door"))


def test_lets_through_agrees_with_the_width() -> None:
    """A hair less passes, a hair more does not."""
    room, sofa = _room(tolerance="1/2"), (_sofa(0, 40, 170, 70),)
    assert lets_through(room, _route(), sofa, Length.inches("29.48"))
    assert not lets_through(room, _route(), sofa, Length.inches("29.52"))
    assert lets_through(room, _route(), sofa, ZERO)
