"""How a sweep writes its values: exactly, and as coarse as that allows."""

from __future__ import annotations

from fractions import Fraction

import pytest

from fitter.domain.amounts import Amount, Quantity
from fitter.domain.layout import Verdict
from fitter.domain.sweeps import Look, Shown, Stretch, Sweep
from fitter.report.sweep_words import amount_teller, answer_word, area_words, effort, heading_words, value_words
from fitter.report.words import teller
from rooms.lengths import Length, Unit


def length(value: Length) -> Amount:
    return Amount(Quantity.LENGTH, Fraction(value.units))


@pytest.mark.parametrize(
    ("unit", "values", "told"),
    [
        (Unit.IN, ["30", "61/2"], ["2' 6\"", "2' 6 1/2\""]),
        (Unit.IN, ["1/16", "1/32"], ['1/16"', '1/32"']),
        (Unit.FT, ["1/64"], ['1/64"']),
    ],
)
def test_lengths_as_fine_as_they_need(unit: Unit, values: list[str], told: list[str]) -> None:
    amounts = [length(Length.inches(value)) for value in values]
    tell = amount_teller(unit, amounts)
    assert [tell(amount) for amount in amounts] == told


def test_lengths_that_no_fraction_of_an_inch_tells() -> None:
    tell = amount_teller(Unit.IN, [length(Length.millimetres(30))])
    assert tell(length(Length.millimetres(30))) == "30 mm"
    metric = amount_teller(Unit.MM, [length(Length.millimetres("61/2"))])
    assert metric(length(Length.millimetres("61/2"))) == "30.5 mm"


@pytest.mark.parametrize(
    ("quantity", "number", "told"),
    [
        (Quantity.COUNT, Fraction(12), "12"),
        (Quantity.MONEY, Fraction(83, 2), "41.50"),
        (Quantity.SHARE, Fraction(1, 8), "12.5 %"),
        (Quantity.ANGLE, Fraction(15, 2), "7.5°"),
    ],
)
def test_other_numbers(quantity: Quantity, number: Fraction, told: str) -> None:
    amount = Amount(quantity, number)
    assert amount_teller(Unit.IN, [amount])(amount) == told


def test_what_is_shown_of_an_answer() -> None:
    tell = teller(Unit.IN)

    def words(shown: Shown, value: int | tuple[str, ...] | None) -> str:
        return value_words(shown, value, Unit.IN.mark, Unit.IN, tell, seats=False)

    assert words(Shown.COST, 97910) == "979.10"
    assert words(Shown.COST, None) == "no price"
    assert words(Shown.OFF_EDGE, 24) == '1 1/2"'
    assert words(Shown.LAYOUT, ("U", "14", "", "outside post")) == "U, outside post"
    assert heading_words(("straight", "1", "", "")) == "straight, 1 seat"
    assert area_words(Length.millimetres(1000).units ** 2 * 3, Unit.MM) == "3.00 m²"


def sweep(*verdicts: Verdict | None, related: bool = True, interrupted: bool = False) -> Sweep:
    amount = Amount(Quantity.COUNT, Fraction(1))
    stretches = tuple(Stretch(amount, amount, 3, Look(v), Look(v), solved=False) for v in verdicts)
    values = 3 * len(verdicts)
    return Sweep("wish.seats", amount, (Shown.SEATS,), stretches, values, 4, related, interrupted)


def test_what_the_effort_proves() -> None:
    proven = "3 values answered by 4 searches; that the answer changes nowhere else"
    assert effort(sweep(Verdict.PROVEN, None)).startswith(proven)
    assert "Every value solved (6)" in effort(sweep(Verdict.PROVEN, Verdict.IMPOSSIBLE, related=False))
    assert "nothing is proven of values between" in effort(sweep(Verdict.PROVEN, Verdict.FOUND))
    assert effort(sweep(Verdict.PROVEN, interrupted=True)).startswith("Stopped by you after 4 searches")


def test_verdict_words() -> None:
    words = [answer_word(stretch) for stretch in sweep(Verdict.PROVEN, Verdict.FOUND, None).stretches]
    assert words == ["proven", "found, not proven", "file is wrong"]
