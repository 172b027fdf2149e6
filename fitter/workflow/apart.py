"""Work in a process of its own that tells what it knows as it goes: its limit is hard, stopping it loses nothing.

The solver's own limit is asked now and then, not enforced: one step of its arithmetic may overrun it by far. So the
process is ended when its time is up.
"""

from __future__ import annotations

import multiprocessing
import os
import time
import traceback
from collections.abc import Callable
from multiprocessing.connection import Connection
from typing import Any

GRACE = 0.25  # seconds past the limit for the work to end by itself, which tells its last bounds

Send = Callable[[str, Any], None]
"""Tells something: its kind, and what is told."""
Work = Callable[[Send], None]


class SolverError(Exception):
    """The child process failed; the text holds its traceback."""


class Child:
    """A process that does some work, and the pipe through which it tells what it knows.

    Args:
        work: to be done; what it is made of can be sent to another process.
        limit: seconds from now on; None for no limit.
        name: of the process, for messages.
    """

    def __init__(self, work: Work, limit: float | None, name: str) -> None:
        # A forked child starts at once with all libraries loaded; where there is no fork, it loads them anew.
        forks = "fork" in multiprocessing.get_all_start_methods()
        context = multiprocessing.get_context("fork") if forks else multiprocessing.get_context("spawn")
        self.name, self.limit, self.started, self.done = name, limit, time.monotonic(), False
        self.pipe, theirs = context.Pipe(duplex=False)
        # A forked child has our end too: unless it closes that, it would wait for ever once we are gone.
        call = (theirs, self.pipe if forks else None, work)
        self.process = context.Process(target=_live, args=call, daemon=True)
        self.process.start()
        theirs.close()

    @property
    def seconds(self) -> float:
        """Since it was started."""
        return time.monotonic() - self.started

    @property
    def left(self) -> float | None:
        """Seconds until it is to be ended; None for no limit."""
        return None if self.limit is None else max(0.0, self.limit + GRACE - self.seconds)

    def hear(self, hear: Send) -> None:
        """Take the next thing that it tells, waiting for it.

        Raises:
            SolverError: the work failed, or the process ended by itself.
        """
        try:
            kind, content = self.pipe.recv()
        except EOFError:
            message = f"{self.name} ended by itself, with code {self.end()}"
            raise SolverError(message) from None
        if kind == "failed":
            raise SolverError(content)
        if kind == "done":
            self.done = True
        else:
            hear(kind, content)

    def end(self) -> int | None:
        """End it, if it has not ended yet, and give its exit code."""
        if self.process.is_alive():
            self.process.join(0.05)
        if self.process.is_alive():
            self.process.kill()
        self.process.join()
        self.pipe.close()
        return self.process.exitcode


def done_apart(work: Work, hear: Send, limit: float | None, name: str) -> tuple[bool, bool]:
    """Do some work in a child process.

    Args:
        work: to be done; what it is made of can be sent to another process.
        hear: hears in this process what the work tells.
        limit: seconds, enforced; None for no limit.
        name: of the process, for messages.

    Returns:
        Whether it was done, and whether the user stopped it.

    Raises:
        SolverError: the child failed.
    """
    child = Child(work, limit, name)
    interrupted = False
    try:
        while not child.done and child.left != 0.0:
            if child.pipe.poll(child.left):
                child.hear(hear)
    except KeyboardInterrupt:
        interrupted = True
    finally:
        child.end()
    return child.done, interrupted


def _live(pipe: Connection, inherited: Connection | None, work: Work) -> None:
    """The child's whole life."""
    if inherited is not None:
        inherited.close()
    if hasattr(os, "setpgid"):
        os.setpgid(0, 0)  # an interruption at the terminal is the parent's to handle
    try:
        work(lambda kind, content: pipe.send((kind, content)))
        pipe.send(("done", None))
    except BrokenPipeError:
        pass  # nobody listens any more
    except BaseException:
        pipe.send(("failed", traceback.format_exc()))
