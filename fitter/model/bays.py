"""Where posts stand along a rail: every bay split enumerated, the fewest posts kept."""

from __future__ import annotations

from functools import lru_cache
from itertools import product

import constraint

Split = tuple[int, ...]


@lru_cache(maxsize=4096)
def splits(length: int, lines: tuple[int, ...], post: int, span: int) -> tuple[Split, ...]:
    """Every way to stand the fewest posts under a rail.

    Args:
        length: clear length between the things that hold the rail's ends, in marks.
        lines: module lines within it, from its start, in marks, rising.
        post: width of a post, which stands centred on a line, its odd half mark on the high side.
        span: the longest clear opening (and rail) allowed.

    Returns:
        Each split as the lines that carry a post, in rising order; empty if no split keeps the span.
    """
    for count in range(fewest(length, post, span), len(lines) + 1):
        found = _of_size(length, lines, post, span, count)
        if found:
            return found
    return ()


def fewest(length: int, post: int, span: int) -> int:
    """No fewer posts than this can do: count + 1 spans and count posts must cover the length."""
    return max(0, -(-(length - span) // (span + post)))


def _of_size(length: int, lines: tuple[int, ...], post: int, span: int, count: int) -> tuple[Split, ...]:
    """Every split with `count` posts, by constraint propagation over the lines."""
    if count == 0:
        return ((),) if length <= span else ()
    problem = constraint.Problem()
    names = list(range(count))
    problem.addVariables(names, list(lines))
    low, high = post // 2, post - post // 2
    problem.addConstraint(lambda first: 0 < first - low <= span, [names[0]])
    problem.addConstraint(lambda last: 0 < length - last - high <= span, [names[-1]])
    for a, b in zip(names, names[1:], strict=False):
        problem.addConstraint(lambda x, y: 0 < y - low - (x + high) <= span, [a, b])
    return tuple(sorted(tuple(found[n] for n in names) for found in problem.getSolutions()))


def rails(length: int, split: Split, post: int) -> tuple[int, ...]:
    """The rail lengths of a split, in order; with the posts they fill `length` exactly."""
    low, high = post // 2, post - post // 2
    starts = (0, *(line + high for line in split))
    ends = (*(line - low for line in split), length)
    return tuple(end - start for start, end in zip(starts, ends, strict=True))


def choose(
    faces: tuple[tuple[int, tuple[int, ...]], ...], post: int, span: int, pairs: tuple[tuple[int, int, int], ...]
) -> tuple[Split, ...] | None:
    """One split per face: fewest posts each, then fewest different rail lengths over all, then most
    posts of a front and a back rail on one line, then the first in order.

    Args:
        faces: clear length and module lines of each rail line.
        post: width of a post.
        span: the longest clear opening.
        pairs: front face, back face and the offset of the back face's start before the front's, by which
            equal lines are recognised.

    Returns:
        A split for each face; None if some face has none.
    """
    ways = [splits(length, lines, post, span) for length, lines in faces]
    if not all(ways):
        return None

    def merit(chosen: tuple[Split, ...]) -> tuple[int, int, tuple[Split, ...]]:
        different = {r for (length, _), s in zip(faces, chosen, strict=True) for r in rails(length, s, post)}
        apart = sum(len({*chosen[f]} ^ {line - shift for line in chosen[b]}) for f, b, shift in pairs)
        return len(different), apart, chosen

    return min(product(*ways), key=merit)
