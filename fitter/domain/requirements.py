"""Facts a person can point at: each is one switch of the layout model, with a sentence of its own."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import IntEnum

from fitter.domain.cushions import options
from fitter.domain.project import Project
from rooms.lengths import Length, format_length


class Rank(IntEnum):
    """How easily a fact is changed, easiest first."""

    WISH = 1
    SETTING = 2
    CUSHION = 3
    RULE = 4
    TAPE = 5


@dataclass(frozen=True)
class Requirement:
    """One fact that a layout must respect.

    Args:
        id: stable, such as `route:to the gate` or `edge:AB`.
        key: the key in the project file that states it.
        says: a clause that completes "the layout must respect that …".
        rank: how easily it is changed.
    """

    id: str
    key: str
    says: str
    rank: Rank


def requirements(project: Project) -> tuple[Requirement, ...]:
    """Every fact of a project that the layout model can switch, in the order of the file."""
    return (*_room_facts(project), *_cushion_facts(project), *_wish_facts(project), *_frame_facts(project))


def _room_facts(project: Project) -> list[Requirement]:
    room, tell = project.room, _teller(project)
    facts = [
        Requirement(f"edge:{e.name}", _taped(project, e.name), f"edge {e.name} is {tell(e.length)} long", Rank.TAPE)
        for e in room.edges
    ]
    facts += [
        Requirement(f"swing:{o.name}", f"room.openings.{n}.swing", f"{o.name} swings into the room", Rank.SETTING)
        for n, o in enumerate(room.openings)
    ]
    for n, obstacle in enumerate(room.obstacles):
        says = f"{obstacle.name} stands in the room"
        if obstacle.clear:
            says += f" and {tell(obstacle.clear)} around it stay clear"
        facts.append(Requirement(f"obstacle:{obstacle.name}", f"room.obstacles.{n}", says, Rank.TAPE))
    for n, route in enumerate(room.routes):
        says = f"the route {route.name} stays open {tell(route.width)} wide"
        facts.append(Requirement(f"route:{route.name}", f"room.routes.{n}.width", says, Rank.RULE))
    return facts


def _taped(project: Project, edge: str) -> str:
    """The key that states an edge: its side, or the corners where those were given."""
    side = f"room.sides.{edge}"
    return "room.corners" if "room.corners" in project.places and side not in project.places else side


def _cushion_facts(project: Project) -> list[Requirement]:
    return [
        Requirement(f"stock:{c.name}", f"cushions.{n}.own", f"there are {c.stock} of cushion {c.name}", Rank.CUSHION)
        for n, c in enumerate(project.cushions)
        if c.stock is not None
    ]


def _wish_facts(project: Project) -> list[Requirement]:
    wish, tell = project.wish, _teller(project)
    cushions = min(
        -(-wish.least // option.cushion.seats) * option.pitch(project.mark) for option in options(project.cushions)
    )
    seats = f"{wish.least} seats are wanted and take" if wish.least > 1 else "one seat takes"
    least = f"{seats} at least {tell(cushions)} of cushions side by side"
    facts = [Requirement("least", "wish.seats.least", least, Rank.WISH)]
    if wish.most is not None:
        facts.append(Requirement("most", "wish.seats.most", f"at most {wish.most} seats are wanted", Rank.WISH))
    if wish.shape is not None:
        facts.append(Requirement("shape", "wish.shape", f"the shape is to be {wish.shape}", Rank.WISH))
    if wish.ends is not None:
        facts.append(Requirement("ends", "wish.ends", f"the ends are to be {wish.ends}", Rank.WISH))
    if wish.corner is not None:
        facts.append(Requirement("corner", "wish.corner", f"the corner treatment is to be: {wish.corner}", Rank.WISH))
    if wish.against is not None:
        edge = f"the longest run stands within {tell(wish.off_wall)} of an edge"
        facts.append(Requirement("against", "wish.against", edge, Rank.WISH))
    facts.append(Requirement("legroom", "wish.legroom", f"{tell(wish.legroom)} stay clear before the seats", Rank.WISH))
    return facts


def _frame_facts(project: Project) -> list[Requirement]:
    span = _teller(project)(project.frame.max_span)
    return [Requirement("span", "frame.max_span", f"no rail bridges more than {span}", Rank.SETTING)]


def _teller(project: Project) -> Callable[[Length], str]:
    def tell(length: Length) -> str:
        return format_length(length, project.unit)

    return tell
