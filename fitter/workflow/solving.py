"""The solver in a process of its own: its time limit is hard, and stopping it loses nothing.

It tells every better answer at once, and is ended when its time is up.
"""

from __future__ import annotations

import time
from dataclasses import dataclass, field
from functools import partial
from typing import Any

from fitter.domain.layout import Answer, Verdict
from fitter.domain.project import Project
from fitter.domain.wishes import Objective
from fitter.model import Progress, Wanted, solutions
from fitter.workflow.apart import Send, SolverError, Work, done_apart
from fitter.workflow.costing import costing

__all__ = ["NAME", "Solved", "SolverError", "Told", "solved", "solved_apart", "work_on"]

NAME = "the solver's process"


@dataclass
class Solved:
    """What the solver has told.

    Args:
        answers: one for each layout, best first; the last one may have none.
        interrupted: whether the user stopped it.
    """

    answers: tuple[Answer, ...] = ()
    interrupted: bool = False


@dataclass
class Told:
    """What has come from the solver so far."""

    answers: list[Answer] = field(default_factory=list)
    kept: Answer | None = None

    def take(self, kind: str, content: Any) -> None:
        """Note an answer, or the best so far."""
        if kind == "kept":
            self.kept = content
        elif kind == "answer":
            self.answers.append(content)
            self.kept = None

    def result(self, seconds: float, *, done: bool, interrupted: bool) -> Solved:
        """All answers; where the solver was ended, the best so far is the last one.

        Args:
            seconds: that it has worked.
            done: whether it has told all.
            interrupted: whether the user stopped it.
        """
        if done:
            return Solved(tuple(self.answers), interrupted)
        if self.kept is not None or not self.answers:
            self.answers.append(self.kept or Answer(Verdict.UNKNOWN, None, (), (), seconds))
        elif self.answers[-1].verdict is Verdict.PROVEN:
            self.answers.append(Answer(Verdict.UNKNOWN, None, (), (), seconds))
        return Solved(tuple(self.answers), interrupted)


def solved(
    project: Project,
    most: int = 1,
    limit: float | None = None,
    progress: Progress | None = None,
    asked: Wanted | None = None,
) -> Solved:
    """The best different layouts, solved in this process: nothing but an exception ends it early."""
    return Solved(tuple(solutions(project, most, limit, progress, costing=costing(project), asked=asked)))


def solved_apart(
    project: Project,
    most: int = 1,
    limit: float | None = None,
    progress: Progress | None = None,
    asked: Wanted | None = None,
) -> Solved:
    """The best different layouts, solved in a child process.

    Args:
        project: what is asked.
        most: how many different layouts are wanted.
        limit: seconds for all together, enforced; None for no limit.
        progress: told each step.
        asked: how much of an answer is wanted; None for all of it.

    Returns:
        The answers. Where time ran out or the user interrupted, the last one is the best so far, or unknown.

    Raises:
        SolverError: the child failed.
    """
    started, told = time.monotonic(), Told()

    def hear(kind: str, content: Any) -> None:
        if kind == "step" and progress:
            progress(*content)
        else:
            told.take(kind, content)

    done, interrupted = done_apart(work_on(project, most, limit, progress is not None, asked), hear, limit, NAME)
    return told.result(time.monotonic() - started, done=done, interrupted=interrupted)


def work_on(
    project: Project, most: int, limit: float | None, steps: bool = False, asked: Wanted | None = None
) -> Work:  # fmt: skip
    """The solver's work, to be done in another process: it tells each step if asked to, what it keeps, and answers."""
    return partial(_work, project, most, limit, steps, asked)


def _work(
    project: Project, most: int, limit: float | None, steps: bool, asked: Wanted | None, send: Send
) -> None:  # fmt: skip
    def step(objective: Objective, value: int, bound: int | None, seconds: float) -> None:
        send("step", (objective, value, bound, seconds))

    keep = partial(send, "kept")
    for answer in solutions(project, most, limit, step if steps else None, keep, costing(project), asked):
        send("answer", answer)
