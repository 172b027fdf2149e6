"""A result to files: plans as PDF, SVG and PNG."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from fitter.domain.outcome import LayoutResult
from fitter.domain.project import Project
from fitter.drawing import plan_pages, write_pages

_PICTURES = ("svg", "png")


def write_plans(
    project: Project,
    layouts: Sequence[LayoutResult],
    folder: Path,
    *,
    sheet: str | None = None,
    verdicts: Sequence[str] = (),
) -> list[Path]:
    """Draw the plan of each layout and write it under the name of the project file.

    One layout of `courtyard.yaml` gives `courtyard-plan.pdf`, `.svg` and `.png`. Several give one PDF, an overview
    first, and beside it `courtyard-overview.svg`, `courtyard-plan-1.svg` and so on, each as PNG too.

    Args:
        project: what was asked.
        layouts: what to draw, best first; at least one.
        folder: made if it is not there.
        sheet: a paper that must be used; None to choose.
        verdicts: a line for the title block of each.

    Returns:
        The files written.

    Raises:
        ValueError: the room is too large for the sheet.
        OSError: a file cannot be written.
    """
    pages = plan_pages(project, layouts, sheet=sheet, verdicts=verdicts)
    folder.mkdir(parents=True, exist_ok=True)
    stem = folder / Path(project.file).stem
    if len(layouts) == 1:
        return write_pages(pages, f"{stem}-plan")
    first = len(pages) - len(layouts)
    written = write_pages(pages, f"{stem}-plan", ("pdf",))
    written += write_pages(pages[:first], f"{stem}-overview", _PICTURES)
    for shown, page in zip(layouts, pages[first:], strict=True):
        written += write_pages(page, f"{stem}-plan-{shown.rank}", _PICTURES)
    return written
