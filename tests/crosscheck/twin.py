"""A second opinion on the layout problem: an OR-Tools CP-SAT model with geometry of its own.

For each frame and structure the unknowns are the place (whole marks) and the counts. Corners that pass each
other at an angle are first treated a little too kindly; a place that proves wrong under exact arithmetic adds
the tangent that forbids it, so "infeasible" and "nothing better" are proofs and every answer is exact.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import ceil, floor

import shapely
from cones import Cone, Dir, apart, direction, fine, loose_tangent, polygon, root_above, tangent
from frames import (
    Outside,
    Ring,
    View,
    chains,
    convex_obstacle,
    outline,
    outside,
    square_distance,
    swing,
    views,
)
from ortools.sat.python import cp_model
from structures import Block, Row, Span, Structure, structures

from fitter.domain.project import Project
from rooms.room import Obstacle, Route


@dataclass(frozen=True)
class TwinAnswer:
    """What the twin found: `feasible` or `impossible`, both proven."""

    verdict: str
    seats: int = 0
    notches: int = 0
    posts: int = 0


@dataclass(frozen=True)
class Thing:
    """A convex thing in one frame, and how far boxes keep from it."""

    cones: tuple[Cone, ...]
    distance: Fraction


@dataclass(frozen=True)
class Lane:
    """A route in one frame: what is left, what is right, and each obstacle with the colours it may take."""

    left: tuple[Thing, ...]
    right: tuple[Thing, ...]
    obstacles: tuple[tuple[Thing, ...], ...]
    may_be_left: tuple[bool, ...]
    may_be_right: tuple[bool, ...]
    same: tuple[tuple[int, int], ...]


@dataclass(frozen=True)
class Scene:
    """All that stays put, seen from one frame."""

    view: View
    outside: Outside
    tolerance: Fraction
    hard: tuple[Thing, ...]
    clear: tuple[Thing, ...]
    lanes: tuple[Lane, ...]
    reach: tuple[int, int, int, int]
    off_wall: Fraction | None
    nudge: Fraction


def best_seats(project: Project, nudge: Fraction = Fraction(0)) -> TwinAnswer:
    """Most seats, with them fewest notched cushions, with those fewest posts.

    Args:
        project: the problem.
        nudge: marks added to every distance that must be kept; an answer that holds only for an exact fit
            changes with a small nudge of either sign.
    """
    best: Row | None = None
    blocked = any(_blocked(project, route) for route in project.room.routes)
    for view in () if blocked else views(project):
        scene = _scene(project, view, nudge)
        longest = ceil(Fraction(_greatest_run(project), project.mark.units))
        for structure in structures(project, longest):
            best = _improve(scene, structure, best)
    if best is None:
        return TwinAnswer("impossible")
    return TwinAnswer("feasible", best.seats, best.notches, best.posts)


def _greatest_run(project: Project) -> int:
    corners = outline(project.room)
    return ceil(max(root_above((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) for a in corners for b in corners))


def _scene(project: Project, view: View, nudge: Fraction) -> Scene:
    room, mark = project.room, project.mark.units
    tolerance = Fraction(room.tolerance.units, mark)
    ring = outline(room)
    parts = outside(ring)
    pockets = tuple(Thing(polygon(view.ring(pocket)), tolerance + nudge) for pocket in parts.pockets)
    swings = (swing(view, room, opening) for opening in room.openings)
    near: list[Thing] = []
    far: list[Thing] = []
    for obstacle in room.obstacles:
        for cones in convex_obstacle(view, _core(obstacle), Fraction(obstacle.radius.units)):
            near.append(Thing(cones, tolerance + nudge))
            far.append(Thing(cones, tolerance + nudge + Fraction(obstacle.clear.units, mark)))
    seen = view.ring(ring)
    xs, ys = [p[0] for p in seen], [p[1] for p in seen]
    return Scene(
        view=view,
        outside=Outside(tuple((_turn(view, u), view.see(at)) for u, at in parts.planes), ()),
        tolerance=tolerance,
        hard=(*pockets, *far, *(Thing(s, tolerance + nudge) for s in swings if s is not None)),
        clear=(*pockets, *near),
        lanes=tuple(_lane(project, view, route, nudge) for route in room.routes),
        reach=(floor(min(xs)), ceil(max(xs)), floor(min(ys)), ceil(max(ys))),
        off_wall=None if view.edge is None else Fraction(project.wish.off_wall.units, mark),
        nudge=nudge,
    )


def _turn(view: View, u: Dir) -> Dir:
    return direction(view.cos * u[0] + view.sin * u[1], view.cos * u[1] - view.sin * u[0])


def _core(obstacle: Obstacle) -> Ring:
    return tuple((Fraction(p.x.units), Fraction(p.y.units)) for p in obstacle.core)


def _loop(obstacle: Obstacle) -> Ring:
    core = _core(obstacle)
    return (*core, core[0])


def _too_near(a: Ring, b: Ring, distance: int) -> bool:
    return square_distance(a, b) < Fraction(distance) ** 2


def _blocked(project: Project, route: Route) -> bool:
    """Whether the walls alone close a route.

    Raises:
        ValueError: two flanks of a thin wall belong to different sides of the route; the twin's argument
            does not cover such rooms.
    """
    left, right = chains(project.room, route)
    least = (route.width + 2 * project.room.tolerance).units
    room = shapely.Polygon(outline(project.room)).buffer(1)
    closed = False
    for a in pairwise(left):
        for b in pairwise(right):
            if _too_near(a, b, least - 2):
                if not room.covers(shapely.shortest_line(shapely.LineString(a), shapely.LineString(b))):
                    message = f"{route.name}: a thin wall has its flanks on different sides of the route"
                    raise ValueError(message)
                closed = True
    return closed


def _lane(project: Project, view: View, route: Route, nudge: Fraction) -> Lane:
    room, mark = project.room, project.mark.units
    least = (route.width + 2 * room.tolerance).units
    past = Fraction((route.width + room.tolerance).units, mark) + nudge
    left, right = chains(room, route)
    loops = [(_loop(o), o.radius.units) for o in room.obstacles]
    same = [
        (i, j)
        for j, (b, rb) in enumerate(loops)
        for i, (a, ra) in enumerate(loops[:j])
        if _too_near(a, b, least + ra + rb)
    ]
    return Lane(
        left=tuple(Thing(polygon(view.ring(part)), past) for part in pairwise(left)),
        right=tuple(Thing(polygon(view.ring(part)), past) for part in pairwise(right)),
        obstacles=tuple(
            tuple(Thing(cones, past) for cones in convex_obstacle(view, _core(o), Fraction(o.radius.units)))
            for o in room.obstacles
        ),
        may_be_left=tuple(not _too_near(a, right, least + r) for a, r in loops),
        may_be_right=tuple(not _too_near(a, left, least + r) for a, r in loops),
        same=tuple(same),
    )


def _improve(scene: Scene, structure: Structure, best: Row | None) -> Row | None:
    rows = [row for row in structure.rows if (best is None or row.key > best.key) and _may_fit(scene, structure, row)]
    if not rows:
        return best
    return _Model(scene, structure, rows).best() or best


def _may_fit(scene: Scene, structure: Structure, row: Row) -> bool:
    """False only where the layout is larger than the box around the room."""
    x0, x1, y0, y1 = scene.reach
    wide = [at(block.x1, row) - at(other.x0, row) for block in structure.stands for other in structure.stands]
    deep = [at(block.y1, row) - at(other.y0, row) for block in structure.stands for other in structure.stands]
    return max(wide) <= x1 - x0 + 1 and max(deep) <= y1 - y0 + 1


def at(span: Span, row: Row) -> int:
    """A coordinate for given counts."""
    return span[0] + span[1] * row.n + span[2] * row.m


@dataclass
class _Watch:
    """A distance that is kept whenever `when` holds; its cones grow finer as places are refused."""

    block: Block
    thing: Thing
    when: cp_model.IntVar | None
    cones: list[Cone]


class _Model:
    """Place and counts of one structure in one frame."""

    def __init__(self, scene: Scene, structure: Structure, rows: Sequence[Row]) -> None:
        self.scene, self.structure = scene, structure
        self.model = cp_model.CpModel()
        x0, x1, y0, y1 = scene.reach
        self.x = self.model.new_int_var(x0 - 1, x1 + 1, "x")
        self.y = self.model.new_int_var(y0 - 1, y1 + 1, "y")
        self.rows = rows
        self.counts = self._table(rows)
        self.literals: dict[tuple[Dir, int, Block], cp_model.IntVar] = {}
        self.watches: list[_Watch] = []
        self._place()

    def _table(self, rows: Sequence[Row]) -> tuple[cp_model.IntVar, cp_model.IntVar]:
        n = self.model.new_int_var(0, max(row.n for row in rows), "n")
        m = self.model.new_int_var(0, max(row.m for row in rows), "m")
        self.key = self.model.new_int_var_from_domain(cp_model.Domain.from_values([r.key for r in rows]), "key")
        self.model.add_allowed_assignments([n, m, self.key], [(row.n, row.m, row.key) for row in rows])
        self.model.maximize(self.key)
        return n, m

    def _place(self) -> None:
        scene, structure = self.scene, self.structure
        for block in (*structure.stands, *structure.clear):
            for u, point in scene.outside.planes:
                self.model.add(self._corner(block, u) >= tangent(u, point, scene.tolerance + scene.nudge))
        for blocks, things in ((structure.stands, scene.hard), (structure.clear, scene.clear)):
            for block in blocks:
                for thing in things:
                    self._keep(block, thing, None)
        if scene.view.edge is not None and scene.off_wall is not None:
            self._against(scene.off_wall, Fraction(scene.view.edge.length.units, scene.view.mark))
        for lane in scene.lanes:
            self._lane(lane)

    def _against(self, off_wall: Fraction, length: Fraction) -> None:
        """Back near the edge's line, half of it over the edge: overlap of two intervals, doubled."""
        back, kind = self.structure.back, -self.scene.nudge
        self.model.add(self._y(back.y0) <= floor(off_wall + kind))
        self.model.add(self._y(back.y0) >= ceil(-kind))
        start, end = self._x(back.x0), self._x(back.x1)
        self.model.add(2 * end >= end - start - floor(2 * kind))
        self.model.add(2 * start + (end - start) <= floor(2 * (length + kind)))
        self.model.add(end - start <= floor(2 * (length + kind)))

    def _lane(self, lane: Lane) -> None:
        new = self.model.new_bool_var
        mine, other, colours = new("left"), new("right"), [new("left") for _ in lane.obstacles]
        self.model.add_exactly_one(mine, other)
        for colour, left, right in zip(colours, lane.may_be_left, lane.may_be_right, strict=True):
            self.model.add_bool_or([colour.negated()] if not left else [colour, colour.negated()])
            self.model.add_bool_or([colour] if not right else [colour, colour.negated()])
        for i, j in lane.same:
            self.model.add(colours[i] == colours[j])
        for block in self.structure.stands:
            for thing in lane.right:
                self._keep(block, thing, mine)
            for thing in lane.left:
                self._keep(block, thing, other)
            for colour, things in zip(colours, lane.obstacles, strict=True):
                differs = new("differs")
                self.model.add_bool_or([differs, mine.negated(), colour])
                self.model.add_bool_or([differs, mine, colour.negated()])
                for thing in things:
                    self._keep(block, thing, differs)

    def _x(self, span: Span) -> cp_model.LinearExpr:
        return self.x + span[0] + span[1] * self.counts[0] + span[2] * self.counts[1]

    def _y(self, span: Span) -> cp_model.LinearExpr:
        return self.y + span[0] + span[1] * self.counts[0] + span[2] * self.counts[1]

    def _corner(self, block: Block, u: Dir) -> cp_model.LinearExpr:
        """The least value of u·p over the block."""
        x, y = (block.x1 if u[0] < 0 else block.x0), (block.y1 if u[1] < 0 else block.y0)
        return u[0] * self._x(x) + u[1] * self._y(y)

    def _keep(self, block: Block, thing: Thing, when: cp_model.IntVar | None) -> None:
        watch = _Watch(block, thing, when, [part for cone in thing.cones for part in fine(cone)])
        self.watches.append(watch)
        self._demand(watch)

    def _demand(self, watch: _Watch) -> None:
        """One of the directions parts the block from the thing."""
        parting: list[cp_model.IntVar] = []
        for cone in watch.cones:
            distance = cone.radius + watch.thing.distance
            for u in (cone.low, cone.high):
                parting.append(self._literal(watch.block, u, tangent(u, cone.centre, distance)))
            if distance > 0:
                u, half = cone.middle
                parting.append(self._literal(watch.block, u, loose_tangent(u, half, cone.centre, distance)))
        self.model.add_bool_or([*parting, *([] if watch.when is None else [watch.when.negated()])])

    def _literal(self, block: Block, u: Dir, least: int) -> cp_model.IntVar:
        key = (u, least, block)
        if key not in self.literals:
            literal = self.literals[key] = self.model.new_bool_var("parts")
            self.model.add(self._corner(block, u) >= least).only_enforce_if(literal)
        return self.literals[key]

    def best(self) -> Row | None:
        """The best row that has a place, or None: both proven."""
        while True:
            solver = cp_model.CpSolver()
            solver.parameters.num_workers = 1
            solver.parameters.random_seed = 7
            status = solver.solve(self.model)
            if status == cp_model.INFEASIBLE:
                return None
            if status != cp_model.OPTIMAL:
                message = f"CP-SAT ended with {solver.status_name(status)}"
                raise RuntimeError(message)
            if not self._refuse(solver):
                return next(row for row in self.rows if row.key == solver.value(self.key))

    def _refuse(self, solver: cp_model.CpSolver) -> bool:
        """Forbid the place just found if a distance is not really kept."""
        wrong = [watch for watch in self.watches if self._broken(watch, solver)]
        for watch in wrong:
            watch.cones = list(self._sharper(watch, solver))
            self._demand(watch)
        return bool(wrong)

    def _spot(self, watch: _Watch, cone: Cone, solver: cp_model.CpSolver) -> tuple[int, int]:
        high_x, high_y = cone.corner
        block = watch.block
        x = solver.value(self._x(block.x1 if high_x else block.x0))
        return x, solver.value(self._y(block.y1 if high_y else block.y0))

    def _broken(self, watch: _Watch, solver: cp_model.CpSolver) -> bool:
        if watch.when is not None and not solver.boolean_value(watch.when):
            return False
        return not apart(watch.cones, [self._spot(watch, cone, solver) for cone in watch.cones], watch.thing.distance)

    def _sharper(self, watch: _Watch, solver: cp_model.CpSolver) -> Iterator[Cone]:
        for cone in watch.cones:
            x, y = self._spot(watch, cone, solver)
            u, half = cone.middle
            distance = cone.radius + watch.thing.distance
            if u[0] * x + u[1] * y < loose_tangent(u, half, cone.centre, distance):
                yield cone
                continue
            parts = cone.cut(direction(x - cone.centre[0], y - cone.centre[1]))
            yield from parts if len(parts) > 1 else cone.cut(u)
