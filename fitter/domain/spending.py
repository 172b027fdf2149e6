"""What variants cost, and by how much one costs more than another where not every price is known."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum


class Unknown(StrEnum):
    """What the difference of two costs has besides the difference of what is known of them."""

    NOTHING = "nothing"
    MORE = "more without a price"
    LESS = "less without a price"
    BOTH = "more and less without a price"


@dataclass(frozen=True)
class Spent:
    """What a variant costs a reader who has nothing on hand, in cents.

    Args:
        boards: of those whose price is known; None where no price is.
        cushions: likewise.
        wood: sections whose cost is not known, with how much of them it takes, in units.
        kinds: cushions without a price, with how many it takes.
    """

    boards: int | None
    cushions: int | None
    wood: Mapping[str, int] = field(default_factory=dict)
    kinds: Mapping[str, int] = field(default_factory=dict)

    @property
    def complete(self) -> bool:
        """Whether all of it is known."""
        return not self.wood and not self.kinds

    @property
    def total(self) -> int | None:
        """Of all that is known; None where nothing is."""
        known = [cents for cents in (self.boards, self.cushions) if cents is not None]
        return sum(known) if known else None


@dataclass(frozen=True)
class More:
    """The difference of two costs.

    Args:
        cents: of what is known of both; None where nothing is.
        unknown: what comes on top.
    """

    cents: int | None
    unknown: Unknown

    @property
    def exact(self) -> int | None:
        """In cents; None where it is not known exactly."""
        return self.cents if self.unknown is Unknown.NOTHING else None


def more_for_boards(before: Spent, after: Spent) -> More:
    """What the boards of one variant cost more than those of another."""
    return _more(before.boards, after.boards, before.wood, after.wood)


def more_for_cushions(before: Spent, after: Spent) -> More:
    """What the cushions cost more."""
    return _more(before.cushions, after.cushions, before.kinds, after.kinds)


def more_in_all(before: Spent, after: Spent) -> More:
    """What boards and cushions together cost more."""
    return _more(before.total, after.total, {**before.wood, **before.kinds}, {**after.wood, **after.kinds})


def _more(before: int | None, after: int | None, lacked: Mapping[str, int], lacks: Mapping[str, int]) -> More:
    changes = [lacks.get(name, 0) - lacked.get(name, 0) for name in dict.fromkeys((*lacked, *lacks))]
    more, less = any(change > 0 for change in changes), any(change < 0 for change in changes)
    unknown = Unknown.BOTH if more and less else Unknown.MORE if more else Unknown.LESS if less else Unknown.NOTHING
    known = None if before is None and after is None else (after or 0) - (before or 0)
    return More(known, unknown)
