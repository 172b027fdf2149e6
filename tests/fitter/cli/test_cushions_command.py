"""`fitter cushions` from the outside: what it prints, and how it ends."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

import pytest

from fitter.cli import main
from fitter.workflow import cataloguing

STOOP = """\
title: A stoop
note: Invented demo data
units: in
room:
  sides: {AB: 70, BC: 54, CD: 70, DA: 54}
  turns: {A: left, B: left}
wish: {shape: straight, against: [AB]}
frame: {seat_height: 17}
shop:
  boards: [{section: 2x8, length: 8', price: 12.60}, {section: 4x4, length: 8', price: 12.40}]
"""
LIST = """\
name,width,depth,thickness,price
two of these,24,24,4,40
three of these,20,24,4,30
too wide,72,24,4,90
too thick,24,24,14,90
"""


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "stoop.yaml").write_text(STOOP, encoding="utf-8")
    (tmp_path / "list.csv").write_text(LIST, encoding="utf-8")
    return tmp_path


def cushions(monkeypatch: pytest.MonkeyPatch, *words: str) -> int:
    monkeypatch.setattr(sys, "argv", ["fitter", "cushions", *words])
    with pytest.raises(SystemExit) as stop:
        main()
    return int(stop.value.code or 0)


def document(capsys: pytest.CaptureFixture[str]) -> Any:
    return json.loads(capsys.readouterr().out)


def test_the_table_and_the_picture(
    here: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    assert cushions(monkeypatch, "stoop.yaml", "list.csv", "--jobs", "1") == 0
    told = capsys.readouterr()
    lines = told.out.splitlines()
    assert lines[:2] == ["A stoop", "Invented demo data"]
    assert "proven: the best layout with each of 4 cushions of list.csv, the best cushion first" in told.out.replace(
        "\n", " "
    )
    rows = [line.split() for line in lines if line[:4].strip().isdigit()]
    # Three at 30.00 and two at 40.00.
    assert [(row[0], " ".join(row[1:4]), row[4], row[-2]) for row in rows] == [
        ("1", "three of these", "3", "90.00"),
        ("2", "two of these", "2", "80.00"),
    ]
    assert "Proven that no layout fits with too wide." in told.out
    assert "too thick does not go with the frame: a seat 1' 5\" high is too low" in told.out
    assert max(map(len, lines)) <= 80
    assert {path.name for path in here.glob("stoop-cushions.*")} == {
        f"stoop-cushions.{ending}" for ending in ("pdf", "svg", "png")
    }
    assert "wrote stoop-cushions.pdf" in told.err


def test_the_document(here: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    assert cushions(monkeypatch, "stoop.yaml", "list.csv", "--json", "--jobs", "1") == 0
    found = document(capsys)
    assert (found["outcome"], found["left"], found["interrupted"]) == ("proven", 0, False)
    rows = found["cushions"]
    assert [(row["rank"], row["cushion"], row["line"], row["outcome"]) for row in rows] == [
        (1, "three of these", 3, "proven"),
        (2, "two of these", 2, "proven"),
        (None, "too wide", 4, "impossible"),
        (None, "too thick", 5, "impossible"),
    ]
    assert [row["seats"] for row in rows[:2]] == [3, 2]
    for row in rows[:2]:
        money = next(proof["value"] for proof in row["proofs"] if proof["objective"] == "money to spend")
        assert 100 * (row["costs"]["cushions"] + row["costs"]["boards"]) == pytest.approx(money)
        assert row["layout"]["seats"] == row["seats"]
        assert row["used"] == len([each for each in row["layout"]["modules"] if each["cushion"]])
    assert rows[2]["why"].startswith("No layout fits: ")
    assert "is too low" in rows[3]["why"]
    assert not list(here.glob("*.pdf"))


def test_nothing_fits(here: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    (here / "list.csv").write_text("name,width,depth,thickness\nwide,72,24,4\n", encoding="utf-8")
    assert cushions(monkeypatch, "stoop.yaml", "list.csv") == 1
    assert "impossible: proven that no layout fits with any of 1 cushion of list.csv" in capsys.readouterr().out


def test_mistakes_of_either_file(
    here: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (here / "list.csv").write_text("name,width,depth,thickness\na,24,,4\nb,,24,4\n", encoding="utf-8")
    assert cushions(monkeypatch, "stoop.yaml", "list.csv") == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert "list.csv:2:6: error[empty-value]: row 2, `a`, has no depth" in told.err
    assert "list.csv:3:3: error[empty-value]: row 3, `b`, has no width" in told.err
    assert "2 mistakes in list.csv" in told.err
    assert cushions(monkeypatch, "list.csv", "stoop.yaml") == 2
    assert "the project file comes first" in capsys.readouterr().err
    assert cushions(monkeypatch, "nowhere.yaml", "list.csv", "--json") == 2
    assert document(capsys)["errors"][0]["code"] == "file-missing"


@pytest.mark.usefixtures("here")
@pytest.mark.parametrize(
    "words",
    [("--jobs", "0"), ("--time", "0"), ("--jobs", "2", "--cluster", "a:1"), ("--cluster", ""), ("--sheet", "A9")],
)
def test_flags_that_make_no_sense(monkeypatch: pytest.MonkeyPatch, words: tuple[str, ...]) -> None:
    assert cushions(monkeypatch, "stoop.yaml", "list.csv", *words) == 2


@pytest.mark.usefixtures("here")
def test_a_cluster_that_cannot_be_used(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.setattr(cataloguing, "find_spec", lambda _: None)
    assert cushions(monkeypatch, "stoop.yaml", "list.csv", "--cluster", "tcp://127.0.0.1:9") == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert "error[no-cluster-library]" in told.err
    assert "pip install 'patio-fitter[cluster]'" in told.err
    assert cushions(monkeypatch, "stoop.yaml", "list.csv", "--cluster", "tcp://127.0.0.1:9", "--json") == 2
    assert document(capsys)["errors"][0]["code"] == "no-cluster-library"
