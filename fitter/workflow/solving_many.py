"""Several questions solved at the same time, each in a process of its own, as many at once as there are cores.

No question knows of the others, so the answers are those of one after another.
"""

from __future__ import annotations

import os
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from multiprocessing.connection import Connection, wait
from multiprocessing.process import BaseProcess

from fitter.domain.project import Project
from fitter.workflow import solving
from fitter.workflow.solving import Solved


@dataclass
class _Running:
    """A question that is being solved."""

    index: int
    child: BaseProcess
    pipe: Connection
    limit: float | None
    started: float = field(default_factory=time.monotonic)
    told: solving._Told = field(default_factory=solving._Told)

    @property
    def left(self) -> float | None:
        """Seconds until it is ended; None for no limit."""
        if self.limit is None:
            return None
        return max(0.0, self.started + self.limit + solving.GRACE - time.monotonic())

    def result(self, *, interrupted: bool) -> Solved:
        """What it has told, once its process is ended."""
        solving._end(self.child)
        self.pipe.close()
        if self.told.done:
            return Solved(tuple(self.told.answers), interrupted)
        return self.told.cut(interrupted, time.monotonic() - self.started)


def solved_many(
    projects: Sequence[Project], limit: float | None = None, at_once: int | None = None
) -> Iterator[tuple[int, Solved]]:
    """The best layout of each project, as its solver comes to it.

    Args:
        projects: the questions.
        limit: seconds for each, enforced; None for no limit.
        at_once: how many processes work at the same time; None for as many as there are cores.

    Yields:
        The index of a question with its answer, each once. After an interruption the rest, as far as known.

    Raises:
        SolverError: a child failed.
    """
    most = at_once or os.cpu_count() or 1
    waiting = list(range(len(projects)))
    running: list[_Running] = []
    try:
        while waiting or running:
            interrupted = False
            try:
                while waiting and len(running) < most:
                    index = waiting[0]
                    running.append(_Running(index, *solving._start(projects[index], 1, limit, False), limit))
                    waiting.pop(0)
                ended = _ended(running)
            except KeyboardInterrupt:
                ended, interrupted = list(running), True
            for each in ended:
                running.remove(each)
                yield each.index, each.result(interrupted=interrupted)
            if interrupted:
                for index in waiting:
                    yield index, solving._Told().cut(True, 0.0)
                return
    finally:
        for each in running:
            solving._end(each.child)


def _ended(running: Sequence[_Running]) -> list[_Running]:
    """Listen until some of them have told all, or their time is up."""
    limits = [each.left for each in running if each.left is not None]
    ready = wait([each.pipe for each in running], min(limits, default=None))
    for each in running:
        if each.pipe in ready:
            try:
                solving._take(each.pipe, each.told, None)
            except EOFError:
                message = f"the solver's process ended by itself, with code {solving._end(each.child)}"
                raise solving.SolverError(message) from None
    return [each for each in running if each.told.done or each.left == 0.0]
