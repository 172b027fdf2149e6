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
        low: how far before line 0 its post stands, where that is at a corner place.
        high: how far past the last line its post stands, where that is at a corner place.
        count: number of that last line.
    """

    pitch: int
    before: int
    after: int
    limit: int
    low: int = 0
    high: int = 0
    count: int = 0

    def middle(self, line: int) -> int:
        """Where the post of a line stands; rising with the lines, since nothing overhangs by a pitch."""
        at = line * self.pitch
        if line == 0:
            return at - self.low
        return at + self.high if line == self.count else at

    def between(self, first: int, last: int) -> Iterator[range]:
        """Windows of lines that hold a post each, because posts on either side of them would be too far apart."""
        for low in range(first, last + 1):
            reach = self.limit + self.before + self.after + self.middle(low)
            high = next((line for line in range(low + 1, last + 1) if self.middle(line) > reach), None)
            if high is not None:
                yield range(low + 1, high)

    def after_start(self, first: int, last: int, gap: int) -> range | None:
        """The lines that the first rail can reach, if it cannot reach them all; `gap` lies before line 0."""
        reach = self.limit + self.before - gap
        beyond = next((line for line in range(first, last + 1) if self.middle(line) > reach), None)
        return None if beyond is None else range(first, beyond)

    def before_stop(self, first: int, last: int, stop: int) -> range | None:
        """The lines that the last rail can reach from where it ends, if it cannot reach them all."""
        reach = stop - self.limit - self.after
        near = next((line for line in range(last, first - 1, -1) if self.middle(line) < reach), None)
        return None if near is None else range(near + 1, last + 1)

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
