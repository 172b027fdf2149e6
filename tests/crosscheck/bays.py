"""Where posts must stand along a line of rails so that no clear opening passes the limit."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass


@dataclass(frozen=True)
class Spacing:
    """Module lines of one run and the posts on them, in marks.

    Args:
        pitch: from line to line.
        before: how far a post reaches before its line.
        after: how far it reaches past it.
        limit: of a clear opening.
    """

    pitch: int
    before: int
    after: int
    limit: int

    def between(self, first: int, last: int) -> Iterator[range]:
        """Windows of lines that hold a post each, because posts on either side of them would be too far apart."""
        for low in range(first, last + 1):
            high = low + (self.limit + self.before + self.after) // self.pitch + 1
            if high <= last:
                yield range(low + 1, high)

    def after_start(self, first: int, last: int, gap: int) -> range | None:
        """The lines that the first rail can reach, if it cannot reach them all; `gap` lies before line 0."""
        reach = (self.limit + self.before - gap) // self.pitch
        return None if reach >= last or first > last else range(first, max(first, reach + 1))

    def before_stop(self, first: int, last: int, stop: int) -> range | None:
        """The lines that the last rail can reach from where it ends, if it cannot reach them all."""
        reach = -((self.limit + self.after - stop) // self.pitch)
        return None if reach <= first or first > last else range(min(reach, last + 1), last + 1)

    def fewest(self, count: int) -> int | None:
        """Fewest posts on the lines between modules, without gaps at the ends; None if none do."""
        line = start = posts = 0
        while count * self.pitch - start > self.limit:
            reach = min((start + self.limit + self.before) // self.pitch, count - 1)
            if reach <= line:
                return None
            line = reach
            start = line * self.pitch + self.after
            posts += 1
        return posts
