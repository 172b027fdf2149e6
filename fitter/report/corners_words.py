"""What a corner treatment gives and what it costs, in two sentences made of the computed numbers alone."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from fitter.domain.layout import Verdict
from fitter.domain.project import Project
from fitter.domain.tradeoff import Measure, TradeOff, Treatment, arms, better, ground, measured, notch_depth
from fitter.domain.wishes import CornerKind, Objective
from fitter.report.corners_units import Units
from fitter.report.reason import reason
from fitter.report.words import Teller, counted, money
from rooms.lengths import Length
from rooms.survey.wording import listed


def gives(made: TradeOff, treatment: Treatment, units: Units) -> str:
    """What a treatment that has a layout gives: seats on their ground for what they cost, and where none betters it."""
    layout, built = treatment.layout, treatment.built
    assert layout is not None
    on = ground(layout.footprint)
    seats = counted(layout.seats, "seat")
    paid = f" for {_money(Fraction(built.money))}" if built is not None and built.money is not None else ""
    size = f"{units.tell(on.long)} × {units.tell(on.deep)} ({units.area(on.area)})"
    good = [said for measure in made.compared if (said := _good(made, treatment, measure, units))]
    return f"It gives {seats}{paid}, in {_shape(treatment)} of {size}{f', with {listed(good)}' if good else ''}."


def _shape(treatment: Treatment) -> str:
    layout = treatment.layout
    assert layout is not None
    article = "an" if layout.shape.value == "L" else "a"
    return f"{article} {layout.shape}"


def costs(made: TradeOff, treatment: Treatment, units: Units) -> str:
    """What speaks against it: how far it falls behind the best of the others in each measure."""
    bad = [said for measure in made.compared if (said := _bad(made, treatment, measure, units))]
    return f"Against it: {'; '.join(bad) if bad else 'no other does better in anything compared'}."


def _others(made: TradeOff, treatment: Treatment, measure: Measure) -> list[tuple[CornerKind, Fraction]]:
    found = [(each.corner, measured(each)) for each in made.treatments if each is not treatment]
    return [(corner, value) for corner, values in found if (value := values.get(measure)) is not None]


def _seating(
    made: TradeOff, treatment: Treatment, others: Sequence[tuple[CornerKind, Fraction]], *, more: bool
) -> list[tuple[CornerKind, Fraction]]:
    """Those of them that seat as many between as many arms, or if `more`, as many or more.

    Fewer seats take fewer cushions and boards: to be cheaper than one that seats more is no merit of a corner, and to
    be dearer than one that seats fewer no fault of it. It is the same with armed ends.
    """
    counts = {each.corner: (each.layout.seats, arms(each.layout)) for each in made.treatments if each.layout}
    seats, ends = counts[treatment.corner]

    def alike(corner: CornerKind) -> bool:
        return counts[corner] == (seats, ends) or (more and counts[corner][0] >= seats and counts[corner][1] >= ends)

    return [each for each in others if alike(each[0])]


def _best(measure: Measure, others: Sequence[tuple[CornerKind, Fraction]]) -> tuple[CornerKind, Fraction]:
    """The best of them, the first of equals."""
    best = others[0]
    for each in others[1:]:
        if better(measure, each[1], best[1]):
            best = each
    return best


def _good(made: TradeOff, treatment: Treatment, measure: Measure, units: Units) -> str:
    """Where no other one is better; empty else, and where all are alike."""
    own, others = measured(treatment)[measure], _others(made, treatment, measure)
    like = ""
    if measure is Measure.MONEY:
        alike = _seating(made, treatment, others, more=False)
        ends = " and armed ends" if made.arms_differ else ""
        like = f" with as many seats{ends}" if len(alike) < len(others) else ""
        others = alike
    if own is None or not others or all(value == own for _, value in others):
        return ""
    best = _best(measure, others)[1]
    if better(measure, best, own):
        return _stiffer(own, others) if measure is Measure.STIFF else ""
    alone = better(measure, own, best)
    told: dict[Measure, Callable[[], str]] = {
        Measure.SEATS: lambda: (
            f"{counted(int(own - best), 'seat')} more than any other" if alone else "as many seats as any"
        ),
        Measure.ARMS: lambda: (
            f"{counted(int(own - best), 'armed end')} more than any other" if alone else "as many armed ends as any"
        ),
        Measure.FOAM: lambda: "no cushion cut (so it can be undone)" if not own else "the least foam cut",
        Measure.GROUND: lambda: (
            f"{units.more(best - own)} less ground than any other" if alone else "as little ground as any"
        ),
        Measure.GAP: lambda: "no gap behind cushions" if not own else "the least gap behind cushions",
        Measure.BARE: lambda: "nothing left bare" if not own else "the least left bare",
        Measure.MONEY: lambda: (
            f"{_money(best - own)} less to pay than any other{like}" if alone else f"as little to pay as any{like}"
        ),
        Measure.STIFF: lambda: (
            f"corners {_times(own / best)} as stiff as any other" if alone and best else "corners as stiff as any"
        ),
        # Told with the foam: what is cut is cut for good.
        Measure.UNDONE: lambda: "",
    }
    return told[measure]()


def _stiffer(own: Fraction, others: Sequence[tuple[CornerKind, Fraction]]) -> str:
    """How one that is neither the stiffest nor the weakest stands against the weakest: stiffness differs by far."""
    name, weakest = min(others, key=lambda each: each[1])
    return f"corners {_times(own / weakest)} as stiff as with {name}" if 0 < weakest < own else ""


def _bad(made: TradeOff, treatment: Treatment, measure: Measure, units: Units) -> str:
    """Where another one is better: by how much the best of them is."""
    own, others = measured(treatment)[measure], _others(made, treatment, measure)
    if measure is Measure.MONEY:
        others = _seating(made, treatment, others, more=True)
    if own is None or not others:
        return ""
    name, best = _best(measure, others)
    if not better(measure, best, own):
        return ""
    cut = treatment.layout.notches if treatment.layout else 0
    told: dict[Measure, Callable[[], str]] = {
        Measure.SEATS: lambda: f"{counted(int(best - own), 'seat')} fewer than with {name}",
        Measure.ARMS: lambda: f"{counted(int(best - own), 'armed end')} fewer than with {name}",
        Measure.FOAM: lambda: (
            f"{units.volume(own)} of foam cut for good, from {counted(cut, 'cushion')}"
            + (f", {units.volume(own - best)} more than with {name}" if best else "")
        ),
        Measure.GROUND: lambda: f"{units.more(own - best)} more ground than with {name}",
        Measure.GAP: lambda: f"a gap of {units.tell(Length(int(own)))} behind all cushions",
        Measure.BARE: lambda: (
            f"{units.patch(own)} left bare in corners"
            + (f", {units.patch(own - best)} more than with {name}" if best else "")
        ),
        Measure.MONEY: lambda: f"{_money(own - best)} more to pay than with {name}",
        Measure.STIFF: lambda: (
            f"{name} makes corners {_times(best / own)} as stiff as this" if own else f"{name} makes stiff corners"
        ),
        Measure.UNDONE: lambda: "",
    }
    return told[measure]()


def _money(cents: Fraction) -> str:
    return money(cents / 100)


def _times(ratio: Fraction) -> str:
    if ratio >= 2:
        return f"{float(f'{float(ratio):.2g}'):g} times"
    return f"{float(ratio):.2f} times"


def why_not(project: Project, treatment: Treatment, tell: Teller) -> str:
    """Why a treatment has no layout, in a sentence."""
    fit = treatment.fit
    if fit.verdict is not Verdict.IMPOSSIBLE:
        return "No layout was found in the time, and none was ruled out."
    if cut := _must_be_cut(project, treatment.corner, tell):
        return cut
    return reason(_asked(project, treatment.corner), fit, tell)


def _asked(project: Project, corner: CornerKind) -> Project:
    return replace(project, wish=replace(project.wish, corner=corner))


def _must_be_cut(project: Project, corner: CornerKind, tell: Teller) -> str:
    """That every cushion would have to be cut and may not be; empty where one need not or may."""
    frame = project.frame
    wood = {
        CornerKind.INSIDE_POST: (frame.post.width, f"a post of {frame.post.name}"),
        CornerKind.ANGLE_POST: (frame.angle.thickness, f"boards of {frame.angle.name}"),
    }
    if corner not in wood:
        return ""
    stands, name = wood[corner]
    cuts = [notch_depth(frame, kind, stands, project.mark) for kind in project.cushions]
    if not all(cut and not kind.may_notch for cut, kind in zip(cuts, project.cushions, strict=True)):
        return ""
    least = min(cuts, key=lambda cut: cut.units)
    which = "the cushion has" if len(cuts) == 1 else "every cushion has"
    return f"For {name} {which} to be cut back by {tell(least)} at least, and the file says that none may be cut."


def verdict_line(made: TradeOff) -> str:
    """How the comparison stands, with its verdict word first."""
    word = made.verdict
    if word is Verdict.PROVEN:
        return "proven: each treatment is at its best in this room, or proven impossible in it"
    if word is Verdict.IMPOSSIBLE:
        return "impossible: proven that no layout with a corner fits, whatever its treatment"
    stopped = "stopped by you" if made.interrupted else "time ran out"
    if word is Verdict.FOUND:
        return f"found, not proven: {stopped}; treatments without `proven` may do better"
    return f"unknown: {stopped}; no layout with a corner was found, and none was ruled out"


def straight_line(project: Project, made: TradeOff) -> Iterator[str]:
    """What a straight run would seat, as far as that is known; nothing where the file does not allow one."""
    if project.wish.shape is not None:
        return
    straight = made.straight.layout if made.straight is not None else None
    if straight is None:
        if (most := _least_bound(project, made)) is not None:
            yield f"A straight run, which has no corner, would seat {most} at most."
        return
    names = [str(each.corner) for each in made.treatments if each.straight is not None]
    seats = counted(straight.seats, "seat")
    most = max((each.layout.seats for each in made.treatments if each.layout), default=0)
    if not most:
        yield f"A straight run fits, with {seats}: it has no corners. See `fitter fit`."
    elif straight.seats > most:
        yield f"A straight run seats more: {straight.seats}, against {most} with a corner. See `fitter fit`."
    elif len(names) == len(made.treatments):
        yield f"By the objectives of the file a straight run comes first, with {seats}; below is what has a corner."
    else:
        yield (
            f"By the objectives of the file a straight run of {seats} comes before {listed(names)}; the table shows "
            "the best that has a corner."
        )


def _least_bound(project: Project, made: TradeOff) -> int | None:
    """Seats that no straight run exceeds: where they come first, those of any treatment."""
    if project.wish.prefer[0] is not Objective.SEATS:
        return None
    proofs = [each.fit.proofs[0] for each in made.treatments if each.layout and each.fit.proofs]
    return min((proof.value for proof in proofs if proof.proven), default=None)


def no_corner_line(project: Project) -> str:
    """Why there is nothing to compare in a file that asks for a straight run."""
    place = project.place("wish.shape")
    where = f" ({project.file}:{place.line})" if place else ""
    return (
        f"impossible: the file asks for a straight run{where}, and that has no corners to compare; write `shape: L`, "
        "`shape: U` or `shape: any` under `wish`"
    )
