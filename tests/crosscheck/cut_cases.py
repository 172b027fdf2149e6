"""Lists of parts and boards for comparisons: workshop-like ones, tiny ones, and triplets of a known optimum."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from random import Random

from fitter.domain.cuts import Piece, Stock
from fitter.domain.woodwork import SQUARE, EndCut, Slant
from rooms.lengths import Length

Lists = tuple[tuple[Piece, ...], tuple[Stock, ...]]

_BOARDS = {96: 1.0, 120: 1.14, 144: 1.06, 168: 1.16, 192: 1.12}
"""Lengths in inches, and what a foot of each costs beside a foot of the shortest."""


def workshop(seed: int, most: int = 200, offcuts: int = 0) -> Lists:
    """A list as a workshop has it: 8 to 40 lengths on the sixteenth, 20 to `most` parts, 3 to 5 lengths of boards.

    Lengths: 35 % from 4 to 18 in, 40 % to 48, 20 % to 95, 5 % to 140. Many parts of few lengths, few of the others
    (Pareto). Prices are not proportional to length, and differ by 7 % either way.
    """
    random = Random(f"workshop {seed}")
    kinds = random.randint(8, min(40, most // 2))
    total = random.randint(max(20, kinds), most)
    lengths: list[Length] = []
    while len(lengths) < kinds:
        low, high = random.choices([(4, 18), (18, 48), (48, 95), (96, 140)], [35, 40, 20, 5])[0]
        length = Length.inches(Fraction(random.randint(low * 16, high * 16), 16))
        if length not in lengths:
            lengths.append(length)
    weights = [random.paretovariate(1.2) for _ in lengths]
    counts = [max(1, int(total * weight / sum(weights))) for weight in weights]
    boards = sorted(random.sample(sorted(_BOARDS), random.randint(3, 5)))
    if max(lengths) > Length.inches(boards[-1]):
        boards[-1] = 192
    foot = 100 * random.uniform(0.45, 2.60)
    stocks = [
        Stock("2x4", Length.inches(board), round(board / 12 * foot * _BOARDS[board] * random.uniform(0.93, 1.07)))
        for board in boards
    ]
    hand = random.sample(range(14, 81), offcuts)
    stocks += [Stock("2x4", Length.inches(length), None, 1) for length in hand]
    pieces = [
        Piece(f"P{n}", "2x4", length, count) for n, (length, count) in enumerate(zip(lengths, counts, strict=True), 1)
    ]
    return tuple(pieces), tuple(stocks)


def tiny(seed: int, *, mitred: bool = False, most: int = 7) -> Lists:
    """At most seven parts and three lengths of boards, short ones, so that every cutting can be tried."""
    random = Random(f"tiny {seed} {mitred}")
    side = Length.inches("7/2")
    over = random.choice(list(Slant))

    def end() -> EndCut:
        return EndCut(side, over, random.random() < 0.5) if mitred and random.random() < 0.6 else SQUARE

    pieces: list[Piece] = []
    left = most
    while left > 0 and len(pieces) < 4:
        count = random.randint(1, min(3, left))
        length = Length.inches(random.randint(8, 46))
        # A bevel whose face must stay up is laid as a blank, and proven only among plans that do so.
        held = over is Slant.WIDTH and mitred and random.random() < 0.3
        pieces.append(Piece(f"P{len(pieces)}", "2x4", length, count, (end(), end()), held))
        left -= count
    lengths = random.sample([48, 60, 72, 96], random.randint(1, 3))
    stocks = [Stock("2x4", Length.inches(length), random.randint(300, 400) * length // 48) for length in lengths]
    if random.random() < 0.5:
        stocks.append(Stock("2x4", Length.inches(random.randint(12, 47)), None, random.randint(1, 2)))
    return tuple(pieces), tuple(stocks)


def triplets(seed: int, boards: int) -> Lists:
    """Three parts to a board of 1000 mm with nothing left, so that the optimum is a third of the parts.

    After Falkenauer (1996): the first of each three is 380 to 490, the second takes from 250 to half of the rest.
    """
    random = Random(f"triplets {seed} {boards}")
    lengths: list[int] = []
    for _ in range(boards):
        first = random.randint(380, 490)
        second = random.randint(250, (1000 - first) // 2)
        lengths += [first, second, 1000 - first - second]
    return listed(1000, [(length, lengths.count(length)) for length in sorted(set(lengths), reverse=True)])


def listed(board: int | str, parts: Sequence[tuple[int | str, int]]) -> Lists:
    """Parts in millimetres, each with its count, from boards of one length that cost a cent."""
    pieces = [
        Piece(f"P{number}", "s", Length.millimetres(length), count) for number, (length, count) in enumerate(parts, 1)
    ]
    return tuple(pieces), (Stock("s", Length.millimetres(board), 1),)
