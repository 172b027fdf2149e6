"""The geometry of a pocket screw.

A pocket is bored at 15° from a long face toward the face that butts against the other part: first a wide bore, which
ends on a flat shoulder inside the wood, where the screw's washer head seats; then the screw goes on along the same line
through what is left, the web, and comes out of the butting face. Seen in the plane of the screw:

    bored face  ──────╲      ╱──────────────┐
                 mouth  ╲  ╱ bore            │      sin, cos: of 15°
                          ╲▁ head            │      x: depth at which the screw leaves, from the bored face
                             ╲▁▁ web s ▁▁▁▁▁▁│▁▁▁   s: web, from the shoulder to the butting face, along the screw
                                             │x     t: thickness of the stock
    other face  ─────────────────────────────┘      r: half of the wide bore

The screw leaves at mid thickness, x = t/2, of stock thicker than 1 1/2 in at 3/4 in, and nearer to the bored face
where the part is too short for the mouth. The head lies x − s·sin deep; for it to be sunk whole, x − s·sin ≥ r·cos. So
the web is as long as the stock is thick, s = t, or what leaves the head sunk where that is less (3/4 in stock is the
border). The mouth reaches x/tan + r/sin back from the butting face. No chart of lengths is remembered: the length is
the web and the penetration that the other part needs (6 diameters), up to a length sold.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from fitter.frame.fasteners import TIP, Size
from rooms.lengths import Length

SIN, COS = Fraction(380, 1469), Fraction(1419, 1469)
"""Of 14.99°: the point of the unit circle with the half angle's tangent 5/38, near enough to 15° for any jig."""
BORE = Length.inches("3/8")
"""Diameter of the wide bore: common practice."""
STOCK = Length.inches("3/2")
"""Thickest stock that is bored to its middle."""
LEAST_WEB = Length.inches("1/4")
"""Web below which the head would pull through."""
BEHIND_MOUTH = Length.inches("1/4")
"""Wood left behind a mouth."""


@dataclass(frozen=True)
class Pocket:
    """One pocket screw in the plane of its bore, in units.

    Args:
        exit: depth below the bored face at which it leaves the part.
        web: wood under its head, along the screw.
        length: of the screw.
    """

    exit: Fraction
    web: int
    length: Length

    @property
    def head(self) -> tuple[Fraction, Fraction]:
        """Where the head seats: how far before the butting face, and how deep below the bored face."""
        return self.web * COS, self.exit - self.web * SIN

    @property
    def mouth(self) -> Fraction:
        """How far before the butting face the middle of the bore meets the bored face."""
        return self.exit * COS / SIN

    @property
    def back(self) -> Fraction:
        """How far before the butting face the mouth ends."""
        return mouth_back(self.exit)


def mouth_back(exit: Fraction) -> Fraction:
    """How far a mouth reaches back from the butting face, for a screw that leaves so deep."""
    return (exit * COS + Fraction(BORE.units, 2)) / SIN


def exit_depth(stock: int, back: int) -> Fraction:
    """How deep below the bored face a pocket screw leaves.

    Args:
        stock: thickness of the part under the bored face.
        back: how long the part is behind the butting face.
    """
    middle = Fraction(min(stock, STOCK.units), 2)
    return min(middle, ((back - BEHIND_MOUTH.units) * SIN - Fraction(BORE.units, 2)) / COS)


def pocket(exit: Fraction, stock: int, room: Fraction, size: Size) -> Pocket | None:
    """The pocket for a screw that leaves so deep.

    Args:
        exit: depth below the bored face at which it leaves, in units.
        stock: thickness of the part under the bored face.
        room: wood in the other part along the screw.
        size: of the screw.

    Returns:
        The shortest screw sold that has web and penetration; where its tip would come through, the longest that does
        not, bored deeper so that it still has 6 diameters; None where neither can be.
    """
    sunk = (exit - Fraction(BORE.units, 2) * COS) / SIN
    web = min(stock, STOCK.units, sunk.__floor__())
    if web < LEAST_WEB.units:
        return None
    deep = size.least
    reach = room - TIP.units
    for length in size.lengths:
        if web + deep <= length.units <= web + reach:
            return Pocket(exit, web, length)
    for length in reversed(size.lengths):
        less = min(web, length.units - deep)
        if LEAST_WEB.units <= less and length.units - less <= reach:
            return Pocket(exit, less, length)
    return None
