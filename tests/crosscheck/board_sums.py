"""What a few parts cost at least in boards, by trying every way to share them out: slow, and hard to get wrong."""

from __future__ import annotations

from collections import Counter
from functools import cache
from itertools import product

from rooms.lengths import Length

Boards = tuple[tuple[Length, int], ...]


@cache
def cheapest_boards(parts: tuple[Length, ...], boards: Boards, kerf: Length, trim: Length) -> int:
    """The least price of boards that yield all parts.

    Args:
        parts: their lengths, rising; a dozen or so.
        boards: length and price of each kind in the shop.
        kerf: between neighbours on a board.
        trim: off both ends of a board.
    """
    lengths = sorted(Counter(parts).items(), reverse=True)
    loads = _loads(tuple(length.units for length, _ in lengths), tuple(n for _, n in lengths), boards, kerf, trim)

    @cache
    def least(left: tuple[int, ...]) -> int:
        """Of the parts that are left: one of the longest lies on some board with some of the others."""
        if not any(left):
            return 0
        first = next(n for n, number in enumerate(left) if number)
        return min(
            price + least(tuple(a - b for a, b in zip(left, load, strict=True)))
            for load, price in loads
            if load[first] and all(a >= b for a, b in zip(left, load, strict=True))
        )

    return least(tuple(number for _, number in lengths))


def _loads(
    lengths: tuple[int, ...], numbers: tuple[int, ...], boards: Boards, kerf: Length, trim: Length
) -> list[tuple[tuple[int, ...], int]]:
    """Every load that some board holds, with the price of the cheapest such board."""
    longest = max(length.units for length, _ in boards)
    found = []
    for load in product(*(range(min(n, longest // length) + 1) for length, n in zip(lengths, numbers, strict=True))):
        held = sum(load)
        if held:
            long = sum(a * b for a, b in zip(load, lengths, strict=True)) + kerf.units * (held - 1) + 2 * trim.units
            prices = [price for length, price in boards if length.units >= long]
            if prices:
                found.append((load, min(prices)))
    return found
