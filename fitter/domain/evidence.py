"""Where a number comes from, and how sure that is."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Status(StrEnum):
    """How a number is known; whatever is not verified is a default that a user can change."""

    VERIFIED = "verified"
    SECOND_HAND = "verified in a copy, not in the document itself"
    COMPUTED = "computed"
    MEMORY = "from memory"
    PRACTICE = "common practice"
    JUDGEMENT = "our judgement"


@dataclass(frozen=True)
class Source:
    """The document behind a number, with its table, and how the number is known."""

    document: str
    status: Status

    @property
    def says(self) -> str:
        """For a person, in brackets what is weak about it."""
        return f"{self.document} ({self.status})" if self.document else str(self.status)


@dataclass(frozen=True)
class Figure:
    """A number of physics with its source; its unit is said where it is used."""

    value: float
    source: Source
