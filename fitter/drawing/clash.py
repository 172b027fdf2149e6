"""Where a layout that does not fit clashes: the ground that it takes and must not, and cushions that are not there."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import dist

from shapely.geometry import LineString, MultiPolygon, Polygon
from shapely.ops import unary_union

from fitter.domain.layout import Box, Layout
from fitter.domain.project import Project
from fitter.drawing.chains import draw_span
from fitter.drawing.draft import Draft
from fitter.drawing.ground import obstacle_shape
from fitter.drawing.page import Area, Dash, Line, Pen, Role, Spot
from fitter.drawing.view import View, along, hatching, ring_of, towards
from fitter.drawing.ways import way
from rooms.clearance import swing_sector, widest_passage
from rooms.lengths import ZERO
from rooms.room import Route

_HAIR = 0.02  # what is thinner on paper is rounding, mm
_GAP = 0.9


@dataclass(frozen=True)
class Clashing:
    """What is shown of a clash.

    Args:
        layout: that does not fit.
        edge: name of the edge that is in the way; empty if none.
        routes: names of routes that it leaves too narrow.
        absent: indices of modules for which there are no cushions.
        says: what is missing, a line each; written beside it.
        next: boxes of the layout frame where a further cushion would lie, with the end beyond it; may be none.
    """

    layout: Layout
    edge: str = ""
    routes: tuple[str, ...] = ()
    absent: tuple[int, ...] = ()
    says: tuple[str, ...] = ()
    next: tuple[Box, ...] = ()

    def hatched(self, project: Project) -> bool:
        """Whether there is anything to hatch."""
        view = View(1, project.unit)
        return bool(
            self.absent or clash_area(project, self.layout, self.next) or _parts(_narrowed(project, self, view))
        )


def draw_clash(draft: Draft, project: Project, shown: Clashing, view: View) -> None:
    """Hatch and dimension what clashes."""
    layout = shown.layout
    places = [Polygon(view.ring(layout.pose, layout.modules[n].box)) for n in shown.absent]
    for box in shown.next:
        draft.add(Area(view.ring(layout.pose, box), None, Role.CLASH, Pen.MEDIUM, Dash.HIDDEN))
    taken = _parts(_taken(project, layout, shown.next, view))
    narrow = _parts(_narrowed(project, shown, view))
    for part in (*places, *taken, *narrow):
        draft.add(Area(ring_of(part), None, Role.CLASH, Pen.HEAVY))
        draft.add(*(Line(stroke, Pen.FINE, Role.CLASH) for stroke in hatching(part, gap=_GAP, rising=False)))
    if taken:
        _dimension(draft, project, shown, taken, view)
    named = max((*places, *taken, *narrow), key=lambda part: part.area, default=None)
    if named is not None and shown.says:
        spot = named.representative_point()
        draft.call_out(list(shown.says), (spot.x, spot.y))


def _parts(shape: Polygon | MultiPolygon) -> list[Polygon]:
    """Its polygons, but for slivers, the largest first."""
    parts = [part for part in getattr(shape, "geoms", (shape,)) if part.geom_type == "Polygon" and not part.is_empty]
    return sorted((part for part in parts if not part.buffer(-_HAIR).is_empty), key=lambda part: -part.area)


def clash_area(project: Project, layout: Layout, boxes: Sequence[Box]) -> float:
    """How much of the walls and of ground that stays clear a layout covers with boxes added, square millimetres."""
    parts = _parts(_taken(project, layout, boxes, View(1, project.unit)))
    return float(sum(part.area for part in parts))


def _taken(project: Project, layout: Layout, more: Sequence[Box], view: View) -> Polygon | MultiPolygon:
    """What the furniture, more boxes, and its leg room cover of the walls and of ground that stays clear."""
    room, tolerance = project.room, view.of(project.room.tolerance)
    free = Polygon([view.at(point) for point in room.outline]).buffer(-tolerance, join_style="mitre")
    wood = unary_union([Polygon(view.ring(layout.pose, box)) for box in (*layout.footprint, *more)])
    legs = unary_union([Polygon(view.ring(layout.pose, run.legroom)) for run in layout.runs])
    solid = [thing for thing in room.obstacles if not thing.low]
    kept = [obstacle_shape(thing, view, tolerance + view.of(thing.clear)) for thing in solid]
    kept += [sector.buffer(tolerance) for sector in _sectors(project, view)]
    bare = unary_union([obstacle_shape(thing, view, tolerance) for thing in solid])
    stands = unary_union([wood.difference(free), wood.intersection(unary_union(kept))])
    return stands if _parts(stands) else unary_union([legs.difference(free), legs.intersection(bare)])


def _sectors(project: Project, view: View) -> Iterator[Polygon]:
    """The floor that doors sweep."""
    for opening in project.room.openings:
        sector = swing_sector(project.room, opening)
        if sector is not None:
            yield Polygon([view.exact((Fraction(x), Fraction(y))) for x, y in sector.exterior.coords])


def _narrowed(project: Project, shown: Clashing, view: View) -> Polygon | MultiPolygon:
    """What stands in the band of a route that is to stay open."""
    room, layout, tolerance = project.room, shown.layout, view.of(project.room.tolerance)
    inside = Polygon([view.at(point) for point in room.outline])
    things = [obstacle_shape(thing, view, tolerance) for thing in room.obstacles if not thing.low]
    things += [Polygon(view.ring(layout.pose, box)).buffer(tolerance) for box in layout.footprint]
    found = {width.name: width for width in layout.routes}
    bands = []
    for route in room.routes:
        if route.name in shown.routes and route.name in found:
            clear = found[route.name].clear or ZERO
            line = way(room, layout, route, min(clear, route.width), view)
            band = LineString(line).buffer(view.of(route.width) / 2, cap_style="flat")
            bands.append(band.intersection(_narrowest(project, layout, route, view)))
    return unary_union(bands).intersection(unary_union(things)).intersection(inside)


def _narrowest(project: Project, layout: Layout, route: Route, view: View) -> Polygon:
    """The surroundings of the narrowest place of a route, as far as it is asked to be wide."""
    rings = [layout.pose.outline(box) for box in layout.footprint]
    things = [Polygon([(float(x), float(y)) for x, y in ring]) for ring in rings]
    ends = [view.exact((Fraction(x), Fraction(y))) for x, y in widest_passage(project.room, route, things).points]
    return LineString(ends).buffer(view.of(route.width) * 3 / 4)


def _dimension(draft: Draft, project: Project, shown: Clashing, parts: Sequence[Polygon], view: View) -> None:
    """How far the largest part reaches over the edge, less the tolerance; else how thin it is."""
    spots = ring_of(parts[0])
    ends = _over_the_edge(project, shown.edge, spots, view) if shown.edge else _across(spots)
    length = view.real(dist(*ends)).round_to(project.mark)
    if length > ZERO:
        draw_span(draft, *ends, length, view.written(length, feet=False))


def _over_the_edge(project: Project, name: str, spots: Sequence[Spot], view: View) -> tuple[Spot, Spot]:
    edge = project.room.edge(name)
    start, direction = view.at(edge.start), towards(view.at(edge.start), view.at(edge.end))
    outward = (direction[1], -direction[0])  # the room lies to the left of an edge

    def far(spot: Spot) -> float:
        beyond = (spot[0] - start[0]) * outward[0] + (spot[1] - start[1]) * outward[1]
        return round(beyond + view.of(project.room.tolerance), 3)

    middle = Polygon([view.at(point) for point in project.room.outline]).centroid
    farthest = min(spots, key=lambda spot: (-far(spot), dist(spot, (middle.x, middle.y))))
    return along(farthest, outward, -far(farthest)), farthest


def _across(spots: Sequence[Spot]) -> tuple[Spot, Spot]:
    """The shorter way across the rectangle around a part."""
    x0, y0, x1, y1 = Polygon(spots).bounds
    x, y = (x0 + x1) / 2, (y0 + y1) / 2
    return ((x0, y), (x1, y)) if x1 - x0 < y1 - y0 else ((x, y0), (x, y1))
