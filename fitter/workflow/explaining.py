"""The explanation in a process of its own: its time limit is hard, and stopping it loses nothing that was known."""

from __future__ import annotations

import multiprocessing
import os
import time
import traceback
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import partial
from multiprocessing.connection import Connection

from fitter.domain.findings import Finding
from fitter.domain.layout import Layout
from fitter.domain.project import Project
from fitter.domain.why import Clash, Cure, Sought, Why
from fitter.model import TimeUp
from fitter.workflow.cures.curing import ranked
from fitter.workflow.cures.explaining import Explainer, uninvolved
from fitter.workflow.cures.questions import CheckError
from fitter.workflow.cures.written import with_changes
from fitter.workflow.solving import GRACE, SolverError, _end


@dataclass(frozen=True)
class Explained:
    """What is known of why nothing fits.

    Args:
        why: as far as it is known; None where not even the clash was in the time.
        interrupted: whether the user stopped it.
        checked: what the checker holds against the layout of a cure; it must not be shown then, and is our mistake.
    """

    why: Why | None = None
    interrupted: bool = False
    checked: tuple[Finding, ...] = ()


@dataclass
class Listener:
    """Hears what is known as soon as it is; each may be left out.

    Args:
        clash: hears the clash with its steps.
        trying: hears what kind of change is being tried.
    """

    clash: Callable[[Clash], None] | None = None
    trying: Callable[[str], None] | None = None


@dataclass
class _Known:
    """What has come from the child so far."""

    project: Project
    clash: Clash | None = None
    spared: Layout | None = None
    cures: list[Cure] = field(default_factory=list)
    why: Why | None = None
    checked: tuple[Finding, ...] = ()
    done: bool = False

    def told(self, cured: bool, interrupted: bool) -> Explained:
        """All of it, or what is known where the child was ended."""
        if self.why is not None or self.clash is None:
            return Explained(self.why, interrupted, self.checked)
        rest = uninvolved(self.project, (self.clash,))
        sought = Sought.PART if cured else Sought.NOT
        why = Why((self.clash,), ranked(self.cures), (), rest, sought, self.spared)
        return Explained(why, interrupted, self.checked)


def explained(
    project: Project,
    known: tuple[str, ...],
    limit: float | None = None,
    *,
    cured: bool = True,
    brief: bool = False,
    listener: Listener | None = None,
) -> Explained:
    """Why a project is impossible, and what would make it fit, worked out in a child process.

    Args:
        project: that is impossible, as a file and flags of the command line state it.
        known: requirements that cannot hold together, each needed for that.
        limit: seconds for all of it, enforced; None for no limit.
        cured: whether cures are looked for.
        brief: whether nothing but the clash is asked for, not even a layout that could be drawn.
        listener: hears what is known as soon as it is.

    Returns:
        What is known.

    Raises:
        SolverError: the child failed.
    """
    heard, so_far, interrupted = listener or Listener(), _Known(project), False
    forks = "fork" in multiprocessing.get_all_start_methods()
    context = multiprocessing.get_context("fork") if forks else multiprocessing.get_context("spawn")
    ours, theirs = context.Pipe(duplex=False)
    call = (theirs, ours if forks else None, project, known, limit, cured, brief)
    child = context.Process(target=_work, args=call, daemon=True)
    child.start()
    theirs.close()
    over = None if limit is None else time.monotonic() + limit + GRACE
    try:
        while not so_far.done and (over is None or time.monotonic() < over):
            if ours.poll(None if over is None else max(0.0, over - time.monotonic())):
                _take(ours, so_far, heard)
    except KeyboardInterrupt:
        interrupted = True
    except EOFError:
        message = f"the process of the explanation ended by itself, with code {_end(child)}"
        raise SolverError(message) from None
    finally:
        _end(child)
        ours.close()
    return so_far.told(cured, interrupted)


def _take(pipe: Connection, known: _Known, heard: Listener) -> None:
    kind, content = pipe.recv()
    if kind == "clash":
        known.clash = content
        if heard.clash:
            heard.clash(content)
    elif kind == "trying" and heard.trying:
        heard.trying(content)
    elif kind == "spared":
        known.spared = content
    elif kind == "cure":
        known.cures.append(content)
    elif kind == "why":
        known.why = content
    elif kind == "refused":
        known.checked = content
    elif kind == "failed":
        raise SolverError(content)
    known.done = kind == "done"


def _work(
    pipe: Connection,
    inherited: Connection | None,
    project: Project,
    known: tuple[str, ...],
    limit: float | None,
    cured: bool,
    brief: bool,
) -> None:
    """The child's whole life."""
    if inherited is not None:
        inherited.close()
    if hasattr(os, "setpgid"):
        os.setpgid(0, 0)  # an interruption at the terminal is the parent's to handle
    try:
        explainer = Explainer(project, limit, partial(with_changes, project))
        clash = explainer.clash(known)
        pipe.send(("clash", clash))
        if not brief:
            pipe.send(("spared", explainer.spared(clash)))
        if cured:
            why = explainer.why(
                clash, lambda name: pipe.send(("trying", name)), lambda cure: pipe.send(("cure", cure))
            )  # fmt: skip
            pipe.send(("why", why))
        pipe.send(("done", None))
    except TimeUp:
        pipe.send(("done", None))
    except CheckError as error:
        pipe.send(("refused", error.findings))
        pipe.send(("done", None))
    except BrokenPipeError:
        pass  # nobody listens any more
    except BaseException:
        pipe.send(("failed", traceback.format_exc()))
