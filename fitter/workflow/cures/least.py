"""The least step of a lever at which a layout exists."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from fitter.domain.layout import Layout

Try = Callable[[int], Layout | None]
May = Callable[[int, int], bool]


@dataclass(frozen=True)
class Reached:
    """Where a layout was found.

    Args:
        step: the number of the step.
        layout: that fits there.
        least: whether it is proven that none fits at a smaller step.
    """

    step: int
    layout: Layout
    least: bool = True


class _SpentError(Exception):
    """No more questions may be asked."""


def least(steps: int, at: Try, may: May | None = None, most: int = 64) -> Reached | None:
    """Find the least of steps 1 to `steps` at which a layout exists.

    Args:
        steps: how many there are.
        at: a layout at a step, or None where it is proven that there is none.
        may: whether a layout can exist at any step from one to another, by a question that is no harder than each of
            theirs; "no" is proven. None where each step only makes it easier, so that the farthest one tells for all.
        most: how many questions may be asked.

    Returns:
        The step; None where there is none, or none was met. An answer may come and go: with `may`, a stretch of steps
        is left out only where it holds none, and is halved otherwise, so that none is missed.
    """
    asked = 0

    def layout(step: int) -> Layout | None:
        nonlocal asked
        if asked >= most:
            raise _SpentError
        asked += 1
        return at(step)

    def possible(low: int, high: int) -> bool:
        nonlocal asked
        if may is None or low == high:
            return True
        if asked >= most:
            raise _SpentError
        asked += 1
        return may(low, high)

    def first(low: int, high: int) -> Reached | None:
        if low == high:
            found = layout(low)
            return Reached(low, found) if found else None
        if not possible(low, high):
            return None
        middle = (low + high) // 2
        return first(low, middle) or first(middle + 1, high)

    try:
        return _bisected(steps, layout) if may is None else first(1, steps)
    except _SpentError:
        asked = 0
    try:  # as if each step made it easier: what is found does, but a smaller step may too
        found = _bisected(steps, layout)
    except _SpentError:
        return None
    return None if found is None else Reached(found.step, found.layout, least=False)


def _bisected(steps: int, layout: Try) -> Reached | None:
    found = layout(steps)
    if found is None:
        return None
    low, high = 1, steps
    while low < high:
        middle = (low + high) // 2
        nearer = layout(middle)
        if nearer is None:
            low = middle + 1
        else:
            high, found = middle, nearer
    return Reached(high, found)
