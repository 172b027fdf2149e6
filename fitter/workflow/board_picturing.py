"""Boards to files: where each is sawn, as PDF, SVG and PNG."""

from __future__ import annotations

from pathlib import Path

from fitter.domain.board_list import BoardList
from fitter.domain.project import Project
from fitter.drawing import board_pages, write_pages


def write_boards(project: Project, made: BoardList, folder: Path, *, sheet: str | None = None) -> list[Path]:
    """Draw where the boards of a project are sawn, and write that under the name of the project file.

    Args:
        project: what was asked.
        made: the boards; those of `courtyard.yaml` give `courtyard-boards.pdf`, `.svg` and `.png`, with more sheets in
            the same PDF and numbered pictures.
        folder: made if it is not there.
        sheet: a paper that must be used; None to choose.

    Returns:
        The files written.

    Raises:
        ValueError: a board is too long for the sheet.
        OSError: a file cannot be written.
    """
    pages = board_pages(project, made, sheet=sheet)
    folder.mkdir(parents=True, exist_ok=True)
    return write_pages(pages, folder / f"{Path(project.file).stem}-boards")
