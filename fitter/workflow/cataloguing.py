"""The cushions of a catalogue, each solved by itself: here one after another or on all cores, or on a Dask cluster.

No trial knows of the others, and what comes back is put into the order of the catalogue: the result is the same however
it was worked out. A trial is solved within the process that takes it, which stays for the next one.
"""

from __future__ import annotations

import asyncio
import logging
import signal
import threading
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from importlib.util import find_spec
from typing import Any

from joblib import Parallel, cpu_count, delayed

from fitter.domain.catalogue import Candidate, Trial
from fitter.domain.outcome import FitResult
from fitter.domain.project import Project
from fitter.workflow.fitting import fit

Heard = Callable[[Trial], None]
PATIENCE = 5.0
"""Seconds for a cluster to answer, and for its first worker to come."""

_ONE_AT_A_TIME = threading.Lock()
"""The solver has one state a process; a worker of a cluster may have several threads."""


class ClusterError(Exception):
    """A cluster that cannot be used.

    Args:
        message: what is wrong.
        help: what would be right.
        code: kebab-case, stable.
    """

    def __init__(self, message: str, help: str, code: str) -> None:
        super().__init__(message)
        self.help, self.code = help, code


@dataclass(frozen=True)
class Tried:
    """What was tried.

    Args:
        trials: in the order of the catalogue.
        interrupted: whether the user stopped it before all were.
    """

    trials: tuple[Trial, ...]
    interrupted: bool = False


def cores() -> int:
    """How many jobs can run at once on this machine."""
    return int(cpu_count())


def try_all(
    candidates: Sequence[Candidate], jobs: int, limit: float | None = None, heard: Heard | None = None
) -> Tried:  # fmt: skip
    """Solve each candidate on this machine.

    Args:
        candidates: in the order of the catalogue.
        jobs: how many at once.
        limit: seconds for each; None for no limit.
        heard: told each trial as it comes, in any order.
    """
    return _gathered(candidates, lambda asked: _solved_here(asked, min(jobs, len(asked)), limit), heard)


def try_on_cluster(
    address: str, candidates: Sequence[Candidate], limit: float | None = None, heard: Heard | None = None
) -> Tried:
    """Solve each candidate on a Dask cluster whose workers have this project installed.

    Args:
        address: of its scheduler, such as `tcp://10.0.0.5:8786`.
        candidates: in the order of the catalogue.
        limit: seconds for each; None for no limit.
        heard: told each trial as it comes, in any order.

    Raises:
        ClusterError: the library is not installed, nothing answers at the address, or the workers cannot do it.
    """
    if find_spec("distributed") is None:
        message = "`--cluster` needs the library of Dask clusters, which is not installed"
        help = "install it: pip install 'patio-fitter[cluster]'"
        raise ClusterError(message, help, code="no-cluster-library")
    with _client(address) as client:
        return _gathered(candidates, lambda asked: _solved_there(client, asked, limit), heard)


_Found = tuple[int, FitResult]
_Asked = Sequence[tuple[int, Project]]


def _gathered(
    candidates: Sequence[Candidate], solve: Callable[[_Asked], Iterator[_Found]], heard: Heard | None
) -> Tried:
    """Take in what is solved, and put it in order."""
    trials: dict[int, Trial] = {}

    def take(number: int, found: FitResult | None) -> None:
        trials[number] = Trial(candidates[number], found)
        if heard is not None:
            heard(trials[number])

    # The places in the file are only for messages.
    asked = [(n, replace(each.project, places={})) for n, each in enumerate(candidates) if each.project is not None]
    interrupted = False
    try:
        for number, candidate in enumerate(candidates):
            if candidate.project is None:
                take(number, None)
        for number, found in solve(asked):
            take(number, found)
    except KeyboardInterrupt:
        interrupted = True
    return Tried(tuple(trials[number] for number in sorted(trials)), interrupted)


def _solved(number: int, project: Project, limit: float | None) -> _Found:
    """One job: the seconds it took are left out, since they are never the same."""
    with _ONE_AT_A_TIME:
        return number, replace(fit(project, limit), seconds=0.0)


def _solved_here(asked: _Asked, jobs: int, limit: float | None) -> Iterator[_Found]:
    if jobs <= 1:
        for number, project in asked:
            yield _solved(number, project, limit)
        return
    parallel = Parallel(
        n_jobs=jobs, backend="loky", return_as="generator_unordered", batch_size=1, initializer=_ready
    )  # fmt: skip
    yield from parallel(delayed(_solved)(number, project, limit) for number, project in asked)


def _ready() -> None:
    """In a new worker process: an interruption at the terminal is the parent's to handle."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)


@contextmanager
def _client(address: str) -> Iterator[Any]:
    """A connection to a cluster that has workers which know this project."""
    # Takes a second to load, and is wanted only here.
    import distributed

    # What it logs of a lost connection is told once, in our words.
    logging.getLogger("distributed").setLevel(logging.CRITICAL)
    try:
        # A client that finds nobody lingers, and complains once more on its way out.
        asyncio.run(_probe(address))
        client = distributed.Client(address, timeout=PATIENCE)
    except (OSError, ValueError, TypeError) as error:
        message = f"no cluster answers at `{address}` within {PATIENCE:g} seconds"
        help = "write the address that its scheduler prints, such as `tcp://10.0.0.5:8786`"
        raise ClusterError(message, help, code="no-cluster") from error
    with client:
        _check_workers(client, address)
        yield client


async def _probe(address: str) -> None:
    """Connect to a scheduler, and let go again."""
    from distributed.comm import connect

    comm = await connect(address, timeout=PATIENCE)
    await comm.close()


def _check_workers(client: Any, address: str) -> None:
    try:
        client.wait_for_workers(1, timeout=PATIENCE)
    except TimeoutError as error:
        message = f"the cluster at `{address}` has no worker"
        help = "start one: dask worker ADDRESS --nthreads 1"
        raise ClusterError(message, help, code="no-worker") from error
    try:
        client.run(_known)
    except Exception as error:  # whatever a strange worker says of a function that it cannot load
        message = f"the workers of the cluster at `{address}` do not know this program"
        help = "install the same version of patio-fitter on each of them"
        raise ClusterError(message, help, code="strange-worker") from error


def _known() -> None:
    """Asked of each worker: only one that has this module can be."""


def _solved_there(client: Any, asked: _Asked, limit: float | None) -> Iterator[_Found]:
    from distributed import CancelledError, KilledWorker, as_completed

    jobs = [client.submit(_solved, number, project, limit, pure=False) for number, project in asked]
    try:
        for job in as_completed(jobs):
            yield job.result()
    except (OSError, CancelledError, KilledWorker) as error:
        message = "the cluster lost its workers before every cushion was tried"
        help = "run it again, or without `--cluster`"
        raise ClusterError(message, help, code="cluster-lost") from error
    except BaseException:
        client.cancel(jobs)
        raise
