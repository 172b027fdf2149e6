"""`fitter sweep` as a user calls it: exit codes, streams, files, and what is wrong with a call."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from fitter.cli import main

YARD = """\
title: Invented yard
note: Invented demo data
units: in
room:
  tolerance: 0
  corners: {A: [0, 0], B: [110, 0], C: [110, 96], D: [0, 96]}
cushions:
  - {name: seat, size: [24, 24, 5], price: 40, own: 1}
wish: {shape: straight, against: [AB], legroom: 6, ends: open}
"""


Call = Callable[..., tuple[object, str, str]]


@pytest.fixture
def call(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Call:
    """Call the command line in a folder with the yard; gives the exit code and both streams."""
    (tmp_path / "yard.yaml").write_text(YARD, encoding="utf-8")
    monkeypatch.chdir(tmp_path)

    def run(*words: str) -> tuple[object, str, str]:
        monkeypatch.setattr(sys, "argv", ["fitter", "sweep", *words])
        with pytest.raises(SystemExit) as stop:
            main()
        out, err = capsys.readouterr()
        return stop.value.code, out, err

    return run


def test_a_table_within_80_columns(call: Call, tmp_path: Path) -> None:
    shown = "seats,cost,layout,posts,lengths,area"
    code, out, err = call("yard.yaml", "--vary", "wish.legroom=60..76:4", "--show", shown)
    assert (code, err) == (0, "")
    assert max(map(len, out.splitlines())) <= 80
    assert 'wish.legroom from 5\' 0" to 6\' 4" in steps of 4"; the file says 6' in out.replace("\n", " ")
    assert "impossible" in out
    assert "At 6' 0\": No layout fits:" in out
    assert not list(tmp_path.glob("*sweep*"))


def test_a_document_says_the_same(call: Call) -> None:
    code, out, _ = call("yard.yaml", "--vary", "wish.legroom=60..76:4", "--show", "seats,layout,off_edge", "--json")
    document = json.loads(out)
    assert (code, document["outcome"], document["key"], document["values"]) == (0, "proven", "wish.legroom", 5)
    assert document["step"] == 4
    fits, none = document["stretches"]
    assert (fits["from"], fits["to"], fits["seats"], fits["off_edge"]) == (60, 68, 4, 0)
    assert fits["layout"] == {"shape": "straight", "seats": 4, "hand": None, "corner": None}
    assert (none["from"], none["to"], none["outcome"]) == (72, 76, "impossible")
    assert none["why"]["clash"]


def test_a_picture_under_the_name_of_the_file(call: Call, tmp_path: Path) -> None:
    code, _, err = call("yard.yaml", "--vary", "wish.seats.most=1..3", "--out", "pictures", "--quiet")
    assert code == 0
    names = {path.name for path in (tmp_path / "pictures").iterdir()}
    assert names == {"yard-sweep.pdf", "yard-sweep.svg", "yard-sweep.png"}
    assert err.count("wrote ") == 3


def test_nothing_fits_anywhere(call: Call) -> None:
    code, out, _ = call("yard.yaml", "--vary", "wish.seats.least=7..9")
    assert code == 1
    assert "impossible" in out


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--vary", "wish.legrom=1..2"), "did you mean `wish.legroom`?"),
        (("--vary", "wish.legroom=2..1"), "empty range"),
        (("--vary", "wish.legroom=1..2", "--show", "seets"), "did you mean `seats`?"),
        (("--vary", "wish.legroom=1..2", "--sheet", "B5"), "is not one of 'a4', 'a3', 'letter', 'tabloid'"),
        (("--vary", "wish.legroom=1..2", "--time", "0"), "seconds above zero"),
        ((), "--vary"),
    ],
)
def test_a_wrong_call_is_told_and_nothing_is_done(call: Call, words: tuple[str, ...], told: str) -> None:
    code, out, err = call("yard.yaml", *words)
    assert code == 2
    assert out == ""
    assert told in " ".join(err.replace("│", " ").split())


def test_a_wrong_call_gets_its_document(call: Call) -> None:
    code, out, _ = call("yard.yaml", "--vary", "wish.legrom=1..2", "--json")
    document = json.loads(out)
    assert (code, document["outcome"]) == (2, "invalid")
    assert document["errors"][0]["code"] == "unknown-key"


def test_a_file_that_is_wrong_whatever_varies_is_refused_with_its_line(call: Call, tmp_path: Path) -> None:
    (tmp_path / "wrong.yaml").write_text(YARD.replace("seat, size", "seat, sise"), encoding="utf-8")
    code, out, err = call("wrong.yaml", "--vary", "wish.legroom=1..2:1")
    assert (code, out) == (2, "")
    assert "wrong.yaml:8:" in err


def test_values_at_which_the_file_is_wrong_are_told_in_the_table(call: Call) -> None:
    code, out, _ = call("yard.yaml", "--vary", "wish.seats.most=0..2")
    assert code == 0
    assert "file is wrong" in out
    assert "At 0: " in out
