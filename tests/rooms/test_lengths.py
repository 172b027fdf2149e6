"""Lengths: what people write is read exactly, what is printed reads back, and junk is refused kindly."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from rooms.lengths import ZERO, Length, LengthError, Unit, format_length, parse_length, round_half_up

UNITS = st.sampled_from(list(Unit))
FOOT_SIGNS = ("'", "′", "’", "‘", "´", "`", "ʹ", " ft", "ft.", " foot", " feet")
INCH_SIGNS = ('"', "″", "”", "“", "＂", "''", "’’", "′′", "in", " in.", " inches", "")


def inches(text: str | int | Fraction) -> Length:
    """A length in inches, from a number or a fraction."""
    return Length.inches(text)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("12' 6 1/2\"", inches("301/2")),
        ("12ft 6-1/2in", inches("301/2")),
        ("150 1/2", inches("301/2")),
        ("3.81 m", Length.millimetres(3810)),
        ("3810mm", Length.millimetres(3810)),
        ('38½"', inches("77/2")),
        ("4 ft 3", inches(51)),
        ("4'-3 1/2\"", inches("103/2")),
        ("4' - 3", inches(51)),
        ("12'", inches(144)),
        ("3½'", inches(42)),
        (".5", inches("1/2")),
        ("5.", inches(5)),
        ("5/4", inches("5/4")),
        ("381 cm", Length.millimetres(3810)),
        ("2 metres", Length.millimetres(2000)),
        ("1\u00a0½\u202f″", inches("3/2")),
        ("1 1⁄2 in", inches("3/2")),
        ("+3", inches(3)),
    ],
)
def test_reads_what_people_write(text: str, expected: Length) -> None:
    """Reads what people write."""
    assert parse_length(text, Unit.IN) == expected


@pytest.mark.parametrize("foot", FOOT_SIGNS)
@pytest.mark.parametrize("inch", INCH_SIGNS)
def test_every_foot_and_inch_sign_is_read(foot: str, inch: str) -> None:
    """Every foot and inch sign is read."""
    assert parse_length(f"12{foot} 6 1/2{inch}", Unit.MM) == inches("301/2")
    assert parse_length(f"12{foot}", Unit.MM) == inches(144)


@pytest.mark.parametrize(
    ("unit", "size"),
    [(Unit.IN, "1"), (Unit.FT, "12"), (Unit.MM, "5/127"), (Unit.CM, "50/127"), (Unit.M, "5000/127")],
)
def test_a_bare_number_is_in_the_units_of_the_project(unit: Unit, size: str) -> None:
    """A bare number is in the units of the project."""
    assert parse_length("1", unit) == inches(size) == unit.one
    assert unit.of(unit.one) == 1


@given(units=st.integers(0, 10**9), denominator=st.sampled_from([16, 32, 64]), feet=st.booleans())
def test_inches_round_trip_at_every_fraction(units: int, denominator: int, feet: bool) -> None:
    """Inches round trip at every fraction."""
    mark = inches(Fraction(1, denominator))
    length = Length(units).round_to(mark)
    text = format_length(Length(units), Unit.IN, denominator=denominator, feet=feet)
    assert parse_length(text, Unit.MM) == length


@given(units=st.integers(-(10**9), 10**9))
def test_millimetres_round_trip(units: int) -> None:
    """Millimetres round trip."""
    text = format_length(Length(units), Unit.MM)
    assert abs(parse_length(text, Unit.IN, negative=True) - Length(units)) <= Length(160)


@given(sixteenths=st.integers(-(10**6), 10**6))
def test_negative_lengths_round_trip_where_they_are_allowed(sixteenths: int) -> None:
    """Negative lengths round trip where they are allowed."""
    length = inches(Fraction(sixteenths, 16))
    text = format_length(length, Unit.IN)
    assert parse_length(text, Unit.IN, negative=True) == length
    assert text.startswith("-") == (sixteenths < 0)


@given(units=st.integers(0, 10**8), denominator=st.sampled_from([16, 32, 64]))
@example(units=12 * 8128 - 1, denominator=16)
@example(units=24 * 8128 - 254, denominator=16)
def test_twelve_inches_are_a_foot_and_fractions_are_in_lowest_terms(units: int, denominator: int) -> None:
    """Twelve inches are a foot and fractions are in lowest terms."""
    text = format_length(Length(units), Unit.FT, denominator=denominator)
    found = re.fullmatch(r"(?:(\d+)' )?(\d+)?(?: ?(\d+)/(\d+))?\"", text)
    assert found, text
    feet, whole, top, bottom = (int(part or 0) for part in found.groups())
    assert whole < 12
    assert not found[1] or feet > 0
    assert not found[3] or (top < bottom <= denominator and top % 2 == 1)


def test_rails_are_called_out_in_inches() -> None:
    """Rails are called out in inches."""
    assert format_length(inches("185/4"), Unit.IN, feet=False) == '46 1/4"'
    assert format_length(inches("185/4"), Unit.IN) == "3' 10 1/4\""
    assert format_length(ZERO, Unit.IN) == '0"'
    assert format_length(Length(-1), Unit.MM) == "0 mm"
    assert format_length(inches("1/2"), Unit.IN) == '1/2"'


REFUSED = [
    "", " ", "-", "+", ".", "inf", "-inf", "nan", "1e3", "1E3", "0x10", "1_000", "1,000", "1,5", "1.5.2",
    "1/2/3", "1/0", '1/0"', "1' 1/0\"", "1 0/0", "3 5/4", "5 5", "12' 12\"", "12' 6\" 3", "4' 3 m", "1m 20cm",
    "3 yd", "3 m²", "12 1/2 1/2", "+-1", "--1", "1-", "twelve", "²", "\x00", "12'6'", '6" 2\'', "4.5' 3\"",
    "1/2' 3\"", "'", '"', "mm", "9" * 59, "9" * 5000, "1." + "9" * 5000, "1/" + "9" * 5000,
    "1" + " " * 5000 + "x", "1 -" * 5000,
]  # fmt: skip


@pytest.mark.parametrize("text", REFUSED)
def test_junk_is_refused_with_a_short_message_and_a_way_out(text: str) -> None:
    """Junk is refused with a short message and a way out."""
    with pytest.raises(LengthError) as caught:
        parse_length(text, Unit.IN, negative=True)
    assert 0 < len(str(caught.value)) < 150
    assert caught.value.help


@pytest.mark.parametrize("text", ["-1", "- 1' 6\"", "−3 mm", "–2"])
def test_a_minus_sign_is_refused_unless_allowed(text: str) -> None:
    """A minus sign is refused unless allowed."""
    with pytest.raises(LengthError, match="negative"):
        parse_length(text, Unit.IN)
    assert parse_length(text, Unit.IN, negative=True) < ZERO


def test_nothing_below_zero_is_not_negative() -> None:
    """Nothing below zero is not negative."""
    assert parse_length("-0", Unit.IN) == ZERO


def test_the_message_says_what_is_too_much() -> None:
    """The message says what is too much."""
    with pytest.raises(LengthError, match="`e3` after"):
        parse_length("1e3", Unit.IN)
    with pytest.raises(LengthError, match="12 inches after the feet"):
        parse_length("3' 12\"", Unit.IN)


@given(text=st.text(alphabet="0123456789 '\"/.-+¼½ftinmc,e’″", max_size=70) | st.text(), unit=UNITS)
def test_any_text_is_a_length_or_is_refused(text: str, unit: Unit) -> None:
    """Any text is a length or is refused."""
    try:
        length = parse_length(text, unit)
    except LengthError as caught:
        refusal = caught
    else:
        assert ZERO <= length <= Length.millimetres(10**8)
        return
    assert refusal.help


@given(
    a=st.integers(-(10**6), 10**6).map(Length), b=st.integers(-(10**6), 10**6).map(Length),
    mark=st.integers(1, 10**5).map(Length),
)  # fmt: skip
def test_arithmetic_is_that_of_whole_numbers(a: Length, b: Length, mark: Length) -> None:
    """Arithmetic is that of whole numbers."""
    assert (a + b) - b == a
    assert a + (-a) == ZERO
    assert abs(a) in (a, -a)
    assert 3 * a == a + a + a == a * 3
    assert a.floor_to(mark) <= a <= a.ceil_to(mark)
    assert a.ceil_to(mark) - a.floor_to(mark) in (ZERO, mark)
    assert a.round_to(mark) in (a.floor_to(mark), a.ceil_to(mark))
    assert a.floor_to(mark) == (a // mark) * mark
    assert bool(a) == (a != ZERO)


@given(value=st.fractions())
def test_halves_round_upward(value: Fraction) -> None:
    """Halves round upward."""
    whole = round_half_up(value)
    assert Fraction(-1, 2) < whole - value <= Fraction(1, 2)
