"""Cautions for what a file may say, but hardly means: another unit, or sides that do not close."""

from __future__ import annotations

from pathlib import Path

import pytest

from fitter.domain.findings import Finding, Severity
from fitter.project import read_project, read_room

EXAMPLES = sorted((Path(__file__).parents[3] / "examples").glob("*.yaml"))
TEXT = """units: {unit}
room:
  corners: {{A: [0, 0], B: [20', 0], C: [20', 12'], D: [0, 12']}}
  openings:
    - {{name: door, edge: AB, from: 1', width: {door}}}
    - {{name: gate, edge: CD, from: 1', width: 4'}}
  routes:
    - {{name: way, from: door, to: gate, width: {route}}}
cushions:
  - {{name: seat, size: [{wide}, {deep}, 4 in]}}
wish: {{legroom: {legroom}}}
"""
TAPED = """units: in
room:
  sides: {{AB: 16' 2", BC: 9' 1", CD: 6' 10", DE: 5' 6", EF: {ef}, FA: 14' 7"}}
  turns: {{A: left, B: left, C: left, D: right, E: left, F: left}}
cushions:
  - {{name: seat, size: [24, 24, 4]}}
"""
INCHES = {"door": "32 in", "route": "32 in", "wide": "16 in", "deep": "16 in", "legroom": "12 in"}
MILLIMETRES = {"door": "900 mm", "route": "900 mm", "wide": "400 mm", "deep": "400 mm", "legroom": "300 mm"}


def found(unit: str, sizes: dict[str, str]) -> tuple[Finding, ...]:
    return read_project("yard.yaml", TEXT.format(unit=unit, **sizes)).findings


@pytest.mark.parametrize(("unit", "sizes"), [("in", INCHES), ("ft", INCHES), ("mm", MILLIMETRES), ("m", MILLIMETRES)])
def test_the_least_usual_sizes_pass(unit: str, sizes: dict[str, str]) -> None:
    assert found(unit, sizes) == ()


@pytest.mark.parametrize(
    ("unit", "name", "size", "key", "usual"),
    [
        ("in", "wide", "15 63/64 in", "cushions.0.size", "1' 4\""),
        ("in", "deep", "15 63/64 in", "cushions.0.size", "1' 4\""),
        ("in", "legroom", "11 63/64 in", "wish.legroom", "1' 0\""),
        ("in", "door", "19 63/64 in", "room.openings.0.width", "1' 8\""),
        ("in", "route", "19 63/64 in", "room.routes.0.width", "1' 8\""),
        ("mm", "wide", "399 mm", "cushions.0.size", "400 mm"),
        ("mm", "deep", "399 mm", "cushions.0.size", "400 mm"),
        ("cm", "legroom", "299 mm", "wish.legroom", "300 mm"),
        ("cm", "door", "499 mm", "room.openings.0.width", "500 mm"),
        ("cm", "route", "499 mm", "room.routes.0.width", "500 mm"),
    ],
)
def test_a_mark_less_is_asked_about(unit: str, name: str, size: str, key: str, usual: str) -> None:
    """At its line, with the unit of bare numbers named."""
    usually = INCHES if unit == "in" else MILLIMETRES
    (finding,) = found(unit, {**usually, name: size})
    assert (finding.code, finding.severity, finding.key) == ("size-small", Severity.CAUTION, key)
    assert f"less than {usual} is unusual" in finding.message
    assert "is the unit right?" in finding.help
    assert f"`{unit}`" in finding.help
    assert finding.place is not None
    assert finding.source == "common practice"


def test_inches_written_in_a_file_in_centimetres() -> None:
    """24 x 24 cushions, 18 of leg room and a gate of 36: each lands above what is refused, none is likely."""
    sizes = {"door": "36", "route": "36", "wide": "24", "deep": "24", "legroom": "18"}
    assert [finding.code for finding in found("cm", sizes)] == ["size-small"] * 4


def test_no_leg_room_at_all_is_a_wish() -> None:
    assert found("in", {**INCHES, "legroom": "0"}) == ()


@pytest.mark.parametrize(
    ("ef", "missed", "ratio", "tie"),
    [("9' 9\"", '5"', 149, "BF; "), ("9' 7 5/8\"", '3 5/8"', 205, "CF (2 more fix every corner)")],
)
def test_sides_that_miss_closing_are_cautioned(ef: str, missed: str, ratio: int, tie: str) -> None:
    """194 - 82 - 117 = -5: by 5 in of about 743; by 3 5/8 in of about 741 5/8. Six sides explain sqrt(6) / 4 in.

    Where readings stand out, the line is told that `fitter measure` tells them apart by.
    """
    text = TAPED.format(ef=ef)
    (caution,) = read_project("yard.yaml", text).findings
    assert (caution.code, caution.severity, caution.key) == ("misses-closing", Severity.CAUTION, "room.sides")
    assert f'miss closing by {missed}, 1 in {ratio}, and the tape explains 5/8"' in caution.message
    assert "the room is bent to fit, corner A by" in caution.message
    assert f"tape a diagonal such as {tie}" in caution.help
    assert caution.place is not None
    assert caution.place.line == 3
    assert read_room("yard.yaml", text).findings == (caution,)


def test_sides_that_close_as_well_as_the_tape_are_not() -> None:
    assert read_project("yard.yaml", TAPED.format(ef="9' 4 5/8\"")).findings == ()
    assert len(read_project("yard.yaml", TAPED.format(ef="9' 4 3/4\"")).findings) == 1


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_no_example_is_unlikely(path: Path) -> None:
    codes = [finding.code for finding in read_project(str(path)).findings]
    assert "misses-closing" not in codes
    assert "size-small" not in codes
