"""The time that several pieces of work share."""

from __future__ import annotations

import time
from dataclasses import dataclass, field


@dataclass(frozen=True)
class Clock:
    """What is left of a time limit; it runs from when it is made.

    Args:
        limit: seconds for all; None for no limit.
    """

    limit: float | None
    started: float = field(default_factory=time.monotonic)

    @property
    def left(self) -> float | None:
        """Seconds, never quite none; None for no limit."""
        return None if self.limit is None else max(0.01, self.started + self.limit - time.monotonic())

    @property
    def up(self) -> bool:
        """Whether there is no time left."""
        return self.limit is not None and time.monotonic() >= self.started + self.limit
