"""Survey problems in plain words."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from rooms.lengths import Length, Unit, format_length
from rooms.survey.problems import SurveyProblem
from rooms.survey.readings import TURN_LIMIT, ReadingKind
from rooms.survey.result import Residual, Suspect, Suspicion
from rooms.survey.vetting import MOST_CORNERS

Told = tuple[str, str]
_MOST_LINES = 12
_Teller = Callable[[SurveyProblem, Unit], Told]


def describe(problem: SurveyProblem, unit: Unit) -> tuple[str, str]:
    """Say what is wrong and what would be right.

    Args:
        problem: from a `SurveyError` or `check_ring`.
        unit: the system that lengths are printed in.

    Returns:
        The message, without a full stop, and the help.
    """
    return _TELLERS[problem.code](problem, unit)


def _length(length: Length, unit: Unit) -> str:
    return format_length(length, unit, denominator=16)


def listed(parts: Sequence[str]) -> str:
    """Parts with commas, and `and` before the last.

    >>> listed(["a"]), listed(["a", "b"]), listed(["a", "b", "c"])
    ('a', 'a and b', 'a, b and c')
    """
    return " and ".join(part for part in (", ".join(parts[:-1]), parts[-1]) if part)


def _too_few(problem: SurveyProblem, unit: Unit) -> Told:
    return f"an outline of {len(problem.readings)} corners", "name at least three corners"


def _too_many(problem: SurveyProblem, unit: Unit) -> Told:
    return f"an outline of more than {MOST_CORNERS} corners", "leave out corners that hardly turn"


def _twice(problem: SurveyProblem, unit: Unit) -> Told:
    return f"{problem.readings[0]} is named twice", "keep one of the two"


def _unknown(problem: SurveyProblem, unit: Unit) -> Told:
    line, *corners = problem.readings
    return f"{line} runs to {listed(tuple(corners))}, which is no corner", "name two corners of the outline"


def _turn_unknown(problem: SurveyProblem, unit: Unit) -> Told:
    return f"a turn is given at {problem.readings[0]}, which is no corner", "name a corner of the outline"


def _not_side(problem: SurveyProblem, unit: Unit) -> Told:
    name = problem.readings[0]
    return f"side {name} does not join neighbouring corners", f"if {name} was taped across, it is a tie"


def _not_tie(problem: SurveyProblem, unit: Unit) -> Told:
    name = problem.readings[0]
    return f"tie {name} joins neighbouring corners", f"if {name} was taped along the edge, it is a side"


def _no_length(problem: SurveyProblem, unit: Unit) -> Told:
    return f"{problem.readings[0]} has no length", "give a length above zero, or leave out one of the corners"


def _angle(problem: SurveyProblem, unit: Unit) -> Told:
    found = f"the inside angle at {problem.readings[0]} is {problem.degrees[0]:g} degrees"
    return found, "an inside angle lies between 0 and 360 degrees; a quarter turn is `left` or `right`"


def _not_round(problem: SurveyProblem, unit: Unit) -> Told:
    found = f"the turns at {listed(problem.readings)} add up to {abs(problem.degrees[0]):g} degrees"
    return found, "a walk round the room turns 360 degrees in all; check each left, right and angle"


def _stretched(problem: SurveyProblem, unit: Unit) -> Told:
    name, *others = problem.readings
    whole = sum(problem.lengths[2:], problem.lengths[1])
    parts = " + ".join(
        f"{other} {_length(size, unit)}" for other, size in zip(others, problem.lengths[1:], strict=True)
    )
    found = f"{name} is {_length(problem.lengths[0], unit)}, longer than {parts} = {_length(whole, unit)}"
    return found, f"tape {listed(problem.readings)} again; no line is longer than the way round"


def details(problem: SurveyProblem, unit: Unit) -> tuple[str, ...]:
    """What a message rests on, one line each: every reading that may be the wrong one, with what it should be.

    Args:
        problem: from a `SurveyError` or `check_ring`.
        unit: the system that lengths are printed in.

    Returns:
        Lines without a full stop; none where the message says it all.
    """
    found = problem.suspicion
    if found is None:
        return tuple(_residual(residual, unit) for residual in problem.residuals)
    if found.second is not None:
        return (f"and {_suspect(found.second, unit)}",)
    if found.clear:
        return ()
    shown = [_suspect(one, unit, found.line) for one in found.suspects[:_MOST_LINES]]
    rest = len(found.suspects) - len(shown)
    return ("any one of these would explain it:", *shown, *([f"or one of {rest} more"] if rest else []))


def _disagree(problem: SurveyProblem, unit: Unit) -> Told:
    found = problem.suspicion
    if found is None:
        return "the readings disagree", "tape these again, the first one first"
    first = found.suspects[0]
    message = f"the readings disagree: {_suspect(first, unit)}"
    if not found.clear:
        return f"{message}; or another one is wrong", _deciding(found, unit)
    if found.second is not None:
        again = f"{_again(first)}, and {_again(found.second)}"
        return message, f"{again}; without these two, all other readings agree within their limits"
    if found.enough:
        return message, f"{_again(first)}; without it, all other readings agree within their limits"
    return message, f"{_again(first)}, then the others; more than one reading is wrong"


def _again(suspect: Suspect) -> str:
    if suspect.kind is ReadingKind.TURN:
        return f"check corner {suspect.name} (leave out its turn or write its inside angle if the tape is right)"
    return f"tape {suspect.name} again"


def _deciding(found: Suspicion, unit: Unit) -> str:
    """What tells which suspect it is: a line not taped yet, or the suspects themselves."""
    names = tuple(one.name for one in found.suspects[:_MOST_LINES])
    if found.line is None:
        return f"tape {listed(names)} again, the first one first; no further tie would tell which it is"
    lengths = [(one.name, _length(one.foretold, unit)) for one in found.suspects if one.foretold is not None]
    (one, its), (other, others) = lengths[0], next((pair for pair in lengths if pair[1] != lengths[0][1]), lengths[-1])
    tells = "tells which it is" if found.decided else "leaves fewer"
    return f"tape {found.line} too, which {tells}: {its} if {one} is wrong, {others} if it is {other}"


def _suspect(one: Suspect, unit: Unit, line: str | None = None) -> str:
    """A suspect with what the others make of it; and what the deciding line would then read."""
    if isinstance(one.reading, Length) and isinstance(one.meant, Length):
        told = f"{one.name} reads {_length(one.reading, unit)}, the others make it {_length(one.meant, unit)}"
    else:
        told = f"the inside angle at {one.name} reads {one.reading:g} degrees, the others make it {one.meant:.1f}"
    return f"{told}; {line} is then {_length(one.foretold, unit)}" if line and one.foretold is not None else told


def _residual(residual: Residual, unit: Unit) -> str:
    if isinstance(residual.reading, Length):
        assert isinstance(residual.adjusted, Length)
        assert isinstance(residual.residual, Length)
        assert isinstance(residual.limit, Length)
        read, fits = _length(residual.reading, unit), _length(residual.adjusted, unit)
        off, limit = _length(abs(residual.residual), unit), _length(residual.limit, unit)
        over = f"just over the tolerance of {limit}" if off == limit else f"{off} off, tolerance {limit}"
        return f"{residual.name} reads {read}, the others make it {fits} ({over})"
    return (
        f"the inside angle at {residual.name} reads {residual.reading:g} degrees, "
        f"the others make it {residual.adjusted:.1f} (more than {TURN_LIMIT:g} off)"
    )


def _not_fixed(problem: SurveyProblem, unit: Unit) -> Told:
    if not problem.settle:
        return "the readings do not fix the shape", "give more sides, turns or ties"
    return "the readings do not fix the shape", f"tape {listed(problem.settle)} too"


def _two_outlines(problem: SurveyProblem, unit: Unit) -> Told:
    one, other = (_length(length, unit) for length in problem.lengths)
    name = problem.readings[0]
    found = f"the readings fit two different outlines: {name} is {one} in one and {other} in the other"
    return found, f"tape {name} too, or say at one of its corners whether it turns left or right"


def _crosses(problem: SurveyProblem, unit: Unit) -> Told:
    one, other = problem.readings
    return f"sides {one} and {other} cross or touch", "check the order of the corners and the turns"


def _repeated(problem: SurveyProblem, unit: Unit) -> Told:
    return f"corners {listed(problem.readings)} lie in one place", "keep one of them, or correct the other"


def _spike(problem: SurveyProblem, unit: Unit) -> Told:
    name = problem.readings[0]
    return f"the outline runs back on itself at {name}", f"leave out {name}, or correct it"


_TELLERS: dict[str, _Teller] = {
    "too-few-corners": _too_few,
    "too-many-corners": _too_many,
    "named-twice": _twice,
    "unknown-corner": _unknown,
    "turn-at-unknown-corner": _turn_unknown,
    "side-not-between-neighbours": _not_side,
    "tie-between-neighbours": _not_tie,
    "no-length": _no_length,
    "angle-out-of-range": _angle,
    "turns-not-round": _not_round,
    "tie-no-triangle": _stretched,
    "sides-cannot-close": _stretched,
    "readings-disagree": _disagree,
    "not-fixed": _not_fixed,
    "two-outlines": _two_outlines,
    "outline-crosses": _crosses,
    "repeated-point": _repeated,
    "spike": _spike,
}
