"""A price list as comma-separated values: what an item costs, and how much of it that buys."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from fitter.domain.findings import Place, ProjectError
from fitter.domain.takeoff import MILLILITRES_A_GALLON, POURED, Measure, Pack, Price, PriceList, item_key, pieces
from fitter.project.cut_tables import Cell, Row, Table, fill
from fitter.project.source import read_text
from fitter.project.words import plain, shown
from rooms.lengths import Unit

COLUMNS = ("item", "price", "per")
WRITTEN = (
    "group", "item", "counted", "spare", "unit", "buy least", "buy most", "per", "price", "cost least", "cost most",
    "counts",
)  # fmt: skip
"""The columns of a take-off that `fitter buy --csv` wrote, whose prices are filled in by hand."""
MOST_IN_A_BOX = 100_000

_VOLUMES = {
    "ml": Fraction(1),
    "millilitre": Fraction(1),
    "cl": Fraction(10),
    "l": Fraction(1000),
    "litre": Fraction(1000),
    "liter": Fraction(1000),
    "gal": MILLILITRES_A_GALLON,
    "gallon": MILLILITRES_A_GALLON,
    "qt": MILLILITRES_A_GALLON / 4,
    "quart": MILLILITRES_A_GALLON / 4,
    "pt": MILLILITRES_A_GALLON / 8,
    "pint": MILLILITRES_A_GALLON / 8,
    "fl oz": MILLILITRES_A_GALLON / 128,
    "oz": MILLILITRES_A_GALLON / 128,
}
"""In millilitres; US measures."""


def read_price_list(path: str) -> PriceList:
    """Read a price list.

    Args:
        path: of a file with the columns `item,price` and, if wanted, `per`: how many pieces, or how much of what is
            poured, one price buys, such as `100` or `1 qt`. A list written by `fitter buy --csv` will do; items whose
            price is left empty have none.

    Raises:
        ProjectError: with every mistake, each with line and column.
    """
    table, text = Table(path, Unit.IN), _text(path)
    fill(table, text, *_columns(text))
    found: dict[str, Price] = {}
    seen: set[str] = set()
    for row in table.rows:
        if (price := _price(table, row, seen)) is not None:
            found[item_key(price.item)] = price
    if table.findings:
        raise ProjectError(path, tuple(sorted(table.findings, key=lambda finding: finding.place or Place(0, 0))))
    return PriceList(path, found)


def _text(path: str) -> str:
    try:
        return read_text(path)
    except ProjectError as error:
        finding = error.findings[0]
        if finding.code != "file-empty":
            raise
        raise ProjectError(path, (replace(finding, help="begin with the line `item,price,per`"),)) from None


def _columns(text: str) -> tuple[Sequence[str], int]:
    """The columns to look for, and how many of the first have to be there."""
    lines = (line for line in text.splitlines() if line.strip() and not line.lstrip().startswith("#"))
    heads = {plain(name.strip(' "')) for name in next(lines, "").split(",")}
    if not heads & (set(WRITTEN) - set(COLUMNS)):
        return COLUMNS, 2
    return (*COLUMNS[:2], *(name for name in WRITTEN if name not in COLUMNS[:2])), 2


def _price(table: Table, row: Row, seen: set[str]) -> Price | None:
    item, amount = row.get("item"), row.get("price")
    if item is None or not item.text:
        table.error("empty-value", "the row names no `item`", next(iter(row.values())).place, "write what it prices")
        return None
    if item_key(item.text) in seen:
        help = "keep one row; of two makers or boxes, keep the one that you will buy"
        table.error("listed-twice", f"`{shown(item.text)}` is listed twice", item.place, help)
        return None
    seen.add(item_key(item.text))
    if amount is None or not amount.text:
        return None
    price, pack = _amount(table, amount), _pack(table, item, row.get("per"))
    return None if price is None else Price(" ".join(item.text.split()), price, pack, item.place)


def _amount(table: Table, cell: Cell) -> Fraction | None:
    """What one pack costs."""
    text = cell.text
    if re.fullmatch(r"[0-9]{1,9}(\.[0-9]{0,6})?", text):
        if (price := Fraction(text)) > 0:
            return price
        help = "leave the price empty where it is not known; take the row out if there is nothing to pay"
        table.error("zero-price", "the price is zero", cell.place, help)
        return None
    if re.fullmatch(r"[-−][0-9., ]+", text):
        table.error("negative-price", f"`{shown(text)}` is below zero", cell.place, "write what one costs")
        return None
    wrong = "has a comma in it" if "," in text else "is not a price"
    help = "write a number such as `24.50`: a point before the cents, no currency sign"
    table.error("not-a-price", f"`{shown(text)}` {wrong}", cell.place, help)
    return None


def _pack(table: Table, item: Cell, cell: Cell | None) -> Pack | None:
    """What one price buys."""
    if cell is None or not cell.text:
        return None
    poured = item_key(item.text) in POURED
    pack = _volume(cell.text) if poured else _count(cell.text)
    if pack is not None:
        return pack
    name = shown(item.text)
    if re.fullmatch(r"[-−]?[0.]+ *[a-z ]*|[-−].*", cell.text.lower()):
        message, code = f"`per` of `{name}` is not above zero", "zero-amount"
    elif poured:
        message, code = f"`{shown(cell.text)}` is no amount of `{name}`, which is poured", "not-an-amount"
    else:
        message, code = f"`{shown(cell.text)}` is no number of pieces of `{name}`", "not-a-count"
    help = "write how much one price buys, such as `1 qt`, `8 fl oz` or `750 ml`" if poured else (
        f"write how many one price buys, such as `100`, and {MOST_IN_A_BOX} at most"
    )  # fmt: skip
    table.error(code, message, cell.place, help)
    return None


def _count(text: str) -> Pack | None:
    number = re.fullmatch(r"[0-9]{1,6}", text)
    return pieces(int(text)) if number and 1 <= int(text) <= MOST_IN_A_BOX else None


def _volume(text: str) -> Pack | None:
    """An amount such as `1 qt`, `1/2 gal`, `2.5 L`."""
    found = re.fullmatch(r"([0-9]{1,5}(?:\.[0-9]{0,4})?|[0-9]{1,3}/[1-9][0-9]{0,2}) ?([a-z. ]+)", text.lower())
    if found is None:
        return None
    unit = _VOLUMES.get(re.sub(r"\s+", " ", found[2].replace(".", "")).strip()) or _VOLUMES.get(
        found[2].strip(" .").removesuffix("s")
    )
    amount = Fraction(found[1]) * (unit or 0)
    return Pack(amount, Measure.VOLUME, " ".join(text.split())) if amount else None
