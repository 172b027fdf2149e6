"""Where posts stand along a rail: every bay split enumerated, the fewest posts kept."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import count, pairwise, product

import constraint

Split = tuple[int, ...]


@dataclass(frozen=True)
class RailLine:
    """A line of rails before posts are chosen.

    Args:
        length: clear length between the things that hold its ends, in marks.
        lines: module lines within it that may carry a post, from its start, rising.
        must: lines that have to carry a post.
    """

    length: int
    lines: tuple[int, ...]
    must: tuple[int, ...] = ()


@lru_cache(maxsize=4096)
def splits(line: RailLine, post: int, span: int) -> tuple[Split, ...]:
    """Every way to stand the fewest posts under a rail line.

    Args:
        line: where posts may stand.
        post: width of a post, which stands centred on a line, its odd half mark on the high side.
        span: the longest clear opening (and rail) allowed, in marks.

    Returns:
        Each split as the lines that carry a post, in rising order; empty if no split keeps the span.
    """
    for number in range(fewest(line.length, post, span), len(line.lines) + 1):
        found = of_size(line, post, span, number)
        if found:
            return found
    return ()


def fewest(length: int, post: int, span: int) -> int:
    """No fewer posts than this can do: count + 1 spans and count posts must cover the length."""
    return max(0, -(-(length - span) // (span + post)))


@lru_cache(maxsize=4096)
def of_size(line: RailLine, post: int, span: int, number: int) -> tuple[Split, ...]:
    """Every split with so many posts, by constraint propagation over the lines."""
    if number == 0:
        return ((),) if line.length <= span and not line.must else ()
    problem = constraint.Problem()
    names = list(range(number))
    problem.addVariables(names, list(line.lines))
    low, high = post // 2, post - post // 2
    problem.addConstraint(lambda first: 0 < first - low <= span, [names[0]])
    problem.addConstraint(lambda last: 0 < line.length - last - high <= span, [names[-1]])
    for a, b in pairwise(names):
        problem.addConstraint(lambda x, y: 0 < y - low - (x + high) <= span, [a, b])
    for must in line.must:
        problem.addConstraint(constraint.SomeInSetConstraint([must]), names)
    return tuple(sorted(tuple(found[n] for n in names) for found in problem.getSolutions()))


def rails(length: int, split: Split, post: int) -> tuple[int, ...]:
    """The rail lengths of a split, in order; with the posts they fill `length` exactly."""
    low, high = post // 2, post - post // 2
    starts = (0, *(line + high for line in split))
    ends = (*(line - low for line in split), length)
    return tuple(end - start for start, end in zip(starts, ends, strict=True))


Pair = tuple[int, int, int]
"""A front line, its back line, and how much later a module line comes in the back line than in the front one."""


@lru_cache(maxsize=4096)
def choose(faces: tuple[RailLine, ...], post: int, span: int, pairs: tuple[Pair, ...]) -> tuple[Split, ...] | None:
    """One split for each line, the best of all.

    Fewest posts in each, then fewest different rail lengths over all, then most posts of a front and a back
    rail on one module line, then the first in order.

    Args:
        faces: the lines of rails.
        post: width of a post.
        span: the longest clear opening.
        pairs: which lines belong together; each line is in one pair.

    Returns:
        A split for each line; None if some line has none.
    """
    ways = [_by_lengths(line, post, span) for line in faces]
    if not all(ways):
        return None
    best: tuple[int, tuple[Split, ...]] | None = None
    for sets in fewest_lengths(ways):
        # Splits of one line that give the same lengths differ only in alignment, pair by pair.
        apart = 0
        chosen: list[Split] = [()] * len(faces)
        for front, back, shift in pairs:
            more, chosen[front], chosen[back] = _aligned(
                tuple(ways[front][sets[front]]), tuple(ways[back][sets[back]]), shift
            )
            apart += more
        best = min(best or (apart, tuple(chosen)), (apart, tuple(chosen)))
    assert best is not None
    return best[1]


def _by_lengths(line: RailLine, post: int, span: int) -> dict[frozenset[int], list[Split]]:
    """The splits of a line by the set of rail lengths that they need."""
    found: dict[frozenset[int], list[Split]] = {}
    for split in splits(line, post, span):
        found.setdefault(frozenset(rails(line.length, split, post)), []).append(split)
    return found


def fewest_lengths(ways: Sequence[Mapping[frozenset[int], object]]) -> list[tuple[frozenset[int], ...]]:
    """Every choice of one set a line whose union is smallest."""
    for most in count(max(min(len(lengths) for lengths in way) for way in ways)):
        found = list(_within(ways, frozenset(), most))
        if found:
            return found
    raise AssertionError


def _within(
    ways: Sequence[Mapping[frozenset[int], object]], so_far: frozenset[int], most: int
) -> Iterator[tuple[frozenset[int], ...]]:
    """The choices of one set a line that need at most so many lengths together with those so far."""
    if not ways:
        yield ()
        return
    for lengths in ways[0]:
        if len(so_far | lengths) <= most:
            for rest in _within(ways[1:], so_far | lengths, most):
                yield (lengths, *rest)


@lru_cache(maxsize=4096)
def _aligned(fronts: tuple[Split, ...], backs: tuple[Split, ...], shift: int) -> tuple[int, Split, Split]:
    """How many posts stand on lines of their own, at least, and the first two splits that do so."""
    return min((len({*front} ^ {line - shift for line in back}), front, back) for front, back in product(fronts, backs))
