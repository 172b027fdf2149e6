"""A bench may stand as near to an inward door as the arc of its leaf, and no nearer: triangles with whole sides."""

from __future__ import annotations

from pathlib import Path

import pytest

from fitter.domain.project import Project
from fitter.model import any_layout
from fitter.project import read_project
from rooms.lengths import Length

YARD = """\
units: in
room:
  tolerance: 0
  corners: {{A: [0, 0], B: [{wide}, 0], C: [{wide}, 120], D: [0, 120]}}
  openings:
    - {{name: door, edge: DA, from: {offset}, width: {leaf}, swing: {swing}, hinge: {hinge}}}
cushions:
  - {{name: square, size: [24, 24, 5], own: 2}}
wish: {{seats: {{least: 2}}, shape: straight, against: [AB], off_wall: 0}}
"""
LONG = 2 * 24 + 2 * Length.inches("3/2").inch
"""Of the bench: two cushions between two open ends."""


def yard(path: Path, ahead: int, leaf: str, deep: Length, *, swing: str = "in", hinge: str = "first") -> Project:
    """The bench begins 20 or 21 in from the door's wall, and its front corner lies `ahead` nearer to AB than the hinge.

    Args:
        path: folder for the file.
        ahead: inches from the bench's front to the hinge, along the wall.
        leaf: width of the door.
        deep: of the bench.
        swing: of the leaf.
        hinge: `first` is the jamb that lies farther from AB.
    """
    beside = {20: 21, 21: 20}[ahead]
    file = path / "yard.yaml"
    offset = 120 - deep.inch - ahead
    text = YARD.format(wide=beside + LONG, offset=offset, leaf=leaf, swing=swing, hinge=hinge)
    file.write_text(text, encoding="utf-8")
    return read_project(str(file))


@pytest.fixture(scope="module")
def deep(tmp_path_factory: pytest.TempPathFactory) -> Length:
    """How far the bench reaches into the room, from the same bench beside a door that swings out."""
    project = yard(tmp_path_factory.mktemp("out"), 21, "29", Length.inches(30), swing="out")
    layout = any_layout(project)
    assert layout is not None
    return max(box.y1 for box in layout.footprint)


@pytest.mark.parametrize("ahead", [20, 21])
@pytest.mark.parametrize(("leaf", "fits"), [("28", True), ("29", True), ("29 1/16", False)])
def test_a_corner_may_touch_the_arc(tmp_path: Path, deep: Length, ahead: int, leaf: str, fits: bool) -> None:
    """20² + 21² = 29²: the corner lies just on the arc of a leaf of 29 in."""
    project = yard(tmp_path, ahead, leaf, deep)
    assert (any_layout(project) is not None) is fits


@pytest.mark.parametrize(
    ("leaf", "swing", "hinge", "fits"), [("34", "out", "first", True), ("29", "in", "second", False)]
)
def test_the_same_door_the_other_way(
    tmp_path: Path, deep: Length, leaf: str, swing: str, hinge: str, fits: bool
) -> None:
    """A wider leaf does no harm where it swings out; hung at the jamb beside the bench, it strikes the bench."""
    project = yard(tmp_path, 21, leaf, deep, swing=swing, hinge=hinge)
    assert (any_layout(project) is not None) is fits
