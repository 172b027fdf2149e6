"""The room as seen from a layout frame, cut into convex pieces, with a direction of the twin's own choice."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise
from math import atan, atan2, pi

import shapely
from cones import Cone, Dir, Vec, cross, direction, polygon, quarter_disc, root_above

from fitter.domain.project import Project
from fitter.domain.wishes import Side
from rooms.room import Edge, Hinge, Opening, Room, Swing

ANGLE = 4e-7
"""How far the rational direction may lie from the edge, radians; less than a layout frame may."""
Ring = tuple[Vec, ...]


def rational(x: int, y: int) -> tuple[Fraction, Fraction]:
    """Cosine and sine, rational, of a direction; from the tangent of the half angle."""
    if abs(y) > abs(x) or x < 0:
        c, s = rational(y, -x)
        return -s, c
    half = Fraction(y) / (x + root_above(Fraction(x * x + y * y)))
    most = 64
    while 2 * abs(atan(half) - atan(t := half.limit_denominator(most))) > ANGLE:
        most *= 2
    return (1 - t * t) / (1 + t * t), 2 * t / (1 + t * t)


@dataclass(frozen=True)
class View:
    """A layout frame: `origin` in units of the room, rotation, and the shop mark in units."""

    origin: tuple[int, int]
    cos: Fraction
    sin: Fraction
    mark: int
    edge: Edge | None

    def aligned(self, run: Side) -> View:
        """The frame in which that run, rather than the main one, has its back along the edge."""
        if run is Side.RIGHT:
            return replace(self, cos=-self.sin, sin=self.cos)
        return replace(self, cos=self.sin, sin=-self.cos) if run is Side.LEFT else self

    def see(self, point: Vec) -> Vec:
        """A point of the room (units) in the frame (marks)."""
        x, y = point[0] - self.origin[0], point[1] - self.origin[1]
        return (self.cos * x + self.sin * y) / self.mark, (self.cos * y - self.sin * x) / self.mark

    def ring(self, points: Sequence[Vec]) -> Ring:
        """Several points of the room in the frame."""
        return tuple(self.see(point) for point in points)


def views(project: Project) -> Iterator[View]:
    """Every frame that a main run may stand in; frames with the same grid only once when free standing."""
    room, mark, against = project.room, project.mark.units, project.wish.against
    seen: list[View] = []
    for edge in room.edges:
        origin = edge.start.x.units, edge.start.y.units
        c, s = rational(edge.end.x.units - origin[0], edge.end.y.units - origin[1])
        if against is not None:
            if edge.name in against:
                yield View(origin, c, s, mark, edge)
            continue
        for cos, sin in ((c, s), (-s, c), (-c, -s), (s, -c)):
            view = View(origin, cos, sin, mark, None)
            if not any(_same_grid(view, other) for other in seen):
                seen.append(view)
                yield view


def _same_grid(a: View, b: View) -> bool:
    shift = a.see((Fraction(b.origin[0]), Fraction(b.origin[1])))
    return (a.cos, a.sin) == (b.cos, b.sin) and all(part.denominator == 1 for part in shift)


def outline(room: Room) -> Ring:
    """The corners anticlockwise, in units."""
    return tuple((Fraction(p.x.units), Fraction(p.y.units)) for p in room.outline)


@dataclass(frozen=True)
class Outside:
    """Everything outside the outline: half planes (inward normal, a point on the line) and convex pockets."""

    planes: tuple[tuple[Dir, Vec], ...]
    pockets: tuple[Ring, ...]


def outside(ring: Ring) -> Outside:
    """Hull lines and the pockets between hull and ring."""
    hull = [(Fraction(round(x)), Fraction(round(y))) for x, y in shapely.Polygon(ring).convex_hull.exterior.coords]
    hull = hull if shapely.LinearRing(hull).is_ccw else hull[::-1]
    sides = list(pairwise(hull))
    planes = tuple((direction(a[1] - b[1], b[0] - a[0]), a) for a, b in sides)
    return Outside(planes, tuple(_pockets(ring, sides)))


def _pockets(ring: Ring, sides: list[tuple[Vec, Vec]]) -> Iterator[Ring]:
    on = [i for i, p in enumerate(ring) if any(cross(_to(a, b), _to(a, p)) == 0 for a, b in sides)]
    for i, j in zip(on, (*on[1:], on[0] + len(ring)), strict=True):
        chain = [ring[k % len(ring)] for k in range(i, j + 1)]
        if len(chain) > 2:
            yield from _convex_parts(tuple(reversed(chain)))


def _convex_parts(ring: Ring) -> Iterator[Ring]:
    turns = [cross(_to(ring[i - 2], ring[i - 1]), _to(ring[i - 1], ring[i])) for i in range(len(ring))]
    if all(turn >= 0 for turn in turns):
        yield ring
        return
    for part in shapely.constrained_delaunay_triangles(shapely.Polygon(ring)).geoms:
        corners = [(Fraction(round(x)), Fraction(round(y))) for x, y in part.exterior.coords[:-1]]
        a, b, c = corners
        yield (a, b, c) if cross(_to(a, b), _to(a, c)) > 0 else (a, c, b)


def convex_obstacle(view: View, core: Ring, radius: Fraction) -> tuple[tuple[Cone, ...], ...]:
    """An obstacle's convex parts as cones, in the frame."""
    if len(core) < 3:
        return (polygon(view.ring(core), radius / view.mark),)
    return tuple(polygon(view.ring(part), radius / view.mark) for part in _convex_parts(core))


def swing(view: View, room: Room, opening: Opening) -> tuple[Cone, ...] | None:
    """The sector that an inward door sweeps, as cones in the frame."""
    if opening.swing is not Swing.IN:
        return None
    edge = room.edge(opening.edge)
    low, high = (((Fraction(p.x.units)), Fraction(p.y.units)) for p in room.jambs(opening))
    along = _unit(edge)
    leaf = (along[0] * opening.width.units, along[1] * opening.width.units)
    inward = (-leaf[1], leaf[0])
    if (opening.hinge is Hinge.FIRST) == edge.forward:
        hinge, closed, opened = low, _plus(low, leaf), _plus(low, inward)
    else:
        hinge, closed, opened = high, _plus(high, inward), _plus(high, (-leaf[0], -leaf[1]))
    return quarter_disc(*view.ring((hinge, closed, opened)))


def _unit(edge: Edge) -> Vec:
    dx, dy = edge.end.x.units - edge.start.x.units, edge.end.y.units - edge.start.y.units
    length = root_above(Fraction(dx * dx + dy * dy))
    return dx / length, dy / length


def _plus(a: Vec, b: Vec) -> Vec:
    return a[0] + b[0], a[1] + b[1]


def _to(a: Vec, b: Vec) -> Vec:
    return b[0] - a[0], b[1] - a[1]


def turn_error(view: View, edge: Edge) -> float:
    """Radians between a view's x axis and an edge, for the tests."""
    angle = atan2(edge.end.y.units - edge.start.y.units, edge.end.x.units - edge.start.x.units)
    return abs((atan2(view.sin, view.cos) - angle + pi) % (2 * pi) - pi)
