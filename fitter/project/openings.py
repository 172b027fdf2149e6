"""Doors, gates and the walkways between them."""

from __future__ import annotations

from collections.abc import Iterable

from fitter.domain.findings import Severity
from fitter.project.defaults import ROUTE_NARROWEST, ROUTE_SOURCE, defaults
from fitter.project.edges import EdgeNames
from fitter.project.forms import OpeningForm, RouteForm
from fitter.project.ledger import Ledger
from fitter.project.small import WAY, ask_small
from fitter.project.tree import Data
from fitter.project.words import shown
from rooms.lengths import Length
from rooms.room import Edge, Hinge, Opening, Route, Swing

WIDEST_LEAF = Length.inches(60)
WIDEST_ROUTE = Length.inches(20 * 12)
"""Common practice: wider than these is most likely a slip or another unit."""


def named_once(ledger: Ledger, what: str, things: Iterable[tuple[str, str]]) -> None:
    """Record each name that an earlier thing of the same kind has; `things` are (key, name)."""
    seen: dict[str, int] = {}
    for key, name in things:
        if name in seen:
            message = f"two {what} are named `{shown(name)}`, the first in line {seen[name]}"
            ledger.error("named-twice", message, f"{key}.name", "give each a name of its own")
        else:
            place = ledger.place(f"{key}.name")
            seen[name] = place.line if place else 0


def raw_names(data: Data) -> tuple[str, ...] | None:
    """The names in a list of mappings, sound ones or not; None if a mistake hides one of them."""
    items = data if isinstance(data, list) else []
    names = [item.get("name") if isinstance(item, dict) else None for item in items]
    known = tuple(" ".join(name.split()) for name in names if isinstance(name, str))
    return known if len(known) == len(names) else None


def read_openings(
    ledger: Ledger,
    data: Data,
    names: EdgeNames,
    edges: tuple[Edge, ...],
    holes: tuple[str, ...],
    tolerance: Length,
) -> tuple[Opening, ...]:
    """The openings, with `offset` from the first corner of the edge's own name.

    Args:
        ledger: takes the mistakes.
        data: `room.openings`.
        names: of the edges.
        edges: empty if the outline has mistakes; then places along edges stay unchecked.
        holes: names of the holes in the ground, sound or not; no opening stands in their edges.
        tolerance: how far a jamb may overshoot its edge; it is then taken as the edge's end.
    """
    forms = [
        (key, form)
        for key, item in ledger.items(data, "room.openings", "openings")
        if (form := ledger.form(OpeningForm, item, key)) is not None
    ]
    named_once(ledger, "openings", ((key, form.name) for key, form in forms))
    placed = []
    for key, form in forms:
        found = _edge(ledger, key, form, names, holes)
        _check_leaf(ledger, key, form)
        edge = next((edge for edge in edges if found and edge.name == found[0]), None)
        if found and edge is not None and _on_edge(ledger, key, form, edge, tolerance):
            placed.append((key, _opening(form, edge, found[1])))
    _check_overlaps(ledger, placed)
    return tuple(opening for _, opening in placed)


def _edge(
    ledger: Ledger, key: str, form: OpeningForm, names: EdgeNames, holes: tuple[str, ...]
) -> tuple[str, bool] | None:
    """The edge that an opening stands in, and whether it was named in walking order; None if there is none."""
    if form.edge in holes and form.edge not in names:
        message = f"`{shown(form.name)}` is said to stand in `{shown(form.edge)}`, a hole in the ground"
        help = "an opening stands in an edge of the outline, such as `AB`; nobody walks in through a hole"
        ledger.error("opening-in-hole", message, f"{key}.edge", help)
        return None
    return names.find(ledger, form.edge, f"{key}.edge")


def _check_leaf(ledger: Ledger, key: str, form: OpeningForm) -> None:
    if ledger.unit_known and form.swing is not Swing.NONE and form.width > WIDEST_LEAF:
        message = f"a door leaf {ledger.say(form.width)} wide, and {ledger.say(WIDEST_LEAF)} is the most"
        help = "for a pair of leaves write two openings, hinged at both ends; for none write `swing: none`"
        ledger.error("door-too-wide", message, f"{key}.width", help)
    ask_small(ledger, f"opening `{form.name}` is {ledger.say(form.width)} wide", form.width, WAY, f"{key}.width")


def _on_edge(ledger: Ledger, key: str, form: OpeningForm, edge: Edge, tolerance: Length) -> bool:
    length = edge.length
    if form.width > length + tolerance:
        both = f"{ledger.say(form.width)} wide, and edge {edge.name} is {ledger.say(length)} long"
        message = f"`{form.name}` is {both}"
        ledger.error("opening-too-long", message, f"{key}.width", "correct the width, or name another edge")
        return False
    if form.start + form.width > length + tolerance or form.start >= length:
        end = ledger.say(form.start + form.width)
        message = f"`{form.name}` ends {end} along edge {edge.name}, which is {ledger.say(length)} long"
        help = f"`from` is counted from the first corner of `{form.edge}` to the near jamb"
        ledger.error("opening-off-edge", message, f"{key}.from", help)
        return False
    return True


def _opening(form: OpeningForm, edge: Edge, in_order: bool) -> Opening:
    start = min(form.start, edge.length)
    end = min(form.start + form.width, edge.length)
    hinge = form.hinge
    if not in_order:
        # Named from its other end (`BA`), so distances and hinges count from there.
        start, end = edge.length - end, edge.length - start
        hinge = Hinge.SECOND if hinge is Hinge.FIRST else Hinge.FIRST
    return Opening(form.name, edge.name, start, end - start, form.swing, hinge)


def _check_overlaps(ledger: Ledger, placed: list[tuple[str, Opening]]) -> None:
    for i, (key, later) in enumerate(placed):
        for _, earlier in placed[:i]:
            start = max(later.offset, earlier.offset)
            end = min(later.offset + later.width, earlier.offset + earlier.width)
            # Lengths are rounded one by one, so that openings with a jamb in common may overlap by a unit or two.
            if later.edge == earlier.edge and end - start > Length(2):
                both = f"`{later.name}` and `{earlier.name}`"
                message = f"{both} overlap by {ledger.say(end - start)} on edge {later.edge}"
                ledger.error("openings-overlap", message, f"{key}.from", "correct `from` or `width` of one of them")


def read_routes(ledger: Ledger, data: Data, openings: tuple[str, ...] | None) -> tuple[Route, ...]:
    """The walkways that must stay open.

    Args:
        ledger: takes the mistakes.
        data: `room.routes`.
        openings: names of all openings in the file, sound or not; None if they cannot be told.
    """
    found = [
        (key, form, _route(form, ledger))
        for key, item in ledger.items(data, "room.routes", "routes")
        if (form := ledger.form(RouteForm, item, key)) is not None
    ]
    named_once(ledger, "routes", ((key, route.name) for key, _, route in found))
    for key, form, route in found:
        for end, name in (("from", route.start), ("to", route.end)):
            if openings is not None and name not in openings:
                ledger.unknown_name("opening", name, openings, f"{key}.{end}")
        if route.start == route.end:
            help = "name another opening under `to`"
            ledger.error("route-in-place", f"the route goes from `{route.start}` to itself", f"{key}.to", help)
        _check_width(ledger, key, form, route)
    return tuple(route for _, _, route in found)


def _route(form: RouteForm, ledger: Ledger) -> Route:
    width = form.width if form.width is not None else defaults(ledger.unit).route_width
    return Route(form.name or f"{form.start} to {form.end}", form.start, form.end, width)


def _check_width(ledger: Ledger, key: str, form: RouteForm, route: Route) -> None:
    width = ledger.say(route.width)
    if form.width is None:
        message = f"route `{route.name}` is given a clear width of {width}"
        help = "set `width` to what you need"
        ledger.remark("route-default", message, key, help, ROUTE_SOURCE, severity=Severity.NOTE)
        return
    if ledger.unit_known and route.width > WIDEST_ROUTE:
        message = f"route `{route.name}` is {width} wide"
        ledger.error("size-absurd", message, f"{key}.width", ledger.ask_unit)
        return
    message = f"route `{route.name}` is only {width} wide"
    if not ask_small(ledger, message, route.width, WAY, f"{key}.width") and route.width < ROUTE_NARROWEST:
        message = f"{message}; the least at any point is {ledger.say(ROUTE_NARROWEST)}"
        help = "widen it, or keep it as a way for one person on foot"
        ledger.remark("route-narrow", message, f"{key}.width", help, ROUTE_SOURCE, severity=Severity.CAUTION)
