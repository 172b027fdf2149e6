"""What is told while the solver works: best so far, proven bound, seconds."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from rich.console import Console

from fitter.domain.project import Project
from fitter.domain.wishes import Objective
from fitter.report.words import Teller, objective_name, objective_value, teller


class Watcher:
    """Shows each step of the solver in one line that is wiped away at the end.

    Args:
        console: of standard error.
        project: what is solved.
    """

    def __init__(self, console: Console, project: Project) -> None:
        self._project = project
        self._tell: Teller = teller(project.unit)
        self._status = console.status("looking for a first layout")

    def __call__(self, objective: Objective, value: int, bound: int | None, seconds: float) -> None:
        """Show a step; `bound` is None while nothing is proven."""
        # Only now: the solver's process is split off first, and must not take a drawing thread with it.
        self._status.start()
        self._status.update(step_line(self._project, self._tell, objective, value, bound, seconds))

    @contextmanager
    def shown(self) -> Iterator[None]:
        """Keep the line on the terminal while the work goes on."""
        try:
            yield
        finally:
            self._status.stop()


def step_line(
    project: Project, tell: Teller, objective: Objective, value: int, bound: int | None, seconds: float
) -> str:
    """One step of the solver in words."""
    best = objective_value(objective, value, project, tell)
    if bound is None:
        known = "no bound yet"
    elif bound == value:
        known = "proven"
    else:
        known = f"bound {objective_value(objective, bound, project, tell)}"
    return f"{objective_name(objective)}: best so far {best}, {known}, {seconds:.1f} s"
