"""Objectives one after another over all frames: improve, and prove that nothing is better."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

import z3

from fitter.domain.costing import Costing
from fitter.domain.layout import Answer, Layout, Proof, Side, Verdict
from fitter.domain.project import Project
from fitter.domain.requirements import requirements
from fitter.domain.wishes import EndKind, Objective
from fitter.model.arrangement import ARMS, Choice, Place
from fitter.model.building import build
from fitter.model.carried_timber import CarriedTimber
from fitter.model.difference import Differences
from fitter.model.encoding import CORNERS, Encoding, mounted
from fitter.model.frames import around, frames
from fitter.model.lemmas import Forbidden, Lemmas
from fitter.model.priced_timber import PricedTimber
from fitter.model.question import COUNTED, Asked, Proposal, Question, TimeUp
from fitter.model.sizes import Sizes, sizes
from fitter.model.timber import TimberLemmas
from fitter.model.wanted import Settled
from fitter.model.wanted import Wanted as Asking

Progress = Callable[[Objective, int, int | None, float], None]
Keep = Callable[[Answer], None]
Wanted = Callable[[Encoding], z3.BoolRef]
Report = Callable[[int, int, bool], None]
Term = Callable[[Encoding], z3.ArithRef]


class Search:
    """One layout question on the way to its proven best answers.

    A frame that cannot reach what is wanted is out until the next answer, since what is wanted only grows.

    Args:
        project: the question.
        limit: seconds; None for no limit.
        progress: told objective, best value, proven bound (None if not known yet) and seconds.
        keep: told the best answer so far whenever it got better, so that nothing is lost.
        costing: prices of boards; None where nothing has a price, and money is no objective.
        asked: how much of the answer is wanted; None for all of it.
        like: a search of a project that may differ in its room alone, whose terms are used again then.
    """

    def __init__(
        self,
        project: Project,
        limit: float | None = None,
        progress: Progress | None = None,
        keep: Keep | None = None,
        costing: Costing | None = None,
        asked: Asking | None = None,
        like: Search | None = None,
    ) -> None:
        self.asked = asked
        self.started = time.monotonic()
        deadline = None if limit is None else self.started + limit
        self.progress, self.keep = progress, keep
        self.project = project
        self.sizes = sizes(project)
        ground = Forbidden.of(project.room)
        self.barred = next((f"route:{way.route.name}" for way in ground.walkways if way.blocked), None)
        self.questions = [] if self.barred else _questions(project, self.sizes, ground, deadline, costing, like)
        self.order = [aim for aim in project.wish.prefer if aim is not Objective.MONEY or costing is not None]
        self.differences = Differences(self.questions)
        self.alive = list(self.questions)
        self.reached: list[Objective] = []
        self.best: Proposal | None = None
        self.proofs: list[Proof] = []

    def answers(self, most: int) -> Iterator[Answer]:
        """The best answer, then the best of those that differ from all before it, and so on.

        The first may be impossible or unknown; a later one that is impossible says that no other layout differs
        enough from those before it. None comes after an answer that is not proven.
        """
        for rank in range(most):
            answer = self.answer(clash=rank == 0)
            yield answer
            if answer.verdict is not Verdict.PROVEN or self.best is None:
                return
            self.differences.demand(self.best)
            self._again()

    def answer(self, *, clash: bool = True) -> Answer:
        """Solve, prove and build."""
        if self.barred is not None:
            # The empty room is too narrow for a walkway: that one fact cannot hold.
            return Answer(Verdict.IMPOSSIBLE, None, (), (self.barred,), self.seconds)
        verdict = Verdict.PROVEN
        try:
            self.best, self.alive = self.propose()
            if self.best is None:
                return Answer(Verdict.IMPOSSIBLE, None, (), self.clash() if clash else (), self.seconds)
            self._kept()
            self.decide()
        except TimeUp:
            verdict = Verdict.UNKNOWN if self.best is None else Verdict.FOUND
        return self._answer(verdict)

    def decide(self) -> None:
        """Make the objectives best in their order, then order equal answers, as far as is wanted."""
        settled = Settled.WHOLE if self.asked is None else self.asked.settled
        least = len(self.order) if self.asked is None else self.asked.objectives
        for reached, objective in enumerate(self.order):
            if reached >= least and (settled is Settled.NOTHING or (settled is Settled.HEADING and self._one())):
                return
            self.improve(objective)
        if settled is Settled.WHOLE:
            self.settle()
        elif settled is Settled.HEADING:
            self._settle_heading()

    def _one(self) -> bool:
        """Whether all answers that are as good so far have the shape, the hand and the treatment of the best one."""
        now = self._now

        def same(e: Encoding) -> z3.BoolRef:
            arms = [e.there[arm] if arm in now.arms else z3.Not(e.there[arm]) for arm in ARMS]
            return z3.And(*arms, *([] if now.corner is None else [e.corner[now.corner]]))

        other, _ = self.propose(lambda e: z3.Not(same(e)))
        return other is None

    def any_layout(self, off: frozenset[str] = frozenset()) -> Layout | None:
        """A layout that meets every requirement that is not switched off, good or not; None where there is none.

        Raises:
            TimeUp: no answer within the limit.
        """
        if self.barred is not None and self.barred not in off:
            return None
        self.alive = list(self.questions)
        self.best, _ = self.propose(off=off)
        return self._answer(Verdict.FOUND).layout

    def best_layout(self, objective: Objective) -> Layout | None:
        """The proven best layout by one objective alone; None where there is none.

        Raises:
            TimeUp: no answer within the limit.
        """
        if self.any_layout() is None:
            return None
        self.improve(objective)
        return self._answer(Verdict.PROVEN).layout

    def _answer(self, verdict: Verdict) -> Answer:
        layout = usual = None
        if self.best is not None:
            frame, timber = self.questions[self.best.frame].encoding.frame, self.best.timber
            layout = build(self.project, self.best.choice, timber, self.sizes, frame)
            if timber.usual:
                usual = build(self.project, self.best.choice, replace(timber, chosen=timber.usual), self.sizes, frame)
        return Answer(verdict, layout, tuple(self.proofs), (), self.seconds, usual)

    def _again(self) -> None:
        """Begin anew, with all that was learned."""
        for question in self.questions:
            question.release()
        self.alive, self.best = list(self.questions), None
        self.reached, self.proofs = [], []

    def _kept(self) -> None:
        if self.keep:
            self.keep(self._answer(Verdict.FOUND))

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
        asked = [self._asked(term) for term in wanted]
        for n, question in enumerate(waiting):
            found = question.propose(*asked, off=off)
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
            choice = self.best.choice
            self.best = question.propose(self._asked(lambda e: e.exactly(choice))) or self.best
        way = self.questions[0].encoding.objectives[objective][1]
        most = 4 * self.questions[0].encoding.most * max(size.seats for size in self.sizes.options) + 6
        lowest = -most if way > 0 else 0

        def report(value: int, bound: int, proven: bool) -> None:
            proof = Proof(objective, -way * value, -way * bound, proven)
            self.proofs[len(self.reached) - 1 :] = [proof]
            self._kept()
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
        self._hold(lambda e: term(e) <= value())
        if report:
            report(value(), value(), True)

    def _settle_heading(self) -> None:
        """Order equal answers by their backing edge, their shape with its hand, and their corner treatment."""
        self._first_mount()
        right, left = (self._now.row(arm) is not None for arm in ARMS)
        shapes: list[Wanted] = [
            lambda e: e.straight,
            lambda e: z3.And(e.there[Side.RIGHT], z3.Not(e.there[Side.LEFT])),
            lambda e: z3.And(e.there[Side.LEFT], z3.Not(e.there[Side.RIGHT])),
            lambda e: e.both,
        ]
        self._first(shapes, right + 2 * left)
        if self._now.corner is not None:
            corners: list[Wanted] = [lambda e, kind=kind: e.corner[kind] for kind in CORNERS]  # type: ignore[misc]
            self._first(corners, CORNERS.index(self._now.corner))

    def settle(self) -> None:
        """Order equal answers: fix one choice after another to the first that is still possible."""
        self._settle_heading()
        self._settle_options()
        self._settle_ends()
        most = self.questions[0].encoding.most
        for side in (Side.MAIN, *ARMS):
            if self._now.row(side) is not None:
                self._least(lambda e, s=side: -e.rows[s].count.term, lambda s=side: -self._count(s), -most, False)  # type: ignore[misc]
        self._settle_place()

    def _settle_options(self) -> None:
        for side in (Side.MAIN, *ARMS):
            if (row := self._now.row(side)) is not None:
                ranks: list[Wanted] = [
                    lambda e, s=side, n=n: e.rows[s].option[n]  # type: ignore[misc]
                    for n in range(len(self.sizes.options))
                ]
                self._first(ranks, row.option)
        for arm in ARMS:
            if (option := self._now.cushion(arm)) is not None:
                ranks = [
                    lambda e, a=arm, n=n: e.cushion[a][n]  # type: ignore[misc]
                    for n in range(len(self.sizes.options))
                ]
                self._first(ranks, option)

    def _settle_ends(self) -> None:
        right, left = (self._now.end(hand) is EndKind.ARMED for hand in ARMS)
        ends: list[Wanted] = [
            lambda e: z3.And(*e.armed.values()),
            lambda e: e.armed[Side.RIGHT],
            lambda e: e.armed[Side.LEFT],
            lambda e: z3.Not(z3.Or(*e.armed.values())),
        ]
        self._first(ends, 0 if right and left else 1 if right else 2 if left else 3)

    def _settle_place(self) -> None:
        far = 4 * around(self.project.room) // self.sizes.mark.units + 1  # farther than any place of the room
        if self._now.aligned is not Side.MAIN:
            self._least(lambda e: e.y, lambda: int(self._now.y), -far, True)
        elif self._now.right is None and self._now.left is not None:
            # An L that turns at its high end: the farthest high end, counted backward.
            high = lambda: -int(self._now.x) - Place(self._now, self.sizes).width  # noqa: E731
            self._least(lambda e: -(e.x + e.width), high, -far, True)
        else:
            self._least(lambda e: e.x, lambda: int(self._now.x), -far, True)

    def clash(self, off: frozenset[str] = frozenset()) -> tuple[str, ...]:
        """A minimal set of requirements that cannot hold together, easily changed ones kept.

        A member is kept when the rest without it can hold, so every member is needed. All facts are gone through in one
        order, not only those of the solvers' cores, which differ with whatever was asked before. Routes come first:
        they lie within the edges, so that one could stand in for edges that were given up before it. Comes after it was
        found that nothing can be proposed.

        Args:
            off: requirements that were switched off then.
        """
        self.alive = list(self.questions)
        facts = {fact.id: fact.rank for fact in requirements(self.project) if fact.id not in off}
        kept = list(facts)
        for fact in sorted(kept, key=lambda fact: (not fact.startswith("route:"), -facts[fact])):
            rest = [other for other in kept if other != fact]
            try:
                if self.propose(off=off | frozenset(facts) - frozenset(rest))[0] is None:
                    kept = rest
            except TimeUp:
                break
        return tuple(kept)

    def _hold(self, term: Wanted) -> None:
        asked = self._asked(term)
        for question in self.alive:
            question.hold(asked)

    def _asked(self, term: Wanted) -> Asked:
        """The terms of all frames are the same."""
        return Asked.of(term(self.questions[0].encoding))

    def _first_mount(self) -> None:
        """Keep to the first mount, in the order of the edges, that holds an equal answer."""
        ways = [(mount.number, question) for question in self.alive for mount in question.encoding.frame.mounts]
        for number, question in sorted(ways, key=lambda way: way[0]):
            asked = Asked.of(mounted(number))
            found = self.best if number == self._now.mount else question.propose(asked)
            if found is not None:
                self.best, self.alive = found, [question]
                question.hold(asked)
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
    def _now(self) -> Choice:
        assert self.best is not None
        return self.best.choice

    def _count(self, side: Side) -> int:
        row = self._now.row(side)
        assert row is not None
        return row.count


def _questions(
    project: Project,
    sizes: Sizes,
    ground: Forbidden,
    deadline: float | None,
    costing: Costing | None,
    like: Search | None,
) -> list[Question]:
    """One question for each frame; they share terms, and what they learn about runs."""
    known = like.questions[0].encoding.again(project, sizes) if like is not None and like.questions else None
    encoding = known or Encoding(project, sizes)
    shared: list[z3.BoolRef] = []

    def timber(framed: Encoding, lemmas: Lemmas) -> TimberLemmas:
        if sizes.carried is not None:
            return CarriedTimber(framed, lemmas, shared)
        return (
            TimberLemmas(framed, lemmas, shared) if costing is None else PricedTimber(framed, lemmas, shared, costing)
        )

    found = []
    for n, frame in enumerate(frames(project)):
        framed = encoding.within(frame)
        lemmas = Lemmas(framed, ground)
        found.append(Question(n, framed, lemmas, timber(framed, lemmas), deadline))
    return found


def _at_most(term: Term, goal: int) -> Wanted:
    return lambda e: term(e) <= goal


def solutions(
    project: Project,
    most: int = 1,
    limit: float | None = None,
    progress: Progress | None = None,
    keep: Keep | None = None,
    costing: Costing | None = None,
    asked: Asking | None = None,
) -> Iterator[Answer]:
    """The best layouts of a project, each with its proof, best first.

    Args:
        project: the question.
        most: how many different layouts are wanted.
        limit: seconds for all together; None for no limit.
        progress: told objective, best value, proven bound and seconds, at each step.
        keep: told the best answer so far whenever it got better.
        costing: prices of boards; None where nothing has a price.
        asked: how much of an answer is wanted; None for all of it.

    Yields:
        Proven answers; or found (time ran out, best so far), impossible (the first with a minimal clash; a later one
        where no further layout differs enough) or unknown, and then no more.
    """
    yield from Search(project, limit, progress, keep, costing, asked).answers(most)


def solve(project: Project, limit: float | None = None, progress: Progress | None = None) -> Answer:
    """The best layout of a project, with its proof; see `solutions`."""
    return next(solutions(project, 1, limit, progress))


def any_layout(project: Project, limit: float | None = None, off: frozenset[str] = frozenset()) -> Layout | None:
    """A layout that meets every requirement of a project that is not switched off, good or not.

    Args:
        project: what is asked.
        limit: seconds; None for no limit.
        off: ids of requirements that need not be met.

    Returns:
        A layout; None where it is proven that there is none.

    Raises:
        TimeUp: neither within the limit.
    """
    return search_without(project, limit, off).any_layout(off)


def search_without(
    project: Project, limit: float | None = None, off: frozenset[str] = frozenset(), like: Search | None = None
) -> Search:
    """The search that is asked for a layout where some requirements are switched off.

    Args:
        project: what is asked.
        limit: seconds; None for no limit.
        off: ids of requirements that need not be met.
        like: a search of a project that may differ in its room alone, whose terms are used again then.
    """
    room = project.room
    kept = tuple(route for route in room.routes if f"route:{route.name}" not in off)
    # A route that the empty room is too narrow for would end the search before it began.
    asked = project if len(kept) == len(room.routes) else replace(project, room=replace(room, routes=kept))
    return Search(asked, limit, like=like)


__all__ = ["Keep", "Progress", "Search", "TimeUp", "any_layout", "search_without", "solutions", "solve"]
