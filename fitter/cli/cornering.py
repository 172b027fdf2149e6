"""`fitter corners`."""

from __future__ import annotations

import sys

from fitter.cli.calls import ProjectCall
from fitter.cli.drawing import drawn
from fitter.cli.fitting import CODES
from fitter.cli.refusing import lines_of, refuse
from fitter.cli.running import INTERRUPTED, NO_FIT, WRONG
from fitter.domain.layout import Verdict
from fitter.domain.outcome import FitResult, FrameResult
from fitter.domain.project import Project
from fitter.domain.tradeoff import TradeOff
from fitter.domain.wishes import CornerKind, Shape
from fitter.project import ProjectError, read_project
from fitter.report.corners_document import corners_document, no_corner_document
from fitter.report.document import written
from fitter.report.words import counted
from fitter.workflow.cornering import corner_trade_off


def corners_of(call: ProjectCall) -> int:
    """Read, solve each treatment, compare, tell and draw.

    Args:
        call: what was asked.

    Returns:
        The exit code.
    """
    try:
        project = call.asked(read_project(call.file))
    except ProjectError as error:
        return refuse(error, as_json=call.as_json)
    if project.wish.shape is Shape.STRAIGHT:
        _tell_none(call, project)
        return NO_FIT
    made = corner_trade_off(project, call.limit, None if call.silent or not sys.stderr.isatty() else _heard)
    _tell(call, project, made)
    layouts = any(each.layout for each in made.treatments)
    if made.verdict is not Verdict.FAULT and layouts and call.folder is not None and not _drawn(call, project, made):
        return WRONG
    return INTERRUPTED if made.interrupted else CODES[made.verdict]


def _heard(corner: CornerKind, fit: FitResult) -> None:
    """One line for each treatment as it comes, on a terminal."""
    seats = f", {counted(fit.layout.seats, 'seat')}" if fit.layout else ""
    print(f"{corner}: {fit.verdict}{seats}", file=sys.stderr, flush=True)


def _tell_none(call: ProjectCall, project: Project) -> None:
    if call.as_json:
        print(written(no_corner_document(project)))
        return
    # A document needs none of the terminal's libraries.
    from fitter.report.corners import print_no_corner
    from fitter.report.terminal import result

    print_no_corner(result(), project)


def _tell(call: ProjectCall, project: Project, made: TradeOff) -> None:
    if call.as_json:
        print(written(corners_document(project, made, call.denominator)))
    elif made.verdict is not Verdict.FAULT:
        from fitter.report.corners import print_corners
        from fitter.report.terminal import result

        print_corners(result(), project, made, call.denominator)
    if made.verdict is Verdict.FAULT:
        from fitter.report.fault import bundle, frame_bundle
        from fitter.report.terminal import aside

        wrong = next(each for each in made.treatments if each.faults)
        lines = lines_of(call.file)
        if wrong.fit.verdict is Verdict.FAULT:
            told = bundle(wrong.fit, lines)
        else:
            told = frame_bundle(FrameResult(wrong.fit, wrong.shown, checked=wrong.faults), lines)
        aside().print(told, soft_wrap=True)


def _drawn(call: ProjectCall, project: Project, made: TradeOff) -> bool:
    """Write the page and name its files; False, told on standard error, if the sheet is too small."""
    folder = call.folder
    assert folder is not None, "asked for before"
    # Loads the picture library, which nobody should wait for who only wants the tables.
    from fitter.workflow.corner_picturing import write_corners

    return drawn(lambda: write_corners(project, made, folder, sheet=call.sheet))
