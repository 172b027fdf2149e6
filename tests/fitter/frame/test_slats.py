"""Slats by rule: the fewest that keep every gap."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitter.domain.moisture import movement
from fitter.domain.species import SPECIES, species
from fitter.frame.slats import spread

SIXTEENTHS = 16


def inches(text: str) -> int:
    whole, _, part = text.partition(" ")
    return int((int(whole) + Fraction(part or 0)) * SIXTEENTHS)


def test_a_long_back_as_it_is_set_out_in_practice() -> None:
    # Common practice, no source: 7 1/4 in slats in 115 in with gaps of at most 3 1/4.
    found = spread(inches("115"), inches("7 1/4"), inches("3 1/4"))
    assert len(found.starts) == 11
    assert set(found.gaps) == {inches("2 15/16")}
    assert found.fewer == inches("3 7/8")  # ten slats leave 42 1/2 in for eleven gaps, 3.86 in each


def test_a_short_back_as_it_is_set_out_in_practice() -> None:
    # Common practice, no source: in 44 1/2 in four slats and five gaps of 3.1.
    found = spread(inches("44 1/2"), inches("7 1/4"), inches("3 1/4"))
    assert len(found.starts) == 4
    assert sum(found.gaps) == inches("15 1/2")
    assert all(abs(gap - 3.1 * SIXTEENTHS) < 1 for gap in found.gaps)


def test_a_space_that_whole_slats_only_just_fill_gets_ripped_ones() -> None:
    # Two whole ones would leave three gaps of one mark, one whole one two of 29.
    found = spread(113, 55, 8, 2)
    assert len(found.starts) == 2
    assert min(found.gaps) >= 2
    assert found.width < 55


@given(st.integers(1, 4000), st.integers(8, 120), st.integers(1, 8), st.integers(0, 60))
def test_no_count_with_fewer_slats_keeps_the_gap(space: int, width: int, least: int, more: int) -> None:
    limit = least + more
    found = spread(space, width, limit, least)
    count = len(found.starts)
    assert sum(found.gaps) + count * found.width == space
    assert found.width <= width
    assert max(found.gaps) - min(found.gaps) <= 1
    if space >= 2 * least + 1:
        assert min(found.gaps) >= min(least, space)
    # Against the plain count: so few slats leave more than all their gaps can take.
    for fewer in range(count):
        assert space - fewer * width > (fewer + 1) * limit or (space - fewer * width < (fewer + 1) * least)
    if found.width == width:
        assert max(found.gaps) <= limit
    assert all(start == sum(found.gaps[: i + 1]) + i * found.width for i, start in enumerate(found.starts))


@pytest.mark.parametrize("name", [name for name in SPECIES if species(name).coefficients[1]])
def test_no_gap_closes_between_the_dry_and_the_wet_season(name: str) -> None:
    # Wood Handbook (FPL-GTR-190), chapter 13: D · C · (M_F − M_I), here over the whole range of the formula.
    growth = species(name).coefficients[1]
    assert growth is not None
    width = 88
    least = int(-(-movement(width, growth.value, 6, 14) // 1))
    for space in range(width + 2, 3000, 7):
        found = spread(space, width, 32, least)
        assert min(found.gaps) > movement(found.width, growth.value, 6, 14) - 1e-9
