"""The part of the twin's model that knows no place: cushions, counts, corners, treatments and posts."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import product

from bays import Spacing
from ortools.sat.python import cp_model
from structures import Line, Sizes, Structure, choices, lines, start_of_back, treatments

from fitter.domain.project import Project
from fitter.domain.wishes import CornerKind, Shape, Side

Literal = cp_model.IntVar
Combo = tuple[int, int]
"""Index of a choice, and how many modules."""


class Runs:
    """Choices and counts of one structure.

    Args:
        model: what variables and constraints are added to.
        project: the problem.
        structure: shape and aligned run.
        of: sizes of the frame.
        reach: how long each run could be at most, in marks.
        with_feet: whether it matters on which module lines posts stand.
    """

    def __init__(
        self,
        model: cp_model.CpModel,
        project: Project,
        structure: Structure,
        of: Sizes,
        reach: Mapping[Side, int],
        *,
        with_feet: bool,
    ) -> None:
        self.model, self.project, self.it, self.of = model, project, structure, of
        self.with_feet = with_feet
        self.choices = choices(project)
        self.combos = {side: self._combos(side, reach[side]) for side in structure.sides}
        self.possible = all(self.combos.values())
        if not self.possible:
            return
        self.option = {side: self._options(side) for side in structure.sides}
        self.kinds = self._treatments()
        self.outside = self.kinds[CornerKind.OUTSIDE_POST]
        self.corner = {arm: self._corner(arm) for arm in structure.arms}
        self.spread = self._spreads()
        self._sizes: dict[str, cp_model.LinearExpr] = {}
        self._measure()
        self._compare_lengths()
        self.owns = {arm: self._main_owns(arm) for arm in structure.arms}
        self.seats, self.buy = self._cushions()
        self.notches = sum(self._notch(arm) for arm in structure.arms)
        joined = self.kinds[CornerKind.ANGLE_POST] + self.kinds[CornerKind.LOW_POST]
        self.low = len(structure.arms) * joined
        self._ends_at: dict[tuple[Side, int], Literal] = {}
        self._posts: dict[Line, list[Literal]] = {}
        self.posts = 2 * len(structure.arms) + sum(self._line(line) for line in lines(structure))
        for arm in structure.arms:
            self._cross_rail(arm)

    def size(self, name: str) -> cp_model.LinearExpr:
        """A size of the structure by its name in the sums."""
        return self._sizes[name]

    def feet(self, line: Line) -> Iterator[tuple[int, bool, tuple[Literal, ...]]]:
        """The module lines that may carry a post, whether at a corner place past the run, and when they do."""
        for number, post in enumerate(self._posts.get(line, ()), line.first):
            if not (line.back and line.high and self.of.overhang):
                yield number, False, (post,)
                continue
            at_end = self._ending(line.run, number)
            yield number, True, (post, at_end)
            yield number, False, (post, at_end.negated())

    def _ending(self, run: Side, count: int) -> Literal:
        """Whether a run has so many modules."""
        if (run, count) not in self._ends_at:
            literal = self._ends_at[run, count] = self._bool(f"{run} has {count}")
            self.model.add(sum(combo for (_, n), combo in self.combos[run].items() if n == count) == literal)
        return self._ends_at[run, count]

    def _bool(self, name: str) -> Literal:
        return self.model.new_bool_var(name)

    def _implies(self, when: Sequence[Literal], then: Sequence[Literal]) -> None:
        self.model.add_bool_or([*(literal.negated() for literal in when), *then])

    def _combos(self, side: Side, reach: int) -> dict[Combo, Literal]:
        """One literal for each choice and count that could stand in the room."""
        wish, found = self.project.wish, {}
        for i, choice in enumerate(self.choices):
            most = reach // choice.pitch
            if wish.most is not None:
                most = min(most, wish.most // choice.seats)
            stock = self.project.cushions[choice.kind].stock
            most = most if stock is None else min(most, stock)
            if self.it.arms and choice.deck + max(other.post for other in self.choices) <= self.of.turn:
                most = 0
            for n in range(1, most + 1):
                if self._spacing(choice.pitch).fewest(n) is not None:
                    found[i, n] = self._bool(f"{side} {n} of {i}")
        return found

    def _options(self, side: Side) -> list[Literal]:
        """One literal for each choice of a run."""
        self.model.add_exactly_one(self.combos[side].values())
        found = []
        for i in range(len(self.choices)):
            some = [literal for (j, _), literal in self.combos[side].items() if i == j]
            found.append(self._bool(f"{side} of {i}"))
            self.model.add(sum(some) == found[-1])
        return found

    def _treatments(self) -> dict[CornerKind, Literal]:
        kinds = {kind: self._bool(kind) for kind in CornerKind}
        self.model.add_exactly_one(kinds.values())
        for kind, literal in kinds.items():
            if kind not in treatments(self.project) and self.it.arms:
                self.model.add_bool_or([literal.negated()])
        return kinds

    def _spreads(self) -> dict[int, Literal]:
        """How far cushions are moved forward, beyond what they overhang; as far as the corner asks that asks more."""
        spread = self.kinds[CornerKind.SPREAD]
        may = self.it.arms and CornerKind.SPREAD in treatments(self.project)
        asked = sorted({0, *(choice.post for choice in self.choices if may)})
        found = {gap: self._bool(f"spread by {gap}") for gap in asked}
        self.model.add_exactly_one(found.values())
        if not may:
            self.model.add_bool_or([found[0]])
            return found
        self._implies([spread.negated()], [found[0]])
        rows = [pair for arm in self.it.arms for pair in zip(self.choices, self.corner[arm], strict=True)]
        for gap, literal in found.items():
            if gap:
                self._implies([literal], [here for choice, here in rows if choice.post == gap])
            for choice, here in rows:
                if choice.post > gap:
                    self._implies([spread, here], [literal.negated()])
        return found

    def _measure(self) -> None:
        depth = {Side.MAIN: "D", Side.RIGHT: "R", Side.LEFT: "L"}
        for side, combos in self.combos.items():
            self._name(side, [(n * self.choices[i].pitch, literal) for (i, n), literal in combos.items()])
            rows = list(zip(self.choices, self.option[side], strict=True))
            self._deep(depth[side], [(choice.deck, literal) for choice, literal in rows])
            self._name(f"{side} pitch", [(choice.pitch, literal) for choice, literal in rows])

    def _name(self, name: str, rows: list[tuple[int, Literal]]) -> None:
        values = sorted({value for value, _ in rows})
        variable = self.model.new_int_var_from_domain(cp_model.Domain.from_values(values), name)
        self.model.add(variable == sum(value * literal for value, literal in rows))
        self._sizes[name] = variable

    def _deep(self, name: str, rows: list[tuple[int, Literal]]) -> None:
        """How deep a place is: what overhangs, what is spread, and the cushion."""
        over, gaps = self.of.overhang, [(gap, literal) for gap, literal in self.spread.items() if gap]
        if not gaps:
            self._name(name, [(over + deck, literal) for deck, literal in rows])
        else:
            values = sorted({over + gap + deck for gap in self.spread for deck, _ in rows})
            variable = self.model.new_int_var_from_domain(cp_model.Domain.from_values(values), name)
            self.model.add(variable == over + sum(size * literal for size, literal in (*rows, *gaps)))
            self._sizes[name] = variable
        if self.it.arms:
            self.model.add(self._sizes[name] - over >= self.of.turn + 1)

    def _compare_lengths(self) -> None:
        """The longest run, as far as the shape or the backing edge asks; knees in a U."""
        main = self.size(Side.MAIN)
        longest = Side.MAIN if self.it.shape is Shape.L else self.it.aligned
        if longest is not None:
            for side in self.it.sides:
                if side is not longest:
                    self.model.add(self.size(longest) >= self.size(side))
        if self.it.shape is Shape.U:
            self.model.add(main >= self.of.legroom)

    def _main_owns(self, arm: Side) -> Literal:
        """Whether the main run owns the corner place; ties go to the aligned run, else to the main run."""
        owns = self._bool(f"main owns the {arm} corner")
        main, other = self.size(Side.MAIN), self.size(arm)
        ahead = 1 if self.it.aligned is arm else 0
        self.model.add(main >= other + ahead).only_enforce_if(owns)
        self.model.add(main <= other + ahead - 1).only_enforce_if(owns.negated())
        return owns

    def _corner(self, arm: Side) -> list[Literal]:
        """One literal for each choice of a corner cushion; none for a table."""
        found = [self._bool(f"{arm} corner {i}") for i in range(len(self.choices))]
        table = self.kinds[CornerKind.TABLE_CORNER]
        self.model.add_exactly_one([table, *found])
        for choice, literal in zip(self.choices, found, strict=True):
            for i, run in enumerate(self.choices):
                if choice.pitch > run.deck:
                    self._implies([literal, self.option[arm][i]], [])
                if choice.deck > run.deck:
                    self._implies([literal, self.option[Side.MAIN][i]], [])
            for kind, chosen in self.kinds.items():
                if choice.cut(kind) and not choice.may_notch:
                    self._implies([literal, chosen], [])
        return found

    def _notch(self, arm: Side) -> Literal:
        notched = self._bool(f"{arm} corner notched")
        for choice, literal in zip(self.choices, self.corner[arm], strict=True):
            for kind, chosen in self.kinds.items():
                if choice.cut(kind):
                    self._implies([literal, chosen], [notched])
        return notched

    def _cushions(self) -> tuple[cp_model.LinearExpr, cp_model.LinearExpr]:
        """Seats within the wish; cushions to buy, within the stock."""
        wish = self.project.wish
        lots = [(self.choices[i], n, literal) for combos in self.combos.values() for (i, n), literal in combos.items()]
        for corner in self.corner.values():
            lots += [(choice, 1, literal) for choice, literal in zip(self.choices, corner, strict=True)]
        seats = sum(choice.seats * n * literal for choice, n, literal in lots)
        self.model.add(seats >= wish.least)
        if wish.most is not None:
            self.model.add(seats <= wish.most)
        to_buy = []
        for k, cushion in enumerate(self.project.cushions):
            used = sum(n * literal for choice, n, literal in lots if choice.kind == k)
            if cushion.stock is not None:
                self.model.add(used <= cushion.stock)
            else:
                to_buy.append(self.model.new_int_var(0, 500, f"buy {k}"))
                self.model.add(to_buy[-1] >= used - (cushion.own or 0))
        if wish.buy_most is not None:
            self.model.add(sum(to_buy) <= wish.buy_most)
        return seats, sum(to_buy)

    def _line(self, line: Line) -> cp_model.LinearExpr:
        """How many posts a line of rails has."""
        combos = self.combos[line.run]
        plain = not line.back and not self.of.overhang
        if not self.with_feet and (plain or (line.low is None and line.high is None)):
            return sum(
                (self._spacing(self.choices[i].pitch).fewest(n) or 0) * literal for (i, n), literal in combos.items()
            )
        most = max(n for _, n in combos)
        posts = [self._bool(f"post {k}") for k in range(line.first, line.last(most) + 1)]
        self._posts[line] = posts
        low, high = self._gaps(line, line.low), self._gaps(line, line.high)
        none = self._bool("no post")
        self.model.add_bool_or([*posts, none])
        whole = sum(gap * literal for gap, literal in (*low.items(), *high.items()) if gap) + self.size(line.run)
        self.model.add(whole <= self.of.limit).only_enforce_if(none)
        for (i, n), combo in combos.items():
            self._windows(line, posts, combo, self.choices[i].pitch, n, low, high)
        return sum(posts)

    def _windows(
        self,
        line: Line,
        posts: list[Literal],
        combo: Literal,
        pitch: int,
        n: int,
        low: dict[int, Literal],
        high: dict[int, Literal],
    ) -> None:
        first, last = line.first, line.last(n)

        def some(window: range, *when: Literal) -> None:
            self._implies([combo, *when], [posts[k - first] for k in window])

        for beyond in posts[last + 1 - first :]:
            self.model.add_implication(combo, beyond.negated())
        nearer = [self.of.overhang if line.back and corner else 0 for corner in (line.low, line.high)]
        spacing = self._spacing(pitch, *nearer, n, downward=line.downward(self.it))
        for window in spacing.between(first, last):
            some(window)
        for gap, literal in low.items():
            start = spacing.after_start(first, last, gap)
            if start is not None:
                some(start, literal)
        for gap, literal in high.items():
            stop = spacing.before_stop(first, last, n * pitch + gap)
            if stop is not None:
                some(stop, literal)

    def _spacing(self, pitch: int, low: int = 0, high: int = 0, count: int = 0, *, downward: bool = False) -> Spacing:
        before = self.of.before(downward)
        return Spacing(pitch, before, self.of.post - before, self.of.limit, low, high, count)

    def _gaps(self, line: Line, arm: Side | None) -> dict[int, Literal]:
        """How far before (or past) the modules the rail begins, each with its literal."""
        if arm is None or not line.back:
            always = self._bool("one gap")
            self.model.add_bool_or([always])
            return {self.of.overhang if arm else 0: always}
        run, other = line.run, arm if line.run is Side.MAIN else Side.MAIN
        rows: list[tuple[int, list[Literal]]] = []
        for choice, literal in zip(self.choices, self.option[other], strict=True):
            for kind in CornerKind:
                for main_owns, spread in product((True, False), self.spread if kind is CornerKind.SPREAD else (0,)):
                    owner = self.owns[arm] if main_owns else self.owns[arm].negated()
                    deep = self.of.overhang + spread + choice.deck
                    gap = deep - start_of_back(self.of, run, kind, main_owns)
                    rows.append((gap, [literal, self.kinds[kind], owner, self.spread[spread]]))
        found = {gap: self._bool(f"gap {gap}") for gap in sorted({gap for gap, _ in rows})}
        self.model.add_exactly_one(found.values())
        for gap, when in rows:
            self._implies(when, [found[gap]])
        return found

    def _cross_rail(self, arm: Side) -> None:
        """The cross rail spans from the inner corner post to the owner's back rail, or to a post there."""
        post, rail, limit = self.of.post, self.of.rail, self.of.limit
        for main_owns in (True, False):
            owner = Side.MAIN if main_owns else arm
            owned = self.owns[arm] if main_owns else self.owns[arm].negated()
            for ((i, n), combo), (spread, far) in product(self.combos[owner].items(), self.spread.items()):
                at_post = self._post_at_corner(owner, arm, n)
                wood = self.choices[i].deck + spread
                if wood - post - rail > limit:
                    self._implies([combo, owned, far], [at_post])
                if wood - 2 * post > limit:
                    self._implies([combo, owned, far, at_post], [])

    def _post_at_corner(self, owner: Side, arm: Side, count: int) -> Literal:
        line = next(line for line in lines(self.it) if line.run is owner and line.back)
        return self._posts[line][count - line.first if owner is Side.MAIN and arm is Side.LEFT else 0]
