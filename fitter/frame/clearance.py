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


@dataclass
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

    def __post_init__(self) -> None:
        (x0, y0, z0), (x1, y1, z1) = self.start, self.stop
        self.middle = (x0 + x1) / 2, (y0 + y1) / 2, (z0 + z1) / 2
        self.half = sqrt((x1 - x0) ** 2 + (y1 - y0) ** 2 + (z1 - z0) ** 2) / 2

    def clear_of(self, other: Bar) -> bool:
        """Whether both keep clear of each other."""
        gap = self.keep + other.keep - 0.5
        (x0, y0, z0), (x1, y1, z1) = self.middle, other.middle
        # Most are far apart: the balls around both do not meet.
        if (x1 - x0) ** 2 + (y1 - y0) ** 2 + (z1 - z0) ** 2 >= (gap + self.half + other.half) ** 2:
            return True
        return _distance(self, other) >= gap


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
        return all(
            bar.clear_of(other)
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
