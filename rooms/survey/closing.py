"""How far a walk by sides and turns may miss closing, and which lines would make the turns needless."""

from __future__ import annotations

from math import hypot, radians, sqrt

from rooms.lengths import Length
from rooms.survey.fitting import Fit
from rooms.survey.fixing import settling
from rooms.survey.network import network, rank
from rooms.survey.readings import TURN_LIMIT, Readings, Turn


def explained(readings: Readings, fit: Fit) -> Length:
    """What readings that are as good as their limits let sides and turns miss closing by.

    The square root of the sum of squares, the law of propagation of errors (any text on adjustment; from memory):
    each side may be off by the tolerance; an inside angle that was read by `TURN_LIMIT`, at the end of its distance
    from the corner whose turn the walk does without. A turn that says `left` or `right` counts as square: that is
    what it says, and a misclosure that needs it to be something else is to be told. Of 100 walks with square
    corners whose sides run alike both ways about two pass it: exp(-1.96²), the sum being normal along each axis.
    """
    net = fit.net
    told = [k for k, _ in enumerate(readings.corners) if net.turned(k) is None]
    spare = told[0] if told else 0
    read = [readings.index(corner) for corner, angle in readings.turns if not isinstance(angle, Turn)]
    arms = [radians(TURN_LIMIT) * float(abs(fit.points[k] - fit.points[spare])) for k in read]
    return Length(round(hypot(net.error * sqrt(len(readings.sides)), *arms)))


def loose(readings: Readings, fit: Fit) -> tuple[str, ...]:
    """Lines to tape besides, with which the tape alone fixes the shape; none where it does so already."""
    net = fit.net
    if rank(net.design(fit.points)[: len(net.spans)]) >= net.unknowns:
        return ()
    taped = Readings(readings.corners, readings.sides, (), readings.ties, readings.tolerance, fit.sense < 0)
    return settling(taped, network(taped, fit.sense), fit.points)
