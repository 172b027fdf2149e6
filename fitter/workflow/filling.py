"""A layout to one that fills the room it leaves: a shelf or a wide arm beyond each end."""

from __future__ import annotations

from dataclasses import replace

from fitter.checking import free_beyond
from fitter.domain.fills import least_width, most_width
from fitter.domain.layout import Box, End, Fill, Layout, Side
from fitter.domain.project import Project
from fitter.domain.wishes import EndKind, FillKind, FillWish
from rooms.lengths import ZERO, Length

__all__ = ["filled"]

_HANDS = (Side.RIGHT, Side.LEFT)


def filled(project: Project, layout: Layout) -> Layout:
    """The layout with what the wish asks for beyond its ends, each as wide as can be, the right hand first.

    Args:
        project: what was asked.
        layout: one that the checker accepts, without fills.

    Returns:
        The same layout with its fills; gaps that are too narrow for anything are told as such, and are no ground that
        it stands on. Where nothing is asked for or no room is left, the layout itself.
    """
    for hand in _HANDS:
        fill = _beyond(project, layout, next(end for end in layout.ends if end.hand is hand))
        if fill is not None:
            ground = (fill.box,) if fill.kind.built else ()
            layout = replace(layout, fills=(*layout.fills, fill), footprint=(*layout.footprint, *ground))
    return layout


def _beyond(project: Project, layout: Layout, end: End) -> Fill | None:
    """What stands beyond an end: an arm that takes up all that is free, else a shelf, else an arm, else nothing."""
    wish, armed = project.wish.fill, end.kind is EndKind.ARMED
    kinds = [FillKind.ARM] if armed and wish in (FillWish.ARM, FillWish.ANY) else []
    kinds += [FillKind.SHELF] if wish in (FillWish.SHELF, FillWish.ANY) else []
    if not kinds:
        return None
    run = next(run for run in layout.runs if run.side is end.run)
    most = {kind: most_width(project, kind, run) for kind in kinds}
    least = {kind: least_width(project, kind) for kind in kinds}
    reach = max(*most.values(), *least.values())
    free, stop = free_beyond(project, layout, end.hand, reach + project.mark)
    if not free:
        return None
    able = [kind for kind in kinds if least[kind] <= min(free, most[kind])]
    whole = [kind for kind in able if free <= most[kind]]
    kind = whole[0] if whole else FillKind.SHELF if FillKind.SHELF in able else able[0] if able else FillKind.GAP
    wide = min(free, most.get(kind, reach))
    return Fill(kind, end.run, end.hand, _box(project, end, wide), stop if wide == free else "widest")


def _box(project: Project, end: End, wide: Length) -> Box:
    """The plan beyond an end. Legs of an open one stand before the back line, so what stands there begins at it."""
    box, frame = end.box, project.frame
    behind = ZERO if end.kind is EndKind.ARMED else frame.back_thickness.ceil_to(project.mark)
    if end.run is not Side.MAIN:
        x0, x1 = (box.x0 + behind, box.x1) if end.run is Side.RIGHT else (box.x0, box.x1 - behind)
        return Box(x0, box.y1, x1, box.y1 + wide)
    x0, x1 = (box.x0 - wide, box.x0) if end.hand is Side.RIGHT else (box.x1, box.x1 + wide)
    return Box(x0, box.y0 + behind, x1, box.y1)
