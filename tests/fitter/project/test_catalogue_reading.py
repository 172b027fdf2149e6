"""Catalogues of cushions: what shops write is read, and every mistake is told with its line and column."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from fitter.domain.catalogue import Row
from fitter.domain.cushions import BackCushion
from fitter.domain.findings import Finding, ProjectError
from fitter.project import read_project
from fitter.project.catalogue import read_catalogue
from fitter.project.mould import Mould
from rooms.lengths import Length, Unit

EXAMPLES = Path(__file__).parents[3] / "examples"
HEAD = "name,width,depth,thickness"
IN = Length.inches


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def read(here: Path, text: str, unit: Unit = Unit.IN) -> tuple[Row, ...]:
    (here / "cushions.csv").write_text(text, encoding="utf-8")
    return read_catalogue("cushions.csv", unit)


def mistakes(here: Path, text: str) -> list[Finding]:
    with pytest.raises(ProjectError) as caught:
        read(here, text)
    return list(caught.value.findings)


def test_every_column_in_any_order(here: Path) -> None:
    text = (
        "# invented\nThickness,name,width,depth,seats,price,may_turn,May Notch,"
        "back width,back-height,back_thickness,ease\n\n"
        '5,plain 24,24,600 mm,,49.5,yes,no,24,18,6,-1/4\n4,"for two, wide","46 1/2""",22,2,90,,,,,,\n'
    )
    one, two = read(here, text)
    assert (one.line, two.line) == (4, 5)
    cushion = one.cushion
    assert (cushion.name, cushion.width, cushion.depth, cushion.thickness) == (
        "plain 24", IN(24), Length.millimetres(600), IN(5),
    )  # fmt: skip
    assert (cushion.price, cushion.seats, cushion.may_turn, cushion.may_notch) == (Fraction(99, 2), 1, True, False)
    assert (cushion.back, cushion.ease) == (BackCushion(IN(24), IN(18), IN(6)), IN("-1/4"))
    assert (two.cushion.name, two.cushion.width, two.cushion.seats) == ("for two, wide", IN("93/2"), 2)
    assert (two.cushion.may_turn, two.cushion.may_notch, two.cushion.back) == (False, True, None)
    # None of a catalogue is owned, and there are as many as wanted.
    assert (cushion.own, cushion.stock) == (None, None)


def test_bare_numbers_are_in_the_unit_of_the_project(here: Path) -> None:
    (row,) = read(here, f"{HEAD}\nseat,60,62,12\n", Unit.CM)
    assert row.cushion.width == Length.millimetres(600)


@pytest.mark.parametrize(
    ("row", "code", "place", "message"),
    [
        ("plain,24,,5", "empty-value", (2, 10), "row 2, `plain`, has no depth"),
        ("plain,24,24", "empty-value", (2, 1), "row 2, `plain`, has no thickness"),
        (",24,24,5", "empty-value", (2, 1), "row 2 has no name"),
        ("plain,wide,24,5", "not-a-length", (2, 7), "`width`"),
        ("plain,0,24,5", "zero-length", (2, 7), "`width` is zero"),
        ("plain,600,24,5", "size-absurd", (2, 7), "`width` of `plain` is 50' 0\""),
        ("plain,24,5,5", "size-absurd", (2, 10), "is the least"),
        ("plain,24,24,5,6", "wrong-columns", (2, 15), "5 values"),
    ],
)
def test_mistakes_of_a_row(here: Path, row: str, code: str, place: tuple[int, int], message: str) -> None:
    (found,) = mistakes(here, f"{HEAD}\n{row}\n")
    assert found.place is not None
    assert (found.code, (found.place.line, found.place.column)) == (code, place)
    assert message in found.message


@pytest.mark.parametrize(
    ("columns", "row", "code", "help"),
    [
        ("price", '"49,50"', "not-a-price", "a point before the cents"),
        ("price", "$49", "not-a-price", "no currency sign"),
        ("price", "0", "zero-price", "not known"),
        ("seats", "4", "count-out-of-range", "how many people"),
        ("seats", "one", "count-out-of-range", "how many people"),
        ("may_turn", "maybe", "not-a-flag", "`yes` or `no`"),
        ("back width", "24", "empty-value", "all three"),
        ("ease", "13", "ease-too-big", "an inch or so"),
    ],
)
def test_mistakes_of_other_columns(here: Path, columns: str, row: str, code: str, help: str) -> None:
    found = mistakes(here, f"{HEAD},{columns}\nplain,24,24,5,{row}\n")
    assert {each.code for each in found} == {code}
    assert any(help in each.help for each in found)


def test_all_mistakes_are_told_at_once_in_order(here: Path) -> None:
    found = mistakes(here, f"{HEAD},price\na,24,,5,9\nA,24,24,5,\nb,x,24,5,7\n,24,24,,3\n")
    lines = [each.place.line for each in found if each.place]
    assert lines == sorted(lines)
    told = [(each.code, each.place.line) for each in found if each.place]
    assert sorted(told) == [
        ("empty-value", 2),
        ("empty-value", 5),
        ("empty-value", 5),
        ("named-twice", 3),
        ("no-price", 3),
        ("not-a-length", 4),
    ]
    assert next(each.message for each in found if each.code == "named-twice") == "`A` stands in row 2 already"


@pytest.mark.parametrize(
    ("text", "code", "help"),
    [
        ("", "file-empty", "begin with the line `name,width,depth,thickness,price`"),
        (f"{HEAD}\n", "list-empty", "add a row"),
        ("title: Yard\nunits: in\n", "wrong-columns", "begin with the line"),
        (f"{HEAD.replace(',', ';')}\na;24;24;5\n", "wrong-columns", "commas"),
        ("name,width,depht,thickness\na,24,24,5\n", "unknown-column", "did you mean `depth`?"),
        ("name,width,depth\na,24,24\n", "missing-column", "name,width,depth,thickness"),
    ],
)
def test_what_is_no_catalogue(here: Path, text: str, code: str, help: str) -> None:
    found = mistakes(here, text)
    assert [each.code for each in found] == [code]
    assert help in found[0].help


def test_a_picture_is_no_catalogue(here: Path) -> None:
    (here / "cushions.csv").write_bytes(b"\x89PNG\r\n\0\0")
    with pytest.raises(ProjectError) as caught:
        read_catalogue("cushions.csv", Unit.IN)
    assert caught.value.findings[0].code in ("not-text", "not-utf8")
    assert "comma-separated" in caught.value.findings[0].help or "UTF-8" in caught.value.findings[0].help


def test_the_catalogue_of_the_examples_has_fifty_invented_cushions() -> None:
    rows = read_catalogue(str(EXAMPLES / "catalogue.csv"), Unit.IN)
    assert len(rows) == 50
    assert all(row.cushion.name.startswith("invented ") for row in rows)


YARD = """\
units: in
room:
  sides: {AB: 112, BC: 84, CD: 112, DA: 84}
  turns: {A: left, B: left}
CUSHIONS
wish: {buy_at_most: 0, legroom: 16}
frame: {lean: 5, FRAME}
shop:
  boards: [{section: 2x8, length: 8', price: 12.60}]
"""


def yard(here: Path, cushions: str = "", frame: str = "max_span: 4'") -> Mould:
    text = YARD.replace("CUSHIONS", cushions).replace("FRAME", frame)
    (here / "yard.yaml").write_text(text, encoding="utf-8")
    return Mould("yard.yaml")


@pytest.mark.parametrize("cushions", ["", "cushions: [{name: ours, size: [24, 24, 5], own: 3}]", "cushions: nonsense"])
def test_a_mould_makes_what_the_file_would_say_with_that_cushion(here: Path, cushions: str) -> None:
    """Heights and backs follow the cushion; the file's own ones, and what it says of buying more, are passed over."""
    (row,) = read(here, f"{HEAD},price,back width,back height,back thickness\ntall,23,25,8,70,23,22,6\n")
    written = YARD.replace("FRAME", "max_span: 4'").replace("buy_at_most: 0, ", "")
    written = written.replace("CUSHIONS", "cushions: [{name: tall, size: [23, 25, 8], price: 70, back: [23, 22, 6]}]")
    right, made = read_project("yard.yaml", written), yard(here, cushions).project(row.cushion)
    assert (made.cushions, made.frame, made.shop, made.room) == (right.cushions, right.frame, right.shop, right.room)
    assert made.wish == right.wish


def test_a_cushion_that_does_not_go_with_the_frame_is_told_and_kept_apart(here: Path) -> None:
    rows = read(here, f"{HEAD}\nthin,24,24,3\nthick,24,24,12\nthin too,22,22,3\n")
    one, thick, other = yard(here, frame="seat_height: 15").candidates(rows)
    assert one.project is not None
    assert other.project is not None
    assert thick.project is None
    assert "is too low: cushion `thick` takes 1' 0\"" in thick.refused


def test_mistakes_of_the_wood_are_those_of_the_project_file(here: Path) -> None:
    with pytest.raises(ProjectError) as caught:
        yard(here, frame="max_spam: 4'")
    (found,) = caught.value.findings
    assert (found.code, found.help) == ("unknown-key", "did you mean `max_span`?")
