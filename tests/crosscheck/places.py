"""Where a design may stand, in floats: shapely's distances, and walkways found by moving a disc. In shop marks."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil, cos, floor, hypot, pi, sin

import numpy as np
import shapely
from designs import Design, Rect
from shapely import LineString, Point, Polygon

from fitter.domain.project import Project
from fitter.domain.wishes import Side
from rooms.lengths import Length
from rooms.room import Edge, Height, Hinge, Obstacle, Opening, Route, Swing

SLIP = 1e-6
"""Marks; far above the error of floats of this size."""
Pair = tuple[float, float]


class Place:
    """One frame with positions, and where each rectangle may stand (remembered).

    Args:
        project: the problem.
        origin: of the frame, in the room.
        angle: of the frame's x axis, radians.
        edge: that backs the layout, if any.
        aligned: the run whose back lies along it.
        slip: by how much a distance may be missed; negative: by how much it must be more than kept.
    """

    def __init__(
        self,
        project: Project,
        origin: Pair,
        angle: float,
        edge: Edge | None = None,
        aligned: Side | None = None,
        slip: float = SLIP,
    ) -> None:
        self.project, self.origin, self.angle, self.slip = project, origin, angle, slip
        self.edge, self.aligned = edge, aligned
        self.room = outline(project)
        self.grown = self.room.buffer(SLIP)
        self.outside = self.room.buffer(10 + max(self.room.bounds)).difference(self.room)
        x0, y0, x1, y1 = shapely.transform(self.room, lambda c: _into(c, origin, angle)).bounds
        self.bounds = floor(x0), floor(y0), ceil(x1), ceil(y1)
        self.lowest = y0
        self.length = 0.0
        if edge is not None:
            (ax, ay), (bx, by) = _pair(project, edge.start), _pair(project, edge.end)
            self.length = hypot(bx - ax, by - ay)
        self.tried: dict[object, float | None] = {}
        self.stay(np.empty(0), np.empty(0))

    def stay(self, xs: np.ndarray, ys: np.ndarray) -> None:
        """Look at these positions of the deck corner from now on."""
        self.xs, self.ys = xs, ys
        self.known: dict[tuple[Rect, str], np.ndarray] = {}

    def everywhere(self) -> Place:
        """This place, with every position of the grid."""
        x0, y0, x1, y1 = self.bounds
        xs, ys = np.meshgrid(np.arange(x0, x1 + 1), np.arange(y0, y1 + 1))
        self.stay(xs.ravel(), ys.ravel())
        return self

    def may_stand(self, box: Rect, part: str) -> np.ndarray:
        """Where the rectangle keeps every distance; leg room and feet have others to keep than what stands."""
        if (box, part) not in self.known:
            self.known[box, part] = self._free(_placed(box, self.xs, self.ys, self.origin, self.angle), part)
        return self.known[box, part]

    def _free(self, boxes: np.ndarray, part: str) -> np.ndarray:
        project = self.project
        tolerance = _marks(project, project.room.tolerance)
        good = shapely.covers(self.grown, boxes)
        boxes, inside = boxes[good], good
        good = self._clear_of(boxes, self.outside, tolerance)
        for obstacle in project.room.obstacles:
            if (obstacle.height is Height.LOW) == (part == "foot"):
                more = _marks(project, obstacle.radius) + (0 if part == "clear" else _marks(project, obstacle.clear))
                good &= self._clear_of(boxes, _core(project, obstacle), tolerance + more)
        for opening in project.room.openings:
            if part == "stands" and opening.swing is Swing.IN:
                good &= self._clear_of(boxes, _sector(project, opening), tolerance)
        inside[inside] = good
        return inside

    def _clear_of(self, boxes: np.ndarray, thing: object, distance: float) -> np.ndarray:
        overlap = shapely.area(shapely.intersection(boxes, thing))
        return np.asarray((overlap < SLIP) & (shapely.distance(boxes, thing) >= distance - self.slip))

    def off(self, design: Design) -> np.ndarray:
        """How far the aligned run's back is off the edge, or off the lowest y of the room, at each position."""
        if design.aligned is Side.RIGHT:
            return self.xs - design.back
        if design.aligned is Side.LEFT:
            return -(self.xs + design.width + design.back)
        return self.ys - design.back - (self.lowest if design.aligned is None else 0)

    def backed(self, design: Design) -> np.ndarray:
        """At which positions the back is near enough to the edge, and half of it over the edge."""
        if self.edge is None:
            return np.full(len(self.xs), fill_value=True)
        low, high = (-self.length, 0.0) if design.aligned is Side.RIGHT else (0.0, self.length)
        start, size = (self.xs, design.width) if design.aligned is Side.MAIN else (self.ys, design.arm)
        over = np.minimum(start + size, high) - np.maximum(start, low)
        off = self.off(design)
        near = (off >= -self.slip) & (off <= _marks(self.project, self.project.wish.off_wall) + self.slip)
        return np.asarray(near & (2 * over >= size - self.slip))

    def standing(self, design: Design) -> np.ndarray:
        """At which positions the design keeps every distance; routes are not looked at."""
        good = self.backed(design)
        low = any(o.height is Height.LOW for o in self.project.room.obstacles)
        for boxes, part in ((design.stands, "stands"), (design.clear, "clear"), (design.feet if low else (), "foot")):
            for box in boxes:
                if good.any():
                    good = good & self.may_stand(box, part)
        return good

    def placed(self, design: Design, x: float, y: float) -> tuple[Polygon, ...]:
        """All that stands, at one position, in the room."""
        at = np.array([x]), np.array([y])
        return tuple(_placed(box, *at, self.origin, self.angle)[0] for box in design.stands)

    def least_off(self, design: Design) -> float | None:
        """The least distance off the edge that leaves every route open; None if the design has no position here."""
        key = design.stands, design.clear, design.feet
        if key not in self.tried:
            good = self.standing(design)
            spots = sorted(zip(self.off(design)[good], self.xs[good], self.ys[good], strict=True))
            routes = self.project.room.routes
            fitting = (
                off
                for off, x, y in spots
                if all(_open(self.project, self.room, shapely.union_all(self.placed(design, x, y)), r) for r in routes)
            )
            self.tried[key] = next(fitting, None)
        return self.tried[key]


def places(project: Project, slip: float = SLIP) -> Iterator[Place]:
    """Every frame: along each edge once for each run that may be aligned, or in four turns."""
    against = project.wish.against
    turns = {Side.MAIN: 0.0, Side.RIGHT: pi / 2, Side.LEFT: -pi / 2}
    for edge in project.room.edges:
        origin, end = _pair(project, edge.start), _pair(project, edge.end)
        angle = float(np.arctan2(end[1] - origin[1], end[0] - origin[0]))
        if against is not None and edge.name in against:
            for side, turn in turns.items():
                yield Place(project, origin, angle + turn, edge, side, slip)
        elif against is None:
            for quarter in range(4):
                yield Place(project, origin, angle + quarter * pi / 2, slip=slip)


def extent(project: Project) -> float:
    """The diagonal of the box around the room."""
    x0, y0, x1, y1 = outline(project).bounds
    return hypot(x1 - x0, y1 - y0)


def outline(project: Project) -> Polygon:
    """The room."""
    return Polygon([_pair(project, point) for point in project.room.outline])


def _marks(project: Project, length: Length) -> float:
    return length.units / project.mark.units


def _pair(project: Project, point: tuple[Length, Length]) -> Pair:
    return _marks(project, point[0]), _marks(project, point[1])


def _into(points: np.ndarray, origin: Pair, angle: float) -> np.ndarray:
    x, y = points[:, 0] - origin[0], points[:, 1] - origin[1]
    return np.column_stack((cos(angle) * x + sin(angle) * y, cos(angle) * y - sin(angle) * x))


def _placed(box: Rect, xs: np.ndarray, ys: np.ndarray, origin: Pair, angle: float) -> np.ndarray:
    boxes = shapely.box(xs + box[0], ys + box[1], xs + box[2], ys + box[3])
    turn = np.array([[cos(angle), sin(angle)], [-sin(angle), cos(angle)]])
    return np.atleast_1d(shapely.transform(boxes, lambda c: c @ turn + origin))


def _core(project: Project, obstacle: Obstacle) -> Point | Polygon:
    points = [_pair(project, point) for point in obstacle.core]
    return Point(points[0]) if len(points) == 1 else Polygon(points)


def _jambs(project: Project, opening: Opening) -> tuple[np.ndarray, np.ndarray]:
    low, high = (np.array(_pair(project, point)) for point in project.room.jambs(opening))
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

    Jambs of a skew edge are rounded and lie a hair beside it, so gaps are strips rather than lines. A narrow
    opening is widened along its own edge only: doll's doors stand far enough from corners.
    """
    tolerance, half = _marks(project, project.room.tolerance), _marks(project, route.width) / 2 - 0.004
    gaps = [_gap(project, route, name) for name in (route.start, route.end)]
    walls = room.exterior.difference(shapely.union_all(gaps))
    blocked = [walls.buffer(half + tolerance, 64), furniture.buffer(half, 64)]
    tall = [o for o in project.room.obstacles if o.height is not Height.LOW]
    blocked += [_core(project, o).buffer(half + tolerance + _marks(project, o.radius), 64) for o in tall]
    free = room.buffer(1e-7).difference(shapely.union_all(blocked))
    return any(all(part.intersects(gap) for gap in gaps) for part in shapely.get_parts(free))


def _gap(project: Project, route: Route, name: str) -> Polygon:
    low, high = _jambs(project, project.room.opening(name))
    width = float(np.hypot(*(high - low)))
    more = max(0.0, _marks(project, route.width + 2 * project.room.tolerance) - width) / 2 / width
    middle = LineString([low - more * (high - low), high + more * (high - low)])
    return middle.buffer(0.01, cap_style="flat")
