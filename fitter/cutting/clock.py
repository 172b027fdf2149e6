"""A limit of time for a search that is asked now and then."""

from __future__ import annotations

import time


class TimeUpError(Exception):
    """The time is over; whoever searches keeps the best that was found."""


class Clock:
    """Runs from its making.

    Args:
        limit: seconds; None for no limit.

    Attributes:
        interrupted: whether the user ended the search.
    """

    def __init__(self, limit: float | None = None) -> None:
        self._end = None if limit is None else time.monotonic() + limit
        self.interrupted = False

    def interrupt(self) -> None:
        """Let the time be up, because the user said so."""
        self.interrupted = True
        self._end = time.monotonic()

    def check(self) -> None:
        """Go on, or raise TimeUpError."""
        if self._end is not None and time.monotonic() >= self._end:
            raise TimeUpError

    @property
    def left(self) -> float | None:
        """Seconds that are left; None for no limit."""
        return None if self._end is None else max(0.0, self._end - time.monotonic())
