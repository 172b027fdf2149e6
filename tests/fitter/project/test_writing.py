"""A starter file says what it was given, in the spelling it was given in, and explains every key."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from survey_cases import Spot, outlines, taken

from fitter.domain.frame import Frame
from fitter.project import read_project, read_room
from fitter.project.forms import (
    CushionForm,
    FrameForm,
    ObstacleForm,
    OpeningForm,
    ProjectForm,
    RoomForm,
    RouteForm,
    ShopForm,
    WishForm,
)
from fitter.project.ledger import known_keys
from fitter.project.tree import read_tree
from fitter.project.writing import starter_text
from fitter.project.writing_guide import Section, guide
from fitter.project.writing_yaml import block, scalar
from rooms.lengths import Length, Unit, format_length
from rooms.survey import Readings, adjust

YARD: dict[str, Any] = {
    "title": "Back yard: the north side",
    "units": "ft",
    "room": {
        "sides": {"AB": "16' 4\"", "BC": "11", "CD": "16' 4\"", "DA": "132 in"},
        "turns": {"B": "left", "C": "left"},
        "ties": {"AC": "19' 8 1/4\""},
        "edges": {"AB": "wall", "DA": "step"},
        "openings": [
            {"name": "back door", "edge": "AB", "from": "2'", "width": '32"', "swing": "in"},
            {"name": "gate, the old one", "edge": "CD", "from": "2'", "width": "3"},
        ],
        "obstacles": [{"name": "#1 drain", "centre": ["8'", "6'"], "radius": '3"', "height": "low"}],
        "routes": [{"from": "back door", "to": "gate, the old one", "width": '32"'}],
    },
    "cushions": [{"name": "seat", "size": ['24"', '24"', '5"'], "own": "6"}],
    "wish": {"seats": {"least": "4", "most": "6"}, "against": ["AB", "BC"]},
}
TEXTS = st.text(st.characters(exclude_categories=("C", "Z")) | st.just(" "), min_size=1, max_size=30)


def switched_on(text: str) -> str:
    """The file with every key that it only shows taken up: its mark is taken away, and nothing else."""
    lines = []
    for line in text.split("\n"):
        blanks, mark, rest = line.partition("#")
        off = mark and not blanks.strip() and not rest.startswith(" ")
        lines.append(blanks + rest if off else line)
    return "\n".join(lines)


def test_what_is_written_is_read_back_word_for_word() -> None:
    data = read_tree(starter_text(YARD, "yard.yaml"), "yard.yaml").data
    assert isinstance(data, dict)
    assert {key: value for key, value in data.items() if value is not None} == YARD


@given(TEXTS)
def test_any_text_comes_back_as_itself(text: str) -> None:
    assert read_tree(f"key: {scalar(text)}\nlist: [{scalar(text)}]", "x").data == {"key": text, "list": [text]}


@given(st.lists(st.dictionaries(TEXTS, TEXTS | st.lists(TEXTS, min_size=1), min_size=1, max_size=6), min_size=1))
def test_lists_of_any_length_come_back_and_stay_narrow_where_they_can(items: list[Any]) -> None:
    lines = block("things", items)
    assert read_tree("\n".join(lines), "x").data == {"things": items}


def test_a_mapping_that_is_too_wide_is_broken_over_lines() -> None:
    sides = {f"A{k}B{k}": "16' 4 1/2\"" for k in range(12)}
    lines = block("sides", sides, "  ")
    assert len(lines) == 13
    assert read_tree("\n".join(lines), "x").data == {"sides": sides}


@pytest.mark.parametrize("units", [str(unit) for unit in Unit])
def test_every_key_that_is_switched_off_can_be_switched_on(units: str) -> None:
    """Examples are such as the reader takes, and what is called a default is the default."""
    room = {"sides": {"AB": "5 m", "BC": "4 m", "CD": "5 m", "DA": "4 m"}, "turns": {"A": "left", "B": "left"}}
    gates = [{"name": f"gate {edge}", "edge": edge, "from": "2 m", "width": "1 m"} for edge in ("BC", "CD")]
    bare = {"title": "Yard", "units": units, "room": room}
    text = starter_text(bare, "yard.yaml")
    taken_up = read_project("yard.yaml", switched_on(text))
    assert [opening.name for opening in taken_up.room.openings] == ["back door"]
    assert [obstacle.name for obstacle in taken_up.room.obstacles] == ["pot", "tree well"]
    assert taken_up.cushions[0].own == 4
    with_gates = starter_text({**bare, "room": {**room, "openings": gates}}, "yard.yaml")
    assert [route.start for route in read_project("yard.yaml", switched_on(with_gates)).room.routes] == ["gate BC"]
    seat = {"cushions": [{"name": "seat", "size": ["60 cm", "60 cm", "10 cm"]}]}
    plain = read_project("yard.yaml", starter_text({**bare, **seat}, "yard.yaml"))
    assert taken_up.room.tolerance == plain.room.tolerance
    assert taken_up.frame.carpentry.leg.measured
    assert taken_up.frame.carry is not None
    assert taken_up.frame.carpentry.back_height is not None
    assert taken_up.room.slope is not None
    # `measured` of a cushion stands in a list, that of the frame on a line of its own.
    untaped = [line for line in switched_on(text).splitlines() if not line.startswith("  measured:")]
    assert usual(read_project("yard.yaml", "\n".join(untaped)).frame) == usual(plain.frame)
    assert taken_up.shop.kerf == plain.shop.kerf
    assert (taken_up.wish.off_wall, taken_up.wish.legroom, taken_up.wish.prefer, taken_up.wish.shape) == (
        plain.wish.off_wall,
        plain.wish.legroom,
        plain.wish.prefer,
        plain.wish.shape,
    )


def usual(frame: Frame) -> Frame:
    """A frame without what the file shows a mere example of, since it follows the cushions or is not asked for."""
    free = replace(frame.carpentry, arm_height=None, back_height=None, table_height=None)
    return replace(frame, carry=None, carpentry=free)


def keys_of(sections: tuple[Section, ...], key: str) -> set[str]:
    return {entry.key for section in sections if section.key == key for entry in section.entries}


def test_the_guide_tells_of_every_key_that_a_file_may_have() -> None:
    sections = guide(Unit.IN, (), ())
    top = keys_of(sections, "") | {section.key for section in sections if section.key}
    assert top == set(known_keys(ProjectForm))
    for key, form in (("room", RoomForm), ("wish", WishForm), ("frame", FrameForm), ("shop", ShopForm)):
        assert keys_of(sections, key) == set(known_keys(form))
    says = {entry.key: entry.says for section in sections for entry in section.entries}
    for key, form in (
        ("openings", OpeningForm),
        ("obstacles", ObstacleForm),
        ("routes", RouteForm),
        ("cushions", CushionForm),
    ):
        told = says[key]
        assert [name for name in known_keys(form) if name not in told and name not in ("name", "edge", "to")] == []


def test_no_line_is_wider_than_a_hundred_columns() -> None:
    for unit in Unit:
        text = starter_text({**YARD, "units": str(unit)}, "yard.yaml")
        assert max(len(line) for line in text.splitlines()) <= 100


def spelled(length: Length, unit: Unit, way: int) -> str:
    """A length as one or another would write it, exact to the shop mark."""
    if unit.imperial:
        feet = format_length(length, unit)
        return (feet, f"{float(length.inch)} in", feet.replace('"', "").replace("'", "ft") if "'" in feet else feet)[
            way
        ]
    return (f"{int(length.mm)} mm", f"{float(length.mm) / 1000:.3f} m", f"{float(length.mm) / 10:.1f}cm")[way]


@settings(deadline=None, max_examples=60)
@given(outlines(), st.data())
def test_readings_of_any_room_come_back_from_the_file(spots: list[Spot], data: st.DataObject) -> None:
    """Written in whatever spelling and system, then read: the same survey, to the last unit."""
    exact = taken(spots, turns="BC")
    unit = data.draw(st.sampled_from(list(Unit)))
    way = st.integers(0, 2)
    texts = {
        kind: {a + b: spelled(size.round_to(unit.mark), unit, data.draw(way)) for a, b, size in lengths}
        for kind, lengths in (("sides", exact.sides), ("ties", exact.ties))
    }
    turns = {corner: f"{float(angle):.2f}" for corner, angle in exact.turns}
    room = {"tolerance": '1/4"', **texts, "turns": turns}
    reading = read_room("yard.yaml", starter_text({"title": "Yard", "units": str(unit), "room": room}, "yard.yaml"))
    expected = Readings(
        exact.corners,
        tuple((a, b, size.round_to(unit.mark)) for a, b, size in exact.sides),
        tuple((corner, Fraction(turn)) for corner, turn in turns.items()),
        tuple((a, b, size.round_to(unit.mark)) for a, b, size in exact.ties),
        Length.inches("1/4"),
    )
    assert reading.survey == adjust(expected)
