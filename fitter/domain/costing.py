"""What boards cost, as the layout model asks for it while it chooses where posts stand."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

import numpy as np
import numpy.typing as npt

from fitter.domain.layout import Layout

Counts = npt.NDArray[np.int64]


class Bill(Protocol):
    """The boards of one arrangement of runs, in cents; rails and posts vary, all else is settled.

    Lengths are whole shop marks. Cleats are as long as their rails.
    """

    def cost(self, rails: tuple[int, ...], posts: int) -> int:
        """The least that boards cost which yield rails of these lengths and so many support posts."""

    def worths(self, rails: tuple[int, ...], posts: int) -> tuple[int, ...]:
        """What some rails and posts are worth in each section that varies, in thousandths of a cent.

        No board holds more than it costs of that, so worths of several lines of rails may be added.
        """

    def floor(self, length: Counts, rails: Counts, posts: Counts, worths: Sequence[Counts]) -> Counts:
        """No boards cost less.

        Args:
            length: of all rails together.
            rails: how many they are.
            posts: how many support posts.
            worths: in each section that varies.

        Returns:
            An array as long as these.
        """


class Costing(Protocol):
    """Prices of boards."""

    def of(self, layout: Layout) -> Bill:
        """The bill of a layout, whose posts may stand elsewhere."""


__all__ = ["Bill", "Costing", "Counts"]
