"""What the next seat would cost, looked for in a process of its own: the answer never waits for it."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import Any

from fitter.domain.findings import Finding
from fitter.domain.layout import Layout
from fitter.domain.near import Looked, NearMiss, NextSeat, next_seat
from fitter.domain.project import Project
from fitter.domain.why import Sought
from fitter.model import TimeUp
from fitter.workflow.apart import Send, done_apart
from fitter.workflow.cures.near import near_misses, ranked
from fitter.workflow.cures.questions import CheckError


@dataclass(frozen=True)
class Neared:
    """What is known of the next seat.

    Args:
        next_seat: what it would cost, as far as that is known; None where it is not asked for.
        interrupted: whether the user stopped it.
        checked: what the checker holds against the layout of a near miss; it must not be shown then, and is our
            mistake.
    """

    next_seat: NextSeat | None = None
    interrupted: bool = False
    checked: tuple[Finding, ...] = ()


def neared(
    project: Project,
    layout: Layout,
    looked: Looked,
    limit: float | None = None,
    trying: Callable[[str], None] | None = None,
) -> Neared:
    """Look for what the next seat would cost, in a child process.

    Args:
        project: that fits, as a file and flags of the command line state it.
        layout: its best, proven.
        looked: at which changes.
        limit: seconds for all of it, enforced; None for no limit.
        trying: hears what kind of change is being tried.

    Returns:
        What is known.

    Raises:
        SolverError: the child failed.
    """
    seats = next_seat(project, layout)
    if seats is None or looked is Looked.NO:
        return Neared()
    heard: dict[str, Any] = {}
    found: list[NearMiss] = []

    def hear(kind: str, content: Any) -> None:
        if kind == "miss":
            found.append(content)
        elif kind != "trying":
            heard[kind] = content
        elif trying:
            trying(content)

    work = partial(_work, project, layout, looked, limit)
    _, interrupted = done_apart(work, hear, limit, "the process of the search for the next seat")
    part = NextSeat(seats, ranked(found), looked=looked, sought=Sought.PART)
    return Neared(heard.get("all", part), interrupted, heard.get("refused", ()))


def _work(project: Project, layout: Layout, looked: Looked, limit: float | None, send: Send) -> None:
    deadline = None if limit is None else time.monotonic() + limit
    try:
        found = near_misses(
            project,
            layout,
            looked,
            deadline=deadline,
            told=lambda name: send("trying", name),
            kept=lambda miss: send("miss", miss),
        )
        send("all", found)
    except TimeUp:
        pass  # what is known by now was sent
    except CheckError as error:
        send("refused", error.findings)
