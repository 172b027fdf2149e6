"""The compass rule beside the least squares: the same where readings close, near it where they do not."""

from __future__ import annotations

import math

import pytest
from survey_cases import Spot, in_frame, readings, taken

from rooms.lengths import ZERO, Length
from rooms.survey import adjust, close_traverse

ROOM: list[Spot] = [(0, 0), (210, 10), (260, 150), (190, 260), (60, 250), (-40, 120)]
RECTANGLE = {"AB": "16' 4\"", "BC": "11' 2\"", "CD": "16' 4\"", "DA": "11' 2\""}
ALL_LEFT = dict.fromkeys("ABCD", "left")


def test_exact_readings_close_and_give_the_same_corners() -> None:
    """Both ways of sharing out nothing."""
    for spots in (ROOM, [(x, -y) for x, y in ROOM]):
        survey = adjust(taken(spots, turns="ABCDEF", ties=""))
        assert survey.traverse is not None
        assert survey.traverse.misclosure < Length.inches("1/1000")
        assert survey.traverse.angular == pytest.approx(0.0, abs=1e-4)
        for (name, one), (other, two) in zip(survey.traverse.points, survey.points, strict=True):
            assert name == other
            assert max(abs(one.x - two.x), abs(one.y - two.y)) < Length.inches("1/500")


def test_a_side_half_an_inch_long_by_hand() -> None:
    """A rectangle of 196 by 134 in whose far side reads 1/2 in too long: worked by hand.

    The walk ends 1/2 in to the left of its beginning. Side AB takes 196/660.5 of that, BC and DA 134/660.5 each.
    """
    survey = adjust(readings("ABCD", RECTANGLE | {"CD": "16' 4 1/2\""}, ALL_LEFT))
    traverse = survey.traverse
    assert traverse is not None
    assert traverse.misclosure == Length.inches("1/2")
    assert traverse.ratio == round(660.5 / 0.5)
    assert traverse.angular == 0.0
    share = 0.5 / 660.5
    b = (196 + 196 * share, 0.0)
    c = (b[0] + 134 * share, 134.0)
    d = (c[0] - 196.5 + 196.5 * share, 134.0)
    for (_, point), (x, y) in zip(traverse.points, ((0.0, 0.0), b, c, d), strict=True):
        assert math.dist((point.x.inch, point.y.inch), (x, y)) < 0.001


def test_angles_are_shared_alike_before_the_sides() -> None:
    """Four inside angles of 90.25 degrees exceed 360 by one; balanced they are square, and the walk closes."""
    survey = adjust(readings("ABCD", RECTANGLE, dict.fromkeys("ABCD", 90.25)))
    assert survey.traverse is not None
    assert survey.traverse.angular == pytest.approx(1.0)
    assert survey.traverse.misclosure == ZERO
    assert survey.traverse.ratio is None
    clockwise = adjust(readings("ABCD", RECTANGLE, dict.fromkeys("ABCD", 90.25), clockwise=True))
    assert clockwise.traverse is not None
    assert clockwise.traverse.angular == pytest.approx(1.0)


def test_balanced_corners_in_the_frame_of_the_survey() -> None:
    """First corner at the origin, first side along x, as `close_traverse` gives them but for the turn."""
    found = taken(ROOM, turns="ABCDEF", ties="", noise={"AB": 0.2, "CD": -0.2, "EF": 0.15})
    survey = adjust(found)
    assert survey.traverse is not None
    sides = [float(size.inch) for _, _, size in found.sides]
    turned = [180.0 - float(angle) for _, angle in found.turns]
    azimuths = [sum(turned[1 : k + 1]) for k in range(len(sides))]
    places: list[Spot] = [(0.0, 0.0)]
    for lat, dep in close_traverse(sides, azimuths).balanced[:-1]:
        places.append((places[-1][0] + lat, places[-1][1] + dep))
    for (_, point), spot in zip(survey.traverse.points, in_frame(places), strict=True):
        assert math.dist((point.x.inch, point.y.inch), spot) < 0.001


@pytest.mark.parametrize(
    ("side", "turn", "lacks"),
    [("CD", None, ("CD",)), (None, "C", ("C",)), ("DA", "A", ("DA", "A"))],
)
def test_it_needs_every_side_and_every_turn(side: str | None, turn: str | None, lacks: tuple[str, ...]) -> None:
    """And says what it lacks."""
    sides = {name: size for name, size in RECTANGLE.items() if name != side}
    turns = {name: way for name, way in ALL_LEFT.items() if name != turn}
    survey = adjust(readings("ABCD", sides, turns))
    assert survey.traverse is None
    assert survey.unwalked == lacks
