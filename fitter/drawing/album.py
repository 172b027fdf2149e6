"""The plans of several layouts, each on a page of its own."""

from __future__ import annotations

from collections.abc import Sequence

from fitter.domain.outcome import LayoutResult
from fitter.domain.project import Project
from fitter.drawing.page import Page
from fitter.drawing.plan import plan_page


def plan_pages(
    project: Project, layouts: Sequence[LayoutResult], *, sheet: str | None = None, verdicts: Sequence[str] = ()
) -> tuple[Page, ...]:
    """Draw each layout on a page of its own.

    Args:
        project: the room, the cushions, title and note.
        layouts: what to draw, best first; at least one.
        sheet: name of a paper that must be used; None to choose.
        verdicts: a line for the title block of each.

    Returns:
        The pages in the order of the layouts.

    Raises:
        ValueError: no such sheet, or the room is too large for the smallest usual scale.
    """
    said = [*verdicts, *("" for _ in layouts[len(verdicts) :])]
    return tuple(plan_page(project, shown.layout, sheet, says) for shown, says in zip(layouts, said, strict=True))
