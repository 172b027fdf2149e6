"""`fitter variants` as a user calls it: exit codes, streams, files."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from calling import call, folder
from reader_plans import BENCH

from fitter.domain.findings import Finding
from fitter.workflow import framing


@pytest.fixture
def here(tmp_path: Path) -> Path:
    (tmp_path / "bench.yaml").write_text(BENCH.format(count=1, own="", have=""), encoding="utf-8")
    return tmp_path


def test_variants_are_printed_and_nothing_is_drawn_unasked(here: Path) -> None:
    with folder(here / "in", case=None):
        told = call(f"fitter variants {here}/bench.yaml")
    assert (told.code, told.stderr) == (0, "")
    assert told.stdout.startswith("Bench\nInvented demo data\nproven: 3 variants")
    assert max(map(len, told.stdout.splitlines())) <= 80
    assert [path.name for path in here.iterdir() if path.suffix] == ["bench.yaml"]


def test_the_page_is_drawn_where_it_is_asked_for(here: Path) -> None:
    with folder(here / "in"):
        told = call(f"fitter variants {here}/bench.yaml --json --out pages")
        names = sorted(path.name for path in Path("pages").iterdir())
    assert (told.code, json.loads(told.stdout)["outcome"]) == (0, "proven")
    assert names == ["bench-variants.pdf", "bench-variants.png", "bench-variants.svg"]
    assert [line.split("/")[-1] for line in told.stderr.splitlines()] == [
        "bench-variants.pdf",
        "bench-variants.svg",
        "bench-variants.png",
    ]


def test_a_room_that_holds_nothing_has_no_variants(tmp_path: Path) -> None:
    with folder(tmp_path / "in"):
        told = call("fitter variants examples/landing.yaml --out pages")
        document = call("fitter variants examples/landing.yaml --json")
        assert not Path("pages").exists()
    assert (told.code, document.code, json.loads(document.stdout)["outcome"]) == (1, 1, "impossible")
    assert "impossible: proven that no layout fits" in told.stdout


def test_a_file_that_is_wrong_is_refused(here: Path) -> None:
    bad = here / "bad.yaml"
    bad.write_text(BENCH.format(count=1, own="", have="").replace("ease:", "eese:"), encoding="utf-8")
    with folder(here / "in"):
        told = call(f"fitter variants {bad}")
        missing = call("fitter variants none.yaml --json")
        flag = call(f"fitter variants {here}/bench.yaml --time 0")
    assert (told.code, told.stdout) == (2, "")
    assert "`eese`" in told.stderr
    assert (missing.code, json.loads(missing.stdout)["errors"][0]["code"]) == (2, "file-missing")
    assert flag.code == 2
    assert "is not a number of seconds above zero" in flag.stderr


def test_a_frame_that_its_proof_refuses_is_never_shown(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(framing, "check_woodwork", lambda *_: (Finding("slat-hangs", "a slat bears on nothing"),))
    with folder(here / "in"):
        told = call(f"fitter variants {here}/bench.yaml --out pages")
        assert not Path("pages").exists()
    assert (told.code, told.stdout) == (70, "")
    assert "variant 0: slat-hangs: a slat bears on nothing" in told.stderr


def test_time_that_runs_out_is_told(here: Path) -> None:
    with folder(here / "in"):
        told = call(f"fitter variants {here}/bench.yaml --time 0.0001")
    assert told.code == 3
