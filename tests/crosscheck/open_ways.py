"""Whether upright furniture leaves a walkway of the model open."""

from __future__ import annotations

from fitter.model.separation import Ground, Rect, is_clear
from fitter.model.walkways import Bar, Walkway
from rooms.room import Point

Boxes = tuple[tuple[int, int, int, int], ...]
"""Boxes that hang together: least x and y, greatest x and y, in units of the room."""

_FAR = 10**7
"""Units: farther than any place of a test from any bank."""


def leaves_open(way: Walkway, boxes: Boxes) -> bool:
    """Whether the boxes keep clear of everything on one of both banks."""
    if way.blocked:
        return False
    return any(all(_clear(bar, boxes) for bar in bank) for bank in way.banks)


def _clear(bar: Bar, boxes: Boxes) -> bool:
    behind = tuple((_whole(a), _whole(b)) for a, b in bar.behind)
    ground = Ground(tuple(map(_whole, bar.points)), bar.keep.units, 1, _FAR, behind=behind)
    return all(is_clear(Rect(*box), ground) for box in boxes)


def _whole(point: Point) -> tuple[int, int]:
    return point.x.units, point.y.units
