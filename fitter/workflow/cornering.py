"""A project to its corner trade-off: every treatment solved in the room under the wishes, framed, laid side by side."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from fractions import Fraction

from fitter.domain.layout import Layout, Proof, Verdict
from fitter.domain.notching import cut_cushions
from fitter.domain.outcome import FitResult
from fitter.domain.project import Project
from fitter.domain.tradeoff import Built, TradeOff, Treatment
from fitter.domain.wishes import CornerKind, FillWish, Objective, Shape
from fitter.frame.corner_hold import corner_stiffness
from fitter.report.setting import purchases
from fitter.workflow.boards import boards_of
from fitter.workflow.fitting import judged
from fitter.workflow.framing import frame
from fitter.workflow.notch_steps import steps_of
from fitter.workflow.solving_many import solved_many
from rooms.lengths import round_half_up

__all__ = ["corner_trade_off"]

Heard = Callable[[CornerKind, FitResult], None]

_CORNERED = (Shape.L, Shape.U)


def corner_trade_off(
    project: Project, limit: float | None = None, heard: Heard | None = None, at_once: int | None = None
) -> TradeOff:
    """Solve every corner treatment to its best layout, frame it, and vary the sizes of an inside post.

    Args:
        project: what is asked; the treatment that it asks for is left out of account, and so is what fills the room
            that is left, which would hide what a corner takes. Its shape must not be straight.
        limit: seconds for the solver, for each treatment; None for no limit.
        heard: told each answer as it comes.
        at_once: how many solvers work at the same time; None for as many as there are cores.

    Returns:
        All treatments in their order. Each layout is the best of those with a corner: that of a plain fit, or where
        a straight run does better, the better one of an L and a U.

    Raises:
        SolverError: a solver's process failed.
    """
    project = replace(project, wish=replace(project.wish, fill=FillWish.NONE))
    questions = [replace(project, wish=replace(project.wish, corner=corner)) for corner in CornerKind]

    def told(index: int, result: FitResult) -> None:
        if heard:
            heard(tuple(CornerKind)[index], result)

    plain = _solved(questions, limit, at_once, told)
    cornered = _cornered(questions, plain, limit, at_once)
    treatments = tuple(
        Treatment(corner, fit, _built(question, fit), _straight(first))
        for corner, question, first, fit in zip(CornerKind, questions, plain, cornered, strict=True)
    )
    start = _start(treatments)
    steps = steps_of(project, start.layout, limit) if start is not None and start.layout is not None else ()
    return TradeOff(
        treatments,
        project.wish.corner,
        steps,
        start.corner if start and steps else None,
        next((fit for fit in plain if _straight(fit) is not None), None),
        any(fit.interrupted for fit in (*plain, *cornered)),
    )


def _solved(
    questions: Sequence[Project],
    limit: float | None,
    at_once: int | None,
    told: Callable[[int, FitResult], None] | None = None,
) -> list[FitResult]:
    found: dict[int, FitResult] = {}
    for index, answers in solved_many(questions, limit, at_once):
        found[index] = judged(questions[index], answers)
        if told:
            told(index, found[index])
    return [found[index] for index in range(len(questions))]


def _straight(fit: FitResult) -> int | None:
    """The seats of the best layout where that has no corner."""
    return fit.layout.seats if fit.layout is not None and fit.layout.corner is None else None


def _cornered(
    questions: Sequence[Project], plain: Sequence[FitResult], limit: float | None, at_once: int | None
) -> list[FitResult]:
    """The best layouts with a corner: where a straight run does better, the better one of an L and a U."""
    open_ones = [n for n, fit in enumerate(plain) if _straight(fit) is not None]
    shaped = [
        replace(questions[n], wish=replace(questions[n].wish, shape=shape)) for n in open_ones for shape in _CORNERED
    ]
    found = _solved(shaped, limit, at_once)
    cornered = list(plain)
    for place, n in enumerate(open_ones):
        cornered[n] = _better(questions[n], found[2 * place], found[2 * place + 1])
    return cornered


def _better(project: Project, ell: FitResult, you: FitResult) -> FitResult:
    """The better of two answers by the objectives; at equal values the first edge, then the L, as in every fit."""
    if Verdict.FAULT in (ell.verdict, you.verdict):
        return ell if ell.verdict is Verdict.FAULT else you
    if ell.layout is None or you.layout is None:
        found = you if ell.layout is None else ell
        lacking = ell if ell.layout is None else you
        # One that was not ruled out may yet hold a better one.
        open_end = lacking.verdict is Verdict.UNKNOWN and found.verdict in (Verdict.PROVEN, Verdict.IMPOSSIBLE)
        return _unproven(found) if open_end else found
    best = min((ell, you), key=lambda fit: _rank(project, fit))
    proven = ell.verdict is you.verdict is Verdict.PROVEN
    return best if proven else _unproven(best)


def _unproven(fit: FitResult) -> FitResult:
    if not fit.layouts:
        return replace(fit, verdict=Verdict.UNKNOWN, clash=(), blocked=())
    return replace(
        fit,
        verdict=Verdict.FOUND,
        layouts=tuple(replace(each, verdict=Verdict.FOUND) for each in fit.layouts),
    )


def _rank(project: Project, fit: FitResult) -> tuple[object, ...]:
    layout = fit.layout
    assert layout is not None
    edges = [edge.name for edge in project.room.edges]
    edge = edges.index(layout.pose.edge) if layout.pose.edge else 0
    return (*(_signed(proof) for proof in fit.proofs), edge, _CORNERED.index(layout.shape))


def _signed(proof: Proof) -> int:
    """A value of which less is better."""
    return -proof.value if proof.objective is Objective.SEATS else proof.value


def _built(project: Project, fit: FitResult) -> Built | None:
    """The frame of the best layout, with its boards; None without a layout or where it is a fault."""
    framed = frame(project, fit)
    layout, woodwork = fit.layout, framed.woodwork
    if layout is None or woodwork is None:
        return None
    boards = boards_of(project, framed)
    stiff = corner_stiffness(woodwork, layout, project.frame.carpentry.species)
    return Built(
        parts=len(woodwork.parts),
        boards=boards.cost,
        covered=boards.complete,
        cushions=_cushion_cents(project, layout),
        foam=sum(cut.volume for cut in cut_cushions(layout, project.cushions)),
        stiffness=None if stiff is None else stiff.stiffness,
        held="" if stiff is None else stiff.holds,
        checked=(*framed.checked, *(f for s in boards.sections if s.result for f in s.result.checked)),
    )


def _cushion_cents(project: Project, layout: Layout) -> int | None:
    """What the cushions to buy cost; None where one of them has no price."""
    costs = [row.cost for row in purchases(project, layout)]
    known = [cost for cost in costs if cost is not None]
    return round_half_up(100 * sum(known, Fraction(0))) if len(known) == len(costs) else None


def _start(treatments: Sequence[Treatment]) -> Treatment | None:
    """Whose arrangement the steps keep: that of the inside post, else of the first with cushions in its corners."""
    return next((each for each in treatments if each.layout is not None and each.corner.cushioned), None)
