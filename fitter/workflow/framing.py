"""A fit to its frame: built and proven."""

from __future__ import annotations

from fitter.checking import check_woodwork
from fitter.domain.layout import Verdict
from fitter.domain.outcome import FitResult, FrameResult
from fitter.domain.project import Project
from fitter.frame import build_frame

__all__ = ["frame"]


def frame(project: Project, fit: FitResult, rank: int = 1) -> FrameResult:
    """Build the frame of one layout of an answer and prove that it is complete.

    Args:
        project: what was asked.
        fit: an answer, which has a layout of that rank or tells why not.
        rank: of the layout that is framed, from 1.

    Returns:
        The woodwork, with what the proof holds against it; none where there is no such layout, or where the
        layout itself is a fault.
    """
    shown = next((each for each in fit.layouts if each.rank == rank), None)
    if shown is None or fit.verdict is Verdict.FAULT:
        return FrameResult(fit, shown, rank)
    woodwork = build_frame(project, shown.layout)
    return FrameResult(fit, shown, rank, woodwork, check_woodwork(project, shown.layout, woodwork))
