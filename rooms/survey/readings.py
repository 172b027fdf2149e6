"""What the tape and the eye say of an outline, before anything is believed."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from statistics import NormalDist

from rooms.lengths import Length

TURN_LIMIT = 1.0
"""How far a turn may be off, in degrees (common practice, no published source).

A corner called square by eye or framing square, and an inside angle read off a hand protractor or bevel,
are seldom better than about one degree. Over a 10 ft side that is 2 in, so a tape reading good to 1/4 in
outweighs a turn some sixty times and decides wherever both speak.
"""

WITHIN = 0.95
"""The share of good readings that lie within their limit: the tape's tolerance, or `TURN_LIMIT` for a turn.

This is what a tolerance means here, wherever it is used as a measure of chance: nineteen readings in twenty
are no farther off, errors being normally distributed (a convention of ours; measuring laboratories state
their uncertainties at the same level, from memory).
"""
DEVIATIONS = NormalDist().inv_cdf((1 + WITHIN) / 2)
"""Standard deviations to one limit, 1.96: a reading's standard deviation is its limit divided by this."""


class Turn(StrEnum):
    """A quarter turn while walking the edge; left is anticlockwise."""

    LEFT = "left"
    RIGHT = "right"


Angle = Turn | Fraction | float
"""A quarter turn, or the inside angle of the corner in degrees, more than 0 and less than 360."""


class ReadingKind(StrEnum):
    """What was read."""

    SIDE = "side"
    TURN = "turn"
    TIE = "tie"


@dataclass(frozen=True)
class Readings:
    """The readings of one outline.

    Args:
        corners: names, in the order of the walk; the walk goes back from the last to the first.
        sides: two neighbouring corners (in either order) and the length taped between them.
        turns: a corner and the turn made or the inside angle found there.
        ties: two corners that are no neighbours and the length taped between them.
        tolerance: of one tape reading.
        clockwise: the direction of the walk, for outlines without a `left` or `right` to tell it.
    """

    corners: tuple[str, ...]
    sides: tuple[tuple[str, str, Length], ...]
    turns: tuple[tuple[str, Angle], ...]
    ties: tuple[tuple[str, str, Length], ...]
    tolerance: Length
    clockwise: bool = False

    def index(self, corner: str) -> int:
        """The place of a corner in the walk, from 0; ValueError if there is no such corner."""
        return self.corners.index(corner)

    def pair(self, first: int, second: int) -> str:
        """The name of the line between two corners, such as `AC`."""
        return self.corners[first] + self.corners[second]

    def neighbours(self, first: int, second: int) -> bool:
        """Whether two corners follow each other on the walk."""
        return (second - first) % len(self.corners) in (1, len(self.corners) - 1)


def turning(angle: Angle, sense: int) -> float:
    """How far one turns at a corner, in degrees, positive to the left.

    Args:
        angle: as read.
        sense: 1 when the walk goes anticlockwise about the room, -1 when clockwise.
    """
    if isinstance(angle, Turn):
        return 90.0 if angle is Turn.LEFT else -90.0
    return sense * (180.0 - float(angle))


def inside(turned: float, sense: int) -> float:
    """The inside angle of a corner in degrees, from the turn made there; the reverse of `turning`."""
    return 180.0 - sense * turned
