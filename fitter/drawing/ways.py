"""Routes on the plan: the band that stays open, a line through it, and the narrowest place."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from heapq import heappop, heappush
from itertools import combinations, pairwise
from math import dist

from shapely import prepare
from shapely.geometry import LineString, MultiPolygon, Point, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import nearest_points, unary_union

from fitter.domain.layout import Layout, RouteWidth
from fitter.drawing.chains import draw_span
from fitter.drawing.draft import Draft
from fitter.drawing.ground import obstacle_shape
from fitter.drawing.metrics import wrap
from fitter.drawing.page import SMALL, Area, Dash, Line, Pen, Role, Spot
from fitter.drawing.view import View, along, middle, towards
from rooms.clearance import chains, widest_passage
from rooms.lengths import Length
from rooms.room import Room, Route

_BAND_GREY = 0.94
_SHARES = (0.5, 0.35, 0.65, 0.2, 0.8)  # of a piece of a route's line: where a leader may meet it
_HERE = 16.0  # units: what lies no farther off is the same place
_TIED = "\N{NO-BREAK SPACE}"
_NAME = 36.0  # a longer name of a route is broken into lines, mm


def way(room: Room, layout: Layout, route: Route, width: Length, view: View) -> tuple[Spot, ...]:
    """The shortest line from opening to opening along which a disc of `width` keeps clear of everything.

    Found among the corners of the room shrunk by half the width (a taut string turns only there).

    Returns:
        Points on paper; the straight line between both openings where no such way is found.
    """
    doors = [room.opening(name) for name in (route.start, route.end)]
    ends = [middle(*(view.at(jamb) for jamb in room.jambs(door))) for door in doors]
    inward = [towards(*(view.at(jamb) for jamb in room.jambs(door))) for door in doors]
    half = view.of(width) / 2
    free = _free(room, layout, view).buffer(-0.97 * half, quad_segs=3)
    for part in getattr(free, "geoms", (free,)):
        steps = [
            nearest_points(part, Point(along(end, way_in, 0, half)))[0]
            for end, way_in in zip(ends, inward, strict=True)
        ]
        if all(step.distance(Point(end)) < 3 * half for step, end in zip(steps, ends, strict=True)):
            inner = _taut(part, (steps[0].x, steps[0].y), (steps[1].x, steps[1].y))
            if inner:
                return (ends[0], *inner, ends[1])
    return (ends[0], ends[1])


def _free(room: Room, layout: Layout, view: View) -> Polygon | MultiPolygon:
    inside = Polygon([view.at(point) for point in room.outline])
    things = [obstacle_shape(obstacle, view) for obstacle in room.obstacles if not obstacle.low]
    things += [Polygon(view.ring(layout.pose, box)) for box in layout.footprint]
    return inside.difference(unary_union(things))


def _taut(free: Polygon, start: Spot, end: Spot) -> tuple[Spot, ...]:
    """The shortest path inside a polygon, over its corners (Dijkstra's method on the visibility graph)."""
    rings = (free.simplify(0.05).exterior, *free.simplify(0.05).interiors)
    nodes = [start, end, *((x, y) for ring in rings for x, y in ring.coords[:-1])]
    area = free.buffer(0.1)
    prepare(area)
    near: dict[int, list[tuple[float, int]]] = {i: [] for i in range(len(nodes))}
    for i, j in combinations(range(len(nodes)), 2):
        if nodes[i] == nodes[j] or area.covers(LineString((nodes[i], nodes[j]))):
            near[i].append((dist(nodes[i], nodes[j]), j))
            near[j].append((dist(nodes[i], nodes[j]), i))
    return tuple(nodes[i] for i in _shortest(near))


def _shortest(near: dict[int, list[tuple[float, int]]]) -> tuple[int, ...]:
    heap: list[tuple[float, tuple[int, ...]]] = [(0.0, (0,))]
    done: set[int] = set()
    while heap:
        length, path = heappop(heap)
        if path[-1] == 1:
            return path
        if path[-1] in done:
            continue
        done.add(path[-1])
        for step, node in near[path[-1]]:
            if node not in done:
                heappush(heap, (length + step, (*path, node)))
    return ()


def draw_ways(draft: Draft, room: Room, layout: Layout, view: View) -> None:
    """Draw the band and centre line of each route, below everything else."""
    inside = Polygon([view.at(point) for point in room.outline])
    lines = [(route, found, way(room, layout, route, _passing(found), view)) for route, found in pairs(room, layout)]
    for route, _, line in lines:
        band = _band(room, route, line, view).intersection(inside)
        for part in getattr(band, "geoms", (band,)):
            if part.geom_type == "Polygon":
                draft.add(Area(tuple(part.exterior.coords[:-1]), _BAND_GREY, Role.ROUTE))
    for _, _, line in lines:
        draft.add(Line(line, Pen.FINE, Role.ROUTE, Dash.CENTRE))


def _band(room: Room, route: Route, line: tuple[Spot, ...], view: View) -> BaseGeometry:
    """What a disc as wide as a route sweeps along its line, and from there to what is open of its two openings."""
    half, steps = view.of(route.width) / 2, line[1:-1]
    if not steps:
        return LineString(line).buffer(half, cap_style="flat")
    parts = [(LineString(steps) if len(steps) > 1 else Point(steps[0])).buffer(half)]
    for name, end, step in ((route.start, line[0], steps[0]), (route.end, line[-1], steps[-1])):
        opening = room.opening(name)
        direction = towards(*(view.at(jamb) for jamb in room.jambs(opening)))
        wide = min(half, view.of(opening.width) / 2)
        gate = LineString([along(end, direction, -wide), along(end, direction, wide)])
        parts.append(unary_union([gate, Point(step).buffer(half)]).convex_hull)
    return unary_union(parts)


def _passing(found: RouteWidth) -> Length:
    return found.asked if found.clear is None else min(found.asked, found.clear)


def pairs(room: Room, layout: Layout) -> Iterator[tuple[Route, RouteWidth]]:
    """Each route with the width that was found for it."""
    found = {width.name: width for width in layout.routes}
    for route in room.routes:
        yield route, found.get(route.name, RouteWidth(route.name, route.width, None))


def name_ways(draft: Draft, room: Room, layout: Layout, view: View) -> None:
    """Write each route's name and width beside its line."""
    for route, found in pairs(room, layout):
        line = way(room, layout, route, _passing(found), view)
        pieces = sorted(pairwise(line), key=lambda pair: -round(dist(*pair), 6))
        doors = [line for told in door_words(room, route, found, view) for line in _in_lines(told)]
        words = [*wrap(route.name, SMALL, _NAME), route_words(found, view), *doors]
        spots = [along(piece[0], towards(*piece), share * dist(*piece)) for piece in pieces for share in _SHARES]
        if not draft.write_on(words, spots):
            draft.call_out(words, *spots, reach=6.0)


def _in_lines(told: str) -> list[str]:
    """What is said of a door, its width kept in one line."""
    # Nor does the name of the door stand in a line of its own, as if the door were there.
    tied = told.replace(" is only ", f" is{_TIED}only{_TIED}").replace("but ", f"but{_TIED}", 1)
    return [line.replace(_TIED, " ") for line in wrap(tied, SMALL, _NAME)]


def name_narrows(draft: Draft, room: Room, layout: Layout, view: View) -> None:
    """Dimension the narrowest place of each route, as taped."""
    furniture = [Polygon([(float(x), float(y)) for x, y in layout.pose.outline(box)]) for box in layout.footprint]
    for route in room.routes:
        narrow = widest_passage(room, route, furniture)
        ends = _taped(room, route, narrow.points)
        if ends is None or _in_opening(room, route, ends):
            continue  # its width is dimensioned already, or nothing is there to hold a tape to
        start, end = (view.exact((Fraction(x), Fraction(y))) for x, y in ends)
        gap = view.real(dist(start, end))
        if gap > 2 * room.tolerance:
            draw_span(draft, start, end, gap, view.written(gap, feet=False))


def _taped(room: Room, route: Route, gap: tuple[Spot, Spot]) -> tuple[Spot, Spot] | None:
    """The ends of a gap, at the jamb where an opening was only widened by the tolerance; None where by more."""
    ways = chains(room, route)
    moved = list(gap)
    for name, jambs in ((route.start, ways.start), (route.end, ways.end)):
        true = [(float(point.x.units), float(point.y.units)) for point in room.jambs(room.opening(name))]
        for widened in (jambs[0], jambs[-1]):
            jamb = min(true, key=lambda spot: dist(spot, widened))
            for n, spot in enumerate(gap):
                if dist(spot, widened) < _HERE < dist(jamb, widened):
                    if dist(jamb, widened) > room.tolerance.units + _HERE:
                        return None
                    moved[n] = jamb
    return moved[0], moved[1]


def _in_opening(room: Room, route: Route, gap: tuple[Spot, Spot]) -> bool:
    """Whether the narrowest place is one of the route's own openings."""
    for name in (route.start, route.end):
        edge = room.edge(room.opening(name).edge)
        line = LineString([(point.x.units, point.y.units) for point in (edge.start, edge.end)])
        if all(line.distance(Point(spot)) < _HERE for spot in gap):
            return True
    return False


def door_words(room: Room, route: Route, found: RouteWidth, view: View) -> list[str]:
    """What is said of openings that are narrower than what is clear between them, and so decide what gets through."""
    doors = (room.opening(name) for name in (route.start, route.end))
    least = _passing(found)
    return [f"but {d.name} is only {view.written(d.width, feet=False)}" for d in doors if d.width < least]


def route_words(found: RouteWidth, view: View) -> str:
    """What is said of a route's width."""
    asked = view.written(found.asked, feet=False)
    if found.clear is None:
        return f"{asked} asked"
    return f"{view.written(found.clear, feet=False)} clear ({asked} asked)"
