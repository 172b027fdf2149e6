"""A result to files: the plan as PDF, SVG and PNG."""

from __future__ import annotations

from pathlib import Path

from fitter.domain.layout import Layout
from fitter.domain.project import Project
from fitter.drawing import plan_page, write_pages


def write_plan(
    project: Project, layout: Layout, folder: Path, *, sheet: str | None = None, verdict: str = ""
) -> list[Path]:
    """Draw the plan and write it under the name of the project file.

    Args:
        project: what was asked; `courtyard.yaml` gives `courtyard-plan.pdf`, `.svg` and `.png`.
        layout: what to draw.
        folder: made if it is not there.
        sheet: a paper that must be used; None to choose.
        verdict: a line for the title block.

    Returns:
        The files written.

    Raises:
        ValueError: the room is too large for the sheet.
        OSError: a file cannot be written.
    """
    page = plan_page(project, layout, sheet, verdict)
    folder.mkdir(parents=True, exist_ok=True)
    return write_pages(page, folder / f"{Path(project.file).stem}-plan")
