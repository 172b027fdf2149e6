"""Where the numbers come from that a project rests on without saying them: as tables, and as entries."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from fitter.domain.benchmarks import Weight
from fitter.domain.evidence import Status
from fitter.domain.project import Project
from fitter.domain.sources import Told
from fitter.project.sources import held_against, unsaid
from fitter.report.entries import Document, number
from fitter.report.words import Teller
from rooms.lengths import Length

SOURCE_HEADS = ("value", "known", "asks", "source")
"""Of all columns but the first, which tells what the table holds."""

UNSAID, HELD = "not said in the file", "held against"

_KNOWN = {
    Status.VERIFIED: "published",
    Status.SECOND_HAND: "published",
    Status.COMPUTED: "computed",
    Status.MEMORY: "from memory",
    Status.PRACTICE: "practice",
    Status.JUDGEMENT: "judgement",
}

_ASKS = {
    Weight.BENCHMARK: "benchmark",
    Weight.CODE: "code",
    Weight.CHOICE: "choice",
    Weight.GEOMETRY: "geometry",
}

LEGEND = (
    "known: published, in the document named; from memory, not looked up there; practice, common in the trade; "
    "judgement, our own.",
    f"asks: benchmark, written for public places and no duty at home; code, {Weight.CODE}; choice, {Weight.CHOICE}.",
)
"""What the words in both columns mean."""


def source_tables(project: Project, tell: Teller) -> Iterator[tuple[str, list[tuple[str, ...]]]]:
    """What each table is headed with, and its rows."""
    for head, numbers in ((UNSAID, unsaid(project)), (HELD, held_against(project))):
        before = [None, *(told.source for told in numbers)]
        yield head, [_row(told, tell, told.source == last) for told, last in zip(numbers, before, strict=False)]


def _row(told: Told, tell: Teller, again: bool) -> tuple[str, ...]:
    value = tell(told.value) if isinstance(told.value, Length) else told.value
    source = "the same" if again and told.source.document else told.source.document
    return told.says, value, _KNOWN[told.source.status], _ASKS[told.weight], source


def source_entries(project: Project) -> list[Document]:
    """The same for a document; `use` is `default` or `benchmark`."""
    return [
        *_entries(project, "default", unsaid(project)),
        *_entries(project, "benchmark", held_against(project)),
    ]


def _entries(project: Project, use: str, numbers: Sequence[Told]) -> Iterator[Document]:
    for told in numbers:
        value = number(told.value, project.unit) if isinstance(told.value, Length) else told.value
        yield {
            "use": use,
            "what": told.says,
            "key": told.key,
            "value": value,
            "known": str(told.source.status),
            "source": told.source.document,
            "asks": _ASKS[told.weight],
        }
