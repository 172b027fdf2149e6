"""Every layout in every place of a tiny room, tried one after another: slow, and hard to get wrong.

Frames use the plain float angle of an edge, distances and walkways are shapely's, posts are tried in every
combination over the whole layout. Nothing is shared with the twin.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from itertools import product
from math import ceil, cos, floor, hypot, pi, sin

import numpy as np
import shapely
from shapely import LineString, Point, Polygon

from fitter.domain.cushions import Option, options
from fitter.domain.project import Project
from fitter.domain.wishes import DEFAULT_ORDER, CornerKind, EndKind, Objective, Shape, Side
from rooms.lengths import Length
from rooms.room import Edge, Height, Hinge, Obstacle, Opening, Route, Swing

SLIP = 1e-6
"""Distances are floats of some tens of millimetres: a millionth is far above their error."""
Pair = tuple[float, float]
Rect = tuple[float, float, float, float]
Posts = tuple[tuple[int, ...], ...]
"""For each line of rails the module lines that carry a post."""
Run = tuple[Option, int]
"""How its cushions lie, and how many there are."""


@dataclass(frozen=True)
class Design:
    """A layout without a place, in millimetres, deck corner at (0, 0).

    Args:
        value: seats, whole cushions, cushions not bought, posts saved: greater is better.
        stands: everything that the room must have a place for.
        clear: leg room.
        feet: posts and ends.
        aligned: which run may have its back along an edge; None when free standing.
        width: of the main run with its corner places.
        arm: length of the aligned run with its corner place, where that is an arm.
        back: thickness of the back panel.
    """

    value: tuple[int, int, int, int]
    stands: tuple[Rect, ...]
    clear: tuple[Rect, ...]
    feet: tuple[Rect, ...]
    aligned: Side | None
    width: int
    arm: int
    back: int


def best_by_trying(project: Project) -> tuple[int, int, int, int] | None:
    """The best value (see `Design`) in the order of the wish; None if nothing fits anywhere.

    Args:
        project: in millimetres; every size a whole number of them.
    """
    places = list(_places(project))
    extent = _extent(project)
    for design in sorted(_designs(project, extent), key=lambda d: _wished(project, d.value), reverse=True):
        if any(place.fits(design) for place in places if place.aligned is design.aligned):
            return design.value
    return None


def _wished(project: Project, value: tuple[int, int, int, int]) -> tuple[int, ...]:
    named = dict(zip((Objective.SEATS, Objective.WHOLE, Objective.BUY, Objective.POSTS), value, strict=True))
    return tuple(named[o] for o in (*project.wish.prefer, *DEFAULT_ORDER) if o in named)


def _mm(length: Length) -> int:
    value = length.mm
    if value.denominator != 1:
        message = f"{value} mm is not whole"
        raise ValueError(message)
    return int(value)


def _extent(project: Project) -> int:
    x0, y0, x1, y1 = _outline(project).bounds
    return ceil(hypot(x1 - x0, y1 - y0))


def _sizes(option: Option) -> tuple[int, int]:
    """Pitch and deck depth."""
    width, depth = (_mm(part) + _mm(option.cushion.ease) for part in option.cushion.size[:2])
    return (depth, width) if option.turned else (width, depth)


def _designs(project: Project, extent: int) -> Iterator[Design]:
    wish = project.wish
    runs = [(option, n) for option in options(project.cushions) for n in range(1, extent // _sizes(option)[0] + 1)]
    free = wish.against is None
    for main in runs:
        if wish.shape in (None, Shape.STRAIGHT):
            yield from _design(project, extent, main, None, None, None if free else Side.MAIN)
        if wish.shape in (None, Shape.L):
            for arm in runs:
                if _long(arm) <= _long(main):
                    if wish.hand is not Side.LEFT:
                        yield from _design(project, extent, main, arm, None, None if free else Side.MAIN)
                    if wish.hand is not Side.RIGHT:
                        yield from _design(project, extent, main, None, arm, None if free else Side.MAIN)
        if wish.shape in (None, Shape.U) and _long(main) >= _mm(wish.legroom):
            for right, left in product(runs, runs):
                if free:
                    yield from _design(project, extent, main, right, left, None)
                    continue
                longest = max(_long(main), _long(right), _long(left))
                for side, run in ((Side.MAIN, main), (Side.RIGHT, right), (Side.LEFT, left)):
                    if _long(run) == longest:
                        yield from _design(project, extent, main, right, left, side)


def _long(run: Run) -> int:
    return _sizes(run[0])[0] * run[1]


def _design(
    project: Project, extent: int, main: Run, right: Run | None, left: Run | None, aligned: Side | None
) -> Iterator[Design]:
    """All that can be made of runs: corners, treatments, ends and posts."""
    arms = [arm for arm in (right, left) if arm]
    depths = [_sizes(run[0])[1] for run in (main, *arms)]
    post, rail = _mm(project.frame.post.width), _mm(project.frame.rail.thickness)
    if not _in_stock(project, [main, *arms]) or (arms and min(depths) <= 2 * post + rail):
        return
    for kind in CornerKind if arms else (CornerKind.TABLE_CORNER,):
        if arms and project.wish.corner not in (None, kind):
            continue
        form = _Form(project, main, right, left, aligned, kind)
        if form.too_large(extent):
            return
        corners = [_corner_options(project, kind, main, arm) for arm in arms]
        values = {_value(project, kind, [main, *arms], chosen) for chosen in product(*corners)} - {None}
        if values:
            for posts in form.posts():
                for value in sorted(value for value in values if value):
                    yield from form.designs(value, posts)


def _corner_options(project: Project, kind: CornerKind, main: Run, arm: Run) -> list[Option | None]:
    if kind is CornerKind.TABLE_CORNER:
        return [None]
    across, deep = _sizes(arm[0])[1], _sizes(main[0])[1]
    fitting = [o for o in options(project.cushions) if _sizes(o)[0] <= across and _sizes(o)[1] <= deep]
    return [o for o in fitting if o.cushion.may_notch or not _notched(project, kind, o)]


def _notched(project: Project, kind: CornerKind, option: Option) -> bool:
    stands_in = _mm(project.frame.post.width) + _mm(project.frame.notch_clearance) - _mm(option.cushion.ease) / 2
    return kind is CornerKind.INSIDE_POST and stands_in > 0


def _used(runs: list[Run], corners: tuple[Option | None, ...]) -> dict[str, int]:
    used: dict[str, int] = {}
    for option, n in (*runs, *((corner, 1) for corner in corners if corner)):
        used[option.cushion.name] = used.get(option.cushion.name, 0) + n
    return used


def _in_stock(project: Project, runs: list[Run], corners: tuple[Option | None, ...] = ()) -> bool:
    used = _used(runs, corners)
    return all(c.own is None or c.price is not None or used.get(c.name, 0) <= c.own for c in project.cushions)


def _value(
    project: Project, kind: CornerKind, runs: list[Run], corners: tuple[Option | None, ...]
) -> tuple[int, int, int] | None:
    """Seats, whole cushions and cushions not bought; None where stock or wish forbid it."""
    wish, used = project.wish, _used(runs, corners)
    seats = sum(o.cushion.seats * n for o, n in runs) + sum(o.cushion.seats for o in corners if o)
    if not _in_stock(project, runs, corners) or seats < wish.least or (wish.most is not None and seats > wish.most):
        return None
    buy = sum(max(0, used.get(c.name, 0) - (c.own or 0)) for c in project.cushions)
    return seats, -sum(_notched(project, kind, o) for o in corners if o), -buy


class _Form:
    """Runs of given counts around corners of one treatment, deck corner at (0, 0)."""

    def __init__(
        self,
        project: Project,
        main: Run,
        right: Run | None,
        left: Run | None,
        aligned: Side | None,
        kind: CornerKind,
    ) -> None:
        frame = project.frame
        self.project, self.aligned, self.kind = project, aligned, kind
        self.main, self.right, self.left = main, right, left
        self.t, self.p, self.r = _mm(frame.back_thickness), _mm(frame.post.width), _mm(frame.rail.thickness)
        self.P, self.D = _sizes(main[0])
        self.R = _sizes(right[0])[1] if right else 0
        self.L = _sizes(left[0])[1] if left else 0
        self.n = main[1]
        self.W = self.R + self.n * self.P + self.L

    def too_large(self, extent: int) -> bool:
        """Whether not even the slabs of its runs fit into a circle that holds the room."""
        arms = [(self.D + _long(arm), _sizes(arm[0])[1]) for arm in (self.right, self.left) if arm]
        return any(hypot(a, b) > extent for a, b in ((self.W, self.D), *arms))

    def owner_is_main(self, side: Side) -> bool:
        arm = self.right if side is Side.RIGHT else self.left
        assert arm is not None
        if _long(arm) == _long(self.main):
            return self.aligned is not side
        return _long(self.main) > _long(arm)

    def _starts(self, side: Side) -> tuple[int, int]:
        """How far from the back corner the main and the arm's back rails begin."""
        if self.kind is not CornerKind.OUTSIDE_POST:
            return self.p, self.p
        return (0, self.r) if self.owner_is_main(side) else (self.r, 0)

    def lines(self) -> list[tuple[int, int, tuple[int, ...]]]:
        """Start, stop and module lines: main front and back, right arm's, left arm's."""
        start, stop = 0, self.W
        first, last = 1, self.n - 1
        if self.right:
            start, first = self._starts(Side.RIGHT)[0], 0
        if self.left:
            stop, last = self.W - self._starts(Side.LEFT)[0], self.n
        found = [
            (self.R, self.W - self.L, tuple(self.R + k * self.P for k in range(1, self.n))),
            (start, stop, tuple(self.R + k * self.P for k in range(first, last + 1))),
        ]
        for side, arm in ((Side.RIGHT, self.right), (Side.LEFT, self.left)):
            if arm:
                pitch, end = _sizes(arm[0])[0], self.D + _long(arm)
                found.append((self.D, end, tuple(self.D + k * pitch for k in range(1, arm[1]))))
                found.append((self._starts(side)[1], end, tuple(self.D + k * pitch for k in range(arm[1]))))
        return found

    def posts(self) -> Iterator[Posts]:
        """Choices of posts that span everything; without low obstacles only one of the fewest."""
        crossings = []
        arm_line = 3
        for side, arm in ((Side.RIGHT, self.right), (Side.LEFT, self.left)):
            if arm:
                main_owns = self.owner_is_main(side)
                deck = self.D if main_owns else (self.R if side is Side.RIGHT else self.L)
                line = 1 if main_owns else arm_line
                at = (self.R if side is Side.RIGHT else self.W - self.L) if main_owns else self.D
                crossings.append((line, at, deck))
                arm_line += 2
        frame = self.project.frame
        longest = self.project.shop.longest(frame.rail.name)
        limit = frame.max_span.mm if longest is None else min(frame.max_span.mm, longest.mm)
        found = _spanning(tuple(self.lines()), tuple(crossings), self.p, self.r, floor(limit))
        if any(o.height is Height.LOW for o in self.project.room.obstacles):
            yield from found
        else:
            yield from found[:1]

    def designs(self, value: tuple[int, int, int], posts: Posts) -> Iterator[Design]:
        """With every pair of ends that the wish allows."""
        wish, right, left = self.project.wish, self.right, self.left
        corners = sum(arm is not None for arm in (right, left))
        count = sum(len(line) for line in posts) + 2 * corners
        arm = right if self.aligned is Side.RIGHT else left
        for low, high in product(EndKind, EndKind):
            if wish.right_end in (None, low) and wish.left_end in (None, high):
                ends = self._ends(low, high)
                yield Design(
                    (*value, -count),
                    (*self._stands(), *ends),
                    tuple(self._clear()),
                    (*ends, *self._corner_posts(), *self._feet(posts)),
                    self.aligned,
                    self.W,
                    self.D + _long(arm) if arm else 0,
                    self.t,
                )

    def _mirror(self, box: Rect) -> Rect:
        return self.W - box[2], box[1], self.W - box[0], box[3]

    def _stands(self) -> Iterator[Rect]:
        t, n, main_end = self.t, self.n, self.W - self.L
        yield self.R, 0, self.R + n * self.P, self.D
        yield (-t if self.right else 0), -t, self.W + (t if self.left else 0), 0
        for side, arm in ((Side.RIGHT, self.right), (Side.LEFT, self.left)):
            if arm:
                deep, end = _sizes(arm[0])[1], self.D + _long(arm)
                boxes: list[Rect] = [(0, 0, deep, self.D), (0, self.D, deep, end), (-t, 0, 0, end)]
                if self.kind is CornerKind.OUTSIDE_POST:
                    boxes.append((-self.p, -self.p, 0, 0))
                yield from boxes if side is Side.RIGHT else map(self._mirror, boxes)
        assert main_end == self.R + n * self.P

    def _ends(self, low: EndKind, high: EndKind) -> tuple[Rect, ...]:
        found: list[Rect] = []
        for side, arm, kind in ((Side.RIGHT, self.right, low), (Side.LEFT, self.left, high)):
            frame = self.project.frame
            e = _mm(frame.arm_thickness if kind is EndKind.ARMED else frame.open_end_thickness)
            box: Rect = (-e, -self.t, 0, self.D)
            if arm:
                end = self.D + _long(arm)
                box = (-self.t, end, _sizes(arm[0])[1], end + e)
            found.append(box if side is Side.RIGHT else self._mirror(box))
        return tuple(found)

    def _clear(self) -> Iterator[Rect]:
        leg = _mm(self.project.wish.legroom)
        yield self.R, self.D, self.W - self.L, self.D + leg
        if self.right:
            yield self.R, self.D, self.R + leg, self.D + _long(self.right)
        if self.left:
            yield self._mirror((self.L, self.D, self.L + leg, self.D + _long(self.left)))

    def _corner_posts(self) -> Iterator[Rect]:
        p = self.p
        for side, arm in ((Side.RIGHT, self.right), (Side.LEFT, self.left)):
            if arm:
                deep = _sizes(arm[0])[1]
                outer: Rect = (-p, -p, 0, 0) if self.kind is CornerKind.OUTSIDE_POST else (0, 0, p, p)
                boxes: list[Rect] = [(deep - p, self.D - p, deep, self.D), outer]
                yield from boxes if side is Side.RIGHT else map(self._mirror, boxes)

    def _feet(self, posts: Posts) -> Iterator[Rect]:
        p, half, inner = self.p, self.p // 2, self.W - self.L
        bands = [(self.D - p, self.D), (0, p)]
        for band, line in zip(bands, posts, strict=False):
            yield from ((at - half, band[0], at - half + p, band[1]) for at in line)
        bands = [(self.R - p, self.R), (0, p)] if self.right else []
        bands += [(inner, inner + p), (self.W - p, self.W)] if self.left else []
        for band, line in zip(bands, posts[2:], strict=True):
            yield from ((band[0], at - half, band[1], at - half + p) for at in line)


@cache
def _spanning(
    lines: tuple[tuple[int, int, tuple[int, ...]], ...],
    crossings: tuple[tuple[int, int, int], ...],
    post: int,
    rail: int,
    limit: int,
) -> tuple[Posts, ...]:
    """Choices of posts that leave no opening too long, the fewest first; needless posts are left out.

    Args:
        lines: of rails, each from a start to a stop past places for posts.
        crossings: for each corner the back line that the cross rail ends at, where, and the deck it crosses.
        post: width.
        rail: thickness.
        limit: of a clear opening.
    """
    at_corners = {at for _, at, _ in crossings}
    good: list[Posts] = []
    for posts in product(*(_line(*line, post, limit, at_corners) for line in lines)):
        bays = [deck - post - (post if at in posts[line] else rail) for line, at, deck in crossings]
        if all(0 < bay <= limit for bay in bays):
            good.append(posts)
    return tuple(sorted(good, key=lambda posts: sum(map(len, posts))))


def _line(
    start: int, stop: int, places: tuple[int, ...], post: int, limit: int, at_corners: set[int]
) -> list[tuple[int, ...]]:
    """Choices along one line that span it, of which none does without one (but for one at a corner place)."""
    good: list[tuple[int, ...]] = []
    for taken in sorted(product((False, True), repeat=len(places)), key=sum):
        some = tuple(place for place, yes in zip(places, taken, strict=True) if yes)
        faces = [start, *(face for place in some for face in (place - post // 2, place - post // 2 + post)), stop]
        bays = [b - a for a, b in zip(faces[::2], faces[1::2], strict=True)]
        if all(0 < bay <= limit for bay in bays) and not any(
            set(other) <= set(some) and not (set(some) - set(other)) & at_corners for other in good
        ):
            good.append(some)
    return good


class Place:
    """One frame: every whole position of its grid, and where each rectangle may stand (remembered)."""

    def __init__(
        self, project: Project, origin: Pair, angle: float, edge: Edge | None = None, aligned: Side | None = None
    ) -> None:
        self.project, self.origin, self.angle = project, origin, angle
        self.edge, self.aligned = edge, aligned
        self.room = _outline(project)
        x0, y0, x1, y1 = shapely.transform(self.room, lambda c: _into(c, origin, angle)).bounds
        xs, ys = np.meshgrid(np.arange(floor(x0), ceil(x1) + 1), np.arange(floor(y0), ceil(y1) + 1))
        self.xs, self.ys = xs.ravel(), ys.ravel()
        self.known: dict[tuple[Rect, str], np.ndarray] = {}
        self.tried: dict[object, bool] = {}

    def may_stand(self, box: Rect, part: str) -> np.ndarray:
        """Where the rectangle keeps every distance; leg room and feet have others to keep than what stands."""
        if (box, part) not in self.known:
            boxes = _placed(box, self.xs, self.ys, self.origin, self.angle)
            good = shapely.covers(self.room.buffer(SLIP), boxes)
            good[good] = _free(self.project, self.room, boxes[good], part)
            self.known[box, part] = good
        return self.known[box, part]

    def backed(self, design: Design) -> np.ndarray:
        """At which positions the back is near enough to the edge, and half of it over the edge."""
        if self.edge is None:
            return np.full(len(self.xs), fill_value=True)
        dx, dy = self.edge.end.x - self.edge.start.x, self.edge.end.y - self.edge.start.y
        size = hypot(float(dx.mm), float(dy.mm))
        if design.aligned is Side.MAIN:
            off, start, end = self.ys - design.back, self.xs, self.xs + design.width
            over = np.minimum(end, size) - np.maximum(start, 0)
        elif design.aligned is Side.RIGHT:
            off, start, end = self.xs - design.back, self.ys, self.ys + design.arm
            over = np.minimum(end, 0) - np.maximum(start, -size)
        else:
            off, start, end = -(self.xs + design.width + design.back), self.ys, self.ys + design.arm
            over = np.minimum(end, size) - np.maximum(start, 0)
        near = (off >= -SLIP) & (off <= _mm(self.project.wish.off_wall) + SLIP)
        return np.asarray(near & (2 * over >= end - start - SLIP))

    def fits(self, design: Design) -> bool:
        """Whether the design has a position here that leaves every route open."""
        key = design.stands, design.clear, design.feet
        if key not in self.tried:
            self.tried[key] = self._fits(design)
        return self.tried[key]

    def _fits(self, design: Design) -> bool:
        good = self.backed(design)
        low = any(o.height is Height.LOW for o in self.project.room.obstacles)
        for boxes, part in ((design.stands, "stands"), (design.clear, "clear"), (design.feet if low else (), "foot")):
            for box in boxes:
                if good.any():
                    good = good & self.may_stand(box, part)
        for x, y in zip(self.xs[good], self.ys[good], strict=True):
            placed = [_placed(b, x, y, self.origin, self.angle) for b in design.stands]
            furniture = shapely.union_all(np.concatenate(placed))
            if all(_open(self.project, self.room, furniture, route) for route in self.project.room.routes):
                return True
        return False


def _places(project: Project) -> Iterator[Place]:
    against = project.wish.against
    turns = {Side.MAIN: 0.0, Side.RIGHT: pi / 2, Side.LEFT: -pi / 2}
    for edge in project.room.edges:
        origin = float(edge.start.x.mm), float(edge.start.y.mm)
        angle = float(np.arctan2(float(edge.end.y.mm) - origin[1], float(edge.end.x.mm) - origin[0]))
        if against is not None and edge.name in against:
            yield from (Place(project, origin, angle + turn, edge, side) for side, turn in turns.items())
        elif against is None:
            yield from (Place(project, origin, angle + turn * pi / 2) for turn in range(4))


def _into(points: np.ndarray, origin: Pair, angle: float) -> np.ndarray:
    x, y = points[:, 0] - origin[0], points[:, 1] - origin[1]
    return np.column_stack((cos(angle) * x + sin(angle) * y, cos(angle) * y - sin(angle) * x))


def _placed(box: Rect, xs: np.ndarray, ys: np.ndarray, origin: Pair, angle: float) -> np.ndarray:
    boxes = shapely.box(xs + box[0], ys + box[1], xs + box[2], ys + box[3])
    turn = np.array([[cos(angle), sin(angle)], [-sin(angle), cos(angle)]])
    return np.atleast_1d(shapely.transform(boxes, lambda c: c @ turn + origin))


def _free(project: Project, room: Polygon, boxes: np.ndarray, part: str) -> np.ndarray:
    tolerance = float(project.room.tolerance.mm)
    outside = room.buffer(50).difference(room)
    good = _clear_of(boxes, outside, tolerance)
    for obstacle in project.room.obstacles:
        if (obstacle.height is Height.LOW) == (part == "foot"):
            more = float(obstacle.radius.mm) + (0 if part == "clear" else float(obstacle.clear.mm))
            good &= _clear_of(boxes, _core(obstacle), tolerance + more)
    for opening in project.room.openings:
        if part == "stands" and opening.swing is Swing.IN:
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
    tall = [o for o in project.room.obstacles if o.height is not Height.LOW]
    blocked += [_core(o).buffer(half + tolerance + float(o.radius.mm), 64) for o in tall]
    free = room.buffer(1e-7).difference(shapely.union_all(blocked))
    return any(all(part.intersects(gap) for gap in gaps) for part in shapely.get_parts(free))


def _gap(project: Project, route: Route, name: str) -> Polygon:
    low, high = _jambs(project, project.room.opening(name))
    width = float(np.hypot(*(high - low)))
    more = max(0.0, float((route.width + 2 * project.room.tolerance).mm) - width) / 2 / width
    middle = LineString([low - more * (high - low), high + more * (high - low)])
    return middle.buffer(0.01, cap_style="flat")
