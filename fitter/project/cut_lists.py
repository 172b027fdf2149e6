"""Bare lists of parts and boards, as tables of comma-separated values."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeVar

from fitter.domain.cuts import CutOptions, Piece, Stock
from fitter.domain.findings import Finding, Place, ProjectError
from fitter.project.cut_tables import Cell, Row, Table, fill
from fitter.project.source import read_text
from fitter.project.words import meant, shown
from rooms.lengths import Length, LengthError, Unit, parse_length

PART_COLUMNS = ("section", "length", "count", "mark")
BOARD_COLUMNS = ("section", "length", "price", "have")
MOST_PARTS = 10_000
LONGEST = Length.millimetres(100_000)
"""A hundred metres: no stick of wood is longer, so that one is in the wrong unit."""

_T = TypeVar("_T")


class CutListsError(Exception):
    """Lists that cannot be used, with every mistake of both.

    Args:
        errors: one for each file that has any.
    """

    def __init__(self, errors: Sequence[ProjectError]) -> None:
        super().__init__("; ".join(str(error) for error in errors))
        self.errors = tuple(errors)


@dataclass(frozen=True)
class CutLists:
    """What both lists say.

    Args:
        pieces: in the order of the file.
        stocks: likewise.
        unit: what a bare number means.
    """

    pieces: tuple[Piece, ...]
    stocks: tuple[Stock, ...]
    unit: Unit


def read_cut_lists(parts: str, boards: str, unit: Unit, options: CutOptions) -> CutLists:
    """Read both lists and check that they go together.

    Args:
        parts: path of the parts: `section,length,count` and, if wanted, `mark`.
        boards: path of the boards: `section,length,price` and, if wanted, `have`.
        unit: what a bare number means.
        options: trim, defects and the longest board that can be carried, which say what a board yields.

    Raises:
        CutListsError: with every mistake of both files, each with line and column.
    """
    one, pieces = _read(parts, unit, PART_COLUMNS, 3, _piece)
    two, stocks = _read(boards, unit, BOARD_COLUMNS, 2, _stock)
    if not one.findings:
        _check_marks(one, pieces)
    if not two.findings:
        _check_stocks(two, stocks)
    if not one.findings and not two.findings:
        _check_together(one, pieces, [stock for stock, _ in stocks], options)
    errors = [
        ProjectError(table.file, tuple(sorted(table.findings, key=_where))) for table in (one, two) if table.findings
    ]
    if errors:
        raise CutListsError(errors)
    return CutLists(tuple(piece for piece, _ in pieces), tuple(stock for stock, _ in stocks), unit)


def _where(finding: Finding) -> Place:
    return finding.place or Place(0, 0)


def _read(
    file: str, unit: Unit, columns: tuple[str, ...], needed: int, read: Callable[[Table, Row, int], _T | None]
) -> tuple[Table, list[tuple[_T, Row]]]:
    table = Table(file, unit)
    try:
        text = read_text(file)
    except ProjectError as error:
        table.findings += error.findings
        return table, []
    fill(table, text, columns, needed)
    found = [
        (value, row) for number, row in enumerate(table.rows, 1) if (value := read(table, row, number)) is not None
    ]
    if not found and not table.findings:
        table.error("list-empty", "there is nothing below the names of the columns", None, "add a row")
    return table, found


def _text(table: Table, row: Row, column: str) -> Cell | None:
    """A value that has to be there."""
    cell = row.get(column)
    if cell is not None and cell.text:
        return cell
    first = next(iter(row.values()))
    place = cell.place if cell is not None else first.place
    table.error("empty-value", f"the row has no `{column}`", place, "write one, or take the row out")
    return None


def _section(table: Table, row: Row) -> str | None:
    cell = _text(table, row, "section")
    if cell is None:
        return None
    name = re.sub(r"\s*[xX×]\s*", "x", " ".join(cell.text.split()))
    if len(name) > 60 or not name.isprintable():
        table.error("not-a-section", f"`{shown(cell.text)}` is no section", cell.place, "write a name such as `2x4`")
        return None
    return name


def _length(table: Table, row: Row) -> Length | None:
    cell = _text(table, row, "length")
    if cell is None:
        return None
    try:
        length = parse_length(cell.text, table.unit)
    except LengthError as error:
        table.error("not-a-length", str(error), cell.place, error.help)
        return None
    if not length:
        table.error(
            "zero-length", f"`{shown(cell.text)}` is zero, and a length cannot be", cell.place, "write the size it has"
        )
        return None
    if length > LONGEST:
        message = f"`{shown(cell.text)}` is longer than any stick of wood"
        table.error("size-absurd", message, cell.place, f"is the unit right? A bare number means `{table.unit}`")
        return None
    return length


def _count(table: Table, cell: Cell, what: str) -> int | None:
    if re.fullmatch(r"[0-9]{1,9}", cell.text) and 1 <= int(cell.text) <= MOST_PARTS:
        return int(cell.text)
    if re.fullmatch(r"[+-]?[0-9]+([.,]0*)?", cell.text) and re.fullmatch(r"[+-]?0+([.,]0*)?", cell.text):
        table.error("zero-count", f"`{what}` is zero", cell.place, "take the row out, or write how many")
    elif re.fullmatch(r"[0-9]+", cell.text):
        table.error(
            "count-out-of-range", f"`{shown(cell.text)}` is more than {MOST_PARTS}", cell.place, "is that meant?"
        )
    else:
        table.error(
            "not-a-count", f"`{shown(cell.text)}` is not a whole number above zero", cell.place, "write such as `4`"
        )
    return None


def _piece(table: Table, row: Row, number: int) -> Piece | None:
    section, length = _section(table, row), _length(table, row)
    cell = _text(table, row, "count")
    count = _count(table, cell, "count") if cell is not None else None
    written = row.get("mark")
    mark = written.text if written is not None and written.text else f"P{number}"
    if len(mark) > 20 or not mark.isprintable():
        assert written is not None
        message = f"the mark `{shown(mark)}` is too long, or holds what cannot be printed"
        table.error("not-a-mark", message, written.place, "20 characters are the most")
        return None
    if section is None or length is None or count is None:
        return None
    return Piece(mark, section, length, count)


def _stock(table: Table, row: Row, number: int) -> Stock | None:
    section, length = _section(table, row), _length(table, row)
    before = len(table.findings)
    price = _price(table, row["price"]) if "price" in row and row["price"].text else None
    have = _count(table, row["have"], "have") if "have" in row and row["have"].text else None
    if section is None or length is None or len(table.findings) > before:
        return None
    return Stock(section, length, price, have)


def _price(table: Table, cell: Cell) -> int | None:
    """A price in cents."""
    found = re.fullmatch(r"([0-9]{1,9})(?:\.([0-9]{1,2})0*)?", cell.text)
    if found is None:
        help = "write a number such as `24.50`: a point before the cents, no currency sign"
        comma = " has a comma in it" if "," in cell.text else " is not a price"
        table.error("not-a-price", f"`{shown(cell.text)}`{comma}", cell.place, help)
        return None
    cents = 100 * int(found[1]) + int((found[2] or "").ljust(2, "0"))
    if not cents:
        help = "leave the price out, and write how many you `have`, if there is nothing to pay"
        table.error("zero-price", "the price is zero", cell.place, help)
        return None
    return cents


def _check_marks(table: Table, pieces: list[tuple[Piece, Row]]) -> None:
    seen: dict[str, Piece] = {}
    for piece, row in pieces:
        other = seen.setdefault(piece.mark, piece)
        if (other.section, other.length) != (piece.section, piece.length):
            place = row["mark"].place if "mark" in row else row["section"].place
            message = f"the mark `{piece.mark}` stands for two different parts"
            table.error("named-twice", message, place, "give each part a mark of its own")
    total = sum(piece.count for piece, _ in pieces)
    if total > MOST_PARTS:
        table.error(
            "too-many", f"there are {total} parts, and {MOST_PARTS} is the most", None, "is this the right file?"
        )


def _check_stocks(table: Table, stocks: list[tuple[Stock, Row]]) -> None:
    """No length of board twice, and either all that are sold have a price or none has."""
    seen: set[tuple[str, Length, str]] = set()
    for stock, row in stocks:
        kinds = [word for word, there in (("in the shop", stock.sold), ("on hand", stock.have is not None)) if there]
        for kind in kinds:
            key = (stock.section, stock.length, kind)
            if key in seen:
                message = f"a {table.say(stock.length)} board of {stock.section} {kind} is listed twice"
                help = "keep one row; `have` says how many there are"
                table.error("listed-twice", message, row["length"].place, help)
            seen.add(key)
    if not any(stock.price is not None for stock, _ in stocks):
        return
    for stock, row in stocks:
        if stock.sold and stock.price is None:
            message = f"a {table.say(stock.length)} board of {stock.section} has no price, and others have one"
            help = "write its price, or how many you `have`; without any price at all, the least length is looked for"
            table.error("no-price", message, row["length"].place, help)


def _check_together(
    table: Table, pieces: list[tuple[Piece, Row]], stocks: list[Stock], options: CutOptions
) -> None:  # fmt: skip
    """Every part has a board that is long enough."""
    sections = list(dict.fromkeys(stock.section for stock in stocks))
    for piece, row in pieces:
        if piece.section not in sections:
            message = f"there is no board of `{shown(piece.section)}`"
            table.error("unknown-section", message, row["section"].place, meant(piece.section, sections))
            continue
        yields = [
            options.usable(stock.length) for stock in stocks
            if stock.section == piece.section
            and (options.longest_carried is None or stock.length <= options.longest_carried)
        ]  # fmt: skip
        longest = max(yields, default=None)
        if longest is None or longest < piece.length:
            _too_long(table, piece, longest, row, options)


def _too_long(table: Table, piece: Piece, longest: Length | None, row: Row, options: CutOptions) -> None:
    needed = piece.length + 2 * options.trim
    if options.defects:
        # What is left after the share for defects has to hold the part and both trims; found by going up unit by unit.
        share = 1 - options.defects
        needed = Length(-(-piece.length.units * share.denominator // share.numerator)) + 2 * options.trim
        while options.usable(needed) < piece.length:
            needed += Length(1)
    known = f"the longest board of {piece.section}"
    known += " yields " + table.say(longest) if longest is not None else " that can be carried does not exist"
    message = f"part `{piece.mark}` is {table.say(piece.length)} long, and {known}"
    help = f"a board of {table.say(needed.ceil_to(table.unit.mark))} would do; a rail may also be spliced over a post"
    if options.longest_carried is not None and needed > options.longest_carried:
        help = (
            f"it takes a board of {table.say(needed.ceil_to(table.unit.mark))}, and the longest that can be carried is "
        )
        help += f"{table.say(options.longest_carried)}: splice it over a post"
    table.error("part-too-long", message, row["length"].place, help)
