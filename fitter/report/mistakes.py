"""Mistakes of a project file, each with its place, the line it stands in, and the remedy."""

from __future__ import annotations

from collections.abc import Sequence

from rich.text import Text

from fitter.domain.findings import Finding, ProjectError, Severity
from fitter.report.words import counted

_STYLE = "bold red"
_WIDEST = 70


def mistakes_text(error: ProjectError, lines: Sequence[str]) -> Text:
    """Everything that is wrong with a file, in file order; cautions wait until it is right, lest they hide a mistake.

    Args:
        error: what reading gave.
        lines: of the file, as far as it could be read.

    Returns:
        Text with a line count at the end.
    """
    text = Text()
    wrong = [finding for finding in error.findings if finding.severity is Severity.ERROR]
    for finding in wrong:
        text.append_text(_told(error.file, finding, lines)).append("\n")
    return text.append(f"{counted(len(wrong), 'mistake')} in {error.file}")


def _told(file: str, finding: Finding, lines: Sequence[str]) -> Text:
    place = f":{finding.place.line}:{finding.place.column}" if finding.place else ""
    text = Text(f"{file}{place}: ")
    text.append(f"{finding.severity}[{finding.code}]", _STYLE)
    text.append(f": {finding.message}\n")
    if finding.place and finding.place.line <= len(lines):
        excerpt, caret = _excerpt(lines[finding.place.line - 1], finding.place.column)
        number = str(finding.place.line)
        text.append(f"  {number} | {excerpt}\n  {' ' * len(number)} | {caret}\n")
    for line in finding.details:
        text.append(f"  {line}\n")
    for word, said in (("help", finding.help), ("source", finding.source)):
        if said:
            text.append(f"  {word}: {said}\n")
    return text


def _excerpt(line: str, column: int) -> tuple[str, str]:
    """The line around a column (from 1), and a caret below that column."""
    plain = "".join(char if char.isprintable() else " " for char in line).rstrip()
    at = min(max(column - 1, 0), len(plain))
    start = max(0, min(at - _WIDEST // 2, len(plain) - _WIDEST))
    cut = plain[start : start + _WIDEST]
    before, after = "…" if start else "", "…" if start + _WIDEST < len(plain) else ""
    return f"{before}{cut}{after}", " " * (at - start + len(before)) + "^"
