"""`fitter buy`."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

from fitter.cli import framing
from fitter.cli.fitting import CODES, solved
from fitter.cli.refusing import lines_of, refuse
from fitter.cli.running import INTERRUPTED, NO_FIT, WRONG
from fitter.cli.starting.drafts import TargetError, open_target, write_whole
from fitter.domain.cuts import CutResult
from fitter.domain.findings import Severity
from fitter.domain.layout import Verdict
from fitter.domain.project import Project
from fitter.domain.takeoff import BuyResult, PriceList
from fitter.project import ProjectError, read_project
from fitter.project.price_list import read_price_list
from fitter.report.document import failure_document, written
from fitter.report.takeoff_document import takeoff_document, takeoff_values
from fitter.workflow.buying import buy


@dataclass(frozen=True)
class Call(framing.Call):
    """The same, where the list goes, and what the rest costs; nothing is drawn.

    The limit counts for the search, and again for the boards.

    Args:
        values: file for comma-separated values; None for none.
        force: whether a file that is there may be lost.
        prices: price list; None for the one that the project file names.
    """

    values: Path | None = field(default=None, kw_only=True)
    force: bool = field(default=False, kw_only=True)
    prices: str | None = field(default=None, kw_only=True)


def buy_for(call: Call) -> int:
    """Read, solve, frame, plan, take off and tell.

    Args:
        call: what was asked.

    Returns:
        The exit code.
    """
    try:
        project = call.asked(read_project(call.file))
        prices = _prices(project, call.prices)
        if call.values is not None:
            open_target(call.values, force=call.force)
    except ProjectError as error:
        return refuse(error, as_json=call.as_json)
    except TargetError as error:
        return _refuse_target(error, as_json=call.as_json)
    fit = solved(project, call.limit, call.layout, silent=call.silent)
    result = buy(project, fit, call.layout, prices, call.limit)
    _tell(call, project, result)
    if call.values is not None and result.takeoff is not None:
        write_whole(call.values, takeoff_values(result.takeoff, project.unit))
        _aside(f"wrote {call.values}")
    if fit.interrupted or any(plan.result and _stopped(plan.result) for plan in result.boards.sections):
        return INTERRUPTED
    return _code(result)


def _stopped(found: CutResult) -> bool:
    return found.plan is not None and found.plan.interrupted


def _code(result: BuyResult) -> int:
    """The verdict's code; a frame that cannot be built as asked is a check that failed, as is a missed benchmark."""
    frame, failed = result.boards.framed.woodwork, result.boards.framed.failed
    found = (*failed, *(frame.findings if frame is not None else ()))
    wrong = any(finding.severity is Severity.ERROR for finding in found)
    return NO_FIT if wrong and result.verdict is not Verdict.FAULT else CODES[result.verdict]


def _prices(project: Project, given: str | None) -> PriceList:
    """The list on the command line; else the one that the project file names, beside that file."""
    named = project.shop.supplies.prices
    if given is None and named is None:
        return PriceList()
    return read_price_list(given if given is not None else str(Path(project.file).parent / str(named)))


def _refuse_target(error: TargetError, *, as_json: bool) -> int:
    if as_json:
        print(written(failure_document("invalid", [{"code": error.code, "message": str(error), "help": error.help}])))
    _aside(f"fitter: error[{error.code}]: {error}\n  help: {error.help}")
    return WRONG


def _aside(text: str) -> None:
    from fitter.report.terminal import aside

    aside().print(text, soft_wrap=True, markup=False, highlight=False)


def _tell(call: Call, project: Project, result: BuyResult) -> None:
    if call.as_json:
        print(written(takeoff_document(project, result)))
    elif result.verdict is not Verdict.FAULT:
        # A document needs none of the terminal's libraries.
        from fitter.report.takeoff import print_takeoff
        from fitter.report.terminal import result as console

        print_takeoff(console(), project, result, call.denominator)
    if result.verdict is Verdict.FAULT:
        from fitter.report.fault import bundle, frame_bundle

        framed, lines = result.boards.framed, lines_of(call.file)
        checked = [each for section in result.boards.sections if section.result for each in section.result.checked]
        if framed.checked:
            _aside(str(frame_bundle(framed, lines)))
        elif checked:
            told = "; ".join(finding.message for finding in checked)
            _aside(f"fault: the check does not accept our own plan of boards: {told}")
        else:
            _aside(str(bundle(framed.fit, lines)))
