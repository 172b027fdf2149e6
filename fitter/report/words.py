"""How lengths, counts, money and verdicts are written, the same everywhere."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction

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


def listed(parts: Sequence[str]) -> str:
    """Parts with commas, and `and` before the last.

    >>> listed(["a"]), listed(["a", "b"]), listed(["a", "b", "c"])
    ('a', 'a and b', 'a, b and c')
    """
    return " and ".join(part for part in (", ".join(parts[:-1]), parts[-1]) if part)


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
    if result.verdict is Verdict.PROVEN:
        return "proven: no layout is better by what was preferred"
    if result.verdict is Verdict.FOUND:
        return f"found, not proven: {_open_end(result.proofs, project, tell)}"
    return {
        Verdict.IMPOSSIBLE: "impossible: proven that nothing fits",
        Verdict.UNKNOWN: "unknown: no layout was found in the time, and none was ruled out",
        Verdict.FAULT: "fault: the solver and the checker disagree, which is our mistake",
    }[result.verdict]


def _open_end(proofs: tuple[Proof, ...], project: Project, tell: Teller) -> str:
    """What the time did not suffice for."""
    unproven = next((proof for proof in proofs if not proof.proven), None)
    if unproven is not None:
        return f"time ran out; {objective_bound(unproven, project, tell)}"
    return "time ran out before all that was preferred could be compared"


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
    """What is known beyond the value of an objective."""
    name, best = objective_name(proof.objective), proof.value
    if proof.proven:
        return _proven(proof, project, tell)
    more = abs(proof.bound - best)
    if proof.objective is Objective.CLOSE:
        return f"at most {tell(project.mark * more)} closer"
    return f"at most {more} {_BETTER[proof.objective]} {name}"


def _proven(proof: Proof, project: Project, tell: Teller) -> str:
    if proof.objective is Objective.SEATS:
        return f"no layout has {proof.value + 1} or more"
    if proof.value == 0:
        return "none is the least there is"
    if proof.objective is Objective.CLOSE:
        return "no such layout stands closer"
    return f"no such layout has fewer than {proof.value}"
