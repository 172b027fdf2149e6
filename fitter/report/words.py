"""How lengths, counts, money and verdicts are written, the same everywhere."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from fitter.domain.findings import Place
from fitter.domain.layout import Layout, Proof, Side, Verdict
from fitter.domain.outcome import FitResult
from fitter.domain.project import Project
from fitter.domain.wishes import Objective
from rooms.lengths import Length, Unit, format_length

Teller = Callable[[Length], str]

SAFETY = "Check every length against the tape before sawing"

_BETTER = {
    Objective.SEATS: "more",
    Objective.WHOLE: "fewer",
    Objective.POSTS: "fewer",
    Objective.LENGTHS: "fewer",
    Objective.CLOSE: "closer",
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
        parts.append(f"side run on the {layout.hand}")
    if layout.corner:
        parts.append(str(layout.corner))
    return ", ".join(parts)


def run_name(side: Side) -> str:
    """The name of a run.

    >>> run_name(Side.MAIN), run_name(Side.LEFT)
    ('main', 'left side')
    """
    return "main" if side is Side.MAIN else f"{side} side"


def verdict_line(result: FitResult, project: Project, tell: Teller) -> str:
    """How the answer stands, with its verdict word first."""
    if result.verdict is Verdict.FOUND:
        return f"found, not proven: time ran out; {_open_end(result.proofs, project, tell)}"
    return {
        Verdict.PROVEN: "proven: no layout does better by the objectives below, in their order",
        Verdict.IMPOSSIBLE: "impossible: proven that no layout fits",
        Verdict.UNKNOWN: "unknown: time ran out; no layout was found, and none was ruled out",
        Verdict.FAULT: "fault: the solver and the checker disagree, which is our mistake",
        Verdict.DISAGREE: "disagree: the tape readings contradict each other",
    }[result.verdict]


def stamp(result: FitResult, project: Project, tell: Teller) -> str:
    """How the answer stands, for the title block of a drawing."""
    if result.verdict is Verdict.PROVEN:
        return "proven best"
    return f"best found, not proven: {_open_end(result.proofs, project, tell)}"


def _open_end(proofs: tuple[Proof, ...], project: Project, tell: Teller) -> str:
    """What the time did not suffice for."""
    unproven = next((proof for proof in proofs if not proof.proven), None)
    if unproven is not None:
        return objective_bound(unproven, project, tell)
    return "the objectives below are proven, those after them were not reached"


def objective_name(objective: Objective) -> str:
    """What an objective counts."""
    return {
        Objective.SEATS: "seats",
        Objective.WHOLE: "cushions notched",
        Objective.POSTS: "posts",
        Objective.LENGTHS: "rail lengths",
        Objective.CLOSE: "off the edge",
    }[objective]


def objective_value(objective: Objective, value: int, project: Project, tell: Teller) -> str:
    """The value of an objective: a count, or a length in shop marks."""
    return tell(project.mark * value) if objective is Objective.CLOSE else str(value)


def objective_bound(proof: Proof, project: Project, tell: Teller) -> str:
    """What is known beyond the value of an objective that stands first, or with those before it kept."""
    name, better = objective_name(proof.objective), _BETTER[proof.objective]
    if proof.proven:
        return _proven(proof, project)
    more = abs(proof.bound - proof.value)
    if proof.objective is Objective.CLOSE:
        return f"at most {tell(project.mark * more)} {better}"
    return f"at most {more} {better} {name}"


def _proven(proof: Proof, project: Project) -> str:
    if proof.objective is Objective.SEATS and proof.value == project.wish.most:
        return "as many as are wanted"
    if proof.objective is Objective.SEATS and project.wish.prefer[0] is Objective.SEATS:
        return f"no layout has {proof.value + 1} or more"
    if proof.value == 0:
        return "cannot be less than none"
    kept = "" if project.wish.prefer[0] is proof.objective else ", with the rows above kept"
    return f"cannot be {_BETTER[proof.objective]}{kept}"


def source_place(project: Project, key: str) -> Place | None:
    """Where the file states a key; None where a default counts."""
    return next((project.places[way] for way in (key, *alternatives(key)) if way in project.places), None)


def source_line(project: Project, key: str) -> str:
    """The file and line that state a key, in words."""
    place = source_place(project, key)
    return f"{project.file}:{place.line}" if place else "a default"


def alternatives(key: str) -> tuple[str, ...]:
    """Where else the fact of a key may be written.

    >>> alternatives("room.sides.AB")[:2]
    ('room.corners', 'room.sides')
    """
    if key.startswith("room.sides."):
        return ("room.corners", "room.sides")
    return ("wish.seats",) if key == "wish.seats.least" else ()
