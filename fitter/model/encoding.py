"""The layout question in z3: variables, definitions and the switches of the requirements."""

from __future__ import annotations

from collections.abc import Iterable
from copy import copy
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import ceil, floor

import z3

from fitter.domain.project import Project
from fitter.domain.requirements import requirements
from fitter.domain.wishes import CornerKind, EndKind, Objective, Shape
from fitter.model.arrangement import Choice
from fitter.model.frames import Frame, around
from fitter.model.separation import Atom, Marks, Rect
from fitter.model.sizes import OptionSize, Sizes

CORNERS = tuple(CornerKind)


@dataclass(frozen=True)
class Corners:
    """A rectangle as four terms, and the condition under which it stands."""

    x0: z3.ArithRef
    y0: z3.ArithRef
    x1: z3.ArithRef
    y1: z3.ArithRef
    when: z3.BoolRef | None

    def atom(self, atom: Atom) -> z3.BoolRef:
        """An atom of `separation` as a term over this rectangle."""
        x = self.x0 if atom.a > 0 else self.x1
        y = self.y0 if atom.b > 0 else self.y1
        if not atom.b and atom.a in (1, -1):
            return x >= atom.least if atom.a > 0 else x <= -atom.least
        if not atom.a and atom.b in (1, -1):
            return y >= atom.least if atom.b > 0 else y <= -atom.least
        return atom.a * x + atom.b * y >= atom.least


class Encoding:
    """Variables of one layout question, counting shop marks, modules or seats.

    All are reals: linear arithmetic over reals is much faster. Counts are pinned to whole numbers by one Boolean
    per step, sizes follow from them, and places are rounded to the mark by the search, which branches where
    rounding fails.

    Args:
        project: the question.
        sizes: its sizes in marks.
    """

    frame: Frame

    def __init__(self, project: Project, sizes: Sizes) -> None:
        self.project, self.sizes = project, sizes
        self.most = most_modules(project, sizes)
        self.solver = _solver()
        self.switches = {fact.id: z3.Bool(f"fact {fact.id}") for fact in requirements(project)}
        self.straight, self.low, self.high = z3.Bools("straight low high")
        self.option = [z3.Bool(f"option {n}") for n in range(len(sizes.options))]
        self.corner = {kind: z3.Bool(kind.value) for kind in CORNERS}
        self.armed = (z3.Bool("armed a"), z3.Bool("armed b"))
        self.terms = {
            name: z3.Real(name)
            for name in ("x", "y", "main", "side", "length", "reach", "deck", "place", "a", "b", "seats")
        }
        self.notched = z3.Real("notched")
        self.lines = [z3.Real(f"posts {name}") for name in ("main front", "main back", "side front", "side back")]
        self.posts, self.lengths, self.off = z3.Reals("posts lengths off")
        self.rects, self.legs = self._rectangles()
        self._define()
        self._wish()

    def within(self, frame: Frame) -> Encoding:
        """The same question in a layout frame, with a solver of its own; the terms are shared."""
        framed = copy(self)
        framed.frame, framed.solver = frame, _solver()
        framed.solver.add(self.solver.assertions())
        framed._define_frame()
        return framed

    def add(self, *terms: z3.BoolRef) -> None:
        """Assert terms for good."""
        self.solver.add(*terms)

    def whole(self, term: z3.ArithRef, value: Marks) -> bool:
        """Learn that a place is a whole mark, where it was seen between two; False if it stood on one."""
        low, high = floor(value), ceil(value)
        if low < high:
            self.add(z3.Or(term <= low, term >= high))
        return low < high

    @property
    def objectives(self) -> dict[Objective, tuple[z3.ArithRef, int]]:
        """The term of each objective and its direction: 1 to make it great, -1 to make it small."""
        return {
            Objective.SEATS: (self.terms["seats"], 1),
            Objective.WHOLE: (self.notched, -1),
            Objective.POSTS: (self.posts, -1),
            Objective.LENGTHS: (self.lengths, -1),
            Objective.CLOSE: (self.off, -1),
        }

    def _rectangles(self) -> tuple[tuple[Corners, ...], tuple[Corners, ...]]:
        """Footprint and leg room as named terms, so that clauses over them are bounds."""
        s, v = self.sizes, self.terms
        x0, y0, x1, y1 = z3.Reals("foot_x0 foot_y0 foot_x1 foot_y1")
        s0, s1, sy = z3.Reals("side_x0 side_x1 side_y1")
        p0, p1 = z3.Reals("post_x0 post_x1")
        front, leg_y = z3.Reals("front leg_y")
        m0, m1, l0, l1 = z3.Reals("leg_x0 leg_x1 leg_s0 leg_s1")
        self.named = {"x0": x0, "x1": x1, "s0": s0, "s1": s1, "p0": p0, "p1": p1}
        self.named |= {"m0": m0, "m1": m1, "l0": l0, "l1": l1}
        side = z3.Not(self.straight)
        y = v["y"]
        # far = y of the side run's last module line
        far, post_y = z3.Reals("far post_y")
        self.add(y0 == y - s.back, y1 == y + v["deck"], front == y1, leg_y == y1 + s.legroom)
        self.add(far == y1 + v["reach"], post_y == y - s.post)
        self.add(z3.Implies(side, sy == far + v["a"]))
        foot = (
            Corners(x0, y0, x1, y1, None),
            Corners(s0, y0, s1, sy, side),
            Corners(p0, post_y, p1, y, self.corner[CornerKind.OUTSIDE_POST]),
        )
        legs = (Corners(m0, front, m1, leg_y, None), Corners(l0, front, l1, far, side))
        return foot, legs

    def _define(self) -> None:
        s, v, r = self.sizes, self.terms, self.named
        self.add(_one([self.straight, self.low, self.high]), _one(self.option))
        self.add(v["side"] <= v["main"])
        self._count(v["main"], 1)
        self._count(v["side"], 0)
        for chosen, size in zip(self.option, s.options, strict=True):
            self._define_option(chosen, size)
        for end, name in zip(self.armed, "ab", strict=True):
            armed, plain = s.ends[EndKind.ARMED], s.ends[EndKind.OPEN]
            self.add(v[name] == z3.If(end, armed, plain))
        self._define_shape()
        x, end = v["x"], v["x"] + v["place"] + v["length"]
        straight, low, high = self.straight, self.low, self.high
        self.add(_if(straight, r["x0"] == x - v["a"], r["x1"] == end + v["b"], r["m0"] == x, r["m1"] == end))
        self.add(_if(low, r["x0"] == x - s.back, r["x1"] == end + v["b"]))
        self.add(_if(low, r["m0"] == x + v["place"], r["m1"] == end))
        self.add(_if(low, r["s0"] == x - s.back, r["s1"] == x + v["place"]))
        self.add(_if(low, r["p0"] == x - s.post, r["p1"] == x))
        self.add(_if(low, r["l0"] == r["s1"], r["l1"] == r["s1"] + s.legroom))
        self.add(_if(high, r["x0"] == x - v["b"], r["x1"] == end + s.back))
        self.add(_if(high, r["m0"] == x, r["m1"] == x + v["length"]))
        self.add(_if(high, r["s0"] == end - v["place"], r["s1"] == end + s.back))
        self.add(_if(high, r["p0"] == end, r["p1"] == end + s.post))
        self.add(_if(high, r["l0"] == r["s0"] - s.legroom, r["l1"] == r["s0"]))
        self._define_posts()

    def _count(self, term: z3.ArithRef, least: int) -> None:
        """Pin a count to whole numbers: step k says whether it is at least k."""
        self.add(term >= least, term <= self.most)
        steps = [z3.Bool(f"{term} >= {k}") for k in range(least + 1, self.most + 1)]
        for k, step in enumerate(steps, start=least + 1):
            self.add(z3.Implies(step, term >= k), z3.Or(step, term <= k - 1))
        for low, high in pairwise(steps):
            self.add(z3.Implies(high, low))

    def _define_option(self, chosen: z3.BoolRef, size: OptionSize) -> None:
        v = self.terms
        table = self.corner[CornerKind.TABLE_CORNER]
        inside, outside = self.corner[CornerKind.INSIDE_POST], self.corner[CornerKind.OUTSIDE_POST]
        cushions = v["main"] + v["side"]
        corner = z3.If(z3.Or(inside, outside), 1, 0)
        self.add(_if(chosen, v["length"] == size.pitch * v["main"], v["reach"] == size.pitch * v["side"]))
        self.add(_if(chosen, v["deck"] == size.deck, v["seats"] == size.seats * (cushions + corner)))
        if not size.fits_corner:
            self.add(z3.Implies(chosen, z3.Or(self.straight, table)))
        if not size.turns:
            self.add(z3.Implies(chosen, self.straight))
        if size.notch and not size.option.cushion.may_notch:
            self.add(z3.Not(z3.And(chosen, inside)))
        if size.notch:
            self.add(z3.Implies(z3.And(chosen, inside), self.notched == 1))
        else:
            self.add(z3.Implies(chosen, self.notched == 0))
        stock = size.option.cushion.stock
        if stock is not None:
            switch = self.switches[f"stock:{size.option.cushion.name}"]
            self.add(z3.Implies(z3.And(switch, chosen), cushions + corner <= stock))

    def _define_shape(self) -> None:
        v = self.terms
        self.add(z3.PbEq([(b, 1) for b in (self.straight, *self.corner.values())], 1))
        self.add(_if(self.straight, v["side"] == 0, v["place"] == 0, self.notched == 0))
        self.add(_if(z3.Not(self.straight), v["side"] >= 1, v["place"] == v["deck"]))
        self.add(z3.Implies(z3.Not(self.corner[CornerKind.INSIDE_POST]), self.notched == 0))

    def _define_frame(self) -> None:
        """What holds of the frame itself: how far off the edge, and half of the back over it."""
        x = self.terms["x"]
        end = x + self.terms["place"] + self.terms["length"]
        frame, against = self.frame, self.switches.get("against")
        self.add(self.off == self.terms["y"] - self.sizes.back - frame.low)
        if frame.reach is not None and against is not None:
            limit = self.project.wish.off_wall.floor_to(self.project.mark) // self.project.mark
            over = (end + x >= 0, end + x <= frame.reach, end - x <= frame.reach)
            self.add(_if(against, self.off >= 0, self.off <= limit, *over))

    def _define_posts(self) -> None:
        """Posts of each rail line from below: n posts leave n + 1 spans; exact counts are learned."""
        s, v = self.sizes, self.terms
        clear = (v["length"], v["length"], v["reach"], v["reach"])
        for count, length in zip(self.lines, clear, strict=True):
            self.add(count >= 0, count * (s.span + s.post) >= length - s.span)
        extra = z3.If(self.straight, 0, 2)
        self.add(self.posts == z3.Sum(self.lines) + extra, self.lengths >= 1)

    def _wish(self) -> None:
        wish, on = self.project.wish, self.switches
        self.add(z3.Implies(on["least"], self.terms["seats"] >= wish.least))
        if wish.most is not None:
            self.add(z3.Implies(on["most"], self.terms["seats"] <= wish.most))
        if wish.shape is not None:
            wanted = self.straight if wish.shape is Shape.STRAIGHT else z3.Not(self.straight)
            self.add(z3.Implies(on["shape"], wanted))
        if wish.ends is not None:
            same = [end if wish.ends is EndKind.ARMED else z3.Not(end) for end in self.armed]
            self.add(z3.Implies(on["ends"], z3.And(*same)))
        if wish.corner is not None:
            self.add(z3.Implies(on["corner"], z3.Or(self.straight, self.corner[wish.corner])))

    def choice(self, model: z3.ModelRef) -> Choice:
        """The choices of a model."""

        def true(term: z3.BoolRef) -> bool:
            return bool(z3.is_true(model.eval(term, model_completion=True)))

        straight = true(self.straight)
        ends = [EndKind.ARMED if true(end) else EndKind.OPEN for end in self.armed]
        return Choice(
            shape=Shape.STRAIGHT if straight else Shape.L,
            high=true(self.high),
            option=next(n for n, term in enumerate(self.option) if true(term)),
            corner=None if straight else next(kind for kind, term in self.corner.items() if true(term)),
            end_a=ends[0],
            end_b=ends[1],
            main=int(self.value(model, self.terms["main"])),
            side=int(self.value(model, self.terms["side"])),
            x=self.value(model, self.terms["x"]),
            y=self.value(model, self.terms["y"]),
        )

    def value(self, model: z3.ModelRef, term: z3.ArithRef) -> Fraction:
        """A term's value in a model."""
        number = model.eval(term, model_completion=True)
        return Fraction(number.numerator_as_long(), number.denominator_as_long())

    def rect(self, model: z3.ModelRef, corners: Corners) -> Rect:
        """A rectangle's value in a model."""
        return Rect(*(self.value(model, term) for term in (corners.x0, corners.y0, corners.x1, corners.y1)))


def _solver() -> z3.Solver:
    solver = z3.SimpleSolver()
    # The plain simplex was the fastest of z3's arithmetic cores on skew rooms.
    solver.set("arith.solver", 2)
    return solver


def _one(terms: Iterable[z3.BoolRef]) -> z3.BoolRef:
    return z3.PbEq([(term, 1) for term in terms], 1)


def _if(condition: z3.BoolRef, *terms: z3.BoolRef) -> z3.BoolRef:
    return z3.Implies(condition, z3.And(*terms))


def most_modules(project: Project, sizes: Sizes) -> int:
    """More modules than any run of the room can hold: its bounding box is not that long."""
    return max(1, around(project.room) // (min(size.pitch for size in sizes.options) * sizes.mark.units))
