"""What can be said against readings before any shape is tried."""

from __future__ import annotations

import heapq
from collections.abc import Iterator

from rooms.lengths import Length
from rooms.survey.problems import SurveyProblem
from rooms.survey.readings import TURN_LIMIT, Readings, Turn, turning

MOST_CORNERS = 100


def vet(readings: Readings) -> tuple[SurveyProblem, ...]:
    """All faults of form, else all lengths that no triangle or outline allows."""
    count = len(readings.corners)
    if count < 3:
        return (SurveyProblem("too-few-corners", readings.corners),)
    if count > MOST_CORNERS:
        return (SurveyProblem("too-many-corners", readings.corners[:1]),)
    faults = (*_twice(readings), *_sides(readings), *_turns(readings), *_ties(readings))
    return faults or tuple(_stretched(readings))


def senses(readings: Readings) -> tuple[int, ...]:
    """Directions of the walk that the turns allow: 1 anticlockwise, -1 clockwise; anticlockwise first."""
    told = any(isinstance(angle, Turn) for _, angle in readings.turns)
    possible = (1, -1) if told else (-1,) if readings.clockwise else (1,)
    return tuple(sense for sense in possible if _comes_round(readings, sense))


def _comes_round(readings: Readings, sense: int) -> bool:
    """Whether the turns can add up to one whole turn, missing ones being less than half a turn each."""
    rest = 360.0 * sense - sum(turning(angle, sense) for _, angle in readings.turns)
    missing = len(readings.corners) - len(readings.turns)
    return abs(rest) < 180.0 * missing if missing else abs(rest) <= TURN_LIMIT * len(readings.corners)


def _twice(readings: Readings) -> Iterator[SurveyProblem]:
    taped = [(*sorted((a, b)), a + b) for a, b, _ in (*readings.sides, *readings.ties)]
    turned = [(corner, "", corner) for corner, _ in readings.turns]
    named = [(corner, "", corner) for corner in readings.corners]
    for names in (named, taped, turned):
        for k, (first, second, shown) in enumerate(names):
            if (first, second) in [earlier[:2] for earlier in names[:k]]:
                yield SurveyProblem("named-twice", (shown,))


def _sides(readings: Readings) -> Iterator[SurveyProblem]:
    for a, b, length in readings.sides:
        if unknown := _unknown(readings, a, b):
            yield unknown
        elif a == b or not readings.neighbours(readings.index(a), readings.index(b)):
            yield SurveyProblem("side-not-between-neighbours", (a + b,))
        elif length.units <= 0:
            yield SurveyProblem("no-length", (a + b,))


def _ties(readings: Readings) -> Iterator[SurveyProblem]:
    for a, b, length in readings.ties:
        if unknown := _unknown(readings, a, b):
            yield unknown
        elif a == b or readings.neighbours(readings.index(a), readings.index(b)):
            yield SurveyProblem("tie-between-neighbours" if a != b else "no-length", (a + b,))
        elif length.units <= 0:
            yield SurveyProblem("no-length", (a + b,))


def _turns(readings: Readings) -> Iterator[SurveyProblem]:
    for corner, angle in readings.turns:
        if corner not in readings.corners:
            yield SurveyProblem("turn-at-unknown-corner", (corner,))
        elif not isinstance(angle, Turn) and not 0 < angle < 360:
            yield SurveyProblem("angle-out-of-range", (corner,), degrees=(float(angle),))


def _unknown(readings: Readings, a: str, b: str) -> SurveyProblem | None:
    unknown = tuple(corner for corner in dict.fromkeys((a, b)) if corner not in readings.corners)
    return SurveyProblem("unknown-corner", (a + b, *unknown)) if unknown else None


def _stretched(readings: Readings) -> Iterator[SurveyProblem]:
    """Lengths that are longer than the way round over other readings, each allowed its tolerance."""
    ties = [a + b for a, b, _ in readings.ties]
    ways = _ways(readings)
    for a, b, length in (*readings.sides, *readings.ties):
        round_it = _shortest(ways, a + b, a, b)
        slack = readings.tolerance * (len(round_it) + 1)
        names = (a + b, *(name for name, _ in round_it))
        if round_it and length > sum((size for _, size in round_it), slack):
            code = "tie-no-triangle" if any(name in ties for name in names) else "sides-cannot-close"
            yield SurveyProblem(code, names, (length, *(size for _, size in round_it)))


_Ways = dict[str, list[tuple[str, str, Length]]]


def _ways(readings: Readings) -> _Ways:
    """For each corner the taped lengths from there: the corner they lead to, name and length."""
    ways: _Ways = {corner: [] for corner in readings.corners}
    for a, b, length in (*readings.sides, *readings.ties):
        ways[a].append((b, a + b, length))
        ways[b].append((a, a + b, length))
    return ways


def _shortest(ways: _Ways, leave_out: str, a: str, b: str) -> tuple[tuple[str, Length], ...]:
    """The shortest way between two corners over taped lengths but one (Dijkstra, 1959)."""
    queue: list[tuple[int, int, str, tuple[tuple[str, Length], ...]]] = [(0, 0, a, ())]
    done: dict[str, bool] = {}
    while queue:
        far, _, here, path = heapq.heappop(queue)
        if here == b:
            return path
        if here in done:
            continue
        done[here] = True
        for other, name, length in ways[here]:
            if name != leave_out and other not in done:
                heapq.heappush(queue, (far + length.units, len(path) + 1, other, (*path, (name, length))))
    return ()
