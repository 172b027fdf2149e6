"""What the next seat would cost: the single changes by which one more would fit."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from dataclasses import replace

from fitter.domain.layout import Layout
from fitter.domain.near import Looked, NearMiss, NextSeat, next_seat
from fitter.domain.project import Project
from fitter.domain.why import Change, Cure, Ease
from fitter.workflow.cures.curing import cures, told_once
from fitter.workflow.cures.lever import Lever
from fitter.workflow.cures.questions import Questions
from fitter.workflow.cures.settings import EASE_FACT
from fitter.workflow.cures.written import with_changes
from fitter.workflow.fitting import fit

_EASY = (Ease.CUSHIONS, Ease.ROUTE, Ease.OFFSET)
"""What is decided with a word in the file; doors, things and walls are looked at only where all is asked for."""


def near_misses(
    project: Project,
    layout: Layout,
    looked: Looked = Looked.EASY,
    *,
    deadline: float | None = None,
    told: Callable[[str], None] | None = None,
    kept: Callable[[NearMiss], None] | None = None,
) -> NextSeat | None:
    """Each single change by which one more seat would fit than the best layout has, by the smallest step that does.

    Args:
        project: that was fitted, as a file and flags of the command line state it.
        layout: its best, proven.
        looked: at which changes.
        deadline: by the monotonic clock; None for no limit.
        told: hears what is being tried.
        kept: hears of each near miss as soon as it is known.

    Returns:
        What was found; None where no more seats are wanted, or something else comes before seats.

    Raises:
        TimeUp: not known within the limit.
        CheckError: the checker refuses a layout that was found.
    """
    seats = next_seat(project, layout)
    if seats is None or looked is Looked.NO:
        return None
    wanted = _seating(project, seats)
    ask, found = Questions(wanted, deadline), list[NearMiss]()

    def again(changes: Sequence[Change]) -> Project | None:
        changed = with_changes(project, changes)
        return None if changed is None else _seating(changed, seats)

    def counted(cure: Cure) -> None:
        changed = again(cure.changes)
        miss = NearMiss(_strict(cure, changed, deadline), _most_seats(changed, cure.layout.seats, ask))
        found.append(miss)
        if kept:
            kept(miss)

    _, idle = cures(wanted, ask, told, again, counted, among=lambda lever: _tried(lever, looked))
    return NextSeat(seats, ranked(found), idle, tuple(ask.unsettled), looked)


def ranked(found: Sequence[NearMiss]) -> tuple[NearMiss, ...]:
    """Near misses, easiest first, then by the fewest steps, then as they were found; what says the same only once."""
    kept = told_once(found, lambda miss: miss.change.says)
    return tuple(sorted(kept, key=lambda miss: (miss.change.ease, miss.change.step)))


def _seating(project: Project, seats: int) -> Project:
    """The same for at least so many seats."""
    return replace(project, wish=replace(project.wish, least=seats))


def _tried(lever: Lever, looked: Looked) -> bool:
    # What was wished for in words is wished for with any number of seats.
    if lever.facts == ("least",) or lever.ease is Ease.ARRANGEMENT:
        return False
    return looked is Looked.ALL or (lever.ease in _EASY and not lever.facts[0].startswith(EASE_FACT))


def _strict(cure: Cure, changed: Project | None, deadline: float | None) -> Cure:
    """The change, with a word of caution where the file asks for benchmarks that the best layout misses then."""
    if changed is None or not changed.wish.strict:
        return cure
    left = None if deadline is None else max(0.01, deadline - time.monotonic())
    if not fit(changed, left).refused:
        return cure
    missed = "the best layout then fails a check that `wish.strict` asks for"
    return replace(cure, caution=f"{cure.caution}; {missed}" if cure.caution else missed)


def _most_seats(project: Project | None, seats: int, questions: Questions) -> int:
    """The most seats of a changed project, a layout of which has so many."""
    while project is not None and (project.wish.most is None or seats < project.wish.most):
        layout = questions.layout(_seating(project, seats + 1))
        if layout is None:
            break
        seats = layout.seats
    return seats
