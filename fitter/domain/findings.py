"""What the tool has to say about an input or a result, as data; only `report` makes text of it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Severity(StrEnum):
    """An error stops the work, a caution is shown with the result, a note explains a default."""

    ERROR = "error"
    CAUTION = "caution"
    NOTE = "note"


@dataclass(frozen=True, order=True)
class Place:
    """A place in a file; lines and columns count from 1."""

    line: int
    column: int


@dataclass(frozen=True)
class Finding:
    """One thing to tell the user.

    Args:
        code: kebab-case, stable, such as `opening-off-edge`.
        message: what was found, with its value; no full stop.
        key: the path in the project file, such as `room.openings.0.from`; empty if none.
        place: line and column, where the file has one.
        help: what would be right; empty if the message says it all.
        source: the document behind a rule or default, with how it is known; empty if none.
        severity: how grave it is.
        details: what the message rests on, one line each; most findings have none.
    """

    code: str
    message: str
    key: str = ""
    place: Place | None = None
    help: str = ""
    source: str = ""
    severity: Severity = Severity.ERROR
    details: tuple[str, ...] = ()


class ProjectError(Exception):
    """A project file that cannot be used; carries every finding, in file order.

    Args:
        file: the path as the user wrote it.
        findings: at least one finding of severity `error`.
        disagree: whether the file is sound but its tape readings contradict each other.
    """

    def __init__(self, file: str, findings: tuple[Finding, ...], *, disagree: bool = False) -> None:
        super().__init__("; ".join(finding.message for finding in findings))
        self.file = file
        self.findings = findings
        self.disagree = disagree
