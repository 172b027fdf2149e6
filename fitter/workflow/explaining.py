"""The explanation in a process of its own: its time limit is hard, and stopping it loses nothing that was known."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import partial
from typing import Any

from fitter.domain.findings import Finding
from fitter.domain.layout import Layout
from fitter.domain.project import Project
from fitter.domain.why import Clash, Cure, Sought, Why
from fitter.model import TimeUp
from fitter.workflow.apart import Send, done_apart
from fitter.workflow.cures.curing import ranked
from fitter.workflow.cures.explaining import Explainer, uninvolved
from fitter.workflow.cures.questions import CheckError
from fitter.workflow.cures.written import with_changes


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
    heard, so_far = listener or Listener(), _Known(project)
    work = partial(_work, project, known, limit, cured, brief)
    _, interrupted = done_apart(work, partial(_take, so_far, heard), limit, "the process of the explanation")
    return so_far.told(cured, interrupted)


def _take(known: _Known, heard: Listener, kind: str, content: Any) -> None:
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


def _work(
    project: Project, known: tuple[str, ...], limit: float | None, cured: bool, brief: bool, send: Send
) -> None:  # fmt: skip
    try:
        explainer = Explainer(project, limit, partial(with_changes, project))
        clash = explainer.clash(known)
        send("clash", clash)
        if not brief:
            send("spared", explainer.spared(clash))
        if cured:
            send("why", explainer.why(clash, partial(send, "trying"), partial(send, "cure")))
    except TimeUp:
        pass  # what is known by now was sent
    except CheckError as error:
        send("refused", error.findings)
