"""What fills the room that is left, in words, rows and entries of a document."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from fitter.domain.fills import least_width
from fitter.domain.layout import Box, Fill, Layout
from fitter.domain.project import Project
from fitter.domain.wishes import EndKind, FillKind, FillWish
from fitter.report.words import Teller
from rooms.lengths import Length

_THINGS = {
    "edge": "edge {}",
    "obstacle": "{} and what it keeps clear",
    "swing": "the leaf of {}",
    "route": "the route {}",
}
_NAMES = {FillKind.SHELF: "slatted shelf", FillKind.ARM: "wide arm", FillKind.GAP: "nothing"}


def fill_rows(project: Project, layout: Layout, tell: Teller) -> Iterator[tuple[str, ...]]:
    """One row for each end: what stands beyond it, how wide and deep that is, and why it is no wider."""
    for fill in layout.fills:
        wide, deep = fill.size
        yield f"{fill.hand} end", _NAMES[fill.kind], tell(wide), tell(deep), _stop(project, fill)


def _stop(project: Project, fill: Fill) -> str:
    """What keeps it from being wider."""
    what, _, name = fill.stop.partition(":")
    if what in _THINGS:
        return _THINGS[what].format(name)
    a_seat = fill.kind is FillKind.SHELF and project.frame.fills.widest is None
    return "as wide as a seat" if a_seat else "as wide as asked"


def fill_notes(project: Project, layout: Layout, tell: Teller) -> Iterator[str]:
    """Why a gap stays, why something ends before the room does, and which cushions have more ease."""
    for stretch in layout.eased:
        kind = next(kind for kind in project.cushions if kind.name == stretch.cushion)
        yield (
            f"Each {stretch.cushion} has {tell(kind.ease + stretch.more)} of ease, {tell(stretch.more)} more than its"
            " own: the seats fill that much more of the room."
        )
    for fill in layout.fills:
        if fill.kind is FillKind.GAP:
            narrow = _too_narrow(project, layout, fill, tell)
            yield f"The gap of {tell(fill.size[0])} at the {fill.hand} end stays: {narrow}."
    wish = project.wish.fill
    if wish is FillWish.EASE and not layout.eased:
        yield "No cushion can have more ease without losing seats, cushions that stay whole, or money."
    for end in layout.ends:
        if wish is FillWish.ARM and end.kind is EndKind.OPEN:
            yield f"The {end.hand} end is open, so it has no arm that could be wider."


def _too_narrow(project: Project, layout: Layout, fill: Fill, tell: Teller) -> str:
    armed = next(end.kind for end in layout.ends if end.hand is fill.hand) is EndKind.ARMED
    wish = project.wish.fill
    kinds = [FillKind.SHELF] if wish in (FillWish.SHELF, FillWish.ANY) else []
    kinds += [FillKind.ARM] if armed and wish in (FillWish.ARM, FillWish.ANY) else []
    asks = [f"a {_NAMES[kind]} takes {tell(least_width(project, kind))} at least" for kind in kinds]
    return " and ".join(asks)


def fill_entries(layout: Layout, number: Callable[[Length], Any], outline: Callable[[Box], Any]) -> dict[str, Any]:
    """The keys `fills` and `eased` of a layout's entry in a document.

    Args:
        layout: which.
        number: gives a length in the document's unit.
        outline: gives a box in coordinates of the room.
    """
    return {
        "fills": [
            {
                "kind": str(fill.kind),
                "hand": str(fill.hand),
                "run": str(fill.run),
                "width": number(fill.size[0]),
                "depth": number(fill.size[1]),
                "stopped_by": fill.stop,
                "outline": outline(fill.box),
            }
            for fill in layout.fills
        ],
        "eased": [{"cushion": stretch.cushion, "more": number(stretch.more)} for stretch in layout.eased],
    }
