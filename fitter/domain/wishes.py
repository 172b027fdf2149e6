"""What the user asks for: shape, seats, ends, corner, backing edge, and the order of objectives."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from rooms.lengths import Length


class Shape(StrEnum):
    """How many runs stand together."""

    STRAIGHT = "straight"
    L = "L"


class EndKind(StrEnum):
    """How a run stops: with an arm panel, or with an open end rail."""

    ARMED = "armed"
    OPEN = "open"


class CornerKind(StrEnum):
    """What holds the two backs together where runs meet, and who gives way to it."""

    INSIDE_POST = "inside post"
    OUTSIDE_POST = "outside post"
    TABLE_CORNER = "table corner"


class Objective(StrEnum):
    """What is made best, one after another."""

    SEATS = "seats"
    WHOLE = "whole cushions"
    POSTS = "fewer posts"
    LENGTHS = "fewer rail lengths"
    CLOSE = "close to the edge"


DEFAULT_ORDER = (Objective.SEATS, Objective.WHOLE, Objective.POSTS, Objective.LENGTHS, Objective.CLOSE)


@dataclass(frozen=True)
class Wish:
    """What is asked of the layout.

    Args:
        shape: None for any.
        least: fewest seats that will do.
        most: most seats that are wanted; None for as many as fit.
        ends: None for whichever suits.
        corner: None for any treatment.
        against: names of the edges that may back the longest run; None for free standing.
        off_wall: greatest distance from the backing edge to the back of the longest run.
        legroom: clear depth before each run's front.
        prefer: objectives in order; those not named follow in the default order.
    """

    shape: Shape | None
    least: int
    most: int | None
    ends: EndKind | None
    corner: CornerKind | None
    against: tuple[str, ...] | None
    off_wall: Length
    legroom: Length
    prefer: tuple[Objective, ...] = DEFAULT_ORDER
