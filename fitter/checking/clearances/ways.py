"""Routes against the width of an accessible one, and the pinches that it may have."""

from __future__ import annotations

from collections.abc import Iterator
from math import hypot

from fitter.checking.clearances.held import Held
from fitter.domain.benchmarks import PASSING_EVERY, PINCH, PINCH_APART, PINCH_LENGTH, ROUTE, TURNING
from fitter.domain.findings import Finding
from rooms.clearance import NarrowPlace, narrow_places
from rooms.clearance.passage import FURNITURE
from rooms.lengths import Length
from rooms.room import Route


def routes(held: Held) -> Iterator[Finding]:
    """Routes that are narrower than one of 36 in, but for short pinches."""
    room = held.project.room
    for n, (route, width) in enumerate(zip(room.routes, held.layout.routes, strict=True)):
        key, clear = f"room.routes.{n}.width", width.clear
        if clear is None or not held.short(clear, ROUTE):
            continue
        places = narrow_places(
            room,
            route,
            held.things,
            full=held.size(ROUTE),
            least=held.size(PINCH),
            apart=held.size(PINCH_APART),
        )
        if places is None or held.short(clear, PINCH):
            yield _too_narrow(held, route, clear, key)
        elif places:
            yield _pinched(held, route, places, key)


def _too_narrow(held: Held, route: Route, clear: Length, key: str) -> Finding:
    least = held.asked(PINCH)
    message = f"route `{route.name}` is {held.tell(clear)} wide past the seats; the least at any point is {least}"
    help = "widen it, or keep it as a way for one person on foot"
    return held.missed(PINCH, "route-narrow-past-seats", message, key, help)


def _pinched(held: Held, route: Route, places: tuple[NarrowPlace, ...], key: str) -> Finding:
    """What is narrower than the route should be, the longest such place first."""
    first, more = places[0], len(places) - 1
    length, long = held.tell_up(first.length)
    clear = held.tell(Length(round(min(place.clear for place in places))))
    wide, most = held.asked(ROUTE), held.asked(PINCH_LENGTH)
    where = f"between {_thing(held, first.names[0])} and {_thing(held, first.names[1])}"
    others = f", and for less in {more} more place{'s' * (more > 1)}" if more else ""
    if length <= held.size(PINCH_LENGTH):
        message = f"route `{route.name}` is {clear} wide for {long} {where}{others}, and {wide} elsewhere"
        help = f"a pinch of {held.asked(PINCH)} may be {most} long"
        return held.noted(PINCH_LENGTH, "route-pinch", message, key, help)
    message = f"route `{route.name}` is narrower than {wide} for {long} {where}{others}; its least width is {clear}"
    help = f"write a width of {wide}, or keep what is narrower to {most} (places less than {held.asked(PINCH_APART)} "
    return held.missed(PINCH_LENGTH, "route-pinch-long", message, key, f"{help}apart count as one)")


def _thing(held: Held, name: str) -> str:
    if name == FURNITURE:
        return "the seats"
    return f"edge {name}" if name in [edge.name for edge in held.project.room.edges] else f"`{name}`"


def passing(held: Held) -> Iterator[Finding]:
    """Routes so long, as the crow flies, that two must be able to pass each other on them."""
    room = held.project.room
    for n, (route, width) in enumerate(zip(room.routes, held.layout.routes, strict=True)):
        (a, b), (c, d) = (room.jambs(room.opening(name)) for name in (route.start, route.end))
        dx, dy = a.x + b.x - c.x - d.x, a.y + b.y - c.y - d.y
        far = Length(round(hypot(dx.units, dy.units) / 2))
        if far > held.size(PASSING_EVERY) and width.clear is not None and held.short(width.clear, TURNING):
            message = (
                f"route `{route.name}` is {held.tell(far)} long and nowhere surely wide enough to pass: "
                f"{held.tell(width.clear)}, where {held.asked(TURNING)} would be"
            )
            help = f"keep a place of {held.asked(TURNING)} square in every {held.asked(PASSING_EVERY)}"
            yield held.missed(PASSING_EVERY, "route-passing", message, f"room.routes.{n}.width", help)
