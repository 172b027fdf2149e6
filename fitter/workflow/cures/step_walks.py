"""A route is left narrower than it is asked to be."""

from __future__ import annotations

from dataclasses import replace

from shapely.geometry import Polygon

from fitter.domain.layout import Layout
from fitter.domain.requirements import Requirement, requirements
from fitter.domain.why import Clash, Step
from fitter.workflow.cures.case import Case, greatest
from fitter.workflow.cures.wishes import counted
from rooms.clearance import Passage, widest_passage
from rooms.lengths import ZERO, Length
from rooms.room import Room, Route


def walk_too_narrow(case: Case) -> Clash | None:
    """Compare what a route has left, in a room with or without seats, with what is asked for.

    Args:
        case: with one route in the clash.

    Returns:
        The clash with its steps; None where no route or several are in it.
    """
    routes = [fact for fact in case.facts if fact.id.startswith("route:")]
    if len(routes) != 1:
        return None
    n = next(n for n, route in enumerate(case.project.room.routes) if f"route:{route.name}" == routes[0].id)
    asked = case.project.room.routes[n]
    widest, layout = _widest(case, n, asked)
    if widest >= asked.width:
        return None
    passage = _passage(case.project.room, asked, layout)
    between = _between(case, passage)
    premises = case.others(routes[0].id) or _things(case, passage)
    steps = (Step(premises, _left(case, asked, widest, between)), Step((_asked(case, routes[0], asked),), ""))
    short = asked.width - widest
    missing = f"{case.say(short)} {'is' if short <= case.project.mark else 'are'} missing"
    return Clash(case.facts, steps, missing, -(-short // case.project.mark))


def _widest(case: Case, n: int, asked: Route) -> tuple[Length, Layout | None]:
    """The width, in whole marks, that some layout leaves and none exceeds; with such a layout."""
    project, mark = case.project, case.project.mark
    found: dict[int, Layout] = {}

    def fits(marks: int) -> bool:
        room, wide = project.room, replace(asked, width=mark * marks)
        routes = (*room.routes[:n], wide, *room.routes[n + 1 :])
        layout = case.layout(replace(project, room=replace(room, routes=routes)))
        if layout is not None:
            found[marks] = layout
        return layout is not None

    most = greatest(-(-asked.width // mark), fits, _guess(case, asked))
    return mark * most, found.get(most)


def _guess(case: Case, asked: Route) -> tuple[int, ...]:
    """Where nothing but the route is asked for, what the empty room leaves."""
    clear = _passage(case.project.room, asked, None).clear
    return (int(clear) // case.project.mark.units,) if clear < asked.width.units else ()


def _passage(room: Room, route: Route, layout: Layout | None) -> Passage:
    if layout is None:
        return widest_passage(room, route, [])
    rings = [layout.pose.outline(box) for box in layout.footprint]
    return widest_passage(room, route, [Polygon([(float(x), float(y)) for x, y in ring]) for ring in rings])


def _between(case: Case, passage: Passage) -> str:
    """The things that leave the narrowest gap; empty where that is one and the same."""
    names = list(dict.fromkeys(_named(case.project.room, name) for name in passage.names))
    return f", between {' and '.join(names)}" if len(names) == 2 else ""


def _named(room: Room, name: str) -> str:
    if any(edge.name == name for edge in room.edges):
        return f"edge {name}"
    return f"`{name}`" if any(thing.name == name for thing in room.obstacles) else "the seats"


def _things(case: Case, passage: Passage) -> tuple[Requirement, ...]:
    """The facts that state the things at a gap."""
    ids = [f"{kind}:{name}" for name in passage.names for kind in ("edge", "obstacle")]
    return tuple(fact for fact in requirements(case.project) if fact.id in ids)


def _left(case: Case, asked: Route, widest: Length, between: str) -> str:
    seats = counted(case.project.wish.least, "seat")
    beside = f"beside {seats} " if case.fact("least") else "" if len(case.facts) > 1 else "even without seats "
    if widest <= ZERO:
        return f"{beside}no way is left for the route `{asked.name}`"
    return f"{beside}the route `{asked.name}` is {case.say(widest)} wide at most{between}"


def _asked(case: Case, fact: Requirement, asked: Route) -> Requirement:
    return replace(fact, says=f"it is to stay open {case.say(asked.width)} wide")
