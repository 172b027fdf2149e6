"""`fitter parts`."""

from __future__ import annotations

from dataclasses import dataclass, field

from fitter.cli.calls import ProjectCall
from fitter.cli.drawing import drawn
from fitter.cli.fitting import CODES, solved
from fitter.cli.refusing import lines_of, refuse
from fitter.cli.running import INTERRUPTED, NO_FIT, WRONG
from fitter.domain.findings import Severity
from fitter.domain.layout import Verdict
from fitter.domain.outcome import FrameResult
from fitter.domain.project import Project
from fitter.project import ProjectError, read_project
from fitter.report.document import written
from fitter.report.parts.document import parts_document
from fitter.report.words import stamp, teller
from fitter.workflow.framing import frame


@dataclass(frozen=True)
class Call(ProjectCall):
    """The same, and the rank of the layout that is built."""

    layout: int = field(default=1, kw_only=True)


def frame_file(call: Call) -> int:
    """Read, solve, frame, prove, tell and draw.

    Args:
        call: what was asked.

    Returns:
        The exit code.
    """
    try:
        project = call.asked(read_project(call.file))
    except ProjectError as error:
        return refuse(error, as_json=call.as_json)
    fit = solved(project, call.limit, call.layout, silent=call.silent)
    framed = frame(project, fit, call.layout)
    _tell(call, project, framed)
    if framed.verdict is not Verdict.FAULT and call.folder is not None and not _drawn(call, project, framed):
        return WRONG
    if fit.interrupted:
        return INTERRUPTED
    return _code(framed)


def _code(framed: FrameResult) -> int:
    """The verdict's code; a frame that cannot be built as asked is a check that failed, as is a missed benchmark."""
    wrong = (*framed.failed, *(framed.woodwork.findings if framed.woodwork else ()))
    if framed.verdict is not Verdict.FAULT and any(finding.severity is Severity.ERROR for finding in wrong):
        return NO_FIT
    return CODES[framed.verdict]


def _tell(call: Call, project: Project, framed: FrameResult) -> None:
    if call.as_json:
        print(written(parts_document(project, framed)))
    elif framed.verdict is not Verdict.FAULT:
        # A document needs none of the terminal's libraries.
        from fitter.report.parts.tables import print_parts
        from fitter.report.terminal import result

        print_parts(result(), project, framed, call.denominator)
    if framed.verdict is Verdict.FAULT:
        from fitter.report.fault import frame_bundle
        from fitter.report.terminal import aside

        aside().print(frame_bundle(framed, lines_of(call.file)), soft_wrap=True)


def _drawn(call: Call, project: Project, framed: FrameResult) -> bool:
    """Write the drawings and name their files; False, told on standard error, if the sheet is too small."""
    shown, woodwork, folder = framed.shown, framed.woodwork, call.folder
    if shown is None or woodwork is None or folder is None:
        return True
    # Loads the picture library, which nobody should wait for who only wants the tables as JSON.
    from fitter.workflow.frame_picturing import write_frame

    verdict = stamp(shown, project, teller(project.unit, call.denominator))
    return drawn(lambda: write_frame(project, shown.layout, woodwork, folder, sheet=call.sheet, verdict=verdict))
