"""What the user asks for: shape, seats, ends, corner, backing edge, and the order of objectives."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from fitter.domain.benchmarks import Topic
from rooms.lengths import Length


class Shape(StrEnum):
    """How many runs stand together."""

    STRAIGHT = "straight"
    L = "L"
    U = "U"


class Side(StrEnum):
    """Which run: the main one, or an arm, named by the hand of a person who stands facing the main run's seats."""

    MAIN = "main"
    LEFT = "left"
    RIGHT = "right"


class EndKind(StrEnum):
    """How a run stops: with an arm panel, or with an open end rail."""

    ARMED = "armed"
    OPEN = "open"


class CornerKind(StrEnum):
    """What holds the two backs together where runs meet, and who gives way to it."""

    INSIDE_POST = "inside post"
    OUTSIDE_POST = "outside post"
    ANGLE_POST = "angle post"
    LOW_POST = "low post"
    SPREAD = "spread"
    TABLE_CORNER = "table corner"

    @property
    def tall(self) -> bool:
        """Whether a post holds the backs up to their top; else they are joined to each other above a short one."""
        return self not in (CornerKind.ANGLE_POST, CornerKind.LOW_POST)

    @property
    def cushioned(self) -> bool:
        """Whether a cushion lies in the corner place."""
        return self is not CornerKind.TABLE_CORNER


class FillWish(StrEnum):
    """What is to take up the room that is left: nothing, one thing, or whichever suits."""

    NONE = "none"
    SHELF = "shelf"
    ARM = "arm"
    EASE = "ease"
    ANY = "any"


class FillKind(StrEnum):
    """What stands beyond an end: a shelf, a second panel that makes a wide arm, or nothing, since there is no room."""

    SHELF = "shelf"
    ARM = "arm"
    GAP = "gap"

    @property
    def built(self) -> bool:
        """Whether wood stands there."""
        return self is not FillKind.GAP


class Objective(StrEnum):
    """What is made best, one after another."""

    SEATS = "seats"
    TALL = "tall corner posts"
    WHOLE = "whole cushions"
    MONEY = "money to spend"
    BUY = "cushions to buy"
    POSTS = "fewer posts"
    LENGTHS = "fewer rail lengths"
    CLOSE = "close to the edge"


DEFAULT_ORDER = (
    Objective.SEATS,
    Objective.TALL,
    Objective.WHOLE,
    Objective.MONEY,
    Objective.BUY,
    Objective.POSTS,
    Objective.LENGTHS,
    Objective.CLOSE,
)


@dataclass(frozen=True)
class Wish:
    """What is asked of the layout.

    Args:
        shape: None for any.
        least: fewest seats that will do.
        most: most seats that are wanted; None for as many as fit.
        left_end: of the chain of runs at the left hand of a person facing the main run's seats; None for either kind.
        right_end: the same at the right hand.
        hand: side of the short run of an L; None for either.
        corner: None for any treatment.
        against: names of the edges that may back the longest run; None for free standing.
        off_wall: greatest distance from the backing edge to the back of the longest run.
        legroom: clear depth before each run's front.
        prefer: objectives in order; those not named follow in the default order.
        buy_most: how many cushions may be bought; None for any number.
        fill: what is to take up the room that is left.
        strict: topics whose benchmarks are to be kept, so that a layout that misses one fails a check.
    """

    shape: Shape | None
    least: int
    most: int | None
    left_end: EndKind | None
    right_end: EndKind | None
    hand: Side | None
    corner: CornerKind | None
    against: tuple[str, ...] | None
    off_wall: Length
    legroom: Length
    prefer: tuple[Objective, ...] = DEFAULT_ORDER
    buy_most: int | None = None
    fill: FillWish = FillWish.NONE
    strict: tuple[Topic, ...] = ()

    def end(self, hand: Side) -> EndKind | None:
        """The kind asked for the end at a hand."""
        return self.left_end if hand is Side.LEFT else self.right_end
