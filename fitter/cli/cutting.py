"""`fitter cuts`."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from fitter.cli.drawing import drawn
from fitter.cli.refusing import lines_of
from fitter.cli.running import INTERRUPTED, NO_FIT, OURS, PROVEN, TIME_UP, WRONG
from fitter.domain.cuts import BoardPlan, CutOptions, CutResult
from fitter.domain.layout import Verdict
from fitter.project.cut_lists import CutLists, CutListsError, read_cut_lists
from fitter.report.document import written
from rooms.lengths import Unit

_CODES = {
    Verdict.PROVEN: PROVEN,
    Verdict.FOUND: TIME_UP,
    Verdict.UNKNOWN: TIME_UP,
    Verdict.IMPOSSIBLE: NO_FIT,
    Verdict.FAULT: OURS,
}


@dataclass(frozen=True)
class Call:
    """What was asked on the command line.

    Args:
        parts: file of the parts.
        boards: file of the boards.
        unit: what a bare number means in both.
        options: how the boards are cut.
        as_json: a document instead of tables.
        limit: seconds for the search; None for no limit.
        denominator: finest fraction of an inch.
        folder: where the pictures go; None for none.
        sheet: a paper that must be used; None to choose.
    """

    parts: str
    boards: str
    unit: Unit
    options: CutOptions
    as_json: bool = False
    limit: float | None = None
    denominator: int = 16
    folder: Path | None = None
    sheet: str | None = None


def cut_lists(call: Call) -> int:
    """Read both lists, find the boards, check the plan and tell it.

    Args:
        call: what was asked.

    Returns:
        The exit code.
    """
    try:
        lists = read_cut_lists(call.parts, call.boards, call.unit, call.options)
    except CutListsError as error:
        return _refuse(error, as_json=call.as_json)
    # Loads the solver, which nobody should wait for whose lists are wrong.
    from fitter.workflow.cutting import cut

    result = cut(lists.pieces, lists.stocks, call.options, call.limit)
    _tell(call, lists, result)
    if result.plan is not None and result.verdict is not Verdict.FAULT and not _drawn(call, lists, result.plan):
        return WRONG
    return INTERRUPTED if result.plan is not None and result.plan.interrupted else _CODES[result.verdict]


def _tell(call: Call, lists: CutLists, result: CutResult) -> None:
    if call.as_json:
        from fitter.report.cuts_document import cuts_document

        print(written(cuts_document(call.parts, result, call.options, lists.unit)))
    elif result.verdict is not Verdict.FAULT:
        # A document needs none of the terminal's libraries.
        from fitter.report.cuts import print_cuts
        from fitter.report.terminal import result as console

        title = f"Boards for the parts of {call.parts}"
        print_cuts(console(), title, result, call.options, lists.unit, call.denominator)
    if result.verdict is Verdict.FAULT:
        from fitter.report.terminal import aside

        told = "; ".join(finding.message for finding in result.checked)
        aside().print(f"fault: the check does not accept our own plan: {told}", soft_wrap=True)


def _drawn(call: Call, lists: CutLists, plan: BoardPlan) -> bool:
    """Write the pictures, if they are wanted; False, told on standard error, if the sheet is too small."""
    folder = call.folder
    if folder is None:
        return True
    # Loads the picture library, which nobody should wait for who only wants the tables.
    from fitter.workflow.board_picturing import write_list

    return drawn(lambda: write_list(call.parts, lists.unit, plan, call.options, folder, sheet=call.sheet))


def _refuse(error: CutListsError, *, as_json: bool) -> int:
    from fitter.report.mistakes import mistakes_text
    from fitter.report.terminal import aside

    if as_json:
        from fitter.report.cuts_document import lists_refusal

        print(written(lists_refusal(error.errors)))
    for each in error.errors:
        aside().print(mistakes_text(each, lines_of(each.file)), soft_wrap=True)
    return WRONG
