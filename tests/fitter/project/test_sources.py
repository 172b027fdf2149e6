"""What a project rests on without saying it: there while the file is silent, gone once it speaks."""

from __future__ import annotations

import pytest

from fitter.domain.evidence import Status
from fitter.domain.project import Project
from fitter.project import read_project
from fitter.project.sources import held_against, unsaid
from rooms.lengths import Length

YARD = """\
units: {units}
room:
  corners: {{A: [0, 0], B: [4 m, 0], C: [4 m, 3 m], D: [0, 3 m]}}
  edges: {{AB: wall, BC: {kind}, CD: open, DA: open}}
  openings: [{openings}]
  obstacles: [{obstacles}]
  routes: [{routes}]
  {room}
cushions:
  - {{name: seat, size: [600 mm, 600 mm, 120 mm]{cushion}}}
wish: {{shape: {shape}{wish}}}
frame: {{{frame}}}
shop: {{{shop}}}
"""
DOORS = "{name: door, edge: AB, from: 100 mm, width: 800 mm}, {name: gate, edge: BC, from: 100 mm, width: 900 mm}"


def yard(**said: str) -> Project:
    usual = {"units": "mm", "kind": "open", "shape": "L", "room": "holes: []"}
    blank = dict.fromkeys(("openings", "obstacles", "routes", "cushion", "wish", "frame", "shop"), "")
    return read_project("yard.yaml", YARD.format(**{**blank, **usual, **said}))


def values(project: Project) -> dict[str, Length | str]:
    return {told.key: told.value for told in unsaid(project)}


@pytest.mark.parametrize(
    ("part", "text", "key"),
    [
        ("room", "tolerance: 4", "room.tolerance"),
        ("wish", ", off_wall: 200", "wish.off_wall"),
        ("wish", ", legroom: 500", "wish.legroom"),
        ("frame", "seat_height: 440", "frame.seat_height"),
        ("frame", "reveal: {below: 120}", "frame.seat_height"),
        ("frame", "arm_height: 700", "frame.arm_height"),
        ("frame", "back_height: 900", "frame.back_height"),
        ("cushion", ", back: [600, 450, 150]", "frame.back_height"),
        ("frame", "compression: 10 %", "frame.compression"),
        ("frame", "max_span: 1500", "frame.max_span"),
        ("frame", "notch_clearance: 5", "frame.notch_clearance"),
        ("frame", "back_span: 1300", "frame.back_span"),
        ("frame", "slat_gap: 40", "frame.slat_gap.seat"),
        ("frame", "slat_gap: {back: 60}", "frame.slat_gap.back"),
        ("frame", "sections: {post: 89 x 89 mm}", "frame.sections.post"),
        ("frame", "sections: {cleat: 38 x 64 mm}", "frame.sections.cleat"),
        ("shop", "kerf: 2", "shop.kerf"),
    ],
)
def test_a_default_is_told_until_the_file_says_it(part: str, text: str, key: str) -> None:
    assert key in values(yard())
    assert key not in values(yard(**{part: text}))


def test_of_two_gaps_the_one_that_is_not_written_is_told() -> None:
    assert values(yard(frame="slat_gap: {back: 60}"))["frame.slat_gap.seat"] == Length.millimetres(50)


def test_values_are_those_that_the_project_uses() -> None:
    for units, sizes in (("mm", (460, 300, 5, 1800)), ("in", ("18", "12", "1/4", "72"))):
        project = yard(units=units)
        length = Length.millimetres if units == "mm" else Length.inches
        found = values(project)
        keys = ("wish.legroom", "wish.off_wall", "room.tolerance", "frame.max_span")
        assert [found[key] for key in keys] == [length(size) for size in sizes]
        assert found["frame.seat_height"] == project.frame.carpentry.seat_height
        assert found["frame.compression"] == "20 %"


def test_defaults_of_what_stands_in_the_room() -> None:
    fire = "{name: bowl, centre: [2 m, 2 m], radius: 200 mm, open_flame: true}"
    tap = "{name: tap, at: [3 m, 2 m], size: [100 mm, 100 mm], height: reach}"
    found = values(yard(openings=DOORS, obstacles=f"{fire}, {tap}", routes="{from: door, to: gate}"))
    assert found["room.obstacles.0.clear"] == Length.inches(180)
    assert found["room.obstacles.1.clear"] == Length.millimetres(600)
    assert found["room.routes.0.width"] == Length.millimetres(915)
    said = values(
        yard(
            openings=DOORS,
            obstacles=f"{fire[:-1]}, clear: 700}}, {tap[:-1]}, clear: 400}}",
            routes="{from: door, to: gate, width: 900}",
        )
    )
    assert not any(key.startswith(("room.ob", "room.routes")) for key in said)


@pytest.mark.parametrize(
    ("said", "section"),
    [
        ({"openings": DOORS, "routes": "{from: door, to: gate}"}, "403.5.1"),
        ({"shape": "U"}, "304.3"),
        ({"openings": DOORS}, "R311.3"),
        ({"kind": "railing"}, "R312.1"),
        ({"obstacles": "{name: bowl, centre: [2 m, 2 m], radius: 200 mm, open_flame: true}"}, "307.4.3"),
        ({"obstacles": "{name: tap, centre: [2 m, 2 m], radius: 20 mm, height: reach}"}, "305.3"),
    ],
)
def test_benchmarks_are_told_where_they_matter(said: dict[str, str], section: str) -> None:
    assert held_against(yard()) == ()
    assert any(section in told.source.document for told in held_against(yard(**said)))


def test_steps_are_held_against_practice() -> None:
    (told,) = held_against(yard(kind="step"))
    assert told.source.status is Status.PRACTICE
