"""Every layout is verified here, from the project and the layout alone, before it is shown."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from math import floor

from fitter.checking import corners, room, seating, splitting, stance, timber, whole
from fitter.checking.boards import check_plan
from fitter.checking.case import Case
from fitter.checking.wood import check_woodwork
from fitter.domain.findings import Finding
from fitter.domain.layout import Layout, RouteWidth
from fitter.domain.project import Project
from rooms.clearance import widest_passage
from rooms.lengths import Length

__all__ = ["check_layout", "check_plan", "check_woodwork", "route_widths"]

_FACTS: tuple[Callable[[Case], Iterator[Finding]], ...] = (
    whole.order,
    whole.wishes,
    whole.cushions,
    seating.decks,
    seating.modules,
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


def check_layout(project: Project, layout: Layout) -> tuple[Finding, ...]:
    """Verify a layout from scratch.

    Args:
        project: what was asked.
        layout: what is to be shown.

    Returns:
        An error for each fact that does not hold; empty when all is right. A layout that lacks a run, an end
        or a known cushion is told only that, since the other facts speak of those.
    """
    case = Case(project, layout)
    return whole.complete(case) or tuple(finding for fact in _FACTS for finding in fact(case))


def route_widths(project: Project, layout: Layout) -> tuple[RouteWidth, ...]:
    """How wide each route is past a layout, worst within the tolerance, to the nearest unit below."""
    things = Case(project, layout).areas(layout.footprint)
    return tuple(
        RouteWidth(route.name, route.width, Length(floor(widest_passage(project.room, route, things).clear + 0.5)))
        for route in project.room.routes
    )
