"""Error ellipses against plain linear algebra and against many surveys taken at random."""

from __future__ import annotations

import math

import numpy as np
import pytest
from survey_cases import Spot, readings, taken
from test_survey_blunders import HEXAGON, numeric_design

from rooms.lengths import ZERO, Length
from rooms.survey import WITHIN, Readings, Survey, adjust
from rooms.survey.network import network, solve

NINETY_FIVE = 2.447746830680816
"""Root of the 0.95 quantile of chi-square with two degrees of freedom, 5.9915 (any table)."""
LIMIT = 1.959963984540054
"""The 0.975 quantile of the normal distribution (any table)."""


def covariance(found: Readings, survey: Survey) -> np.ndarray:
    """Of all free coordinates, in square units, from differences and a plain inverse."""
    spots = np.array([(float(p.x.units), float(p.y.units)) for _, p in survey.points])
    design = numeric_design(found, spots) * LIMIT
    return np.linalg.inv(design.T @ design)


def test_axes_are_the_roots_of_the_eigenvalues() -> None:
    """Of the corner's block, times the factor of 95 percent."""
    found = taken(HEXAGON, ties="AC AD AE BE CF")
    survey = adjust(found)
    whole, count = covariance(found, survey), len(HEXAGON)
    for k in range(2, count):
        x, y = k - 1, count - 1 + k - 2
        block = whole[np.ix_([x, y], [x, y])]
        values, vectors = np.linalg.eigh(block)
        ellipse = survey.ellipses[k]
        assert float(ellipse.short.units) == pytest.approx(NINETY_FIVE * math.sqrt(values[0]), rel=1e-3, abs=1)
        assert float(ellipse.long.units) == pytest.approx(NINETY_FIVE * math.sqrt(values[1]), rel=1e-3, abs=1)
        axis = np.array([math.cos(math.radians(ellipse.direction)), math.sin(math.radians(ellipse.direction))])
        assert abs(float(axis @ vectors[:, 1])) == pytest.approx(1.0, abs=1e-4)


def test_first_corner_and_first_direction_are_held() -> None:
    """What everything else is measured from has no error, and the second corner moves along the first side."""
    survey = adjust(taken(HEXAGON))
    first, second = survey.ellipses[:2]
    assert (first.long, first.short) == (ZERO, ZERO)
    assert second.short == ZERO
    assert second.direction == 0.0
    assert second.long > ZERO


def test_a_single_side_is_as_uncertain_as_its_tape() -> None:
    """Without spare readings the second corner's deviation is the reading's, a tolerance over 1.96."""
    survey = adjust(readings("ABC", {"AB": "3'", "BC": "4'", "CA": "5'"}))
    expected = NINETY_FIVE / LIMIT * 0.25
    assert float(survey.ellipses[1].long.inch) == pytest.approx(expected, abs=1e-3)


def _noisy(found: Readings, survey: Survey, rounds: int) -> np.ndarray:
    """Corners of surveys whose readings are off at random, the tolerance being 1.96 standard deviations."""
    net = network(found, 1)
    random = np.random.default_rng(20)
    start = np.array([complex(float(p.x.units), float(p.y.units)) for _, p in survey.points])
    exact_lengths, exact_turns = net.computed(start)
    shapes = []
    for _ in range(rounds):
        off = random.standard_normal(len(exact_lengths)) * net.error / LIMIT
        turned = random.standard_normal(len(exact_turns)) * math.radians(1.0) / LIMIT
        noisy = type(net)(
            net.count, net.spans, tuple(exact_lengths + off), net.error, net.bends, tuple(exact_turns + turned)
        )
        shapes.append(solve(noisy, start) - start)
    return np.array(shapes)


@pytest.mark.parametrize(
    "found",
    [
        taken(HEXAGON, ties="AC AD AE BE CF"),
        taken(HEXAGON, ties="AD", turns="ABCDEF"),
        readings(
            "ABCD",
            {"AB": "16'", "BC": "11'", "CD": "16'", "DA": "11'"},
            dict.fromkeys("ABCD", "left"),
            {"AC": "19' 5\""},
        ),
    ],
    ids=["ties", "turns and a tie", "rectangle"],
)  # fmt: skip
def test_surveys_at_random_fall_into_the_ellipses_as_often_as_is_said(found: Readings) -> None:
    """Two thousand surveys of the same room: each corner lies in its ellipse in 95 of 100."""
    survey = adjust(found)
    rounds = 2000
    moved = _noisy(found, survey, rounds)
    slack = 4 * math.sqrt(WITHIN * (1 - WITHIN) / rounds)
    for k, ellipse in enumerate(survey.ellipses[2:], 2):
        turned = moved[:, k] * np.exp(-1j * math.radians(ellipse.direction))
        inside = (turned.real / ellipse.long.units) ** 2 + (turned.imag / ellipse.short.units) ** 2 <= 1
        assert float(np.mean(inside)) == pytest.approx(WITHIN, abs=slack)
        spread = np.cov(np.array([turned.real, turned.imag]))
        assert math.sqrt(spread[0, 0]) * NINETY_FIVE == pytest.approx(float(ellipse.long.units), rel=0.08)


def test_more_ties_make_no_ellipse_larger() -> None:
    """Every further reading can only help."""
    few, many = (adjust(taken(HEXAGON, ties=ties)) for ties in ("AC AD AE BE CF", "AC AD AE BE BD CF DF"))
    for before, after in zip(few.ellipses, many.ellipses, strict=True):
        assert after.long <= before.long + Length(1)
        assert after.short <= before.short + Length(1)


def test_ellipses_turn_with_the_room() -> None:
    """Walked clockwise, the room is mirrored below its first side, and so are its ellipses."""
    mirrored: list[Spot] = [(x, -y) for x, y in HEXAGON]
    one, other = adjust(taken(HEXAGON, ties="AC AD AE BE CF")), adjust(taken(mirrored, ties="AC AD AE BE CF"))
    for here, there in zip(one.ellipses[2:], other.ellipses[2:], strict=True):
        assert abs(here.long - there.long) <= Length(2)
        assert (here.direction + there.direction) % 180 == pytest.approx(0, abs=0.05) or (
            here.direction + there.direction
        ) % 180 == pytest.approx(180, abs=0.05)
