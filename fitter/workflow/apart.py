"""Work in a process of its own that tells what it knows as it goes: its limit is hard, stopping it loses nothing."""

from __future__ import annotations

import multiprocessing
import os
import time
import traceback
from collections.abc import Callable
from multiprocessing.connection import Connection
from typing import Any

from fitter.workflow.solving import GRACE, SolverError, _end

Send = Callable[[str, Any], None]
"""Tells something: its kind, and what is told."""


def done_apart(
    work: Callable[[Send], None], hear: Callable[[str, Any], None], limit: float | None, name: str
) -> tuple[bool, bool]:
    """Do some work in a child process.

    Args:
        work: to be done; what it is made of can be sent to another process.
        hear: hears in this process what the work tells.
        limit: seconds, enforced; None for no limit.
        name: of the work, for messages.

    Returns:
        Whether it was done, and whether the user stopped it.

    Raises:
        SolverError: the child failed.
    """
    # A forked child starts at once with all libraries loaded; where there is no fork, it loads them anew.
    forks = "fork" in multiprocessing.get_all_start_methods()
    context = multiprocessing.get_context("fork") if forks else multiprocessing.get_context("spawn")
    ours, theirs = context.Pipe(duplex=False)
    # A forked child has our end too: unless it closes that, it would wait for ever once we are gone.
    child = context.Process(target=_live, args=(theirs, ours if forks else None, work), daemon=True)
    child.start()
    theirs.close()
    over = None if limit is None else time.monotonic() + limit + GRACE
    done = interrupted = False
    try:
        while not done and (over is None or time.monotonic() < over):
            if ours.poll(None if over is None else max(0.0, over - time.monotonic())):
                kind, content = ours.recv()
                if kind == "failed":
                    raise SolverError(content)
                if kind == "done":
                    done = True
                else:
                    hear(kind, content)
    except KeyboardInterrupt:
        interrupted = True
    except EOFError:
        message = f"the process of {name} ended by itself, with code {_end(child)}"
        raise SolverError(message) from None
    finally:
        _end(child)
        ours.close()
    return done, interrupted


def _live(pipe: Connection, inherited: Connection | None, work: Callable[[Send], None]) -> None:
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
