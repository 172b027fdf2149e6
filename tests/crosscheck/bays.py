"""Where posts must stand along a line of rails so that no clear opening passes the limit."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from structures import Sizes


def between(of: Sizes, pitch: int, first: int, last: int) -> Iterator[range]:
    """Windows of module lines that hold a post each, because posts on either side of them would be too far apart."""
    for low in range(first, last + 1):
        high = low + (of.limit + of.post) // pitch + 1
        if high <= last:
            yield range(low + 1, high)


def after_start(of: Sizes, pitch: int, first: int, last: int, gap: int) -> range | None:
    """The lines that the first rail can reach, if it cannot reach them all; `gap` lies before line 0."""
    reach = [k for k in range(first, last + 1) if gap + k * pitch - of.before <= of.limit]
    return None if len(reach) == last + 1 - first else range(first, first + len(reach))


def before_stop(of: Sizes, pitch: int, first: int, last: int, stop: int) -> range | None:
    """The lines that the last rail can reach from where it ends, if it cannot reach them all."""
    reach = [k for k in range(first, last + 1) if stop - k * pitch - of.after <= of.limit]
    return None if len(reach) == last + 1 - first else range(last + 1 - len(reach), last + 1)


@cache
def _fewest(before: int, after: int, limit: int, pitch: int, count: int) -> int | None:
    posts, start = 0, 0
    line = 0
    while count * pitch - start > limit:
        reach = [k for k in range(line + 1, count) if k * pitch - before - start <= limit]
        if not reach:
            return None
        line = reach[-1]
        start = line * pitch + after
        posts += 1
    return posts


def fewest(of: Sizes, pitch: int, count: int) -> int | None:
    """Fewest posts between modules of a run without gaps at its ends, taking the farthest within reach; None if none do."""
    return _fewest(of.before, of.after, of.limit, pitch, count)
