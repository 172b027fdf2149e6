"""A route is left narrower than it is asked to be."""

from __future__ import annotations

from dataclasses import replace

from shapely.geometry import Polygon

from fitter.domain.layout import Layout
from fitter.domain.project import Project
from fitter.domain.requirements import Requirement, requirements
from fitter.domain.why import Clash, Step
from fitter.workflow.cures.case import Case, with_all
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
    mark, tolerance = case.project.mark, case.project.room.tolerance // case.project.mark
    most = widest // mark
    marks = with_all(most, lambda k: case.whole(_routed(case, n, asked, k)) is not None, (most - tolerance,))
    # Measured for the width that is asked for, beside which no door that counts as wide is the narrowest place.
    passage = _passage(case.project.room, asked, None if case.bare else layout)
    premises = case.others(routes[0].id) or _things(case, passage)
    left = _left(case, asked, widest, _between(case, passage))
    if marks < most:
        left += f"; with all else that is asked, {case.say(mark * marks)}"
    if 0 < most - marks == tolerance and _for_the_tape(case, _routed(case, n, asked, most)):
        left += f" ({case.say(mark * tolerance)} less for what the tape may be off)"
    steps = (Step(premises, left), Step((_asked(case, routes[0], asked),), ""))
    short = asked.width - mark * marks
    missing = f"{case.say(short)} {'is' if short <= mark else 'are'} missing"
    return Clash(case.facts, steps, missing, -(-short // mark))


def _for_the_tape(case: Case, wider: Project) -> bool:
    """Whether a route could be that much wider, with all else that is asked, if the tape were never off."""
    return case.whole(replace(wider, room=replace(wider.room, tolerance=ZERO))) is not None


def _routed(case: Case, n: int, asked: Route, marks: int) -> Project:
    """The project with another width of the route."""
    room, wide = case.project.room, replace(asked, width=case.project.mark * marks)
    return replace(case.project, room=replace(room, routes=(*room.routes[:n], wide, *room.routes[n + 1 :])))


def _widest(case: Case, n: int, asked: Route) -> tuple[Length, Layout | None]:
    """The width, in whole marks, that some layout leaves and none exceeds; with such a layout.

    By halving; what a layout that was found leaves in truth is often the answer, so the next mark is asked after it.
    That is measured for the width that it was found for, since doors count as wider for a wider one.
    """
    mark, low, high = case.project.mark, 0, -(-asked.width // case.project.mark)
    best: Layout | None = None
    probes = list(_guess(case, asked))
    while low + 1 < high:
        probe = probes.pop(0) if probes else (low + high) // 2
        if not low < probe < high:
            continue
        layout = case.layout(_routed(case, n, asked, probe))
        if layout is None:
            high = probe
            continue
        clear = int(_passage(case.project.room, replace(asked, width=mark * probe), layout).clear) // mark.units
        low, best = min(max(probe, clear), high - 1), layout
        probes = [low + 1] if clear > probe else []
    return mark * low, best


def _guess(case: Case, asked: Route) -> tuple[int, ...]:
    """Where nothing but the route is asked for, what the empty room leaves, and the mark beyond."""
    clear = int(_passage(case.project.room, asked, None).clear)
    marks = clear // case.project.mark.units
    return (marks, marks + 1) if clear < asked.width.units else ()


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
    beside = f"beside {seats} " if case.fact("least") else "even without seats " if case.bare else ""
    if widest <= ZERO:
        return f"{beside}no way is left for the route `{asked.name}`"
    return f"{beside}the route `{asked.name}` is {case.say(widest)} wide at most{between}"


def _asked(case: Case, fact: Requirement, asked: Route) -> Requirement:
    return replace(fact, says=f"the route is to stay open {case.say(asked.width)} wide")
