"""Whether some shape meets every reading within its limit, where the least-squares shape does not.

Least squares spreads what the readings disagree by, and may so push one residual over its limit although
every reading was as good as its tolerance. That alone is no disagreement.
"""

from __future__ import annotations

import numpy as np

from rooms.survey.network import Network, Points, Reals, framed, least_squares, shifted

_ROUNDS = 120


def evened(net: Network, points: Points) -> Points | None:
    """A shape near a least-squares one in which every misfit is at most 1; None if there is none near.

    Lawson's method (C. L. Lawson's thesis of 1961; from memory) for the least greatest residual: solve by
    weighted least squares, multiply each weight by its residual, repeat. The weighted mean square of
    any round is a bound from below on the square of the least greatest residual, so a mean above 1 proves
    that no shape will do (as far as the equations are straight).
    """
    misfit = net.misfit(points)
    weights = np.ones(len(misfit))
    for _ in range(_ROUNDS):
        if np.max(abs(misfit)) <= 1:
            return framed(points)
        if np.average(misfit**2, weights=weights) > 1:
            return None
        weights = weights * abs(misfit)
        points = shifted(points, _weighted_step(net.design(points), misfit, weights))
        if not net.measurable(points):
            return None
        misfit = net.misfit(points)
    return None


def _weighted_step(design: Reals, misfit: Reals, weights: Reals) -> Reals:
    root = np.sqrt(weights / np.max(weights))
    return least_squares(root[:, None] * design, root * misfit)
