"""Tells what is wrong with a project file."""

from __future__ import annotations

from fitter.cli.running import WRONG
from fitter.domain.findings import ProjectError
from fitter.project.source import LARGEST
from fitter.report.document import refusal_document, written


def refuse(error: ProjectError, *, as_json: bool) -> int:
    """Tell every mistake on standard error, and on standard output too if JSON is due.

    Args:
        error: what reading gave.
        as_json: whether a document is due.

    Returns:
        The exit code.
    """
    from fitter.report.mistakes import mistakes_text
    from fitter.report.terminal import aside

    if as_json:
        print(written(refusal_document(error)))
    aside().print(mistakes_text(error, lines_of(error.file)), soft_wrap=True)
    return WRONG


def lines_of(path: str) -> list[str]:
    """The lines of a file for excerpts; none if it cannot be read."""
    try:
        with open(path, encoding="utf-8-sig", errors="replace") as file:
            return file.read(LARGEST).split("\n")
    except (OSError, ValueError):
        return []
