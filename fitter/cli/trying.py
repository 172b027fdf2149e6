"""What is being tried, in one line on the terminal that is wiped away at the end."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from rich.console import Console


class Trying:
    """One line on the terminal that tells what is being tried."""

    def __init__(self, console: Console) -> None:
        self._status = console.status("")

    def update(self, name: str) -> None:
        """Show what is tried; only now, so that no drawing thread is taken into the process that works."""
        self._status.update(f"trying: {name}")
        self._status.start()

    def stop(self) -> None:
        """Wipe the line away."""
        self._status.stop()


@contextmanager
def trying_line(*, silent: bool) -> Iterator[Trying | None]:
    """The line, where a terminal can show it.

    Args:
        silent: whether no progress is wanted.
    """
    from fitter.report.terminal import aside

    console = aside()
    if silent or not sys.stderr.isatty() or not console.is_terminal:
        yield None
        return
    trying = Trying(console)
    try:
        yield trying
    finally:
        trying.stop()
