"""A number of a project file with what it counts, exact, so that it can be stepped through."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from rooms.lengths import Length


class Quantity(StrEnum):
    """What a number of the file counts."""

    LENGTH = "length"
    COUNT = "count"
    MONEY = "money"
    SHARE = "share"
    ANGLE = "angle"
    FALL = "fall"


@dataclass(frozen=True)
class Amount:
    """A number of the file.

    Args:
        quantity: what it counts.
        number: units of `rooms.lengths`, things, whole money, or degrees; a share or a fall as itself (0.1 for 10 %).
    """

    quantity: Quantity
    number: Fraction

    @property
    def length(self) -> Length:
        """The length that it is; ValueError for anything else."""
        if self.quantity is not Quantity.LENGTH or self.number.denominator != 1:
            message = f"{self.number} {self.quantity} is no length"
            raise ValueError(message)
        return Length(int(self.number))
