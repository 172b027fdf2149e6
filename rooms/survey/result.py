"""An outline as adjusted, with what is known of each reading."""

from __future__ import annotations

from dataclasses import dataclass
from math import comb

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
        checked: the redundancy number, the share of a slip that would show in the residual, 0 to 1.
        standardised: the residual of the least-squares shape in its own standard deviations (Baarda's w);
            None where nothing checks the reading.
    """

    name: str
    kind: ReadingKind
    reading: Length | float
    adjusted: Length | float
    residual: Length | float
    limit: Length | float
    checked: float = 0.0
    standardised: float | None = None

    @property
    def share(self) -> float:
        """The residual as a share of its limit, without sign; more than 1 disagrees."""
        return abs(_number(self.residual)) / _number(self.limit)


def _number(value: Length | float) -> float:
    return float(value.units) if isinstance(value, Length) else value


@dataclass(frozen=True)
class Suspect:
    """A reading that may be wrong.

    Args:
        name: as in `Residual`.
        kind: what was read.
        reading: the value read.
        meant: what it would have to be, by all the other readings.
        standardised: its standardised residual.
        foretold: what the line that tells the suspects apart would then read; None without such a line.
    """

    name: str
    kind: ReadingKind
    reading: Length | float
    meant: Length | float
    standardised: float
    foretold: Length | None = None


@dataclass(frozen=True)
class Suspicion:
    """Which reading is most likely wrong, if one alone is; or which two are.

    Args:
        suspects: the likeliest first, and those that explain the misclosure nearly as well.
        enough: whether all other readings are within their limits once the first suspect is left out.
        line: of the lines not yet taped the one that best tells the suspects apart; None if there is but one
            suspect, or if no line would tell.
        apart: pairs of suspects that this line tells apart.
        second: what is wrong besides the one suspect, where two readings left out are enough and one is not.
    """

    suspects: tuple[Suspect, ...]
    enough: bool
    line: str | None = None
    apart: int = 0
    second: Suspect | None = None

    @property
    def clear(self) -> bool:
        """Whether one reading alone is suspected."""
        return len(self.suspects) == 1

    @property
    def decided(self) -> bool:
        """Whether the further line would tell every suspect from every other."""
        return self.apart == comb(len(self.suspects), 2)


@dataclass(frozen=True)
class Ellipse:
    """Where a corner lies in 95 of 100 surveys as good as this one (`rooms.survey.readings.WITHIN`).

    Relative to the first corner and the direction of the first side, which are held.

    Args:
        corner: its name.
        long: the greater semi-axis.
        short: the lesser semi-axis.
        direction: of the greater one, in degrees anticlockwise from the first side, 0 to 180.
    """

    corner: str
    long: Length
    short: Length
    direction: float


@dataclass(frozen=True)
class Traverse:
    """The outline by sides and turns alone, balanced by the compass rule.

    Args:
        points: name and place of each corner, in the same frame as those of the survey.
        angular: by how much the inside angles read exceed their sum, in degrees.
        misclosure: from the end of the walk to its beginning, after the angles are balanced.
        perimeter: sum of the sides as taped.
        ratio: n of 1:n, perimeter to misclosure; None when it closes exactly.
    """

    points: tuple[tuple[str, Point], ...]
    angular: float
    misclosure: Length
    perimeter: Length
    ratio: int | None


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
        s0: standard error of unit weight, 1 when the readings are as good as their tolerance says; None
            without redundancy.
        spread: how far the least certain coordinate may be off, as sure as a reading is within its limit;
            from the first corner and side.
        unchecked: readings that no other reading checks: a slip in one of them would not show.
        next_tie: the tie that would check most of them; None if all are checked or no tie is left.
        ellipses: of each corner, in the order of `points`.
        critical: the size of a standardised residual that stands out among so many; None without redundancy.
        suspicion: which reading may be wrong, where one stands out; else None.
        traverse: by the compass rule; None unless every side and every turn was read.
        unwalked: names of the sides and of the corners (for their turns) that it lacks.
        explained: the misclosure that good readings may have where each `left` and `right` is square; None without
            a misclosure.
        loose: where the misclosure is more than that, lines to tape besides, with which the tape alone would fix the
            shape; empty where it does so already, or nothing asks for it.
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
    ellipses: tuple[Ellipse, ...] = ()
    critical: float | None = None
    suspicion: Suspicion | None = None
    traverse: Traverse | None = None
    unwalked: tuple[str, ...] = ()
    explained: Length | None = None
    loose: tuple[str, ...] = ()

    @property
    def most_bent(self) -> Residual | None:
        """The turn that is bent most; None without turns."""
        turns = (residual for residual in self.residuals if residual.kind is ReadingKind.TURN)
        return max(turns, key=lambda residual: residual.share, default=None)

    def point(self, corner: str) -> Point:
        """The place of a corner; KeyError if there is none of that name."""
        return dict(self.points)[corner]
