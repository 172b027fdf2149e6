"""How far each corner may lie from where it is drawn, from the covariance of the adjustment."""

from __future__ import annotations

from math import degrees, log, sqrt

import numpy as np

from rooms.lengths import Length
from rooms.survey.fixing import Precision
from rooms.survey.readings import DEVIATIONS, WITHIN
from rooms.survey.result import Ellipse

_ENLARGED = sqrt(-2 * log(1 - WITHIN)) / DEVIATIONS
"""From the standard ellipse, every reading's limit taken as its standard deviation, to the one that holds
`WITHIN` of all cases. The square of a distance in the plane, in standard deviations, is distributed as
chi-square with two degrees of freedom, and P(chi-square > c) = exp(-c / 2)."""


def ellipses(corners: tuple[str, ...], known: Precision) -> tuple[Ellipse, ...]:
    """The error ellipse of each corner, with the first corner and the direction of the first side held.

    Semi-axes are the roots of the eigenvalues of the corner's 2 x 2 block of the covariance matrix, as in any
    text on adjustment computations (from memory). The first corner has none, the second only a length.
    """
    count = len(corners)
    whole = np.zeros((2 * count, 2 * count))
    places = [*range(1, count), *range(count + 2, 2 * count)]
    whole[np.ix_(places, places)] = known.cofactors
    return tuple(_ellipse(name, whole[np.ix_([k, count + k], [k, count + k])]) for k, name in enumerate(corners))


def _ellipse(name: str, block: np.ndarray[tuple[int, ...], np.dtype[np.float64]]) -> Ellipse:
    values, vectors = np.linalg.eigh(block)
    short, long = (Length(round(_ENLARGED * sqrt(max(float(value), 0.0)))) for value in values)
    # Of a circle, and of a point, no direction is the long one.
    turned = degrees(np.arctan2(vectors[1, 1], vectors[0, 1])) % 180.0 if short != long else 0.0
    return Ellipse(name, long, short, round(turned, 3) % 180.0)
