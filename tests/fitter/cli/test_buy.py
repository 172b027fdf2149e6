"""`fitter buy` as a user calls it: exit codes, streams, files."""

from __future__ import annotations

import csv
import json
from pathlib import Path

from buyers import TEXT
from calling import call, folder

YARD = TEXT.format(ends="armed", panel="mitred", joint="screws", shop="")


def test_list_is_written_filled_and_read_again(tmp_path: Path) -> None:
    with folder(tmp_path / "here") as here:
        (here / "nook.yaml").write_text(YARD, encoding="utf-8")
        first = call("fitter buy nook.yaml --csv list.csv")
        assert (first.code, first.stderr) == (0, "wrote list.csv\n")
        rows = list(csv.reader((here / "list.csv").read_text(encoding="utf-8").splitlines()))
        price = rows[0].index("price")
        assert [row for row in rows if not row[price]]
        text = "\n".join(",".join(_quoted([*row[:price], row[price] or "2", *row[price + 1 :]])) for row in rows)
        (here / "list.csv").write_text(text + "\n", encoding="utf-8")
        document = json.loads(call("fitter buy nook.yaml --prices list.csv --json").stdout)
        assert {item["item"] for item in document["items"] if item["cost"] is None} == {
            item["item"] for item in document["items"] if item["buy"] is None
        }
        again = call("fitter buy nook.yaml --csv list.csv")
        assert (again.code, again.stdout) == (2, "")
        assert "`list.csv` is there already" in again.stderr
        assert call("fitter buy nook.yaml --csv list.csv --force").code == 0


def _quoted(row: list[str]) -> list[str]:
    return ['"' + value.replace('"', '""') + '"' for value in row]


def test_prices_lie_beside_the_project_file(tmp_path: Path) -> None:
    with folder(tmp_path / "here") as here:
        (here / "yard").mkdir()
        (here / "yard" / "nook.yaml").write_text(YARD + "  prices: p.csv\n", encoding="utf-8")
        lacking = call("fitter buy yard/nook.yaml")
        assert lacking.code == 2
        assert "file-missing" in lacking.stderr
        (here / "yard" / "p.csv").write_text("item,price\nsafety glasses,9\n", encoding="utf-8")
        document = json.loads(call("fitter buy yard/nook.yaml --json").stdout)
    (glasses,) = [item for item in document["items"] if item["item"] == "safety glasses"]
    assert glasses["cost"] == [9, 9]


def test_a_file_that_is_there_already_is_refused_before_the_search(tmp_path: Path) -> None:
    with folder(tmp_path / "here") as here:
        (here / "nook.yaml").write_text(YARD, encoding="utf-8")
        told = call("fitter buy nook.yaml --csv nook.yaml --json")
        assert (here / "nook.yaml").read_text(encoding="utf-8") == YARD
    document = json.loads(told.stdout)
    assert (told.code, document["outcome"], document["errors"][0]["code"]) == (2, "invalid", "file-exists")


def test_what_the_file_gave_rise_to_is_told_before_anything_is_bought(tmp_path: Path) -> None:
    with folder(tmp_path / "here") as here:
        (here / "nook.yaml").write_text(YARD.replace('legroom: 12"', 'legroom: 11"'), encoding="utf-8")
        told = call("fitter buy nook.yaml")
    assert told.code == 0
    assert 'caution: `legroom` is 11"; less than 1\' 0" is unusual' in told.stdout


def test_impossible_layout_has_nothing_to_buy(tmp_path: Path) -> None:
    with folder(tmp_path / "here"):
        told = call("fitter buy examples/landing.yaml")
        document = json.loads(call("fitter buy examples/landing.yaml --json").stdout)
    assert told.code == 1
    assert told.stdout.count("impossible") >= 1
    assert (document["outcome"], document["items"]) == ("impossible", [])


def test_flags_that_make_no_sense_are_refused() -> None:
    for flags in ("--layout 0", "--denominator 7", "--time 0", "--layout 21"):
        assert call(f"fitter buy nook.yaml {flags}").code == 2
