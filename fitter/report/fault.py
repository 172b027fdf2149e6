"""What a maintainer needs when the checker does not accept the solver's layout."""

from __future__ import annotations

from collections.abc import Sequence

from fitter.domain.layout import Verdict
from fitter.domain.outcome import FitResult, FrameResult

_ASK = "Please report it with all of the text below."


def bundle(result: FitResult, lines: Sequence[str]) -> str:
    """The faults, the layouts that it found them in, and the project file as one text to send with a report.

    Args:
        result: of verdict `fault`.
        lines: of the project file.
    """
    faults = [f"  {finding.code}: {finding.message}" for finding in result.checked]
    head = "fault: the solver and the checker disagree; no layout is shown. This is our mistake."
    layouts = [f"layout {shown.rank}: {shown.layout}" for shown in result.layouts if shown.verdict is Verdict.FAULT]
    return "\n".join([head, _ASK, "checker:", *faults, *layouts, "project file:", *lines])


def frame_bundle(framed: FrameResult, lines: Sequence[str]) -> str:
    """What the proof holds against a frame, the layout that it was built for, and the project file.

    Args:
        framed: of verdict `fault`; where its frame was not checked, the fit it was built on is told.
        lines: of the project file.
    """
    if not framed.checked:
        return bundle(framed.fit, lines)
    faults = [f"  {finding.code}: {finding.message}" for finding in framed.checked]
    head = "fault: the frame does not pass its proof; no parts are shown. This is our mistake."
    layout = framed.shown.layout if framed.shown else None
    return "\n".join([head, _ASK, "proof:", *faults, f"layout {framed.rank}: {layout}", "project file:", *lines])
