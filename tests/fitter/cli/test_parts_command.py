"""`fitter parts` as a user calls it: exit codes, streams, which layout."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest
from calling import call, folder

from fitter.domain.findings import Finding, Severity
from fitter.domain.layout import Layout
from fitter.domain.project import Project
from fitter.domain.woodwork import Woodwork
from fitter.frame import build_frame
from fitter.workflow import framing


def test_parts_are_printed_with_their_proof(tmp_path: Path) -> None:
    with folder(tmp_path / "here") as here:
        told = call("fitter parts examples/garden-wall.yaml --no-plan")
        assert [path.name for path in here.iterdir()] == ["examples"]
    assert (told.code, told.stderr) == (0, "")
    for words in (
        "main: parts to cut",
        "holes to bore",
        "how slats are spread",
        "joints",
        "what it takes",
        "Proven of",
    ):
        assert words in told.stdout
    assert max(map(len, told.stdout.splitlines())) <= 80


def test_document_alone_draws_nothing(tmp_path: Path) -> None:
    with folder(tmp_path / "here") as here:
        told = call("fitter parts examples/garden-wall.yaml --json")
        assert [path.name for path in here.iterdir()] == ["examples"]
    document = json.loads(told.stdout)
    assert (told.code, document["outcome"], document["schema"], document["units"]) == (0, "proven", 1, "in")
    assert document["proof"]["passed"]
    assert document["proof"]["solids"] == len(document["solids"]) == sum(part["count"] for part in document["parts"])


def test_layout_of_another_rank_is_framed(tmp_path: Path) -> None:
    with folder(tmp_path / "here"):
        first = json.loads(call("fitter parts examples/garden-wall.yaml --json").stdout)
        other = json.loads(call("fitter parts examples/garden-wall.yaml --json --layout 2").stdout)
    assert [document["layouts"][0]["rank"] for document in (first, other)] == [1, 2]
    assert other["layouts"][0]["differs"]
    assert first["parts"] != other["parts"]


def test_impossible_layout_has_no_parts(tmp_path: Path) -> None:
    with folder(tmp_path / "here") as here:
        told = call("fitter parts examples/landing.yaml")
        assert [path.name for path in here.iterdir()] == ["examples"]
        document = call("fitter parts examples/landing.yaml --json")
    assert told.code == document.code == 1
    assert "Cannot be had" in told.stdout
    answer = json.loads(document.stdout)
    assert (answer["outcome"], answer["parts"], answer["solids"]) == ("impossible", [], [])
    assert answer["why"]["clash"]


def test_wrong_rank_is_a_wrong_call(tmp_path: Path) -> None:
    with folder(tmp_path / "here"):
        told = call("fitter parts examples/garden-wall.yaml --layout 0")
    assert told.code == 2
    assert "not a whole number from 1 to" in told.stderr


def test_frame_that_fails_its_proof_is_told_as_our_mistake(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    wrong = Finding("overlap", "M-P1 and M-FR1 overlap")
    monkeypatch.setattr(framing, "check_woodwork", lambda project, layout, woodwork: (wrong,))
    with folder(tmp_path / "here") as here:
        told = call("fitter parts examples/garden-wall.yaml")
        document = call("fitter parts examples/garden-wall.yaml --json")
        assert [path.name for path in here.iterdir()] == ["examples"]
    assert told.code == document.code == 70
    assert told.stdout == ""
    assert "overlap: M-P1 and M-FR1 overlap" in told.stderr
    assert "title:" in told.stderr
    assert json.loads(document.stdout)["outcome"] == "fault"


def test_error_in_the_frame_is_a_check_that_failed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def narrow(project: Project, layout: Layout) -> Woodwork:
        stuck = Finding("way-too-narrow", "piece 1 does not pass", severity=Severity.ERROR)
        return replace(build_frame(project, layout), findings=(stuck,))

    monkeypatch.setattr(framing, "build_frame", narrow)
    with folder(tmp_path / "here"):
        told = call("fitter parts examples/garden-wall.yaml --no-plan")
    assert told.code == 1
    assert "error: piece 1 does not pass" in told.stdout
