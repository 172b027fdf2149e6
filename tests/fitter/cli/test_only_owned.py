"""`fitter fit` with `--only-owned` and `--buy-at-most`, from the outside."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import pytest

from fitter.cli import main

STOOP = """\
units: in
room:
  sides: {AB: 112, BC: 54, CD: 112, DA: 54}
  turns: {A: left, B: left, C: left, D: left}
cushions:
  - {name: square, size: [24, 24, 5], own: 2, condition: {good: 1, worn: 1}, price: 40}
  - {name: new, size: [24, 24, 4], price: 55}
wish: {shape: straight, against: [AB], seats: LEAST}
"""


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "stoop.yaml").write_text(STOOP.replace("LEAST", "1"), encoding="utf-8")
    return tmp_path


def fit(monkeypatch: pytest.MonkeyPatch, *words: str) -> int:
    monkeypatch.setattr(sys, "argv", ["fitter", "fit", "stoop.yaml", "--no-plan", *words])
    with pytest.raises(SystemExit) as stop:
        main()
    return int(stop.value.code or 0)


@pytest.mark.usefixtures("here")
def test_the_best_of_the_shed_beside_what_buying_brings(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    assert fit(monkeypatch, "--only-owned", "--buy-at-most", "9") == 0
    told = capsys.readouterr().out
    assert "straight, 2 seats" in told
    assert "with no cushion bought, as `--only-owned` asks" in told
    assert "Used although no longer good: 1 worn of square." in told
    assert "note: cushion `new` has no `own`" in told
    rows = [line.split() for line in told.splitlines() if line[:6].strip().isdigit()]
    # A run has one kind: two squares and up to two more; four new ones would cost more.
    assert [(row[0], row[1], row[2]) for row in rows] == [("0", "0", "2"), ("1", "1", "3"), ("2", "2", "4")]
    assert [row[4] for row in rows] == ["0.00", "40.00", "80.00"]
    assert "To buy in the last row: 2 of square." in told
    assert "Proven: buying more, up to 9, brings nothing." in told


@pytest.mark.usefixtures("here")
def test_a_limit_alone_gives_one_layout(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    assert fit(monkeypatch, "--buy-at-most", "1", "--json") == 0
    found = json.loads(capsys.readouterr().out)
    assert found["layouts"][0]["seats"] == 3
    assert found["flags"] == {"wish.buy_at_most": "--buy-at-most 1"}
    assert "buying" not in found


def test_a_shed_with_too_little_tells_what_would_help(
    here: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (here / "stoop.yaml").write_text(STOOP.replace("LEAST", "4"), encoding="utf-8")
    assert fit(monkeypatch, "--only-owned", "--buy-at-most", "3") == 1
    told = capsys.readouterr().out
    assert "no cushion is to be bought" in told
    assert "`--only-owned`" in told
    rows = [line.split()[:3] for line in told.splitlines() if line[:6].strip().isdigit()]
    assert rows == [["0", "no", "layout"], ["1", "no", "layout"], ["2", "2", "4"]]


@pytest.mark.parametrize("number", ["-1", "two", "1001", "1.5", "²"])
def test_a_number_that_is_none(monkeypatch: pytest.MonkeyPatch, number: str) -> None:
    assert fit(monkeypatch, "--buy-at-most", number) == 2


def told(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], *words: str) -> dict[str, object]:
    """The document of a command, without what tells the flags and their notes."""
    monkeypatch.setattr(sys, "argv", ["fitter", *words, "--json"])
    with pytest.raises(SystemExit) as stop:
        main()
    assert stop.value.code in (0, None)
    found: dict[str, object] = json.loads(capsys.readouterr().out)
    return {key: value for key, value in found.items() if key not in ("file", "flags", "findings", "title")}


@pytest.mark.parametrize("command", ["parts", "cuts", "buy", "variants"])
@pytest.mark.parametrize(
    ("flags", "wish"),
    [(("--only-owned",), "buy_at_most: 0"), (("--buy-at-most", "1", "--fill", "ease"), "buy_at_most: 1, fill: ease")],
)
def test_what_is_built_and_bought_follows_the_same_flags(
    here: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    command: str,
    flags: tuple[str, ...],
    wish: str,
) -> None:
    """A flag says no more than the file might; without it the answer is another."""
    text = (here / "stoop.yaml").read_text(encoding="utf-8")
    (here / "said.yaml").write_text(text.replace("against:", f"{wish}, against:"), encoding="utf-8")
    by_flag = told(monkeypatch, capsys, command, "stoop.yaml", *flags)
    by_file = told(monkeypatch, capsys, command, "said.yaml")
    assert by_flag == by_file
    assert by_flag != told(monkeypatch, capsys, command, "stoop.yaml")


@pytest.mark.usefixtures("here")
def test_only_a_fit_tells_what_each_one_bought_would_bring(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "argv", ["fitter", "parts", "stoop.yaml", "--only-owned", "--buy-at-most", "2"])
    with pytest.raises(SystemExit) as stop:
        main()
    assert stop.value.code == 2
    assert "--only-owned" in capsys.readouterr().err


def test_a_list_of_parts_has_no_cushions(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.setattr(sys, "argv", ["fitter", "cuts", "parts.csv", "--boards", "boards.csv", "--only-owned"])
    with pytest.raises(SystemExit) as stop:
        main()
    assert stop.value.code == 2
    assert "--only-owned" in capsys.readouterr().err
