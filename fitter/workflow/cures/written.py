"""Cures as they are written into the file: read again with all its checks, solved and passed by the checker."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from fitter.domain.findings import ProjectError
from fitter.domain.layout import Layout
from fitter.domain.owned import BUY_KEY
from fitter.domain.project import Project
from fitter.domain.why import Change
from fitter.project.rewriting import rewritten
from fitter.workflow.cures.questions import Questions

Again = Callable[[Sequence[Change]], Project | None]
"""Reads the file again with changes; None where it cannot be used then."""

MORE_MARKS = 4
"""So far beyond its least step a change is tried where rounding spoils it, as that of a skew side does."""


def with_changes(project: Project, changes: Sequence[Change]) -> Project | None:
    """The project of the same file with changes written into it, and with the same flags of the command line.

    Args:
        project: as it was asked for.
        changes: of its file, or of a flag.

    Returns:
        The project as the file says it now; None where a file with these values cannot be used.
    """
    try:
        found = rewritten(project.file, {change.key: change.after for change in changes if not change.flag})
    except ProjectError:
        return None
    wish = replace(found.wish, fill=project.wish.fill)
    if BUY_KEY in project.flags:
        flagged = [int(change.after) for change in changes if change.flag]
        wish = replace(wish, buy_most=flagged[-1] if flagged else project.wish.buy_most)
    return replace(found, wish=wish, flags=project.flags)


def layout_as_written(
    again: Again | None, changes: Sequence[Change], meant: Project | None, found: Layout | None, questions: Questions
) -> Layout | None:
    """A layout of the project as the changed file says it.

    Args:
        again: reads the changed file; None where a project is taken as it is meant.
        changes: of its file.
        meant: what the changes are meant to make of it; None where they make no sense.
        found: a layout of that, where one is known.
        questions: asks.

    Returns:
        A layout, passed by the checker; None where the file cannot be used, or nothing fits in it.

    Raises:
        TimeUp: not known within the limit.
        CheckError: the checker refuses what was found.
    """
    project = meant if again is None else again(changes)
    if project is None:
        return None
    same = found is not None and meant is not None and _alike(project, meant)
    return found if same else questions.layout(project)


def _alike(one: Project, other: Project) -> bool:
    """Whether two projects differ in nothing but where the file states it."""
    return replace(one, places={}, flags={}, findings=()) == replace(other, places={}, flags={}, findings=())
