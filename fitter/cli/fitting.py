"""`fitter fit`."""

from __future__ import annotations

import sys
from dataclasses import dataclass, field, replace
from pathlib import Path

from fitter.cli.calls import ProjectCall
from fitter.cli.drawing import drawn
from fitter.cli.near import tell_near, with_near
from fitter.cli.refusing import lines_of, refuse
from fitter.cli.running import INTERRUPTED, NO_FIT, OURS, PROVEN, TIME_UP, WRONG
from fitter.domain.clock import Clock
from fitter.domain.layout import Verdict
from fitter.domain.near import Looked
from fitter.domain.outcome import FitResult
from fitter.domain.owned import Buying
from fitter.domain.project import Project
from fitter.project import ProjectError, read_project
from fitter.report.document import fit_document, written
from fitter.report.words import stamp, teller
from fitter.workflow.fitting import fit
from fitter.workflow.owning import buying

CODES = {
    Verdict.PROVEN: PROVEN,
    Verdict.FOUND: TIME_UP,
    Verdict.UNKNOWN: TIME_UP,
    Verdict.IMPOSSIBLE: NO_FIT,
    Verdict.FAULT: OURS,
}
"""The exit code that tells a verdict."""


@dataclass(frozen=True)
class Call(ProjectCall):
    """The same, and how much is told of it.

    Args:
        layouts: how many different layouts.
        buy_up_to: tell beside it what so many cushions bought would bring, and fewer; None to tell nothing of that.
        cures: whether it is looked for what would make an impossible project fit.
        sources: whether it is told where numbers come from that the file does not say.
        near: how far it is looked for what the next seat would cost, where it fits.
    """

    layouts: int = field(default=1, kw_only=True)
    buy_up_to: int | None = field(default=None, kw_only=True)
    cures: bool = field(default=True, kw_only=True)
    sources: bool = field(default=False, kw_only=True)
    near: Looked = field(default=Looked.NO, kw_only=True)


def fit_file(call: Call) -> int:
    """Read, solve, check, tell and draw.

    Args:
        call: what was asked.

    Returns:
        The exit code.
    """
    try:
        read = read_project(call.file)
    except ProjectError as error:
        return refuse(error, as_json=call.as_json)
    said, project = call.filled(read), call.asked(read)
    clock = Clock(call.limit)
    found = bare(project, call.limit, call.layouts, silent=call.silent)
    more: Buying | None = None
    if call.buy_up_to is not None:
        more, wrong = buying(said, found, call.buy_up_to, lambda p: bare(p, call.limit, 1, silent=call.silent))
        found = wrong or found
    if found.clash and not found.interrupted:
        from fitter.cli.explaining import tell_why  # loads what only an impossible project needs

        told = tell_why(call, project, found, more, clock)
        _tell_sources(call, project)
        return WRONG if told is None else _code(told, more)
    stopped = more is not None and more.interrupted
    if call.as_json:
        found = found if stopped else with_near(call, project, found, clock)
        print(written(fit_document(project, found, more)))
    elif found.verdict is not Verdict.FAULT:
        # A document needs none of the terminal's libraries.
        from fitter.report.tables import print_fit
        from fitter.report.terminal import result

        print_fit(result(), project, found, call.denominator, more)
        _tell_sources(call, project)
    sound = found.verdict is not Verdict.FAULT
    if sound and found.layouts and call.folder is not None and not _drawn(call, project, found, call.folder):
        return WRONG
    if sound and not call.as_json and not stopped:
        found = tell_near(call, project, found, clock)
    if found.verdict is Verdict.FAULT:
        from fitter.report.fault import bundle
        from fitter.report.terminal import aside

        aside().print(bundle(found, lines_of(call.file)), soft_wrap=True)
    return _code(found, more)


def _tell_sources(call: Call, project: Project) -> None:
    """Print where numbers come from, if that is asked for; a document always tells it."""
    if call.sources and not call.as_json:
        from fitter.report.tables import print_sources
        from fitter.report.terminal import result

        print_sources(result(), project, call.denominator)


def _code(found: FitResult, more: Buying | None) -> int:
    if found.interrupted or (more is not None and more.interrupted):
        return INTERRUPTED
    # That every layout misses a benchmark that the file asks for is a check that failed.
    code = NO_FIT if found.refused and found.verdict is not Verdict.FAULT else CODES[found.verdict]
    return TIME_UP if more is not None and not more.closed and code in (PROVEN, NO_FIT) else code


def solved(project: Project, limit: float | None, layouts: int, *, silent: bool) -> FitResult:
    """The same as `bare`; of an impossible project also what clashes, in steps as far as the time allows."""
    clock = Clock(limit)
    found = bare(project, limit, layouts, silent=silent)
    if not found.clash or found.interrupted or found.verdict is not Verdict.IMPOSSIBLE:
        return found
    from fitter.workflow.explaining import explained

    told = explained(project, tuple(fact.id for fact in found.clash), clock.left, cured=False, brief=True)
    return replace(found, why=told.why, interrupted=told.interrupted)


def bare(project: Project, limit: float | None, layouts: int, *, silent: bool) -> FitResult:
    """The best layouts, with the progress on the terminal, if there is one.

    Args:
        project: what is asked.
        limit: seconds for the solver; None for no limit.
        layouts: how many different ones are wanted.
        silent: whether no progress is shown.
    """
    if silent or not sys.stderr.isatty():
        return fit(project, limit, layouts=layouts, apart=True)
    from fitter.report.progress import Watcher
    from fitter.report.terminal import aside

    console = aside()
    if not console.is_terminal:  # a terminal that cannot be drawn on
        return fit(project, limit, layouts=layouts, apart=True)
    watcher = Watcher(console, project)
    with watcher.shown():
        return fit(project, limit, watcher, layouts=layouts, apart=True)


def _drawn(call: Call, project: Project, found: FitResult, folder: Path) -> bool:
    """Write the plans and name their files; False, told on standard error, if the sheet is too small."""
    # Loads the picture library, which nobody should wait for who only wants the tables as JSON.
    from fitter.workflow.picturing import write_plans

    tell = teller(project.unit, call.denominator)
    verdicts = [stamp(shown, project, tell) for shown in found.layouts]
    return drawn(lambda: write_plans(project, found.layouts, folder, sheet=call.sheet, verdicts=verdicts))
