"""`fitter cushions`."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from fitter.cli.drawing import drawn
from fitter.cli.fitting import CODES
from fitter.cli.refusing import lines_of, refuse
from fitter.cli.running import INTERRUPTED, WRONG
from fitter.domain.catalogue import Candidate, Ranking, ranked
from fitter.domain.findings import ProjectError
from fitter.domain.layout import Verdict
from fitter.project.catalogue import read_catalogue
from fitter.project.mould import Mould
from fitter.report.document import failure_document, written
from fitter.workflow.cataloguing import ClusterError, Heard, Tried, cores, try_all, try_on_cluster

_PICTURED = 3
"""How many of the best are drawn side by side."""


@dataclass(frozen=True)
class Call:
    """What was asked on the command line.

    Args:
        file: the project file as written.
        catalogue: the catalogue as written.
        as_json: a document instead of tables.
        jobs: how many are solved at once; None for as many as there are cores.
        limit: seconds for each cushion; None for no limit.
        cluster: address of a Dask scheduler; None for this machine.
        folder: where the picture goes; None for none.
        sheet: a paper that must be used; None to choose.
        silent: whether no progress is shown.
    """

    file: str
    catalogue: str
    as_json: bool
    jobs: int | None = None
    limit: float | None = None
    cluster: str | None = None
    folder: Path | None = None
    sheet: str | None = None
    silent: bool = False


def try_catalogue(call: Call) -> int:
    """Read both files, solve each cushion, rank, tell and draw.

    Args:
        call: what was asked.

    Returns:
        The exit code.
    """
    try:
        mould = Mould(call.file)
        candidates = mould.candidates(read_catalogue(call.catalogue, mould.unit))
    except ProjectError as error:
        return refuse(error, as_json=call.as_json)
    try:
        tried = _tried(call, candidates)
    except ClusterError as error:
        return _refuse(call, error)
    ranking = ranked(tried.trials, len(candidates) - len(tried.trials))
    _tell(call, mould, ranking, stopped=tried.interrupted)
    if ranking.best and ranking.verdict is not Verdict.FAULT and not _drawn(call, ranking):
        return WRONG
    return INTERRUPTED if tried.interrupted else CODES[ranking.verdict]


def _tried(call: Call, candidates: Sequence[Candidate]) -> Tried:
    """All trials, with the progress on the terminal, if there is one."""
    if call.silent or not sys.stderr.isatty():
        return _solved(call, candidates, None)
    from fitter.report.catalogue_progress import CatalogueWatcher
    from fitter.report.terminal import aside

    watcher = CatalogueWatcher(aside(), len(candidates))
    with watcher.shown():
        return _solved(call, candidates, watcher)


def _solved(call: Call, candidates: Sequence[Candidate], heard: Heard | None) -> Tried:
    if call.cluster is not None:
        return try_on_cluster(call.cluster, candidates, call.limit, heard)
    return try_all(candidates, call.jobs or cores(), call.limit, heard)


def _refuse(call: Call, error: ClusterError) -> int:
    from fitter.report.terminal import aside

    if call.as_json:
        print(written(failure_document("invalid", [{"code": error.code, "message": str(error), "help": error.help}])))
    aside().print(f"fitter: error[{error.code}]: {error}\n  help: {error.help}", soft_wrap=True)
    return WRONG


def _tell(call: Call, mould: Mould, ranking: Ranking, *, stopped: bool) -> None:
    if call.as_json:
        from fitter.report.catalogue_document import catalogue_document

        document = catalogue_document(call.file, mould.title, mould.unit, call.catalogue, ranking, stopped=stopped)
        print(written(document))
    elif ranking.verdict is not Verdict.FAULT:
        from fitter.report.catalogue import print_ranking
        from fitter.report.terminal import result

        print_ranking(result(), mould.title, mould.note, call.catalogue, ranking)
    if ranking.verdict is Verdict.FAULT:
        from fitter.report.fault import bundle
        from fitter.report.terminal import aside

        trials = (*ranking.best, *ranking.none)
        wrong = next(trial for trial in trials if trial.verdict is Verdict.FAULT)
        assert wrong.found is not None, "only a layout can be a fault"
        said = f"# the cushion is row {wrong.candidate.row.line} of {call.catalogue}"
        aside().print(bundle(wrong.found, [said, *lines_of(call.file)]), soft_wrap=True)


def _drawn(call: Call, ranking: Ranking) -> bool:
    """Draw the first ones side by side; False, told on standard error, if the sheet is too small."""
    folder = call.folder
    if folder is None:
        return True
    # Loads the picture library, which nobody should wait for who only wants the tables.
    from fitter.workflow.catalogue_picturing import write_best

    return drawn(lambda: write_best(ranking.best[:_PICTURED], folder, sheet=call.sheet))
