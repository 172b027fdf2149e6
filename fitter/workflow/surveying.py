"""A survey to files: its drawing as PDF, SVG and PNG."""

from __future__ import annotations

from pathlib import Path

from fitter.drawing import survey_pages, write_pages
from fitter.project import RoomReading


def write_survey(reading: RoomReading, folder: Path, *, sheet: str | None = None) -> list[Path]:
    """Draw a survey and write it under the name of the project file.

    Args:
        reading: of the room, with its survey; `courtyard.yaml` gives `courtyard-survey.pdf`, `.svg` and `.png`.
            Readings that do not fit beside the drawing go to more sheets, in the same PDF.
        folder: made if it is not there.
        sheet: a paper that must be used; None to choose.

    Returns:
        The files written.

    Raises:
        ValueError: the room is too large for the sheet.
        OSError: a file cannot be written.
    """
    pages = survey_pages(reading, sheet)
    folder.mkdir(parents=True, exist_ok=True)
    return write_pages(pages, folder / f"{Path(reading.file).stem}-survey")
