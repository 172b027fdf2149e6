"""The shapes that readings allow, each adjusted to them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from rooms.geometry import Point, signed_area
from rooms.lengths import Length
from rooms.survey.evening import evened
from rooms.survey.fixing import Precision, precision
from rooms.survey.network import Network, Points, Reals, solve
from rooms.survey.readings import Readings
from rooms.survey.ring import is_simple
from rooms.survey.starts import starts

_DUST = 1e-6


@dataclass(frozen=True)
class Fit:
    """One adjusted shape.

    Args:
        net: the readings as equations.
        sense: 1 for an anticlockwise walk, -1 for a clockwise one.
        balanced: the least-squares shape.
        points: the same, unless only another shape near by keeps every reading within its limit.
    """

    net: Network
    sense: int
    balanced: Points
    points: Points

    @cached_property
    def misfit(self) -> Reals:
        """Observed less computed, in limits, reading by reading."""
        return self.net.misfit(self.points)

    @cached_property
    def cost(self) -> float:
        """Square sum of the misfits."""
        return float(self.misfit @ self.misfit)

    @cached_property
    def ring(self) -> tuple[Point, ...]:
        """The corners, to the nearest unit."""
        return tuple(Point(Length(round(z.real)), Length(round(z.imag))) for z in self.points.tolist())

    @cached_property
    def precision(self) -> Precision:
        """How well the readings hold the least-squares shape."""
        return precision(self.net, self.balanced)

    @property
    def agrees(self) -> bool:
        """Whether every reading is within its limit."""
        return bool(np.all(abs(self.misfit) <= 1 + _DUST))

    @cached_property
    def sound(self) -> bool:
        """Whether it is an outline, with the room on the side of the walk."""
        return (signed_area(self.ring) > 0) == (self.sense > 0) and is_simple(self.ring)


def fits(readings: Readings, systems: Sequence[tuple[int, Network]]) -> Iterator[Fit]:
    """Every shape found, adjusted, in a fixed order; the likely ones of each direction first."""
    for sense, net in systems:
        for start in _unmirrored(readings, net, sense):
            yield fit(net, sense, start)


def fit(net: Network, sense: int, start: Points) -> Fit:
    """The adjusted shape near a rough one."""
    balanced = solve(net, start)
    points = balanced
    if np.max(abs(net.misfit(points))) > 1:
        even = evened(net, points)
        points = points if even is None else even
    return Fit(net, sense, balanced, points)


def _unmirrored(readings: Readings, net: Network, sense: int) -> list[Points]:
    """Rough shapes; those of lengths alone are turned over to lie on the side of the walk."""
    shapes = starts(net, sense)
    if readings.turns:
        return shapes
    areas = [float(np.sum((points.conj() * np.roll(points, -1)).imag)) for points in shapes]
    return [points if area * sense > 0 else points.conj() for points, area in zip(shapes, areas, strict=True)]
