"""The readings as a system of observation equations, and its weighted least-squares solution.

Minimised is the sum of ((observed - computed) / limit)^2 by Gauss-Newton steps on coordinates,
with the first corner held and the second held on the x axis. This is the adjustment of a plane network by
variation of coordinates, as in any text on adjustment computations (from memory).
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from math import radians
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from rooms.survey.readings import TURN_LIMIT, Readings, turning

Points = NDArray[np.complex128]
"""The corners as complex numbers x + iy, in units."""
Reals = NDArray[np.float64]
Indices = NDArray[np.intp]
_T = TypeVar("_T")

_STEPS = 50
_HALVINGS = 12
_STILL = 1e-7
_GAIN = 1e-10
"""Steps end when no corner moves by `_STILL` units, or the square sum falls by a share below `_GAIN`."""
_DAMPING = 1e-13
_RANK_FLOOR = 1e-6
"""Singular values below this share of the greatest count as none (rows are scaled to unit length first)."""


@dataclass(frozen=True)
class Network:
    """Observation equations of one outline.

    Args:
        count: number of corners.
        spans: the two corners of each taped length, sides first, then ties.
        lengths: what was read there, in units.
        error: limit of a length (the tolerance of the tape), in units.
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
        return self._turn_at.get(corner)

    def distance(self, first: int, second: int) -> float | None:
        """The length read between two corners, in units; None if there is none."""
        return self._length_of.get((min(first, second), max(first, second)))

    @cached_property
    def held(self) -> tuple[tuple[int, ...], ...]:
        """For each corner, the taped lengths that end there, by their place in `spans`."""
        return tuple(tuple(k for k, span in enumerate(self.spans) if corner in span) for corner in range(self.count))

    @cached_property
    def _turn_at(self) -> dict[int, float]:
        return dict(zip(self.bends, self.turns, strict=True))

    @cached_property
    def _length_of(self) -> dict[tuple[int, int], float]:
        pairs = zip(self.spans, self.lengths, strict=True)
        return {(min(span), max(span)): length for span, length in pairs}

    @cached_property
    def _ends(self) -> tuple[Indices, Indices]:
        """First and second corner of each taped length."""
        first, second = np.array(self.spans, dtype=np.intp).reshape(-1, 2).T
        return first, second

    @cached_property
    def _around(self) -> tuple[Indices, Indices, Indices]:
        """The corner before each turn, the corner itself, and the one after it."""
        here = np.array(self.bends, dtype=np.intp)
        return (here - 1) % self.count, here, (here + 1) % self.count

    def measurable(self, points: Points) -> bool:
        """Whether every side and every taped line has a length, and so a direction."""
        first, second = self._ends
        sides, taped = points - np.roll(points, 1), points[first] - points[second]
        return bool(np.all(abs(sides) > 0) and np.all(abs(taped) > 0) and np.all(np.isfinite(points)))

    def computed(self, points: Points) -> tuple[Reals, Reals]:
        """What the readings would be in a shape: lengths in units, turns in radians."""
        first, second = self._ends
        before, here, after = self._around
        turns = np.angle((points[after] - points[here]) * np.conj(points[here] - points[before]))
        return np.absolute(points[second] - points[first]), turns

    def misfit(self, points: Points) -> Reals:
        """Observed less computed of each reading, in its limits; lengths first, then turns."""
        lengths, turns = self.computed(points)
        off = np.angle(np.exp(1j * (np.array(self.turns) - turns)))
        return np.concatenate([(np.array(self.lengths) - lengths) / self.error, off / radians(TURN_LIMIT)])

    def design(self, points: Points) -> Reals:
        """Change of each computed reading, in its limits, per unit of each free coordinate.

        A row is held as complex numbers g with change = Re(conj(g) dz): for a length the unit vector along
        it, for a direction i v / |v|^2 with v the vector along it.
        """
        first, second = self._ends
        before, here, after = self._around
        rows = np.zeros((len(self.spans) + len(self.bends), self.count), dtype=np.complex128)
        taped, bent = np.arange(len(first)), len(first) + np.arange(len(here))
        along = (points[second] - points[first]) / abs(points[second] - points[first]) / self.error
        rows[taped, second], rows[taped, first] = along, -along
        came, goes = points[here] - points[before], points[after] - points[here]
        came = 1j * came / abs(came) ** 2 / radians(TURN_LIMIT)
        goes = 1j * goes / abs(goes) ** 2 / radians(TURN_LIMIT)
        rows[bent, before], rows[bent, here], rows[bent, after] = came, -(came + goes), goes
        return free(rows)

    def without(self, reading: int) -> Network:
        """The same with one reading left out, counted as in `misfit`."""
        taped = len(self.spans)
        if reading < taped:
            spans, lengths = _but(self.spans, reading), _but(self.lengths, reading)
            return replace(self, spans=spans, lengths=lengths)
        bends, turns = _but(self.bends, reading - taped), _but(self.turns, reading - taped)
        return replace(self, bends=bends, turns=turns)


def _but(values: tuple[_T, ...], place: int) -> tuple[_T, ...]:
    return (*values[:place], *values[place + 1 :])


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
        step = least_squares(net.design(points), misfit)
        before = misfit @ misfit
        points, misfit, moved = _stepped(net, points, misfit, step)
        if moved < _STILL or misfit @ misfit > before * (1 - _GAIN):
            break
    return framed(points)


def least_squares(rows: Reals, misfit: Reals) -> Reals:
    """The step that lessens the square sum of the misfits most, as far as the equations are straight.

    From the normal equations, which for many corners cost a small share of an orthogonal solution; what they
    lose in accuracy the next step makes up for. The faint damping keeps them solvable where a shape is loose.
    """
    normal = rows.T @ rows
    damping = _DAMPING * max(float(np.max(np.diag(normal))), 1e-300)
    return np.asarray(np.linalg.solve(normal + damping * np.eye(len(normal)), rows.T @ misfit))


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
