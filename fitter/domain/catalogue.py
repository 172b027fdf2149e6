"""Cushions of a catalogue, each tried as the one that a room is built around, and ranked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from fitter.domain.cushions import Cushion
from fitter.domain.layout import Verdict
from fitter.domain.outcome import FitResult, LayoutResult
from fitter.domain.project import Project
from fitter.domain.wishes import Objective


@dataclass(frozen=True)
class Row:
    """One cushion of a catalogue.

    Args:
        line: of the file, from 1.
        cushion: as it is sold.
    """

    line: int
    cushion: Cushion


@dataclass(frozen=True)
class Candidate:
    """A row with the question that it puts.

    Args:
        row: of the catalogue.
        project: with this cushion and no other; None where it does not go with the frame.
        refused: why it does not, in words.
    """

    row: Row
    project: Project | None
    refused: str = ""


@dataclass(frozen=True)
class Trial:
    """A candidate and what came out; plain values, so that it may come from another process or machine.

    Args:
        candidate: the question.
        found: the answer, its seconds left out since they differ from run to run; None where none was sought.
    """

    candidate: Candidate
    found: FitResult | None

    @property
    def verdict(self) -> Verdict:
        """How the answer stands; a cushion that does not go with the frame is impossible."""
        return Verdict.IMPOSSIBLE if self.found is None else self.found.verdict

    @property
    def shown(self) -> LayoutResult | None:
        """The best layout; None where there is none."""
        return self.found.layouts[0] if self.found is not None and self.found.layouts else None


@dataclass(frozen=True)
class Ranking:
    """What became of a catalogue.

    Args:
        best: trials that have a layout, the best first.
        none: those without one, in the order of the catalogue.
        left: how many were not reached, since the user stopped it.
    """

    best: tuple[Trial, ...]
    none: tuple[Trial, ...]
    left: int = 0

    @property
    def verdict(self) -> Verdict:
        """How the whole stands: proven only if each trial is, and all were reached."""
        trials = (*self.best, *self.none)
        if any(trial.verdict is Verdict.FAULT for trial in trials):
            return Verdict.FAULT
        settled = not self.left and all(each.verdict in (Verdict.PROVEN, Verdict.IMPOSSIBLE) for each in trials)
        if self.best:
            return Verdict.PROVEN if settled else Verdict.FOUND
        return Verdict.IMPOSSIBLE if settled else Verdict.UNKNOWN


def ranked(trials: Sequence[Trial], left: int = 0) -> Ranking:
    """Rank trials by the objectives of their project, one after another; equal ones stay as the catalogue has them.

    An objective that the search did not come to counts as worse than any value of it.

    Args:
        trials: of one project file, in any order.
        left: how many more there are in the catalogue.
    """
    ordered = sorted(trials, key=lambda trial: trial.candidate.row.line)
    best = [trial for trial in ordered if trial.shown is not None]
    return Ranking(
        tuple(sorted(best, key=_merit)), tuple(trial for trial in ordered if trial.shown is None), left
    )  # fmt: skip


def _merit(trial: Trial) -> tuple[tuple[bool, int], ...]:
    """What the objectives come to, so that less is better; money where it counts for any cushion counts for all."""
    assert trial.shown is not None
    assert trial.candidate.project is not None
    known = {proof.objective: proof.value for proof in trial.shown.proofs}
    aims = trial.candidate.project.wish.prefer
    return tuple((aim not in known, _less(aim, known.get(aim, 0))) for aim in aims)


def _less(aim: Objective, value: int) -> int:
    return -value if aim is Objective.SEATS else value
