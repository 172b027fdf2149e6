"""What an adjusted shape is worth, stated reading by reading and corner by corner."""

from __future__ import annotations

from math import degrees, sqrt

import numpy as np

from rooms.lengths import ZERO, Length
from rooms.survey.blunders import critical, standardised, suspicion
from rooms.survey.closing import explained, loose
from rooms.survey.compass import traverse, unwalked
from rooms.survey.ellipses import ellipses
from rooms.survey.fitting import Fit
from rooms.survey.fixing import CHECKED, next_tie
from rooms.survey.readings import DEVIATIONS, TURN_LIMIT, ReadingKind, Readings, inside, turning
from rooms.survey.result import Residual, Survey
from rooms.survey.traverse import Closure, close_traverse, directions, filled


def residuals(readings: Readings, fit: Fit) -> tuple[Residual, ...]:
    """Every reading with what the shape makes of it, the greatest share of its limit first."""
    tests = standardised(fit.net.misfit(fit.balanced), fit.precision)
    spans = len(fit.net.spans)
    found = [_length_residual(readings, fit, k, tests[k]) for k in range(spans)]
    found += [_turn_residual(readings, fit, k, tests[spans + k]) for k in range(len(readings.turns))]
    return tuple(sorted(found, key=lambda residual: -round(residual.share, 9)))


def _length_residual(readings: Readings, fit: Fit, k: int, test: float | None) -> Residual:
    a, b, reading = (*readings.sides, *readings.ties)[k]
    i, j = fit.net.spans[k]
    adjusted = Length(round(float(abs(fit.points[j] - fit.points[i]))))
    kind = ReadingKind.SIDE if k < len(readings.sides) else ReadingKind.TIE
    limit = max(readings.tolerance, Length(1))
    checked = _checked(fit, k)
    return Residual(a + b, kind, reading, adjusted, adjusted - reading, limit, checked, test)


def _turn_residual(readings: Readings, fit: Fit, k: int, test: float | None) -> Residual:
    corner, angle = readings.turns[k]
    reading = inside(turning(angle, fit.sense), fit.sense)
    place = len(fit.net.spans) + k
    # The misfit is observed less computed of the turn made, which runs against the inside angle.
    off = round(fit.sense * float(fit.misfit[place]) * TURN_LIMIT, 6) + 0.0
    test = None if test is None else -fit.sense * test
    adjusted = round(reading + off, 6)
    return Residual(corner, ReadingKind.TURN, reading, adjusted, off, TURN_LIMIT, _checked(fit, place), test)


def _checked(fit: Fit, place: int) -> float:
    return round(min(1.0, max(0.0, float(fit.precision.numbers[place]))), 6) + 0.0


def _closure(fit: Fit) -> Closure | None:
    """The walk by sides and turns alone, in units; None if they do not suffice."""
    net = fit.net
    turned = [net.turned(k) for k in range(net.count)]
    whole = filled([None if turn is None else degrees(turn) for turn in turned], fit.sense)
    sides = [net.distance(k, (k + 1) % net.count) for k in range(net.count)]
    known = [side for side in sides if side is not None]
    if whole is None or len(known) < net.count:
        return None
    return close_traverse(known, directions(whole))


def state(readings: Readings, fit: Fit) -> Survey:
    """The survey that a shape makes."""
    net, closure = fit.net, _closure(fit)
    missed = None if closure is None else Length(round(closure.misclosure))
    most = None if missed is None else explained(readings, fit)
    found = residuals(readings, fit)
    named = [(a + b, k) for k, (a, b, _) in enumerate((*readings.sides, *readings.ties))]
    named += [(name, len(named) + k) for k, (name, _) in enumerate(readings.turns)]
    unchecked = tuple(name for name, k in named if fit.precision.numbers[k] < CHECKED)
    perimeter = float(np.sum(abs(fit.points - np.roll(fit.points, 1))))
    stands_out = net.redundancy > 0 and any(abs(r.standardised or 0.0) > critical(net.redundancy) for r in found)
    return Survey(
        points=tuple(zip(readings.corners, fit.ring, strict=True)),
        anticlockwise=fit.sense > 0,
        misclosure=missed,
        perimeter=Length(round(perimeter)),
        ratio=closure.ratio if closure and missed not in (None, ZERO) else None,
        residuals=found,
        redundancy=net.redundancy,
        s0=round(DEVIATIONS * sqrt(fit.cost / net.redundancy), 6) if net.redundancy > 0 else None,
        spread=Length(round(fit.precision.spread)),
        unchecked=unchecked,
        next_tie=next_tie(readings, net, fit.points, fit.precision) if unchecked else None,
        ellipses=ellipses(readings.corners, fit.precision),
        critical=round(critical(net.redundancy), 6) if net.redundancy > 0 else None,
        suspicion=suspicion(readings, net, fit.sense, fit.balanced) if stands_out else None,
        traverse=traverse(readings, net, fit.sense),
        unwalked=unwalked(readings),
        explained=most,
        loose=loose(readings, fit) if missed is not None and most is not None and missed > most else (),
    )
