"""How many slats fill a space, and where: the fewest that keep every gap."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import constraint


@dataclass(frozen=True)
class Slats:
    """Slats spread over a space, in marks.

    Args:
        width: of one; less than the board's where they are ripped.
        gaps: in order, one more than there are slats; they differ by one mark at most.
        fewer: the widest gap that one slat less would leave; None where there is only one or none.
    """

    width: int
    gaps: tuple[int, ...]
    fewer: int | None

    @property
    def starts(self) -> tuple[int, ...]:
        """Where each slat begins."""
        found, at = [], 0
        for gap in self.gaps[:-1]:
            at += gap
            found.append(at)
            at += self.width
        return tuple(found)


@lru_cache(maxsize=1024)
def spread(space: int, width: int, limit: int, least: int = 1) -> Slats:
    """The fewest slats that leave no gap wider than the limit, their gaps equal but for a mark.

    Args:
        space: to be filled, gaps at both ends included, in marks, above zero.
        width: of a slat as the board yields it.
        limit: widest gap allowed, at least `least`.
        least: narrowest gap allowed, so that swollen slats do not touch.

    Returns:
        The slats; ripped narrower, all alike, where whole widths leave too wide or too narrow gaps or do not go in.
    """
    whole = _whole(space, width, limit, least)
    if whole is not None:
        count, gap = whole
    else:
        # The fewest that could fill the space at the widest gaps, ripped to what the narrowest ones leave of it.
        count = max(1, -(-(space - limit) // (width + limit)))
        width = min(width, max(1, (space - (count + 1) * least) // count))
        gap = (space - count * width) // (count + 1)
    more = space - count * width - (count + 1) * gap
    gaps = tuple(gap + (i + 1) * more // (count + 1) - i * more // (count + 1) for i in range(count + 1))
    fewer = -(-(space - (count - 1) * width) // count) if count else None
    return Slats(width, gaps, fewer)


def _whole(space: int, width: int, limit: int, least: int) -> tuple[int, int] | None:
    """The fewest whole slats, with the narrower of their two gaps, by enumeration; None if no number will do."""
    problem = constraint.Problem()
    problem.addVariable("count", range(space // width + 1))
    problem.addVariable("gap", range(min(least, space), limit + 1))

    def equal(count: int, gap: int) -> bool:
        """Whether what is left beside such gaps is less than one mark for each, and none becomes too wide by it."""
        more = space - count * width - (count + 1) * gap
        return 0 <= more <= count and gap + (more > 0) <= limit

    problem.addConstraint(equal, ["count", "gap"])
    return min(((found["count"], found["gap"]) for found in problem.getSolutions()), default=None)
