"""Files that a command draws, named on standard error."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import Path


def drawn(write: Callable[[], Iterable[Path]]) -> bool:
    """Write drawings and name their files.

    Args:
        write: writes them all and gives their paths; ValueError if a sheet is too small.

    Returns:
        False, told on standard error, if a sheet is too small.
    """
    from fitter.report.terminal import aside  # a document alone needs none of the terminal's libraries

    try:
        paths = write()
    except ValueError as error:
        aside().print(f"fitter: error[sheet-too-small]: {error}", soft_wrap=True)
        return False
    for path in paths:
        aside().print(f"wrote {path}", soft_wrap=True)
    return True
