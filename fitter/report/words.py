"""How lengths, counts, money and verdicts are written, the same everywhere."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from fitter.domain.corner_words import corner_name as corner_name
from fitter.domain.findings import Place
from fitter.domain.layout import Layout, Proof, Side, Verdict
from fitter.domain.outcome import FitResult, LayoutResult
from fitter.domain.project import Project
from fitter.domain.wishes import Objective
from rooms.lengths import Length, Unit, format_length

Teller = Callable[[Length], str]

SAFETY = "Check every length against the tape before sawing"

_BETTER = {
    Objective.SEATS: "more",
    Objective.TALL: "fewer",
    Objective.WHOLE: "fewer",
    Objective.MONEY: "less",
    Objective.BUY: "fewer",
    Objective.POSTS: "fewer",
    Objective.LENGTHS: "fewer",
    Objective.CLOSE: "closer",
}


_ONE = {
    Objective.SEATS: "seat",
    Objective.TALL: "corner without a tall post",
    Objective.WHOLE: "cushion notched",
    Objective.BUY: "cushion to buy",
    Objective.POSTS: "post",
    Objective.LENGTHS: "rail length",
}


def teller(unit: Unit, denominator: int = 16, *, feet: bool = True) -> Teller:
    """A function that writes lengths as a tape shows them.

    Args:
        unit: of the project.
        denominator: finest fraction of an inch.
        feet: False for inches only, as rails and boards are called out.
    """

    def tell(length: Length) -> str:
        return format_length(length, unit, denominator=denominator, feet=feet)

    return tell


def counted(number: int, one: str, many: str = "") -> str:
    """A number with its noun.

    >>> counted(1, "seat"), counted(2, "seat"), counted(0, "notch", "notches")
    ('1 seat', '2 seats', '0 notches')
    """
    return f"{number} {one if number == 1 else many or one + 's'}"


def money(amount: Fraction) -> str:
    """An amount to the hundredth, halves to the even one; no sign, since the file names no currency.

    >>> money(Fraction(137, 2))
    '68.50'
    """
    hundredths = round(amount * 100)
    return f"{hundredths // 100}.{hundredths % 100:02}"


def headline(layout: Layout) -> str:
    """What fits, in one line."""
    parts = [str(layout.shape), counted(layout.seats, "seat")]
    if layout.hand:
        parts.append(f"short run on the {layout.hand}")
    if layout.corner:
        parts.append(str(layout.corner))
    return ", ".join(parts)


def run_name(side: Side) -> str:
    """The name of a run.

    >>> run_name(Side.MAIN), run_name(Side.LEFT)
    ('main', 'left arm')
    """
    return "main" if side is Side.MAIN else f"{side} arm"


def verdict_line(result: FitResult, project: Project, tell: Teller) -> str:
    """How the answer stands, with its verdict word first."""
    if result.verdict is Verdict.FOUND:
        if all(each.verdict is Verdict.PROVEN for each in result.layouts):
            return f"found: {_stopped(result)}; the layouts below are proven, more of them were not reached"
        return f"found, not proven: {_stopped(result)}, best so far; {_open_end(result, project, tell)}"
    if result.verdict is Verdict.UNKNOWN:
        known = "; ".join(_bound(proof, project, tell) for proof in result.bounds)
        none = f"no layout was found, and none was ruled out{f'; one would have {known}' if known else ''}"
        return f"unknown: {_stopped(result)}; {none}"
    if result.verdict is Verdict.PROVEN and len(result.layouts) > 1:
        more = "; no other differs enough from them" if result.exhausted else ""
        return f"proven: the {len(result.layouts)} best layouts by the objectives below, in their order{more}"
    return {
        Verdict.PROVEN: "proven: no layout does better by the objectives below, in their order",
        Verdict.IMPOSSIBLE: "impossible: proven that no layout fits",
        Verdict.FAULT: "fault: the solver and the checker disagree, which is our mistake",
        Verdict.DISAGREE: "disagree: the tape readings contradict each other",
    }[result.verdict]


def _stopped(result: FitResult) -> str:
    return "stopped by you" if result.interrupted else "time ran out"


def _bound(proof: Proof, project: Project, tell: Teller) -> str:
    """What no layout can exceed, where none was found yet."""
    value = objective_value(proof.objective, proof.bound, project, tell)
    if proof.objective is Objective.SEATS:
        return f"at most {counted(proof.bound, 'seat')}"
    return f"{objective_name(proof.objective)}: at least {value}"


def stamp(shown: LayoutResult, project: Project, tell: Teller) -> str:
    """How a layout stands, for the title block of its drawing."""
    if shown.verdict is Verdict.PROVEN:
        return "proven best" if shown.rank == 1 else "proven best of those that differ from the ones before it"
    unproven = _unproven(shown)
    known = objective_bound(unproven, project, tell, shown.rank) if unproven else "not every objective was reached"
    return f"best found, not proven: {known}"


def _open_end(result: FitResult, project: Project, tell: Teller) -> str:
    """What the search did not come to, of the first layout that it left unproven."""
    shown = next(each for each in result.layouts if each.verdict is not Verdict.PROVEN)
    return ("" if shown.rank == 1 else f"layout {shown.rank}: ") + open_end(shown, project, tell)


def open_end(shown: LayoutResult, project: Project, tell: Teller) -> str:
    """What the search did not come to for a layout."""
    if unproven := _unproven(shown):
        return objective_bound(unproven, project, tell, shown.rank)
    return "the objectives below are proven, those after them were not reached"


def _unproven(shown: LayoutResult) -> Proof | None:
    return next((proof for proof in shown.proofs if not proof.proven), None)


def objective_name(objective: Objective) -> str:
    """What an objective counts."""
    return {
        Objective.SEATS: "seats",
        Objective.TALL: "corners without a tall post",
        Objective.WHOLE: "cushions notched",
        Objective.MONEY: "money to spend",
        Objective.BUY: "cushions to buy",
        Objective.POSTS: "posts",
        Objective.LENGTHS: "rail lengths",
        Objective.CLOSE: "off the edge",
    }[objective]


def objective_value(objective: Objective, value: int, project: Project, tell: Teller) -> str:
    """The value of an objective: a count, or a length in shop marks."""
    if objective is Objective.MONEY:
        return money(Fraction(value, 100))
    return tell(project.mark * value) if objective is Objective.CLOSE else str(value)


def objective_bound(proof: Proof, project: Project, tell: Teller, rank: int = 1) -> str:
    """What is known beyond the value of an objective that stands first, or with those before it kept.

    Args:
        proof: of the objective.
        project: what was asked.
        tell: writes lengths.
        rank: of the layout; any but the first is held against all that differ from those before it.
    """
    name, better = objective_name(proof.objective), _BETTER[proof.objective]
    if proof.proven:
        return _proven(proof, project, rank)
    more = abs(proof.bound - proof.value)
    if proof.objective is Objective.MONEY:
        return f"at most {money(Fraction(more, 100))} {better}"
    if proof.objective is Objective.CLOSE:
        return f"at most {tell(project.mark * more)} {better}"
    return f"at most {more} {better} {name if more != 1 else _ONE[proof.objective]}"


def _proven(proof: Proof, project: Project, rank: int) -> str:
    if proof.objective is Objective.SEATS and proof.value == project.wish.most:
        return "as many as are wanted"
    if proof.objective is Objective.SEATS and project.wish.prefer[0] is Objective.SEATS:
        return f"no {'other ' if rank > 1 else ''}layout has {proof.value + 1} or more"
    if proof.value == 0:
        return "cannot be less than none"
    kept = "" if project.wish.prefer[0] is proof.objective else ", with the rows above kept"
    return f"cannot be {_BETTER[proof.objective]}{kept}"


def source_place(project: Project, key: str) -> Place | None:
    """Where the file states a key; None where a default or a flag counts."""
    if key in project.flags:
        return None
    return next((project.places[way] for way in (key, *alternatives(key)) if way in project.places), None)


def source_line(project: Project, key: str) -> str:
    """The file and line that state a key, or the flag that beats them, in words."""
    if key in project.flags:
        return f"`{project.flags[key]}`"
    place = source_place(project, key)
    return f"{project.file}:{place.line}" if place else "a default"


def alternatives(key: str) -> tuple[str, ...]:
    """Where else the fact of a key may be written.

    >>> alternatives("room.sides.AB")[:2]
    ('room.corners', 'room.sides')
    """
    if key.startswith("room.sides."):
        return ("room.corners", "room.sides")
    if key.startswith("frame.carry."):
        return ("frame.carry",)
    if key.startswith("cushions.") and key.endswith(".own"):
        return (f"{key.removesuffix('own')}condition",)
    return ("wish.seats",) if key == "wish.seats.least" else ()
