"""What the commands that solve a project are all asked."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True)
class ProjectCall:
    """What was asked on the command line.

    Args:
        file: the project file as written.
        as_json: a document instead of tables.
        folder: where drawings go; None for none.
        limit: seconds for the solver; None for no limit.
        sheet: a paper that must be used; None to choose.
        denominator: finest fraction of an inch.
        silent: whether no progress is shown.
    """

    file: str
    as_json: bool
    folder: Path | None
    limit: float | None
    sheet: str | None
    denominator: int
    silent: bool
