"""Boards to files: where each is sawn, as PDF, SVG and PNG."""

from __future__ import annotations

from pathlib import Path

from fitter.domain.board_list import BoardList
from fitter.domain.cuts import BoardPlan, CutOptions
from fitter.domain.project import Project
from fitter.drawing import Heading, board_pages, saw_pages, write_pages
from rooms.lengths import ZERO, Unit


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


def write_list(
    parts: str, unit: Unit, plan: BoardPlan, options: CutOptions, folder: Path, *, sheet: str | None = None
) -> list[Path]:
    """Draw where the boards of a bare list of parts are sawn, and write that under the name of its file.

    Args:
        parts: file of the list.
        unit: that lengths are written in.
        plan: its boards.
        options: how they are cut.
        folder: made if it is not there.
        sheet: a paper that must be used; None to choose.

    Returns:
        The files written.

    Raises:
        ValueError: a board is too long for the sheet.
        OSError: a file cannot be written.
    """
    stem = Path(parts).stem
    pages = saw_pages(Heading(stem, parts, unit, ZERO), plan.boards, options, sheet=sheet)
    folder.mkdir(parents=True, exist_ok=True)
    return write_pages(pages, folder / f"{stem}-boards")
