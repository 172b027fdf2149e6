"""Benchmarks that a layout keeps or misses by a mark; every distance is plain arithmetic from the yard.

The yard: three squares along AB, their fronts at y = 29 1/4, their outer faces at x = 18 1/2 and 94 1/4, the panel
behind them at y = 1 1/2; the tape is good to 1/4 in.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import pytest
from hand_built import INSIDE
from yards import Number, Yard, inch, straight, u

from fitter.checking import route_widths
from fitter.checking.clearances import clearances
from fitter.domain.benchmarks import Topic
from fitter.domain.findings import Finding, Severity
from rooms.lengths import ZERO, Length
from rooms.room import Edge, EdgeKind, Height, Obstacle, Opening, Point, Room, Route

WALL, RAILING, OPEN, STEP = EdgeKind.WALL, EdgeKind.RAILING, EdgeKind.OPEN, EdgeKind.STEP
NAMES = ("AB", "BC", "CD", "DA")
MARK = inch("1/16")


def spot(x: Number, y: Number) -> Point:
    return Point(inch(x), inch(y))


def rectangle(
    wide: Number,
    deep: Number,
    kinds: Mapping[str, EdgeKind],
    *,
    drops: Mapping[str, Number] = {},
    railings: Mapping[str, Number] = {},
) -> Room:
    """A rectangle without anything in it, open where nothing else is said."""
    points = [spot(0, 0), spot(wide, 0), spot(wide, deep), spot(0, deep)]
    edges = tuple(
        Edge(
            name,
            kinds.get(name, OPEN),
            points[n],
            points[(n + 1) % 4],
            drop=inch(drops[name]) if name in drops else None,
            railing=inch(railings[name]) if name in railings else None,
        )
        for n, name in enumerate(NAMES)
    )
    return Room(tuple(zip("ABCD", points, strict=True)), edges, tolerance=inch("1/4"))


def in_room(yard: Yard, room: Room, *strict: Topic) -> tuple[Finding, ...]:
    """What is said of the yard's layout in another room."""
    asked = replace(yard.project, room=room, wish=replace(yard.project.wish, strict=strict))
    layout = replace(yard.layout, routes=route_widths(asked, yard.layout))
    return clearances(asked, layout)


def codes(findings: tuple[Finding, ...]) -> list[str]:
    return [finding.code for finding in findings]


def test_seats_of_the_yard_in_the_open_miss_nothing() -> None:
    assert in_room(straight(), rectangle(220, 150, {"AB": WALL})) == ()


def test_a_seat_a_mark_too_near_to_a_railing_is_climbed_from() -> None:
    """From the outer face of the end at 94 1/4 to BC less 1/4 of tolerance: 36 in are enough."""
    far = rectangle("130.5", 150, {"AB": WALL, "BC": RAILING})
    assert codes(in_room(straight(), far)) == []
    (found,) = in_room(straight(), rectangle(inch("261/2").inch - MARK.inch, 150, {"AB": WALL, "BC": RAILING}))
    assert (found.code, found.severity, found.key) == ("seat-near-railing", Severity.CAUTION, "room.edges.BC")
    assert "2' 11 15/16\" to railing BC" in found.message
    # The seat is 17 in high.
    assert "4' 5\" above the floor" in found.help


def test_the_back_counts_too() -> None:
    (found,) = in_room(straight(), rectangle(220, 150, {"AB": RAILING}))
    assert 'come as near as 1 1/4" to railing AB' in found.message


@pytest.mark.parametrize(
    ("drop", "height", "missed"),
    [
        (None, "53", False),
        (None, "847/16", True),
        ("48", "53", False),
        ("48", "847/16", True),
        ("30", None, False),
        ("481/16", None, True),
        ("30", "10", False),
    ],
)
def test_a_railing_is_high_enough_above_the_seat_or_the_drop_is_small(
    drop: str | None, height: str | None, missed: bool
) -> None:
    """36 in above a seat of 17; no more than 30 in of drop."""
    room = rectangle(
        100,
        150,
        {"AB": WALL, "BC": RAILING},
        drops={"BC": drop} if drop else {},
        railings={"BC": height} if height else {},
    )
    assert codes(in_room(straight(), room)) == ["seat-near-railing"] * missed


def test_a_railing_that_is_told_says_how_much_of_it_is_left_above_the_seat() -> None:
    room = rectangle(100, 150, {"AB": WALL, "BC": RAILING}, drops={"BC": 60}, railings={"BC": 42})
    (found,) = in_room(straight(), room)
    assert "it ends 2' 1\" above the seat" in found.message
    assert found.key == "room.railings.BC"


@pytest.mark.parametrize(("height", "found"), [("36", []), ("575/16", ["guard-low"])])
def test_a_guard_is_36_in_high_above_a_drop(height: str, found: list[str]) -> None:
    room = rectangle(220, 150, {"AB": WALL, "BC": RAILING}, drops={"BC": "481/16"}, railings={"BC": height})
    assert codes(in_room(straight(), room)) == found


@pytest.mark.parametrize(("drop", "found"), [("30", []), ("481/16", ["guard-missing"])])
def test_a_drop_of_more_than_30_in_asks_for_a_guard(drop: str, found: list[str]) -> None:
    assert codes(in_room(straight(), rectangle(220, 150, {"AB": WALL}, drops={"BC": drop}))) == found


@pytest.mark.parametrize(
    ("kind", "deep", "drop", "found"),
    [
        (STEP, "65.5", None, []),
        (STEP, "65.4375", None, ["step-before-seats"]),
        (OPEN, "65.4375", None, []),
        (OPEN, "65.4375", 7, ["step-before-seats"]),
        (WALL, "65.4375", None, []),
    ],
)
def test_a_step_36_in_before_the_seats(kind: EdgeKind, deep: str, drop: Number | None, found: list[str]) -> None:
    """Fronts at 29 1/4, 36 in, and 1/4 of tolerance: CD at 65 1/2 is far enough."""
    room = rectangle(220, deep, {"AB": WALL, "CD": kind}, drops={} if drop is None else {"CD": drop})
    said = in_room(straight(), room)
    assert codes(said) == found
    assert all("2' 11 15/16\" before the seats of the main run" in each.message for each in said)


def test_a_step_beside_the_seats_is_not_before_them() -> None:
    assert codes(in_room(straight(), rectangle(95, 150, {"AB": WALL, "BC": STEP}))) == []


def test_seats_on_the_landing_of_a_door() -> None:
    """The door in BC is beside the right face at 94 1/4, from y = 20 to 50: the seats reach into its ground."""
    for wide, found in (("130.5", []), ("130.4375", ["seats-on-landing"])):
        room = rectangle(wide, 150, {"AB": WALL, "BC": WALL})
        door = Opening("kitchen", "BC", inch(20), inch(30))
        said = in_room(straight(), replace(room, openings=(door,)))
        assert codes(said) == found
        assert all("leave 2' 11 15/16\" of ground before `kitchen`" in each.message for each in said)


def test_a_door_past_the_seats_or_a_gate_in_a_fence_has_no_landing_on_them() -> None:
    room = rectangle(100, 150, {"AB": WALL, "BC": WALL})
    past = Opening("kitchen", "BC", inch("29.25"), inch(30))
    assert codes(in_room(straight(), replace(room, openings=(past,)))) == []
    fence = rectangle(100, 150, {"AB": WALL})
    gate = Opening("gate", "BC", inch(20), inch(30))
    assert codes(in_room(straight(), replace(fence, openings=(gate,)))) == []


@pytest.mark.parametrize(("y", "found"), [("209.5", []), ("209.4375", ["flame-near-seats"])])
def test_an_open_flame_15_ft_from_the_seats(y: str, found: list[str]) -> None:
    """Fronts at 29 1/4, 180 in, and 1/4 of tolerance; its ground is said to be 30 in."""
    bowl = Obstacle("bowl", (spot(50, y), spot(60, y), spot(60, 230), spot(50, 230)), clear=inch(30), open_flame=True)
    said = in_room(straight(), replace(rectangle(220, 300, {"AB": WALL}), obstacles=(bowl,)))
    assert codes(said) == found
    assert all("as near as 14' 11 15/16\"" in each.message for each in said)


@pytest.mark.parametrize(("x", "found"), [("134.5", []), ("134.4375", ["reach-narrow"])])
def test_a_clear_floor_of_30_in_before_a_thing_to_reach(x: str, found: list[str]) -> None:
    """A round post of 10 in radius; the outer face at 94 1/4, and 1/4 of tolerance."""
    tap = Obstacle("tap", (spot(x, 20),), inch(10), inch(5), height=Height.REACH)
    assert codes(in_room(straight(), replace(rectangle(220, 150, {"AB": WALL}), obstacles=(tap,)))) == found
    full = replace(tap, height=Height.FULL)
    assert codes(in_room(straight(), replace(rectangle(220, 150, {"AB": WALL}), obstacles=(full,)))) == []


@pytest.mark.parametrize(("deep", "found"), [("89.5", []), ("89.4375", ["dead-end"])])
def test_a_room_with_one_way_in_has_a_circle_of_60_in(deep: str, found: list[str]) -> None:
    """Past the fronts at 29 1/4 lie 60 in and 1/4 of tolerance; to the left of the seats there is less."""
    room = rectangle("94.5", deep, dict.fromkeys(NAMES, WALL))
    door = Opening("door", "DA", inch(10), inch(36))
    said = in_room(straight(), replace(room, openings=(door,)))
    assert [code for code in codes(said) if code == "dead-end"] == found
    assert all("5' 0\" let a wheelchair turn" in each.message for each in said if each.code == "dead-end")


def test_two_ways_in_or_an_open_edge_are_no_dead_end() -> None:
    door, gate = Opening("door", "DA", inch(10), inch(36)), Opening("gate", "DA", inch(46), inch(20))
    closed = rectangle("94.5", 80, dict.fromkeys(NAMES, WALL))
    assert "dead-end" in codes(in_room(straight(), replace(closed, openings=(door,))))
    assert "dead-end" not in codes(in_room(straight(), replace(closed, openings=(door, gate))))
    aside = rectangle("94.5", 80, {**dict.fromkeys(NAMES, WALL), "CD": OPEN})
    assert "dead-end" not in codes(in_room(straight(), replace(aside, openings=(door,))))
    # Nobody leaves over a step on wheels.
    over = rectangle("94.5", 80, {**dict.fromkeys(NAMES, WALL), "CD": STEP})
    assert "dead-end" in codes(in_room(straight(), replace(over, openings=(door,))))


def test_a_way_in_that_the_room_itself_bars_is_not_judged() -> None:
    door = Opening("door", "DA", inch(10), inch(36))
    box = Obstacle("box", (spot(0, 5), spot(10, 5), spot(10, 60), spot(0, 60)))
    closed = rectangle("94.5", 80, dict.fromkeys(NAMES, WALL))
    assert "dead-end" not in codes(in_room(straight(), replace(closed, openings=(door,), obstacles=(box,))))


def test_between_the_arms_of_a_u() -> None:
    """Three squares of 24 1/4 leave 72 3/4 in between the arms, two leave 48 1/2."""
    yard = u(INSIDE)
    wide = {arm.side: arm for arm in yard.layout.runs}
    inside = yard.layout.runs[0].deck.x1 - yard.layout.runs[0].deck.x0
    said = in_room(yard, rectangle(300, 300, {"AB": WALL}))
    assert len(wide) == 3
    assert codes(said) == ["dead-end-in-u"] * (inside < inch(60))


def passing(wide: Number, *obstacles: Obstacle, deep: Number = 150) -> Room:
    """A room with a route from DA to BC, both wide, past the fronts."""
    room = rectangle(wide, deep, {"AB": WALL, "CD": WALL})
    ways = (Opening("gate", "DA", ZERO, inch(deep)), Opening("stairs", "BC", ZERO, inch(deep)))
    return replace(room, openings=ways, obstacles=obstacles, routes=(Route("way", "gate", "stairs", inch(32)),))


def between(gap: Number) -> Room:
    """The fronts, a gap past the tolerance, and the wall CD."""
    deep = inch("29.25") + inch(gap) + inch("0.25")
    return passing(220, deep=deep.inch)


def tub(gap: Number, long: Number) -> Obstacle:
    """A box as far before the fronts, past the tolerance, as long as that, up to the wall."""
    low, right = inch("29.25") + inch(gap) + inch("0.25"), 50 + inch(long).inch
    return Obstacle("tub", (spot(50, low.inch), spot(right, low.inch), spot(right, 150), spot(50, 150)))


@pytest.mark.parametrize(
    ("gap", "long", "found"),
    [
        ("36", 30, []),
        ("35.9375", 20, ["route-pinch"]),
        ("34", "23.5", ["route-pinch"]),
        ("34", "23.5625", ["route-pinch-long"]),
        ("32", "23.5", ["route-pinch"]),
        ("31.9375", "23.5", ["route-narrow-past-seats"]),
    ],
)
def test_a_route_may_be_pinched_to_32_in_for_24_in(gap: str, long: str, found: list[str]) -> None:
    """The tub is longer by the tolerance at both ends: 23 1/2 in count as 24."""
    said = in_room(straight(), passing(220, tub(gap, long)))
    assert codes(said) == found
    for each in said:
        assert each.severity is (Severity.NOTE if each.code == "route-pinch" else Severity.CAUTION)
        assert each.key == "room.routes.0.width"
        assert "403.5.1" in each.source


def test_a_pinch_is_told_with_its_width_its_length_and_its_place() -> None:
    (found,) = in_room(straight(), passing(220, tub("33.5", 20)))
    told = "is 2' 9 1/2\" wide for 1' 8 1/2\" between"
    assert told in found.message
    assert "`tub`" in found.message
    assert "the seats" in found.message
    assert "3' 0\" elsewhere" in found.message


def test_a_way_that_is_narrow_as_long_as_the_seats_are() -> None:
    """From outer face to outer face 75 3/4 in."""
    (found,) = in_room(straight(), between(34))
    assert found.code == "route-pinch-long"
    assert "narrower than 3' 0\" for 6' 3 3/4\"" in found.message
    assert "between edge CD and the seats" in found.message or "between the seats and edge CD" in found.message


def test_two_pinches_that_are_near_to_each_other_are_one() -> None:
    """Two tubs 10 in long (10 1/2 with the tolerance); 48 in between them are enough."""
    for gap, found in ((48, ["route-pinch"]), ("767/16", ["route-pinch-long"])):
        low = inch("29.25") + inch("34.25")
        # The seats make the one side, so that both tubs stand before them: the second one before their end.
        first, second = inch("20.25"), inch("20.25") + inch("10.25") + inch(gap) + inch("0.25")
        tubs = [
            Obstacle(
                name,
                tuple(
                    spot(x.inch, y)
                    for x, y in ((left, low.inch), (left + inch(10), low.inch), (left + inch(10), 150), (left, 150))
                ),
            )
            for name, left in (("one", first), ("two", second))
        ]
        assert codes(in_room(straight(), passing(220, *tubs))) == found


def test_a_route_of_more_than_200_ft_has_places_to_pass() -> None:
    far = Length.inches(200 * 12)
    for more, found in ((ZERO, []), (MARK, ["route-passing"])):
        room = passing((far + more).inch, tub("40", 20))
        assert codes(in_room(straight(), room)) == found
    # Where it is 60 in wide throughout, two can pass anywhere.
    assert codes(in_room(straight(), passing((far + MARK).inch))) == []


def test_what_is_strict_is_an_error_and_nothing_else_is() -> None:
    room = rectangle(100, 150, {"AB": WALL, "BC": RAILING}, drops={"BC": 60, "CD": 60})
    tap = Obstacle("tap", (spot(50, 50),), inch(2), inch(5), height=Height.REACH)
    said = in_room(straight(), replace(room, obstacles=(tap,)), Topic.GUARDS)
    assert [(each.code, str(each.severity)) for each in said] == [
        ("seat-near-railing", "error"),
        ("guard-missing", "error"),
        ("reach-narrow", "caution"),
    ]


def test_a_pinch_that_is_allowed_fails_no_check() -> None:
    (found,) = in_room(straight(), passing(220, tub("33.5", 20)), *Topic)
    assert found.severity is Severity.NOTE
