"""The solver in a process of its own: its time limit is hard, and stopping it loses nothing.

The solver's own limit is asked now and then, not enforced: one step of its arithmetic may overrun it by far. So it
works in a child process, which tells every better answer at once and is ended when its time is up.
"""

from __future__ import annotations

import multiprocessing
import os
import time
import traceback
from dataclasses import dataclass, field
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess

from fitter.domain.layout import Answer, Verdict
from fitter.domain.project import Project
from fitter.domain.wishes import Objective
from fitter.model import Progress, Wanted, solutions
from fitter.workflow.costing import costing

GRACE = 0.25  # seconds past the limit for the solver to end by itself, which tells its last bounds


class SolverError(Exception):
    """The child process failed; the text holds its traceback."""


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
class _Told:
    """What has come from the child so far."""

    answers: list[Answer] = field(default_factory=list)
    kept: Answer | None = None
    done: bool = False

    def cut(self, interrupted: bool, seconds: float) -> Solved:
        """The best so far, where the child was ended."""
        if self.kept is not None or not self.answers:
            self.answers.append(self.kept or Answer(Verdict.UNKNOWN, None, (), (), seconds))
        elif not self.done and self.answers[-1].verdict is Verdict.PROVEN:
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
    started = time.monotonic()
    child, pipe = _start(project, most, limit, progress is not None, asked)
    told = _Told()
    interrupted = False
    try:
        while not told.done and not _over(started, limit):
            left = None if limit is None else max(0.0, started + limit + GRACE - time.monotonic())
            if pipe.poll(left):
                _take(pipe, told, progress)
    except KeyboardInterrupt:
        interrupted = True
    except EOFError:
        message = f"the solver's process ended by itself, with code {_end(child)}"
        raise SolverError(message) from None
    finally:
        _end(child)
        pipe.close()
    if told.done and not interrupted:
        return Solved(tuple(told.answers))
    return told.cut(interrupted, time.monotonic() - started)


def _over(started: float, limit: float | None) -> bool:
    return limit is not None and time.monotonic() >= started + limit + GRACE


def _start(
    project: Project, most: int, limit: float | None, steps: bool, asked: Wanted | None = None
) -> tuple[BaseProcess, Connection]:
    # A forked child starts at once with all libraries loaded; where there is no fork, it loads them anew.
    forks = "fork" in multiprocessing.get_all_start_methods()
    context = multiprocessing.get_context("fork") if forks else multiprocessing.get_context("spawn")
    ours, theirs = context.Pipe(duplex=False)
    # A forked child has our end too: unless it closes that, it would wait for ever once we are gone.
    inherited = ours if forks else None
    call = (theirs, inherited, project, most, limit, steps, asked)
    child = context.Process(target=_work, args=call, daemon=True)
    child.start()
    theirs.close()
    return child, ours


def _take(pipe: Connection, told: _Told, progress: Progress | None) -> None:
    kind, content = pipe.recv()
    if kind == "step" and progress:
        progress(*content)
    elif kind == "kept":
        told.kept = content
    elif kind == "answer":
        told.answers.append(content)
        told.kept = None
    elif kind == "done":
        told.done = True
    elif kind == "failed":
        raise SolverError(content)


def _end(child: BaseProcess) -> int | None:
    if child.is_alive():
        child.join(0.05)
    if child.is_alive():
        child.kill()
    child.join()
    return child.exitcode


def _work(
    pipe: Connection,
    inherited: Connection | None,
    project: Project,
    most: int,
    limit: float | None,
    steps: bool,
    asked: Wanted | None,
) -> None:
    """The child's whole life."""
    if inherited is not None:
        inherited.close()
    if hasattr(os, "setpgid"):
        os.setpgid(0, 0)  # an interruption at the terminal is the parent's to handle

    def step(objective: Objective, value: int, bound: int | None, seconds: float) -> None:
        pipe.send(("step", (objective, value, bound, seconds)))

    def keep(answer: Answer) -> None:
        pipe.send(("kept", answer))

    try:
        for answer in solutions(project, most, limit, step if steps else None, keep, costing(project), asked):
            pipe.send(("answer", answer))
        pipe.send(("done", None))
    except BrokenPipeError:
        pass  # nobody listens any more
    except BaseException:
        pipe.send(("failed", traceback.format_exc()))
