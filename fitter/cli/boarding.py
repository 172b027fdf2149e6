"""`fitter cuts` of a project."""

from __future__ import annotations

from dataclasses import dataclass, field

from fitter.cli import framing
from fitter.cli.drawing import drawn
from fitter.cli.fitting import CODES, solved
from fitter.cli.refusing import lines_of, refuse
from fitter.cli.running import INTERRUPTED, NO_FIT, WRONG
from fitter.domain.board_list import BoardList
from fitter.domain.cuts import CutOptions
from fitter.domain.layout import Verdict
from fitter.domain.project import Project
from fitter.project import ProjectError, read_project
from fitter.report.document import written
from fitter.report.sawing.document import boards_document
from fitter.workflow.boards import boards


@dataclass(frozen=True)
class Call(framing.Call):
    """The same, and how boards are cut: aims, defects and boards on hand; the project says the rest.

    The limit counts for the fit, and again for the boards.
    """

    options: CutOptions = field(default_factory=CutOptions, kw_only=True)


def board_file(call: Call) -> int:
    """Read, solve, frame, plan the boards, check, tell and draw.

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
    made = boards(project, fit, call.layout, call.limit, call.options)
    _tell(call, project, made)
    if (
        made.verdict is not Verdict.FAULT
        and made.boards
        and call.folder is not None
        and not _drawn(call, project, made)
    ):
        return WRONG
    if fit.interrupted:
        return INTERRUPTED
    # A benchmark that the file asks for, and that the layout misses, is a check that failed.
    return NO_FIT if made.framed.failed and made.verdict is not Verdict.FAULT else CODES[made.verdict]


def _tell(call: Call, project: Project, made: BoardList) -> None:
    if call.as_json:
        print(written(boards_document(project, made)))
    elif made.verdict is not Verdict.FAULT:
        # A document needs none of the terminal's libraries.
        from fitter.report.sawing.tables import print_boards
        from fitter.report.terminal import result

        print_boards(result(), project, made, call.denominator)
    if made.verdict is Verdict.FAULT:
        from fitter.report.fault import frame_bundle
        from fitter.report.terminal import aside

        lines, framed = lines_of(call.file), made.framed
        if framed.verdict is Verdict.FAULT:
            told = frame_bundle(framed, lines)
        else:
            held = [finding for section in made.sections if section.result for finding in section.result.checked]
            said = "; ".join(finding.message for finding in held)
            told = f"fault: the check does not accept our own plan of boards: {said}"
        aside().print(told, soft_wrap=True)


def _drawn(call: Call, project: Project, made: BoardList) -> bool:
    """Write the pictures and name their files; False, told on standard error, if the sheet is too small."""
    folder = call.folder
    assert folder is not None, "asked for before"
    # Loads the picture library, which nobody should wait for who only wants the tables as JSON.
    from fitter.workflow.board_picturing import write_boards

    return drawn(lambda: write_boards(project, made, folder, sheet=call.sheet))
