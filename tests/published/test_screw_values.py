"""Strength and slip of screws against published and computed numbers; each test names its document."""

from __future__ import annotations

import pytest

from fitter.frame.corner_hold import rotation_stiffness, slip_modulus
from fitter.frame.strength import lateral, withdrawal


@pytest.mark.parametrize(
    ("gravity", "diameter", "pounds"), [(0.45, 0.190, 109.65), (0.50, 0.190, 135.4), (0.50, 0.164, 116.85)]
)
def test_withdrawal(gravity: float, diameter: float, pounds: float) -> None:
    """W = 2850 G² D (NDS 12.2-2): an engineering table has 109 lb an inch for #10 at 0.45; the others are computed."""
    assert withdrawal(gravity, diameter, 1) == pytest.approx(pounds, rel=1e-3)
    assert withdrawal(gravity, diameter, 2) == 2 * withdrawal(gravity, diameter, 1)


def test_lateral_value_of_a_nail() -> None:
    """AWC solved example: 0.148 x 3 in, Douglas fir-larch, 3/4 in side and 2 1/4 in main part: 467.49 N = 105.1 lb."""
    assert lateral(0.50, 0.148, 0.148, 0.75, 2.25) == pytest.approx(467.49 / 4.448222, rel=1e-3)


def test_lateral_value_of_a_screw() -> None:
    """AWC solved example E2.4: #10, southern pine, double shear, mode IV: 1039.6 N, twice that of one plane."""
    assert 2 * lateral(0.55, 0.190, 0.152, 1.5, 3.0) == pytest.approx(1039.596 / 4.448222, rel=2e-3)


def test_too_little_penetration_counts_in_proportion() -> None:
    """Ten diameters for the whole value (NDS, from memory)."""
    assert lateral(0.5, 0.19, 0.152, 1.5, 1.14) == pytest.approx(0.6 * lateral(0.5, 0.19, 0.152, 1.5, 1.9), rel=0.02)


def test_slip_modulus_by_hand() -> None:
    """EN 1995-1-1:2004, Table 7.1, by hand: 420^1.5 = 420 · 20.4939 = 8607.4; times 5 mm over 23 is 1871.2 N/mm."""
    assert slip_modulus(420, 5) == pytest.approx(1871.2, abs=0.1)


def test_rotation_stiffness_by_hand() -> None:
    """Four screws at the corners of 60 x 80 mm: each 50 mm from the centre; 4 · 1871.2 · 2500 = 18.712e6 N·mm/rad."""
    corners = [(0.0, 0.0), (60.0, 0.0), (60.0, 80.0), (0.0, 80.0)]
    assert rotation_stiffness(corners, [1871.2] * 4) == pytest.approx(18.712e6)
    # A single row is a hinge, wherever it stands.
    assert rotation_stiffness([(7.0, 9.0)] * 5, [1871.2] * 5) == pytest.approx(0.0, abs=1e-6)
