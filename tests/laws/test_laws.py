"""What must hold for every project, whatever the answer is."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from random_projects import is_skew, projects

from fitter.checking import check_layout
from fitter.domain.layout import Answer, Verdict
from fitter.domain.project import Project
from fitter.domain.wishes import Objective
from fitter.model import solve
from rooms.lengths import Length
from rooms.room import Edge, Point, Room

HERE = Path(__file__).parent
CROSSCHECK = HERE.parent / "crosscheck"
NOTHING = -1


@cache
def answer(seed: int) -> Answer:
    """The answer to a random project, asked once."""
    return solve(projects(seed))


def seats(found: Answer) -> int:
    """Proven seats; -1 where nothing fits."""
    assert found.verdict in (Verdict.PROVEN, Verdict.IMPOSSIBLE)
    return NOTHING if found.layout is None else found.layout.seats


def values(found: Answer) -> tuple[Verdict, tuple[tuple[Objective, int, int], ...]]:
    """Verdict and the value and bound of every objective, in order."""
    return found.verdict, tuple((proof.objective, proof.value, proof.bound) for proof in found.proofs)


TELL = """
import sys
sys.path.insert(0, sys.argv[1])
from dataclasses import replace
from random_projects import projects
from fitter.model import solve
for seed in map(int, sys.argv[2].split(",")):
    print(replace(solve(projects(seed)), seconds=0.0))
"""


def told(hash_seed: int, seeds: str) -> str:
    """Whole answers, printed by a process of its own."""
    surroundings = os.environ | {"PYTHONHASHSEED": str(hash_seed)}
    call = [sys.executable, "-c", TELL, str(CROSSCHECK), seeds]
    return subprocess.run(
        call, cwd=HERE.parent.parent, env=surroundings, check=True, capture_output=True, text=True
    ).stdout


def test_same_input_same_answer_under_other_hash_seeds() -> None:
    """Layout, proofs and clash are the same to the last mark in two processes."""
    seeds = "0,1,4,7,8,10,13,16,19,29"
    first, second = told(1, seeds), told(4242, seeds)
    assert first.count("Answer(") == 10
    assert first == second


@pytest.mark.parametrize("seed", range(20))
def test_every_layout_passes_the_checker(seed: int) -> None:
    """The solver is never believed, and never wrong."""
    layout = answer(seed).layout
    if layout is None:
        assert answer(seed).verdict is Verdict.IMPOSSIBLE
    else:
        assert list(check_layout(projects(seed), layout)) == []


SEVERAL = [seed for seed in range(40) if len(projects(seed).cushions) > 1][:15]


@pytest.mark.parametrize("seed", SEVERAL)
def test_order_of_cushions_changes_no_value(seed: int) -> None:
    """Which kind is named first may break a tie, but wins or loses nothing."""
    project = projects(seed)
    turned = replace(project, cushions=tuple(reversed(project.cushions)))
    assert values(solve(turned)) == values(answer(seed))


def eased(project: Project) -> Iterator[tuple[str, Project]]:
    """The project without one of its requirements, each in turn."""
    room, wish = project.room, project.wish
    for kept, name in ((room.routes[1:], "the first route"), (room.routes[:-1], "the last route")):
        if kept != room.routes:
            yield name, replace(project, room=replace(room, routes=kept))
    if room.obstacles:
        yield "the first obstacle", replace(project, room=replace(room, obstacles=room.obstacles[1:]))
    for name, easier in (
        ("shape", replace(wish, shape=None)),
        ("least", replace(wish, least=1)),
        ("most", replace(wish, most=None)),
        ("ends", replace(wish, ends=None)),
        ("corner", replace(wish, corner=None)),
        ("legroom", replace(wish, legroom=Length(0))),
    ):
        if easier != wish:
            yield name, replace(project, wish=easier)


DEMANDING = [(seed, name) for seed in range(16) for name, _ in eased(projects(seed))]


@pytest.mark.parametrize(("seed", "name"), DEMANDING)
def test_dropping_a_requirement_loses_no_seat(seed: int, name: str) -> None:
    """Fewer demands never turn a fit into none, nor into fewer seats."""
    assert seats(solve(dict(eased(projects(seed)))[name])) >= seats(answer(seed))


def larger(room: Room, by: Length) -> Room:
    """The room with its right-hand and upper walls moved out; what stands in it stays."""
    right, top = (max(part) for part in zip(*room.outline, strict=True))

    def moved(point: Point) -> Point:
        return Point(
            point.x + by if point.x == right else point.x,
            point.y + by if point.y == top else point.y,
        )

    edges = tuple(replace(edge, start=moved(edge.start), end=moved(edge.end)) for edge in room.edges)
    corners = tuple((name, moved(point)) for name, point in room.corners)
    return replace(room, edges=edges, corners=corners)


def plain_rectangle(project: Project) -> bool:
    """Whether the room is a rectangle; only there do the moved walls surely give a larger room."""
    return len(project.room.edges) == 4 and not is_skew(project)


RECTANGLES = [seed for seed in range(60) if plain_rectangle(projects(seed))][:12]


@pytest.mark.parametrize("seed", RECTANGLES)
def test_larger_room_seats_no_fewer_when_free_standing(seed: int) -> None:
    """Doors are left out: they would move with their walls."""
    project = projects(seed)
    small = replace(project.room, openings=(), routes=())
    free = replace(project, room=small, wish=replace(project.wish, against=None))
    wide = replace(free, room=larger(small, free.mark * 37))
    assert all(edge_grew(a, b) for a, b in zip(small.edges, wide.room.edges, strict=True))
    assert seats(solve(wide)) >= seats(solve(free))


def edge_grew(before: Edge, after: Edge) -> bool:
    """Whether a wall is longer than it was."""
    return after.length > before.length


def richer(project: Project, more: int) -> Project:
    """The same project where `more` of each counted cushion are in the shed."""
    cushions = (c if c.own is None else replace(c, own=c.own + more) for c in project.cushions)
    return replace(project, cushions=tuple(cushions))


def counted(project: Project) -> bool:
    """Whether some kind of cushion is limited to what is in the shed."""
    return any(cushion.stock is not None for cushion in project.cushions)


def stock_was_reached(found: Answer, project: Project) -> bool:
    """Whether some kind might have been used more often, had there been more of it."""
    used = len([m for m in found.layout.modules if m.cushion is not None]) if found.layout else 0
    return any(cushion.stock is not None and cushion.stock <= used for cushion in project.cushions)


STOCKED = [seed for seed in range(80) if counted(projects(seed))][:12]


@pytest.mark.parametrize("seed", STOCKED)
def test_stock_that_is_not_reached_changes_nothing(seed: int) -> None:
    """With plenty of every kind in the shed, one more of each leaves the whole answer as it is."""
    plenty = richer(projects(seed), 30)
    first, second = solve(plenty), solve(richer(plenty, 1))
    assert not stock_was_reached(first, plenty)
    assert replace(first, seconds=0.0) == replace(second, seconds=0.0)


@pytest.mark.parametrize("seed", STOCKED)
def test_more_stock_loses_no_seat(seed: int) -> None:
    """And where it was reached, more of it never seats fewer."""
    assert seats(solve(richer(projects(seed), 1))) >= seats(answer(seed))
