"""Objectives one after another over all frames: improve, and prove that nothing is better."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence

import z3

from fitter.domain.layout import Answer, Proof, Verdict
from fitter.domain.project import Project
from fitter.domain.requirements import requirements
from fitter.domain.wishes import EndKind, Objective
from fitter.model.arrangement import Choice, Place, arrange
from fitter.model.encoding import CORNERS, Encoding
from fitter.model.frames import around, frames
from fitter.model.lemmas import Forbidden, Lemmas
from fitter.model.question import COUNTED, Proposal, Question, TimeUp, Wanted
from fitter.model.sizes import sizes

Progress = Callable[[Objective, int, int | None, float], None]
Report = Callable[[int, int, bool], None]
Term = Callable[[Encoding], z3.ArithRef]


class Search:
    """One layout question on the way to its proven best answer.

    A frame that cannot reach what is wanted is out for good, since what is wanted only grows.

    Args:
        project: the question.
        limit: seconds; None for no limit.
        progress: told objective, best value, proven bound (None if not known yet) and seconds.
    """

    def __init__(self, project: Project, limit: float | None, progress: Progress | None) -> None:
        self.started = time.monotonic()
        deadline = None if limit is None else self.started + limit
        self.progress = progress
        self.project = project
        self.sizes = sizes(project)
        ground = Forbidden.of(project.room)
        question = Encoding(project, self.sizes)
        self.questions: list[Question] = []
        for n, frame in enumerate(frames(project)):
            encoding = question.within(frame)
            self.questions.append(Question(n, encoding, Lemmas(encoding, ground), deadline))
        self.alive = list(self.questions)
        self.reached: list[Objective] = []
        self.best: Proposal | None = None
        self.proofs: list[Proof] = []

    def answer(self) -> Answer:
        """Solve, prove and arrange."""
        verdict = Verdict.PROVEN
        try:
            self.best, self.alive = self.propose()
            if self.best is None:
                return Answer(Verdict.IMPOSSIBLE, None, (), self.clash(), self.seconds)
            for objective in self.project.wish.prefer:
                self.improve(objective)
            self.settle()
        except TimeUp:
            verdict = Verdict.UNKNOWN if self.best is None else Verdict.FOUND
        layout = None
        if self.best is not None:
            layout = arrange(self.best.choice, self.sizes, self.questions[self.best.frame].encoding.frame)
        return Answer(verdict, layout, tuple(self.proofs), (), self.seconds)

    @property
    def seconds(self) -> float:
        """Time since the question was put."""
        return time.monotonic() - self.started

    def propose(self, *wanted: Wanted, off: frozenset[str] = frozenset()) -> tuple[Proposal | None, list[Question]]:
        """The first layout that meets what is wanted, and the frames that may still hold one.

        The best one's frame is asked first, then the others in order.

        Raises:
            TimeUp: no answer within the limit.
        """
        home = -1 if self.best is None else self.best.frame
        waiting = sorted(self.alive, key=lambda question: question.index != home)
        for n, question in enumerate(waiting):
            found = question.propose(*wanted, off=off)
            if found is not None:
                return found, sorted(waiting[n:], key=lambda question: question.index)
        return None, []

    def improve(self, objective: Objective) -> None:
        """Make one objective best, prove it by "strictly better" being unsatisfiable, and hold it."""
        assert self.best is not None
        self.reached.append(objective)
        for question in self.questions:
            question.reached.add(objective)
        if objective in COUNTED:
            # Posts and lengths are learned from here on; the best so far is counted first.
            question = self.questions[self.best.frame]
            self.best = question.propose(question.exactly(self.best.choice)) or self.best
        way = self.questions[0].encoding.objectives[objective][1]
        most = 3 * self.questions[0].encoding.most * max(size.seats for size in self.sizes.options) + 3
        lowest = -most if way > 0 else 0

        def report(value: int, bound: int, proven: bool) -> None:
            proof = Proof(objective, -way * value, -way * bound, proven)
            self.proofs[len(self.reached) - 1 :] = [proof]
            if self.progress:
                known = None if bound == -most else -way * bound
                self.progress(objective, -way * value, known, self.seconds)

        def value() -> int:
            assert self.best is not None
            return -way * self.best.values[objective]

        near = objective is Objective.CLOSE
        self._least(lambda e: -way * e.objectives[objective][0], value, lowest, near, report)

    def _least(
        self, term: Term, value: Callable[[], int], low: int, from_below: bool, report: Report | None = None
    ) -> None:
        """Make a term least and hold it: gallop from the best found (or from the bound), then bisect.

        Args:
            term: what to make least.
            value: its value in the best proposal.
            low: a bound that the search begins with.
            from_below: try near the bound first, where the answer usually lies.
            report: told value, bound and whether that is proven.
        """
        step, galloping, proven = 1, True, False
        while low < value():
            if report:
                report(value(), low, False)
            ahead = low + step - 1 if from_below else value() - step
            goal = min(max(ahead, low), value() - 1) if galloping else (low + value() - 1) // 2
            found, alive = self.propose(_at_most(term, goal))
            if found is None:
                low, proven = goal + 1, True
                galloping = galloping and from_below
            else:
                self.best, self.alive = found, alive
                galloping = galloping and not from_below
            step *= 2
        if not proven:
            # The bound that the search began with was met and never asked for; the proof is always an unsat.
            beyond, _ = self.propose(_at_most(term, value() - 1))
            assert beyond is None
        self._hold(lambda e: term(e) == value())
        if report:
            report(value(), value(), True)

    def settle(self) -> None:
        """Order equal answers: fix one choice after another to the first that is still possible."""
        self._first_frame()
        shapes: list[Wanted] = [lambda e: e.straight, lambda e: e.low, lambda e: e.high]
        self._first(shapes, 0 if self._now.corner is None else 2 if self._now.high else 1)
        if self._now.corner is not None:
            corners: list[Wanted] = [lambda e, kind=kind: e.corner[kind] for kind in CORNERS]  # type: ignore[misc]
            self._first(corners, CORNERS.index(self._now.corner))
        options: list[Wanted] = [lambda e, n=n: e.option[n] for n in range(len(self.sizes.options))]  # type: ignore[misc]
        self._first(options, self._now.option)
        ends: list[Wanted] = [
            lambda e: z3.And(*e.armed),
            lambda e: e.armed[1],
            lambda e: e.armed[0],
            lambda e: z3.Not(z3.Or(*e.armed)),
        ]
        a, b = self._now.end_a is EndKind.ARMED, self._now.end_b is EndKind.ARMED
        self._first(ends, 0 if a and b else 1 if b else 2 if a else 3)
        most = self.questions[0].encoding.most
        self._least(lambda e: -e.terms["main"], lambda: -self._now.main, -most, False)
        self._least(lambda e: -e.terms["side"], lambda: -self._now.side, -most, False)
        if self._now.high:
            self._least(_right, lambda: -int(self._now.x) - Place(self._now, self.sizes).width, -self._far, True)
        else:
            self._least(lambda e: e.terms["x"], lambda: int(self._now.x), -self._far, True)

    def clash(self) -> tuple[str, ...]:
        """A minimal set of requirements that cannot hold together, easily changed ones kept.

        Deletion from the solvers' own cores: a member is kept when the rest without it can hold, so every
        member is needed.
        """
        self.alive = list(self.questions)
        facts = {fact.id: fact.rank for fact in requirements(self.project)}
        kept = [fact for fact in facts if any(fact in question.core for question in self.questions)]
        for fact in sorted(kept, key=lambda fact: -facts[fact]):
            rest = [other for other in kept if other != fact]
            try:
                if self.propose(off=frozenset(facts) - frozenset(rest))[0] is None:
                    kept = rest
            except TimeUp:
                break
        return tuple(kept)

    def _hold(self, term: Wanted) -> None:
        for question in self.questions:
            question.encoding.add(term(question.encoding))

    def _first_frame(self) -> None:
        """Keep to the first frame, in the order of the edges, that holds an equal answer."""
        assert self.best is not None
        for question in self.alive:
            found = self.best if question.index == self.best.frame else question.propose()
            if found is not None:
                self.best, self.alive = found, [question]
                return

    def _first(self, ranks: Sequence[Wanted], met: int) -> None:
        """Fix the first of several conditions that an equal answer can meet; the best one meets number `met`."""
        for rank in ranks[:met]:
            found, alive = self.propose(rank)
            if found is not None:
                self.best, self.alive = found, alive
                self._hold(rank)
                return
        self._hold(ranks[met])

    @property
    def _far(self) -> int:
        """Farther than any place of the room, in marks."""
        return 4 * around(self.project.room) // self.sizes.mark.units + 1

    @property
    def _now(self) -> Choice:
        assert self.best is not None
        return self.best.choice


def _at_most(term: Term, goal: int) -> Wanted:
    return lambda e: term(e) <= goal


def _right(e: Encoding) -> z3.ArithRef:
    """The high-x deck corner, counted backward."""
    return -(e.terms["x"] + e.terms["place"] + e.terms["length"])


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
