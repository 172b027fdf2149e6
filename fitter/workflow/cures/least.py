"""The least step of a lever at which a layout exists."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace

from fitter.domain.layout import Layout

Try = Callable[[int], Layout | None]
May = Callable[[int, int], bool | None]

_FIRST_STRETCH = 8


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


class SpentError(Exception):
    """No layout was met, and it is not proven that there is none: no more questions may be asked."""


class _Asked:
    """A lever's questions, each asked once, and no more than so many."""

    def __init__(self, at: Try, may: May | None, most: int) -> None:
        self._at, self._may, self.left, self.count = at, may, most, 0
        self._known: dict[int, Layout | None] = {}

    def layout(self, step: int) -> Layout | None:
        """A layout at a step; None where it is proven that there is none."""
        if step not in self._known:
            self._spend()
            self._known[step] = self._at(step)
        return self._known[step]

    def possible(self, low: int, high: int) -> bool | None:
        """Whether a layout may exist at one of some steps; None where no question is known that tells."""
        if self._may is None or low == high:
            return None
        if self.left <= 0:
            raise SpentError
        answer = self._may(low, high)
        if answer is not None:
            self._spend()
        return answer

    def first(self, low: int, high: int, *, some: bool = False) -> Reached | None:
        """The least of some steps that has a layout.

        Args:
            low: the first of them.
            high: the last one.
            some: whether it is likely that one of them has one, so that asking for all at once tells nothing.
        """
        if low > high:
            return None
        if low == high:
            found = self.layout(low)
            return Reached(low, found) if found else None
        answer = some or self.possible(low, high)
        if answer is False:
            return None
        middle = (low + high) // 2
        return self.first(low, middle) or self.first(middle + 1, high, some=answer is True)

    def _spend(self) -> None:
        if self.left <= 0:
            raise SpentError
        self.left, self.count = self.left - 1, self.count + 1


def least(steps: int, at: Try, may: May | None = None, most: int = 64, guess: int = 0) -> Reached | None:
    """Find the least of steps 1 to `steps` at which a layout exists.

    Args:
        steps: how many there are.
        at: a layout at a step, or None where it is proven that there is none.
        may: whether a layout can exist at any step from one to another, by a question that is no harder than each of
            theirs; "no" is proven, and None says that no such question is known. None where each step only makes it
            easier, so that the farthest one tells for all.
        most: how many questions may be asked.
        guess: a step that may well be the answer; 0 for none.

    Returns:
        The step; None where it is proven that there is none. An answer may come and go: with `may`, a stretch of steps
        is left out only where it holds none, and is halved otherwise, so that none is missed.

    Raises:
        SpentError: no layout was met by so many questions.
    """
    asked, met = _Asked(at, may, most), None
    if may is None:
        return _bisected(steps, asked)
    try:
        answer = asked.possible(1, steps)
        if answer is False:
            return None
        if 0 < guess <= steps and (found := asked.layout(guess)):
            met = Reached(guess, found, least=False)
            return asked.first(1, guess - 1) or replace(met, least=True)
        return asked.first(1, steps, some=answer is True)
    except SpentError:
        asked.left = most
    with suppress(SpentError):  # as if each step made it easier: what is found does, but a smaller step may too
        met = _bisected(met.step if met else steps, asked) or met
    if met is None:
        raise SpentError
    return replace(met, least=False)


def nearest(ways: Sequence[tuple[int, Try, May | None]], most: int = 128) -> tuple[int, Reached] | None:
    """Find the least step at which one of several ways has a layout.

    Args:
        ways: the steps of each with its questions, as for `least`; answers may come and go.
        most: how many questions may be asked of all ways together.

    Returns:
        The number of the way, the first of those that are as near, with its step; None where it is proven that there
        is none. All ways are searched a stretch at a time, each twice as long as the one before, so that no way is
        looked at farther than another one needs.

    Raises:
        SpentError: no layout was met by so many questions.
    """
    asked, spent = [(steps, _Asked(at, may, most)) for steps, at, may in ways], 0
    best: tuple[int, Reached] | None = None
    low, long = 1, _FIRST_STRETCH
    while best is None and any(low <= steps for steps, _ in asked):
        for n, (steps, each) in enumerate(asked):
            each.left, before = most - spent, each.count
            high = low + long - 1 if best is None else best[1].step - 1
            try:
                found = each.first(low, min(steps, high))
            except SpentError:
                if best is None:
                    raise
                return best[0], replace(best[1], least=False)
            spent += each.count - before
            best = best if found is None else (n, found)
        low, long = low + long, 2 * long
    return best


def _bisected(steps: int, asked: _Asked) -> Reached | None:
    found = asked.layout(steps)
    if found is None:
        return None
    low, high = 1, steps
    while low < high:
        middle = (low + high) // 2
        nearer = asked.layout(middle)
        if nearer is None:
            low = middle + 1
        else:
            high, found = middle, nearer
    return Reached(high, found)
