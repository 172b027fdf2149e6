"""How wood takes up moisture from the air, and how much wider it gets.

Floats: physics, never a cut length.
"""

from __future__ import annotations

MOVES_WITHIN = (6.0, 14.0)
"""Moisture contents, in per cent, within which the change of size is taken as proportional."""

MOVEMENT_SOURCE = "Wood Handbook (FPL-GTR-190), ch. 13: change of size between 6 and 14 % moisture content"
EMC_SOURCE = "Simpson 1998, FPL-RN-0268, as copied in a public code; Wood Handbook (FPL-GTR-190), ch. 4"


def movement(size: float, coefficient: float, before: float, after: float) -> float:
    """How much wider (or thinner) a piece gets: D · C · (M_F − M_I).

    Args:
        size: across the grain, in any unit.
        coefficient: of dimensional change per per cent of moisture content, radial or tangential.
        before: moisture content, in per cent.
        after: likewise; both from 6 to 14.

    Returns:
        The change in the unit of `size`; below zero where it shrinks.

    Raises:
        ValueError: a moisture content is outside the range that the formula holds for.

    References:
        Wood Handbook (FPL-GTR-190), chapter 13, with Table 13-5.
    """
    low, high = MOVES_WITHIN
    if not (low <= before <= high and low <= after <= high):
        message = f"moisture contents of {before:g} and {after:g} %: the formula holds from {low:g} to {high:g} %"
        raise ValueError(message)
    return size * coefficient * (after - before)


def change_coefficient(shrinkage: float) -> float:
    """The coefficient of dimensional change per per cent: 1 / (3000 / S0 − 20).

    The general formula D · (M_F − M_I) / (3000 / S0 − 30 + M_I), taken at M_I = 10 %, gives it; it agrees with all
    tabulated coefficients of 16 hardwoods (Wood Handbook, Tables 4-3 and 13-5) to 0.000006 (computed).

    Args:
        shrinkage: from green to oven-dry, radial or tangential, in per cent.
    """
    return 1 / (3000 / shrinkage - 20)


def equilibrium(celsius: float, humidity: float) -> float:
    """The moisture content that wood comes to in air: the fit of Hailwood and Horrobin with two hydrates.

    Args:
        celsius: temperature of the air.
        humidity: relative, from 0 to 1.

    Returns:
        Moisture content, in per cent of the dry weight.

    Raises:
        ValueError: the humidity is no share of one.

    References:
        Simpson 1998, FPL-RN-0268 (seen in a public copy).
    """
    if not 0 <= humidity <= 1:
        message = f"a relative humidity of {humidity:g} is not between 0 and 1"
        raise ValueError(message)
    t = celsius
    w = 349 + 1.29 * t + 0.0135 * t**2
    k = 0.805 + 0.000736 * t - 0.00000273 * t**2
    k1 = 6.27 - 0.00938 * t - 0.000303 * t**2
    k2 = 1.91 + 0.0407 * t - 0.000293 * t**2
    kh = k * humidity
    hydrates = k1 * kh + 2 * k1 * k2 * kh**2
    return 1800 / w * (kh / (1 - kh) + hydrates / (1 + k1 * kh + k1 * k2 * kh**2))
