"""One number of a file over a range: paths to it, values of it, and what is wrong with either."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from fitter.domain.amounts import Amount, Quantity
from fitter.domain.findings import ProjectError
from fitter.domain.project import Project
from fitter.project.varying import MOST_VALUES, Variable, read_variable
from fitter.project.written_numbers import VaryError, written_amount
from rooms.lengths import Length

FILE = """\
title: Invented yard
units: in
room:
  sides: {AB: 12', BC: 10', CD: 12', DA: 10'}
  turns: {A: left, B: left, C: left, D: left}
  openings:
    - {name: door 1.5, edge: AB, from: 6', width: 36}
    - {name: gate, edge: CD, from: 1', width: 36}
  obstacles:
    - {name: box, at: [1', 1'], size: [12, 12]}
  routes:
    - {from: door 1.5, to: gate, width: 36}
cushions:
  - {name: seat, size: [24, 24, 5], own: 6, ease: -1/4"}
  - {name: bench, size: [48, 24, 5], seats: 2, price: 41.50}
wish:
  seats: 3
frame:
  sections: {post: 4x4}
"""


def variable(asked: str, tmp_path: Path, text: str = FILE) -> Variable:
    file = tmp_path / "yard.yaml"
    file.write_text(text, encoding="utf-8")
    return read_variable(str(file), asked)


def inches(*values: str) -> list[Amount]:
    return [Amount(Quantity.LENGTH, Fraction(Length.inches(value).units)) for value in values]


def first(asked: str, tmp_path: Path, text: str = FILE) -> Project:
    found = variable(asked, tmp_path, text)
    return found.project(found.values[0])


def test_a_route_by_its_place_and_by_its_name_is_the_same(tmp_path: Path) -> None:
    by_place = variable("room.routes.0.width=30..31:1/2", tmp_path)
    by_name = variable("room.routes.door 1.5 to gate.width=30..31:1/2", tmp_path)
    assert by_place.key == by_name.key == "room.routes.0.width"
    assert list(by_place.values) == inches("30", "61/2", "31")
    widths = [by_name.project(value).room.routes[0].width for value in by_name.values]
    assert widths == [Length.inches(size) for size in ("30", "61/2", "31")]


def test_feet_and_inches_and_the_usual_step_of_a_length(tmp_path: Path) -> None:
    found = variable("room.sides.AB=11' 11 7/8\"..12'", tmp_path)
    assert list(found.values) == inches("1151/8", "2303/16", "144")


def test_usual_steps(tmp_path: Path) -> None:
    assert len(variable("cushions.0.own=2..5", tmp_path).values) == 4
    assert len(variable("cushions.bench.price=41.50..41.60", tmp_path).values) == 11
    assert len(variable("frame.lean=0..3", tmp_path).values) == 4
    assert len(variable("shop.spare=5 %..10 %", tmp_path).values) == 6


def test_a_range_ends_with_its_last_whole_step(tmp_path: Path) -> None:
    assert list(variable("cushions.0.ease=-1/2..1/8:1/4", tmp_path).values) == inches("-1/2", "-1/4", "0")


def test_the_same_value_gives_the_same_project(tmp_path: Path) -> None:
    same = first("cushions.bench.price=41.5..41.5", tmp_path)
    assert same == read_variable(str(tmp_path / "yard.yaml"), "wish.seats=3..3").project(
        Amount(Quantity.COUNT, Fraction(3))
    )


def test_keys_that_the_file_does_not_write(tmp_path: Path) -> None:
    assert first('frame.overhang=1/2"..1', tmp_path).frame.overhang == Length.inches("1/2")
    assert first("shop.kerf=3 mm..4 mm:1 mm", tmp_path).shop.kerf == Length.millimetres(3)
    assert first("room.obstacles.box.clear=7..8", tmp_path).room.obstacles[0].clear == Length.inches(7)


@pytest.mark.parametrize("written", ["room.obstacles.0.clear", "room.obstacles.box.clear"])
def test_things_with_names_are_called_by_them(written: str, tmp_path: Path) -> None:
    first(f"{written}=7..8", tmp_path)
    variable = read_variable(str(tmp_path / "yard.yaml"), f"{written}=7..8")
    assert (variable.key, variable.called) == ("room.obstacles.0.clear", "room.obstacles.box.clear")


def test_seats_as_one_number_or_as_two(tmp_path: Path) -> None:
    assert first("wish.seats=4..5", tmp_path).wish.least == 4
    assert first("wish.seats.least=4..5", tmp_path).wish.least == 4
    both = first("wish.seats.most=8..9", tmp_path).wish
    assert (both.least, both.most) == (3, 8)


def test_parts_of_a_size_by_number_and_by_word(tmp_path: Path) -> None:
    assert first("cushions.seat.size.depth=23..24", tmp_path).cushions[0].depth == Length.inches(23)
    assert first("room.obstacles.0.at.x=2'..3'", tmp_path).room.obstacles[0].core[0].x == Length.inches(24)


@pytest.mark.parametrize(
    ("asked", "code", "told"),
    [
        ("room.rutes.0.width=1..2", "unknown-key", "did you mean `room.routes.0.width`?"),
        ("cushions.stool.own=1..2", "unknown-key", "`seat`, `bench`, `0` and `1`"),
        ("frame.max_spam=1..2", "unknown-key", "did you mean `frame.max_span`?"),
        ("room.sides.BD=1..2", "unknown-key", "under `room.sides` are `AB`, `BC`, `CD` and `DA`"),
        ("cushions.0.measured.0=1..2", "unknown-key", "write it in the file first"),
        ("frame.slat_gap.seat.deep=1..2", "unknown-key", "no further keys"),
        ("frame.sections.post=1..2", "not-a-number", "name the key of a length"),
        ("cushions.0.size=1..2", "not-a-number", "name the key"),
        ("room=1..2", "not-a-number", "name the key"),
        ("room.tolerance=2..1", "empty-range", "smaller value first"),
        ("room.tolerance=1..2:0", "no-step", "above zero"),
        ("room.tolerance=1..2:-1/4", "no-step", "above zero"),
        ("room.tolerance=1-2", "not-a-range", "two points"),
        ("room.tolerance", "not-a-range", "write for example"),
        ("room.tolerance=wide..2", "not-a-length", "write for example"),
        ("cushions.0.own=1..2.5", "not-a-value", "a whole number"),
        ("cushions.1.price=1..two", "not-a-value", "an amount"),
        ("room.sides.AB=0..100':1/64", "too-many-values", "a larger step"),
    ],
)  # fmt: skip
def test_what_cannot_vary_is_told(asked: str, code: str, told: str, tmp_path: Path) -> None:
    with pytest.raises(VaryError) as caught:
        variable(asked, tmp_path)
    assert caught.value.code == code
    assert told in caught.value.help


def test_what_is_there_is_quoted(tmp_path: Path) -> None:
    with pytest.raises(VaryError, match=r"`frame\.sections\.post` is `4x4`, not a number"):
        variable("frame.sections.post=1..2", tmp_path)


def test_a_bare_value_has_no_parts(tmp_path: Path) -> None:
    text = FILE.replace("frame:\n", "frame:\n  slat_gap: 1/4\n")
    with pytest.raises(VaryError) as caught:
        variable("frame.slat_gap.seat=1/4..1/2", tmp_path, text)
    assert caught.value.help == "vary `frame.slat_gap` itself"


def test_a_value_for_which_the_file_is_wrong_is_refused_with_its_line(tmp_path: Path) -> None:
    found = variable("room.sides.AB=11'..12':1'", tmp_path)
    with pytest.raises(ProjectError) as caught:
        found.project(found.values[0])
    assert caught.value.findings[0].place is not None
    assert caught.value.findings[0].place.line == 4
    assert found.project(found.values[1]).room.edge("AB").length == Length.inches(144)


def test_a_file_that_is_no_mapping_is_refused(tmp_path: Path) -> None:
    with pytest.raises(ProjectError):
        variable("room.tolerance=1..2", tmp_path, "- one\n- two\n")


def test_more_values_than_anyone_waits_for(tmp_path: Path) -> None:
    assert len(variable(f"wish.seats=1..{MOST_VALUES}", tmp_path).values) == MOST_VALUES


@pytest.mark.parametrize(
    ("quantity", "number", "text"),
    [
        (Quantity.LENGTH, Length.inches("485/16").units, "30 5/16 in"),
        (Quantity.LENGTH, Length.inches("-1/2").units, "-1/2 in"),
        (Quantity.LENGTH, 0, "0 in"),
        (Quantity.LENGTH, Length.millimetres("15/2").units, "7.5 mm"),
        (Quantity.MONEY, Fraction(83, 2), "41.5"),
        (Quantity.SHARE, Fraction(1, 8), "12.5 %"),
        (Quantity.ANGLE, Fraction(15, 2), "7.5"),
        (Quantity.COUNT, 12, "12"),
    ],
)
def test_values_as_the_file_would_write_them(quantity: Quantity, number: int | Fraction, text: str) -> None:
    assert written_amount(Amount(quantity, Fraction(number))) == text
