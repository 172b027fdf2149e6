"""What is told while a catalogue is tried: how many are done, and the best so far."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from rich.console import Console
from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeElapsedColumn

from fitter.domain.catalogue import Trial, ranked
from fitter.report.words import counted


class CatalogueWatcher:
    """A bar that is wiped away at the end.

    Args:
        console: of standard error.
        count: how many cushions there are.
    """

    def __init__(self, console: Console, count: int) -> None:
        columns = (BarColumn(20), MofNCompleteColumn(), TimeElapsedColumn(), TextColumn("{task.description}"))
        self._bar = Progress(*columns, console=console, transient=True)
        self._task = self._bar.add_task("", total=count)
        self._best: Trial | None = None

    def __call__(self, trial: Trial) -> None:
        """Count a trial, and keep the best."""
        known = [each for each in (self._best, trial) if each is not None]
        self._best = next(iter(ranked(known).best), None)
        self._bar.update(self._task, advance=1, description=best_line(self._best))

    @contextmanager
    def shown(self) -> Iterator[None]:
        """Keep the bar on the terminal while the work goes on."""
        with self._bar:
            yield


def best_line(best: Trial | None) -> str:
    """The best so far in words."""
    if best is None or best.shown is None:
        return "none fits so far"
    return f"best so far: {best.candidate.row.cushion.name}, {counted(best.shown.layout.seats, 'seat')}"
