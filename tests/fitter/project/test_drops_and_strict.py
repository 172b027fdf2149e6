"""`room.drops`, `room.railings` and `wish.strict`: what they mean, and every way to write them wrong."""

from __future__ import annotations

import pytest

from fitter.domain.benchmarks import Topic
from fitter.domain.findings import Finding, ProjectError
from fitter.domain.project import Project
from fitter.project import read_project
from rooms.lengths import Length

DECK = """\
units: in
room:
  sides: {AB: 112, BC: 90, CD: 112, DA: 90}
  turns: {A: left, B: left, C: left, D: left}
  edges: {AB: wall, BC: railing, CD: step, DA: open}
  ROOM
cushions:
  - {name: square, size: [24, 24, 5]}
wish: {shape: straight WISH}
"""


def read(room: str = "tolerance: 1/4", wish: str = "") -> Project:
    return read_project("deck.yaml", DECK.replace("ROOM", room).replace(" WISH", wish))


def mistake(room: str = "tolerance: 1/4", wish: str = "") -> Finding:
    with pytest.raises(ProjectError) as caught:
        read(room, wish)
    (found,) = caught.value.findings
    return found


def test_drops_and_railings_belong_to_their_edges() -> None:
    room = read("drops: {B-C: 4', CD: 7, AD: 2' 6\"}\n  railings: {CB: 42}").room
    assert [edge.drop for edge in room.edges] == [None, *map(Length.inches, (48, 7, 30))]
    assert [edge.railing for edge in room.edges] == [None, Length.inches(42), None, None]


def test_nothing_said() -> None:
    assert all(edge.drop is None and edge.railing is None for edge in read().room.edges)
    assert read().wish.strict == ()


@pytest.mark.parametrize(
    ("room", "code", "key", "line"),
    [
        ("drops: {AB: 48}", "drop-at-wall", "room.drops.AB", 6),
        ("railings: {CD: 36}", "no-railing-there", "room.railings.CD", 6),
        ("railings: {AB: 36}", "no-railing-there", "room.railings.AB", 6),
        ("drops: {BX: 48}", "unknown-name", "room.drops.BX", 6),
        ("drops: {BC: 0}", "zero-length", "room.drops.BC", 6),
        ("drops: {BC: deep}", "not-a-length", "room.drops.BC", 6),
        ("drops: {BC: 48, CB: 50}", "named-twice", "room.drops.CB", 6),
        ("drops: 48", "wrong-kind", "room.drops", 6),
        ("railings: {BC: 1070}", "size-absurd", "room.railings.BC", 6),
        ("drops: {BC: 12001}", "size-absurd", "room.drops.BC", 6),
    ],
)
def test_mistakes_name_the_key_and_the_line(room: str, code: str, key: str, line: int) -> None:
    found = mistake(room)
    assert (found.code, found.key, found.place and found.place.line) == (code, key, line)
    assert found.help


@pytest.mark.parametrize(
    ("written", "topics"),
    [
        ("true", tuple(Topic)),
        ("yes", tuple(Topic)),
        ("false", ()),
        ("guards", (Topic.GUARDS,)),
        ("[Flames, routes]", (Topic.ROUTES, Topic.FLAMES)),
        ("[]", ()),
    ],
)
def test_strict_by_word_and_by_list(written: str, topics: tuple[Topic, ...]) -> None:
    assert read(wish=f", strict: {written}").wish.strict == topics


@pytest.mark.parametrize(
    ("written", "code", "key", "help"),
    [
        ("maybe", "unknown-word", "wish.strict", "true"),
        ("guard", "unknown-word", "wish.strict", "did you mean `guards`?"),
        ("[guards, flame]", "unknown-word", "wish.strict.1", "did you mean `flames`?"),
        ("{guards: true}", "wrong-kind", "wish.strict", "a list of topics"),
    ],
)
def test_strict_written_wrong(written: str, code: str, key: str, help: str) -> None:
    found = mistake(wish=f", strict: {written}")
    assert (found.code, found.key, found.place and found.place.line) == (code, key, 9)
    assert help in found.help
