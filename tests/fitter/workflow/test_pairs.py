"""Two changes together, by hand arithmetic: a bench that has to be bought, and a pot in its place."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from fitter.domain.project import Project
from fitter.domain.why import Cure
from fitter.model import any_layout
from fitter.project import read_project
from fitter.project.rewriting import rewritten
from fitter.workflow.cures.curing import levers
from fitter.workflow.cures.pairs import both, pairs
from fitter.workflow.cures.questions import Questions
from rooms.lengths import ZERO, Unit, parse_length
from rooms.moved import obstacle_moved

YARD = """\
title: Two pots
units: in
room:
  corners: {A: [0, 0], B: [140, 0], C: [140, 60], D: [0, 60]}
  obstacles:
    - {name: pot, at: [60, 0], size: [10, 10]}
    - {name: tub, at: [92, 0], size: [20, 10]}
cushions:
  - {name: long, size: [72, 24, 5], own: 0}
wish: {seats: {least: 1}, shape: straight, against: [AB], off_wall: 2}
"""


@pytest.fixture(scope="module")
def found(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, tuple[Cure, ...]]:
    file = tmp_path_factory.mktemp("yard") / "yard.yaml"
    file.write_text(YARD, encoding="utf-8")
    project = read_project(str(file))
    return file, pairs(project, Questions(project))


def test_a_thing_is_moved_no_farther_than_the_other_change_takes(found: tuple[Path, tuple[Cure, ...]]) -> None:
    """The bench takes 72 + 2 × 1 1/2 in and 1/4 in at the wall and at the pot: the pot goes from 60 to 75 1/2 in.

    As far as it may be moved, it would stand in the tub: what lies between is looked at too.
    """
    _, cures = found
    (moved,) = (cure for cure in cures if "move" in cure.says)
    assert moved.says == "get 1 more of cushion `long` (1 instead of 0), and move `pot` 1' 3 1/2\" toward edge BC"
    assert [(change.key, change.after) for change in moved.changes] == [
        ("cushions.0.own", "1"), ("room.obstacles.0.at", "[6' 3 1/2\", 0\"]")
    ]  # fmt: skip


def test_both_changes_are_needed_and_do(found: tuple[Path, tuple[Cure, ...]]) -> None:
    file, cures = found
    assert len(cures) == 3
    for cure in cures:
        each = {change.key: change.after for change in cure.changes}
        assert any_layout(rewritten(str(file), each)) is not None, cure.says
        for key in each:
            alone = {other: after for other, after in each.items() if other != key}
            assert any_layout(rewritten(str(file), alone)) is None, cure.says


def test_one_mark_less_of_the_second_change_is_not_enough(found: tuple[Path, tuple[Cure, ...]]) -> None:
    file, cures = found
    moved = next(cure for cure in cures if "move" in cure.says)
    project = rewritten(str(file), {change.key: change.after for change in moved.changes})
    pot, tub = project.room.obstacles
    nearer = obstacle_moved(pot, ZERO - project.mark, ZERO)
    assert any_layout(replace(project, room=replace(project.room, obstacles=(nearer, tub)))) is None


BESIDE = """\
units: in
room:
  tolerance: 0
  corners: {A: [0, 0], B: [WIDE, 0], C: [WIDE, 60], D: [0, 60]}
  REST
cushions:
  - {name: long, size: [LONG, 24, 5]OWN}
wish: {seats: {least: 1}, shape: straight, against: [AB], off_wall: 2, legroom: LEGS}
frame: {max_span: 120}
"""
ROUTES = """openings:
    - {name: west, edge: DA, from: 2, width: 34}
    - {name: east, edge: BC, from: 24, width: 34}
  routes:
    - {name: way, from: west, to: east, width: 40}"""
TUBS = """obstacles:
    - {name: tub, at: [168, 10], size: [2, 2], clear: 90}
    - {name: pot, at: [0, 10], size: [2, 2], clear: TWO}"""


def beside(path: Path, rest: str, *, wide: int, long: int, own: str = "", legs: int = 0) -> Project:
    """A deep bench in a shallow yard.

    Args:
        path: folder for the file.
        rest: of the room.
        wide: of the room, inches.
        long: of the one cushion.
        own: how many there are.
        legs: leg room.
    """
    text = BESIDE.replace("REST", rest).replace("WIDE", str(wide)).replace("LONG", str(long)).replace("OWN", own)
    file = path / "beside.yaml"
    file.write_text(text.replace("LEGS", str(legs)), encoding="utf-8")
    return read_project(str(file))


def together(project: Project, one: str, other: str) -> Cure:
    """What two levers do together, checked: what is written fits, and neither half of it does."""
    named = {lever.name: lever for lever in levers(project)}
    cure = both(named[one], named[other], Questions(project))
    assert cure is not None
    each = {change.key: change.after for change in cure.changes}
    assert any_layout(rewritten(project.file, each)) is not None
    assert len(each) == 2
    for key in each:
        assert any_layout(rewritten(project.file, {k: after for k, after in each.items() if k != key})) is None
    return cure


def test_a_cushion_more_and_a_narrower_route(tmp_path: Path) -> None:
    """Of 60 in the bench takes 24 in, its back 2 1/4 in: 33 3/4 in are left for the route."""
    project = beside(tmp_path, ROUTES, wide=140, long=72, own=", own: 0")
    cure = together(project, "more of cushion `long`", "a narrower route `way`")
    assert [change.after for change in cure.changes] == ["1", "2' 9 3/4\""]


@pytest.mark.parametrize("pair", [("tub", "pot"), ("pot", "tub")])
def test_less_clear_ground_around_two_things(tmp_path: Path, pair: tuple[str, str]) -> None:
    """Between the things 166 in are free, and 99 in are for the bench: 67 in are left for both clearances."""
    project = beside(tmp_path, TUBS.replace("TWO", "90"), wide=170, long=96)
    one, other = (f"less clear ground around `{name}`" for name in pair)
    cure = together(project, one, other)
    left = {change.key: parse_length(change.after, Unit.IN) for change in cure.changes}
    assert sum(length.inch for length in left.values()) <= 67


def test_less_leg_room_and_less_clear_ground(tmp_path: Path) -> None:
    """Of 60 in 26 1/4 are for the bench, so that 33 3/4 in are left for legs; the tub is 71 in beyond the bench."""
    project = beside(tmp_path, TUBS.replace("TWO", "0"), wide=170, long=96, legs=48)
    cure = together(project, "less leg room", "less clear ground around `tub`")
    assert [change.key for change in cure.changes] == ["wish.legroom", "room.obstacles.0.clear"]
    assert cure.changes[0].after == "2' 9 3/4\""
