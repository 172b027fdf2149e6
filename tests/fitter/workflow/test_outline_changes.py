"""A moved outline as its file says it: the file with the changes has the moved room, to a mark."""

from __future__ import annotations

import json
from collections.abc import Mapping
from math import hypot
from pathlib import Path
from typing import Any

import pytest
from impossible_projects import small_file, written

from fitter.domain.findings import ProjectError, Severity
from fitter.domain.project import Project
from fitter.domain.why import Change
from fitter.project import read_project
from fitter.project.rewriting import rewritten
from fitter.workflow.cures.outlines import outline_changes
from rooms.lengths import Length
from rooms.moved import edge_moved
from rooms.room import Point, Room

BARE = {
    "units": "in",
    "cushions": [{"name": "seat", "size": ["24", "24", "5"], "price": "50"}],
    "wish": {"seats": {"least": "2"}},
}


def project_of(room: Mapping[str, Any], folder: Path) -> Project:
    path = folder / "room.yaml"
    path.write_text(json.dumps({**BARE, "room": room}), encoding="utf-8")
    return read_project(str(path))


def moved(project: Project, edge: str, by: Length) -> Room:
    found = edge_moved(project.room, edge, by)
    assert found is not None
    return found


def told(project: Project, edge: str, by: str) -> dict[str, tuple[str, str]]:
    """What changes, by key."""
    changes = outline_changes(project, moved(project, edge, Length.inches(by)))
    return {change.key: (change.before, change.after) for change in changes}


def apart(a: Point, b: Point) -> float:
    return hypot((a.x - b.x).units, (a.y - b.y).units)


def check_written(project: Project, room: Room, changes: tuple[Change, ...], marks: float) -> None:
    """The file with the changes reads without mistakes, and has that room, its first corner being where it was."""
    again = read_again(project, changes)
    if again is None:
        # Sides and one tie too few may be those of another shape as well: then no file says it, and nothing is told.
        assert "ties" in data_of(project)
        return
    near = marks * project.mark.units + 8
    # A taped room begins at its first corner, wherever that is.
    shift = (0, 0)
    if "room.corners" not in project.places:
        first = room.corners[0][1]
        shift = first.x.units, first.y.units

    def there(point: Point) -> Point:
        return Point(Length(point.x.units - shift[0]), Length(point.y.units - shift[1]))

    for (name, meant), (same, corner) in zip(room.corners, again.corners, strict=True):
        assert name == same
        assert apart(there(meant), corner) <= near, name
    for thing, found in zip(room.obstacles, again.obstacles, strict=True):
        assert all(apart(there(p), q) <= near for p, q in zip(thing.core, found.core, strict=True))
        assert (thing.radius, thing.clear, thing.height) == (found.radius, found.clear, found.height)
    for door in room.openings:
        assert again.opening(door.name).swing is door.swing
        assert abs((again.opening(door.name).width - door.width).units) <= near
        for p, q in zip(room.jambs(door), again.jambs(again.opening(door.name)), strict=True):
            assert apart(there(p), q) <= 2 * near
    assert [(edge.name, edge.kind, edge.forward) for edge in again.edges] == [
        (edge.name, edge.kind, edge.forward) for edge in room.edges
    ]


def read_again(project: Project, changes: tuple[Change, ...]) -> Room | None:
    """The room of the file with the changes; None where its readings would fit two outlines."""
    try:
        return rewritten(project.file, {change.key: change.after for change in changes}).room
    except ProjectError as error:
        if {f.code for f in error.findings if f.severity is Severity.ERROR} == {"two-outlines"}:
            return None
        raise


def data_of(project: Project) -> dict[str, Any]:
    """What the file has of its room."""
    room: dict[str, Any] = json.loads(Path(project.file).read_text(encoding="utf-8"))["room"]
    return room


def check_file(seed: int, folder: Path) -> int:
    """Every edge of a random file, by several distances; how many could be moved."""
    data = small_file(seed)
    path = folder / "small.yaml"
    path.write_text(written(data), encoding="utf-8")
    project, count = read_project(str(path)), 0
    square = all(e.start.x == e.end.x or e.start.y == e.end.y for e in project.room.edges)
    for n, edge in enumerate(project.room.edges):
        by = project.mark * (1, 3, 40, 200, 7)[(seed + n) % 5]
        room = edge_moved(project.room, edge.name, by)
        if room is not None:
            # Sides and ties that are rounded to the mark one by one fix a skew corner to some marks.
            check_written(project, room, outline_changes(project, room), 0 if square else 4)
            count += 1
    return count


def test_random_files(tmp_path: Path) -> None:
    """Corners or sides with turns or ties, both directions, edges named from either end, things and doors."""
    assert sum(check_file(seed, tmp_path) for seed in range(9)) > 25


@pytest.mark.sweep
@pytest.mark.parametrize("seed", range(9, 240))
def test_many_random_files(seed: int, tmp_path: Path) -> None:
    check_file(seed, tmp_path)


TAPED = {
    "sides": {"AB": "100", "CB": "80 1/8", "CD": "100", "DA": "80"},
    "turns": {"A": "left", "B": "left", "C": "left", "D": "left"},
    "ties": {"AC": "128 1/16", "D-B": "128 1/8"},
    "openings": [
        {"name": "gate", "edge": "BA", "from": "10", "width": "30"},
        {"name": "door", "edge": "BC", "from": "12", "width": "30"},
    ],
    "obstacles": [{"name": "tub", "at": ["40", "50"], "size": ["10", "10"]}],
    "holes": [{"name": "well", "centre": ["70", "30"], "radius": "5"}],
}


def test_readings_change_by_as_much_as_the_room(tmp_path: Path) -> None:
    """What was taped stays the base, also where the readings do not quite close; sides may be named from either end."""
    project = project_of(TAPED, tmp_path)
    changes = told(project, "CD", "3")
    assert changes["room.sides.CB"] == ("6' 8 1/8\"", "6' 11 1/8\"")
    assert changes["room.sides.DA"] == ("6' 8\"", "6' 11\"")
    assert {key for key in changes if key.startswith("room.ties")} == {"room.ties.AC", "room.ties.D-B"}
    assert "room.sides.AB" not in changes
    assert "room.sides.CD" not in changes
    assert not [key for key in changes if "openings" in key or "obstacles" in key or "holes" in key]


def test_what_is_counted_from_a_corner_that_moved(tmp_path: Path) -> None:
    """The first corner moves away from things and doors, which stay; a door counted from the other end is not told."""
    project = project_of(TAPED, tmp_path)
    changes = told(project, "DA", "3")
    assert changes["room.obstacles.0.at"][1] == "[3' 7\", 4' 2\"]"
    assert changes["room.holes.0.centre"][1] == "[6' 1\", 2' 6\"]"
    assert "room.openings.0.from" not in changes
    lower = told(project, "AB", "2")
    assert lower["room.obstacles.0.at"][1] == "[3' 4\", 4' 4\"]"
    assert lower["room.openings.1.from"] == ("1' 0\"", "1' 2\"")
    right = told(project, "BC", "2")
    assert right["room.openings.0.from"] == ('10"', "1' 0\"")


def test_given_corners_keep_what_does_not_move(tmp_path: Path) -> None:
    corners = {"A": ["0", "0"], "B": ["100 1/64", "0"], "C": ["100 1/64", "80 5/64"], "D": ["0", "80"]}
    project = project_of({"corners": corners}, tmp_path)
    changes = told(project, "BC", "1/2")
    assert changes == {
        "room.corners.B": ('[8\' 4 1/64", 0"]', '[8\' 4 33/64", 0"]'),
        "room.corners.C": ("[8' 4 1/64\", 6' 8 5/64\"]", "[8' 4 33/64\", 6' 8 5/64\"]"),
    }


def test_without_a_file_the_adjusted_room_is_the_base(tmp_path: Path) -> None:
    project = project_of(TAPED, tmp_path)
    Path(project.file).unlink()
    assert told(project, "CD", "3")["room.sides.DA"][1] in ("6' 11\"", "6' 11 1/16\"", "6' 11 1/8\"")
