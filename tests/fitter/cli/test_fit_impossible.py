"""`fitter fit` and other commands where nothing fits, from the outside."""

from __future__ import annotations

import io
import json
import os
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from contextlib import redirect_stdout
from functools import cache
from pathlib import Path
from typing import Any
from unittest.mock import patch

import pytest
from impossible import EXAMPLES, written_into

from fitter.cli import main

ROOT = EXAMPLES.parent
Documents = Callable[[str], dict[str, Any]]
# From the file by hand: 6' 2" of edge AB less a quarter inch at either side and two ends of 1 1/2 in leaves 70 1/2 in;
# three cushions of 24 1/4 in take 72 3/4 in.
MISSING = '2 1/4"'
STOOP = """\
units: in
room:
  sides: {AB: 112, BC: 54, CD: 112, DA: 54}
  turns: {A: left, B: left, C: left, D: left}
cushions:
  - {name: square, size: [24, 24, 5], own: 2, price: 40}
wish: {shape: straight, against: [AB], seats: 4}
"""


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "80")
    for example in EXAMPLES.glob("*.yaml"):
        shutil.copy(example, tmp_path)
    return tmp_path


def fitter(monkeypatch: pytest.MonkeyPatch, *words: str) -> int:
    monkeypatch.setattr(sys, "argv", ["fitter", *words])
    with pytest.raises(SystemExit) as stop:
        main()
    return int(stop.value.code or 0)


@pytest.fixture(scope="module")
def documents() -> Documents:
    """What an example gives as a document; worked out once."""

    @cache
    def told(stem: str) -> dict[str, Any]:
        out, call = io.StringIO(), ["fitter", "fit", str(EXAMPLES / f"{stem}.yaml"), "--json"]
        with patch.object(sys, "argv", call), redirect_stdout(out), pytest.raises(SystemExit) as stop:
            main()
        assert stop.value.code == 1
        found: dict[str, Any] = json.loads(out.getvalue())
        return found

    return told


def document(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], *words: str) -> dict[str, Any]:
    assert fitter(monkeypatch, *words, "--json") == 1
    found: dict[str, Any] = json.loads(capsys.readouterr().out)
    return found


@pytest.mark.usefixtures("here")
def test_the_clash_its_cures_and_a_picture(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    assert fitter(monkeypatch, "fit", "landing.yaml") == 1
    told = capsys.readouterr()
    assert f"Cannot be had: 3 seats in a straight run; {MISSING} are missing." in told.out
    assert "landing.yaml:7" in told.out
    assert "1. ask for 2 seats instead of 3" in told.out
    assert "wish.seats.least: 3 -> 2" in told.out
    assert max(map(len, told.out.splitlines())) <= 80
    assert sorted(path.name for path in Path().glob("landing-*")) == [
        "landing-why.pdf",
        "landing-why.png",
        "landing-why.svg",
    ]
    assert "wrote landing-why.svg" in told.err


@pytest.mark.usefixtures("here")
def test_cures_may_be_left_out(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    assert fitter(monkeypatch, "fit", "landing.yaml", "--no-cures", "--no-plan") == 1
    told = capsys.readouterr().out
    assert f"So {MISSING} are missing." in told
    assert "was not looked for, as `--no-cures` asks" in told
    assert "ask for 2 seats" not in told


@pytest.mark.usefixtures("here")
@pytest.mark.parametrize("command", ["parts", "cuts", "buy"])
def test_other_commands_tell_the_clash_and_who_tells_more(
    command: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    assert fitter(monkeypatch, command, "landing.yaml") == 1
    told = capsys.readouterr().out
    assert f"So {MISSING} are missing." in told
    assert "`fitter fit landing.yaml` tells what would make it fit." in told
    assert "ask for 2 seats" not in told


@pytest.mark.parametrize("stem", ["landing", pytest.param("attic-cushions", marks=pytest.mark.sweep)])
def test_each_cure_can_be_written_into_the_file_as_it_stands(
    stem: str, documents: Documents, here: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    why = documents(stem)["why"]
    assert why["cures"]
    assert why["sought"] == "all looked for"
    text = (here / f"{stem}.yaml").read_text(encoding="utf-8")
    for cure in why["cures"]:
        (here / "cured.yaml").write_text(written_into(text, cure["changes"]), encoding="utf-8")
        assert fitter(monkeypatch, "fit", "cured.yaml", "--json", "--near", "no") == 0, cure["says"]


@pytest.mark.sweep
@pytest.mark.parametrize("stem", ["side-yard-mm", "porch-route"])
def test_cures_of_rooms_with_routes_can_be_written_too(
    stem: str, here: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    text = (here / f"{stem}.yaml").read_text(encoding="utf-8")
    text = text.replace("wish:\n", "wish:\n  seats: {least: 11}\n") if stem == "porch-route" else text
    (here / "asked.yaml").write_text(text, encoding="utf-8")
    for cure in document(monkeypatch, capsys, "fit", "asked.yaml")["why"]["cures"]:
        (here / "cured.yaml").write_text(written_into(text, cure["changes"]), encoding="utf-8")
        assert fitter(monkeypatch, "fit", "cured.yaml", "--json", "--near", "no") == 0, cure["says"]
        capsys.readouterr()


def test_a_document_tells_all_of_it(documents: Documents) -> None:
    why = documents("landing")["why"]
    assert [fact["id"] for fact in why["clash"]] == ["edge:AB", "edge:BC", "edge:CD", "edge:DA", "least", "shape"]
    assert {fact["line"] for fact in why["clash"]} == {7, 16, 17}
    assert why["missing"] == f"{MISSING} are missing"
    (clash,) = why["clashes"]
    assert [step["concludes"] is not None for step in clash["steps"]] == [True, True, True]
    first = why["cures"][0]
    assert first["changes"] == [{"key": "wish.seats.least", "line": 17, "from": "3", "to": "2"}]
    assert (first["ease"], first["smallest"], first["seats"]) == ("seats", True, 2)
    assert "legroom" in why["uninvolved"]


def test_flags_count_in_cures(here: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    (here / "stoop.yaml").write_text(STOOP, encoding="utf-8")
    why = document(monkeypatch, capsys, "fit", "stoop.yaml", "--only-owned")["why"]
    (buy,) = [cure for cure in why["cures"] if cure["changes"][0]["key"] == "wish.buy_at_most"]
    assert buy["changes"][0]["flag"] == "--buy-at-most 2"
    assert fitter(monkeypatch, "fit", "stoop.yaml", "--json", "--no-cures", "--buy-at-most", "1") == 1
    assert fitter(monkeypatch, "fit", "stoop.yaml", "--json", "--near", "no", "--buy-at-most", "2") == 0


def test_an_interruption_keeps_the_clash(here: Path) -> None:
    call = [sys.executable, "-m", "fitter", "fit", "side-yard-mm.yaml", "--no-plan"]
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    child = subprocess.Popen(call, cwd=here, env=environment, stdout=subprocess.PIPE, text=True)
    assert child.stdout is not None
    lines = []
    for line in child.stdout:
        lines.append(line)
        if line.startswith("  So "):
            break
    time.sleep(0.2)
    child.send_signal(signal.SIGINT)
    rest, _ = child.communicate(timeout=60)
    told = "".join(lines) + rest
    assert "Cannot be had: 5 seats beside the route `kitchen to gate`" in told
    assert "Stopped by you before" in told
    assert child.returncode == 130
