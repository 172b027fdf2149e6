"""A frame to files: its drawings as PDF, SVG and PNG."""

from __future__ import annotations

from pathlib import Path

from fitter.domain.layout import Layout
from fitter.domain.project import Project
from fitter.domain.woodwork import Woodwork
from fitter.drawing import write_pages
from fitter.drawing.frame import frame_pages


def write_frame(
    project: Project,
    layout: Layout,
    woodwork: Woodwork,
    folder: Path,
    *,
    sheet: str | None = None,
    verdict: str = "",
) -> list[Path]:
    """Draw a frame and write it under the name of the project file.

    Args:
        project: what was asked.
        layout: what is framed.
        woodwork: its frame; that of `courtyard.yaml` gives `courtyard-frame.pdf`, `.svg` and `.png`, with more sheets
            in the same PDF and numbered pictures.
        folder: made if it is not there.
        sheet: a paper that must be used; None to choose.
        verdict: a line for the title block.

    Returns:
        The files written.

    Raises:
        ValueError: the frame is too large for the sheet.
        OSError: a file cannot be written.
    """
    pages = frame_pages(project, layout, woodwork, sheet=sheet, verdict=verdict)
    folder.mkdir(parents=True, exist_ok=True)
    return write_pages(pages, folder / f"{Path(project.file).stem}-frame")
