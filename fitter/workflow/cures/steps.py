"""From the facts of a clash to what is missing, in a few steps whose conclusions the solver has verified."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from fitter.domain.cushions import Cushion, options
from fitter.domain.project import Project
from fitter.domain.requirements import Requirement, requirements
from fitter.domain.why import Clash, Step
from fitter.domain.wishes import Shape
from fitter.workflow.cures.questions import Questions
from fitter.workflow.cures.wishes import counted
from rooms.lengths import ZERO, Length, format_length


@dataclass(frozen=True)
class _Case:
    """A clash on the way to its steps."""

    project: Project
    facts: tuple[Requirement, ...]
    questions: Questions

    @property
    def ids(self) -> frozenset[str]:
        return frozenset(fact.id for fact in self.facts)

    def fact(self, name: str) -> Requirement | None:
        return next((fact for fact in self.facts if fact.id == name), None)

    def others(self, name: str) -> tuple[Requirement, ...]:
        return tuple(fact for fact in self.facts if fact.id != name)

    def say(self, length: Length) -> str:
        return format_length(length, self.project.unit)

    def holds(self, project: Project) -> bool:
        """Whether another project can meet what clashes, if nothing else is asked."""
        return self.questions.only(project, self.ids) is not None


def told_in_steps(project: Project, ids: tuple[str, ...], questions: Questions) -> Clash:
    """A clash with its steps.

    Args:
        project: that is impossible.
        ids: of requirements that cannot hold together, each of them needed for that.
        questions: asks.

    Returns:
        The clash; each conclusion was verified: with the premises alone, and nothing else asked, the solver finds a
        layout at the number told and proves that there is none one shop mark, seat or cushion beyond it.
    """
    facts = tuple(fact for fact in requirements(project) if fact.id in ids)
    case = _Case(project, facts, questions)
    for way in (_row_too_long, _walk_too_narrow, _seats_too_many):
        found = way(case)
        if found is not None:
            return found
    return Clash(facts)


def _row_too_long(case: _Case) -> Clash | None:
    """A straight row of seats is longer than what is free for it."""
    project, wish = case.project, case.project.wish
    least, depths = case.fact("least"), {option.deck(project.mark) for option in options(project.cushions)}
    odd = any(fact.id in ("span", "carry") for fact in case.facts)
    if least is None or wish.shape is not Shape.STRAIGHT or len(depths) != 1 or odd:
        return None
    kind = min(options(project.cushions), key=lambda option: option.pitch(project.mark).units / option.cushion.seats)
    number = -(-wish.least // kind.cushion.seats)
    needed = kind.pitch(project.mark) * number
    bench = Cushion("row", project.mark, next(iter(depths)), kind.cushion.thickness, may_notch=False)

    def fits(marks: int) -> bool:
        row = replace(bench, width=project.mark * marks)
        return case.holds(replace(project, cushions=(row,), wish=replace(wish, least=1, most=None)))

    free = project.mark * _greatest(needed // project.mark, fits)
    if free >= needed:
        return None
    seat = f"{_each(kind.cushion, project)} takes {case.say(kind.pitch(project.mark))}, its ease counted in"
    n = project.cushions.index(kind.cushion)
    cushion = replace(least, id=f"cushion:{kind.cushion.name}", key=f"cushions.{n}.size", says=seat)
    wanted = replace(least, says=f"{counted(wish.least, 'seat')} {'is' if wish.least == 1 else 'are'} wanted")
    take = f"{counted(number, 'cushion')} side by side {'takes' if number == 1 else 'take'} {case.say(needed)}"
    room = f"a straight row of cushions can be {case.say(free)} long at most, ends not counted"
    steps = (Step(case.others("least"), room), Step((cushion, wanted), take))
    return Clash(
        case.facts, steps, f"{case.say(needed - free)} {'is' if needed - free <= project.mark else 'are'} missing"
    )


def _each(cushion: Cushion, project: Project) -> str:
    return "each cushion" if len(project.cushions) == 1 else f"each cushion `{cushion.name}`"


def _walk_too_narrow(case: _Case) -> Clash | None:
    """What a route has left beside what is asked for."""
    routes = [fact for fact in case.facts if fact.id.startswith("route:")]
    if len(routes) != 1:
        return None
    n = next(n for n, route in enumerate(case.project.room.routes) if f"route:{route.name}" == routes[0].id)
    route, mark = case.project.room.routes[n], case.project.mark

    def fits(marks: int) -> bool:
        room = case.project.room
        routes = (*room.routes[:n], replace(route, width=mark * marks), *room.routes[n + 1 :])
        return case.holds(replace(case.project, room=replace(room, routes=routes)))

    widest = mark * _greatest(-(-route.width // mark), fits)
    seats = counted(case.project.wish.least, "seat")
    beside = f"beside {seats} " if case.fact("least") else ""
    left = f"{beside}the route `{route.name}` keeps {case.say(widest)} at most"
    if widest <= ZERO:
        left = f"{beside}no way is left for the route `{route.name}`"
    asked = f"the route `{route.name}` is to be {case.say(route.width)} wide"
    short = route.width - widest
    steps = (Step(case.others(routes[0].id), left),)
    return Clash(case.facts, (*steps, Step((routes[0],), asked)), f"{case.say(short)} are missing")


def _seats_too_many(case: _Case) -> Clash | None:
    """How many seats there can be at most."""
    project, least = case.project, case.fact("least")
    if least is None:
        return None

    def fits(seats: int) -> bool:
        return seats == 0 or case.holds(replace(project, wish=replace(project.wish, least=seats)))

    most = _greatest(project.wish.least, fits)
    others = case.others("least")
    shed = all(fact.id.startswith(("stock:", "buy")) for fact in others)
    if most == 0:
        bound = "not even one seat finds a place"
    elif shed:
        bound = f"the cushions that can be had make {counted(most, 'seat')} at most"
    else:
        bound = f"{counted(most, 'seat')} {'finds' if most == 1 else 'find'} a place at most"
    wanted = replace(least, says=f"{counted(project.wish.least, 'seat')} are wanted")
    if project.wish.least == 1:
        return Clash(case.facts, (Step(others, bound),), "one seat is the least that a layout has")
    missing = project.wish.least - most
    steps = (Step(others, bound), Step((wanted,), ""))
    return Clash(case.facts, steps, f"{counted(missing, 'seat')} {'is' if missing == 1 else 'are'} too many")


def _greatest(limit: int, fits: Callable[[int], bool]) -> int:
    """The greatest whole number below a limit that fits, by halving; 0 where none does; smaller ones always fit."""
    low, high = 0, limit
    while low + 1 < high:
        middle = (low + high) // 2
        low, high = (middle, high) if fits(middle) else (low, middle)
    return low
