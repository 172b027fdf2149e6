"""More seats are wanted than find a place, or than there are cushions for."""

from __future__ import annotations

from dataclasses import dataclass, replace

from fitter.domain.cushions import Cushion
from fitter.domain.project import Project
from fitter.domain.requirements import Rank, Requirement
from fitter.domain.why import Clash, Step
from fitter.workflow.cures.case import Case, greatest, with_all
from fitter.workflow.cures.wishes import counted
from rooms.lengths import ZERO, Length
from rooms.survey.wording import listed

_SHAPED = frozenset(("shape", "hand", "corner", "ends", "end:left", "end:right", "carry"))
"""Wishes for which one seat may not be enough."""


def seats_too_many(case: Case) -> Clash | None:
    """Compare the seats that are wanted with those that find a place at most.

    Args:
        case: of any kind.

    Returns:
        The clash with its steps; None where it is not about a number of seats.
    """
    least = case.fact("least")
    if least is None or case.project.wish.least == 1:
        return _not_even_one(case) if not _SHAPED.intersection(case.ids) else None
    return _fewer(case, least)


def _fewer(case: Case, least: Requirement) -> Clash:
    """So many seats find a place, and no more."""
    project = case.project

    def seating(seats: int) -> Project:
        return replace(project, wish=replace(project.wish, least=seats))

    def fits(seats: int) -> bool:
        return case.layout(seating(seats)) is not None

    def fits_with_all(seats: int) -> bool:
        return case.whole(seating(seats)) is not None

    most = greatest(project.wish.least, fits, (project.wish.least - 1,))
    fewest = with_all(most, fits_with_all, (most - 1,))
    others = case.others("least")
    shed = all(fact.id.startswith(("stock:", "buy")) for fact in others)
    if most == 0:
        bound = "not even one seat finds a place"
    elif shed:
        there = [f"{kind.own} of `{kind.name}`" for kind in project.cushions if kind.own]
        bound = f"the cushions that are there ({listed(there)}) make {counted(most, 'seat')} at most"
    else:
        bound = f"{counted(most, 'seat')} {'finds' if most == 1 else 'find'} a place at most"
    if fewest < most:
        bound += f"; with all else that is asked, {fewest}"
    wanted = replace(least, says=f"{counted(project.wish.least, 'seat')} are wanted")
    over = project.wish.least - fewest
    missing = f"{counted(over, 'seat')} {'is' if over == 1 else 'are'} {'missing' if shed else 'too many'}"
    narrower = None if shed else _narrower(case)
    if narrower is None:
        return Clash(case.facts, (Step(others, bound), Step((wanted,), "")), missing, over)
    seats = counted(project.wish.least, "seat")
    fit = f"{seats} find a place if each cushion takes {case.say(narrower.free)} or less"
    missing = f"{case.say(narrower.short)} {narrower.be} missing for each cushion"
    return Clash(case.facts, (Step(others, bound), Step((narrower.size, wanted), fit)), missing, over)


def _not_even_one(case: Case) -> Clash:
    """Not one seat finds a place; how narrow its cushion would have to be."""
    bound, narrower = Step(case.others("least"), "not even one seat finds a place"), _narrower(case)
    if narrower is None:
        return Clash(case.facts, (bound,))
    fit = f"one seat finds a place if its cushion takes {case.say(narrower.free)} or less"
    missing = f"{case.say(narrower.short)} {narrower.be} missing for the cushion"
    return Clash(case.facts, (bound, Step((narrower.size,), fit)), missing, narrower.short // case.project.mark)


@dataclass(frozen=True)
class _Narrower:
    """How narrow cushions of the only kind would have to be.

    Args:
        size: what each takes, as a premise.
        free: what it may take at most.
        short: the difference.
        be: `is` or `are` of it.
    """

    size: Requirement
    free: Length
    short: Length
    be: str


def _narrower(case: Case) -> _Narrower | None:
    """With all that is asked kept; None where no width does, or there are several kinds or ways to lay them."""
    project, mark = case.project, case.project.mark
    if len(project.cushions) != 1 or project.cushions[0].may_turn:
        return None
    kind = project.cushions[0]
    pitch = (kind.size[0] + kind.ease).ceil_to(mark)

    def fits(marks: int) -> bool:
        return case.whole(replace(project, cushions=(_wide(kind, mark * marks),))) is not None

    # A cushion that is narrower by more than a third is none that a shop sells in its place.
    fewest = pitch // mark * 2 // 3
    if not fits(fewest):
        return None
    free = mark * (fewest + greatest(pitch // mark - fewest, lambda more: fits(fewest + more)))
    key = next((k for k in ("cushions.0.measured", "cushions.0.size") if k in project.places), "cushions.0")
    eased = f" with its ease of {case.say(kind.ease)}" if kind.ease > ZERO else ""
    size = Requirement(f"cushion:{kind.name}", key, f"each cushion takes {case.say(pitch)}{eased}", Rank.CUSHION)
    return _Narrower(size, free, pitch - free, "is" if pitch - free <= mark else "are")


def _wide(kind: Cushion, pitch: Length) -> Cushion:
    """A cushion that takes another width along the run, and is as deep as before."""
    width, (_, depth, thick) = pitch - kind.ease, kind.size
    return replace(kind, measured=(width, depth, thick), ease_most=None)
