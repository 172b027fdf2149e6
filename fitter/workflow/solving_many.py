"""Several questions solved at the same time, each in a process of its own, as many at once as there are cores.

No question knows of the others, so the answers are those of one after another.
"""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from multiprocessing.connection import wait

from fitter.domain.project import Project
from fitter.workflow.apart import Child
from fitter.workflow.solving import NAME, Solved, Told, work_on


@dataclass
class _Running:
    """A question that is being solved."""

    index: int
    child: Child
    told: Told = field(default_factory=Told)

    def result(self, *, interrupted: bool) -> Solved:
        """What it has told, once its process is ended."""
        self.child.end()
        return self.told.result(self.child.seconds, done=self.child.done, interrupted=interrupted)


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
                    running.append(_Running(index, Child(work_on(projects[index], 1, limit), limit, NAME)))
                    waiting.pop(0)
                ended = _ended(running)
            except KeyboardInterrupt:
                ended, interrupted = list(running), True
            for each in ended:
                running.remove(each)
                yield each.index, each.result(interrupted=interrupted)
            if interrupted:
                for index in waiting:
                    yield index, Told().result(0.0, done=False, interrupted=True)
                return
    finally:
        for each in running:
            each.child.end()


def _ended(running: Sequence[_Running]) -> list[_Running]:
    """Listen until some of them have told all, or their time is up."""
    limits = [each.child.left for each in running if each.child.left is not None]
    ready = wait([each.child.pipe for each in running], min(limits, default=None))
    for each in running:
        if each.child.pipe in ready:
            each.child.hear(each.told.take)
    return [each for each in running if each.child.done or each.child.left == 0.0]
