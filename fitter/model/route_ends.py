"""Whether a narrower route is open wherever a wider one is, its ends looked at too.

The openings at the ends of a route are widened until it fits, so that the banks of a wider route are cut shorter. What
stands beside the stretch that the narrower route's bank has more keeps the wider distance from where the wider one's
bank ends; so it keeps the narrower one from all of that stretch, as long as the stretch is no longer than the distance
grew. In between, a disc of the wider route is one that the narrower disc lies within.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import dist

from fitter.model.banks import DUST, Bank, banks, xy
from rooms.room import Room


def ends_follow(q: Room, p: Room) -> bool:
    """Whether every jamb of a widened opening moves by no more than the distance that is kept from it grew.

    Args:
        q: with narrower routes, or a smaller tolerance.
        p: the same but for that.
    """
    for one, other in zip(q.routes, p.routes, strict=True):
        grown = float((other.width + p.tolerance - one.width - q.tolerance).units)
        if any(
            _farther(narrow, wide, end) > grown + DUST
            for narrow, wide in zip(banks(q, one), banks(p, other), strict=True)
            for end in (0, -1)
        ):
            return False
    return True


def _farther(narrow: Bank, wide: Bank, end: int) -> float:
    """How far along the outline an end of a bank lies from that of the wider route, which is cut shorter."""
    if len(wide.points) == 1 and len(narrow.points) > 1:
        return float("inf")
    walk: Sequence[tuple[float, float]] = [xy(point) for point in (narrow.points if end == 0 else narrow.points[::-1])]
    target = xy(wide.points[end])
    so_far = 0.0
    for here, after in pairwise(walk):
        if dist(here, target) + dist(target, after) <= dist(here, after) + DUST:
            return so_far + dist(here, target)
        so_far += dist(here, after)
    return 0.0 if walk and dist(walk[-1], target) <= DUST and len(walk) == 1 else float("inf")
