"""The layout question in one frame: propose, check exactly, learn, until a layout stands well or none can."""

from __future__ import annotations

import time
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import product
from math import ceil, floor

import z3

from fitter.domain.wishes import Objective
from fitter.model.arrangement import Choice, Place
from fitter.model.building import mounted, off_edge
from fitter.model.encoding import Encoding
from fitter.model.lemmas import Lemmas, Proposed
from fitter.model.quick import either, never
from fitter.model.separation import Marks
from fitter.model.terms import value
from fitter.model.timber import Timber, TimberLemmas, Under

COUNTED = (Objective.MONEY, Objective.POSTS, Objective.LENGTHS)


class TimeUp(Exception):  # noqa: N818 - not an error: the best so far is the answer
    """The time limit was reached."""


@dataclass(frozen=True)
class Asked:
    """A term that may be asked for, and the literal that stands for it; all frames understand the same one."""

    literal: z3.BoolRef
    definition: z3.BoolRef

    @classmethod
    def of(cls, term: z3.BoolRef) -> Asked:
        """A literal of its own for a term."""
        literal = z3.FreshBool("ask")
        return cls(literal, either((never(literal), term)))


@dataclass(frozen=True)
class Proposal:
    """A layout that stands well: the index of its frame, its choices, its posts and the value of each objective."""

    frame: int
    choice: Choice
    timber: Timber
    values: dict[Objective, int]


class Question:
    """One frame's solver, with all that it has learned.

    Args:
        index: of the frame.
        encoding: variables and requirements.
        lemmas: exact checks and what they teach.
        timber: the same for posts and rails.
        deadline: by the monotonic clock; None for no limit.
    """

    def __init__(
        self, index: int, encoding: Encoding, lemmas: Lemmas, timber: TimberLemmas, deadline: float | None
    ) -> None:
        self.index, self.encoding, self.lemmas, self.timber = index, encoding, lemmas, timber
        self.deadline = deadline
        self.reached = timber.reached
        self.held: list[z3.BoolRef] = []

    def propose(self, *wanted: Asked, off: frozenset[str] = frozenset()) -> Proposal | None:
        """A layout that meets `wanted`, all that is held and every requirement not switched off; None if there is none.

        Raises:
            TimeUp: no answer within the limit.
        """
        e = self.encoding
        given = [term for fact, term in e.switches.items() if fact not in off]
        given += [*self.held, *(asked.literal for asked in wanted)]
        e.add(*(asked.definition for asked in wanted))
        self.timber.catch_up()
        while self._check(*given) == z3.sat:
            model = e.solver.model()
            choice = e.choice(model)
            place = Place(choice, e.sizes)
            proposed = self.lemmas.proposed(place)
            if self.lemmas.learn(proposed, off):
                continue
            under = self.timber.under(place, off)
            if self._sawn(model, place, under, off):
                continue
            if choice.x.denominator == choice.y.denominator == 1:
                return self._proposal(model, place, under)
            if rounded := self._rounded(choice, proposed, off, given):
                return rounded
            # No mark around this place will do.
            e.whole(e.x, choice.x)
            e.whole(e.y, choice.y)
        return None

    def hold(self, asked: Asked) -> None:
        """Ask for something from now on, until `release`."""
        self.encoding.add(asked.definition)
        self.held.append(asked.literal)

    def release(self) -> None:
        """Forget what is held; what was learned stays."""
        self.held.clear()
        self.reached.clear()

    def _proposal(self, model: z3.ModelRef, place: Place, under: Under) -> Proposal:
        e = self.encoding
        self._compare(model, place)
        values = {name: int(value(model, term)) for name, (term, _) in e.objectives.items()}
        timber = self.timber.count(place, under)
        values |= {Objective.POSTS: timber.posts, Objective.LENGTHS: timber.lengths}
        values[Objective.MONEY] = timber.cents + int(value(model, e.money) - value(model, e.boards))
        return Proposal(self.index, place.choice, timber, values)

    def _rounded(
        self, choice: Choice, proposed: Proposed, off: frozenset[str], given: list[z3.BoolRef]
    ) -> Proposal | None:
        """The proposal moved to one of the marks around it, if it stands well there too."""
        around = product(_neighbours(choice.x), _neighbours(choice.y))

        def distance(at: tuple[int, ...]) -> Marks:
            far: Marks = abs(Fraction(at[0]) - choice.x) + abs(Fraction(at[1]) - choice.y)
            return far

        e = self.encoding
        for x, y in sorted(around, key=distance):
            if self.lemmas.stands(proposed.moved(x - choice.x, y - choice.y), off):
                there = e.exactly(replace(choice, x=x, y=y))
                asked = Asked.of(there)
                e.add(asked.definition)
                if self._check(*given, asked.literal) == z3.sat:
                    model = e.solver.model()
                    place = Place(e.choice(model), e.sizes)
                    under = self.timber.under(place, off)
                    if not self._sawn(model, place, under, off):
                        return self._proposal(model, place, under)
        return None

    def _sawn(self, model: z3.ModelRef, place: Place, under: Under, off: frozenset[str]) -> bool:
        """Learn what carries a proposal, and its posts and lengths once they are asked for; False if all was known."""
        if self.timber.refused(place, under, off):
            return True
        if not self.reached.intersection(COUNTED):
            return False
        return self.timber.learn(model, place, under, lengths=Objective.LENGTHS in self.reached)

    def _compare(self, model: z3.ModelRef, place: Place) -> None:
        """The solver's rectangles and the arrangement's must be the same; anything else is our mistake."""
        e = self.encoding
        pairs = (e.feet, place.footprint()), (e.legs, place.legroom()), (e.standing, place.standing())
        for terms, boxes in pairs:
            for name, box in boxes.items():
                assert terms[name].rect(model) == place.rect(box), (place.choice, name)
        mount = e.frame.mount(place.choice.mount)
        assert value(model, e.off) == off_edge(mounted(place.choice, e.sizes, mount), mount), place.choice

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


def _neighbours(value: Marks) -> tuple[int, ...]:
    """The whole marks on both sides of a place, or the one that it stands on."""
    low, high = floor(value), ceil(value)
    return (low, high) if low < high else (low,)
