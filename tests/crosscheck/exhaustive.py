"""Every layout in every place of a tiny room, tried one after another: slow, and hard to get wrong.

Frames use the plain float angle of an edge, distances and walkways are shapely's, posts are tried in every
combination over the whole layout. Nothing is shared with the twin.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product
from math import ceil, cos, floor, hypot, pi, sin

import numpy as np
import shapely
from shapely import LineString, Point, Polygon

from fitter.domain.cushions import Cushion, options
from fitter.domain.project import Project
from fitter.domain.wishes import CornerKind, EndKind, Shape
from rooms.lengths import Length
from rooms.room import Edge, Hinge, Obstacle, Opening, Route, Swing

SLIP = 1e-6
"""Distances are floats of some tens of millimetres: a millionth is far above their error."""
Pair = tuple[float, float]
Rect = tuple[float, float, float, float]
Lines = list[tuple[int, int, list[int]]]


@dataclass(frozen=True)
class Design:
    """A layout without a place, in millimetres, deck corner at (0, 0)."""

    seats: int
    notches: int
    stands: tuple[Rect, ...]
    clear: tuple[Rect, ...]
    back: tuple[int, int]
    off: int
    posts: int


def best_by_trying(project: Project) -> tuple[int, int, int] | None:
    """Most seats, fewest notches with them, fewest posts with those; None if nothing fits anywhere.

    Args:
        project: in millimetres; every size a whole number of them, and one kind of cushion is enough.
    """
    designs = sorted(_designs(project), key=lambda d: (-d.seats, d.notches, d.posts))
    places = list(_places(project))
    for design in designs:
        if any(place.fits(design) for place in places):
            return design.seats, design.notches, design.posts
    return None


def _mm(length: Length) -> int:
    value = length.mm
    if value.denominator != 1:
        message = f"{value} mm is not whole"
        raise ValueError(message)
    return int(value)


def _designs(project: Project) -> Iterator[Design]:
    wish, most = project.wish, max(c.own or 6 for c in project.cushions)
    kinds = [kind for kind in EndKind if wish.ends in (None, kind)]
    for option in options(project.cushions):
        cushion, ease = option.cushion, _mm(option.cushion.ease)
        size = [_mm(part) + ease for part in cushion.size[:2]]
        pitch, deck = reversed(size) if option.turned else size
        for ends in product(kinds, kinds):
            thick = [_end(project, kind) for kind in ends]
            for n in range(1, most + 1):
                if wish.shape is not Shape.L:
                    yield from _row(project, cushion, pitch, deck, thick, n)
                for m, corner, mirror in product(range(1, n + 1), CornerKind, (False, True)):
                    if wish.shape is not Shape.STRAIGHT and wish.corner in (None, corner):
                        yield from _ell(project, cushion, pitch, deck, thick, n, m, corner, mirror)


def _end(project: Project, kind: EndKind) -> int:
    frame = project.frame
    return _mm(frame.arm_thickness if kind is EndKind.ARMED else frame.open_end_thickness)


def _wanted(project: Project, cushion: Cushion, used: int) -> bool:
    wish, seats = project.wish, used * cushion.seats
    owned = cushion.own if cushion.price is None else None
    return seats >= wish.least and (wish.most is None or seats <= wish.most) and (owned is None or used <= owned)


def _row(project: Project, cushion: Cushion, p: int, d: int, ends: list[int], n: int) -> Iterator[Design]:
    t, leg, run = _mm(project.frame.back_thickness), _mm(project.wish.legroom), n * p
    lines: Lines = [(0, run, [k * p for k in range(1, n)]) for _ in ("front", "back")]
    posts = _fewest(project, lines, None)
    if posts is not None and _wanted(project, cushion, n):
        stands = ((0, 0, run, d), (0, -t, run, 0), (-ends[0], -t, 0, d), (run, -t, run + ends[1], d))
        yield Design(n * cushion.seats, 0, stands, ((0, d, run, d + leg),), (0, run), t, posts)


def _ell(
    project: Project,
    cushion: Cushion,
    p: int,
    d: int,
    ends: list[int],
    n: int,
    m: int,
    corner: CornerKind,
    mirror: bool,
) -> Iterator[Design]:
    frame, leg = project.frame, _mm(project.wish.legroom)
    t, post, rail = _mm(frame.back_thickness), _mm(frame.post.width), _mm(frame.rail.thickness)
    table, outer = corner is CornerKind.TABLE_CORNER, corner is CornerKind.OUTSIDE_POST
    used = n + m + (0 if table else 1)
    notched = corner is CornerKind.INSIDE_POST and post + _mm(frame.notch_clearance) - _mm(cushion.ease) / 2 > 0
    if not _wanted(project, cushion, used) or (p > d and not table) or (notched and not cushion.may_notch):
        return
    x1, y1 = d + n * p, d + m * p
    lines: Lines = [
        (0 if outer else post, x1, [d + k * p for k in range(n)]),
        (rail if outer else post, y1, [d + k * p for k in range(m)]),
        (d, x1, [d + k * p for k in range(1, n)]),
        (d, y1, [d + k * p for k in range(1, m)]),
    ]
    posts = _fewest(project, lines, d)
    if posts is None:
        return
    stands = [(0, 0, d, d), (d, 0, x1, d), (0, d, d, y1), (-t, -t, x1, 0), (-t, 0, 0, y1),
              (x1, -t, x1 + ends[0], d), (-t, y1, d, y1 + ends[1])]  # fmt: skip
    if outer:
        stands.append((-post, -post, 0, 0))
    clear = [(d, d, x1, d + leg), (d, d, d + leg, y1)]
    if mirror:
        stands, clear = ([(-c, b, -a, e) for a, b, c, e in boxes] for boxes in (stands, clear))
    back = (-x1, 0) if mirror else (0, x1)
    yield Design(used * cushion.seats, int(notched), tuple(stands), tuple(clear), back, t, posts + 2)


def _fewest(project: Project, lines: Lines, corner: int | None) -> int | None:
    """Over every choice of posts on all lines at once; a corner of that depth has a cross rail too."""
    frame = project.frame
    post, rail = _mm(frame.post.width), _mm(frame.rail.thickness)
    longest = project.shop.longest(frame.rail.name)
    limit = frame.max_span.mm if longest is None else min(frame.max_span.mm, longest.mm)
    best: int | None = None
    for choice in product(*(product((False, True), repeat=len(places)) for _, _, places in lines)):
        bays = []
        for (start, stop, places), taken in zip(lines, choice, strict=True):
            for place in (place for place, yes in zip(places, taken, strict=True) if yes):
                bays.append(place - post // 2 - start)
                start = place - post // 2 + post
            bays.append(stop - start)
        if corner is not None:
            bays.append(corner - post - (post if choice[0][0] else rail))
        count = sum(sum(taken) for taken in choice)
        if all(0 < bay <= limit for bay in bays) and (best is None or count < best):
            best = count
    return best


class Place:
    """One frame: every whole position of its grid, and where each rectangle may stand (remembered)."""

    def __init__(self, project: Project, origin: Pair, angle: float, edge: Edge | None) -> None:
        self.project, self.origin, self.angle, self.edge = project, origin, angle, edge
        self.room = _outline(project)
        x0, y0, x1, y1 = shapely.transform(self.room, lambda c: _into(c, origin, angle)).bounds
        xs, ys = np.meshgrid(np.arange(floor(x0), ceil(x1) + 1), np.arange(floor(y0), ceil(y1) + 1))
        self.xs, self.ys = xs.ravel(), ys.ravel()
        self.known: dict[tuple[Rect, bool], np.ndarray] = {}

    def may_stand(self, box: Rect, standing: bool) -> np.ndarray:
        """Where the rectangle keeps every distance; leg room (not standing) has fewer to keep."""
        if (box, standing) not in self.known:
            boxes = _placed(box, self.xs, self.ys, self.origin, self.angle)
            good = shapely.covers(self.room.buffer(SLIP), boxes)
            good[good] = _free(self.project, self.room, boxes[good], standing)
            self.known[box, standing] = good
        return self.known[box, standing]

    def backed(self, design: Design) -> np.ndarray:
        """At which positions the back is near enough to the edge, and half of it over the edge."""
        if self.edge is None:
            return np.full(len(self.xs), fill_value=True)
        dx, dy = self.edge.end.x - self.edge.start.x, self.edge.end.y - self.edge.start.y
        start, end = self.xs + design.back[0], self.xs + design.back[1]
        over = np.minimum(end, hypot(float(dx.mm), float(dy.mm))) - np.maximum(start, 0)
        off = self.ys - design.off
        near = (off >= -SLIP) & (off <= _mm(self.project.wish.off_wall) + SLIP)
        return np.asarray(near & (2 * over >= end - start - SLIP))

    def fits(self, design: Design) -> bool:
        """Whether the design has a position here that leaves every route open."""
        good = self.backed(design)
        for boxes, standing in ((design.stands, True), (design.clear, False)):
            for box in boxes:
                good = good & self.may_stand(box, standing)
        for x, y in zip(self.xs[good], self.ys[good], strict=True):
            placed = [_placed(b, x, y, self.origin, self.angle) for b in design.stands]
            furniture = shapely.union_all(np.concatenate(placed))
            if all(_open(self.project, self.room, furniture, route) for route in self.project.room.routes):
                return True
        return False


def _places(project: Project) -> Iterator[Place]:
    against = project.wish.against
    for edge in project.room.edges:
        origin = float(edge.start.x.mm), float(edge.start.y.mm)
        angle = float(np.arctan2(float(edge.end.y.mm) - origin[1], float(edge.end.x.mm) - origin[0]))
        if against is not None and edge.name in against:
            yield Place(project, origin, angle, edge)
        elif against is None:
            yield from (Place(project, origin, angle + turn * pi / 2, None) for turn in range(4))


def _into(points: np.ndarray, origin: Pair, angle: float) -> np.ndarray:
    x, y = points[:, 0] - origin[0], points[:, 1] - origin[1]
    return np.column_stack((cos(angle) * x + sin(angle) * y, cos(angle) * y - sin(angle) * x))


def _placed(box: Rect, xs: np.ndarray, ys: np.ndarray, origin: Pair, angle: float) -> np.ndarray:
    boxes = shapely.box(xs + box[0], ys + box[1], xs + box[2], ys + box[3])
    turn = np.array([[cos(angle), sin(angle)], [-sin(angle), cos(angle)]])
    return np.atleast_1d(shapely.transform(boxes, lambda c: c @ turn + origin))


def _free(project: Project, room: Polygon, boxes: np.ndarray, standing: bool) -> np.ndarray:
    tolerance = float(project.room.tolerance.mm)
    outside = room.buffer(50).difference(room)
    good = _clear_of(boxes, outside, tolerance)
    for obstacle in project.room.obstacles:
        more = float(obstacle.radius.mm) + (float(obstacle.clear.mm) if standing else 0)
        good &= _clear_of(boxes, _core(obstacle), tolerance + more)
    for opening in project.room.openings:
        if standing and opening.swing is Swing.IN:
            good &= _clear_of(boxes, _sector(project, opening), tolerance)
    return good


def _clear_of(boxes: np.ndarray, thing: object, distance: float) -> np.ndarray:
    overlap = shapely.area(shapely.intersection(boxes, thing))
    return np.asarray((overlap < SLIP) & (shapely.distance(boxes, thing) >= distance - SLIP))


def _outline(project: Project) -> Polygon:
    return Polygon([(float(p.x.mm), float(p.y.mm)) for p in project.room.outline])


def _core(obstacle: Obstacle) -> Point | Polygon:
    points = [(float(p.x.mm), float(p.y.mm)) for p in obstacle.core]
    return Point(points[0]) if len(points) == 1 else Polygon(points)


def _jambs(project: Project, opening: Opening) -> tuple[np.ndarray, np.ndarray]:
    low, high = (np.array([float(p.x.mm), float(p.y.mm)]) for p in project.room.jambs(opening))
    return low, high


def _sector(project: Project, opening: Opening) -> Polygon:
    low, high = _jambs(project, opening)
    first_is_low = project.room.edge(opening.edge).forward
    hinge, tip = (low, high) if (opening.hinge is Hinge.FIRST) == first_is_low else (high, low)
    leaf = tip - hinge
    inward = np.array([low[1] - high[1], high[0] - low[0]])
    turns = np.linspace(0, pi / 2, 400)
    return Polygon([hinge, *(hinge + cos(a) * leaf + sin(a) * inward for a in turns)])


def _open(project: Project, room: Polygon, furniture: Polygon, route: Route) -> bool:
    """Whether the middle of a disc can travel, by eroding the room; a hair is taken off the disc.

    Jambs of a skew edge are rounded and lie a hair beside it, so gaps are strips rather than lines.
    """
    tolerance, half = float(project.room.tolerance.mm), float(route.width.mm) / 2 - 0.004
    gaps = [_gap(project, route, name) for name in (route.start, route.end)]
    walls = room.exterior.difference(shapely.union_all(gaps))
    blocked = [walls.buffer(half + tolerance, 64), furniture.buffer(half, 64)]
    blocked += [_core(o).buffer(half + tolerance + float(o.radius.mm), 64) for o in project.room.obstacles]
    free = room.buffer(1e-7).difference(shapely.union_all(blocked))
    return any(all(part.intersects(gap) for gap in gaps) for part in shapely.get_parts(free))


def _gap(project: Project, route: Route, name: str) -> Polygon:
    low, high = _jambs(project, project.room.opening(name))
    width = float(np.hypot(*(high - low)))
    more = max(0.0, float((route.width + 2 * project.room.tolerance).mm) - width) / 2 / width
    middle = LineString([low - more * (high - low), high + more * (high - low)])
    return middle.buffer(0.01, cap_style="flat")
