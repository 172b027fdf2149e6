"""What lengths are worth in boards: prices that bound the board cost of any list of parts from below."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from fitter.domain.cuts import Piece
from rooms.lengths import ZERO, Length


@dataclass(frozen=True)
class BoardPrices:
    """A price for every length of one section, such that the parts of no board are worth more than the board costs.

    The prices are a dual answer of the cutting of one list, made complete over all lengths: a length is worth the most
    that priced lengths in its place would be. So the sum of the prices of any other list from the same boards, and the
    constant, is no more than what its cheapest boards cost.

    Args:
        section: whose.
        kerf: of the saw.
        steps: lengths with one kerf, in units, at which the price rises; 0 first.
        prices: from each step on, in cents (or units of length where no price is known).
        constant: what boards on hand take off a bound; never above zero.
    """

    section: str
    kerf: Length
    steps: tuple[int, ...]
    prices: tuple[Fraction, ...]
    constant: Fraction

    def price_of(self, length: Length, less: Length = ZERO) -> Fraction:
        """What a part of some length is worth.

        Args:
            length: from long point to long point.
            less: what its mitres recede at their middle, together.

        >>> inch = Length.inches
        >>> half = BoardPrices("2x4", inch("1/8"), (0, inch(48).units), (Fraction(0), Fraction(450, 2)), Fraction(0))
        >>> half.price_of(inch("383/8")), half.price_of(inch(47))
        (Fraction(225, 1), Fraction(0, 1))
        """
        at = bisect_right(self.steps, (length - less + self.kerf).units) - 1
        return self.prices[min(at, len(self.prices) - 1)]

    def bound(self, pieces: Iterable[Piece]) -> Fraction:
        """What no boards for these parts cost less than; parts of other sections are not counted."""
        worth = Fraction(0)
        for piece in pieces:
            if piece.section == self.section:
                # Half a unit is rounded up, which makes the part no longer than it is.
                less = Length(-(-sum(end.recess.units for end in piece.ends) // 2))
                worth += piece.count * self.price_of(piece.length, less)
        return max(Fraction(0), worth + self.constant)
