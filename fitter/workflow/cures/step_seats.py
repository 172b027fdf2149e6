"""More seats are wanted than find a place, or than there are cushions for."""

from __future__ import annotations

from dataclasses import replace

from fitter.domain.cushions import Cushion
from fitter.domain.requirements import Rank, Requirement
from fitter.domain.why import Clash, Step
from fitter.workflow.cures.case import Case, greatest, with_all
from fitter.workflow.cures.wishes import counted
from rooms.lengths import ZERO, Length


def seats_too_many(case: Case) -> Clash | None:
    """Compare the seats that are wanted with those that find a place at most.

    Args:
        case: with the number of seats in the clash.

    Returns:
        The clash with its steps; None where seats are not in it.
    """
    project, least = case.project, case.fact("least")
    if least is None:
        return None

    def fits(seats: int) -> bool:
        return seats == 0 or case.layout(replace(project, wish=replace(project.wish, least=seats))) is not None

    most = greatest(project.wish.least, fits, (project.wish.least - 1,))
    others = case.others("least")
    shed = all(fact.id.startswith(("stock:", "buy")) for fact in others)
    if most == 0:
        bound = "not even one seat finds a place"
    elif shed:
        bound = f"the cushions that are there make {counted(most, 'seat')} at most"
    else:
        bound = f"{counted(most, 'seat')} {'finds' if most == 1 else 'find'} a place at most"
    fewest = with_all(
        most, lambda n: case.whole(replace(project, wish=replace(project.wish, least=n))) is not None, (most - 1,)
    )
    if fewest < most:
        bound += f"; with all else that is asked, {fewest}"
    narrower = None if shed else _narrower(case)
    if project.wish.least == 1:
        last, missing, gap = _one(narrower, case)
        return Clash(case.facts, (Step(others, bound), *last), missing, gap)
    wanted = replace(least, says=f"{counted(project.wish.least, 'seat')} are wanted")
    over = project.wish.least - fewest
    missing = f"{counted(over, 'seat')} {'is' if over == 1 else 'are'} {'missing' if shed else 'too many'}"
    steps = [Step(others, bound), Step((wanted,), "")]
    if narrower is not None:
        size, free, short = narrower
        seats = counted(project.wish.least, "seat")
        fit = f"{seats} find a place if each cushion takes {case.say(free)} or less"
        steps = [steps[0], Step((size, wanted), fit)]
        missing = f"{case.say(short)} {_be(short, case)} missing for each cushion"
    return Clash(case.facts, tuple(steps), missing, over)


def _be(length: Length, case: Case) -> str:
    return "is" if length <= case.project.mark else "are"


def _one(
    narrower: tuple[Requirement, Length, Length] | None, case: Case
) -> tuple[tuple[Step, ...], str, int]:  # fmt: skip
    """What is told where not one seat finds a place: how narrow a cushion would have to be."""
    if narrower is None:
        return (), "one seat is the least that a layout has", 0
    size, free, gap = narrower
    step = Step((size,), f"one seat finds a place if its cushion takes {case.say(free)} or less")
    return (step,), f"{case.say(gap)} {_be(gap, case)} missing for the cushion", gap // case.project.mark


def _narrower(case: Case) -> tuple[Requirement, Length, Length] | None:
    """Of one kind of cushion: what each takes, how little it would have to take, and the difference; else None."""
    project, mark = case.project, case.project.mark
    if len(project.cushions) != 1 or project.cushions[0].may_turn:
        return None
    kind = project.cushions[0]
    pitch = (kind.size[0] + kind.ease).ceil_to(mark)

    def fits(marks: int) -> bool:
        return case.layout(replace(project, cushions=(_wide(kind, mark * marks),))) is not None

    marks = greatest(pitch // mark, fits)
    if not marks:
        return None
    key = next((k for k in ("cushions.0.measured", "cushions.0.size") if k in project.places), "cushions.0")
    eased = f", its ease of {case.say(kind.ease)} counted in" if kind.ease > ZERO else ""
    size = Requirement(f"cushion:{kind.name}", key, f"each cushion takes {case.say(pitch)}{eased}", Rank.CUSHION)
    return size, mark * marks, pitch - mark * marks


def _wide(kind: Cushion, pitch: Length) -> Cushion:
    """A cushion that takes another width along the run, and is as deep as before."""
    width, (_, depth, thick) = pitch - kind.ease, kind.size
    return replace(kind, measured=(width, depth, thick), ease_most=None)
