"""Ways to write readings shortly, and to take exact ones off a given outline."""

from __future__ import annotations

import math
from collections.abc import Mapping
from fractions import Fraction

from hypothesis import assume
from hypothesis import strategies as st

from rooms.geometry import Point
from rooms.lengths import Length, Unit, parse_length
from rooms.survey import Angle, Readings, Survey, Turn
from rooms.survey.ring import is_simple

NAMES = "ABCDEFGH"
Spot = tuple[float, float]


def readings(
    corners: str,
    sides: Mapping[str, str],
    turns: Mapping[str, Angle | str] | None = None,
    ties: Mapping[str, str] | None = None,
    tolerance: str = '1/4"',
    *,
    clockwise: bool = False,
) -> Readings:
    r"""Readings as a maker notes them: `{"AB": "16' 4\""}`, `{"B": "left"}`."""
    return Readings(
        tuple(corners),
        _taped(sides),
        tuple((name, Turn(angle) if isinstance(angle, str) else angle) for name, angle in (turns or {}).items()),
        _taped(ties or {}),
        parse_length(tolerance, Unit.IN),
        clockwise,
    )


def _taped(lines: Mapping[str, str]) -> tuple[tuple[str, str, Length], ...]:
    return tuple((name[0], name[1], parse_length(text, Unit.IN)) for name, text in lines.items())


def taken(
    spots: list[Spot],
    *,
    turns: str = "",
    ties: str | None = None,
    slips: Mapping[str, float] | None = None,
    noise: Mapping[str, float] | None = None,
) -> Readings:
    """Exact readings of an outline whose corners are given in inches.

    Args:
        spots: corners in either direction.
        turns: corners whose inside angle is read.
        ties: such as `AC BD`; None for every one.
        slips: inches added to a reading.
        noise: inches added to each side and tie, by name.
    """
    count = len(spots)
    names = NAMES[:count]
    added = {**(noise or {})}
    for name, slip in (slips or {}).items():
        added[name] = added.get(name, 0.0) + slip
    sides = [names[k] + names[(k + 1) % count] for k in range(count)]
    every = [names[i] + names[j] for i in range(count) for j in range(i + 2, count) if (i, j) != (0, count - 1)]
    clockwise = area(spots) < 0
    return Readings(
        tuple(names),
        tuple((name[0], name[1], _read(spots, name, added)) for name in sides),
        tuple((name, _inside(spots, names.index(name), clockwise)) for name in turns),
        tuple((n[0], n[1], _read(spots, n, added)) for n in (every if ties is None else ties.split())),
        Length.inches("1/4"),
        clockwise,
    )


def _read(spots: list[Spot], name: str, added: Mapping[str, float]) -> Length:
    size = math.dist(spots[NAMES.index(name[0])], spots[NAMES.index(name[1])])
    return Length.inches(Fraction(size + added.get(name, 0.0)))


def _inside(spots: list[Spot], k: int, clockwise: bool) -> float:
    (ax, ay), (bx, by), (cx, cy) = spots[k - 1], spots[k], spots[(k + 1) % len(spots)]
    back, ahead = math.atan2(ay - by, ax - bx), math.atan2(cy - by, cx - bx)
    angle = math.degrees(back - ahead) % 360
    return 360 - angle if clockwise else angle


def area(spots: list[Spot]) -> float:
    """Signed area, positive for an anticlockwise outline."""
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(spots, [*spots[1:], spots[0]], strict=True)) / 2


def in_frame(spots: list[Spot]) -> list[Spot]:
    """The same outline with its first corner at (0, 0) and its second on the x axis."""
    corners = [complex(*spot) for spot in spots]
    turn = (corners[1] - corners[0]).conjugate() / abs(corners[1] - corners[0])
    turned = [(z - corners[0]) * turn for z in corners]
    return [(z.real, z.imag) for z in turned]


def off(survey: Survey, spots: list[Spot]) -> float:
    """The greatest distance in inches between adjusted corners and those meant."""
    found = [(float(point.x.inch), float(point.y.inch)) for _, point in survey.points]
    return max(math.dist(a, b) for a, b in zip(found, in_frame(spots), strict=True))


@st.composite
def outlines(draw: st.DrawFn, least: int = 4, most: int = 7) -> list[Spot]:
    """Rooms of a few corners, often concave, with sides of two feet or more and corners that do turn."""
    count = draw(st.integers(least, most))
    spots = []
    for k in range(count):
        angle = 2 * math.pi * (k + draw(st.floats(-0.3, 0.3))) / count
        reach = draw(st.floats(60, 240))
        spots.append((reach * math.cos(angle), reach * math.sin(angle)))
    ring = tuple(Point(Length.inches(Fraction(x)), Length.inches(Fraction(y))) for x, y in spots)
    assume(is_simple(ring))
    assume(all(math.dist(a, b) >= 24 for k, a in enumerate(spots) for b in spots[:k]))
    assume(all(15 < _inside(spots, k, False) < 345 for k in range(count)))
    assume(all(abs(_inside(spots, k, False) - 180) > 10 for k in range(count)))
    return spots
