"""Random impossible projects, explained: every clash and every cure put to the second model and to the checker."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest
from explained import check_clash, check_cures, check_steps, disjoint, explained
from impossible_projects import WAYS, impossible_project, written

FEW = (12, 124, 125, 130, 136)
MANY = [seed for seed in range(100, 325) if seed not in FEW]


def check_explanation(seed: int, folder: Path) -> None:
    """All that is told of one project holds."""
    _, data = impossible_project(seed)
    path = folder / "misfit.yaml"
    path.write_text(written(data), encoding="utf-8")
    project, why = explained(str(path))
    for clash in why.clashes:
        check_clash(project, clash)
        check_steps(project, clash)
    assert disjoint(why)
    # One clash is told where one change lifts them all, and then there is one.
    assert len(why.clashes) == 1 or not any(len(cure.changes) == 1 for cure in why.cures)
    check_cures(project, why)


@pytest.mark.parametrize("seed", FEW)
def test_what_is_told_holds(seed: int, tmp_path: Path) -> None:
    check_explanation(seed, tmp_path)


@pytest.mark.sweep
@pytest.mark.parametrize("seed", MANY)
def test_what_is_told_holds_of_many(seed: int, tmp_path: Path) -> None:
    check_explanation(seed, tmp_path)


@pytest.mark.sweep
def test_random_projects_break_in_every_way() -> None:
    """The wide sample has rooms of every form, and misfits of every kind, each many times."""
    found = [impossible_project(seed) for seed in MANY]
    ways = Counter(way for way, _ in found)
    assert set(ways) == set(WAYS)
    assert min(ways.values()) >= 8
    rooms = [data["room"] for _, data in found]
    assert min(Counter("corners" in room for room in rooms).values()) > 40
    assert {"obstacles" in room for room in rooms} == {"routes" in room for room in rooms} == {True, False}
    assert {len(room.get("corners", room.get("sides"))) for room in rooms} == {4, 5, 6}
