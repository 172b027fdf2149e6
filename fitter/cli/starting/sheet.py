"""What is known of the project so far, and the check that the reader of project files would take it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any

from fitter.domain.findings import Finding, ProjectError, Severity
from fitter.project import read_project
from fitter.project.ledger import CONTRADICTIONS
from fitter.project.writing import starter_text
from rooms.lengths import Unit

_LATER = ("no-cushion",)
"""What a starter file may still lack."""


def mistakes(data: Mapping[str, Any], file: str) -> ProjectError | None:
    """What the reader has against a file with these values; None if it takes them.

    A file without cushions is taken: it can be measured, and names its cushions later.
    """
    return _read(starter_text(data, file), file)


@lru_cache(maxsize=256)
def _read(text: str, file: str) -> ProjectError | None:
    """The same for a text; an interview that is run again asks the same again."""
    try:
        read_project(file, text)
    except ProjectError as error:
        found = tuple(finding for finding in error.findings if finding.severity is Severity.ERROR)
        rest = tuple(finding for finding in found if finding.code not in _LATER)
        disagree = all(finding.code in CONTRADICTIONS for finding in rest)
        return ProjectError(file, rest, disagree=disagree) if rest else None
    return None


class ContradictionError(Exception):
    """Answers that do not go together.

    Args:
        message: what is wrong.
        help: what would be right.
        keys: of the questions whose answers may be at fault, the likeliest first; a key that ends in a dot stands
            for every question below it.
    """

    def __init__(self, message: str, help: str, keys: tuple[str, ...]) -> None:
        super().__init__(message)
        self.help = help
        self.keys = keys


@dataclass
class Sheet:
    """Filled in while questions are answered.

    Args:
        file: name of the file to be written.
        answers: every answer known, whether its question has come up or not; only to be read.
        data: what is settled, as the writer of project files takes it.
        asked_as: key in the file, or its beginning, to that of the question that was asked for it; only where they
            differ.
        clockwise: whether the room lies below its first side, since the walk keeps it on the right.
    """

    file: str
    answers: Mapping[str, str] = field(default_factory=dict)
    data: dict[str, Any] = field(default_factory=dict)
    asked_as: dict[str, str] = field(default_factory=dict)
    clockwise: bool = False

    @property
    def unit(self) -> Unit:
        """Of bare numbers."""
        return Unit(self.data["units"])

    @property
    def room(self) -> dict[str, Any]:
        """The section of the room."""
        room: dict[str, Any] = self.data.setdefault("room", {})
        return room

    def check(self) -> None:
        """Raise ContradictionError if the reader would refuse what is settled so far."""
        error = mistakes(self.data, self.file)
        if error is not None:
            first = error.findings[0]
            raise ContradictionError(first.message, first.help, (self._question(first),))

    def _question(self, finding: Finding) -> str:
        """The question that a finding is about."""
        start, rest = finding.key, ""
        while start and start not in self.asked_as:
            start, _, last = start.rpartition(".")
            rest = f".{last}{rest}"
        return self.asked_as[start] + rest if start else finding.key
