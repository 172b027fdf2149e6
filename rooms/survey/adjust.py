"""From readings to an outline: try the shapes they allow, adjust each, and keep the one that is sound."""

from __future__ import annotations

from dataclasses import dataclass
from math import degrees, sqrt

import numpy as np

from rooms.geometry import Point, signed_area
from rooms.lengths import ZERO, Length
from rooms.survey.evening import evened
from rooms.survey.fixing import (
    CHECKED,
    is_fixed,
    next_tie,
    redundancy_numbers,
    settling,
    spread,
    untaped,
)
from rooms.survey.network import Network, Points, Reals, network, rank, solve
from rooms.survey.problems import SurveyError, SurveyProblem
from rooms.survey.readings import TURN_LIMIT, ReadingKind, Readings, inside, turning
from rooms.survey.result import Residual, Survey
from rooms.survey.ring import check_ring, is_simple
from rooms.survey.starts import generic, starts
from rooms.survey.traverse import Closure, close_traverse, directions, filled
from rooms.survey.vetting import senses, vet

_DUST = 1e-6


@dataclass(frozen=True)
class _Fit:
    """One adjusted shape: `misfit` in limits, reading by reading; `ring` to the nearest unit."""

    net: Network
    sense: int
    points: Points
    misfit: Reals
    ring: tuple[Point, ...]

    @property
    def cost(self) -> float:
        return float(self.misfit @ self.misfit)

    @property
    def agrees(self) -> bool:
        return bool(np.all(abs(self.misfit) <= 1 + _DUST))

    @property
    def sound(self) -> bool:
        return is_simple(self.ring) and (signed_area(self.ring) > 0) == (self.sense > 0)


def adjust(readings: Readings) -> Survey:
    """Adjust tape readings to the outline that fits them best.

    With more readings than needed this is weighted least squares: lengths weigh by their tolerance, turns by
    `TURN_LIMIT`. Only where that leaves a residual above its limit, and another shape near by keeps all of
    them within, that shape is taken instead; so readings disagree only if no shape satisfies them all.

    The first corner is put at (0, 0), the first side along +x. A walk with the room on its right keeps its
    direction, so that its room lies below the first side. Without a turn that says `left` or `right` the walk
    is taken as anticlockwise unless `readings.clockwise`.

    Raises:
        SurveyError: the readings contradict themselves or each other, fit two different outlines, leave
            the shape open, or make an outline that is none; every problem of the first kind met.
    """
    _refuse(vet(readings))
    possible = senses(readings)
    if not possible:
        _refuse((_not_round(readings),))
    systems = [(sense, network(readings, sense)) for sense in possible]
    first = systems[0][1]
    if rank(first.design(generic(first))) < first.unknowns:
        _refuse((SurveyProblem("not-fixed", settle=settling(readings, first, generic(first))),))
    fits = [_fit(net, sense, start) for sense, net in systems for start in _unmirrored(readings, net, sense)]
    return _told(readings, _chosen(readings, sorted(fits, key=lambda fit: fit.cost)))


def _refuse(problems: tuple[SurveyProblem, ...]) -> None:
    if problems:
        raise SurveyError(problems)


def _not_round(readings: Readings) -> SurveyProblem:
    total = sum(turning(angle, 1) for _, angle in readings.turns)
    return SurveyProblem("turns-not-round", tuple(name for name, _ in readings.turns), degrees=(total,))


def _unmirrored(readings: Readings, net: Network, sense: int) -> list[Points]:
    """Rough shapes; those of lengths alone are turned over to lie on the side of the walk."""
    shapes = starts(net, sense)
    if readings.turns:
        return shapes
    areas = [float(np.sum((points.conj() * np.roll(points, -1)).imag)) for points in shapes]
    return [points if area * sense > 0 else points.conj() for points, area in zip(shapes, areas, strict=True)]


def _fit(net: Network, sense: int, start: Points) -> _Fit:
    points = solve(net, start)
    if np.max(abs(net.misfit(points))) > 1:
        even = evened(net, points)
        points = points if even is None else even
    ring = tuple(Point(Length(round(z.real)), Length(round(z.imag))) for z in points.tolist())
    return _Fit(net, sense, points, net.misfit(points), ring)


def _chosen(readings: Readings, fits: list[_Fit]) -> _Fit:
    """The one shape that is sound and agrees with the readings; else the reason why there is none."""
    sound = [fit for fit in fits if fit.sound]
    best = (sound or fits)[0]
    agreeing = [fit for fit in sound if fit.agrees]
    crossing = [fit for fit in fits if fit.agrees and not fit.sound]
    if not agreeing and crossing and not sound:
        _refuse(check_ring(tuple(zip(readings.corners, crossing[0].ring, strict=True))))
    if not is_fixed(best.net, best.points):
        _refuse((SurveyProblem("not-fixed", settle=settling(readings, best.net, best.points)),))
    if not agreeing:
        worst = tuple(residual for residual in _residuals(readings, best) if residual.share > 1)
        _refuse((SurveyProblem("readings-disagree", tuple(r.name for r in worst), residuals=worst),))
    for other in agreeing[1:]:
        if (line := _telling(readings, best, other)) is not None:
            _refuse((line,))
    return agreeing[0]


def _telling(readings: Readings, one: _Fit, other: _Fit) -> SurveyProblem | None:
    """The tie that tells two shapes apart; None when no tie would, to the tolerance of two readings."""
    found: tuple[float, SurveyProblem] | None = None
    for line in untaped(readings, sides=True):
        sizes = [abs(fit.points[line.second] - fit.points[line.first]) for fit in (one, other)]
        apart = round(float(abs(sizes[0] - sizes[1])), 3)
        if apart > 2 * one.net.error and (found is None or apart > found[0]):
            lengths = tuple(Length(round(float(size))) for size in sizes)
            found = apart, SurveyProblem("two-outlines", (line.name,), lengths, settle=(line.name,))
    return found[1] if found else None


def _residuals(readings: Readings, fit: _Fit) -> tuple[Residual, ...]:
    found = [_length_residual(readings, fit, k) for k in range(len(fit.net.spans))]
    found += [_turn_residual(readings, fit, k) for k in range(len(readings.turns))]
    return tuple(sorted(found, key=lambda residual: -round(residual.share, 9)))


def _length_residual(readings: Readings, fit: _Fit, k: int) -> Residual:
    a, b, reading = (*readings.sides, *readings.ties)[k]
    i, j = fit.net.spans[k]
    adjusted = Length(round(float(abs(fit.points[j] - fit.points[i]))))
    kind = ReadingKind.SIDE if k < len(readings.sides) else ReadingKind.TIE
    limit = max(readings.tolerance, Length(1))
    return Residual(a + b, kind, reading, adjusted, adjusted - reading, limit)


def _turn_residual(readings: Readings, fit: _Fit, k: int) -> Residual:
    corner, angle = readings.turns[k]
    reading = inside(turning(angle, fit.sense), fit.sense)
    # The misfit is observed less computed of the turn made, which runs against the inside angle.
    off = round(fit.sense * float(fit.misfit[len(fit.net.spans) + k]) * TURN_LIMIT, 6) + 0.0
    return Residual(corner, ReadingKind.TURN, reading, round(reading + off, 6), off, TURN_LIMIT)


def _closure(readings: Readings, fit: _Fit) -> Closure | None:
    """The walk by sides and turns alone, in units; None if they do not suffice."""
    net = fit.net
    turned = [net.turned(k) for k in range(net.count)]
    whole = filled([None if turn is None else degrees(turn) for turn in turned], fit.sense)
    sides = [net.distance(k, (k + 1) % net.count) for k in range(net.count)]
    known = [side for side in sides if side is not None]
    if whole is None or len(known) < net.count:
        return None
    return close_traverse(known, directions(whole))


def _told(readings: Readings, fit: _Fit) -> Survey:
    net, closure = fit.net, _closure(readings, fit)
    missed = None if closure is None else Length(round(closure.misclosure))
    residuals = _residuals(readings, fit)
    numbers = redundancy_numbers(net, fit.points)
    names = [a + b for a, b, _ in (*readings.sides, *readings.ties)] + [name for name, _ in readings.turns]
    unchecked = tuple(name for name, r in zip(names, numbers.tolist(), strict=True) if r < CHECKED)
    perimeter = float(np.sum(abs(fit.points - np.roll(fit.points, 1))))
    return Survey(
        points=tuple(zip(readings.corners, fit.ring, strict=True)),
        anticlockwise=fit.sense > 0,
        misclosure=missed,
        perimeter=Length(round(perimeter)),
        ratio=closure.ratio if closure and missed not in (None, ZERO) else None,
        residuals=residuals,
        redundancy=net.redundancy,
        s0=round(sqrt(fit.cost / net.redundancy), 6) if net.redundancy > 0 else None,
        spread=Length(round(spread(net, fit.points))),
        unchecked=unchecked,
        next_tie=next_tie(readings, net, fit.points) if unchecked else None,
    )
