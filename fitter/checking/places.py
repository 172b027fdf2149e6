"""Where the parts of a chain of runs lie in the layout frame, from its deck corner and the sizes of its cushions.

Written for the right hand, at low x; `Case.seen` turns the left over.
"""

from __future__ import annotations

from fitter.checking.case import Case
from fitter.domain.layout import Box, End, Module, Run, Side
from rooms.lengths import ZERO


def deck(case: Case, run: Run) -> Box:
    """The modules of a run, without its corner places."""
    if run.side is Side.MAIN:
        low = case.x + case.reach(Side.RIGHT)
        return Box(low, case.y, low + case.length(run), case.front)
    return case.seen(Box(case.x, case.front, case.x + case.deck(run), case.front + case.length(run)), run.side)


def back(case: Case, run: Run) -> Box:
    """The panel behind a run, whose corners belong to that of the main run."""
    x, y, t = case.x, case.y, case.back
    if run.side is Side.MAIN:
        low, high = (t if case.layout.run(hand) else ZERO for hand in (Side.RIGHT, Side.LEFT))
        return Box(x - low, y - t, x + case.width + high, y)
    return case.seen(Box(x - t, y, x, case.front + case.length(run)), run.side)


def legroom(case: Case, run: Run) -> Box:
    """The strip before the front of a run."""
    place, deep = deck(case, run), case.legroom
    if run.side is Side.MAIN:
        return Box(place.x0, place.y1, place.x1, place.y1 + deep)
    place = case.seen(place, run.side)
    return case.seen(Box(place.x1, place.y0, place.x1 + deep, place.y1), run.side)


def end(case: Case, thing: End) -> Box:
    """An end, outside the last run of the chain at its hand."""
    x, y, t, thick = case.x, case.y, case.back, case.end(thing.kind)
    arm = case.layout.run(thing.hand)
    if arm is None:
        return case.seen(Box(x - thick, y - t, x, case.front), thing.hand)
    top = case.front + case.length(arm)
    return case.seen(Box(x - t, top, x + case.deck(arm), top + thick), thing.hand)


def corner_place(case: Case, hand: Side) -> Box:
    """The rectangle of two deck depths where an arm meets the main run."""
    return case.seen(Box(case.x, case.y, case.x + case.reach(hand), case.front), hand)


def cover(case: Case, module: Module) -> Box | None:
    """What a cushion covers of a corner place that is larger; None where it fills it, and where a table stands."""
    if module.corner is None or module.cushion is None:
        return None
    box = Box(case.x, case.y, case.x + case.pitch(module), case.y + case.deck(module))
    covered = case.seen(box, module.corner)
    return None if covered == corner_place(case, module.corner) else covered


def slot(case: Case, module: Module) -> Box:
    """The place of a module: a corner place, or one pitch of its run."""
    if module.corner is not None:
        return corner_place(case, module.corner)
    run = next(run for run in case.layout.runs if run.side is module.run)
    near, far = case.pitch(run) * (module.place - 1), case.pitch(run) * module.place
    if run.side is Side.MAIN:
        start = case.x + case.reach(case.first)
        return case.seen(Box(start + near, case.y, start + far, case.front), case.first)
    place = deck(case, run)
    return Box(place.x0, place.y0 + near, place.x1, place.y0 + far)
