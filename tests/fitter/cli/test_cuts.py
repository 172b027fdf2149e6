"""`fitter cuts` from the outside: what it prints, and how it ends."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

import pytest

from fitter.cli import main

PARTS = "section,length,count,mark\n2x4,40,3,A\n2x4,17,2,B\n"
BOARDS = "section,length,price,have\n2x4,8',4.50,\n2x4,12',7.10,\n2x4,45,,1\n"


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "parts.csv").write_text(PARTS, encoding="utf-8")
    (tmp_path / "boards.csv").write_text(BOARDS, encoding="utf-8")
    return tmp_path


def cuts(monkeypatch: pytest.MonkeyPatch, *words: str) -> int:
    monkeypatch.setattr(sys, "argv", ["fitter", "cuts", "parts.csv", "--boards", "boards.csv", *words])
    with pytest.raises(SystemExit) as stop:
        main()
    return int(stop.value.code or 0)


def document(capsys: pytest.CaptureFixture[str]) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(capsys.readouterr().out)
    return found


@pytest.mark.usefixtures("here")
def test_the_document_adds_up(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """Every part once, cuts in order and a saw cut apart, prices summing to the cost."""
    assert cuts(monkeypatch, "--json", "--kerf", "1/8", "--trim", "1/2") == 0
    found = document(capsys)
    assert (found["outcome"], found["units"], found["kerf"], found["trim"]) == ("proven", "in", 0.125, 0.5)
    assert found["cost"] == found["bound"] == pytest.approx(sum(board["price"] or 0 for board in found["boards"]))
    marks = [cut["mark"] for board in found["boards"] for cut in board["cuts"]]
    assert sorted(marks) == ["A", "A", "A", "B", "B"]
    for board in found["boards"]:
        edge = 0.5 - 0.125
        for cut in board["cuts"]:
            assert cut["to"] - cut["from"] == {"A": 40, "B": 17}[cut["mark"]]
            assert cut["from"] == edge + 0.125
            edge = cut["to"]
        assert board["offcut"] == max(0, board["length"] - edge - 0.125)


@pytest.mark.usefixtures("here")
def test_nothing_goes_to_standard_output_but_the_result(
    monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    """Not even by the libraries, which write past Python."""
    assert cuts(monkeypatch, "--json") == 0
    told = capfd.readouterr()
    json.loads(told.out)
    assert told.err == ""


def test_time_that_is_up_is_told(
    here: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Parts whose best cutting is not the one by hand, and no time to find it."""
    (here / "parts.csv").write_text("section,length,count\n2x4,40,9\n2x4,31,7\n2x4,23,5\n", encoding="utf-8")
    assert cuts(monkeypatch, "--time", "1e-9") == 3
    told = capsys.readouterr().out
    assert "found, not proven: time ran out" in told
    assert cuts(monkeypatch, "--json", "--time", "1e-9") == 3
    found = document(capsys)
    assert found["outcome"] == "found"
    assert found["bound"] < found["cost"]
    assert found["gap"] == pytest.approx(found["cost"] - found["bound"])


def test_boards_on_hand_that_do_not_suffice(
    here: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (here / "boards.csv").write_text("section,length,price,have\n2x4,60,,2\n", encoding="utf-8")
    assert cuts(monkeypatch, "--json") == 1
    found = document(capsys)
    assert (found["outcome"], found["section"], found["cost"], found["boards"]) == ("impossible", "2x4", None, [])


@pytest.mark.usefixtures("here")
@pytest.mark.parametrize(
    "words",
    [
        ("--kerf", "-1/8"),
        ("--kerf", "2"),
        ("--kerf", "thin"),
        ("--trim", "-1"),
        ("--units", "yd"),
        ("--defects", "60"),
        ("--on-hand", "last"),
        ("--aims", "beauty"),
        ("--aims", "boards,boards"),
        ("--time", "0"),
        ("--denominator", "12"),
        ("--carried", "far"),
    ],
)
def test_a_flag_that_makes_no_sense_is_refused(
    words: tuple[str, str], monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    assert cuts(monkeypatch, *words) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert words[0] in told.err


def test_a_file_that_is_not_there(
    here: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (here / "boards.csv").unlink()
    assert cuts(monkeypatch, "--json") == 2
    found = document(capsys)
    assert [error["code"] for error in found["errors"]] == ["file-missing"]
    assert found["errors"][0]["file"] == "boards.csv"


@pytest.mark.usefixtures("here")
def test_metric_lists_have_metric_saw_cuts(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    (Path("parts.csv")).write_text("section,length,count\n38x89,1000,2\n", encoding="utf-8")
    (Path("boards.csv")).write_text("section,length,price\n38x89,2003,9.90\n38x89,2002,1.00\n", encoding="utf-8")
    assert cuts(monkeypatch, "--json", "--units", "mm") == 0
    found = document(capsys)
    assert (found["kerf"], found["cost"]) == (3, 2.0)
    assert cuts(monkeypatch, "--json", "--units", "mm", "--kerf", "2") == 0
    assert document(capsys)["cost"] == 1.0


STOOP = Path(__file__).parents[2] / "golden" / "cases" / "cuts-project-json" / "stoop.yaml"


def of_project(here: Path, monkeypatch: pytest.MonkeyPatch, *words: str) -> int:
    """`fitter cuts` of a small project."""
    (here / "stoop.yaml").write_text(STOOP.read_text(encoding="utf-8"), encoding="utf-8")
    monkeypatch.setattr(sys, "argv", ["fitter", "cuts", "stoop.yaml", *words])
    with pytest.raises(SystemExit) as stop:
        main()
    return int(stop.value.code or 0)


def test_the_document_of_a_project_adds_up(
    here: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Prices sum to the cost; each board's saw cuts free its parts, and run on from each other."""
    assert of_project(here, monkeypatch, "--json") == 0
    found = document(capsys)
    assert found["outcome"] == "proven"
    assert found["complete"] is True
    assert found["cost"] == found["bound"] == pytest.approx(sum(board["price"] for board in found["boards"]))
    assert found["cost"] == pytest.approx(sum(section["cost"] for section in found["sections"]))
    assert sum(len(board["cuts"]) for board in found["boards"]) == sum(each["parts"] for each in found["sections"])
    for board in found["boards"]:
        freed = [cut["mark"] for cut in board["saw"] if cut["frees"] == "part"]
        freed += [length["rest"] for length in board["lengths"] if length["rest"]]
        assert sorted(freed) == sorted(cut["mark"] for cut in board["cuts"])
        assert [cut["cut"] for cut in board["saw"]] == list(range(1, len(board["saw"]) + 1))
        starts = [0, *(length["from"] for length in board["lengths"])]
        for cut in board["saw"]:
            assert any(cut["at"] == pytest.approx(start + cut["running"], abs=1e-5) for start in starts)


def test_pictures_of_a_project_and_of_a_list(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A project is drawn unless told not to; a list only where a folder is named."""
    assert of_project(here, monkeypatch, "--out", "drawn") == 0
    assert {"stoop-boards.pdf", "stoop-boards-1.svg"} <= {file.name for file in (here / "drawn").iterdir()}
    assert of_project(here, monkeypatch, "--no-plan") == 0
    assert cuts(monkeypatch) == 0
    assert not list(here.glob("*.pdf"))
    assert cuts(monkeypatch, "--out", "lists") == 0
    assert {file.suffix for file in (here / "lists").iterdir()} == {".pdf", ".svg", ".png"}


@pytest.mark.parametrize("flag", ["--kerf", "--trim", "--units", "--carried", "--keep"])
def test_flags_of_a_list_are_refused_with_a_project(
    here: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], flag: str
) -> None:
    assert of_project(here, monkeypatch, flag, "in" if flag == "--units" else "1") == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert flag in told.err


@pytest.mark.usefixtures("here")
@pytest.mark.parametrize("words", [("--layout", "2"), ("--sheet", "A9")])
def test_flags_that_make_no_sense_with_a_list(monkeypatch: pytest.MonkeyPatch, words: tuple[str, str]) -> None:
    assert cuts(monkeypatch, *words) == 2


def test_layout_that_is_not_there(
    here: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    assert of_project(here, monkeypatch, "--layout", "20", "--json") == 1
    found = document(capsys)
    assert (found["outcome"], found["boards"], found["cost"]) == ("impossible", [], None)
    assert found["errors"][0]["code"] == "no-such-layout"
