"""What is told of a take-off: rows, document, and the values that prices are filled into."""

from __future__ import annotations

import csv
import json
from dataclasses import replace
from fractions import Fraction
from io import StringIO
from pathlib import Path

import pytest
from buyers import answer, nook

from fitter.domain.takeoff import (
    MILLILITRES_A_GALLON,
    BuyResult,
    Group,
    Item,
    Measure,
    PriceList,
    Span,
    Takeoff,
    exactly,
)
from fitter.project.price_list import read_price_list
from fitter.report import takeoff_rows as rows
from fitter.report.document import written
from fitter.report.takeoff import print_takeoff
from fitter.report.takeoff_document import takeoff_document, takeoff_values
from fitter.report.terminal import console
from fitter.report.words import teller
from fitter.workflow.buying import buy
from rooms.lengths import Length, Unit

TELL = teller(Unit.IN)
OUNCE = MILLILITRES_A_GALLON / 128


def bought(listed: PriceList | None = None) -> BuyResult:
    return buy(nook(), answer(), prices=listed)


def taken(listed: PriceList | None = None) -> Takeoff:
    found = bought(listed).takeoff
    assert found is not None
    return found


def printed(result: BuyResult) -> str:
    out = StringIO()
    print_takeoff(console(out), nook(), result)
    return out.getvalue()


@pytest.mark.parametrize(
    ("least", "most", "told"),
    [
        (OUNCE, 2 * OUNCE, "1.0 to 2.0 fl oz"),
        (16 * OUNCE, 32 * OUNCE, "0.5 to 1.0 qt"),
        (256 * OUNCE, 256 * OUNCE, "2.0 gal"),
        (OUNCE / 10, OUNCE / 10, "0.1 fl oz"),
    ],
)
def test_amounts_of_what_is_poured(least: Fraction, most: Fraction, told: str) -> None:
    assert rows.volume(Span(least, most), Unit.IN) == told


@pytest.mark.parametrize(
    ("item", "needed", "packs", "cost"),
    [
        (Item(Group.FASTENERS, "s", exactly(91), spare=10), "91 + 10", "?", "?"),
        (Item(Group.FINISH, "p", Span(Fraction(3, 2), Fraction(7, 2))), "2 to 4", "?", "?"),
        (Item(Group.BOARDS, "b", exactly(Length.inches(30).units), Measure.LENGTH), "2' 6\"", "?", "?"),
    ],
)
def test_what_is_not_known_is_marked(item: Item, needed: str, packs: str, cost: str) -> None:
    assert (rows.needed(item, Unit.IN, TELL), rows.packs(item), rows.cost(item.cost)) == (needed, packs, cost)


def test_money_between_two_bounds() -> None:
    assert rows.cost(Span(Fraction(3, 2), Fraction(4))) == "1.50 to 4.00"
    assert rows.cost(exactly(4)) == "4.00"


def test_printed_text_is_narrow_and_marks_what_has_no_price() -> None:
    text = printed(bought())
    assert max(map(len, text.splitlines())) <= 80
    known = taken()
    unknown = known.totals[-1].unknown
    counted = sum(item.chosen for item in known.items)
    assert f"{unknown} of {counted} items have no price" in " ".join(text.split())
    for word in (*(str(group) for group in Group), "sums", "tools, in no sum", "oily rags"):
        assert word in text


def test_document_holds_every_item_and_the_sums_of_them() -> None:
    document = json.loads(written(takeoff_document(nook(), bought())))
    assert (document["outcome"], document["units"], document["layouts"][0]["rank"]) == ("proven", "in", 1)
    assert [item["item"] for item in document["items"]] == [item.name for item in taken().items]
    whole = document["totals"][-1]
    costs = [item["cost"] for item in document["items"] if item["counts"]]
    assert whole["unknown"] == costs.count(None) > 0
    for bound in (0, 1):
        assert sum(cost[bound] for cost in costs if cost) == pytest.approx(whole["cost"][bound])
    assert document["area"]["exposed"] == pytest.approx(document["area"]["whole"] - document["area"]["covered"])
    assert document["tools"]


def test_document_without_a_layout_of_that_rank() -> None:
    none = buy(nook(), answer(), 3)
    document = takeoff_document(nook(), none)
    assert (document["items"], document["totals"], document["layouts"]) == ([], [], [])
    assert "no layout" in printed(none)


def test_values_with_prices_filled_in_are_a_price_list(tmp_path: Path) -> None:
    """Every item that is sold in packs takes its price from the file that we wrote; the sums are then whole."""
    text = takeoff_values(taken(), Unit.IN)
    table = list(csv.DictReader(StringIO(text)))
    assert [row["item"] for row in table] == [item.name for item in taken().items]
    for number, row in enumerate(table):
        row["price"] = row["price"] or str(number + 1)
    filled = StringIO()
    writer = csv.DictWriter(filled, table[0].keys(), lineterminator="\n")
    writer.writeheader()
    writer.writerows(table)
    path = tmp_path / "filled.csv"
    path.write_text(filled.getvalue(), encoding="utf-8")
    found = taken(read_price_list(str(path)))
    lacking = [item.name for item in found.items if item.cost is None]
    assert lacking == [item.name for item in found.items if item.pack is None]
    assert [item.packs for item in found.items] == [item.packs for item in taken().items]
    assert not [finding for finding in found.findings if "did you mean" in finding.help]


def test_values_as_written_price_nothing_anew(tmp_path: Path) -> None:
    path = tmp_path / "plain.csv"
    path.write_text(takeoff_values(taken(), Unit.IN), encoding="utf-8")
    assert taken(read_price_list(str(path))).items == taken().items


def test_boards_that_no_board_yields_are_told() -> None:
    boards = tuple(replace(board, length=Length.inches(20)) for board in nook().shop.boards)
    result = buy(replace(nook(), shop=replace(nook().shop, boards=boards)), answer())
    assert result.verdict == "impossible"
    text = " ".join(printed(result).split())
    assert "boards of 2x8: impossible, part" in text
    assert "the boards of it do not yield them" in text
