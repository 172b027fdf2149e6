"""A project to its corner trade-off: every treatment solved in the room under the wishes, framed, laid side by side."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from fitter.checking import check_layout
from fitter.domain.frame import RailJoint, Section
from fitter.domain.layout import Layout, Proof, Verdict
from fitter.domain.notching import cut_cushions
from fitter.domain.outcome import FitResult
from fitter.domain.project import Project
from fitter.domain.sections import NOMINAL, dressed
from fitter.domain.tradeoff import Bar, Built, Ground, Step, TradeOff, Treatment, fronted, ground, shrinking
from fitter.domain.wishes import DEFAULT_ORDER, CornerKind, FillWish, Objective, Shape
from fitter.frame.corner_hold import corner_stiffness
from fitter.model import TimeUp, any_layout
from fitter.model.resizing import resized
from fitter.project.wood import HOUSING_POST, THINNEST_POST
from fitter.workflow.boards import boards_of
from fitter.workflow.costing import BoardCosts, LayoutBill, counted
from fitter.workflow.fitting import judged
from fitter.workflow.framing import frame
from fitter.workflow.solving_many import solved_many
from rooms.lengths import ZERO, Length, round_half_up

__all__ = ["corner_trade_off", "steps_of"]

Heard = Callable[[CornerKind, FitResult], None]

_CORNERED = (Shape.L, Shape.U)
_PLACES = tuple(Fraction(n, 4) for n in (0, 4, 2, 1, 3))
"""Where a grown layout is tried within the ground that it had: from its one end to its other."""


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
    prices = {kind.name: kind.price for kind in project.cushions}
    total = Fraction(0)
    for row in layout.purchases:
        price = prices[row.cushion]
        if row.buy and price is None:
            return None
        total += row.buy * (price or 0)
    return round_half_up(100 * total)


def _start(treatments: Sequence[Treatment]) -> Treatment | None:
    """Whose arrangement the steps keep: that of the inside post, else of the first with cushions in its corners."""
    return next((each for each in treatments if each.layout is not None and each.corner.cushioned), None)


def steps_of(project: Project, layout: Layout, limit: float | None = None) -> tuple[Step, ...]:
    """An inside post in an arrangement that is kept, with thinner and thicker posts, more ease and more overhang.

    All of it is exact arithmetic, and the checker tells whether it fits the room. The solver is asked only where
    nothing is left of the notch and the arrangement found no place: whether as many seats of that shape find one.

    Args:
        project: what is asked.
        layout: an arrangement with cushions in its corners.
        limit: seconds for each such question; None for no limit.
    """
    wished = replace(project, wish=replace(project.wish, corner=CornerKind.INSIDE_POST))
    inside = replace(layout, corner=CornerKind.INSIDE_POST)
    base = resized(wished, inside)
    if base is None:
        return ()
    first = ground(base.footprint)
    found = []
    for post in _posts(project):
        own = _sized(wished, post)
        start = resized(own, inside)
        notch = ZERO if start is None else _deepest(start)
        found.append(_step(own, inside, first, ZERO))
        for by in shrinking(notch, project.unit.imperial):
            found.append(_step(_eased(own, 2 * by), inside, first, 2 * by, limit))
        for by in shrinking(notch, project.unit.imperial) if project.frame.carry is None else ():
            found.append(_step(_hung(own, by), inside, first, ZERO, limit))
    steps = [step for step in found if step is not None]
    return tuple(replace(step, front=front) for step, front in zip(steps, fronted(steps), strict=True))


def _posts(project: Project) -> Iterator[Section]:
    """The post of the file, then the square sections of the table that a file could name."""
    own, frame = project.frame.post, project.frame
    yield own
    least = HOUSING_POST if frame.carpentry.rail_joint is RailJoint.HOUSING else THINNEST_POST
    for name in NOMINAL:
        section = dressed(name, project.unit)
        square = section is not None and section.thickness == section.width != own.width
        if section is not None and square and section.width >= max(least, frame.rail.thickness):
            yield section


def _sized(project: Project, post: Section) -> Project:
    return replace(project, frame=replace(project.frame, post=post))


def _eased(project: Project, more: Length) -> Project:
    cushions = tuple(replace(kind, ease=kind.ease + more) for kind in project.cushions)
    return replace(project, cushions=cushions)


def _hung(project: Project, more: Length) -> Project:
    return replace(project, frame=replace(project.frame, overhang=project.frame.overhang + more))


def _deepest(layout: Layout) -> Length:
    return max((module.notch.along_x for module in layout.modules if module.notch), default=ZERO)


def _step(
    project: Project, inside: Layout, first: Ground, more: Length, limit: float | None = None
) -> Step | None:  # fmt: skip
    """An arrangement at the sizes of a project; None where it cannot be laid out."""
    laid = resized(project, inside)
    if laid is None:
        return None
    now, notch = ground(laid.footprint), _deepest(laid)
    bar, placed = _forbidden(project, inside, notch), None
    if bar is not Bar.TIPS:
        placed = _placed(project, inside, laid)
    if bar is None and placed is None:
        bar = Bar.ROOM if notch else _barred(project, inside, limit)
    return Step(
        post=project.frame.post,
        more=more,
        overhang=project.frame.overhang,
        notch=notch,
        ground=now,
        longer=now.long - first.long,
        deeper=now.deep - first.deep,
        larger=now.area - first.area,
        gap=laid.gap,
        cents=None if placed is None else _cents(project, placed),
        bar=bar,
    )


def _forbidden(project: Project, layout: Layout, notch: Length) -> Bar | None:
    """What a file would not be allowed: an overhang of more than a third of a cushion, or a cut where none may be."""
    if any(3 * project.frame.overhang.units > min(size.units for size in kind.size[:2]) for kind in project.cushions):
        return Bar.TIPS
    used = {module.cushion for module in layout.corners}
    cut = notch and any(kind.name in used and not kind.may_notch for kind in project.cushions)
    return Bar.FOAM if cut else None


def _barred(project: Project, inside: Layout, limit: float | None) -> Bar:
    """Whether another arrangement of that shape with as many seats fits, where this one found no place."""
    wish = replace(
        project.wish, shape=inside.shape, hand=inside.hand, least=inside.seats, most=inside.seats, prefer=DEFAULT_ORDER
    )
    try:
        return Bar.NONE if any_layout(replace(project, wish=wish), limit) is None else Bar.ELSEWHERE
    except TimeUp:
        return Bar.ROOM


def _placed(project: Project, inside: Layout, laid: Layout) -> Layout | None:
    """The arrangement where the checker accepts it, moved so that what it grew by lies at either end or between.

    It keeps its distance from the edge that it stands along. None where no such place was found. Whether its cushions
    may be cut is another matter.
    """
    freely = replace(project, cushions=tuple(replace(kind, may_notch=True) for kind in project.cushions))
    tried = set()
    for share in _PLACES:
        dx, dy = _shift(project, inside, laid, share)
        if (dx, dy) not in tried:
            tried.add((dx, dy))
            moved = resized(project, inside, dx, dy)
            if moved is not None and not check_layout(freely, moved):
                return moved
    return None


def _shift(project: Project, inside: Layout, laid: Layout, share: Fraction) -> tuple[Length, Length]:
    """How far the deck corner moves so that a share of what the footprint grew by lies at its low end."""

    def low(layout: Layout, across: bool) -> int:
        return min((box.y0 if across else box.x0).units for box in layout.footprint)

    def high(layout: Layout, across: bool) -> int:
        return max((box.y1 if across else box.x1).units for box in layout.footprint)

    mark = project.mark

    def shift(across: bool) -> Length:
        kept = low(inside, across) - low(laid, across)
        other = high(inside, across) - high(laid, across)
        return Length(round(kept + share * (other - kept))).round_to(mark)

    edge = inside.pose.edge
    if edge is None:
        return shift(False), shift(True)
    off = inside.off_edge - laid.off_edge
    if inside.pose.aligned is inside.runs[0].side:
        return shift(False), off
    # An arm along the edge: it moves along y, and stays as far off the edge as it was.
    away = off if laid.pose.aligned.value == "right" else -off
    return away, shift(True)


def _cents(project: Project, layout: Layout) -> int | None:
    """What the boards cost that the layout decides on; None where posts or rails have no price."""
    costs = BoardCosts(project)
    if not {project.frame.post.name, project.frame.rail.name} <= set(costs.stocks):
        return None
    return LayoutBill(costs, layout).cost(*counted(project, layout))
