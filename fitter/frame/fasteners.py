"""Screws, nails and bolts as they are sold, and which of them a joint takes.

Sizes of wood screws by gauge, D = 0.060 + 0.013 n in, are verified in trade tables; root diameters are those of NDS
Appendix L (#10 verified, the others from memory); metric sizes, nails, bolts and lengths sold are from memory.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from fitter.domain.woodwork import Fixing
from rooms.lengths import UNITS_PER_INCH, UNITS_PER_MM, Length

LEAST = 6
"""Diameters that a screw or nail must reach into the second part, its tip included: NDS chapter 12, wood screws."""
FULL = 10
"""Diameters for its full lateral value: NDS chapter 12, from memory."""
TIP = Length.inches("1/8")
"""Wood that stays beyond a tip, so that it never comes through: common practice."""


@dataclass(frozen=True)
class Size:
    """A size of fastener.

    Args:
        kind: what it is.
        name: it is sold by.
        diameter: of its shank, in units.
        root: under its thread, in units; of a nail or bolt its shank.
        lengths: sold, shortest first, under the head.
    """

    kind: Fixing
    name: str
    diameter: Fraction
    root: Fraction
    lengths: tuple[Length, ...]

    @cached_property
    def shank(self) -> float:
        """Its diameter as a float, for looking for places."""
        return float(self.diameter)

    @cached_property
    def least(self) -> int:
        """Units that it must reach into the second part."""
        return (LEAST * self.diameter).__ceil__()

    @cached_property
    def full(self) -> int:
        """Units for its full value."""
        return (FULL * self.diameter).__ceil__()


def _inches(*sizes: str) -> tuple[Length, ...]:
    return tuple(Length.inches(size) for size in sizes)


def _mm(*sizes: int) -> tuple[Length, ...]:
    return tuple(Length.millimetres(size) for size in sizes)


_SCREWS_IN = _inches("1", "5/4", "3/2", "13/8", "2", "5/2", "3", "7/2", "4", "5", "6")
_SCREWS_MM = _mm(25, 30, 40, 45, 50, 60, 70, 80, 90, 100, 120, 140, 160)
_BOLTS_IN = _inches(
    "3/2", "2", "5/2", "3", "7/2", "4", "9/2", "5", "11/2", "6", "13/2", "7", "15/2", "8", "9", "10", "11", "12"
)
_BOLTS_MM = _mm(40, 50, 60, 70, 80, 90, 100, 110, 120, 130, 140, 150, 160, 180, 200, 220, 260, 280, 300)


def _inch_size(kind: Fixing, name: str, diameter: str, root: str, lengths: tuple[Length, ...]) -> Size:
    return Size(kind, name, Fraction(diameter) * UNITS_PER_INCH, Fraction(root) * UNITS_PER_INCH, lengths)


def _mm_size(kind: Fixing, name: str, diameter: str, root: str, lengths: tuple[Length, ...]) -> Size:
    return Size(kind, name, Fraction(diameter) * UNITS_PER_MM, Fraction(root) * UNITS_PER_MM, lengths)


_SCREW, _POCKET, _NAIL, _BOLT = Fixing.SCREW, Fixing.POCKET_SCREW, Fixing.NAIL, Fixing.BOLT
_GAUGES_IN = (("#8", "0.164", "0.131"), ("#9", "0.177", "0.142"), ("#10", "0.190", "0.152"))
_GAUGES_MM = (("4 mm", "4", "2.8"), ("4.5 mm", "4.5", "3.15"), ("5 mm", "5", "3.5"))
_SOLD: dict[tuple[Fixing, bool], tuple[Size, ...]] = {
    **{(kind, True): tuple(_inch_size(kind, *gauge, _SCREWS_IN) for gauge in _GAUGES_IN) for kind in (_SCREW, _POCKET)},
    **{(kind, False): tuple(_mm_size(kind, *gauge, _SCREWS_MM) for gauge in _GAUGES_MM) for kind in (_SCREW, _POCKET)},
    (_NAIL, True): (
        _inch_size(_NAIL, "6d", "0.113", "0.113", _inches("2")),
        _inch_size(_NAIL, "8d", "0.131", "0.131", _inches("5/2")),
        _inch_size(_NAIL, "10d", "0.148", "0.148", _inches("3")),
    ),
    (_NAIL, False): (
        _mm_size(_NAIL, "2.8 mm", "2.8", "2.8", _mm(50)),
        _mm_size(_NAIL, "3.1 mm", "3.1", "3.1", _mm(65)),
        _mm_size(_NAIL, "3.4 mm", "3.4", "3.4", _mm(75)),
    ),
    (_BOLT, True): (
        _inch_size(_BOLT, '5/16"', "0.3125", "0.3125", _BOLTS_IN),
        _inch_size(_BOLT, '3/8"', "0.375", "0.375", _BOLTS_IN),
    ),
    (_BOLT, False): (_mm_size(_BOLT, "M8", "8", "8", _BOLTS_MM), _mm_size(_BOLT, "M10", "10", "10", _BOLTS_MM)),
}


def sold(kind: Fixing, *, imperial: bool) -> tuple[Size, ...]:
    """The sizes of a kind that shops sell, thinnest first."""
    return _SOLD[kind, imperial]


def suited(kind: Fixing, through: int, *, imperial: bool) -> tuple[Size, ...]:
    """The sizes to try for a part so thick, best first.

    A thicker part takes a thicker screw: #10 from 1 1/2 in (38 mm), #9 from 1 1/4 in, else #8 (common practice); where
    the second part is too shallow for its penetration, the thinner ones follow. Pocket screws are #8 (4 mm) always.
    """
    sizes = sold(kind, imperial=imperial)
    if kind is Fixing.POCKET_SCREW:
        return sizes[:1]
    if kind is not Fixing.SCREW:
        return sizes[::-1]
    inches = Fraction(through, UNITS_PER_INCH)
    return sizes[: 3 if inches >= Fraction(37, 25) else 2 if inches >= Fraction(5, 4) else 1][::-1]


def chosen(sizes: Iterable[Size], through: int, room: int, *, least: bool = False) -> tuple[Size, Length] | None:
    """The fastener that holds best: the first size of which a length does.

    Args:
        sizes: best first.
        through: wood under the head in the part that is held, in units.
        room: wood in the other part along the fastener, in units.
        least: whether the least penetration will do, where longer ones run into others.

    Returns:
        The size and the shortest length sold that reaches full penetration (10 diameters); where the second part is
        too shallow for that, the longest whose tip stays inside, if it still has 6 diameters; else None.
    """
    for size in sizes:
        longest = through + room - TIP.units
        fit = [length for length in size.lengths if through + size.least <= length.units <= longest]
        full = [length for length in fit if length.units >= through + size.full]
        if fit:
            return size, fit[0] if least else full[0] if full else fit[-1]
    return None


def bolt(size: Size, grip: int) -> Length | None:
    """The shortest bolt sold that takes a washer (1/16 in, 2 mm) and a nut as high as its diameter beyond the grip."""
    least = grip + size.diameter + Length.inches("1/16").units
    return next((length for length in size.lengths if length.units >= least), None)


def pilot(size: Size, gravity: Fraction, *, near_end: bool, imperial: bool) -> Fraction:
    """The hole to bore first, to the nearest 1/64 in or half millimetre, in units.

    NDS 12.1.5, from memory: 90 % of the root where the specific gravity is above 0.6, 70 % above 0.5, else it may be
    left out; here it is bored there too where wood would split, near an end. A bolt has 1/16 in or 1 mm of play.

    Args:
        size: of the fastener.
        gravity: specific gravity of the wood.
        near_end: whether it goes in closer than 15 diameters to an end.
        imperial: whether drills are sold in fractions of an inch.
    """
    drill = Fraction(UNITS_PER_INCH, 64) if imperial else Fraction(UNITS_PER_MM, 2)
    if size.kind is Fixing.BOLT:
        return size.diameter + (4 if imperial else 2) * drill
    if gravity <= Fraction(1, 2) and not near_end:
        return Fraction(0)
    share = Fraction(9, 10) if gravity > Fraction(3, 5) else Fraction(7, 10)
    return round(size.root * share / drill) * drill
