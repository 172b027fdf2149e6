"""A second opinion on the layout problem: an OR-Tools CP-SAT model with geometry of its own.

For each frame and shape the unknowns are the place (whole marks), the cushions and counts of every run, the
corner cushions, the treatment and the posts. Corners that pass each other at an angle are first treated a little
too kindly; a place that proves wrong under exact arithmetic adds the tangent that forbids it, so "infeasible" and
"nothing better" are proofs and every answer is exact.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil, floor

from cones import Cone, Dir, apart, direction, loose_tangent
from frames import views
from ortools.sat.python import cp_model
from runs import Runs
from scene import Bound, Ground, Scene, Thing, Way, bounds
from structures import Block, Structure, Sum, backing, fixed_feet, lines, sizes, stands, strips, structures

from fitter.domain.project import Project
from fitter.domain.wishes import DEFAULT_ORDER, Objective, Side
from rooms.room import Room

COUNTED = (Objective.SEATS, Objective.TALL, Objective.WHOLE, Objective.BUY, Objective.POSTS)
"""The objectives that the twin judges, in the default order."""
BASE = 1000
"""More than any of them can be."""
FAR = 1_000_000
"""Marks; no side of a block lies farther from the frame's origin."""


@dataclass(frozen=True)
class TwinAnswer:
    """What the twin found: `feasible` or `impossible`, both proven."""

    verdict: str
    seats: int = 0
    notches: int = 0
    buy: int = 0
    posts: int = 0
    low: int = 0
    """Corners without a tall post."""

    def value(self, objective: Objective) -> int:
        """What it found for a counted objective; greater is better."""
        return {
            Objective.SEATS: self.seats,
            Objective.TALL: -self.low,
            Objective.WHOLE: -self.notches,
            Objective.BUY: -self.buy,
            Objective.POSTS: -self.posts,
        }[objective]


def counted(project: Project) -> tuple[Objective, ...]:
    """The counted objectives in the order of a project's wish."""
    return tuple(o for o in dict.fromkeys((*project.wish.prefer, *DEFAULT_ORDER)) if o in COUNTED)


def best_answer(project: Project, nudge: Fraction = Fraction(0)) -> TwinAnswer:
    """The best seats, tall corner posts, notches, cushions to buy and posts, in the order of the wish.

    Args:
        project: the problem.
        nudge: marks added to every distance that must be kept; an answer that holds only for an exact fit
            changes with a small nudge of either sign.
    """
    ground = Ground(project, nudge)
    best: TwinAnswer | None = None
    for view in () if ground.blocked else views(project):
        scenes: dict[object, Scene] = {}
        for structure in structures(project):
            turned = view if structure.aligned is None else view.aligned(structure.aligned)
            key = turned.cos, turned.sin
            if key not in scenes:
                scenes[key] = Scene(ground, turned)
            best = Model(ground, scenes[key], structure).better(best) or best
    return best or TwinAnswer("impossible")


def possible(project: Project, nudge: Fraction = Fraction(0), edges: Room | None = None) -> bool:
    """Whether anything fits, good or not: proven either way.

    Args:
        project: the problem.
        nudge: as for `best_answer`.
        edges: the room whose edges runs may stand against, where some of them no longer bound the project's own.
    """
    ground = Ground(project, nudge)
    for view in () if ground.blocked else views(replace(project, room=edges or project.room)):
        scenes: dict[object, Scene] = {}
        for structure in structures(project):
            turned = view if structure.aligned is None else view.aligned(structure.aligned)
            scene = scenes.setdefault((turned.cos, turned.sin), Scene(ground, turned))
            if Model(ground, scene, structure).any():
                return True
    return False


@dataclass
class _Watch:
    """A distance that is kept whenever `when` holds; its cones grow finer as places are refused."""

    block: Block
    thing: Thing
    when: tuple[cp_model.IntVar, ...]
    cones: list[Cone]


class Model:
    """Everything that one shape may be in one frame."""

    def __init__(self, ground: Ground, scene: Scene, structure: Structure) -> None:
        self.scene, self.structure, self.ground = scene, structure, ground
        self.sizes = sizes(ground.project)
        self.model = cp_model.CpModel()
        x0, x1, y0, y1 = scene.reach
        self.place = {
            "x": self.model.new_int_var(x0 - 1, x1 + 1, "x"),
            "y": self.model.new_int_var(y0 - 1, y1 + 1, "y"),
        }
        reach = {side: x1 - x0 + 1 if side is Side.MAIN else y1 - y0 + 1 for side in Side}
        self.runs = Runs(self.model, ground.project, structure, self.sizes, reach, with_feet=bool(ground.flat))
        self.literals: dict[tuple[Bound, Sum | None, Sum | None], cp_model.IntVar] = {}
        self.sides: dict[Sum, cp_model.IntVar] = {}
        self.watches: list[_Watch] = []

    def better(self, best: TwinAnswer | None) -> TwinAnswer | None:
        """The best answer if it is better than the one known, else None: both proven."""
        if not self.runs.possible:
            return None
        order = counted(self.ground.project)
        if best is not None:
            least = sum(best.value(o) * BASE ** (len(order) - 1 - i) for i, o in enumerate(order)) + 1
            self.model.add(self._objective(order) >= least)
        if not self._stands():
            return None
        self.model.maximize(self._objective(order))
        return self._solve()

    def any(self) -> bool:
        """Whether there is any answer."""
        return self.runs.possible and self._stands() and self._solve() is not None

    def _stands(self) -> bool:
        """Ask for all that holds of a place; False if the hull alone leaves none."""
        self._stay_in()
        if self.structure.aligned is not None:
            self._against()
        # Most frames can hold nothing better, and their hull alone is enough to prove it.
        if self._solver().solve(self.model) == cp_model.INFEASIBLE:
            return False
        self._stand_clear()
        for way in self.scene.ways:
            self._walk(way)
        return True

    def _objective(self, order: tuple[Objective, ...]) -> cp_model.LinearExpr:
        runs = self.runs
        terms = {
            Objective.SEATS: runs.seats,
            Objective.TALL: -runs.low,
            Objective.WHOLE: -runs.notches,
            Objective.BUY: -runs.buy,
            Objective.POSTS: -runs.posts,
        }
        return sum(terms[o] * BASE ** (len(order) - 1 - i) for i, o in enumerate(order))

    def _stay_in(self) -> None:
        """What stands, and leg room, is within the hull of the room."""
        for foot in stands(self.structure, self.sizes):
            for bound in self.scene.planes:
                if foot.outside:
                    self._implies(self.runs.outside, self._literal(foot.block, bound))
                else:
                    self.model.add(self._corner(foot.block, bound[0]) >= bound[1])
        for strip in strips(self.structure, self.sizes):
            for u, least in self.scene.planes:
                self.model.add(self._corner(strip, u) >= least)

    def _stand_clear(self) -> None:
        """What stands is off all things, leg room off tall ones, and feet off low ones."""
        for foot in stands(self.structure, self.sizes):
            for thing in self.scene.hard:
                self._keep(foot.block, thing, self.runs.outside if foot.outside else None)
        for strip in strips(self.structure, self.sizes):
            for thing in self.scene.open:
                self._keep(strip, thing)
        for thing in self.scene.low:
            for foot in fixed_feet(self.structure, self.sizes):
                when = None
                if foot.outside is not None:
                    when = self.runs.outside if foot.outside else self.runs.outside.negated()
                self._keep(foot.block, thing, when)
            for line in lines(self.structure):
                for number, last, when in self.runs.feet(line):
                    self._keep(line.post(self.structure, self.sizes, number, last=last), thing, *when)

    def _implies(self, when: cp_model.IntVar, then: cp_model.IntVar) -> None:
        self.model.add_implication(when, then)

    def _against(self) -> None:
        """Back near the edge's line, half of it over the edge: overlap of two intervals, doubled."""
        project, edge, kind = self.ground.project, self.scene.view.edge, -self.ground.nudge
        assert edge is not None
        back = backing(self.structure, self.sizes)
        off, start, end = (self._sum(part) for part in (back.off, back.start, back.end))
        self.model.add(off <= floor(Fraction(project.wish.off_wall.units, project.mark.units) + kind))
        self.model.add(off >= ceil(-kind))
        length = Fraction(edge.length.units, project.mark.units)
        low, high = (-length, Fraction(0)) if self.structure.aligned == "right" else (Fraction(0), length)
        self.model.add(2 * end - (end - start) >= ceil(2 * (low - kind)))
        self.model.add(2 * start + (end - start) <= floor(2 * (high + kind)))
        self.model.add(end - start <= floor(2 * (length + kind)))

    def _walk(self, way: Way) -> None:
        """The layout is left or right of the route, like every obstacle; what differs leaves room between."""
        new, lane = self.model.new_bool_var, way.lane
        mine, colours = new("left"), [new("left") for _ in way.obstacles]
        for colour, left, right in zip(colours, lane.may_be_left, lane.may_be_right, strict=True):
            if not left:
                self.model.add_bool_or([colour.negated()])
            if not right:
                self.model.add_bool_or([colour])
        for i, j in lane.same:
            self.model.add(colours[i] == colours[j])
        differs = [new("differs") for _ in colours]
        for colour, differ in zip(colours, differs, strict=True):
            self.model.add_bool_or([differ, mine.negated(), colour])
            self.model.add_bool_or([differ, mine, colour.negated()])
        for foot in stands(self.structure, self.sizes):
            outside = self.runs.outside if foot.outside else None
            for thing in way.right:
                self._keep(foot.block, thing, mine, outside)
            for thing in way.left:
                self._keep(foot.block, thing, mine.negated(), outside)
            for differ, things in zip(differs, way.obstacles, strict=True):
                for thing in things:
                    self._keep(foot.block, thing, differ, outside)

    def _sum(self, at: Sum) -> cp_model.LinearExpr:
        return at.const + sum(times * self._size(name) for name, times in at.terms)

    def _size(self, name: str) -> cp_model.LinearExpr:
        return self.place[name] if name in self.place else self.runs.size(name)

    def _side(self, at: Sum) -> cp_model.IntVar:
        """A variable for a side of a block, so that what parts it along an axis is a bound of one variable."""
        if at not in self.sides:
            self.sides[at] = self.model.new_int_var(-FAR, FAR, "side")
            self.model.add(self.sides[at] == self._sum(at))
        return self.sides[at]

    def _corner(self, block: Block, u: Dir) -> cp_model.LinearExpr:
        """The least value of u·p over the block."""
        x, y = (block.x1 if u[0] < 0 else block.x0), (block.y1 if u[1] < 0 else block.y0)
        if not u[1]:
            return u[0] * self._side(x)
        return u[1] * self._side(y) if not u[0] else u[0] * self._side(x) + u[1] * self._side(y)

    def _keep(self, block: Block, thing: Thing, *when: cp_model.IntVar | None) -> None:
        """The block keeps the thing's distance, if all of `when` (as far as not None) holds."""
        watch = _Watch(block, thing, tuple(literal for literal in when if literal is not None), list(thing.cones))
        self.watches.append(watch)
        self._demand(watch, thing.ways)

    def _demand(self, watch: _Watch, ways: Iterable[Bound]) -> None:
        """One of the directions parts the block from the thing."""
        parting = [self._literal(watch.block, bound) for bound in ways]
        self.model.add_bool_or([*parting, *(literal.negated() for literal in watch.when)])

    def _literal(self, block: Block, bound: Bound) -> cp_model.IntVar:
        u, least = bound
        x = None if not u[0] else block.x1 if u[0] < 0 else block.x0
        y = None if not u[1] else block.y1 if u[1] < 0 else block.y0
        key = (bound, x, y)
        if key not in self.literals:
            literal = self.literals[key] = self.model.new_bool_var("parts")
            self.model.add(self._corner(block, u) >= least).only_enforce_if(literal)
        return self.literals[key]

    @staticmethod
    def _solver() -> cp_model.CpSolver:
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = 7
        # In OR-Tools 9.15 this part of presolve can lose the best answer where a constraint bounds the objective.
        solver.parameters.presolve_inclusion_work_limit = 0
        return solver

    def _solve(self) -> TwinAnswer | None:
        while True:
            solver = self._solver()
            status = solver.solve(self.model)
            if status == cp_model.INFEASIBLE:
                return None
            if status != cp_model.OPTIMAL:
                message = f"CP-SAT ended with {solver.status_name(status)}"
                raise RuntimeError(message)
            if not self._refuse(solver):
                runs = self.runs
                parts = (runs.seats, runs.notches, runs.buy, runs.posts, runs.low)
                values = (solver.value(part) for part in parts)
                return TwinAnswer("feasible", *values)

    def _refuse(self, solver: cp_model.CpSolver) -> bool:
        """Forbid the place just found if a distance is not really kept."""
        wrong = [watch for watch in self.watches if self._broken(watch, solver)]
        for watch in wrong:
            watch.cones = list(self._sharper(watch, solver))
            sure, kind = bounds(watch.cones, watch.thing.distance)
            self._demand(watch, (*watch.thing.behind, *sure, *kind))
        return bool(wrong)

    def _spot(self, watch: _Watch, cone: Cone, solver: cp_model.CpSolver) -> tuple[int, int]:
        high_x, high_y = cone.corner
        block = watch.block
        x, y = (block.x1 if high_x else block.x0), (block.y1 if high_y else block.y0)
        return self._found(x, solver), self._found(y, solver)

    def _found(self, at: Sum, solver: cp_model.CpSolver) -> int:
        return at.const + sum(times * solver.value(self._size(name)) for name, times in at.terms)

    def _broken(self, watch: _Watch, solver: cp_model.CpSolver) -> bool:
        if not all(solver.boolean_value(literal) for literal in watch.when):
            return False
        for u, least in watch.thing.ways[: watch.thing.sure]:
            block = watch.block
            x, y = (block.x1 if u[0] < 0 else block.x0), (block.y1 if u[1] < 0 else block.y0)
            if u[0] * self._found(x, solver) + u[1] * self._found(y, solver) >= least:
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
