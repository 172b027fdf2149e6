"""An outline as adjusted, with what is known of each reading."""

from __future__ import annotations

from dataclasses import dataclass

from rooms.geometry import Point
from rooms.lengths import Length
from rooms.survey.readings import ReadingKind


@dataclass(frozen=True)
class Residual:
    """How far a reading is from the adjusted outline.

    Lengths for sides and ties; inside angles in degrees for turns.

    Args:
        name: `AB` as the corners were written, or the corner of a turn.
        kind: what was read.
        reading: the value read.
        adjusted: the value in the adjusted outline.
        residual: adjusted less reading.
        limit: the size of residual above which the reading disagrees with the others.
    """

    name: str
    kind: ReadingKind
    reading: Length | float
    adjusted: Length | float
    residual: Length | float
    limit: Length | float

    @property
    def share(self) -> float:
        """The residual as a share of its limit, without sign; more than 1 disagrees."""
        return abs(_number(self.residual)) / _number(self.limit)


def _number(value: Length | float) -> float:
    return float(value.units) if isinstance(value, Length) else value


@dataclass(frozen=True)
class Survey:
    """An adjusted outline.

    Args:
        points: name and place of each corner in the order of the walk, to the nearest unit; the first at
            (0, 0), the second on the x axis.
        anticlockwise: whether the walk had the room on its left.
        misclosure: by how much sides and turns alone miss closing, before adjustment; None when they do
            not suffice to walk the outline.
        perimeter: of the adjusted outline.
        ratio: n of 1:n, perimeter to misclosure; None when it closes exactly or cannot be told.
        residuals: of every reading, the greatest share of its limit first.
        redundancy: readings more than the shape needs.
        s0: standard error of unit weight, 1 when the readings are as good as their tolerance; None
            without redundancy.
        spread: standard error of the least certain coordinate, from the first corner and side, if every
            reading is as good as its limit.
        unchecked: readings that no other reading checks: a slip in one of them would not show.
        next_tie: the tie that would check most of them; None if all are checked or no tie is left.
    """

    points: tuple[tuple[str, Point], ...]
    anticlockwise: bool
    misclosure: Length | None
    perimeter: Length
    ratio: int | None
    residuals: tuple[Residual, ...]
    redundancy: int
    s0: float | None
    spread: Length
    unchecked: tuple[str, ...] = ()
    next_tie: str | None = None

    def point(self, corner: str) -> Point:
        """The place of a corner; KeyError if there is none of that name."""
        return dict(self.points)[corner]
