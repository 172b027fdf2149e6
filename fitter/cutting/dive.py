"""From a mixture of patterns to whole boards: round down, keep that, mix again for the rest."""

from __future__ import annotations

from math import floor

from fitter.cutting.columns import Generator, Mixture
from fitter.cutting.master import Column, Limits

_NEARLY = 1e-6


def dive(source: Generator, limits: Limits, cap: int, start: Mixture | None = None) -> list[Column] | None:
    """A cutting that costs less than `cap`, if rounding finds one.

    Args:
        source: makes the mixtures.
        limits: of boards; their lower ones are of no account here.
        cap: what it must cost less than.
        start: the mixture for the whole demand, where that is known.

    Returns:
        A pattern for each board; None if none was found, which proves nothing.
    """
    job = source.job
    demand, high, most = list(job.demand), list(limits.high), limits.most
    zero = (0,) * len(job.sorts)
    found: list[Column] = []
    spent = 0
    while any(demand):
        if start is None:
            start = source.solve(demand, Limits(zero, tuple(high), 0, most), cap - spent)
        if start.lacking or start.bound + spent >= cap:
            return None
        taken = _taken(source.master.columns, start.relaxed.amounts, demand)
        start = None
        if not taken:
            return None
        for column in taken:
            sort, pattern = column
            if high[sort] <= 0 or most <= 0:
                return None
            high[sort] -= 1
            most -= 1
            spent += job.sorts[sort].cost
            found.append(column)
            demand = [max(0, need - count) for need, count in zip(demand, pattern, strict=True)]
    return found if spent < cap else None


def _taken(columns: list[Column], amounts: tuple[float, ...], demand: list[int]) -> list[Column]:
    """What is kept of a mixture: every whole board in it; without any, the pattern that is nearest to one."""
    used = [(amount, column) for amount, column in zip(amounts, columns, strict=True) if amount > _NEARLY]
    kept: list[Column] = []
    left = list(demand)
    for amount, column in sorted(used, key=lambda entry: -entry[0]):
        for _ in range(floor(amount + _NEARLY)):
            if all(count <= need for count, need in zip(column[1], left, strict=True)):
                kept.append(column)
                left = [need - count for count, need in zip(column[1], left, strict=True)]
    if kept or not used:
        return kept
    return [max(used, key=lambda entry: entry[0])[1]]
