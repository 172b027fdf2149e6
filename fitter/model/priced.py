"""Where posts stand so that boards cost least: all ways with few posts weighed, only those that may win are planned."""

from __future__ import annotations

from dataclasses import dataclass
from functools import reduce

import numpy as np

from fitter.domain.costing import Bill, Counts
from fitter.domain.layout import Face, Side
from fitter.model import bays
from fitter.model.arrangement import Place, different_lengths
from fitter.model.rail_lines import RailLine

MORE = 1
"""So many more posts than it needs may a line have, where that saves money."""

_WAYS = 200_000
"""Beyond so many ways together, lines keep to the fewest posts."""


@dataclass(frozen=True)
class Priced:
    """The cheapest posts of a proposal.

    Args:
        cents: what its boards cost.
        chosen: the bay split of each rail line.
        usual: the splits that take the fewest posts, then the fewest lengths.
    """

    cents: int
    chosen: tuple[bays.Split, ...]
    usual: tuple[bays.Split, ...]


@dataclass(frozen=True)
class _Way:
    """One way to stand the posts of one line, with its rails, and the cross rails that end at it."""

    split: bays.Split
    rails: tuple[int, ...]


def cheapest(
    place: Place, blocked: dict[int, frozenset[int]], usual: tuple[bays.Split, ...], bill: Bill, *, more: int = MORE
) -> Priced:
    """The posts whose boards cost least; among those the fewest, then the fewest different rail lengths.

    Args:
        place: the layout.
        blocked: places along a line that cannot carry a post, by the line's index.
        usual: the bay splits with the fewest posts, then the fewest lengths.
        bill: prices.
        more: posts that a line may have beyond the fewest.
    """
    known = _Known(place, bill)
    best = known.worth(usual)
    lines = [_ways(place, n, blocked.get(n, frozenset()), more) for n in range(len(place.lines))]
    if np.prod([float(len(ways)) for ways in lines]) > _WAYS:
        lines = [_ways(place, n, blocked.get(n, frozenset()), 0) for n in range(len(place.lines))]
    shape = tuple(len(ways) for ways in lines)
    if np.prod([float(size) for size in shape]) > 10 * _WAYS:
        return Priced(best[0], usual, usual)
    length = _sums([[sum(way.rails) for way in ways] for ways in lines])
    pieces = _sums([[len(way.rails) for way in ways] for ways in lines])
    posts = _sums([[len(way.split) for way in ways] for ways in lines])
    each = [[bill.worths(way.rails, len(way.split)) for way in ways] for ways in lines]
    worths = [_sums([[worth[k] for worth in line] for line in each]) for k in range(len(each[0][0]))]
    floors = bill.floor(length, pieces, posts, worths)
    for at in np.lexsort((posts, floors)):
        if floors[at] > best[0]:
            break
        if floors[at] == best[0] and posts[at] > best[1]:
            continue
        numbers = np.unravel_index(at, shape)
        chosen = tuple(ways[int(n)].split for ways, n in zip(lines, numbers, strict=True))
        if floors[at] < best[0] or (posts[at], known.lengths(chosen)) < best[1:3]:
            best = min(best, known.worth(chosen))
    return Priced(best[0], best[4], usual)


def _sums(values: list[list[int]]) -> Counts:
    """The sum of one value a line, for every choice of one way a line, the last line's way changing first."""
    arrays = [np.asarray(line, dtype=np.int64) for line in values]
    total: Counts = reduce(lambda a, b: np.add.outer(a, b).ravel(), arrays)
    return total


class _Known:
    """What splits are worth: cents, posts, different lengths, posts that stand on lines of their own, the splits."""

    def __init__(self, place: Place, bill: Bill) -> None:
        self.place, self.bill = place, bill
        self.costs: dict[tuple[tuple[int, ...], int], int] = {}

    def lengths(self, chosen: tuple[bays.Split, ...]) -> int:
        return different_lengths(self.place, chosen)

    def worth(self, chosen: tuple[bays.Split, ...]) -> tuple[int, int, int, int, tuple[bays.Split, ...]]:
        rails = sorted(
            rail for n, split in enumerate(chosen) for rail in _rails(self.place, self.place.lines[n], split)
        )
        posts = sum(map(len, chosen))
        key = tuple(rails), posts
        if key not in self.costs:
            self.costs[key] = self.bill.cost(*key)
        cents = self.costs[key]
        return cents, posts, self.lengths(chosen), self._apart(chosen), chosen

    def _apart(self, chosen: tuple[bays.Split, ...]) -> int:
        return sum(
            len({*chosen[front]} ^ {line - shift for line in chosen[back]}) for front, back, shift in self.place.pairs
        )


def _ways(place: Place, n: int, blocked: frozenset[int], more: int) -> list[_Way]:
    """Every way to stand the posts of a line, with the fewest or up to so many more."""
    line, s = place.lines[n], place.sizes
    clear = line.without(blocked)
    fewest = len(bays.splits(clear, s.post, s.span)[0])
    found = [
        split
        for number in range(fewest, min(fewest + more, len(clear.lines)) + 1)
        for split in bays.of_size(clear, s.post, s.span, number)
    ]
    return [_Way(split, _rails(place, line, split)) for split in found]


def _rails(place: Place, line: RailLine, split: bays.Split) -> tuple[int, ...]:
    """The rails of a line; with a back line go the cross rails that end at it."""
    found = list(bays.rails(line.clear.length, split, place.sizes.post))
    if line.face is Face.BACK:
        for arm in place.choice.arms:
            if place.owner(arm) is line.run:
                far = line.run is Side.MAIN and arm is Side.LEFT and Side.RIGHT in place.arms
                number = place.choice.main.count if far else 0
                at = dict(zip(line.numbers, line.clear.lines, strict=True)).get(number)
                x0, y0, x1, y1 = place.cross(arm, at in split)
                found.append(max(x1 - x0, y1 - y0))
    return tuple(found)
