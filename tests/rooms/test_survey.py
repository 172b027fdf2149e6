"""The survey finds the outline that was taped, and says what is wrong when there is none."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from survey_cases import NAMES, Spot, in_frame, off, outlines, readings, taken

from rooms.geometry import Point
from rooms.lengths import ZERO, Length, Unit
from rooms.survey import (
    ReadingKind,
    Readings,
    Survey,
    SurveyError,
    SurveyProblem,
    adjust,
    check_ring,
    describe,
    details,
)

CLOSE = 0.02
"""Inches; what rounding readings to units and corners to units can do, with room for long thin shapes."""
RECTANGLE = {"AB": "16' 4\"", "BC": "11' 2\"", "CD": "16' 4\"", "DA": "11' 2\""}
ALL_LEFT = dict.fromkeys("ABCD", "left")
ALL_RIGHT = dict.fromkeys("ABCD", "right")
WIDE, HIGH = Length.inches(196), Length.inches(134)


def refused(found: Readings) -> tuple[SurveyProblem, ...]:
    """The problems that `adjust` raises; each of them can be told in words."""
    with pytest.raises(SurveyError) as caught:
        adjust(found)
    for problem in caught.value.problems:
        for unit in (Unit.IN, Unit.MM):
            message, help = describe(problem, unit)
            assert message
            assert help
            assert not message.endswith(".")
    return caught.value.problems


def attempted(found: Readings) -> Survey | SurveyError:
    """What `adjust` makes of readings, whichever it is."""
    try:
        return adjust(found)
    except SurveyError as error:
        return error


def codes(found: Readings) -> list[str]:
    """The codes of those problems, in order."""
    return [problem.code for problem in refused(found)]


def test_right_angles_that_close_give_exact_corners() -> None:
    """Right angles that close give exact corners."""
    survey = adjust(readings("ABCD", RECTANGLE, ALL_LEFT))
    assert survey.points == (
        ("A", Point(ZERO, ZERO)), ("B", Point(WIDE, ZERO)),
        ("C", Point(WIDE, HIGH)), ("D", Point(ZERO, HIGH)),
    )  # fmt: skip
    assert survey.anticlockwise
    assert (survey.misclosure, survey.ratio, survey.s0) == (ZERO, None, 0.0)
    assert survey.perimeter == 2 * (WIDE + HIGH)
    assert survey.redundancy == 3


def test_a_walk_to_the_right_keeps_its_direction() -> None:
    """A walk to the right keeps its direction."""
    survey = adjust(readings("ABCD", RECTANGLE, ALL_RIGHT))
    assert not survey.anticlockwise
    assert survey.point("C") == Point(WIDE, -HIGH)
    assert [r.reading for r in survey.residuals if r.kind is ReadingKind.TURN] == [90.0] * 4


@given(sizes=st.tuples(*[st.integers(24 * 8128, 480 * 8128)] * 4))
@settings(max_examples=40)
def test_an_l_of_any_units_is_exact(sizes: tuple[int, int, int, int]) -> None:
    """An l of any units is exact."""
    a, b, c, d = (Length(size) for size in sizes)
    sides = (("A", "B", a + c), ("B", "C", b + d), ("C", "D", c), ("D", "E", d), ("E", "F", a), ("F", "A", b))
    turns = tuple(
        (name, turn) for name, turn in readings("ABCDEF", {}, dict.fromkeys("ABCDF", "left") | {"E": "right"}).turns
    )
    survey = adjust(Readings(tuple("ABCDEF"), sides, turns, (), Length.inches("1/4")))
    assert [tuple(point) for _, point in survey.points] == [
        (ZERO, ZERO), (a + c, ZERO), (a + c, b + d), (a, b + d), (a, b), (ZERO, b),
    ]  # fmt: skip
    assert all(not residual.residual for residual in survey.residuals)


@pytest.mark.parametrize("side", ["AB", "BC", "CD", "DA", None])
@pytest.mark.parametrize("turn", ["A", "B", "C", "D", None])
def test_one_side_and_one_turn_may_be_missing(side: str | None, turn: str | None) -> None:
    """One side and one turn may be missing."""
    sides = {name: size for name, size in RECTANGLE.items() if name != side}
    turns = {name: way for name, way in ALL_LEFT.items() if name != turn}
    assert adjust(readings("ABCD", sides, turns)).point("C") == Point(WIDE, HIGH)


def test_two_sides_that_meet_may_be_missing_but_not_two_that_run_alike() -> None:
    """Two sides that meet may be missing but not two that run alike."""
    sides = {"AB": "16' 4\"", "BC": "11' 2\""}
    assert adjust(readings("ABCD", sides, ALL_LEFT)).point("D") == Point(ZERO, HIGH)
    (problem,) = refused(readings("ABCD", {"AB": "16' 4\"", "CD": "16' 4\""}, ALL_LEFT))
    assert problem.code == "not-fixed"
    settled = {"AB": "16' 4\"", "CD": "16' 4\"", problem.settle[0]: "11' 2\""}
    assert adjust(readings("ABCD", settled, ALL_LEFT)).point("C") == Point(WIDE, HIGH)


def test_misclosure_is_told_and_shared_out() -> None:
    """Misclosure is told and shared out."""
    survey = adjust(readings("ABCD", RECTANGLE | {"CD": "16' 4 1/2\""}, ALL_LEFT))
    assert survey.misclosure == Length.inches("1/2")
    assert survey.ratio == round((2 * (WIDE + HIGH).inch + 0.5) / 0.5)
    assert survey.s0 is not None
    assert survey.s0 > 0
    shares = [residual.share for residual in survey.residuals]
    assert shares == sorted(shares, reverse=True)


def test_the_tape_decides_where_a_turn_is_only_nearly_square() -> None:
    """The tape decides where a turn is only nearly square."""
    leaning = [(0.0, 0.0), (196.0, 0.0), (196.0 + 134 * math.sin(math.radians(0.8)), 134.0), (0.0, 134.0)]
    taped = taken(leaning)
    square = readings("ABCD", {}, ALL_LEFT).turns
    survey = adjust(Readings(taped.corners, taped.sides, square, taped.ties, taped.tolerance))
    assert off(survey, leaning) < 0.1


def test_ties_alone_make_the_outline() -> None:
    """Ties alone make the outline."""
    survey = adjust(readings("ABC", {"AB": "3'", "BC": "4'", "CA": "5'"}))
    assert survey.point("C") == Point(Length.inches(36), Length.inches(48))
    below = adjust(readings("ABC", {"AB": "3'", "BC": "4'", "CA": "5'"}, clockwise=True))
    assert below.point("C") == Point(Length.inches(36), Length.inches(-48))
    assert not below.anticlockwise


@given(spots=outlines(), clockwise=st.booleans())
@settings(max_examples=60, deadline=None)
def test_exact_lengths_give_the_outline_back(spots: list[Spot], clockwise: bool) -> None:
    """Exact lengths give the outline back."""
    walked = [spots[0], *reversed(spots[1:])] if clockwise else spots
    survey = adjust(taken(walked))
    assert off(survey, walked) < CLOSE
    assert survey.anticlockwise != clockwise
    assert survey.redundancy == len(spots) * (len(spots) - 1) // 2 - (2 * len(spots) - 3)


@given(spots=outlines(least=3), data=st.data())
@settings(max_examples=60, deadline=None)
def test_exact_sides_and_angles_give_the_outline_back(spots: list[Spot], data: st.DataObject) -> None:
    """Exact sides and angles give the outline back."""
    names = NAMES[: len(spots)]
    missing = data.draw(st.sampled_from(["", *names]))
    survey = adjust(taken(spots, turns=names.replace(missing, "") if missing else names, ties=""))
    assert off(survey, spots) < CLOSE
    assert survey.misclosure is not None
    assert survey.misclosure < Length.inches("1/100")


@given(spots=outlines(most=6))
@settings(max_examples=40, deadline=None)
def test_the_same_room_walked_the_other_way(spots: list[Spot]) -> None:
    """The same room walked the other way."""
    there = adjust(taken(spots))
    back = adjust(taken([spots[1], spots[0], *reversed(spots[2:])]))
    assert there.anticlockwise
    assert not back.anticlockwise
    swapped = [(float(p.x.inch), float(p.y.inch)) for _, p in back.points]
    same = [swapped[1], swapped[0], *reversed(swapped[2:])]
    assert max(math.dist(a, b) for a, b in zip(in_frame(same), in_frame(spots), strict=True)) < CLOSE


@given(spots=outlines(most=6), data=st.data())
@settings(max_examples=60, deadline=None)
def test_noise_within_the_tolerance_never_disagrees(spots: list[Spot], data: st.DataObject) -> None:
    """Noise within the tolerance never disagrees."""
    names = [a + b for a, b, _ in (*taken(spots).sides, *taken(spots).ties)]
    noise = {name: data.draw(st.floats(-0.245, 0.245)) for name in names}
    found = attempted(taken(spots, noise=noise))
    if isinstance(found, SurveyError):
        assert [problem.code for problem in found.problems] == ["two-outlines"]
    else:
        assert all(residual.share <= 1.001 for residual in found.residuals)


@given(spots=outlines(least=5, most=6), data=st.data())
@settings(max_examples=60, deadline=None)
def test_a_slip_of_six_inches_shows(spots: list[Spot], data: st.DataObject) -> None:
    """A slip of six inches shows."""
    exact = taken(spots)
    name = data.draw(st.sampled_from([a + b for a, b, _ in (*exact.sides, *exact.ties)]))
    assume(name not in adjust(exact).unchecked)
    found = refused(taken(spots, slips={name: data.draw(st.sampled_from([-6.0, 6.0]))}))
    assert {problem.code for problem in found} <= {"readings-disagree", "tie-no-triangle"}


def test_a_slip_in_a_rectangle_with_both_ties_shows_with_numbers() -> None:
    """A slip in a rectangle with both ties shows with numbers."""
    ties = {"AC": "19' 9 7/16\"", "BD": "19' 9 7/16\""}
    assert adjust(readings("ABCD", RECTANGLE, {}, ties)).redundancy == 1
    (problem,) = refused(readings("ABCD", RECTANGLE | {"AB": "16' 10\""}, {}, ties))
    assert problem.code == "readings-disagree"
    message, help = describe(problem, Unit.IN)
    assert "AC reads 19' 9 7/16\"" in message
    lines = details(problem, Unit.IN)
    assert sorted(line.partition(" reads ")[0] for line in lines[1:]) == ["AB", "AC", "BC", "BD", "CD", "DA"]
    assert "AB reads 16' 10\", the others make it 16' 4\"" in lines
    assert "no further tie would tell" in help
    assert all(residual.share > 1 for residual in problem.residuals)


def test_a_turn_that_the_tape_denies_is_named() -> None:
    """A turn that the tape denies is named."""
    (problem,) = refused(readings("ABCD", RECTANGLE, {"A": 80}, {"AC": "19' 9 7/16\"", "BD": "19' 9 7/16\""}))
    assert problem.readings == ("A",)
    assert "80 degrees" in describe(problem, Unit.IN)[0]


def test_sides_alone_are_not_fixed_and_the_tie_that_is_named_settles_it() -> None:
    """Sides alone are not fixed and the tie that is named settles it."""
    (problem,) = refused(readings("ABCD", RECTANGLE))
    assert problem.code == "not-fixed"
    (tie,) = problem.settle
    survey = adjust(readings("ABCD", RECTANGLE, {}, {tie: "19' 9 7/16\""}))
    assert survey.redundancy == 0
    assert survey.s0 is None
    assert set(survey.unchecked) == {*RECTANGLE, tie}
    assert survey.next_tie in ("AC", "BD")
    assert survey.next_tie != tie


@given(spots=outlines(least=5, most=7))
@settings(max_examples=30, deadline=None)
def test_the_lines_named_fix_the_shape(spots: list[Spot]) -> None:
    """The lines named fix the shape."""
    (problem,) = refused(taken(spots, ties=""))
    assert problem.code == "not-fixed"
    assert len(problem.settle) == len(spots) - 3
    found = attempted(taken(spots, ties=" ".join(problem.settle)))
    if isinstance(found, SurveyError):
        assert [problem.code for problem in found.problems] == ["two-outlines"]
    else:
        assert found.redundancy == 0


def test_two_outlines_from_the_same_lengths_are_told_apart_by_one_tie() -> None:
    """Two outlines from the same lengths are told apart by one tie."""
    spots = [(0.0, 0.0), (200.0, 0.0), (200.0, 180.0), (80.0, 60.0)]
    (problem,) = refused(taken(spots, ties="AC"))
    assert problem.code == "two-outlines"
    assert problem.settle == ("BD",)
    assert any(abs(float(size.inch) - math.dist(spots[1], spots[3])) < CLOSE for size in problem.lengths)
    assert off(adjust(taken(spots, ties="AC BD")), spots) < CLOSE
    assert off(adjust(taken(spots, ties="AC", turns="D")), spots) < CLOSE


@pytest.mark.parametrize(
    ("found", "expected"),
    [
        (readings("AB", {"AB": "3'"}), ["too-few-corners"]),
        (readings("", {}), ["too-few-corners"]),
        (readings("ABCA", {"AB": "3'"}), ["named-twice"]),
        (readings("ABCD", RECTANGLE | {"BA": "16' 4\""}, ALL_LEFT), ["named-twice"]),
        (readings("ABCD", RECTANGLE, {}, {"AC": "20'", "CA": "20'"}), ["named-twice"]),
        (readings("ABCD", RECTANGLE | {"BD": "20'"}, ALL_LEFT), ["side-not-between-neighbours"]),
        (readings("ABCD", RECTANGLE | {"AA": "20'"}, ALL_LEFT), ["side-not-between-neighbours"]),
        (readings("ABCD", RECTANGLE | {"AZ": "20'"}, ALL_LEFT), ["unknown-corner"]),
        (readings("ABCD", RECTANGLE, ALL_LEFT, {"XY": "20'"}), ["unknown-corner"]),
        (readings("ABC", {"AB": "3'", "BC": "4'"}, {}, {"AC": "5'"}), ["tie-between-neighbours"]),
        (readings("ABCD", RECTANGLE, ALL_LEFT | {"Q": "left"}), ["turn-at-unknown-corner"]),
        (readings("ABCD", RECTANGLE, ALL_LEFT | {"A": 360}), ["angle-out-of-range"]),
        (readings("ABCD", RECTANGLE, ALL_LEFT | {"A": math.nan}), ["angle-out-of-range"]),
        (readings("ABCD", RECTANGLE | {"AB": "0"}, ALL_LEFT), ["no-length"]),
        (readings("ABCD", RECTANGLE, ALL_LEFT, {"AC": "0"}), ["no-length"]),
        (readings("ABCD", RECTANGLE, ALL_LEFT | {"D": "right"}), ["turns-not-round"]),
        (readings("ABCD", RECTANGLE, {}, {"AC": "40'"}), ["tie-no-triangle"]),
        (readings("ABC", {"AB": "3'", "BC": "4'", "CA": "8'"}), ["sides-cannot-close"]),
        (readings("ABCD", RECTANGLE | {"AB": "18'"}, ALL_LEFT), ["readings-disagree"]),
        (readings("ABCD", {}, ALL_LEFT), ["not-fixed"]),
        (readings("ABCD", {}), ["not-fixed"]),
    ],
)  # fmt: skip
def test_readings_that_make_no_outline_are_refused(found: Readings, expected: list[str]) -> None:
    """Readings that make no outline are refused."""
    assert codes(found) == expected


def test_a_tie_that_no_triangle_allows_is_told_with_its_lengths() -> None:
    """A tie that no triangle allows is told with its lengths."""
    (problem,) = refused(readings("ABCD", RECTANGLE, {}, {"AC": "40'"}))
    assert problem.readings == ("AC", "AB", "BC")
    assert problem.lengths == (Length.inches(480), WIDE, HIGH)
    assert "AC is 40' 0\", longer than AB 16' 4\" + BC 11' 2\" = 27' 6\"" in describe(problem, Unit.IN)[0]


def test_an_outline_that_crosses_itself_is_refused() -> None:
    """An outline that crosses itself is refused."""
    names = ["AB", "BC", "CD", "DE", "EF", "FG", "GH", "HA"]
    sides = dict(zip(names, ("10'", "10'", "5'", "15'", "3'", "9'", "2'", "4'"), strict=True))
    turns = dict.fromkeys("ABCDGH", "left") | dict.fromkeys("EF", "right")
    (first, second) = refused(readings("ABCDEFGH", sides, turns))
    assert first == SurveyProblem("outline-crosses", ("AB", "DE"))
    assert second == SurveyProblem("outline-crosses", ("AB", "FG"))


@pytest.mark.parametrize(
    ("spots", "expected"),
    [
        ([(0, 0), (4, 0), (4, 3)], []),
        ([(4, 3), (4, 0), (0, 0)], []),
        ([(0, 0), (4, 0), (8, 0), (8, 3)], []),
        ([(0, 0), (4, 0)], ["too-few-corners"]),
        ([(0, 0), (4, 0), (4, 0), (4, 3)], ["no-length"]),
        ([(0, 0), (4, 0), (4, 3), (0, 0)], ["no-length"]),
        ([(0, 0), (4, 0), (4, 4), (2, 2), (0, 4), (2, 2)], ["repeated-point"]),
        ([(0, 0), (4, 0), (2, 0), (2, 3)], ["spike"]),
        ([(0, 0), (4, 4), (4, 0), (0, 4)], ["outline-crosses"]),
        ([(0, 0), (8, 0), (8, 4), (4, 0), (0, 4)], ["outline-crosses", "outline-crosses"]),
    ],
)
def test_a_ring_is_checked_exactly(spots: list[tuple[int, int]], expected: list[str]) -> None:
    """A ring is checked exactly."""
    ring = tuple((NAMES[k], Point(Length(x), Length(y))) for k, (x, y) in enumerate(spots))
    found = check_ring(ring)
    assert [problem.code for problem in found] == expected
    assert all(describe(problem, Unit.MM) for problem in found)


def test_a_long_outline_is_quick_enough_and_a_longer_one_refused() -> None:
    """A long outline is quick enough and a longer one refused."""
    names = tuple(f"P{k}" for k in range(101))
    sides = tuple((names[k], names[(k + 1) % 101], Length.inches(24)) for k in range(101))
    assert codes(Readings(names, sides, (), (), Length.inches("1/4"))) == ["too-many-corners"]
    count = 60
    sides = (*((names[k], names[k + 1], Length.inches(24)) for k in range(count - 1)),)
    angle = 180 - 360 / count
    turns = tuple((names[k], angle) for k in range(count))
    survey = adjust(Readings(names[:count], sides, turns, (), Length.inches("1/4")))
    assert abs(survey.perimeter - Length.inches(24 * count)) < Length.inches("1/100")


@given(spots=outlines(most=5))
@settings(max_examples=10, deadline=None)
def test_the_same_readings_give_the_same_survey(spots: list[Spot]) -> None:
    """The same readings give the same survey."""
    assert repr(adjust(taken(spots))) == repr(adjust(taken(spots)))


def test_a_tie_makes_corners_more_certain_than_turns_do() -> None:
    """A tie makes corners more certain than turns do."""
    by_turns = adjust(readings("ABCD", RECTANGLE, ALL_LEFT))
    taped = adjust(readings("ABCD", RECTANGLE, ALL_LEFT, {"AC": "19' 9 7/16\"", "BD": "19' 9 7/16\""}))
    assert Length.inches("1/4") < taped.spread < by_turns.spread < Length.inches(4)


@pytest.mark.parametrize(("way", "anticlockwise"), [("left", True), ("right", False)])
def test_one_turn_tells_the_direction_of_a_walk_with_ties(way: str, anticlockwise: bool) -> None:
    """One turn tells the direction of a walk with ties."""
    ties = {"AC": "19' 9 7/16\"", "BD": "19' 9 7/16\""}
    survey = adjust(readings("ABCD", RECTANGLE, {"C": way}, ties))
    assert survey.anticlockwise == anticlockwise
    assert abs(abs(survey.point("C").y) - HIGH) < Length.inches("1/16")
    assert (survey.point("C").y > ZERO) == anticlockwise
