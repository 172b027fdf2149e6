"""What is taken up inside the wood by fasteners, so that no two come too near to each other."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from math import sqrt

from fitter.frame.bodies import Floats
from rooms.lengths import Length

APART = 3
"""Diameters between the middles of two fasteners: prebored, across the grain (Wood Handbook); bolts (NDS 12.5.1, the
least, 4 for their full value); both from memory."""
_CELL = Length.inches(4).units


@dataclass(frozen=True)
class Bar:
    """A straight piece of steel, or a bore.

    Args:
        start: where it begins, in units.
        stop: where it ends.
        keep: that it keeps clear around its middle line, in units.
    """

    start: Floats
    stop: Floats
    keep: float


class Taken:
    """All bars so far, indexed by their plan."""

    def __init__(self) -> None:
        self._cells: defaultdict[tuple[int, int], list[Bar]] = defaultdict(list)
        self._widest = 0.0

    def add(self, bar: Bar) -> None:
        """Take up its place."""
        self._widest = max(self._widest, bar.keep)
        for cell in self._around(bar, 0.0):
            self._cells[cell].append(bar)

    def free(self, bar: Bar) -> bool:
        """Whether it keeps clear of all others."""
        return not any(
            _distance(bar, other) < bar.keep + other.keep - 0.5
            for cell in self._around(bar, bar.keep + self._widest)
            for other in self._cells.get(cell, ())
        )

    @staticmethod
    def _around(bar: Bar, margin: float) -> list[tuple[int, int]]:
        (x0, y0, _), (x1, y1, _) = bar.start, bar.stop
        columns = range(int((min(x0, x1) - margin) // _CELL), int((max(x0, x1) + margin) // _CELL) + 1)
        rows = range(int((min(y0, y1) - margin) // _CELL), int((max(y0, y1) + margin) // _CELL) + 1)
        return [(column, row) for column in columns for row in rows]


def _distance(one: Bar, other: Bar) -> float:
    """Between two segments: the nearest points by clamping, as in Ericson, Real-Time Collision Detection, 5.1.9."""
    px, py, pz = one.start
    qx, qy, qz = other.start
    ux, uy, uz = one.stop[0] - px, one.stop[1] - py, one.stop[2] - pz
    vx, vy, vz = other.stop[0] - qx, other.stop[1] - qy, other.stop[2] - qz
    wx, wy, wz = px - qx, py - qy, pz - qz
    a, e, f = ux * ux + uy * uy + uz * uz, vx * vx + vy * vy + vz * vz, vx * wx + vy * wy + vz * wz
    c, b = ux * wx + uy * wy + uz * wz, ux * vx + uy * vy + uz * vz
    flat = a * e - b * b
    s = min(max((b * f - c * e) / flat, 0.0), 1.0) if flat > 1e-9 * a * e else 0.0
    t = (b * s + f) / e
    if not 0.0 <= t <= 1.0:
        t = 0.0 if t < 0.0 else 1.0
        s = min(max((b * t - c) / a, 0.0), 1.0)
    dx, dy, dz = wx + s * ux - t * vx, wy + s * uy - t * vy, wz + s * uz - t * vz
    return sqrt(dx * dx + dy * dy + dz * dz)
