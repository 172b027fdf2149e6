"""How much of an answer is wanted: the first objectives, and what the layout is in a word."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum


class Settled(IntEnum):
    """Which of the choices that equal answers leave open are to be settled."""

    NOTHING = 0
    HEADING = 1
    WHOLE = 2


@dataclass(frozen=True)
class Wanted:
    """What a question is asked for, where not the whole answer is.

    Args:
        objectives: how many of the first ones have to be made best.
        settled: nothing more; or the heading (backing edge, shape, hand and corner treatment), for which further
            objectives are asked one by one until no other shape, hand or treatment is left; or the whole layout.
    """

    objectives: int
    settled: Settled = Settled.NOTHING
