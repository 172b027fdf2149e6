"""`fitter measure`: options, exit codes, documents and the files of its drawing."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import pytest

from fitter.cli import main

TAPED = """title: Yard, invented
units: in
room:
  sides: {AB: 16' 4", BC: 11' 2", CD: 16' 4 1/2", DA: 11' 2"}
  turns: {A: left, B: left, C: left, D: left}
  ties: {AC: 19' 9 7/16"}
"""


def measured(monkeypatch: pytest.MonkeyPatch, *words: str) -> int:
    """The exit code of a call in the current folder."""
    monkeypatch.setattr(sys, "argv", ["fitter", "measure", *words])
    with pytest.raises(SystemExit) as stop:
        main()
    assert isinstance(stop.value.code, int)
    return stop.value.code


@pytest.fixture
def yard(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A taped room in a folder of its own."""
    monkeypatch.chdir(tmp_path)
    file = tmp_path / "yard.yaml"
    file.write_text(TAPED, encoding="utf-8")
    return file


def document(capsys: pytest.CaptureFixture[str]) -> dict[str, object]:
    """What was printed, as JSON."""
    found = json.loads(capsys.readouterr().out)
    assert isinstance(found, dict)
    return found


def test_the_drawing_is_written_under_the_name_of_the_file(
    yard: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Into a folder that is made; the files are named on standard error, the tables stay on standard output."""
    assert measured(monkeypatch, "yard.yaml", "--plan", "drawings/deep") == 0
    names = [f"yard-survey.{kind}" for kind in ("pdf", "svg", "png")]
    assert sorted(path.name for path in (yard.parent / "drawings/deep").iterdir()) == sorted(names)
    told = capsys.readouterr()
    assert told.err.splitlines() == [f"wrote drawings/deep/{name}" for name in names]
    assert told.out.startswith("Yard, invented")


def test_json_and_drawing_together(
    yard: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The document alone on standard output."""
    assert measured(monkeypatch, "yard.yaml", "--json", "--out", ".", "--sheet", "A3") == 0
    assert (yard.parent / "yard-survey.pdf").exists()
    assert document(capsys)["outcome"] == "found"


def test_the_document_holds_what_the_tables_show(
    yard: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Every key, whether or not the compass rule is asked for."""
    assert measured(monkeypatch, "yard.yaml", "--json") == 0
    found = document(capsys)
    assert {"misclosure", "ratio", "perimeter", "redundancy", "unchecked", "next_tie", "readings"} <= found.keys()
    assert {"s0", "within", "critical", "suspicion", "ellipses", "compass"} <= found.keys()
    assert found["within"] == 0.95
    (first, *_, last) = found["ellipses"]  # type: ignore[misc]
    assert first == {"corner": "A", "long": 0, "short": 0, "direction": 0}
    assert last["corner"] == "D"
    assert last["long"] >= last["short"] > 0
    compass = found["compass"]
    assert isinstance(compass, dict)
    assert compass["misclosure"] == 0.5
    assert compass["corners"]["A"] == [0, 0]
    assert all({"checked", "standardised"} <= reading.keys() for reading in found["readings"])  # type: ignore[attr-defined]


def test_a_suspicion_is_in_the_document(
    yard: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Suspects with what they should be, and the tie that would tell; in a pentagon that hardly closes."""
    yard.write_text(
        "title: T\nunits: mm\nroom:\n  tolerance: 8\n"
        "  sides: {AB: 5080, BC: 3388, CD: 3968, DE: 4232, EA: 3637}\n"
        "  ties: {AC: 6711, AD: 6475, BE: 6885}\n",
        encoding="utf-8",
    )
    assert measured(monkeypatch, "yard.yaml", "--json") == 0
    suspicion = document(capsys)["suspicion"]
    assert isinstance(suspicion, dict)
    assert len(suspicion["suspects"]) > 1
    assert suspicion["line"] in ("BD", "CE")
    assert suspicion["suspects"][0].keys() == {"name", "kind", "reading", "meant", "standardised", "foretold"}
    assert measured(monkeypatch, "yard.yaml") == 0
    told = capsys.readouterr().out
    assert f"Tape {suspicion['line']} too, which leaves fewer." in told
    assert f"{suspicion['line']} is then" in told


@pytest.mark.parametrize("option", [["--compass"], ["--plan", "."], ["--compass", "--plan", "."]])
def test_corners_by_coordinates_have_no_readings(
    option: list[str], yard: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """One message, and nothing drawn."""
    yard.write_text("units: ft\nroom:\n  corners: {A: [0, 0], B: [9, 0], C: [9, 8]}\n", encoding="utf-8")
    assert measured(monkeypatch, "yard.yaml", *option) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert "error[no-readings]" in told.err
    assert "yard.yaml:3:" in told.err
    assert [path.name for path in yard.parent.iterdir()] == ["yard.yaml"]


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        (", C: left", "", "the turn at C was not read"),
        (", DA: 11' 2\"", "", ""),
        ("A: left, B: left, ", "", "the turn at A and B was not read"),
    ],
)
def test_the_compass_rule_says_what_it_lacks(
    old: str, new: str, says: str, yard: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Sides and turns; a file whose sides do not come round is refused before."""
    yard.write_text(TAPED.replace(old, new), encoding="utf-8")
    assert measured(monkeypatch, "yard.yaml", "--compass", "--json") == 2
    told = capsys.readouterr()
    errors = json.loads(told.out)["errors"]
    assert len(errors) == 1
    assert says in errors[0]["message"]
    assert errors[0]["code"] == ("no-traverse" if says else "sides-unchained")


def test_a_sheet_too_small_is_told(
    yard: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The tables are told all the same."""
    yard.write_text(
        "units: m\nroom:\n  sides: {AB: 91, BC: 80, CD: 91, DA: 80}\n  turns: {B: left, C: left, D: left}\n",
        encoding="utf-8",
    )
    assert measured(monkeypatch, "yard.yaml", "--plan", ".", "--sheet", "A4") == 0
    capsys.readouterr()
    monkeypatch.setattr("fitter.drawing.survey_page.scales", lambda imperial: ())
    assert measured(monkeypatch, "yard.yaml", "--plan", ".") == 2
    told = capsys.readouterr()
    assert "error[sheet-too-small]" in told.err
    assert "area: " in told.out
