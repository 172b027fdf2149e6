"""What a corner treatment gives and what it costs, in two sentences made of the computed numbers alone."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from fitter.domain.layout import Verdict
from fitter.domain.project import Project
from fitter.domain.tradeoff import Measure, TradeOff, Treatment, better, ground, measured, notch_depth
from fitter.domain.wishes import CornerKind, Objective
from fitter.report.reason import reason
from fitter.report.words import Teller, counted, money
from rooms.lengths import UNITS_PER_INCH, UNITS_PER_MM, Length
from rooms.survey.wording import listed


@dataclass(frozen=True)
class Units:
    """How areas and volumes are written.

    Args:
        imperial: square feet and cubic inches, or square metres and cubic centimetres.
        tell: writes lengths.
    """

    imperial: bool
    tell: Teller

    def area(self, units: Fraction | int) -> str:
        """A stretch of ground.

        >>> Units(True, str).area(144 * UNITS_PER_INCH**2), Units(False, str).area(10**6 * UNITS_PER_MM**2)
        ('1.0 sq ft', '1.00 m²')
        """
        if self.imperial:
            return f"{float(Fraction(units) / (12 * UNITS_PER_INCH) ** 2):.1f} sq ft"
        return f"{float(Fraction(units) / (1000 * UNITS_PER_MM) ** 2):.2f} m²"

    def more(self, units: Fraction | int) -> str:
        """A difference of areas, small or large."""
        return self.area(units) if Fraction(units) >= self._one else self.patch(units)

    @property
    def _one(self) -> int:
        """A square foot, or a tenth of a square metre."""
        return int((12 * UNITS_PER_INCH) ** 2 if self.imperial else (1000 * UNITS_PER_MM) ** 2 // 10)

    def patch(self, units: Fraction | int) -> str:
        """A small area: what a corner leaves bare."""
        if self.imperial:
            return f"{float(Fraction(units) / UNITS_PER_INCH**2):.0f} sq in"
        return f"{float(Fraction(units) / (10 * UNITS_PER_MM) ** 2):.0f} cm²"

    def volume(self, units: Fraction | int) -> str:
        """Foam."""
        if self.imperial:
            return f"{float(Fraction(units) / UNITS_PER_INCH**3):.0f} cu in"
        return f"{float(Fraction(units) / (10 * UNITS_PER_MM) ** 3):.0f} cm³"


def stiffness(value: float) -> str:
    """In kN·m a radian, to three digits.

    >>> stiffness(15_123_456.0), stiffness(843_900.0)
    ('15.1', '0.844')
    """
    return f"{float(f'{value / 1e6:.3g}'):g}"


def gives(made: TradeOff, treatment: Treatment, units: Units) -> str:
    """What a treatment that has a layout gives: seats on their ground, and all that no other one betters."""
    layout = treatment.layout
    assert layout is not None
    on = ground(layout.footprint)
    seats = counted(layout.seats, "seat")
    size = f"{seats} in {_shape(treatment)} on {units.tell(on.long)} × {units.tell(on.deep)}, {units.area(on.area)}"
    good = [said for measure in made.compared if (said := _good(made, treatment, measure, units))]
    return f"It gives {size}{f', with {listed(good)}' if good else ''}."


def _shape(treatment: Treatment) -> str:
    layout = treatment.layout
    assert layout is not None
    article = "an" if layout.shape.value == "L" else "a"
    return f"{article} {layout.shape}"


def costs(made: TradeOff, treatment: Treatment, units: Units) -> str:
    """What it costs against the best of the others in each measure."""
    bad = [said for measure in made.compared if (said := _bad(made, treatment, measure, units))]
    if not bad:
        return "In none of this any other is better."
    return f"It costs {listed(bad)}."


def _others(made: TradeOff, treatment: Treatment, measure: Measure) -> list[tuple[CornerKind, Fraction]]:
    found = [(each.corner, measured(each)) for each in made.treatments if each is not treatment]
    if measure is Measure.MONEY:
        # Fewer seats take fewer cushions and boards: that is no merit of a corner.
        seats = measured(treatment)[Measure.SEATS]
        found = [
            (corner, values) for corner, values in found if values and (values[Measure.SEATS] or 0) >= (seats or 0)
        ]
    return [(corner, value) for corner, values in found if (value := values.get(measure)) is not None]


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
    if own is None or not others or all(value == own for _, value in others):
        return ""
    like = " with as many seats" if len(others) < len(_others(made, treatment, Measure.SEATS)) else ""
    best = _best(measure, others)[1]
    if better(measure, best, own):
        return ""
    alone = better(measure, own, best)
    told: dict[Measure, Callable[[], str]] = {
        Measure.SEATS: lambda: f"{own - best} more than any other" if alone else "as many seats as any",
        Measure.FOAM: lambda: "no foam cut" if not own else "the least foam cut",
        Measure.GROUND: lambda: (
            f"{units.more(best - own)} less ground than any other" if alone else "as little ground as any"
        ),
        Measure.GAP: lambda: "no gap behind cushions" if not own else "the least gap behind cushions",
        Measure.BARE: lambda: "nothing left bare in corners" if not own else "the least left bare in corners",
        Measure.MONEY: lambda: (
            f"{_money(best - own)} less to spend than any other{like}" if alone else f"as little to spend as any{like}"
        ),
        Measure.STIFF: lambda: (
            f"corners {_times(own / best)} as stiff as any other" if alone and best else "as stiff corners as any"
        ),
        Measure.UNDONE: lambda: "a way back, since no cushion is cut",
    }
    return told[measure]()


def _bad(made: TradeOff, treatment: Treatment, measure: Measure, units: Units) -> str:
    """Where another one is better: by how much the best of them is."""
    own, others = measured(treatment)[measure], _others(made, treatment, measure)
    if own is None or not others:
        return ""
    name, best = _best(measure, others)
    if not better(measure, best, own):
        return ""
    told: dict[Measure, Callable[[], str]] = {
        Measure.SEATS: lambda: f"{counted(int(best - own), 'seat')} against {name}",
        Measure.FOAM: lambda: f"{units.volume(own - best)} of foam{'' if best else f', where {name} cuts none'}",
        Measure.GROUND: lambda: f"{units.more(own - best)} more ground than {name}",
        Measure.GAP: lambda: f"a gap of {units.tell(Length(int(own)))} behind all cushions",
        Measure.BARE: lambda: (
            f"{units.patch(own)} left bare in corners"
            + (f", {units.patch(own - best)} more than {name}" if best else "")
        ),
        Measure.MONEY: lambda: f"{_money(own - best)} more than {name}",
        Measure.STIFF: lambda: f"{_share(1 - own / best)} of the stiffness of {name}",
        Measure.UNDONE: lambda: "the way back, since a cushion that is cut stays cut",
    }
    return told[measure]()


def _money(cents: Fraction) -> str:
    return money(cents / 100)


def _times(ratio: Fraction) -> str:
    if ratio >= 2:
        return f"{float(f'{float(ratio):.2g}'):g} times"
    return f"{float(ratio):.2f} times"


def _share(ratio: Fraction) -> str:
    """A share in percent; what is nearly all of it is not rounded up to all."""
    percent = float(100 * ratio)
    return f"{percent:.1f} %" if percent > 98 else f"{percent:.0f} %"


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
    return f"For {name} {which} to be cut {tell(least)} deep at least, and the file says that none may be cut."


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
            yield f"No straight run seats more than {most}."
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
