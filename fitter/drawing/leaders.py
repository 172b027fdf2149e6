"""Where a leader ends: a small dot on what it names, which no hatching and no line beneath can hide."""

from __future__ import annotations

from math import cos, radians, sin

from fitter.drawing.page import Area, Pen, Role, Spot

DOT = 0.45
"""Radius of a dot, mm."""


def dot_at(spot: Spot) -> Area:
    """The dot in which a leader ends, mm."""
    ring = tuple((spot[0] + DOT * cos(radians(a)), spot[1] + DOT * sin(radians(a))) for a in range(0, 360, 30))
    return Area(ring, 0.0, Role.LEADER, Pen.FINE)
