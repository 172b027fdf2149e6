"""Which screw, nail or bolt a joint takes, and how a pocket is set out."""

from __future__ import annotations

from fractions import Fraction
from math import cos, radians, sin

import pytest
from pairs import units

from fitter.domain.woodwork import Fixing
from fitter.frame.fasteners import LEAST, TIP, bolt, chosen, pilot, sold, suited
from fitter.frame.pockets import BORE, COS, SIN, exit_depth, pocket
from rooms.lengths import Length

DEEP = units("100")
EIGHT, NINE, TEN = sold(Fixing.SCREW, imperial=True)
LONG_PART = units("40")


def screw(through: str, room: str, *, least: bool = False) -> tuple[str, Length] | None:
    sizes = suited(Fixing.SCREW, units(through), imperial=True)
    found = chosen(sizes, units(through), units(room), least=least)
    return found and (found[0].name, found[1])


def test_gauges_follow_their_formula() -> None:
    # D = 0.060 + 0.013 n in: trade tables of screw gauges, verified.
    for size, gauge in ((EIGHT, 8), (NINE, 9), (TEN, 10)):
        assert size.diameter == (Fraction(60, 1000) + Fraction(13, 1000) * gauge) * units("1")


def test_full_penetration_where_there_is_wood_for_it() -> None:
    # 1 1/2 in and 10 diameters of a #10 (1.9 in) are 3.4 in.
    assert screw("3/2", "7/2") == ("#10", Length.inches("7/2"))


def test_a_shallow_part_takes_a_thinner_screw_whose_tip_stays_inside() -> None:
    # A #10 needs 1.14 in of the 1 3/8 that are left of 1 1/2; 3 in would come within 1/8 in, 2 1/2 bites only 1 in.
    assert screw("3/2", "3/2") == ("#8", Length.inches("5/2"))


def test_the_least_that_does_is_shorter() -> None:
    assert screw("3/2", "7/2", least=True) == ("#10", Length.inches("3"))


def test_nothing_fits_a_part_that_is_too_thin() -> None:
    assert screw("3/2", "3/4") is None


@pytest.mark.parametrize("imperial", [True, False])
@pytest.mark.parametrize("kind", [Fixing.SCREW, Fixing.NAIL])
def test_each_bites_six_diameters_and_stays_inside(kind: Fixing, imperial: bool) -> None:
    # NDS chapter 12: penetration of at least 6 D, tip included.
    found = 0
    for through in range(units("1/2"), units("4"), units("1/8")):
        for room in range(units("3/4"), units("4"), units("1/4")):
            picked = chosen(suited(kind, through, imperial=imperial), through, room)
            if picked:
                found += 1
                size, length = picked
                assert length.units - through >= LEAST * size.diameter
                assert through + room - length.units >= TIP.units
    assert found > 20


def test_a_bolt_leaves_thread_for_washer_and_nut() -> None:
    small, large = sold(Fixing.BOLT, imperial=True)
    # 3 in of wood, 1/16 of washer and 3/8 of nut are 3 7/16.
    assert bolt(large, units("3")) == Length.inches("7/2")
    assert bolt(small, units("49/16")) == Length.inches("7/2")
    assert bolt(large, units("30")) is None


def test_pilot_holes_by_weight_of_the_wood() -> None:
    # NDS 12.1.5, from memory: 90 % of the root above 0.6, 70 % above 0.5, else none but near an end.
    assert pilot(EIGHT, Fraction(42, 100), near_end=False, imperial=True) == 0
    assert pilot(EIGHT, Fraction(42, 100), near_end=True, imperial=True) == Fraction(6, 64) * units("1")
    assert pilot(EIGHT, Fraction(55, 100), near_end=False, imperial=True) == Fraction(6, 64) * units("1")
    assert pilot(EIGHT, Fraction(68, 100), near_end=False, imperial=True) == Fraction(8, 64) * units("1")
    metric_bolt = sold(Fixing.BOLT, imperial=False)[-1]
    assert pilot(metric_bolt, Fraction(1, 2), near_end=True, imperial=False) == Length.millimetres(11).units


def test_the_bore_leans_by_fifteen_degrees() -> None:
    assert SIN**2 + COS**2 == 1
    assert float(SIN) == pytest.approx(sin(radians(15)), abs=2e-4)
    assert float(COS) == pytest.approx(cos(radians(15)), abs=1e-4)


def pocketed(stock: str) -> tuple[Length, int]:
    found = pocket(exit_depth(units(stock), LONG_PART), units(stock), Fraction(DEEP), EIGHT)
    assert found is not None
    return found.length, found.web


@pytest.mark.parametrize(
    ("stock", "habit", "ours"),
    [
        ("1/2", "1", "3/2"),
        ("3/4", "5/4", "2"),
        ("1", "3/2", "2"),
        ("5/4", "2", "5/2"),
        ("3/2", "5/2", "5/2"),
    ],
)
def test_pocket_screws_beside_common_practice(stock: str, habit: str, ours: str) -> None:
    # Common practice, from memory, pairs stock and length as `habit`: as much longer as the other part asks for, with
    # 3 to 6 diameters of bite. Ours bite 6 D (NDS), so thin stock takes the next length sold; 1 1/2 in stock agrees.
    length, web = pocketed(stock)
    assert length == Length.inches(ours)
    assert length >= Length.inches(habit)
    assert length.units - web >= LEAST * EIGHT.diameter
    shorter = [size for size in EIGHT.lengths if size < length]
    assert not shorter or shorter[-1].units - web < LEAST * EIGHT.diameter


@pytest.mark.parametrize("stock", ["1/2", "3/4", "1", "3/2", "7/2"])
def test_a_pocket_head_is_sunk_and_its_screw_leaves_at_mid_thickness(stock: str) -> None:
    depth = exit_depth(units(stock), LONG_PART)
    assert depth == Fraction(min(units(stock), units("3/2")), 2)
    found = pocket(depth, units(stock), Fraction(DEEP), EIGHT)
    assert found is not None
    before, deep = found.head
    assert deep >= Fraction(BORE.units, 2) * COS
    # Head, exit and mouth lie on one line that leans by the angle.
    assert (depth - deep) * COS == before * SIN
    assert found.mouth * SIN == depth * COS


def test_a_short_part_is_bored_nearer_to_its_face() -> None:
    back = units("7/2")
    depth = exit_depth(units("3/2"), back)
    found = pocket(depth, units("3/2"), Fraction(DEEP), EIGHT)
    assert depth < units("3/4")
    assert found is not None
    assert found.back == back - units("1/4")


def test_a_thin_second_part_takes_a_deeper_bore() -> None:
    # 1 5/8 in along the screw leave 1 1/2 for it: 2 1/2 in screws on a web of 1 1/2 bite an inch, as they should.
    usual = pocket(exit_depth(units("3/2"), LONG_PART), units("3/2"), Fraction(units("13/8")), EIGHT)
    assert usual is not None
    assert usual.length == Length.inches("5/2")
    # In 1 1/8 in only 1 in is left; the 2 1/2 in screw would just do.
    tight = pocket(exit_depth(units("3/2"), LONG_PART), units("3/2"), Fraction(units("9/8")), EIGHT)
    assert tight is not None
    assert LEAST * EIGHT.diameter <= tight.length.units - tight.web <= units("1")
    assert pocket(exit_depth(units("3/2"), LONG_PART), units("3/2"), Fraction(units("3/4")), EIGHT) is None
