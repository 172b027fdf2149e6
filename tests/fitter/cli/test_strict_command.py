"""Benchmarks as the command line tells them: cautions with their sources, checks that fail where the file asks."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

import pytest

from fitter.cli import main

DECK = """\
units: in
room:
  sides: {AB: 60, BC: 130, CD: 60, DA: 130}
  turns: {A: left, B: left, C: left, D: left}
  edges: {AB: railing, BC: open, CD: wall, DA: open}
  EXTRA
cushions:
  - {name: square, size: [24, 24, 5], price: 40}
wish: {shape: straight, seats: {least: 2, most: 2} WISH}
"""


@pytest.fixture
def deck(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path / "deck.yaml"


def call(monkeypatch: pytest.MonkeyPatch, *words: str) -> int:
    monkeypatch.setattr(sys, "argv", ["fitter", *words])
    with pytest.raises(SystemExit) as stop:
        main()
    return int(stop.value.code or 0)


def write(deck: Path, wish: str = "", extra: str = "tolerance: 1/4") -> None:
    deck.write_text(DECK.replace(" WISH", wish).replace("EXTRA", extra), encoding="utf-8")


def document(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, Any]:
    code = call(monkeypatch, "fit", "deck.yaml", "--json", *words)
    return code, json.loads(capsys.readouterr().out)


def test_a_missed_benchmark_is_a_caution_with_source_key_and_line(
    deck: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    write(deck, ", against: [AB]")
    assert call(monkeypatch, "fit", "deck.yaml", "--no-plan", "--quiet") == 0
    told = capsys.readouterr().out
    assert "caution: the seats come as near as" in told or "caution: the seats stand at railing AB" in told
    assert "our judgement" in told
    assert "held against" not in told
    code, found = document(monkeypatch, capsys)
    (finding,) = found["layouts"][0]["findings"]
    assert (code, found["layouts"][0]["failed"]) == (0, False)
    assert (finding["code"], finding["key"], finding["line"]) == ("seat-near-railing", "room.edges.AB", 5)
    assert "R312.1" in finding["source"]


def test_strict_makes_it_a_check_that_failed(
    deck: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    write(deck, ", against: [AB], strict: [guards]")
    assert call(monkeypatch, "fit", "deck.yaml", "--no-plan", "--quiet") == 1
    told = capsys.readouterr().out
    assert "failed: 1 check that `wish.strict` asks for in deck.yaml:9" in told
    assert "error: the seats" in told
    code, found = document(monkeypatch, capsys)
    assert (code, found["outcome"], found["layouts"][0]["failed"]) == (1, "proven", True)
    assert found["layouts"][0]["findings"][0]["severity"] == "error"


@pytest.mark.parametrize("command", ["parts", "cuts", "buy"])
def test_every_command_that_builds_on_the_layout_fails_with_its_reason(
    command: str, deck: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    write(deck, ", against: [AB], strict: true")
    plan = () if command == "buy" else ("--no-plan",)
    assert call(monkeypatch, command, "deck.yaml", "--quiet", *plan) == 1
    assert "error: the seats" in capsys.readouterr().out


def test_another_topic_or_a_high_railing_fails_nothing(
    deck: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    write(deck, ", against: [AB], strict: [routes, flames]")
    assert document(monkeypatch, capsys)[0] == 0
    write(deck, ", against: [AB], strict: true", "railings: {AB: 60}")
    code, found = document(monkeypatch, capsys)
    assert (code, found["layouts"][0]["findings"]) == (0, [])


def test_one_layout_that_keeps_them_is_enough(
    deck: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Against the railing first, then against the wall across."""
    write(deck, ", against: [AB, CD], strict: true")
    assert document(monkeypatch, capsys)[0] == 1
    code, found = document(monkeypatch, capsys, "--layouts", "2")
    assert [layout["failed"] for layout in found["layouts"]] == [True, False]
    assert code == 0
    assert call(monkeypatch, "fit", "deck.yaml", "--layouts", "2", "--no-plan", "--quiet") == 0
    told = " ".join(capsys.readouterr().out.split())
    assert "by layout 1; layout 2 keeps them" in told


def test_sources_on_demand(deck: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    write(deck, ", against: [AB]")
    assert call(monkeypatch, "fit", "deck.yaml", "--sources", "--no-plan", "--quiet") == 0
    told = capsys.readouterr().out
    assert "not said in the file" in told
    assert "guard above the floor" in told
    assert max(map(len, told.splitlines())) <= 80
    _, found = document(monkeypatch, capsys)
    rows = {row["key"]: row for row in found["sources"] if row["use"] == "default"}
    assert (rows["wish.legroom"]["value"], rows["wish.legroom"]["known"]) == (18, "common practice")
    assert {"wish.off_wall", "frame.max_span", "frame.seat_height"} <= set(rows)


def test_what_the_file_says_is_no_default(
    deck: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    write(deck, ", against: [AB], legroom: 20, off_wall: 4")
    _, found = document(monkeypatch, capsys)
    keys = [row["key"] for row in found["sources"]]
    assert "wish.legroom" not in keys
    assert "wish.off_wall" not in keys
    assert "room.tolerance" not in keys
    write(deck, ", against: [AB]", "holes: []")
    _, found = document(monkeypatch, capsys)
    assert "room.tolerance" in [row["key"] for row in found["sources"]]
