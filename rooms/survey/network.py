"""The readings as a system of observation equations, and its weighted least-squares solution.

Minimised is the sum of ((observed - computed) / standard error)^2 by Gauss-Newton steps on coordinates,
with the first corner held and the second held on the x axis. This is the adjustment of a plane network by
variation of coordinates, as in any text on adjustment computations (from memory).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import radians

import numpy as np
from numpy.typing import NDArray

from rooms.survey.readings import TURN_LIMIT, Readings, turning

Points = NDArray[np.complex128]
"""The corners as complex numbers x + iy, in units."""
Reals = NDArray[np.float64]

_STEPS = 50
_HALVINGS = 12
_STILL = 1e-7
_GAIN = 1e-10
"""Steps end when no corner moves by `_STILL` units, or the square sum falls by a share below `_GAIN`."""
_RANK_FLOOR = 1e-6
"""Singular values below this share of the greatest count as none (rows are scaled to unit length first)."""


@dataclass(frozen=True)
class Network:
    """Observation equations of one outline.

    Args:
        count: number of corners.
        spans: the two corners of each taped length, sides first, then ties.
        lengths: what was read there, in units.
        error: standard error of a length, in units.
        bends: the corner of each turn.
        turns: what was turned there, in radians, positive to the left.
    """

    count: int
    spans: tuple[tuple[int, int], ...]
    lengths: tuple[float, ...]
    error: float
    bends: tuple[int, ...]
    turns: tuple[float, ...]

    @property
    def unknowns(self) -> int:
        """Coordinates that a shape of so many corners needs."""
        return 2 * self.count - 3

    @property
    def redundancy(self) -> int:
        """Readings more than unknowns."""
        return len(self.spans) + len(self.bends) - self.unknowns

    def turned(self, corner: int) -> float | None:
        """The turn read at a corner, in radians; None if there is none."""
        return dict(zip(self.bends, self.turns, strict=True)).get(corner)

    def distance(self, first: int, second: int) -> float | None:
        """The length read between two corners, in units; None if there is none."""
        for span, length in zip(self.spans, self.lengths, strict=True):
            if span in ((first, second), (second, first)):
                return length
        return None

    def measurable(self, points: Points) -> bool:
        """Whether every side and every taped line has a length, and so a direction."""
        first, second = np.array(self.spans, dtype=np.intp).reshape(-1, 2).T
        sides, taped = points - np.roll(points, 1), points[first] - points[second]
        return bool(np.all(abs(sides) > 0) and np.all(abs(taped) > 0) and np.all(np.isfinite(points)))

    def misfit(self, points: Points) -> Reals:
        """Observed less computed of each reading, in standard errors."""
        arms = [points[j] - points[i] for i, j in self.spans]
        taped = [(length - abs(arm)) / self.error for length, arm in zip(self.lengths, arms, strict=True)]
        bent = [
            _wrapped(turn - self._bend(points, k)) / radians(TURN_LIMIT)
            for k, turn in zip(self.bends, self.turns, strict=True)
        ]
        return np.array([*taped, *bent])

    def _bend(self, points: Points, corner: int) -> float:
        before, here, after = points[corner - 1], points[corner], points[(corner + 1) % self.count]
        return float(np.angle((after - here) * np.conj(here - before)))

    def design(self, points: Points) -> Reals:
        """Change of each computed reading, in standard errors, per unit of each free coordinate.

        A row is held as complex numbers g with change = Re(conj(g) dz): for a length the unit vector along
        it, for a direction i v / |v|^2 with v the vector along it.
        """
        rows = np.zeros((len(self.spans) + len(self.bends), self.count), dtype=np.complex128)
        for row, (i, j) in enumerate(self.spans):
            rows[row] = span_row(points, i, j) / self.error
        for row, k in enumerate(self.bends, len(self.spans)):
            before, after = k - 1, (k + 1) % self.count
            came, goes = points[k] - points[before], points[after] - points[k]
            came, goes = 1j * came / abs(came) ** 2, 1j * goes / abs(goes) ** 2
            rows[row, before] += came / radians(TURN_LIMIT)
            rows[row, k] -= (came + goes) / radians(TURN_LIMIT)
            rows[row, after] += goes / radians(TURN_LIMIT)
        return free(rows)


def span_row(points: Points, first: int, second: int) -> Points:
    """The row of a taped length, one complex number a corner, for a standard error of one unit."""
    row = np.zeros(len(points), dtype=np.complex128)
    along = (points[second] - points[first]) / abs(points[second] - points[first])
    row[second], row[first] = along, -along
    return row


def free(rows: Points) -> Reals:
    """Complex rows as real ones over the free coordinates: all x but the first, all y but the first two."""
    return np.concatenate([rows.real[..., 1:], rows.imag[..., 2:]], axis=-1)


def network(readings: Readings, sense: int) -> Network:
    """The observation equations of readings that were walked anticlockwise (`sense` 1) or clockwise (-1)."""
    taped = (*readings.sides, *readings.ties)
    return Network(
        count=len(readings.corners),
        spans=tuple((readings.index(a), readings.index(b)) for a, b, _ in taped),
        lengths=tuple(float(length.units) for _, _, length in taped),
        error=float(max(readings.tolerance.units, 1)),
        bends=tuple(readings.index(corner) for corner, _ in readings.turns),
        turns=tuple(radians(turning(angle, sense)) for _, angle in readings.turns),
    )


def framed(points: Points) -> Points:
    """The same shape with its first corner at 0 and its second on the positive x axis."""
    moved = points - points[0]
    return np.asarray(moved * (abs(moved[1]) / moved[1]))


def solve(net: Network, start: Points) -> Points:
    """The least-squares shape near a starting shape; each step is halved until it makes things better."""
    points = framed(start)
    misfit = net.misfit(points)
    for _ in range(_STEPS):
        step: Reals = np.linalg.lstsq(net.design(points), misfit, rcond=1e-12)[0].astype(np.float64)
        before = misfit @ misfit
        points, misfit, moved = _stepped(net, points, misfit, step)
        if moved < _STILL or misfit @ misfit > before * (1 - _GAIN):
            break
    return framed(points)


def _stepped(net: Network, points: Points, misfit: Reals, step: Reals) -> tuple[Points, Reals, float]:
    for _ in range(_HALVINGS):
        tried = shifted(points, step)
        if net.measurable(tried):
            after = net.misfit(tried)
            if after @ after < misfit @ misfit:
                return tried, after, float(np.max(abs(step)))
        step = step / 2
    return points, misfit, 0.0


def shifted(points: Points, step: Reals) -> Points:
    """The points after a step in the free coordinates, in the order of `free`."""
    moved = points.copy()
    moved[1:] += step[: len(points) - 1]
    moved[2:] += 1j * step[len(points) - 1 :]
    return moved


def rank(rows: Reals) -> int:
    """How many coordinates the rows of a design matrix fix."""
    singular = np.linalg.svd(scaled(rows), compute_uv=False)
    return int(np.sum(singular > _RANK_FLOOR * singular[0])) if len(singular) else 0


def scaled(rows: Reals) -> Reals:
    """The rows, each of length one, so that lengths and turns count alike."""
    sizes = np.linalg.norm(rows, axis=-1, keepdims=True)
    return np.asarray(rows / np.where(sizes > 0, sizes, 1.0))


def _wrapped(angle: float) -> float:
    return float(np.angle(np.exp(1j * angle)))
