"""Facts a person can point at: each is one switch of the layout model, with a sentence of its own."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from enum import IntEnum

from fitter.domain.cushions import Cushion, options
from fitter.domain.project import Project
from fitter.domain.wishes import Side, Wish
from rooms.lengths import ZERO, Length, format_length
from rooms.room import Height, Room


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


def walked(ids: Iterable[str]) -> bool:
    """Whether a route is among the ids of some requirements."""
    return any(name.startswith("route:") for name in ids)


def requirements(project: Project) -> tuple[Requirement, ...]:
    """Every fact of a project that the layout model can switch, in the order of the file."""
    return (*_room_facts(project), *_cushion_facts(project), *_wish_facts(project), *_frame_facts(project))


_IN_THE_WAY = {
    Height.FULL: "stands in the room",
    Height.LOW: "bears no foot",
    Height.REACH: "stays within reach",
}


def _room_facts(project: Project) -> list[Requirement]:
    room, tell = project.room, _teller(project)
    facts = [
        Requirement(f"edge:{e.name}", _taped(project, e.name), f"edge {e.name} is {tell(e.length)} long", Rank.TAPE)
        for e in room.edges
    ]
    facts += [
        Requirement(f"swing:{o.name}", f"room.openings.{n}.swing", f"`{o.name}` swings into the room", Rank.SETTING)
        for n, o in enumerate(room.openings)
    ]
    for n, obstacle in enumerate(room.obstacles):
        says = f"`{obstacle.name}` {'is a hole in the ground' if obstacle.hole else _IN_THE_WAY[obstacle.height]}"
        if obstacle.clear:
            says += f" and {tell(obstacle.clear)} around it stay clear"
        facts.append(Requirement(f"obstacle:{obstacle.name}", obstacle_key(room, n), says, Rank.TAPE))
    for n, route in enumerate(room.routes):
        says = f"the route `{route.name}` stays open {tell(route.width)} wide"
        facts.append(Requirement(f"route:{route.name}", f"room.routes.{n}.width", says, Rank.RULE))
    return facts


def obstacle_key(room: Room, index: int) -> str:
    """The key that states an obstacle of the room; holes have a list of their own, after the obstacles."""
    before = sum(obstacle.hole == room.obstacles[index].hole for obstacle in room.obstacles[:index])
    return f"room.{'holes' if room.obstacles[index].hole else 'obstacles'}.{before}"


def _taped(project: Project, edge: str) -> str:
    """The key that states an edge: its side, or the corners where those were given."""
    side = f"room.sides.{edge}"
    return "room.corners" if "room.corners" in project.places and side not in project.places else side


def _cushion_facts(project: Project) -> list[Requirement]:
    return [
        Requirement(f"stock:{c.name}", f"cushions.{n}.own", _stocked(c), Rank.CUSHION)
        for n, c in enumerate(project.cushions)
        if c.stock is not None
    ]


def _stocked(cushion: Cushion) -> str:
    """How many there are, and why there are no more."""
    own = cushion.own or 0
    many = f"{'is' if own == 1 else 'are'} {own or 'none'} of cushion `{cushion.name}`"
    return f"there {many} and none to buy, as it has no price"


def _wish_facts(project: Project) -> list[Requirement]:
    wish, tell = project.wish, _teller(project)
    cushions = _shortest(project, wish.least)
    seats = f"{wish.least} seats are wanted and take" if wish.least > 1 else "one seat takes"
    least = f"{seats} at least {tell(cushions)} of cushions side by side"
    facts = [Requirement("least", "wish.seats.least", least, Rank.WISH)]
    if wish.most is not None:
        facts.append(Requirement("most", "wish.seats.most", f"at most {wish.most} seats are wanted", Rank.WISH))
    if wish.buy_most is not None:
        many = "no cushion is" if wish.buy_most == 0 else f"at most {wish.buy_most} cushions are"
        facts.append(Requirement("buy", "wish.buy_at_most", f"{many} to be bought", Rank.WISH))
    if wish.shape is not None:
        facts.append(Requirement("shape", "wish.shape", f"the shape is to be {wish.shape}", Rank.WISH))
    if wish.hand is not None:
        facts.append(Requirement("hand", "wish.hand", f"the short run is to lie on the {wish.hand}", Rank.WISH))
    facts += _end_facts(wish)
    if wish.corner is not None:
        facts.append(Requirement("corner", "wish.corner", f"the corner treatment is to be: {wish.corner}", Rank.WISH))
    if wish.against is not None:
        edge = f"the longest run stands within {tell(wish.off_wall)} of an edge"
        key = "wish.off_wall" if "wish.against" not in project.places else "wish.against"
        facts.append(Requirement("against", key, edge, Rank.WISH))
    facts.append(Requirement("legroom", "wish.legroom", f"{tell(wish.legroom)} stay clear before the seats", Rank.WISH))
    return facts


def _shortest(project: Project, seats: int) -> Length:
    """The least length of cushions side by side, of any kinds, that have so many seats."""
    kinds = {(option.cushion.seats, option.pitch(project.mark)) for option in options(project.cushions)}
    least = [ZERO]
    for count in range(1, seats + 1):
        least.append(min(pitch + least[max(0, count - places)] for places, pitch in kinds))
    return least[seats]


def _end_facts(wish: Wish) -> list[Requirement]:
    """One fact where both ends were asked for with one word, else one for each."""
    if wish.left_end is wish.right_end is not None:
        return [Requirement("ends", "wish.ends", f"the ends are to be {wish.left_end}", Rank.WISH)]
    return [
        Requirement(f"end:{hand}", f"wish.ends.{hand}", f"the {hand} end is to be {kind}", Rank.WISH)
        for hand in (Side.LEFT, Side.RIGHT)
        if (kind := wish.end(hand)) is not None
    ]


def _frame_facts(project: Project) -> list[Requirement]:
    tell, carry = _teller(project), project.frame.carry
    span = tell(project.frame.max_span)
    facts = [Requirement("span", "frame.max_span", f"no rail bridges more than {span}", Rank.SETTING)]
    if not project.frame.backs_meet:
        says = "backs that lean, or stand on edge where they meet, leave a low or angle post nothing to join"
        facts.append(Requirement("backs", "frame", says, Rank.SETTING))
    if carry is not None:
        says = f"no piece that is carried in is longer than {tell(carry.longest)}"
        facts.append(Requirement("carry", "frame.carry.longest", says, Rank.SETTING))
    return facts


def _teller(project: Project) -> Callable[[Length], str]:
    def tell(length: Length) -> str:
        return format_length(length, project.unit)

    return tell
