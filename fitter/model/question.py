"""The layout question in one frame: propose, check exactly, learn, until a layout stands well or none can."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import product
from math import ceil, floor

import z3

from fitter.domain.wishes import EndKind, Objective
from fitter.model.arrangement import Choice, Place
from fitter.model.encoding import Encoding
from fitter.model.lemmas import Lemmas, Seen
from fitter.model.separation import Marks

Wanted = Callable[[Encoding], z3.BoolRef]
COUNTED = (Objective.POSTS, Objective.LENGTHS)


class TimeUp(Exception):  # noqa: N818 - not an error: the best so far is the answer
    """The time limit was reached."""


@dataclass(frozen=True)
class Proposal:
    """A layout that stands well: the index of its frame, its choices and the value of each objective."""

    frame: int
    choice: Choice
    values: dict[Objective, int]


class Question:
    """One frame's solver, with all that it has learned.

    Args:
        index: of the frame.
        encoding: variables and requirements.
        lemmas: exact checks and what they teach.
        deadline: by the monotonic clock; None for no limit.
    """

    def __init__(self, index: int, encoding: Encoding, lemmas: Lemmas, deadline: float | None) -> None:
        self.index, self.encoding, self.lemmas, self.deadline = index, encoding, lemmas, deadline
        self.reached: set[Objective] = set()

    def propose(self, *wanted: Wanted, off: frozenset[str] = frozenset()) -> Proposal | None:
        """A layout that meets `wanted` and every requirement not switched off; None if there is none.

        After None, and before the next call, `core` tells which requirements cannot hold together.

        Raises:
            TimeUp: no answer within the limit.
        """
        e = self.encoding
        given = [term for fact, term in e.switches.items() if fact not in off]
        given += [self._literal(want(e)) for want in wanted]
        while self._check(*given) == z3.sat:
            model = e.solver.model()
            choice = e.choice(model)
            feet, legs = self.lemmas.seen(choice)
            if self.lemmas.learn(feet, legs, off):
                continue
            if ("span" not in off and self.lemmas.span(choice)) or self._count(model, choice):
                continue
            if choice.x.denominator == choice.y.denominator == 1:
                return self._proposal(model, choice)
            if rounded := self._rounded(choice, feet, legs, off, given):
                return rounded
            # No mark around this place will do.
            e.whole(e.terms["x"], choice.x)
            e.whole(e.terms["y"], choice.y)
        return None

    @property
    def core(self) -> tuple[str, ...]:
        """Ids of requirements that cannot hold together, as the solver has just found."""
        clashing = {term.decl().name() for term in self.encoding.solver.unsat_core()}
        return tuple(fact for fact, term in self.encoding.switches.items() if term.decl().name() in clashing)

    def exactly(self, choice: Choice) -> Wanted:
        """That the layout is this one."""

        def same(e: Encoding) -> z3.BoolRef:
            t = e.terms
            shape = e.high if choice.high else e.straight if choice.corner is None else e.low
            corner = [] if choice.corner is None else [e.corner[choice.corner]]
            kinds = zip(e.armed, (choice.end_a, choice.end_b), strict=True)
            ends = [end if kind is EndKind.ARMED else z3.Not(end) for end, kind in kinds]
            numbers = (("main", choice.main), ("side", choice.side), ("x", choice.x), ("y", choice.y))
            return z3.And(shape, e.option[choice.option], *corner, *ends, *(t[name] == n for name, n in numbers))

        return same

    def _proposal(self, model: z3.ModelRef, choice: Choice) -> Proposal:
        e = self.encoding
        self._compare(model, choice)
        values = {name: int(e.value(model, term)) for name, (term, _) in e.objectives.items()}
        return Proposal(self.index, choice, values)

    def _rounded(
        self,
        choice: Choice,
        feet: list[Seen],
        legs: list[Seen],
        off: frozenset[str],
        given: list[z3.BoolRef],
    ) -> Proposal | None:
        """The proposal moved to one of the marks around it, if it stands well there too."""
        around = product(_neighbours(choice.x), _neighbours(choice.y))

        def distance(at: tuple[int, ...]) -> Marks:
            far: Marks = abs(Fraction(at[0]) - choice.x) + abs(Fraction(at[1]) - choice.y)
            return far

        for x, y in sorted(around, key=distance):
            dx, dy = x - choice.x, y - choice.y
            if self.lemmas.stands([s.moved(dx, dy) for s in feet], [s.moved(dx, dy) for s in legs], off):
                there = self.exactly(replace(choice, x=x, y=y))
                if self._check(*given, self._literal(there(self.encoding))) == z3.sat:
                    model = self.encoding.solver.model()
                    found = self.encoding.choice(model)
                    if not self._count(model, found):
                        return self._proposal(model, found)
        return None

    def _count(self, model: z3.ModelRef, choice: Choice) -> bool:
        """Learn the counts of posts and lengths, once they are asked for; False if they were known."""
        if not self.reached.intersection(COUNTED):
            return False
        return self.lemmas.timber(model, choice, lengths=Objective.LENGTHS in self.reached)

    def _compare(self, model: z3.ModelRef, choice: Choice) -> None:
        """The solver's rectangles and the arrangement's must be the same; anything else is our mistake."""
        place = Place(choice, self.encoding.sizes)
        groups = ((self.encoding.rects, place.footprint()), (self.encoding.legs, place.legroom()))
        for corners, boxes in groups:
            for term, box in zip(corners, boxes, strict=False):
                assert self.encoding.rect(model, term) == place.rect(*box), (choice, box)

    def _check(self, *assumptions: z3.BoolRef) -> z3.CheckSatResult:
        solver = self.encoding.solver
        if self.deadline is not None:
            left = self.deadline - time.monotonic()
            if left <= 0:
                raise TimeUp
            solver.set("timeout", max(1, int(1000 * left)))
        outcome = solver.check(*assumptions)
        if outcome == z3.unknown:
            if "interrupt" in solver.reason_unknown():
                raise KeyboardInterrupt
            raise TimeUp
        return outcome

    def _literal(self, term: z3.BoolRef) -> z3.BoolRef:
        literal = z3.FreshBool("ask")
        self.encoding.add(z3.Implies(literal, term))
        return literal


def _neighbours(value: Marks) -> tuple[int, ...]:
    """The whole marks on both sides of a place, or the one that it stands on."""
    low, high = floor(value), ceil(value)
    return (low, high) if low < high else (low,)
