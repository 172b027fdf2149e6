"""What buying more cushions would bring to those that are owned, each step solved and proven."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from fitter.domain.layout import Verdict
from fitter.domain.outcome import FitResult
from fitter.domain.owned import BUY_AT_MOST, Buying, Step, limited
from fitter.domain.project import Project

Solve = Callable[[Project], FitResult]


def buying(project: Project, owned: FitResult, wanted: int, solve: Solve) -> tuple[Buying, FitResult | None]:
    """The best layouts with up to 1, 2, … cushions bought, as far as that brings anything.

    What is best among layouts with at most `wanted` bought and buys fewer is also the best for every limit between:
    nothing beyond is solved.

    Args:
        project: as its file says.
        owned: its answer with none bought.
        wanted: how many may be bought at most.
        solve: finds the best layout.

    Returns:
        The steps, and an answer that the checker does not accept, if there is one; its layout must not be shown.
    """
    first = _step(0, owned)
    if wanted == 0 or owned.interrupted or owned.verdict is Verdict.FAULT:
        return Buying(wanted, (first,), closed=wanted == 0, interrupted=owned.interrupted), None
    found = solve(limited(project, wanted, BUY_AT_MOST))
    if found.verdict is Verdict.FAULT:
        return Buying(wanted, (first,), closed=False), found
    last = _step(wanted, found)
    # Nothing fits, or all that it needs is in the shed: the steps between are the first one again.
    needed = last.bought or 0
    steps, stopped = [first], found.interrupted
    for most in range(1, needed):
        if stopped:
            break
        between = solve(limited(project, most, BUY_AT_MOST))
        if between.verdict is Verdict.FAULT:
            return Buying(wanted, tuple(steps), closed=False), between
        steps.append(_step(most, between))
        stopped = between.interrupted
    if needed:
        steps.append(replace(last, most=needed))
    proven = last.verdict in (Verdict.PROVEN, Verdict.IMPOSSIBLE)
    return Buying(wanted, tuple(steps), closed=proven, interrupted=stopped), None


def _step(most: int, found: FitResult) -> Step:
    return Step(most, found.verdict, found.layouts[0] if found.layouts else None)
