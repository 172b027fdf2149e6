"""The two consoles that everything is printed through: results to one, all else to the other."""

from __future__ import annotations

import os
import sys
from typing import TextIO

from rich.console import Console

WIDTH = 80
CLOSED_PIPE = 141
"""What a shell reports for a program whose reader went away."""


class PipedConsole(Console):
    """A console that ends quietly when its reader goes away, without the code that means `does not fit`."""

    def on_broken_pipe(self) -> None:
        """Leave nothing for Python to write on the way out."""
        self.quiet = True
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        raise SystemExit(CLOSED_PIPE)


def console(stream: TextIO) -> Console:
    """A console on a stream: as wide as its terminal, or 80 columns where there is none.

    Args:
        stream: standard output or standard error.

    Returns:
        A console without markup, emoji or guessed highlights; it honours NO_COLOR.
    """
    # A locale without fractions or multiplication signs gets question marks rather than a crash.
    if hasattr(stream, "reconfigure"):
        stream.reconfigure(errors="replace")
    width = None if stream.isatty() else WIDTH
    return PipedConsole(file=stream, width=width, markup=False, emoji=False, highlight=False)


def result() -> Console:
    """The console for results."""
    return console(sys.stdout)


def aside() -> Console:
    """The console for everything else."""
    return console(sys.stderr)
