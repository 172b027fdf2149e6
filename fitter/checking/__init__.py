"""Every layout is verified here, from the project and the layout alone, before it is shown."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from math import floor

from fitter.checking import corners, fills, room, seating, splitting, stance, timber, whole
from fitter.checking.boards import check_plan
from fitter.checking.case import DUST, HAIR, Case
from fitter.checking.wood import check_woodwork
from fitter.domain.fills import eased
from fitter.domain.findings import Finding
from fitter.domain.layout import Layout, RouteWidth, Side
from fitter.domain.project import Project
from rooms.clearance import widest_passage
from rooms.lengths import Length

__all__ = ["check_layout", "check_plan", "check_woodwork", "free_beyond", "route_widths"]

_FACTS: tuple[Callable[[Case], Iterator[Finding]], ...] = (
    whole.order,
    whole.wishes,
    whole.cushions,
    seating.decks,
    seating.modules,
    corners.gap,
    corners.backs_meet,
    corners.room_for_wood,
    corners.cushions_in_corners,
    corners.notches,
    seating.backs,
    seating.ends,
    seating.legroom_strips,
    seating.footprint,
    seating.on_the_mark,
    splitting.split_lines,
    splitting.corners,
    splitting.sections,
    timber.posts,
    timber.rails,
    timber.lengths,
    timber.solids_apart,
    stance.pose,
    stance.longest,
    stance.against,
    room.inside,
    room.apart,
    room.legroom,
    room.routes,
)
"""What holds of a layout, in the order of the document that says what a layout is."""


def check_layout(project: Project, layout: Layout, *, bare: bool = False, exactly: bool = False) -> tuple[Finding, ...]:
    """Verify a layout from scratch.

    Args:
        project: what was asked.
        layout: what is to be shown.
        bare: whether what is to fill the room beyond its ends has not been looked for yet.
        exactly: whether distances may be short by what floats make of them only, and not by a hair of wood.

    Returns:
        An error for each fact that does not hold; empty when all is right. A layout that lacks a run, an end
        or a known cushion is told only that, since the other facts speak of those.
    """
    if stretched := tuple(fills.stretched(Case(project, layout))):
        return stretched
    case = Case(eased(project, layout), layout, HAIR if exactly else float(DUST.units))
    facts = _FACTS if bare else (*_FACTS, fills.fills)
    return whole.complete(case) or tuple(finding for fact in facts for finding in fact(case))


def route_widths(project: Project, layout: Layout) -> tuple[RouteWidth, ...]:
    """How wide each route is past a layout, worst within the tolerance, to the nearest unit below."""
    things = Case(project, layout).areas(layout.footprint)
    return tuple(
        RouteWidth(route.name, route.width, Length(floor(widest_passage(project.room, route, things).clear + 0.5)))
        for route in project.room.routes
    )


def free_beyond(project: Project, layout: Layout, hand: Side, most: Length) -> tuple[Length, str]:
    """How wide what stands beyond an end may be at most, and what stops it.

    Halving finds it exactly, since what strikes something goes on striking it when it grows (`fitter.checking.fills`).

    Args:
        project: what was asked.
        layout: one that `check_layout` accepts, with what fills other ends already.
        hand: the end.
        most: a width that is not looked beyond, on the shop mark.

    Returns:
        The width, in whole marks, and the id of the requirement that one mark more would break; `widest` where `most`
        is free.
    """
    case = Case(eased(project, layout), layout)
    end = next(end for end in layout.ends if end.hand is hand)
    low, high, stop = 0, most.units // case.mark.units + 1, "widest"
    while high - low > 1:
        middle = (low + high) // 2
        struck = fills.stopped_by(case, fills.beyond(case, end, case.mark * middle), layout.built_fills)
        low, high, stop = (middle, high, stop) if struck is None else (low, middle, struck)
    return case.mark * low, stop
