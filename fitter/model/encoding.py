"""The layout question in z3: variables, definitions and the switches of the requirements."""

from __future__ import annotations

from copy import copy
from dataclasses import replace
from fractions import Fraction
from itertools import product
from math import ceil, floor, isqrt

import z3

from fitter.domain.layout import Face, Side
from fitter.domain.project import Project
from fitter.domain.requirements import requirements
from fitter.domain.wishes import CornerKind, EndKind, Objective, Shape
from fitter.model.arrangement import ARMS, Choice, Place, Row
from fitter.model.bays import fewest
from fitter.model.frames import Frame, Mount
from fitter.model.quick import at_least, either, never, number
from fitter.model.separation import Marks
from fitter.model.sizes import OptionSize, Sizes
from fitter.model.terms import Corners, Count, given, one, true, value
from rooms.lengths import round_half_up

CORNERS = tuple(CornerKind)


class RowTerms:
    """A run's variables: which option it takes, how many modules, and the sizes that follow.

    Args:
        side: which run.
        there: whether it is there; None for the main run, which always is.
        sizes: in marks.
        most: modules at most.
        spread: how far cushions lie off the backs beyond the overhang.
    """

    def __init__(self, side: Side, there: z3.BoolRef | None, sizes: Sizes, most: int, spread: z3.ArithRef) -> None:
        self.option = [z3.Bool(f"{side} option {n}") for n in range(len(sizes.options))]
        self.count = Count(f"{side} modules", most)
        self.length, self.deck, self.seats = z3.Reals(f"{side}_length {side}_deck {side}_seats")
        choices = list(self.option)
        self.definition = list(self.count.definition)
        if there is not None:
            absent = z3.Not(there)
            choices.append(absent)
            nothing = (self.count.term, self.length, self.deck, self.seats)
            self.definition += [given(absent, *(term == 0 for term in nothing)), given(there, self.count.steps[0])]
        else:
            self.definition.append(self.count.steps[0])
        self.definition += [one(choices), *self._bounds(sizes)]
        for chosen, size in zip(self.option, sizes.options, strict=True):
            depth = size.deck + sizes.overhang
            place = spread + depth if sizes.widest_spread else number(depth)
            self.definition.append(either((never(chosen), self.deck == place)))
            self.definition += self.count.times(size.pitch, self.length, chosen)
            self.definition += self.count.times(size.seats, self.seats, chosen)

    def _bounds(self, sizes: Sizes) -> list[z3.BoolRef]:
        """What holds whichever option is taken."""
        short, shallow = (min(getattr(size, name) for size in sizes.options) for name in ("pitch", "deck"))
        return [
            z3.Implies(self.count.steps[0], self.deck >= shallow + sizes.overhang),
            *(
                either((never(step), at_least(self.length, k * short)))
                for k, step in enumerate(self.count.steps, start=1)
            ),
        ]

    def choice(self, model: z3.ModelRef) -> Row:
        """The run in a model where it is there."""
        option = next(n for n, term in enumerate(self.option) if true(model, term))
        return Row(option, int(value(model, self.count.term)))

    def exactly(self, row: Row) -> z3.BoolRef:
        """That the run is this one."""
        return z3.And(self.option[row.option], self.count.exactly(row.count))


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
    solver: z3.Solver

    def __init__(self, project: Project, sizes: Sizes) -> None:
        self.project, self.sizes = project, sizes
        self.most = most_modules(project, sizes)
        self.definition: list[z3.BoolRef] = []
        self.switches = {fact.id: z3.Bool(f"fact {fact.id}") for fact in requirements(project)}
        self.there = {arm: z3.Bool(f"{arm} arm") for arm in ARMS}
        self.corner = {kind: z3.Bool(kind.value) for kind in CORNERS}
        self.armed = {hand: z3.Bool(f"{hand} end armed") for hand in ARMS}
        self.spread = z3.Real("spread off")
        self.rows = {
            side: RowTerms(side, self.there.get(side), sizes, self.most, self.spread) for side in (Side.MAIN, *ARMS)
        }
        for row in self.rows.values():
            self.definition += row.definition
        self.cushion = {arm: [z3.Bool(f"{arm} corner {n}") for n in range(len(sizes.options))] for arm in ARMS}
        self.owned = {arm: z3.Bool(f"main owns {arm} corner") for arm in ARMS}
        self.x, self.y, self.width = z3.Reals("x y width")
        self.seats, self.notched, self.bought, self.short = z3.Reals("seats notched bought short")
        self.money, self.boards = z3.Reals("money boards")
        self.lines = {
            (side, face): z3.Real(f"posts {side} {face}") for side in self.rows for face in ("front", "back")
        }  # fmt: skip
        self.posts, self.lengths, self.off = z3.Reals("posts lengths off")
        self._define_corners()
        if sizes.carried is not None:
            self._define_carried(sizes.carried)
        self._define_totals()
        self._define_posts()
        self.feet, self.legs, self.standing = self._rectangles()
        self._wish()
        # One term, so that every frame takes it over in one call.
        self.question = z3.And(*self.definition)

    def again(self, project: Project, sizes: Sizes) -> Encoding | None:
        """The question of another project in the same terms; None where more than the room differs.

        Args:
            project: whose room may differ, and how far off an edge a run may stand.
            sizes: its sizes in marks.
        """
        old, wish = self.project, replace(project.wish, off_wall=self.project.wish.off_wall)
        same = (wish, project.cushions, project.frame, sizes) == (old.wish, old.cushions, old.frame, self.sizes)
        if not same or most_modules(project, sizes) > self.most:
            return None
        other = copy(self)
        other.project, other.switches = project, {fact.id: z3.Bool(f"fact {fact.id}") for fact in requirements(project)}
        return other

    def within(self, frame: Frame) -> Encoding:
        """The same question in a layout frame, with a solver of its own; the terms are shared."""
        framed = copy(self)
        framed.frame, framed.solver = frame, _solver()
        framed.solver.add(self.question)
        framed._define_frame()
        return framed

    def _define(self, *terms: z3.BoolRef) -> None:
        self.definition += terms

    def add(self, *terms: z3.BoolRef) -> None:
        """Assert terms for good, in this frame."""
        self.solver.add(*terms)

    def whole(self, term: z3.ArithRef, at: Marks) -> bool:
        """Learn that a place is a whole mark, where it was seen between two; False if it stood on one."""
        low, high = floor(at), ceil(at)
        if low < high:
            self.add(z3.Or(term <= low, term >= high))
        return low < high

    @property
    def straight(self) -> z3.BoolRef:
        """That there is no arm."""
        return z3.Not(z3.Or(*self.there.values()))

    @property
    def both(self) -> z3.BoolRef:
        """That there are two arms."""
        return z3.And(*self.there.values())

    @property
    def objectives(self) -> dict[Objective, tuple[z3.ArithRef, int]]:
        """The term of each objective and its direction: 1 to make it great, -1 to make it small."""
        return {
            Objective.SEATS: (self.seats, 1),
            Objective.TALL: (self.short, -1),
            Objective.WHOLE: (self.notched, -1),
            Objective.MONEY: (self.money, -1),
            Objective.BUY: (self.bought, -1),
            Objective.POSTS: (self.posts, -1),
            Objective.LENGTHS: (self.lengths, -1),
            Objective.CLOSE: (self.off, -1),
        }

    def _define_corners(self) -> None:
        """Which corner places there are, what fills them and who owns them."""
        s, main, on = self.sizes, self.rows[Side.MAIN], self.switches
        self._define(one([self.straight, *self.corner.values()]))
        table = self.corner[CornerKind.TABLE_CORNER]
        for arm, there in self.there.items():
            row, cushions = self.rows[arm], self.cushion[arm]
            self._define(one([z3.Or(z3.Not(there), table), *cushions]))
            for chosen, size in zip(cushions, s.options, strict=True):
                self._fit(chosen, size, row)
                self._define(*(z3.Not(z3.And(chosen, self.corner[kind])) for kind in CORNERS if size.spoils(kind)))
            self._define(z3.Implies(self.owned[arm], main.length >= row.length))
            self._define(z3.Or(self.owned[arm], z3.Not(there), row.length >= main.length))
            for n, size in enumerate(s.options):
                main_there = z3.And(there, main.option[n])
                if size.deck <= s.turn:
                    self._deeper(row.option[n], size, s.turn + 1)
                    self._deeper(main_there, size, s.turn + 1)
                for case in (z3.And(main_there, self.owned[arm]), z3.And(z3.Not(self.owned[arm]), row.option[n])):
                    self._no_deeper(z3.And(on["span"], case), size.deck, s.longest_crossed)
        self._define_spread()
        if "backs" in on:
            low = [self.corner[kind] for kind in CORNERS if not kind.tall]
            self._define(z3.Implies(on["backs"], z3.Not(z3.Or(*low))))
        self._define(z3.Implies(z3.And(self.there[Side.RIGHT], z3.Not(self.there[Side.LEFT])), self.owned[Side.RIGHT]))
        self._define(z3.Implies(z3.And(self.there[Side.LEFT], z3.Not(self.there[Side.RIGHT])), self.owned[Side.LEFT]))

    def _define_spread(self) -> None:
        """A spread moves all cushions off the backs, until the one that a post would cut deepest is whole."""
        spread, found = self.corner[CornerKind.SPREAD], []
        for arm in ARMS:
            for chosen, size in zip(self.cushion[arm], self.sizes.options, strict=True):
                if size.notch:
                    self._define(z3.Or(z3.Not(spread), z3.Not(chosen), self.spread >= size.notch))
                found.append(z3.And(chosen, self.spread <= size.notch))
        self._define(self.spread >= 0, z3.Or(spread, self.spread <= 0), z3.Or(z3.Not(spread), *found))

    def _deeper(self, case: z3.BoolRef, size: OptionSize, wood: int) -> None:
        """That a run's wood is at least so deep in a case in which it takes an option; a spread makes it deeper."""
        least = z3.BoolVal(False) if size.deck + self.sizes.widest_spread < wood else self.spread >= wood - size.deck
        self._define(z3.Or(z3.Not(case), least))

    def _no_deeper(self, case: z3.BoolRef, deck: int, limit: int) -> None:
        """That in a case a depth, to which a spread adds, keeps a limit."""
        if deck > limit:
            self._define(z3.Not(case))
        elif deck + self.sizes.widest_spread > limit:
            self._define(z3.Or(z3.Not(case), self.spread <= limit - deck))

    def _fit(self, chosen: z3.BoolRef, size: OptionSize, row: RowTerms) -> None:
        """A corner cushion is no wider than the arm's deck is deep, and no deeper than the main one."""
        for n, other in enumerate(self.sizes.options):
            if size.pitch > other.deck:
                self._define(z3.Not(z3.And(chosen, row.option[n])))
            if size.deck > other.deck:
                self._define(z3.Not(z3.And(chosen, self.rows[Side.MAIN].option[n])))

    def _define_carried(self, longest: int) -> None:
        """That every run could be carried were it split at every line; how often it has to be is learned."""
        s, main = self.sizes, self.rows[Side.MAIN]
        outside = self.corner[CornerKind.OUTSIDE_POST]
        for n, size in enumerate(s.options):
            for hand, there in self.there.items():
                runs = [(there, self.rows[hand].option[n]), (z3.Not(there), main.option[n])]
                for kind, thick in s.ends.items():
                    if size.pitch + thick > longest:
                        self._never_carried(*(z3.And(*run, self._ends_so(hand, kind)) for run in runs))
                for post, stands in ((True, outside), (False, z3.Not(outside))):
                    place = z3.If(self.owned[hand], self.rows[hand].option[n], main.option[n])
                    case = z3.And(self.switches["carry"], there, stands, place)
                    self._no_deeper(case, size.deck + s.overhang + s.beyond(outside=post), longest)
            if size.pitch > longest:
                self._never_carried(z3.And(self.both, main.option[n]))
            for low, high in product(EndKind, EndKind):
                if s.ends[low] + size.pitch + s.ends[high] > longest:
                    ends = [self._ends_so(hand, kind) for hand, kind in zip(ARMS, (low, high), strict=True)]
                    self._never_carried(z3.And(self.straight, main.option[n], main.count.exactly(1), *ends))

    def _never_carried(self, *cases: z3.BoolRef) -> None:
        """That cases are ruled out by the longest piece that can be carried."""
        self._define(*(z3.Implies(self.switches["carry"], z3.Not(case)) for case in cases))

    def _ends_so(self, hand: Side, kind: EndKind) -> z3.BoolRef:
        """That the end at a hand is of a kind."""
        return self.armed[hand] if kind is EndKind.ARMED else z3.Not(self.armed[hand])

    def _define_totals(self) -> None:
        """Seats, corners without a tall post, notched cushions, and cushions of each kind used and to be bought."""
        s = self.sizes
        in_corners = [(term, size) for arm in ARMS for term, size in zip(self.cushion[arm], s.options, strict=True)]
        corner_seats = z3.Sum([z3.If(term, size.seats, 0) for term, size in in_corners])
        self._define(self.seats == z3.Sum([row.seats for row in self.rows.values()]) + corner_seats)
        low = z3.Or(*(self.corner[kind] for kind in CORNERS if not kind.tall))
        self._define(self.short == z3.Sum([z3.If(z3.And(low, there), 1, 0) for there in self.there.values()]))
        cut = [
            z3.If(z3.And(self.corner[kind], term), 1, 0)
            for term, size in in_corners
            for kind in CORNERS
            if size.cut(kind)
        ]
        self._define(self.notched == z3.Sum([z3.RealVal(0), *cut]))
        bought = []
        for n, kind in enumerate(self.project.cushions):
            used = z3.Real(f"used {n}")
            in_rows = [self._used(side, n) for side in self.rows]
            self._define(
                used == z3.Sum([*in_rows, *(z3.If(term, 1, 0) for term, size in in_corners if size.kind == n)])
            )
            if kind.stock is not None:
                self._define(z3.Implies(self.switches[f"stock:{kind.name}"], used <= kind.stock))
            more = z3.Real(f"bought {n}")
            own = kind.own or 0
            self._define(more >= 0, more >= used - own, z3.Or(more == 0, more == used - own))
            bought.append(more)
        self._define(self.bought == z3.Sum(bought))
        paid = [
            cents(kind.price) * more for kind, more in zip(self.project.cushions, bought, strict=True) if kind.price
        ]
        self._define(self.boards >= 0, self.money == z3.Sum([self.boards, *paid]))

    def _used(self, side: Side, kind: int) -> z3.ArithRef:
        """How many cushions of a kind a run takes."""
        row, used = self.rows[side], z3.Real(f"{side} uses {kind}")
        for chosen, size in zip(row.option, self.sizes.options, strict=True):
            self._define(*row.count.times(1 if size.kind == kind else 0, used, chosen))
        if side is not Side.MAIN:
            self._define(z3.Implies(z3.Not(self.there[side]), used == 0))
        return used

    def _define_posts(self) -> None:
        """Posts of each rail line from below: n posts leave n + 1 spans; more is learned."""
        s = self.sizes
        for (side, _), posts in self.lines.items():
            row = self.rows[side]
            self._define(posts >= 0)
            for chosen, size in zip(row.option, s.options, strict=True):
                least = [self._least_posts(k * size.pitch) for k in range(self.most + 1)]
                for step, before, more in zip(row.count.steps, least[:-1], least[1:], strict=True):
                    if more > before:
                        self._define(either((never(chosen), never(step), at_least(posts, more))))
        corners = z3.Sum([z3.If(there, 2, 0) for there in self.there.values()])
        self._define(self.posts == z3.Sum(list(self.lines.values())) + corners, self.lengths >= 1)

    def _least_posts(self, length: int) -> int:
        """No fewer posts than this carry a rail line: two at each split, which have no span between them."""
        s = self.sizes
        splits = 0 if s.carried is None else max(0, -(-length // s.carried) - 1)
        return max(2 * splits, fewest(length + splits * s.span, s.post, s.span))

    def _rectangles(self) -> tuple[dict[str, Corners], dict[str, Corners], dict[str, Corners]]:
        """Footprint, leg room, and what stands on the floor, as named terms, so that clauses over them are bounds."""
        s, x, y, main = self.sizes, self.x, self.y, self.rows[Side.MAIN]
        right, left = (self.rows[arm].deck for arm in ARMS)
        far = z3.Real("far")
        self._define(self.width == right + main.length + left, far == x + self.width)
        front, low, post = z3.Reals("front low post")
        self._define(front == y + main.deck, low == y - s.back, post == y - s.post)
        gap = {hand: self._gap(hand) for hand in ARMS}
        x0, x1, m0, m1, knees = z3.Reals("foot_x0 foot_x1 leg_x0 leg_x1 leg_y1")
        self._define(x0 == x - gap[Side.RIGHT], x1 == far + gap[Side.LEFT])
        self._define(m0 == x + right, m1 == m0 + main.length, knees == front + s.legroom)
        feet, legs = {"main": Corners(x0, low, x1, front)}, {"main": Corners(m0, front, m1, knees)}
        self.base = {
            (Side.MAIN, Face.FRONT): (m0, front),
            (Side.MAIN, Face.BACK): (m0, y),
            (Side.RIGHT, Face.FRONT): (m0, front),
            (Side.RIGHT, Face.BACK): (x, front),
            (Side.LEFT, Face.FRONT): (m1, front),
            (Side.LEFT, Face.BACK): (far, front),
        }
        standing: dict[str, Corners] = {}
        p, over = s.post, s.overhang
        # The outer face and the front of each arm, and the far side of its leg room and its corner post.
        lines = {
            Side.RIGHT: (x - s.back, m0, m0 + s.legroom, x - s.post, x),
            Side.LEFT: (far + s.back, m1, m1 - s.legroom, far + s.post, far),
        }
        for arm, places in lines.items():
            names = ("outer", "inner", "knees", "peg", "edge")
            outer, inner, leg, peg, edge = (z3.Real(f"{arm}_{name}") for name in names)
            self._define(*(term == at for term, at in zip((outer, inner, leg, peg, edge), places, strict=True)))
            high, end, there = z3.Real(f"{arm}_high"), z3.Real(f"{arm}_end"), self.there[arm]
            self._define(high == front + self.rows[arm].length, end == high + self._end(arm))
            outside = self.corner[CornerKind.OUTSIDE_POST]
            posts, within, lone = z3.And(there, outside), z3.And(there, z3.Not(outside)), z3.Not(there)
            if arm is Side.RIGHT:
                standing |= {
                    "right end": Corners(x0, low, x, front, lone),
                    "right arm end": Corners(outer, high, inner, end, there),
                    "right inner": Corners(m0 - over - p, front - over - p, m0 - over, front - over, there),
                    "right corner": Corners(x, y, x + p, y + p, within),
                    "right outer": Corners(peg, post, edge, y, posts),
                }
                feet[arm], legs[arm] = Corners(outer, low, inner, end, there), Corners(inner, front, leg, high, there)
                feet[f"{arm} post"] = Corners(peg, post, edge, y, posts)
            else:
                standing |= {
                    "left end": Corners(far, low, x1, front, lone),
                    "left arm end": Corners(inner, high, outer, end, there),
                    "left inner": Corners(m1 + over, front - over - p, m1 + over + p, front - over, there),
                    "left corner": Corners(far - p, y, far, y + p, within),
                    "left outer": Corners(edge, post, peg, y, posts),
                }
                feet[arm], legs[arm] = Corners(inner, low, outer, end, there), Corners(leg, front, inner, high, there)
                feet[f"{arm} post"] = Corners(edge, post, peg, y, posts)
        return feet, legs, standing

    def _end(self, hand: Side) -> z3.ArithRef:
        """Thickness of the end at a hand."""
        armed, plain = self.sizes.ends[EndKind.ARMED], self.sizes.ends[EndKind.OPEN]
        return z3.If(self.armed[hand], z3.RealVal(armed), z3.RealVal(plain))

    def _gap(self, hand: Side) -> z3.ArithRef:
        """What stands beyond the main run's deck and corner places at a hand: an arm's back, or an end."""
        return z3.If(self.there[hand], z3.RealVal(self.sizes.back), self._end(hand))

    def _define_frame(self) -> None:
        """What holds of each mount of the frame: the longest run, how far off the edge, and half of the run over it."""
        self.add(one(mounted(mount.number) for mount in self.frame.mounts))
        for mount in self.frame.mounts:
            aligned, on = mount.pose.aligned, mounted(mount.number)
            far = {
                Side.MAIN: self.y - (mount.dy + mount.low),
                Side.RIGHT: self.x - mount.dx,
                Side.LEFT: mount.dx - (self.x + self.width),
            }
            self.add(z3.Implies(on, self.off == far[aligned] - self.sizes.back))
            self.add(z3.Implies(on, z3.And(self._longest(mount))))
            if mount.reach is not None and "against" in self.switches:
                self.add(given(z3.And(on, self.switches["against"]), *self._along(mount, mount.reach)))

    def _along(self, mount: Mount, reach: int) -> list[z3.BoolRef]:
        """That the aligned run lies near its edge, half of it over the edge."""
        limit = self.project.wish.off_wall.floor_to(self.project.mark) // self.project.mark
        aligned, start, size = mount.pose.aligned, self.x - mount.dx, self.width
        if aligned is not Side.MAIN:
            start, size = self.y - mount.dy, self.rows[Side.MAIN].deck + self.rows[aligned].length
        twice = 2 * start + size  # twice the middle, which must lie over the edge
        low, high = (-reach, 0) if aligned is Side.RIGHT else (0, reach)
        return [self.off >= 0, self.off <= limit, twice >= low, twice <= high, size <= reach]

    def _longest(self, mount: Mount) -> list[z3.BoolRef]:
        """In an L the main run is the longest; in a U that has to lie along an edge, the aligned run is."""
        rows, main, aligned = self.rows, self.rows[Side.MAIN], mount.pose.aligned
        # At equal lengths the aligned run owns the corner, else the main run.
        ties = [
            z3.Implies(z3.Not(self.owned[arm]), rows[arm].length >= main.length + 1)
            for arm in ARMS
            if arm is not aligned
        ]
        if aligned is not Side.MAIN:
            longest = [rows[aligned].length >= row.length for side, row in rows.items() if side is not aligned]
            return [self.both, z3.Not(self.owned[aligned]), *longest, *ties]
        longest = [main.length >= rows[arm].length for arm in ARMS]
        if mount.reach is not None:
            return [*longest, *ties]
        return [*(z3.Or(self.both, way) for way in longest), *ties]

    def _wish(self) -> None:
        wish, on = self.project.wish, self.switches
        self._define(z3.Implies(on["least"], self.seats >= wish.least))
        if wish.most is not None:
            self._define(z3.Implies(on["most"], self.seats <= wish.most))
        if wish.buy_most is not None:
            self._define(z3.Implies(on["buy"], self.bought <= wish.buy_most))
        arms = z3.Sum([z3.If(there, 1, 0) for there in self.there.values()])
        if wish.shape is not None:
            self._define(z3.Implies(on["shape"], arms == tuple(Shape).index(wish.shape)))
        if wish.hand is not None:
            other = next(arm for arm in ARMS if arm is not wish.hand)
            self._define(z3.Implies(on["hand"], z3.Or(z3.Not(self.there[other]), self.both)))
        for hand in ARMS:
            kind = wish.end(hand)
            if kind is not None:
                switch = on.get("ends", on.get(f"end:{hand}"))
                armed = self.armed[hand]
                self._define(z3.Implies(switch, armed if kind is EndKind.ARMED else z3.Not(armed)))
        if wish.corner is not None:
            self._define(z3.Implies(on["corner"], z3.Or(self.straight, self.corner[wish.corner])))
        if self.sizes.legroom:
            between = self.rows[Side.MAIN].length >= self.sizes.legroom
            self._define(z3.Implies(z3.And(on["legroom"], self.both), between))

    def choice(self, model: z3.ModelRef) -> Choice:
        """The choices of a model."""
        rows = {
            side: row.choice(model)
            for side, row in self.rows.items()
            if side is Side.MAIN or true(model, self.there[side])
        }
        corners = {arm: [n for n, term in enumerate(self.cushion[arm]) if true(model, term)] for arm in ARMS}
        ends = {hand: EndKind.ARMED if true(model, term) else EndKind.OPEN for hand, term in self.armed.items()}
        mount = next(mount for mount in self.frame.mounts if true(model, mounted(mount.number)))
        return Choice(
            mount=mount.number,
            aligned=mount.pose.aligned,
            main=rows[Side.MAIN],
            right=rows.get(Side.RIGHT),
            left=rows.get(Side.LEFT),
            corner=next((kind for kind, term in self.corner.items() if true(model, term)), None),
            right_corner=next(iter(corners[Side.RIGHT]), None),
            left_corner=next(iter(corners[Side.LEFT]), None),
            right_end=ends[Side.RIGHT],
            left_end=ends[Side.LEFT],
            x=_plain(value(model, self.x)),
            y=_plain(value(model, self.y)),
        )

    def frame_of(self, choice: Choice) -> list[z3.BoolRef]:
        """The shape, runs and treatment of a choice: all that rails and posts depend on, but for the place."""
        terms = [self.rows[Side.MAIN].exactly(choice.main)]
        for arm in ARMS:
            row = choice.row(arm)
            terms += [z3.Not(self.there[arm])] if row is None else [self.there[arm], self.rows[arm].exactly(row)]
        if choice.corner is not None:
            outside = self.corner[CornerKind.OUTSIDE_POST]
            terms.append(outside if choice.corner is CornerKind.OUTSIDE_POST else z3.Not(outside))
            terms.append(self.spread == Place(choice, self.sizes).spread)
        return terms

    def priced_by(self, choice: Choice) -> list[z3.BoolRef]:
        """All that the boards of a choice depend on, but for its place and who owns the corners."""
        terms = self.frame_of(choice)
        if choice.corner is not None:
            terms.append(self.corner[choice.corner])
        return terms + [self.cushion[arm][n] for arm in ARMS if (n := choice.cushion(arm)) is not None]

    def ends_of(self, choice: Choice) -> list[z3.BoolRef]:
        """The ends of a choice."""
        return [self.end_of(choice, hand) for hand in self.armed]

    def end_of(self, choice: Choice, hand: Side) -> z3.BoolRef:
        """The end of a choice at a hand."""
        return self._ends_so(hand, choice.end(hand))

    def exactly(self, choice: Choice) -> z3.BoolRef:
        """That the layout is this one."""
        terms = [*self.priced_by(choice), *self.ends_of(choice)]
        return z3.And(mounted(choice.mount), *terms, self.x == choice.x, self.y == choice.y)


def mounted(number: int) -> z3.BoolRef:
    """That the layout lies along an edge in the way of that number."""
    return z3.Bool(f"mount {number}")


def _plain(number: Fraction) -> Marks:
    """Whole numbers are quicker."""
    return int(number) if number.denominator == 1 else number


def _solver() -> z3.Solver:
    solver = z3.SimpleSolver()
    # The plain simplex was the fastest of z3's arithmetic cores on skew rooms.
    solver.set("arith.solver", 2)
    return solver


_MOST_ASKED = 64
"""More seats than a run can be meant to have; beyond them a room that is too short for a run is not named for it."""


def most_modules(project: Project, sizes: Sizes) -> int:
    """As many modules as the longest straight line within the room's bounding box could hold.

    Or as many as seats are asked for: a room that is too short for them is a fact that can clash, no definition.
    """
    xs, ys = ([getattr(point, axis).units for point in project.room.outline] for axis in "xy")
    longest = isqrt((max(xs) - min(xs)) ** 2 + (max(ys) - min(ys)) ** 2)
    held = longest // (min(size.pitch for size in sizes.options) * sizes.mark.units)
    return max(1, held, min(project.wish.least, _MOST_ASKED))


def cents(price: Fraction) -> int:
    """A price in whole cents, half ones up."""
    return round_half_up(price * 100)
