"""What a variant is called, how differences are written, and why a variant cannot be had."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from fitter.domain.designs import Change, Design, Laid, What, run_length
from fitter.domain.layout import Verdict
from fitter.domain.outcome import FitResult
from fitter.domain.project import Project
from fitter.domain.spending import More, Spent, Unknown
from fitter.domain.variants import Variant
from fitter.domain.wishes import Shape
from fitter.report.reason import clauses
from fitter.report.words import Teller, counted, money, run_name
from rooms.lengths import Length
from rooms.survey.wording import listed

UNKNOWN = "?"
"""Stands for what nobody has told, or what time did not allow; never for nothing."""


def name(change: Change | None, base: Design) -> str:
    """What a variant is called.

    Args:
        change: None for the published design.
        base: the published design.
    """
    if change is None:
        return "as published"
    if change.what is What.COUNT and change.run is not None:
        run = base.run(change.run)
        assert run is not None, "only runs that there are change"
        count = counted(run.count + change.more, "module")
        return f"{run_name(change.run)} {count} ({signed(change.more)})"
    if change.what is What.HAND:
        return f"short run on the {change.design.hand}"
    if change.laid is not None:
        return f"cushion {laid_name(change.laid)}"
    return str(change.design.corner)


def laid_name(laid: Laid) -> str:
    """A cushion, and that it lies turned."""
    return f"{laid.cushion}, turned" if laid.turned else laid.cushion


def signed(number: int) -> str:
    """A difference of counts.

    >>> signed(2), signed(-1), signed(0)
    ('+2', '-1', '0')
    """
    return f"{number:+d}" if number else "0"


def signed_length(length: Length, tell: Teller) -> str:
    """A difference of lengths."""
    return f"{'+' if length.units > 0 else '-'}{tell(abs(length))}" if length else "0"


def cents(amount: int | None) -> str:
    """An amount of cents, where it is known."""
    return UNKNOWN if amount is None else money(Fraction(amount, 100))


def signed_cents(amount: int | None) -> str:
    """A difference of money, where it is known."""
    if amount is None:
        return UNKNOWN
    return f"{'-' if amount < 0 else '+'}{money(Fraction(abs(amount), 100))}" if amount else "0"


def total(spent: Spent) -> str:
    """What is known of a cost, and a sign where that is not all."""
    if spent.total is None:
        return UNKNOWN
    return cents(spent.total) if spent.complete else f"{cents(spent.total)} + {UNKNOWN}"


_BESIDE = {Unknown.MORE: f"+ {UNKNOWN}", Unknown.LESS: f"- {UNKNOWN}"}


def signed_more(more: More) -> str:
    """A difference of money, with a sign for what has no price and is more, or less, than before."""
    if more.unknown is Unknown.NOTHING:
        return signed_cents(more.cents)
    beside = _BESIDE.get(more.unknown)
    if beside is None:
        return UNKNOWN
    return f"{signed_cents(more.cents)} {beside}" if more.cents else beside


def here(project: Project, variant: Variant, tell: Teller) -> str:
    """Whether a variant that is built stands in the room of the file, with the first reason where it does not."""
    found = variant.here
    if found is None:
        return "yes"
    if found.layout is not None and found.verdict is not Verdict.FAULT:
        return "yes"
    if found.verdict is Verdict.IMPOSSIBLE:
        told = clauses(project, found, tell)
        return f"no, because {'; '.join(told)}" if told else "no"
    return "not known: time ran out"


def unbuilt(variant: Variant) -> str:
    """Why a variant has no frame."""
    fit: FitResult = variant.boards.framed.fit
    if fit.verdict is Verdict.UNKNOWN:
        return "not known: time ran out"
    told = [fact.says for fact in variant.clash if not fact.id.startswith("edge:")]
    return f"cannot be built: {'; '.join(told) or variant.lacks or 'its parts cannot be put together so'}"


def explained(project: Project, change: Change, base: Design) -> Iterator[str]:
    """What a reader would wonder about: runs that change roles, cushions that lie otherwise, seats that differ."""
    design = change.design
    if change.swapped:
        arm = next(run for side, run in design.runs() if side is design.hand)
        yield (
            f"The arm is now the longer run, and the longest is the main one, so they change roles: main run of "
            f"{counted(design.main.count, 'module')}, arm of {arm.count}, on the {design.hand}."
        )
    if base.shape is Shape.U and project.wish.against is not None and change.what is What.COUNT:
        runs = list(design.runs())
        longest = max(run_length(project, run) for _, run in runs)
        if run_length(project, design.main) < longest:
            those = [run_name(side) for side, run in runs if run_length(project, run) == longest]
            yield f"The longest run is the {listed(those)}: its back goes along the edge."
    if change.laid is not None:
        counts = [f"{run_name(side)} {counted(run.count, 'module')}" for side, run in design.runs()]
        yield f"Each run seats as many as published, or the next number that whole cushions give: {', '.join(counts)}."
