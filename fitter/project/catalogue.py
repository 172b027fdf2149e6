"""A catalogue of cushions as comma-separated values."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from fitter.domain.catalogue import Row
from fitter.domain.cushions import BackCushion, Cushion
from fitter.domain.findings import Place, ProjectError
from fitter.project import cut_tables
from fitter.project.cushions import LARGEST, SMALLEST
from fitter.project.cut_tables import Cell, Table, fill
from fitter.project.source import read_text
from fitter.project.words import plain, shown
from rooms.lengths import ZERO, Length, LengthError, Unit, parse_length

SIZE, BACK = ("width", "depth", "thickness"), ("back width", "back height", "back thickness")
COLUMNS = ("name", *SIZE, "price", "seats", *BACK, "may turn", "may notch", "ease")
NEEDED = 4
LONGEST_NAME = 60
MOST_SEATS = 3
_HEAD = "`name,width,depth,thickness,price`"
_FLAGS = {**dict.fromkeys(("yes", "true", "y"), True), **dict.fromkeys(("no", "false", "n"), False)}


def read_catalogue(path: str, unit: Unit) -> tuple[Row, ...]:
    """Read a catalogue.

    Args:
        path: of a file with the columns `name,width,depth,thickness` and, if wanted, the others of `COLUMNS`; lines
            that start with `#` are remarks.
        unit: what a bare number means.

    Raises:
        ProjectError: with every mistake, each with line and column.
    """
    table = Table(path, unit)
    try:
        fill(table, read_text(path), COLUMNS, NEEDED)
    except ProjectError as error:
        helps = {"file-empty": f"begin with the line {_HEAD}", "not-text": "give a table of comma-separated values"}
        raise ProjectError(
            path, tuple(replace(each, help=helps.get(each.code, each.help)) for each in error.findings)
        ) from None
    rows = [row for each in table.rows if (row := _Line(table, each).row()) is not None]
    if not table.rows and not table.findings:
        table.error("list-empty", "there is no cushion below the names of the columns", None, "add a row")
    _check_names(table)
    _check_prices(table)
    if table.findings:
        raise ProjectError(path, tuple(sorted(table.findings, key=lambda finding: finding.place or Place(0, 0))))
    return tuple(rows)


class _Line:
    """A row of the table while it is read; `cells` by the names of their columns."""

    def __init__(self, table: Table, cells: cut_tables.Row) -> None:
        self.table, self.cells = table, cells
        self.line = next(iter(cells.values())).place.line

    def row(self) -> Row | None:
        """The cushion; None, with the mistakes recorded, if the row is not sound."""
        before = len(self.table.findings)
        name = self._name()
        size = [self._length(column) for column in SIZE]
        backs = [self._length(column) for column in BACK] if any(map(self._cell, BACK)) else []
        ease = self._length("ease", ease=True) if self._cell("ease") else ZERO
        price, seats = self._price(), self._seats()
        may_turn, may_notch = self._flag("may turn", usual=False), self._flag("may notch", usual=True)
        found = [length for length in (*size, *backs) if length is not None]
        if len(self.table.findings) > before or name is None or len(found) != len(size) + len(backs):
            return None
        width, depth, thickness = found[:3]
        self._check_sizes(name, found, ease or ZERO)
        if len(self.table.findings) > before:
            return None
        back = BackCushion(*found[3:]) if backs else None
        return Row(
            self.line,
            Cushion(
                name, width, depth, thickness, back, ease=ease or ZERO, price=price,
                may_turn=may_turn, may_notch=may_notch, seats=seats,
            ),
        )  # fmt: skip

    def _cell(self, column: str) -> Cell | None:
        """A value that is there."""
        cell = self.cells.get(column)
        return cell if cell is not None and cell.text else None

    def _place(self, column: str) -> Place:
        return self.cells[column].place if column in self.cells else next(iter(self.cells.values())).place

    def _missing(self, column: str, help: str) -> None:
        named = self._cell("name")
        which = f", `{shown(named.text)}`," if named is not None else ""
        self.table.error("empty-value", f"row {self.line}{which} has no {column}", self._place(column), help)

    def _name(self) -> str | None:
        cell = self._cell("name")
        if cell is None:
            self._missing("name", "name each cushion, or take the row out")
            return None
        name = " ".join(cell.text.split())
        if len(name) > LONGEST_NAME or not name.isprintable():
            message = f"the name `{shown(name)}` is too long, or holds what cannot be printed"
            self.table.error("not-a-name", message, cell.place, f"{LONGEST_NAME} characters are the most")
            return None
        return name

    def _length(self, column: str, *, ease: bool = False) -> Length | None:
        cell = self._cell(column)
        if cell is None:
            back = "write all three of the back cushion, or none"
            self._missing(column, back if column in BACK else "write its size, or take the row out")
            return None
        try:
            length = parse_length(cell.text, self.table.unit, negative=ease)
        except LengthError as error:
            self.table.error("not-a-length", f"`{column}`: {error}", cell.place, error.help)
            return None
        if not length and not ease:
            message = f"`{column}` is zero, and a length cannot be"
            self.table.error("zero-length", message, cell.place, "write the size it has")
            return None
        return length

    def _check_sizes(self, name: str, lengths: Sequence[Length], ease: Length) -> None:
        """Ask about the unit where a size is absurd."""
        say = self.table.say
        columns = (*SIZE, *BACK)
        for column, length in zip(columns, lengths, strict=False):
            limit = LARGEST if length > LARGEST else SMALLEST if column in SIZE[:2] and length < SMALLEST else None
            if limit is not None:
                message = f"`{column}` of `{name}` is {say(length)}, and {say(limit)} is the "
                message += "most" if limit is LARGEST else "least"
                help = f"is the unit right? A bare number means `{self.table.unit}`"
                self.table.error("size-absurd", message, self._place(column), help)
        if 2 * abs(ease) > min(lengths[:2]):
            message = f"an ease of {say(ease)} is more than half of `{name}` at its narrowest"
            help = "ease is the slack of one cushion; foam gives an inch or so"
            self.table.error("ease-too-big", message, self._place("ease"), help)

    def _price(self) -> Fraction | None:
        cell = self._cell("price")
        if cell is None:
            return None
        if re.fullmatch(r"[0-9]{1,9}(\.[0-9]{0,6})?", cell.text):
            if price := Fraction(cell.text):
                return price
            self.table.error("zero-price", "the price is zero", cell.place, "leave it out where it is not known")
            return None
        wrong = "has a comma in it" if "," in cell.text else "is not a price"
        help = "write a number such as `24.50`: a point before the cents, no currency sign"
        self.table.error("not-a-price", f"`{shown(cell.text)}` {wrong}", cell.place, help)
        return None

    def _seats(self) -> int:
        cell = self._cell("seats")
        if cell is None:
            return 1
        if re.fullmatch(r"[0-9]{1,4}", cell.text) and 1 <= int(cell.text) <= MOST_SEATS:
            return int(cell.text)
        message = f"`{shown(cell.text)}` is not between 1 and {MOST_SEATS} seats"
        self.table.error("count-out-of-range", message, cell.place, "write how many people sit on one")
        return 1

    def _flag(self, column: str, *, usual: bool) -> bool:
        cell = self._cell(column)
        if cell is None:
            return usual
        word = plain(cell.text)
        if word not in _FLAGS:
            message = f"`{shown(cell.text)}` is neither yes nor no"
            self.table.error("not-a-flag", message, cell.place, f"write `yes` or `no` under `{column}`")
        return _FLAGS.get(word, usual)


def _check_names(table: Table) -> None:
    seen: dict[str, int] = {}
    for row in table.rows:
        cell = row.get("name")
        if cell is None or not cell.text:
            continue
        first = seen.setdefault(plain(cell.text), cell.place.line)
        if first != cell.place.line:
            message = f"`{shown(cell.text)}` stands in row {first} already"
            table.error("named-twice", message, cell.place, "give each cushion a name of its own, or keep one row")


def _check_prices(table: Table) -> None:
    """Either all have a price or none has: what has none is not counted, and would look like the cheapest."""
    said = [bool(row["price"].text) if "price" in row else False for row in table.rows]
    if not any(said) or all(said):
        return
    for there, row in zip(said, table.rows, strict=True):
        if not there:
            cell = row["price"] if "price" in row else next(iter(row.values()))
            name = f" `{shown(row['name'].text)}`" if "name" in row and row["name"].text else ""
            message = f"row {cell.place.line}{name} has no price, and others have one"
            help = "write its price, take the row out, or leave the whole column out"
            table.error("no-price", message, cell.place, help)
