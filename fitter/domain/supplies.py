"""What a project file says of things to buy besides boards and cushions: spare, boxes, coats, prices."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True)
class Supplies:
    """How the take-off counts; the defaults are common practice.

    Args:
        prices: file of the price list as the project file names it; None without one.
        spare: share of screws, nails, bolts and plugs that is bought on top.
        screws: how many a box holds, where the price list does not say it.
        nails: likewise.
        bolts: likewise, with their nuts and washers.
        plugs: likewise, for pocket holes.
        conditioner: coats under the stain; 0 for none.
        stain: coats of semitransparent oil stain.
        varnish: coats of clear varnish.
        rough: whether the wood is saw-textured or weathered, which takes more finish.
    """

    prices: str | None = None
    spare: Fraction = Fraction(1, 10)
    screws: int = 100
    nails: int = 100
    bolts: int = 1
    plugs: int = 50
    conditioner: int = 1
    stain: int = 2
    varnish: int = 2
    rough: bool = False
