"""The best cushions of a catalogue to files: their layouts side by side, as PDF, SVG and PNG."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from fitter.domain.catalogue import Trial
from fitter.drawing import named_pages, write_pages


def write_best(trials: Sequence[Trial], folder: Path, *, sheet: str | None = None) -> list[Path]:
    """Draw the layouts of a few cushions and write them under the name of the project file.

    Args:
        trials: with a layout, the best first; at least one.
        folder: made if it is not there.
        sheet: a paper that must be used; None to choose.

    Returns:
        The files written: `courtyard-cushions.pdf`, `.svg` and `.png`.

    Raises:
        ValueError: the room is too large for the sheet.
        OSError: a file cannot be written.
    """
    project = trials[0].candidate.project
    assert project is not None
    layouts = [replace(shown, rank=n) for n, each in enumerate(trials, 1) if (shown := each.shown) is not None]
    pages = named_pages(project, layouts, [trial.candidate.row.cushion.name for trial in trials], sheet=sheet)
    folder.mkdir(parents=True, exist_ok=True)
    return write_pages(pages, folder / f"{Path(project.file).stem}-cushions")
