"""Tables of comma-separated values, every value with its line and column."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field

from fitter.domain.findings import Finding, Place
from fitter.project.words import listed, meant, nearest, plain, shown
from rooms.lengths import Length, Unit, format_length

MOST_ROWS = 2_000


@dataclass(frozen=True)
class Cell:
    """A value with its place."""

    text: str
    place: Place


Row = dict[str, Cell]
"""The values of a line by the names of their columns."""


@dataclass
class Table:
    """A file: its rows, and the mistakes found in it.

    Args:
        file: its path as the user wrote it.
        unit: what a bare number means.
        rows: in their order.
        findings: mistakes so far.
    """

    file: str
    unit: Unit
    rows: list[Row] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)

    def error(self, code: str, message: str, place: Place | None, help: str = "") -> None:
        """Record a mistake."""
        self.findings.append(Finding(code, message, place=place, help=help))

    def say(self, length: Length) -> str:
        """A length, fine enough to show small differences."""
        return format_length(length, self.unit, denominator=64)


def fill(table: Table, text: str, columns: Sequence[str], needed: int) -> None:
    """Split the lines of a file into rows; what starts with `#` is a remark.

    Args:
        table: takes the rows and the mistakes.
        text: of the file.
        columns: that are known; the first line names those that are there, in any order.
        needed: how many of the first ones have to be there.
    """
    names: list[str] | None = None
    for number, line in enumerate(text.splitlines(), 1):
        if not line.strip() or line.lstrip().startswith("#"):
            continue
        cells = _cells(table, line, number)
        if cells is None:
            continue
        if names is None:
            names = _heads(table, cells, columns, needed)
            if not names:
                return
        elif len(table.rows) == MOST_ROWS:
            table.error(
                "too-many", f"there are more than {MOST_ROWS} rows", Place(number, 1), "is this the right file?"
            )
            return
        elif len(cells) > len(names):
            message = f"the row has {len(cells)} values, and the first line names {len(names)} columns"
            help = "a decimal comma parts a number in two: write decimals with a point, such as `38.5`"
            table.error("wrong-columns", message, cells[len(names)].place, help)
        elif any(cell.text for cell in cells):
            table.rows.append(dict(zip(names, cells, strict=False)))


def _cells(table: Table, line: str, number: int) -> list[Cell] | None:
    """The values of a line; a value in double quotes may hold commas."""
    cells: list[Cell] = []
    at = 0
    while at <= len(line):
        start = at + len(line[at:]) - len(line[at:].lstrip())
        if line[start : start + 1] == '"':
            found = re.compile(r'"((?:[^"]|"")*)"\s*(,|$)').match(line, start)
            if found is None:
                help = 'close it before the comma; an inch sign in quotes is written twice: `"38 1/2"""`'
                table.error("open-quotes", "the value in quotes does not end", Place(number, start + 1), help)
                return None
            cells.append(Cell(found[1].replace('""', '"').strip(), Place(number, start + 1)))
            at = found.end() if found[2] else len(line) + 1
        else:
            end = line.find(",", at)
            end = len(line) if end < 0 else end
            cells.append(Cell(line[at:end].strip(), Place(number, min(start, end) + 1)))
            at = end + 1
    return cells


def _heads(table: Table, cells: list[Cell], columns: Sequence[str], needed: int) -> list[str]:
    """The columns that the first line names; none, with the mistakes recorded, if it does not name what is needed."""
    wanted = f"`{','.join(columns[:needed])}`, and if wanted {listed(columns[needed:], 'and')}"
    for sign, name in ((";", "semicolons"), ("\t", "tabs")):
        if len(cells) == 1 and sign in cells[0].text:
            help = "write commas between them, and decimals with a point"
            table.error("wrong-columns", f"the columns are parted by {name}", cells[0].place, help)
            return []
    names = [plain(cell.text) for cell in cells]
    if not set(names) & set(columns) and not any(nearest(name, columns) for name in names):
        message = "the first line does not name the columns"
        table.error("wrong-columns", message, cells[0].place, f"begin with the line {wanted}")
        return []
    before = len(table.findings)
    for number, (name, cell) in enumerate(zip(names, cells, strict=True)):
        if name not in columns:
            missing = [column for column in columns if column not in names]
            table.error(
                "unknown-column", f"unknown column `{shown(cell.text)}`", cell.place, meant(name, missing or columns)
            )
        elif name in names[:number]:
            table.error("named-twice", f"the column `{name}` is there twice", cell.place, "keep one")
    told = [nearest(name, columns) for name in names if name not in columns]
    for column in columns[:needed]:
        if column not in names and column not in told:
            table.error(
                "missing-column", f"the column `{column}` is missing", cells[0].place, f"the columns are {wanted}"
            )
    return names if len(table.findings) == before else []
