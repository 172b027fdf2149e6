"""Heights of the frame against sums worked by hand."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import atan2, radians

import pytest

from fitter.domain.frame import Carpentry
from fitter.domain.levels import lean_depth, levels, tilt
from fitter.domain.project import Project
from fitter.project import read_project
from rooms.lengths import Length

INCH, MM = Length.inches, Length.millimetres


def plain(units: str = "in", **carpentry: object) -> Project:
    """A project whose frame has a few things said of it; the rest are the defaults in inches."""
    text = f"units: {units}\nroom: {{corners: {{A: [0, 0], B: [5 m, 0], C: [5 m, 4 m], D: [0, 4 m]}}}}\n"
    project = read_project("yard.yaml", text + "cushions: [{name: seat, size: [24 in, 24 in, 5 in]}]\n")
    return replace(project, frame=replace(project.frame, carpentry=replace(Carpentry(), **carpentry)))  # type: ignore[arg-type]


def test_the_usual_frame() -> None:
    """17 in seat, 5 in cushion, 2x8 rails on 3/4 in feet: by hand."""
    found = levels(plain(), INCH(5), INCH(18))
    assert (found.foot, found.rail_bottom, found.deck, found.seat) == (INCH("3/4"), INCH("19/4"), INCH(12), INCH(17))
    assert found.sat_on == INCH(16)  # a fifth of 5 in
    assert found.arm == INCH(24)
    assert (found.back_bottom, found.back_top) == (INCH(12 + Fraction(13, 4)), INCH(35))
    assert found.table == INCH(17)


def test_a_post_under_a_rail_over_a_gap() -> None:
    """A support post under a 2x8 rail over a gap of 1 1/2 in is 8 3/4 in long where there is no foot."""
    found = levels(plain(foot_height=INCH(0), reveal_below=INCH("3/2")), INCH(5))
    assert found.deck - found.foot == INCH("35/4")
    assert found.rail_bottom == INCH("3/2")
    assert found.seat == INCH("55/4")


def test_a_back_without_a_cushion_follows_the_system_of_the_file() -> None:
    """2010 ADA Standards, 903: a back ends 18 in above the seat; 450 mm is the round metric size."""
    assert levels(plain(), INCH(5)).back_top == INCH(35)
    metric = plain("mm", seat_height=MM(430))
    found = levels(metric, MM(120))
    assert found.back_top == MM(880)
    assert found.arm == MM(430 - 24 + 200)


def test_written_heights_are_taken() -> None:
    """Counted from the floor, not from the seat."""
    said = plain(arm_height=INCH(23), back_height=INCH(30), table_height=INCH(16))
    found = levels(said, INCH(5), INCH(18))
    assert (found.arm, found.back_top, found.table) == (INCH(23), INCH(30), INCH(16))


def test_sizes_off_the_mark_leave_cuts_on_it() -> None:
    """A cushion of 127.3 mm in a file in inches: posts, backs and arms still end on sixteenths."""
    project = plain(seat_height=INCH("17.03"), compression=Fraction(1, 7))
    found = levels(project, MM("127.3"), MM(460))
    for height in (
        found.foot,
        found.rail_bottom,
        found.deck,
        found.sat_on,
        found.arm,
        found.back_bottom,
        found.back_top,
        found.table,
    ):
        assert height == height.round_to(project.mark)
    assert found.seat - found.deck == MM("127.3")
    assert abs(found.seat - INCH("17.03")) <= project.mark


def test_the_back_begins_under_a_cushion_that_gives_way_a_lot() -> None:
    """A thin cushion is sat on below the back gap: the back begins no higher."""
    found = levels(plain(), INCH(2))
    assert found.back_bottom == found.sat_on == INCH("133/8")  # 15 + 2 - 2/5 = 16.6 in, to the nearest sixteenth


@pytest.mark.parametrize(
    ("said", "words"), [({"seat_height": INCH(12)}, "too low"), ({"back_height": INCH(14)}, "back ends lower")]
)
def test_what_cannot_stand_is_refused(said: dict[str, Length], words: str) -> None:
    with pytest.raises(ValueError, match=words):
        levels(plain(**said), INCH(5))


@pytest.mark.parametrize("degrees", [Fraction(0), Fraction(1, 10), Fraction(7), Fraction(25, 2), Fraction(15)])
def test_the_tilt_is_exact_and_true(degrees: Fraction) -> None:
    """The squares add up to one exactly, so turned corners stay exact; the angle is the one asked for."""
    cos, sin = tilt(degrees)
    assert cos * cos + sin * sin == 1
    assert atan2(sin, cos) == pytest.approx(radians(degrees), abs=1e-6)


def test_depth_of_a_leaning_panel() -> None:
    """20 in high, 2 1/4 in thick, 10 degrees: 20 tan 10 + 2.25 cos 10 = 3.5265 + 2.2158 = 5.7424 in."""
    assert float(lean_depth(INCH(20), INCH("9/4"), Fraction(10)).inch) == pytest.approx(5.7424, abs=2e-4)
