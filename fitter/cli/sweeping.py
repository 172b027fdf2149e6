"""`fitter sweep`."""

from __future__ import annotations

import sys
from dataclasses import dataclass, field

from fitter.cli.calls import ProjectCall
from fitter.cli.drawing import drawn
from fitter.cli.refusing import lines_of, refuse
from fitter.cli.running import INTERRUPTED, NO_FIT, OURS, PROVEN, TIME_UP, WRONG
from fitter.domain.sweeps import Shown, Sweep
from fitter.project import ProjectError, read_project
from fitter.project.varying import Variable, read_variable
from fitter.project.words import listed, nearest, shown
from fitter.project.written_numbers import VaryError
from fitter.report.document import failure_document, fit_document, written
from fitter.report.sweep_document import outcome, sweep_document
from fitter.workflow.sweeping import FaultError, sweep

_CODES = {
    "proven": PROVEN,
    "impossible": NO_FIT,
    "found": TIME_UP,
    "unknown": TIME_UP,
    "invalid": WRONG,
}


@dataclass(frozen=True)
class Call(ProjectCall):
    """The same, and what varies and what is shown, as written."""

    vary: str = field(kw_only=True)
    show: str = field(kw_only=True)


def sweep_file(call: Call) -> int:
    """Read, solve at the values that need it, tell and draw.

    Args:
        call: what was asked.

    Returns:
        The exit code: 0 where a layout fits at some value and all is proven.
    """
    try:
        columns = _columns(call.show)
        variable = read_variable(call.file, call.vary)
    except ProjectError as error:
        return refuse(error, as_json=call.as_json)
    except VaryError as error:
        return _refused(error, as_json=call.as_json)
    try:
        found = _swept(call, variable, columns)
    except FaultError as error:
        return _fault(call, error)
    if found.usable is None and (broken := _broken(call.file)) is not None:
        return refuse(broken, as_json=call.as_json)
    if call.as_json:
        print(written(sweep_document(found, variable.unit, call.file)))
    else:
        # A document needs none of the terminal's libraries.
        from fitter.report.sweep import print_sweep
        from fitter.report.terminal import result

        print_sweep(result(), found, variable.unit, call.denominator)
    if call.folder is not None and found.usable is not None and not _drawn(call, found, variable):
        return WRONG
    return INTERRUPTED if found.interrupted else _CODES[outcome(found)]


def _columns(text: str) -> tuple[Shown, ...]:
    """What is shown; a word twice counts once."""
    known = [str(one) for one in Shown]
    found: list[Shown] = []
    for word in text.split(","):
        plain = word.strip().lower().replace(" ", "_").replace("-", "_")
        if plain not in known:
            near = nearest(word, known)
            help = f"did you mean `{near}`?" if near else f"known are {listed(known, 'and')}"
            message = f"`{shown(word.strip())}` cannot be shown"
            raise VaryError(message, "unknown-word", help)
        found.append(Shown(plain))
    return tuple(dict.fromkeys(found))


def _swept(call: Call, variable: Variable, columns: tuple[Shown, ...]) -> Sweep:
    """The sweep, with its progress on the terminal, if there is one."""
    progress = None if call.silent or not sys.stderr.isatty() else _tell_progress
    return sweep(variable, columns, call.limit, progress, apart=True)


def _tell_progress(known: int, values: int, solves: int) -> None:
    """One line that is written anew: no thread may draw while the solver's process is split off."""
    text = f"{known} of {values} values known after {solves} solves" if known < values else ""
    print(f"\r{text:<60}\r", end="", file=sys.stderr, flush=True)


def _broken(file: str) -> ProjectError | None:
    """What is wrong with the file as it is, whatever varies."""
    try:
        read_project(file)
    except ProjectError as error:
        return error
    return None


def _refused(error: VaryError, *, as_json: bool) -> int:
    from fitter.report.terminal import aside

    if as_json:
        print(written(failure_document("invalid", [{"code": error.code, "message": str(error), "help": error.help}])))
    aside().print(f"fitter: error[{error.code}]: {error}\n  help: {error.help}", soft_wrap=True)
    return WRONG


def _fault(call: Call, error: FaultError) -> int:
    from fitter.report.fault import bundle
    from fitter.report.terminal import aside

    if call.as_json:
        print(written(fit_document(error.project, error.result)))
    aside().print(bundle(error.result, lines_of(call.file)), soft_wrap=True)
    return OURS


def _drawn(call: Call, found: Sweep, variable: Variable) -> bool:
    """Write the page and name its files; False, told on standard error, if the sheet is too small."""
    assert call.folder is not None
    folder = call.folder
    # Loads the picture library, which nobody should wait for who only wants the table.
    from fitter.workflow.sweep_picturing import write_sweep

    return drawn(lambda: write_sweep(found, variable.unit, call.file, folder, sheet=call.sheet))
