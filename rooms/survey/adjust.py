"""From readings to an outline: try the shapes they allow, adjust each, and keep the one that is sound."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from rooms.lengths import Length
from rooms.survey.blunders import suspicion
from rooms.survey.fitting import Fit, fits
from rooms.survey.fixing import is_fixed, settling, untaped
from rooms.survey.network import network, rank
from rooms.survey.problems import SurveyError, SurveyProblem
from rooms.survey.readings import Readings, turning
from rooms.survey.result import Survey
from rooms.survey.ring import check_ring
from rooms.survey.starts import generic
from rooms.survey.stating import residuals, state
from rooms.survey.vetting import senses, vet


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
    found = _enough(readings, fits(readings, systems))
    return state(readings, _chosen(readings, sorted(found, key=lambda fit: fit.cost)))


def _refuse(problems: tuple[SurveyProblem, ...]) -> None:
    if problems:
        raise SurveyError(problems)


def _not_round(readings: Readings) -> SurveyProblem:
    total = sum(turning(angle, 1) for _, angle in readings.turns)
    return SurveyProblem("turns-not-round", tuple(name for name, _ in readings.turns), degrees=(total,))


def _enough(readings: Readings, tried: Iterable[Fit]) -> list[Fit]:
    """The shapes tried until two outlines that a tie tells apart are met: no third one changes the verdict."""
    found: list[Fit] = []
    outlines: list[Fit] = []
    for fit in tried:
        found.append(fit)
        if fit.agrees and fit.sound:
            if outlines and _telling(readings, outlines[0], fit) is not None:
                break
            outlines.append(fit)
    return found


def _chosen(readings: Readings, found: list[Fit]) -> Fit:
    """The one shape that is sound and agrees with the readings; else the reason why there is none."""
    agreeing = [fit for fit in found if fit.agrees]
    outlines = [fit for fit in agreeing if fit.sound]
    best = next((fit for fit in found if fit.sound), None)
    if best is None and agreeing:
        _refuse(check_ring(tuple(zip(readings.corners, agreeing[0].ring, strict=True))))
    best = best or found[0]
    if not is_fixed(best.net, best.points, best.precision):
        _refuse((SurveyProblem("not-fixed", settle=settling(readings, best.net, best.points)),))
    if not outlines:
        _refuse((_disagreeing(readings, best),))
    for other in outlines[1:]:
        if (line := _telling(readings, best, other)) is not None:
            _refuse((line,))
    return outlines[0]


def _disagreeing(readings: Readings, best: Fit) -> SurveyProblem:
    """That no shape keeps every reading within its limit, with the readings that may be at fault first."""
    worst = tuple(residual for residual in residuals(readings, best) if residual.share > 1)
    suspected = suspicion(readings, best.net, best.sense, best.balanced)
    names = tuple(suspect.name for suspect in suspected.suspects) if suspected else ()
    names = tuple(dict.fromkeys((*names, *(residual.name for residual in worst))))
    return SurveyProblem("readings-disagree", names, residuals=worst, suspicion=suspected)


def _telling(readings: Readings, one: Fit, other: Fit) -> SurveyProblem | None:
    """The tie that tells two shapes apart; None when no tie would, to the tolerance of two readings."""
    lines = untaped(readings, sides=True)
    if not lines:
        return None
    first, second = np.array([line.first for line in lines]), np.array([line.second for line in lines])
    sizes = [abs(fit.points[second] - fit.points[first]) for fit in (one, other)]
    apart = np.round(abs(sizes[0] - sizes[1]), 3)
    best = int(np.argmax(apart))
    if apart[best] <= 2 * one.net.error:
        return None
    name, lengths = lines[best].name, tuple(Length(round(float(size[best]))) for size in sizes)
    return SurveyProblem("two-outlines", (name,), lengths, settle=(name,))
