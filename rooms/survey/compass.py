"""The outline by sides and turns alone, balanced by the compass rule, to be laid beside the least squares."""

from __future__ import annotations

from math import degrees

import numpy as np

from rooms.geometry import Point
from rooms.lengths import ZERO, Length
from rooms.survey.network import Network, framed
from rooms.survey.readings import Readings
from rooms.survey.result import Traverse
from rooms.survey.traverse import close_traverse, directions


def unwalked(readings: Readings) -> tuple[str, ...]:
    """What was not read of the walk round: names of sides, then of corners for their turns."""
    count = len(readings.corners)
    taped = {frozenset((a, b)) for a, b, _ in readings.sides}
    turned = [corner for corner, _ in readings.turns]
    pairs = [(readings.corners[k], readings.corners[(k + 1) % count]) for k in range(count)]
    sides = [a + b for a, b in pairs if frozenset((a, b)) not in taped]
    return (*sides, *(corner for corner in readings.corners if corner not in turned))


def traverse(readings: Readings, net: Network, sense: int) -> Traverse | None:
    """The closed traverse, balanced: angles first, alike at every corner, then the sides by the compass rule.

    That is the order of work of survey texts (from memory). Ties are not used. Afterwards the outline is
    turned so that the first side lies along +x, as that of the survey does.

    Returns:
        None unless every side and every turn was read.
    """
    if unwalked(readings):
        return None
    turned = [degrees(net.turned(k) or 0.0) for k in range(net.count)]
    missing = (360.0 * sense - sum(turned)) / net.count
    sides = [net.distance(k, (k + 1) % net.count) or 0.0 for k in range(net.count)]
    closure = close_traverse(sides, directions([turn + missing for turn in turned]))
    ends = np.cumsum([complex(x, y) for x, y in closure.balanced])
    places = framed(np.concatenate([[0j], ends[:-1]]))
    points = [Point(Length(round(z.real)), Length(round(z.imag))) for z in places.tolist()]
    missed = Length(round(closure.misclosure))
    return Traverse(
        points=tuple(zip(readings.corners, points, strict=True)),
        # The inside angles exceed their sum by what the turns lack of a whole one.
        angular=round(sense * missing * net.count, 6) + 0.0,
        misclosure=missed,
        perimeter=Length(round(closure.perimeter)),
        ratio=closure.ratio if missed != ZERO else None,
    )
