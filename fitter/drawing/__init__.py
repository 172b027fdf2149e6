"""Drawings: first a page of things in millimetres, then PDF, SVG and PNG."""

from __future__ import annotations

import os
from collections.abc import Iterable, Sequence
from pathlib import Path

from fitter.drawing.album import named_pages, plan_pages
from fitter.drawing.block import Heading
from fitter.drawing.boards_pages import board_pages, saw_pages
from fitter.drawing.frame import frame_pages
from fitter.drawing.page import Page
from fitter.drawing.plan import plan_page
from fitter.drawing.survey_page import survey_pages

__all__ = [
    "Heading",
    "Page",
    "board_pages",
    "frame_pages",
    "named_pages",
    "plan_page",
    "plan_pages",
    "saw_pages",
    "survey_pages",
    "write_pages",
]


def write_pages(
    pages: Page | Sequence[Page], stem: str | os.PathLike[str], formats: Iterable[str] = ("pdf", "svg", "png")
) -> list[Path]:
    """Write pages as files; see `fitter.drawing.render.write_pages`.

    The picture library is loaded only here, when something is really written.
    """
    from fitter.drawing.render import write_pages as render

    return render(pages, stem, formats)
