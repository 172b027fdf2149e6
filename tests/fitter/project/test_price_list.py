"""Price lists: what people write is read, and every mistake is told with its line and column."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from fitter.domain.findings import Finding, ProjectError
from fitter.domain.takeoff import MILLILITRES_A_GALLON, Measure, PriceList
from fitter.project.price_list import WRITTEN, read_price_list
from fitter.report.takeoff_document import HEADS


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def read(here: Path, text: str) -> PriceList:
    (here / "prices.csv").write_text(text, encoding="utf-8")
    return read_price_list("prices.csv")


def mistakes(here: Path, text: str) -> list[Finding]:
    with pytest.raises(ProjectError) as caught:
        read(here, text)
    return list(caught.value.findings)


def test_a_list_is_read(here: Path) -> None:
    text = 'Item, price,per\n# the yard\nscrew #8 x 2",6.90,100\nstain,31,1 qt\nrag without lint,0.5,\n'
    prices = read(here, text)
    screw, stain, rag = prices.find('screw #8 x 2"'), prices.find("Stain"), prices.find("rag without lint")
    assert screw is not None
    assert stain is not None
    assert rag is not None
    assert (screw.price, screw.pack and screw.pack.amount) == (Fraction("6.90"), 100)
    assert stain.pack is not None
    assert (stain.pack.amount, stain.pack.measure) == (MILLILITRES_A_GALLON / 4, Measure.VOLUME)
    assert (rag.price, rag.pack) == (Fraction(1, 2), None)
    assert prices.find("varnish") is None


@pytest.mark.parametrize("written", ['SCREW #8×2-1/2"', 'screw  #8 x 2 1/2"', "screw #8 x 2 1/2″"])
def test_spelling_does_not_matter(here: Path, written: str) -> None:
    assert read(here, f"item,price\n{written},7\n").find('screw #8 x 2 1/2"') is not None


@pytest.mark.parametrize(
    ("per", "millilitres"),
    [
        ("1 gal", "3785.411784"),
        ("1/2 gal", "1892.705892"),
        ("2.5 L", "2500"),
        ("750 ml", "750"),
        ("8 fl oz", "236.5882365"),
        ("2 quarts", "1892.705892"),
        ("1 Pint", "473.176473"),
    ],
)
def test_amounts_of_what_is_poured(here: Path, per: str, millilitres: str) -> None:
    """US measures: a gallon is 231 cubic inches, hence 3785.411784 ml, and has 4 quarts, 8 pints, 128 fluid ounces."""
    found = read(here, f"item,price,per\nglue,9,{per}\n").find("glue")
    assert found is not None
    assert found.pack is not None
    assert found.pack.amount == Fraction(millilitres)


def test_rows_without_a_price_say_nothing(here: Path) -> None:
    assert read(here, "item,price,per\nstain,,1 qt\n").rows == {}


def test_a_list_that_we_wrote_has_our_columns() -> None:
    assert WRITTEN == HEADS


@pytest.mark.parametrize(
    ("row", "code", "place", "help"),
    [
        ('glue,"8,50",', "not-a-price", (2, 6), "a point before the cents"),
        ("glue,8,50,8 fl oz", "wrong-columns", (2, 11), "decimal comma"),
        ("glue,-3,", "negative-price", (2, 6), "what one costs"),
        ("glue,0,", "zero-price", (2, 6), "leave the price empty"),
        ("glue,0.00,", "zero-price", (2, 6), "leave the price empty"),
        ("glue,$8,", "not-a-price", (2, 6), "no currency sign"),
        (",8,", "empty-value", (2, 1), "what it prices"),
        ("glue,8,100", "not-an-amount", (2, 8), "1 qt"),
        ("glue,8,0 ml", "zero-amount", (2, 8), "1 qt"),
        ("glue,8,2 drops", "not-an-amount", (2, 8), "1 qt"),
        ("nut M8,8,1 qt", "not-a-count", (2, 10), "such as `100`"),
        ("nut M8,8,0", "zero-amount", (2, 10), "such as `100`"),
        ("nut M8,8,-5", "zero-amount", (2, 10), "such as `100`"),
        ("nut M8,8,2.5", "not-a-count", (2, 10), "such as `100`"),
        ("nut M8,8,999999", "not-a-count", (2, 10), "at most"),
    ],
)
def test_mistakes_of_a_row(here: Path, row: str, code: str, place: tuple[int, int], help: str) -> None:
    (found,) = mistakes(here, f"item,price,per\n{row}\n")
    assert found.place is not None
    assert (found.code, (found.place.line, found.place.column)) == (code, place)
    assert help in found.help


def test_an_item_listed_twice_is_told_where_it_stands_again(here: Path) -> None:
    (found,) = mistakes(here, "item,price\nsafety glasses,9\nSafety-Glasses,8\n")
    assert found.place is not None
    assert (found.code, found.place.line, found.place.column) == ("listed-twice", 3, 1)


@pytest.mark.parametrize(
    ("head", "code", "help"),
    [
        ("item,cost", "unknown-column", "price"),
        ("item,per", "missing-column", "item,price"),
        ("item;price", "wrong-columns", "commas"),
        ("stain,31", "wrong-columns", "begin with the line"),
        ("item,price,price", "named-twice", "keep one"),
    ],
)
def test_mistakes_of_the_first_line(here: Path, head: str, code: str, help: str) -> None:
    found = mistakes(here, f"{head}\nstain,31\n")
    assert code in [finding.code for finding in found]
    assert any(help in finding.help for finding in found)


def test_all_mistakes_are_told_at_once_in_order(here: Path) -> None:
    found = mistakes(here, "item,price,per\nglue,0,\nstain,5,0\nnut M8,-1,\n")
    assert [finding.place.line for finding in found if finding.place] == [2, 3, 4]


def test_an_empty_file_is_told_what_to_begin_with(here: Path) -> None:
    (found,) = mistakes(here, "\n")
    assert (found.code, found.help) == ("file-empty", "begin with the line `item,price,per`")


def test_a_file_that_is_not_there(here: Path) -> None:
    with pytest.raises(ProjectError) as caught:
        read_price_list("nowhere.csv")
    assert caught.value.findings[0].code == "file-missing"
