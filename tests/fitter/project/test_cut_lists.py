"""Bare lists: what people write is read, and every mistake is told with its line and column."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitter.domain.cuts import CutOptions, Piece, Stock
from fitter.domain.findings import Finding
from fitter.project.cut_lists import CutLists, CutListsError, read_cut_lists
from rooms.lengths import Length, Unit

inch = Length.inches
PARTS = 'section,length,count,mark\n2x4,38 1/2",4,A\n2x4,6\' 2",3,B\n'
BOARDS = "section,length,price,have\n2x4,8',4.50,\n2x4,12',7.10,2\n"
OPTIONS = CutOptions(inch("1/8"))


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def read(here: Path, parts: str, boards: str, unit: Unit = Unit.IN, options: CutOptions = OPTIONS) -> CutLists:
    (here / "parts.csv").write_text(parts, encoding="utf-8")
    (here / "boards.csv").write_text(boards, encoding="utf-8")
    return read_cut_lists("parts.csv", "boards.csv", unit, options)


def mistakes(here: Path, parts: str, boards: str, unit: Unit = Unit.IN, options: CutOptions = OPTIONS) -> list[Finding]:
    with pytest.raises(CutListsError) as caught:
        read(here, parts, boards, unit, options)
    return [finding for error in caught.value.errors for finding in error.findings]


def place(finding: Finding) -> tuple[int, int]:
    assert finding.place is not None
    return finding.place.line, finding.place.column


def test_both_lists_are_read(here: Path) -> None:
    lists = read(here, PARTS, BOARDS)
    assert lists.pieces == (Piece("A", "2x4", inch("77/2"), 4), Piece("B", "2x4", inch(74), 3))
    assert lists.stocks == (Stock("2x4", inch(96), 450), Stock("2x4", inch(144), 710, 2))


def test_columns_may_stand_in_any_order_and_marks_be_left_out(here: Path) -> None:
    lists = read(
        here, "Count,Length, Section\n\n# the rails\n2, 1200, 38 x 89\n", "length,section\n2400,38×89\n", Unit.MM
    )
    assert lists.pieces == (Piece("P1", "38x89", Length.millimetres(1200), 2),)
    assert lists.stocks == (Stock("38x89", Length.millimetres(2400)),)


def test_a_value_in_quotes_may_hold_inches(here: Path) -> None:
    lists = read(here, 'section,length,count\n2x4,"38 1/2""",1\n', BOARDS)
    assert lists.pieces[0].length == inch("77/2")


def test_a_byte_order_mark_and_carriage_returns_do_no_harm(here: Path) -> None:
    (here / "boards.csv").write_text(BOARDS, encoding="utf-8")
    (here / "parts.csv").write_bytes(b"\xef\xbb\xbf" + PARTS.replace("\n", "\r\n").encode())
    assert len(read_cut_lists("parts.csv", "boards.csv", Unit.IN, OPTIONS).pieces) == 2


@pytest.mark.parametrize(
    ("row", "code", "at", "says"),
    [
        ("2x4,38,5,4,A", "wrong-columns", (2, 12), "5 values"),
        ('2x4,"38,5",4,A', "not-a-length", (2, 5), "comma"),
        ("2x4,0,4,A", "zero-length", (2, 5), "zero"),
        ("2x4,-3,4,A", "not-a-length", (2, 5), "negative"),
        ("2x4,oak,4,A", "not-a-length", (2, 5), "not a length"),
        ("2x4,38500,4,A", "size-absurd", (2, 5), "longer than any stick"),
        ("2x4,38,0,A", "zero-count", (2, 8), "zero"),
        ("2x4,38,-2,A", "not-a-count", (2, 8), "`-2`"),
        ("2x4,38,2.5,A", "not-a-count", (2, 8), "`2.5`"),
        ("2x4,38,99999,A", "count-out-of-range", (2, 8), "99999"),
        ("2x4,38,,A", "empty-value", (2, 8), "count"),
        ("2x4,,2,A", "empty-value", (2, 5), "length"),
        (",38,2,A", "empty-value", (2, 1), "section"),
        ("2x4,38", "empty-value", (2, 1), "count"),
        ('2x4,"38,2,A', "open-quotes", (2, 5), "does not end"),
        ("2x4,38,2,ABCDEFGHIJKLMNOPQRSTUVWXYZ", "not-a-mark", (2, 10), "too long"),
        ("2x5,38,2,A", "unknown-section", (2, 1), "2x5"),
        ("2x4,12' 1\",2,A", "part-too-long", (2, 5), "12' 0\""),
    ],
)
def test_a_mistake_in_a_part_is_told_with_its_place(
    row: str, code: str, at: tuple[int, int], says: str, here: Path
) -> None:
    (found,) = mistakes(here, f"section,length,count,mark\n{row}\n", BOARDS)
    assert (found.code, place(found)) == (code, at)
    assert says in found.message
    assert found.help


@pytest.mark.parametrize(
    ("row", "code", "at", "says"),
    [
        ('2x4,16\',"4,50",', "not-a-price", (4, 9), "comma"),
        ("2x4,16',$4.50,", "not-a-price", (4, 9), "$4.50"),
        ("2x4,16',4.505,", "not-a-price", (4, 9), "4.505"),
        ("2x4,16',0,", "zero-price", (4, 9), "zero"),
        ("2x4,16',,0", "zero-count", (4, 10), "have"),
        ("2x4,16',,", "no-price", (4, 5), "no price"),
        ("2x4,12',8.00,", "listed-twice", (4, 5), "in the shop"),
        ("2x4,144,,3", "listed-twice", (4, 5), "on hand"),
    ],
)
def test_a_mistake_in_a_board_is_told_with_its_place(
    row: str, code: str, at: tuple[int, int], says: str, here: Path
) -> None:
    (found,) = mistakes(here, PARTS, BOARDS + row + "\n")
    assert (found.code, place(found)) == (code, at)
    assert says in found.message
    assert found.help


@pytest.mark.parametrize(
    ("head", "codes", "says"),
    [
        ("section;length;count", ["wrong-columns"], "semicolons"),
        ("section\tlength\tcount", ["wrong-columns"], "tabs"),
        ("2x4,38,2", ["wrong-columns"], "does not name the columns"),
        ("section,lenght,count", ["unknown-column"], "lenght"),
        ("section,length", ["missing-column"], "`count`"),
        ("section,length,count,colour", ["unknown-column"], "colour"),
        ("section,length,count,length", ["named-twice"], "`length`"),
    ],
)
def test_wrong_columns_are_told_once(head: str, codes: list[str], says: str, here: Path) -> None:
    found = mistakes(here, head + "\n2x4,38,2\n2x4,30,2\n", BOARDS)
    assert [finding.code for finding in found] == codes
    assert says in found[0].message


def test_mistakes_of_both_lists_are_told_together_in_the_order_of_the_files(here: Path) -> None:
    with pytest.raises(CutListsError) as caught:
        read(here, PARTS + "2x4,x,1,C\n2x4,3,y,D\n", BOARDS + "2x4,z,1,\n")
    told = [(error.file, [place(finding)[0] for finding in error.findings]) for error in caught.value.errors]
    assert told == [("parts.csv", [4, 5]), ("boards.csv", [4])]


def test_lists_without_rows_or_files(here: Path) -> None:
    assert [found.code for found in mistakes(here, "section,length,count\n", "\n")] == ["list-empty", "file-empty"]
    (here / "parts.csv").unlink()
    with pytest.raises(CutListsError) as caught:
        read_cut_lists("parts.csv", "none.csv", Unit.IN, OPTIONS)
    assert [error.findings[0].code for error in caught.value.errors] == ["file-missing", "file-missing"]


def test_a_mark_for_two_parts(here: Path) -> None:
    (found,) = mistakes(here, PARTS + "2x4,12,1,A\n", BOARDS)
    assert (found.code, place(found)) == ("named-twice", (4, 10))
    assert len(read(here, PARTS + "2x4,38 1/2,1,A\n", BOARDS).pieces) == 3


@pytest.mark.parametrize(
    ("options", "length", "help"),
    [
        (replace(OPTIONS, trim=inch("1/2")), "143 1/2", "12' 0 1/2\""),
        (replace(OPTIONS, defects=Fraction(1, 10)), "135", "12' 6\""),
        (replace(OPTIONS, longest_carried=inch(120)), "140", "splice it over a post"),
        (replace(OPTIONS, longest_carried=inch(60)), "50", "would do"),
    ],
)
def test_a_part_that_is_too_long_says_what_would_do(options: CutOptions, length: str, help: str, here: Path) -> None:
    (found,) = mistakes(here, f"section,length,count\n2x4,{length},1\n", BOARDS, options=options)
    assert found.code == "part-too-long"
    assert help in found.help


def test_what_would_do_does(here: Path) -> None:
    """The board that the help names yields the part, and one a mark shorter does not."""
    options = replace(OPTIONS, trim=inch("1/2"), defects=Fraction(7, 100))
    (found,) = mistakes(here, "section,length,count\n2x4,141,1\n", BOARDS, options=options)
    named = found.help.split(" of ")[1].split(" would")[0]
    parts = "section,length,count\n2x4,141,1\n"
    lists = read(here, parts, f"section,length,price\n2x4,{named},9\n", options=options)
    board = lists.stocks[0].length
    assert options.usable(board) >= inch(141) > options.usable(board - Unit.IN.mark)


@given(st.text(max_size=200), st.text(max_size=200))
def test_no_text_is_more_than_a_mistake(parts: str, boards: str) -> None:
    """Whatever the files hold, they are read or refused."""
    import tempfile

    with tempfile.TemporaryDirectory() as folder:
        names = [str(Path(folder) / name) for name in ("p", "b")]
        for name, text in zip(names, (parts, boards), strict=True):
            Path(name).write_text(f"section,length,count\n{text}", encoding="utf-8", errors="replace", newline="")
        with pytest.raises(CutListsError) as caught:
            read_cut_lists(names[0], names[1], Unit.IN, OPTIONS)
        assert caught.value.errors
