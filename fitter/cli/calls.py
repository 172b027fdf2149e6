"""What the commands that solve a project are all asked."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from pathlib import Path

from fitter.domain.owned import BUY_AT_MOST, ONLY_OWNED, limited
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
        buy_most: how many cushions may be bought; None for what the file says.
        only_owned: whether that was asked for in the words of `--only-owned`.
        fill: what is to take up the room that is left; None for what the file says.
    """

    file: str
    as_json: bool
    folder: Path | None = field(default=None, kw_only=True)
    limit: float | None = field(default=None, kw_only=True)
    sheet: str | None = field(default=None, kw_only=True)
    denominator: int = field(default=16, kw_only=True)
    silent: bool = field(default=False, kw_only=True)
    buy_most: int | None = field(default=None, kw_only=True)
    only_owned: bool = field(default=False, kw_only=True)
    fill: str | None = field(default=None, kw_only=True)

    def asked(self, project: Project) -> Project:
        """The project with what the command line says of cushions to buy and of the room that is left."""
        project = self.filled(project)
        if self.buy_most is None:
            return project
        return limited(project, self.buy_most, ONLY_OWNED if self.only_owned else BUY_AT_MOST)

    def filled(self, project: Project) -> Project:
        """The same without what it says of cushions to buy."""
        if self.fill is None:
            return project
        return replace(project, wish=replace(project.wish, fill=FillWish(self.fill)))
