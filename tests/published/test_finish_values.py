"""How far finish goes, against the Wood Handbook (FPL-GTR-190), chapter 16: semitransparent penetrating oil stains."""

from __future__ import annotations

from fractions import Fraction

import pytest

from fitter.domain.evidence import Status
from fitter.takeoff.coverage import CONDITIONER, GLUE, ROUGH_STAIN, STAIN, VARNISH, Coverage, metric
from rooms.lengths import UNITS_PER_INCH, UNITS_PER_MM, Unit

SQUARE_FOOT = (12 * UNITS_PER_INCH) ** 2
SQUARE_METRE = (1000 * UNITS_PER_MM) ** 2
TENTH = Fraction(1, 10)
"""Square metres a litre are printed to the tenth, what is beyond it cut off (100 sq ft a gallon are 2.45)."""


@pytest.mark.parametrize(
    ("coverage", "feet", "metres"),
    [(STAIN, (200, 400), ("4.9", "9.8")), (ROUGH_STAIN, (100, 200), ("2.4", "4.9"))],
    ids=["smooth", "saw-textured or weathered"],
)
def test_stain_goes_as_far_as_the_handbook_says(
    coverage: Coverage, feet: tuple[int, int], metres: tuple[str, str]
) -> None:
    """Square feet a gallon and square metres a litre stand side by side there."""
    assert (coverage.least, coverage.most) == feet
    assert coverage.source.status is Status.VERIFIED
    assert "chapter 16" in coverage.source.document
    for ours, printed in zip(feet, metres, strict=True):
        assert 0 <= metric(ours) - Fraction(printed) < TENTH


@pytest.mark.parametrize(("coverage", "least", "most"), [(STAIN, "9.8", "4.9"), (ROUGH_STAIN, "4.9", "2.4")])
def test_litres_for_an_area_are_those_of_the_metric_row(coverage: Coverage, least: str, most: str) -> None:
    """98 m² by the metric numbers: no more than those say, and no less than the next tenth would."""
    litres = coverage.amount(98 * SQUARE_METRE)
    for ours, printed in ((litres.least, Fraction(least)), (litres.most, Fraction(most))):
        assert 98 / (printed + TENTH) < ours / 1000 <= 98 / printed


def test_gallons_for_an_area_are_those_of_the_other_row() -> None:
    """1200 square feet in two coats: 6 to 12 gallons."""
    amount = STAIN.amount(1200 * SQUARE_FOOT, 2)
    gallon = Fraction("3785.411784")
    assert (amount.least / gallon, amount.most / gallon) == (6, 12)


def test_what_is_remembered_is_said_to_be() -> None:
    assert {each.source.status for each in (CONDITIONER, VARNISH, GLUE)} == {Status.MEMORY}
    assert STAIN.told(Unit.IN) == "200 to 400 sq ft a gallon"
    assert STAIN.told(Unit.MM) == "4.9 to 9.8 m² a litre"
