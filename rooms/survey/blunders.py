"""Which reading is most likely wrong, and which further tie would tell where that is open.

Every reading is tried as the only wrong one, as W. Baarda's data snooping does (A testing procedure for use in
geodetic networks, 1968; from memory). A reading's standardised residual is

    w = v / (sigma * sqrt(r))

with v its residual, sigma its standard deviation and r its redundancy number, the diagonal of
I - J (J'J)^-1 J'. To first order w squared is by how much the weighted square sum of the residuals falls when
the reading is left out, and so twice the logarithm of how much more likely the readings are if it is wrong.
Here that fall is computed by adjusting without the reading, since slips may be too great for the first order.

Where no single reading will do, all pairs are tried in the same way.

With one reading to spare all fall alike: the residuals are always a multiple of the same vector, and nothing
tells which reading is wrong. The same holds for any readings whose w have a correlation of one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import combinations
from math import degrees, exp, log, sqrt
from statistics import NormalDist

import numpy as np

from rooms.lengths import Length
from rooms.survey.evening import evened
from rooms.survey.fixing import Line, Precision, is_fixed, line_rows, precision, untaped
from rooms.survey.network import Network, Points, Reals, solve
from rooms.survey.readings import DEVIATIONS, WITHIN, ReadingKind, Readings, inside, turning
from rooms.survey.result import Suspect, Suspicion

_LEAST = 1e-3
"""A reading with a smaller redundancy number is not tried: its slip would have to be a thousand times what shows."""
_ODDS = 20.0
"""Suspects are told apart where one is that many times likelier than the other (the odds of `WITHIN`)."""
_APART = 2 * log(_ODDS)
"""The same as a difference of weighted square sums."""
_TRIED = 24
"""So many readings with the greatest w are tried; all of them where only one reading is to spare."""
_PAIRED = 12
"""Where one wrong reading is not enough, so many pairs are tried: those that to first order save the most."""
_DUST = 1e-6


def critical(redundancy: int) -> float:
    """The size of w that stands out: in `WITHIN` of all sound surveys no reading gets there.

    For as many independent tests as there are readings to spare (Z. Sidak's inequality of 1967, from memory).

    >>> round(critical(1), 2), round(critical(10), 2)
    (1.96, 2.8)
    """
    return NormalDist().inv_cdf((1 + exp(log(WITHIN) / redundancy)) / 2)


def standardised(misfit: Reals, known: Precision) -> list[float | None]:
    """The w of each reading, adjusted less read; None where hardly any of a slip would show."""
    numbers = known.numbers.tolist()
    return [
        None if r < _LEAST else round(-DEVIATIONS * off / sqrt(r), 6) + 0.0
        for off, r in zip(misfit.tolist(), numbers, strict=True)
    ]


@dataclass(frozen=True)
class _Without:
    """The least-squares shape without one reading, or without a few.

    Args:
        places: of the readings left out, as in `Network.misfit`.
        w: the standardised residual of each while it was in.
        net: what is left.
        points: the shape.
    """

    places: tuple[int, ...]
    w: tuple[float, ...]
    net: Network
    points: Points

    @cached_property
    def cost(self) -> float:
        """Square sum of the misfits, in standard deviations."""
        misfit = self.net.misfit(self.points)
        return DEVIATIONS**2 * float(misfit @ misfit)

    @cached_property
    def agrees(self) -> bool:
        """Whether the readings that are left can be kept within their limits."""
        within = bool(np.all(abs(self.net.misfit(self.points)) <= 1 + _DUST))
        return within or evened(self.net, self.points) is not None

    @cached_property
    def precision(self) -> Precision:
        """How well the readings that are left hold the shape."""
        return precision(self.net, self.points)

    @property
    def fixed(self) -> bool:
        """Whether they hold it at all."""
        return is_fixed(self.net, self.points, self.precision)


def suspicion(readings: Readings, net: Network, sense: int, points: Points) -> Suspicion | None:
    """What is most likely wrong with readings that miss each other.

    Args:
        readings: all of them.
        net: the same as equations.
        sense: 1 for an anticlockwise walk, -1 for a clockwise one.
        points: their least-squares shape.

    Returns:
        None where no reading is to spare, or none checks another.
    """
    known = precision(net, points)
    tests = standardised(net.misfit(points), known)
    order = [(k, w) for k, w in enumerate(tests) if w is not None]
    # Of equal tests the reading comes first whose slip would be the least, as measured in limits.
    order.sort(key=lambda test: (-round(abs(test[1]), 3), -round(float(known.numbers[test[0]]), 6), test[0]))
    tried = [_left_out(net, points, (test,)) for test in order[: None if net.redundancy == 1 else _TRIED]]
    likely = _likely(tried)
    if not likely:
        return None
    if not likely[0].agrees and (pair := _pair(net, points, tests, known)) is not None:
        first, second = _suspects(readings, net, sense, pair)
        return Suspicion((first,), enough=False, second=second)
    suspects = [one for each in likely for one in _suspects(readings, net, sense, each)]
    if len(likely) == 1:
        return Suspicion(tuple(suspects), likely[0].agrees)
    return _split(readings, net, likely, suspects)


def _left_out(net: Network, points: Points, tests: Sequence[tuple[int, float]]) -> _Without:
    places, w = tuple(place for place, _ in tests), tuple(test for _, test in tests)
    rest = net
    for place in sorted(places, reverse=True):
        rest = rest.without(place)
    return _Without(places, w, rest, solve(rest, points))


def _likely(tried: Sequence[_Without]) -> list[_Without]:
    """What explains the misclosure best, the likeliest first; of equally likely ones the least slip first."""
    sound = [one for one in tried if one.fixed]
    least = min((one.cost for one in sound), default=0.0)
    close = [one for one in sound if one.cost <= least + _APART]
    return sorted(close, key=lambda one: round(one.cost - least, 3))


def _pair(net: Network, points: Points, tests: Sequence[float | None], known: Precision) -> _Without | None:
    """Two readings without which all others agree, where no other two would explain it nearly as well."""
    if net.redundancy < 3:
        return None
    usual = [(k, w) for k, w in enumerate(tests) if w is not None]
    saved = _saved(net.misfit(points), known.residual_cofactors)
    pairs = sorted(combinations(usual, 2), key=lambda pair: -round(float(saved[pair[0][0], pair[1][0]]), 6))
    likely = _likely([_left_out(net, points, pair) for pair in pairs[:_PAIRED]])
    return likely[0] if len(likely) == 1 and likely[0].agrees else None


def _saved(misfit: Reals, shown: Reals) -> Reals:
    """By how much the square sum falls, to first order, when any two readings are left out.

    For misfits v and the block q of the matrix that makes residuals of slips it is v' q^-1 v; none is told
    where the two show alike and q has no inverse.
    """
    numbers = np.diag(shown)
    determinant = np.outer(numbers, numbers) - shown**2
    squares = np.outer(misfit**2, numbers)
    top = squares + squares.T - 2 * np.outer(misfit, misfit) * shown
    alike = determinant < _LEAST**2
    return np.asarray(np.where(alike, 0.0, top / np.where(alike, 1.0, determinant)))


def _suspects(readings: Readings, net: Network, sense: int, without: _Without) -> tuple[Suspect, ...]:
    """The readings left out, with what the others make of them."""
    lengths, turns = net.computed(without.points)
    taped, found = (*readings.sides, *readings.ties), []
    for place, w in zip(without.places, without.w, strict=True):
        if place < len(taped):
            a, b, reading = taped[place]
            kind = ReadingKind.SIDE if place < len(readings.sides) else ReadingKind.TIE
            found.append(Suspect(a + b, kind, reading, Length(round(float(lengths[place]))), w))
        else:
            corner, angle = readings.turns[place - len(taped)]
            meant = inside(degrees(float(turns[place - len(taped)])), sense) % 360.0
            read = inside(turning(angle, sense), sense)
            found.append(Suspect(corner, ReadingKind.TURN, read, round(meant, 6), -sense * w))
    return tuple(found)


def _split(readings: Readings, net: Network, likely: list[_Without], suspects: list[Suspect]) -> Suspicion:
    """The line not yet taped whose length tells most pairs of suspects apart, with what it would read."""
    lines, enough = untaped(readings, sides=True), likely[0].agrees
    if not lines:
        return Suspicion(tuple(suspects), enough)
    apart = _apart(net, likely[:_TRIED], lines)
    told = np.sum(apart > _APART, axis=(0, 1)) // 2
    # Among lines that tell as many pairs, the one that tells them most clearly; clearer than enough counts no more.
    clear = np.sum(np.minimum(apart, 4 * _APART), axis=(0, 1))
    best = max(range(len(lines)), key=lambda k: (int(told[k]), round(float(clear[k]), 3), -k))
    if not told[best]:
        return Suspicion(tuple(suspects), enough)
    sizes = [_size(one.points, lines[best]) for one in likely]
    foretold = tuple(replace(one, foretold=size) for one, size in zip(suspects, sizes, strict=True))
    return Suspicion(foretold, enough, lines[best].name, int(told[best]))


def _size(points: Points, line: Line) -> Length:
    return Length(round(float(abs(points[line.second] - points[line.first]))))


def _apart(net: Network, likely: list[_Without], lines: Sequence[Line]) -> Reals:
    """For each two suspects and each line, how sure its length would be to tell them apart.

    If the first is wrong the line has the length d1 that the readings without it foretell. By those without
    the second it should have d2, to a variance of its own and that of the new reading. So the square sum of
    the second grows by (d1 - d2)^2 over both variances, while that of the first stays. The lesser of both
    ways round counts.
    """
    first, second = np.array([line.first for line in lines]), np.array([line.second for line in lines])
    sizes = np.array([abs(one.points[second] - one.points[first]) for one in likely]) / net.error
    variances = np.array([1 + one.precision.variances(line_rows(net, one.points, lines)) for one in likely])
    gaps = (DEVIATIONS * (sizes[:, None] - sizes[None, :])) ** 2
    return np.asarray(np.minimum(gaps / variances[:, None], gaps / variances[None, :]))
