"""Where posts stand along a rail: every bay split enumerated, the fewest posts kept."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise, product

import constraint

Split = tuple[int, ...]


@dataclass(frozen=True)
class RailLine:
    """A line of rails before posts are chosen.

    Args:
        length: clear length between the things that hold its ends, in marks.
        lines: module lines within it, from its start, rising.
        must: a line that has to carry a post; None if there is none.
    """

    length: int
    lines: tuple[int, ...]
    must: int | None = None


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
    for count in range(fewest(line.length, post, span), len(line.lines) + 1):
        found = _of_size(line, post, span, count)
        if found:
            return found
    return ()


def fewest(length: int, post: int, span: int) -> int:
    """No fewer posts than this can do: count + 1 spans and count posts must cover the length."""
    return max(0, -(-(length - span) // (span + post)))


def _of_size(line: RailLine, post: int, span: int, count: int) -> tuple[Split, ...]:
    """Every split with `count` posts, by constraint propagation over the lines."""
    if count == 0:
        return ((),) if line.length <= span and line.must is None else ()
    problem = constraint.Problem()
    names = list(range(count))
    problem.addVariables(names, list(line.lines))
    low, high = post // 2, post - post // 2
    problem.addConstraint(lambda first: 0 < first - low <= span, [names[0]])
    problem.addConstraint(lambda last: 0 < line.length - last - high <= span, [names[-1]])
    for a, b in pairwise(names):
        problem.addConstraint(lambda x, y: 0 < y - low - (x + high) <= span, [a, b])
    if line.must is not None:
        problem.addConstraint(constraint.SomeInSetConstraint([line.must]), names)
    return tuple(sorted(tuple(found[n] for n in names) for found in problem.getSolutions()))


def rails(length: int, split: Split, post: int) -> tuple[int, ...]:
    """The rail lengths of a split, in order; with the posts they fill `length` exactly."""
    low, high = post // 2, post - post // 2
    starts = (0, *(line + high for line in split))
    ends = (*(line - low for line in split), length)
    return tuple(end - start for start, end in zip(starts, ends, strict=True))


@lru_cache(maxsize=1024)
def choose(
    faces: tuple[RailLine, ...], post: int, span: int, pairs: tuple[tuple[int, int, int], ...]
) -> tuple[Split, ...] | None:
    """One split for each line, the best of all.

    Fewest posts in each, then fewest different rail lengths over all, then most posts of a front and a back
    rail on one module line, then the first in order.

    Args:
        faces: the lines of rails.
        post: width of a post.
        span: the longest clear opening.
        pairs: front line, back line, and how much later a module line comes in the back line than in the front.

    Returns:
        A split for each line; None if some line has none.
    """
    ways = [_by_lengths(line, post, span) for line in faces]
    if not all(ways):
        return None
    # Splits of one line that give the same lengths differ only in alignment, so the lengths are settled first.
    least = min(len(frozenset().union(*sets)) for sets in product(*ways))
    best: tuple[int, tuple[Split, ...]] | None = None
    for sets in product(*ways):
        if len(frozenset().union(*sets)) == least:
            for chosen in product(*(way[lengths] for way, lengths in zip(ways, sets, strict=True))):
                apart = sum(len({*chosen[f]} ^ {line - shift for line in chosen[b]}) for f, b, shift in pairs)
                best = min(best or (apart, chosen), (apart, chosen))
    assert best is not None
    return best[1]


def _by_lengths(line: RailLine, post: int, span: int) -> dict[frozenset[int], list[Split]]:
    """The splits of a line by the set of rail lengths that they need."""
    found: dict[frozenset[int], list[Split]] = {}
    for split in splits(line, post, span):
        found.setdefault(frozenset(rails(line.length, split, post)), []).append(split)
    return found
