"""`fitter corners` as it is called."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from calling import EXAMPLES, call, folder


def test_a_straight_run_has_no_corners_to_compare(tmp_path: Path) -> None:
    with folder(tmp_path / "here"):
        told = call("fitter corners examples/garden-wall.yaml")
        assert told.code == 1
        assert "straight" in told.stdout
        told = call("fitter corners examples/garden-wall.yaml --json")
    document = json.loads(told.stdout)
    assert (told.code, document["outcome"], document["treatments"]) == (1, "impossible", [])
    assert document["why"]["clash"][0]["key"] == "wish.shape"


@pytest.mark.parametrize("flags", ["--denominator 7", "--time -1", "--sheet A9"])
def test_a_wrong_flag_is_refused(flags: str, tmp_path: Path) -> None:
    with folder(tmp_path / "here"):
        assert call(f"fitter corners examples/garden-wall.yaml {flags}").code == 2


def test_the_document_and_the_page_of_a_small_room(tmp_path: Path) -> None:
    """One L, all treatments: the keys that a reader of documents counts on, and the files that are drawn."""
    text = (EXAMPLES / "landing.yaml").read_text(encoding="utf-8").replace("shape: straight", "shape: L")
    assert "shape: L" in text
    with folder(tmp_path / "here") as here:
        (here / "small.yaml").write_text(text, encoding="utf-8")
        told = call("fitter corners small.yaml --json --out drawn")
        drawn = sorted(path.name for path in (here / "drawn").iterdir())
    document, code = json.loads(told.stdout), told.code
    assert (code, document["outcome"], document["units"]) == (0, "proven", "in")
    rows = document["treatments"]
    assert [row["corner"] for row in rows] == [
        "inside post",
        "outside post",
        "angle post",
        "low post",
        "spread",
        "table corner",
    ]
    for row in rows:
        assert {"corner", "outcome", "seats", "notch", "footprint", "cost", "reversible"} <= set(row)
        if row["seats"] is not None:
            assert row["reversible"] is (row["layout"]["corners"][0]["notch"] is None)
            assert row["cost"] == pytest.approx(row["boards"] + row["cushions"])
    assert drawn == ["small-corners.pdf", "small-corners.png", "small-corners.svg"]
