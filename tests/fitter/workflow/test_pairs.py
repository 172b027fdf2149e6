"""Two changes together, by hand arithmetic: a bench that has to be bought, and a pot in its place."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from fitter.domain.why import Cure
from fitter.model import any_layout
from fitter.project import read_project
from fitter.project.rewriting import rewritten
from fitter.workflow.cures.pairs import pairs
from fitter.workflow.cures.questions import Questions
from rooms.lengths import ZERO
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
