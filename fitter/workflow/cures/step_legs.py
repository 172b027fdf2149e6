"""Less room is left before the seats than is to stay clear for legs."""

from __future__ import annotations

from dataclasses import replace

from fitter.domain.project import Project
from fitter.domain.why import Clash, Step
from fitter.workflow.cures.case import Case, greatest, with_all
from fitter.workflow.cures.wishes import counted


def legs_too_near(case: Case) -> Clash | None:
    """Compare the leg room that some layout leaves with what is asked for.

    Args:
        case: with the leg room in the clash.

    Returns:
        The clash with its steps; None where it is not about leg room, or none at all would be left.
    """
    fact, project, mark = case.fact("legroom"), case.project, case.project.mark
    if fact is None:
        return None
    asked = project.wish.legroom

    def leaving(marks: int) -> Project:
        return replace(project, wish=replace(project.wish, legroom=mark * marks))

    most = greatest(-(-asked // mark), lambda marks: case.layout(leaving(marks)) is not None)
    if not most:
        return None
    marks = with_all(most, lambda few: case.whole(leaving(few)) is not None)
    seats = counted(project.wish.least, "seat")
    stands = f"{seats} leave{'s' if project.wish.least == 1 else ''}" if _about_seats(case) else "such a bench leaves"
    left = f"{stands} {case.say(mark * most)} of leg room at most"
    if marks < most:
        left += f"; with all else that is asked, {case.say(mark * marks)}"
    wanted = replace(fact, says=f"{case.say(asked)} are to stay clear before the seats")
    short = asked - mark * marks
    missing = f"{case.say(short)} {'is' if short <= mark else 'are'} missing"
    return Clash(case.facts, (Step(case.others("legroom"), left), Step((wanted,), "")), missing, -(-short // mark))


def _about_seats(case: Case) -> bool:
    return case.fact("least") is not None or case.project.wish.least == 1
