"""What the commands that solve a project are all asked."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from pathlib import Path

from fitter.domain.project import Project
from fitter.domain.wishes import FillWish


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
        fill: what is to take up the room that is left; None for what the file says.
    """

    file: str
    as_json: bool
    folder: Path | None
    limit: float | None
    sheet: str | None
    denominator: int
    silent: bool
    fill: str | None = field(default=None, kw_only=True)

    def asked(self, project: Project) -> Project:
        """The project with what the command line says of the room that is left."""
        if self.fill is None:
            return project
        return replace(project, wish=replace(project.wish, fill=FillWish(self.fill)))
