"""Where the parts of a chain of runs lie in the layout frame, from its deck corner and the sizes of its cushions.

A run lies in a place that is as deep as its cushion and the gap behind it; what stands beside it is as deep as that.

Written for the right hand, at low x; `Case.seen` turns the left over.
"""

from __future__ import annotations

from fitter.checking.case import Case
from fitter.domain.layout import Box, End, Module, Notch, Run, Side
from fitter.domain.wishes import CornerKind
from rooms.lengths import ZERO, Length


def deck(case: Case, run: Run) -> Box:
    """The place of a run, without its corner places."""
    if run.side is Side.MAIN:
        low = case.x + case.reach(Side.RIGHT)
        return Box(low, case.y, low + case.length(run), case.front)
    return case.seen(Box(case.x, case.front, case.x + case.depth(run), case.front + case.length(run)), run.side)


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
    return case.seen(Box(x - t, top, x + case.depth(arm), top + thick), thing.hand)


def corner_place(case: Case, hand: Side) -> Box:
    """The rectangle of two depths where an arm meets the main run."""
    return case.seen(Box(case.x, case.y, case.x + case.reach(hand), case.front), hand)


def cover(case: Case, module: Module) -> Box | None:
    """What a cushion covers of a corner place that is larger; None where it fills it, and where a table stands.

    It lies in the back corner, off both backs by the gap.
    """
    if module.corner is None or module.cushion is None:
        return None
    x, y = case.x + case.gap, case.y + case.gap
    box = Box(x, y, x + case.pitch(module), y + case.deck(module))
    covered = case.seen(box, module.corner)
    return None if covered == corner_place(case, module.corner) else covered


def slot(case: Case, module: Module) -> Box:
    """Where a module lies: a whole corner place, or one pitch of its run at the front of it."""
    if module.corner is not None:
        return corner_place(case, module.corner)
    run = next(run for run in case.layout.runs if run.side is module.run)
    near, far = case.pitch(run) * (module.place - 1), case.pitch(run) * module.place
    if run.side is Side.MAIN:
        start = case.x + case.reach(case.first)
        return case.seen(Box(start + near, case.front - case.deck(run), start + far, case.front), case.first)
    inner = case.x + case.depth(run)
    return case.seen(Box(inner - case.deck(run), case.front + near, inner, case.front + far), run.side)


def notch(case: Case, module: Module) -> Notch | None:
    """What is cut from a corner cushion for what stands there above the deck; None where nothing is.

    It begins half its ease, down to the mark, from where it would touch the back without overhang; a negative ease
    is none here.
    """
    kind, angle = case.cushion(module.cushion), case.project.frame.angle
    if module.corner is None or kind is None:
        return None
    half = case.mark * max(0, kind.ease.units // (2 * case.mark.units))
    x, y = (place + case.overhang + half for place in (case.x, case.y))
    thick, wide = angle.thickness.ceil_to(case.mark), angle.width.ceil_to(case.mark)

    def part(low: Length, right: Length, high: Length) -> Box:
        assert module.corner is not None
        return case.seen(Box(x, y + low, x + right, y + high), module.corner)

    if case.layout.corner is CornerKind.INSIDE_POST and (deep := case.cut(kind, case.post)):
        return Notch(part(ZERO, deep, deep), deep, deep)
    if case.layout.corner is CornerKind.ANGLE_POST and (deep := case.cut(kind, thick)):
        # One board lies along the main run's back, the other stands before it along the arm's.
        along, across = case.cut(kind, wide), case.cut(kind, thick + wide)
        strips = part(ZERO, along, deep), part(deep, deep, across)
        return Notch(part(ZERO, max(along, deep), across), max(along, deep), across, strips, deep)
    return None
