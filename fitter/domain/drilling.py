"""Drills as they are sold, for the holes that fasteners ask for."""

from __future__ import annotations

from enum import StrEnum
from fractions import Fraction
from math import ceil

from fitter.domain.woodwork import Fastener, Fixing
from rooms.lengths import Length, Unit, round_half_up

_BITS = (Length.inches("1/64"), Length.millimetres("1/2"))
"""Steps in which drills are sold, in inches and in metric: common practice."""
_ROOM = (Length.inches("1/32"), Length.millimetres(1))
"""How much wider than its bolt a hole is: 1/32 to 1/16 in by NDS 12.1.3, from memory."""


class Bore(StrEnum):
    """What a hole is for."""

    POCKET = "pocket"
    CLEARANCE = "clearance"
    PILOT = "pilot"
    BOLT = "bolt"


def drill(fastener: Fastener, bore: Bore, unit: Unit) -> Length:
    """The drill for a hole, as it is sold: wide enough for a shank, a pilot to the nearest step."""
    step, room = (pair[0 if unit.imperial else 1] for pair in (_BITS, _ROOM))
    if bore is Bore.PILOT or fastener.kind is Fixing.NAIL:
        return step * max(1, round_half_up(Fraction(fastener.pilot) / step.units))
    width = step * ceil(Fraction(fastener.diameter) / step.units)
    return width + room if bore is Bore.BOLT else width


def told_drill(width: Length, unit: Unit) -> str:
    """A drill as it is asked for.

    >>> told_drill(Length.inches("5/32"), Unit.IN), told_drill(Length.millimetres("9/2"), Unit.M)
    ('5/32"', '4.5 mm')
    """
    if unit.imperial:
        whole, part = divmod(width.inch, 1)
        return " ".join(str(piece) for piece in (whole, part) if piece) + '"'
    return f"{float(width.mm):g} mm"
