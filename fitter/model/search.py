"""Objectives one after another: propose, learn, improve, and prove that nothing is better."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import z3

from fitter.domain.layout import Answer, Proof, Verdict
from fitter.domain.project import Project
from fitter.domain.requirements import requirements
from fitter.domain.wishes import Objective
from fitter.model.arrangement import Choice, Place, arrange
from fitter.model.encoding import CORNERS, MOST_MODULES, Encoding
from fitter.model.frames import frames
from fitter.model.lemmas import Lemmas
from fitter.model.sizes import sizes

Progress = Callable[[Objective, int, int | None, float], None]


class TimeUp(Exception):  # noqa: N818 - not an error: the best so far is the answer
    """The time limit was reached."""


@dataclass(frozen=True)
class Proposal:
    """A layout that stands well, with the value of each objective."""

    choice: Choice
    values: dict[Objective, int]


class Search:
    """One layout question on the way to its proven best answer.

    Args:
        project: the question.
        limit: seconds; None for no limit.
        progress: told objective, best value, proven bound (None if not known yet) and seconds.
    """

    def __init__(self, project: Project, limit: float | None, progress: Progress | None) -> None:
        self.started = time.monotonic()
        self.deadline = None if limit is None else self.started + limit
        self.progress = progress
        self.project = project
        self.sizes = sizes(project)
        self.frames = frames(project)
        self.encoding = Encoding(project, self.sizes, self.frames)
        self.lemmas = Lemmas(self.encoding)
        self.reached: set[Objective] = set()
        self.best: Proposal | None = None
        self.proofs: list[Proof] = []
        self.checks = 0

    def answer(self) -> Answer:
        """Solve, prove and arrange."""
        verdict = Verdict.PROVEN
        try:
            self.best = self.propose()
            if self.best is None:
                return Answer(Verdict.IMPOSSIBLE, None, (), self.clash(), self.seconds)
            for objective in self.project.wish.prefer:
                self.improve(objective)
            self.settle()
        except TimeUp:
            verdict = Verdict.UNKNOWN if self.best is None else Verdict.FOUND
        layout = arrange(self.best.choice, self.sizes, self.frames) if self.best else None
        return Answer(verdict, layout, tuple(self.proofs), (), self.seconds)

    @property
    def seconds(self) -> float:
        """Time since the question was put."""
        return time.monotonic() - self.started

    def propose(self, *wanted: z3.BoolRef, off: frozenset[str] = frozenset()) -> Proposal | None:
        """A layout that meets `wanted` and every requirement not switched off; None if there is none.

        Raises:
            TimeUp: no answer within the limit.
        """
        e = self.encoding
        on = [term for fact, term in e.switches.items() if fact not in off]
        while True:
            outcome = self._check(*on, *wanted)
            if outcome == z3.unsat:
                return None
            model = e.solver.model()
            choice = e.choice(model)
            self._compare(model, choice)
            if not (self.lemmas.geometry(model, choice, off) or self._timber(model, choice)):
                values = {name: e.value(model, term) for name, (term, _) in e.objectives.items()}
                return Proposal(choice, values)

    def improve(self, objective: Objective) -> None:
        """Make one objective best, prove it by "strictly better" being unsatisfiable, and hold it."""
        assert self.best is not None
        self.reached.add(objective)
        if objective in (Objective.POSTS, Objective.LENGTHS):
            # The counts of rails are learned from here on; the best so far is counted first.
            self.best = self.propose(self._exactly(self.best.choice)) or self.best
        term, way = self.encoding.objectives[objective]
        lowest = -2 * MOST_MODULES * max(s.seats for s in self.sizes.options) - 3 if way > 0 else 0

        def report(value: int, bound: int, proven: bool) -> None:
            proof = Proof(objective, -way * value, -way * bound, proven)
            self.proofs[len(self.reached) - 1 :] = [proof]
            if self.progress:
                known = None if bound == lowest and way > 0 else -way * bound
                self.progress(objective, -way * value, known, self.seconds)

        def value() -> int:
            assert self.best is not None
            return -way * self.best.values[objective]

        self._least(-way * term, value, lowest, objective is Objective.CLOSE, report)

    def _least(
        self,
        term: z3.ArithRef,
        value: Callable[[], int],
        low: int,
        from_below: bool,
        report: Callable[[int, int, bool], None] | None = None,
    ) -> None:
        """Make a term least and hold it: gallop from the best found (or from the bound), then bisect.

        Args:
            term: integer term.
            value: its value in the best proposal.
            low: a bound that the search begins with.
            from_below: try near the bound first, where the answer usually lies.
            report: told value, bound and whether that is proven.
        """
        step, galloping = 1, True
        while low < value():
            if report:
                report(value(), low, False)
            ahead = low + step - 1 if from_below else value() - step
            goal = min(max(ahead, low), value() - 1) if galloping else (low + value() - 1) // 2
            found = self.propose(self._literal(term <= goal))
            if found is None:
                low = goal + 1
                galloping = galloping and from_below
            else:
                self.best = found
                galloping = galloping and not from_below
            step *= 2
        last = self.propose(self._literal(term <= value() - 1))
        assert last is None
        self.encoding.add(term == value())
        if report:
            report(value(), value(), True)

    def settle(self) -> None:
        """Order equal answers: fix one choice after another to the first that is still possible."""
        assert self.best is not None
        e, best = self.encoding, self.best.choice
        a, b = e.armed
        ends = [z3.And(a, b), z3.And(z3.Not(a), b), z3.And(a, z3.Not(b)), z3.And(z3.Not(a), z3.Not(b))]
        for ranks in (e.frame, [e.straight, e.low, e.high], [e.corner[k] for k in CORNERS], e.option, ends):
            self._first(ranks)
        best = self.best.choice
        right_end = e.ints["x"] + e.ints["place"] + e.ints["length"]
        self._least(-e.ints["main"], lambda: -self._now().main, -MOST_MODULES, False)
        self._least(-e.ints["side"], lambda: -self._now().side, -MOST_MODULES, False)
        if best.high:
            self._least(-right_end, lambda: -self._now().x - Place(self._now(), self.sizes).width, -self._far(), True)
        else:
            self._least(e.ints["x"], lambda: self._now().x, -self._far(), True)

    def clash(self) -> tuple[str, ...]:
        """A minimal set of requirements that cannot hold together, easily changed ones kept (QuickXplain's order).

        Deletion after z3's own core; every member is needed, which each deletion check shows.
        """
        facts = {fact.id: fact.rank for fact in requirements(self.project)}
        core = {str(term) for term in self.encoding.solver.unsat_core()}
        kept = [fact for fact, term in self.encoding.switches.items() if str(term) in core]
        for fact in sorted(kept, key=lambda fact: -facts[fact]):
            rest = [other for other in kept if other != fact]
            try:
                if self.propose(off=frozenset(facts) - frozenset(rest)) is None:
                    kept = rest
            except TimeUp:
                break
        return tuple(kept)

    def _first(self, ranks: Sequence[z3.BoolRef]) -> None:
        """Fix the first of several conditions that an equal answer can meet; none, if none is met."""
        for rank in ranks:
            found = self.propose(self._literal(rank))
            if found is not None:
                self.best = found
                self.encoding.add(rank)
                return

    def _far(self) -> int:
        """Farther than any place of the room, in marks."""
        outline = self.project.room.outline
        return sum(abs(p.x.units) + abs(p.y.units) for p in outline) // self.sizes.mark.units + 1

    def _now(self) -> Choice:
        assert self.best is not None
        return self.best.choice

    def _timber(self, model: z3.ModelRef, choice: Choice) -> bool:
        if not self.reached & {Objective.POSTS, Objective.LENGTHS}:
            return False
        return self.lemmas.timber(model, choice, lengths=Objective.LENGTHS in self.reached)

    def _compare(self, model: z3.ModelRef, choice: Choice) -> None:
        """The solver's rectangles and the arrangement's must be the same; anything else is our mistake."""
        place = Place(choice, self.sizes)
        for corners, boxes in ((self.encoding.rects, place.footprint()), (self.encoding.legs, place.legroom())):
            for term, box in zip(corners, boxes, strict=False):
                assert self.encoding.rect(model, term) == place.rect(*box), (choice, box)

    def _check(self, *assumptions: z3.BoolRef) -> z3.CheckSatResult:
        solver = self.encoding.solver
        if self.deadline is not None:
            left = self.deadline - time.monotonic()
            if left <= 0:
                raise TimeUp
            solver.set("timeout", max(1, int(1000 * left)))
        self.checks += 1
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

    def _exactly(self, choice: Choice) -> z3.BoolRef:
        e, v = self.encoding, self.encoding.ints
        shape = e.high if choice.high else e.straight if choice.corner is None else e.low
        corner = [] if choice.corner is None else [e.corner[choice.corner]]
        same = [v["main"] == choice.main, v["side"] == choice.side, v["x"] == choice.x, v["y"] == choice.y]
        return self._literal(z3.And(e.frame[choice.frame], shape, e.option[choice.option], *corner, *same))


def solve(project: Project, limit: float | None = None, progress: Progress | None = None) -> Answer:
    """The best layout of a project, with its proof.

    Args:
        project: the question.
        limit: seconds; None for no limit.
        progress: told objective, best value, proven bound and seconds, at each step.

    Returns:
        Proven, found (time ran out, best so far), impossible (with a minimal clash) or unknown.
    """
    return Search(project, limit, progress).answer()


__all__ = ["Progress", "Search", "solve"]
