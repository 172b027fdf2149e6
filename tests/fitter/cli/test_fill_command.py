"""`fitter fit --fill` and `fitter parts --fill` as a user calls them."""

from __future__ import annotations

import json
import re

from calling import call


def test_the_flag_beats_the_file() -> None:
    """The example fills its strip of 10 1/2 in with a shelf, unless the command line says otherwise."""
    shelf = json.loads(call("fitter fit examples/bay-seat.yaml --json").stdout)["layouts"][0]
    (fill,) = shelf["fills"]
    assert (fill["kind"], fill["hand"], fill["width"], fill["stopped_by"]) == ("shelf", "left", 10.5, "edge:BC")
    assert fill["outline"] in shelf["footprint"]
    bare = json.loads(call("fitter fit examples/bay-seat.yaml --json --fill none").stdout)["layouts"][0]
    assert "fills" not in bare
    assert len(bare["footprint"]) == len(shelf["footprint"]) - 1


def test_tables_tell_width_depth_and_what_stops_it() -> None:
    told = call("fitter fit examples/bay-seat.yaml --no-plan --fill arm")
    assert (told.code, told.stderr) == (0, "")
    assert "ends, wide arms and feet come on top" in " ".join(told.stdout.split())
    (row,) = (line for line in told.stdout.splitlines() if line.startswith("left end"))
    assert re.split("  +", row) == ["left end", "wide arm", '10 1/2"', '26 1/2"', "edge BC"]


def test_parts_of_a_shelf_are_listed_and_proven() -> None:
    told = call("fitter parts examples/bay-seat.yaml --no-plan")
    assert told.code == 0
    for words in ("shelf leg", "shelf rail", "shelf slat", "Proven of"):
        assert words in told.stdout
    assert max(map(len, told.stdout.splitlines())) <= 80


def test_unknown_filling_is_a_wrong_call() -> None:
    told = call("fitter fit examples/bay-seat.yaml --fill shelve")
    assert told.code == 2
    assert "'shelve' is not one of" in told.stderr
