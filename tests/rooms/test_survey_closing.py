"""What a walk by sides and turns may miss closing by; all numbers are worked out by hand."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from survey_cases import readings

from rooms.lengths import Length
from rooms.survey import Angle, Survey, adjust

CLOSE = 0.01
"""Inches; rounding of lengths to units."""
LEFT = dict.fromkeys("ABCD", "left")


def inches(length: Length | None) -> float:
    assert length is not None
    return float(length.inch)


def walked(cd: str, turns: dict[str, Angle | str] | None = None, ties: dict[str, str] | None = None) -> Survey:
    """A rectangle of 16 ft 4 in by 11 ft 2 in whose side CD reads something."""
    sides = {"AB": "16' 4\"", "BC": "11' 2\"", "CD": cd, "DA": "11' 2\""}
    return adjust(readings("ABCD", sides, dict(turns or LEFT), ties))


def test_six_sides_with_one_five_inches_too_long() -> None:
    """Along x 194 - 82 - 117 = -5, along y 109 + 66 - 175 = 0; six sides of 1/4 in explain sqrt(6) / 4 = 0.61 in.

    Six corners have 2 x 6 - 3 = 9 coordinates, and six sides are taped: three lines are missing.
    """
    sides = {"AB": "194", "BC": "109", "CD": "82", "DE": "66", "EF": "117", "FA": "175"}
    turns = {**dict.fromkeys("ABCEF", "left"), "D": "right"}
    found = adjust(readings("ABCDEF", sides, turns))
    assert inches(found.misclosure) == pytest.approx(5, abs=CLOSE)
    assert inches(found.explained) == pytest.approx(math.sqrt(6) / 4, abs=CLOSE)
    assert len(found.loose) == len(set(found.loose)) == 3


@pytest.mark.parametrize(("cd", "told"), [("16' 4\"", False), ("16' 4 1/2\"", False), ("16' 4 9/16\"", True)])
def test_four_sides_explain_half_an_inch(cd: str, told: bool) -> None:
    """sqrt(4) x 1/4 in; a rectangle lacks one diagonal."""
    found = walked(cd)
    assert inches(found.explained) == pytest.approx(0.5, abs=CLOSE)
    assert len(found.loose) == told


def test_a_diagonal_bears_out_a_room_that_is_not_square() -> None:
    """A trapezoid with right angles at A and D: AC² = 198² + 134², BC² = 2² + 134²; with AC the tape alone fixes it."""
    without = walked("16' 6\"")
    assert without.loose in (("AC",), ("BD",))
    taped = walked("16' 6\"", ties={"AC": "239 1/16"})
    assert taped.misclosure == without.misclosure
    assert taped.loose == ()


def test_an_angle_that_was_read_may_be_off_by_a_degree() -> None:
    """At C it moves the end of the walk, at A, by AC = 237.4 in times one degree, 4.14 in; with the sides 4.17 in."""
    found = walked("16' 8\"", {**LEFT, "C": Fraction(90)})
    assert inches(found.explained) == pytest.approx(math.hypot(0.5, math.hypot(196, 134) * math.pi / 180), abs=0.05)
    assert found.loose == ()
    assert len(walked("16' 8\"").loose) == 1


def test_a_walk_without_a_misclosure_explains_none() -> None:
    """Two turns are missing, so that sides and turns alone do not walk it."""
    found = walked("16' 4\"", {"A": "left", "B": "left"})
    assert found.misclosure is None
    assert found.explained is None
    assert found.loose == ()
