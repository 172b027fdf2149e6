"""The answer to one project as far as a sweep shows it: solved no further, checked, and kept as a row of values."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from fitter.checking import check_layout
from fitter.domain.layout import Answer, Box, Layout, Proof, Verdict
from fitter.domain.outcome import FitResult, LayoutResult
from fitter.domain.project import Project
from fitter.domain.sweeps import Look, Shown, Value
from fitter.domain.wishes import CornerKind, EndKind, Objective, Shape, Side
from fitter.model import Settled, Wanted, mount_number
from fitter.workflow.costing import priced
from fitter.workflow.fitting import judged
from fitter.workflow.solving import solved, solved_apart

OBJECTIVES: dict[Shown, Objective] = {
    Shown.SEATS: Objective.SEATS,
    Shown.COST: Objective.MONEY,
    Shown.NOTCHED: Objective.WHOLE,
    Shown.TALL: Objective.TALL,
    Shown.BUY: Objective.BUY,
    Shown.POSTS: Objective.POSTS,
    Shown.LENGTHS: Objective.LENGTHS,
    Shown.OFF_EDGE: Objective.CLOSE,
}

_SHAPES = ((Shape.STRAIGHT, None), (Shape.L, Side.RIGHT), (Shape.L, Side.LEFT), (Shape.U, None))


class FaultError(Exception):
    """The checker does not accept a layout of the solver."""

    def __init__(self, project: Project, result: FitResult) -> None:
        super().__init__("the solver and the checker disagree")
        self.project, self.result = project, result


class StoppedError(Exception):
    """The user stopped the work."""


@dataclass(frozen=True)
class Reading:
    """The answer to one project, by values in their order.

    Args:
        index: of the value in the sweep.
        project: that was asked.
        verdict: of the answer.
        ranks: what the search made least, one after another, all proven: objectives (seats negative), then what equal
            answers were ordered by, as far as it went. Each layout of the project that reaches them is as good.
        decided: how many of them decide what is shown: every layout of this project that reaches so many shows that.
        look: what is shown.
        layout: of the answer.
        result: why no layout fits, or none was found; None where one was.
    """

    index: int
    project: Project
    verdict: Verdict
    ranks: tuple[int, ...]
    decided: int
    look: Look
    layout: Layout | None = None
    result: FitResult | None = None

    @property
    def proven(self) -> bool:
        """Whether the answer is the best one, or proven to be none."""
        return self.verdict in (Verdict.PROVEN, Verdict.IMPOSSIBLE)


@dataclass
class Asker:
    """Solves projects as far as is shown.

    Args:
        shown: what is shown.
        limit: seconds for each; None for no limit.
        apart: whether the solver works in a process of its own.
        solves: how often it was asked so far.
    """

    shown: tuple[Shown, ...]
    limit: float | None = None
    apart: bool = False
    solves: int = field(default=0, init=False)

    def read(self, index: int, project: Project, depth: int = 0) -> Reading:
        """Solve a project.

        Args:
            index: of its value.
            project: the question.
            depth: so many values at least are to be made least, where there are so many.

        Raises:
            FaultError: the checker does not accept the layout.
            StoppedError: the user stopped the search.
        """
        order = order_of(project)
        asked = self._asked(order, depth)
        told = (solved_apart if self.apart else solved)(project, 1, self.limit, None, asked)
        self.solves += 1
        if told.interrupted:
            raise StoppedError
        answer = told.answers[0]
        layout = answer.layout
        if layout is None:
            look = Look(answer.verdict)
            return Reading(index, project, answer.verdict, (), 0, look, result=judged(project, told))
        if faults := check_layout(project, layout):
            shown = LayoutResult(1, Verdict.FAULT, layout, answer.proofs)
            raise FaultError(project, FitResult(Verdict.FAULT, (shown,), checked=faults))
        ranks = tuple(_rank(proof) for proof in answer.proofs)
        if answer.verdict is Verdict.PROVEN and len(ranks) == len(order):
            ranks += tuple(ties(project, layout, asked.settled))
        return Reading(
            index,
            project,
            answer.verdict,
            ranks,
            len(ranks),
            Look(answer.verdict, self._values(answer, layout)),
            layout,
        )

    def _asked(self, order: Sequence[Objective], depth: int) -> Wanted:
        """What decides all that is shown; a heading tells the seats too."""
        needed = [OBJECTIVES[one] for one in self.shown if one in OBJECTIVES]
        settled = Settled.NOTHING
        if Shown.LAYOUT in self.shown:
            needed.append(Objective.SEATS)
            settled = Settled.HEADING
        if Shown.AREA in self.shown:
            settled = Settled.WHOLE
        least = max((order.index(objective) + 1 for objective in needed if objective in order), default=0)
        return Wanted(min(max(least, depth), len(order)), settled)

    def _values(self, answer: Answer, layout: Layout) -> tuple[Value, ...]:
        proofs = {proof.objective: proof.value for proof in answer.proofs}
        found: dict[Shown, Value] = {one: proofs.get(objective) for one, objective in OBJECTIVES.items()}
        found |= {Shown.LAYOUT: heading(layout), Shown.VERDICT: (str(answer.verdict),)}
        if Shown.AREA in self.shown:
            found[Shown.AREA] = covered(layout.footprint)
        return tuple(found[one] for one in self.shown)


def order_of(project: Project) -> tuple[Objective, ...]:
    """The objectives that count in a project, in order."""
    return tuple(aim for aim in project.wish.prefer if aim is not Objective.MONEY or priced(project))


def heading(layout: Layout) -> tuple[str, ...]:
    """What a layout is in a word: shape, seats, hand and corner treatment, as far as it has them."""
    hand = "" if layout.hand is None else str(layout.hand)
    corner = "" if layout.corner is None else str(layout.corner)
    return str(layout.shape), str(layout.seats), hand, corner


def _rank(proof: Proof) -> int:
    return -proof.value if proof.objective is Objective.SEATS else proof.value


def ties(project: Project, layout: Layout, settled: Settled) -> Iterator[int]:
    """What equal answers are ordered by, but for their place."""
    if settled is Settled.NOTHING:
        return
    yield mount_number(project, layout.pose)
    yield _SHAPES.index((layout.shape, layout.hand))
    yield -1 if layout.corner is None else tuple(CornerKind).index(layout.corner)
    if settled is not Settled.WHOLE:
        return
    kinds = [cushion.name for cushion in project.cushions]
    chain = [layout.run(side) for side in (Side.MAIN, Side.RIGHT, Side.LEFT)]
    yield from (-1 if run is None else 2 * kinds.index(run.cushion) + run.turned for run in chain)
    for corner in layout.corners:
        yield -1 if corner.cushion is None else 2 * kinds.index(corner.cushion) + corner.turned
    armed = {end.hand: end.kind is EndKind.ARMED for end in layout.ends}
    yield 3 - 2 * armed[Side.RIGHT] - armed[Side.LEFT]
    yield from (0 if run is None else -run.count for run in chain)


def covered(boxes: Sequence[Box]) -> int:
    """The area that boxes cover together, in square units of `rooms.lengths`, exactly."""
    xs = sorted({x.units for box in boxes for x in (box.x0, box.x1)})
    ys = sorted({y.units for box in boxes for y in (box.y0, box.y1)})
    area = 0
    for x0, x1 in pairwise(xs):
        across = [box for box in boxes if box.x0.units <= x0 and x1 <= box.x1.units]
        for y0, y1 in pairwise(ys):
            if any(box.y0.units <= y0 and y1 <= box.y1.units for box in across):
                area += (x1 - x0) * (y1 - y0)
    return area
