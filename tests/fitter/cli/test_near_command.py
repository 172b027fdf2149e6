"""What one more seat would cost, as `fitter fit` tells it after its answer."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from fitter.cli import main
from fitter.domain.findings import Finding, Severity
from fitter.domain.near import NextSeat
from fitter.model import TimeUp
from fitter.workflow import nearing
from fitter.workflow.cures.near import near_misses
from fitter.workflow.cures.questions import CheckError

STOOP = """\
units: in
room:
  corners: {A: [0, 0], B: [112, 0], C: [112, 60], D: [0, 60]}
  edges: {AB: wall, BC: wall, CD: open, DA: wall}
cushions:
  - {name: square, size: [24, 24, 5], own: 3}
wish: {shape: straight, against: [AB], seats: {least: 2 MOST}}
"""
Told = tuple[int, str, str]
Call = Callable[..., Told]


@pytest.fixture
def call(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Call:
    monkeypatch.chdir(tmp_path)

    def fit(*words: str, most: str = "") -> Told:
        (tmp_path / "stoop.yaml").write_text(STOOP.replace(" MOST", most), encoding="utf-8")
        monkeypatch.setattr(sys, "argv", ["fitter", "fit", "stoop.yaml", "--no-plan", *words])
        with pytest.raises(SystemExit) as stop:
            main()
        told = capsys.readouterr()
        return int(stop.value.code or 0), told.out, told.err

    return fit


def last(text: str) -> str:
    """What is told after the answer, in one line."""
    return " ".join(text.partition("before sawing.")[2].split())


def test_the_next_seat_is_told_after_the_answer(call: Call) -> None:
    code, out, _ = call()
    assert code == 0
    assert max(map(len, out.splitlines())) <= 80
    assert last(out).startswith(
        "One more seat (4 in all) would fit with this one change: "
        "1. get 1 more of cushion `square` (4 instead of 3) stoop.yaml:6 It was solved and checked; "
        "a smaller change is not enough. Tried alone, these bring no seat: less leg room (down "
    )
    assert "`--near all` also tries longer rail spans and moved edges of the room." in last(out)


def test_it_is_left_out_where_it_is_not_asked_for_or_enough_is_wanted(call: Call) -> None:
    assert last(call("--near", "no")[1]) == ""
    assert last(call(most=", most: 3")[1]) == ""
    document = json.loads(call("--json", most=", most: 3")[1])
    assert (document["near"], document["next_seat"]) == ([], None)


def test_edges_are_tried_where_all_is_asked_for(call: Call) -> None:
    _, out, _ = call("--near", "all")
    assert "1. get 1 more of cushion `square`" in last(out)
    assert "longer spans" in last(out)
    assert "edges AB, BC, CD and DA farther out (by up to 2' 0\")" in last(out)
    assert "`--near all`" not in last(out)


def test_the_document_says_what_to_write_into_the_file(call: Call) -> None:
    document = json.loads(call("--json")[1])
    (miss,) = document["near"]
    assert miss["changes"] == [{"key": "cushions.0.own", "line": 6, "from": "3", "to": "4"}]
    assert (miss["seats"], miss["ease"], miss["smallest"], miss["caution"]) == (4, "cushions", True, None)
    assert document["next_seat"]["sought"] == "all looked for"
    assert document["next_seat"]["helpless"] == [
        "less leg room (down to 1' 0\")",
        "standing farther off the edge (up to 5' 0\")",
    ]


def cut(kept: bool, failure: BaseException) -> Callable[..., NextSeat | None]:
    """A search that comes to an end by itself, with the first near miss told or not."""

    def work(*args: Any, **hears: Any) -> NextSeat | None:
        found = near_misses(*args)
        assert found is not None
        if kept:
            hears["kept"](found.misses[0])
        raise failure

    return work


@pytest.mark.parametrize("kept", [True, False])
def test_a_limit_meanwhile_keeps_the_answer(call: Call, monkeypatch: pytest.MonkeyPatch, kept: bool) -> None:
    monkeypatch.setattr(nearing, "near_misses", cut(kept, TimeUp()))
    code, out, _ = call("--time", "60")
    assert code == 0
    assert ("1. get 1 more" in last(out)) is kept
    assert "Time ran out, before all changes were tried that may bring one more seat (4 in all)." in last(out)
    document = json.loads(call("--json", "--time", "60")[1])
    assert document["outcome"] == "proven"
    assert len(document["near"]) == int(kept)
    assert document["next_seat"]["sought"] == "not all looked for"


def test_an_interruption_meanwhile_keeps_the_answer(call: Call, monkeypatch: pytest.MonkeyPatch) -> None:
    def stopped(work: object, hear: Callable[[str, object], None], *_: object) -> tuple[bool, bool]:
        hear("trying", "less leg room")
        return False, True

    monkeypatch.setattr(nearing, "done_apart", stopped)
    code, out, _ = call()
    assert code == 0
    assert last(out) == "Stopped by you, before all changes were tried that may bring one more seat (4 in all)."


def test_a_layout_that_the_checker_refuses_is_our_mistake(call: Call, monkeypatch: pytest.MonkeyPatch) -> None:
    wrong = Finding("overlap", "two cushions lie on each other", severity=Severity.ERROR)
    monkeypatch.setattr(nearing, "near_misses", cut(False, CheckError((wrong,))))
    code, out, err = call()
    assert code == 70
    assert last(out) == ""
    assert "two cushions lie on each other" in err


def test_a_child_that_fails_is_told_as_our_mistake(call: Call, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(nearing, "near_misses", cut(False, ValueError("no such thing")))
    code, out, err = call()
    assert code == 70
    assert "straight, 3 seats" in out
    assert "a mistake of ours" in err
