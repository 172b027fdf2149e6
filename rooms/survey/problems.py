"""Why readings make no outline, as data; `describe` turns them into words."""

from __future__ import annotations

from dataclasses import dataclass

from rooms.lengths import Length
from rooms.survey.result import Residual, Suspicion


@dataclass(frozen=True)
class SurveyProblem:
    """One thing that is wrong with the readings.

    Args:
        code: kebab-case, stable.
        readings: names of the readings or corners concerned, the chief one first.
        lengths: those of `readings` in the same order, or what the code needs; may be empty.
        degrees: angles that the code needs; may be empty.
        settle: further lines to tape that would settle the matter.
        residuals: those above their limit, worst first.
        suspicion: which of the readings may be wrong, as far as that can be told.
    """

    code: str
    readings: tuple[str, ...] = ()
    lengths: tuple[Length, ...] = ()
    degrees: tuple[float, ...] = ()
    settle: tuple[str, ...] = ()
    residuals: tuple[Residual, ...] = ()
    suspicion: Suspicion | None = None


class SurveyError(ValueError):
    """Readings that make no outline; carries every problem found."""

    def __init__(self, problems: tuple[SurveyProblem, ...]) -> None:
        super().__init__("; ".join(f"{problem.code} {' '.join(problem.readings)}" for problem in problems))
        self.problems = problems
