"""Where less is asked, or more is given, the answer gets no worse; where nothing matters changes, it stays."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest
from answers import answer, rank
from random_projects import is_skew, projects

from fitter.domain.frame import Carpentry
from fitter.domain.layout import Answer
from fitter.domain.project import Project
from fitter.domain.wishes import Objective
from fitter.model import solve
from rooms.lengths import ZERO, Length
from rooms.room import Height, Point, Room, Swing


def richer(project: Project, more: int) -> Project:
    """The same project where `more` of each counted cushion are in the shed."""
    cushions = (c if c.own is None else replace(c, own=c.own + more) for c in project.cushions)
    return replace(project, cushions=tuple(cushions))


def eased(project: Project) -> Iterator[tuple[str, Project]]:
    """The project without one of its requirements, each in turn."""
    yield from _room_eased(project)
    yield from _wish_eased(project)
    frame, mark = project.frame, project.mark
    yield "span", replace(project, frame=replace(frame, max_span=frame.max_span + mark * 97))
    if not frame.backs_meet:
        yield "backs", replace(project, frame=replace(frame, carpentry=Carpentry()))
    for name, change in (("turn", {"may_turn": True}), ("notch", {"may_notch": True})):
        kinds = tuple(replace(cushion, **change) for cushion in project.cushions)
        if kinds != project.cushions:
            yield name, replace(project, cushions=kinds)
    if any(cushion.stock is not None for cushion in project.cushions):
        yield "stock", richer(project, 1)


def _room_eased(project: Project) -> Iterator[tuple[str, Project]]:
    room = project.room
    for kept, name in ((room.routes[1:], "the first route"), (room.routes[:-1], "the last route")):
        if kept != room.routes:
            yield name, replace(project, room=replace(room, routes=kept))
    if room.routes:
        narrow = tuple(replace(route, width=route.width - project.mark * 17) for route in room.routes)
        yield "width of the routes", replace(project, room=replace(room, routes=narrow))
    for number, obstacle in enumerate(room.obstacles):
        others = (*room.obstacles[:number], *room.obstacles[number + 1 :])
        yield obstacle.name, replace(project, room=replace(room, obstacles=others))
        if obstacle.height is not Height.LOW and not obstacle.hole:
            low = (*room.obstacles[:number], replace(obstacle, height=Height.LOW), *room.obstacles[number + 1 :])
            yield f"{obstacle.name} is low", replace(project, room=replace(room, obstacles=low))
    outward = tuple(replace(opening, swing=Swing.OUT) for opening in room.openings)
    if any(opening.swing is Swing.IN for opening in room.openings):
        yield "swings", replace(project, room=replace(room, openings=outward))
    if room.tolerance:
        yield "tolerance", replace(project, room=replace(room, tolerance=ZERO))


def _wish_eased(project: Project) -> Iterator[tuple[str, Project]]:
    wish = project.wish
    edges = wish.against and tuple(edge.name for edge in project.room.edges)
    for name, easier in (
        ("shape", replace(wish, shape=None)),
        ("least", replace(wish, least=1)),
        ("most", replace(wish, most=None)),
        ("hand", replace(wish, hand=None)),
        ("left end", replace(wish, left_end=None)),
        ("right end", replace(wish, right_end=None)),
        ("corner", replace(wish, corner=None)),
        ("buy", replace(wish, buy_most=None)),
        ("legroom", replace(wish, legroom=ZERO)),
        ("edges", replace(wish, against=edges)),
        ("off the wall", replace(wish, off_wall=wish.off_wall + project.mark * 23)),
    ):
        if easier != wish:
            yield name, replace(project, wish=easier)


def demanding(seeds: range) -> list[tuple[int, str]]:
    """Every requirement of some projects."""
    return [(seed, name) for seed in seeds for name, _ in eased(projects(seed))]


def no_worse(seed: int, name: str) -> None:
    """Every objective counts, in the order of the project: what was the best layout is one of those that are right."""
    easier = dict(eased(projects(seed)))[name]
    assert rank(solve(easier), easier) >= rank(answer(seed), projects(seed))


@pytest.mark.parametrize(("seed", "name"), demanding(range(4, 40))[::53])
def test_dropping_a_requirement_makes_nothing_worse(seed: int, name: str) -> None:
    """Fewer demands never turn a fit into none."""
    no_worse(seed, name)


@pytest.mark.sweep
@pytest.mark.parametrize(("seed", "name"), demanding(range(40))[::2])
def test_dropping_a_requirement_makes_nothing_worse_wide(seed: int, name: str) -> None:
    no_worse(seed, name)


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


RECTANGLES = [seed for seed in range(300) if plain_rectangle(projects(seed))]


def seats_no_fewer(seed: int) -> None:
    """Doors are left out, since they would move with their walls, and so is the distance from the lowest corner."""
    project = projects(seed)
    small = replace(project.room, openings=(), routes=())
    free = replace(project, room=small, wish=replace(project.wish, against=None))
    wide = replace(free, room=larger(small, free.mark * 37))
    assert all(b.length > a.length for a, b in zip(small.edges, wide.room.edges, strict=True))
    close = (Objective.CLOSE,)
    assert rank(solve(wide), wide, but=close) >= rank(solve(free), free, but=close)


@pytest.mark.parametrize("seed", RECTANGLES[:4])
def test_larger_room_is_no_worse_when_free_standing(seed: int) -> None:
    seats_no_fewer(seed)


@pytest.mark.sweep
@pytest.mark.parametrize("seed", RECTANGLES[4:40])
def test_larger_room_is_no_worse_when_free_standing_wide(seed: int) -> None:
    seats_no_fewer(seed)


def used_up(found: Answer, project: Project) -> bool:
    """Whether some kind might have been used more often, had there been more of it in the shed."""
    bought = found.layout.purchases if found.layout else ()
    used = {purchase.cushion: purchase.used for purchase in bought}
    return any(cushion.own is not None and cushion.own <= used.get(cushion.name, 0) for cushion in project.cushions)


STOCKED = [seed for seed in range(200) if any(cushion.own is not None for cushion in projects(seed).cushions)]


@pytest.mark.parametrize("seed", STOCKED[:3])
def test_stock_that_is_not_reached_changes_nothing(seed: int) -> None:
    """With plenty of every kind in the shed, one more of each leaves the whole answer as it is."""
    plenty = richer(projects(seed), 40)
    first, second = solve(plenty), solve(richer(plenty, 1))
    assert not used_up(first, plenty)
    assert replace(first, seconds=0.0) == replace(second, seconds=0.0)
