"""What the next seat would cost, as text for the terminal, 80 columns wide."""

from __future__ import annotations

from collections.abc import Iterator

from rich.console import Console

from fitter.domain.near import Looked, NearMiss, NextSeat
from fitter.domain.project import Project
from fitter.domain.why import Sought
from fitter.report.paragraphs import beside, paragraph, show, some
from fitter.report.why_words import helpless, stated
from rooms.lengths import ZERO
from rooms.room import Swing
from rooms.survey.wording import listed


def print_near(console: Console, project: Project, near: NextSeat, open_end: str = "") -> None:
    """Print each single change that brings another seat, and what does not.

    Args:
        console: where to.
        project: what was asked.
        near: what was found.
        open_end: why not all changes were tried, where they were not.
    """
    if near.misses:
        show(console, ["", *paragraph(f"{_heading(near)}:", console.width), ""])
        for number, miss in enumerate(near.misses, start=1):
            show(console, list(_lines(project, near, number, miss, console.width)))
    if rest := " ".join(_rest(project, near, open_end)):
        show(console, ["", *paragraph(rest, console.width)])


def _heading(near: NextSeat) -> str:
    more, seats = _first(near)
    if any(miss.seats > seats for miss in near.misses):
        more = f"At least {more[0].lower()}{more[1:]}"
    change = "this one change" if len(near.misses) == 1 else "any one of these changes"
    return f"{more} ({seats} in all) would fit with {change}"


def _farther(project: Project) -> str:
    """What else there is to be tried in this room."""
    doors = any(opening.swing is Swing.IN for opening in project.room.openings)
    kinds = {
        "less ease": any(cushion.ease > ZERO for cushion in project.cushions),
        "doors that swing out": doors,
        "longer rail spans": True,
        "moved obstacles": any(not thing.hole for thing in project.room.obstacles),
        "moved edges of the room": True,
    }
    return f"`--near all` also tries {listed([kind for kind, there in kinds.items() if there])}."


def _first(near: NextSeat) -> tuple[str, int]:
    """The fewest seats that one of the changes brings, in words, and how many there are then."""
    seats = min((miss.seats for miss in near.misses), default=near.seats)
    more = seats - near.seats + 1
    words = {1: "One", 2: "Two", 3: "Three", 4: "Four"}
    return f"{words.get(more, str(more))} more {'seat' if more == 1 else 'seats'}", seats


def _lines(project: Project, near: NextSeat, number: int, miss: NearMiss, width: int) -> Iterator[str]:
    change = miss.change
    more = "" if miss.seats == _first(near)[1] else f"; that brings {miss.seats} seats in all"
    place = stated(project, [each.key for each in change.changes])
    yield from beside(f"{number:3}. {change.says}{more}", place, width, "     ")
    if change.caution:
        yield from paragraph(f"     caution: {change.caution}", width, "       ", first="")


def _rest(project: Project, near: NextSeat, open_end: str) -> Iterator[str]:
    """What was tried besides, and what was not."""
    if near.misses:
        each = "It was" if len(near.misses) == 1 else "Each was"
        least = all(miss.change.smallest for miss in near.misses)
        yield f"{each} solved and checked{'; a smaller change is not enough' if least else ''}."
    if near.helpless:
        none = f"No single change that was tried brings one more seat ({near.seats} in all)"
        names = helpless(near.helpless)
        idle = f"Tried alone, {'this brings' if len(names) == 1 else 'these bring'} no seat"
        yield f"{idle if near.misses else none}: {some(names)}."
    if near.unsettled:
        yield f"Not known, since it takes too long: {some(helpless(near.unsettled))}."
    if near.sought is not Sought.ALL:
        yield f"{open_end}, before all changes were tried that may bring one more seat ({near.seats} in all)."
    elif near.looked is Looked.EASY:
        yield _farther(project)
