"""What a maintainer needs when the checker does not accept the solver's layout."""

from __future__ import annotations

from collections.abc import Sequence

from fitter.domain.layout import Verdict
from fitter.domain.outcome import FitResult


def bundle(result: FitResult, lines: Sequence[str]) -> str:
    """The faults, the layouts that it found them in, and the project file as one text to send with a report.

    Args:
        result: of verdict `fault`.
        lines: of the project file.
    """
    faults = [f"  {finding.code}: {finding.message}" for finding in result.checked]
    head = "fault: the solver and the checker disagree; no layout is shown. This is our mistake."
    ask = "Please report it with all of the text below."
    layouts = [f"layout {shown.rank}: {shown.layout}" for shown in result.layouts if shown.verdict is Verdict.FAULT]
    return "\n".join([head, ask, "checker:", *faults, *layouts, "project file:", *lines])
