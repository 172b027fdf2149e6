"""What `less_asked` says of two projects holds of their answers: the one that asks less is no worse off."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest
from answers import answer, rank
from random_projects import projects

from fitter.domain.frame import Frame
from fitter.domain.layout import Answer
from fitter.domain.project import Project
from fitter.domain.wishes import Shape
from fitter.model import WHOLE, Settled, less_asked, solve
from fitter.workflow.sweep_readings import ties
from rooms.lengths import ZERO, Length
from rooms.room import Point, Room


def changed(project: Project) -> Iterator[tuple[str, Project, Project]]:
    """Pairs of projects of which the first seems to ask less, by what differs."""
    room, wish, frame, mark = project.room, project.wish, project.frame, project.mark
    for by in (3, 29):
        routes = tuple(replace(route, width=route.width - mark * by) for route in room.routes)
        yield f"routes {by}", replace(project, room=replace(room, routes=routes)), project
    things = tuple(replace(thing, clear=thing.clear + mark * 37) for thing in room.obstacles)
    yield "clear", project, replace(project, room=replace(room, obstacles=things))
    round_ones = tuple(replace(thing, radius=thing.radius + mark * 9) if thing.radius else thing for thing in things)
    yield "radius", project, replace(project, room=replace(room, obstacles=round_ones))
    yield "tolerance", replace(project, room=replace(room, tolerance=ZERO)), project
    yield "legroom", replace(project, wish=replace(wish, legroom=ZERO)), project
    yield "off_wall", replace(project, wish=replace(wish, off_wall=wish.off_wall + mark * 40)), project
    yield "least", project, replace(project, wish=replace(wish, least=wish.least + 2))
    if wish.most is not None:
        yield "most", replace(project, wish=replace(wish, most=wish.most + 1)), project
    kinds = tuple(kind if kind.own is None else replace(kind, own=kind.own + 1) for kind in project.cushions)
    yield "own", replace(project, cushions=kinds), project
    yield "ends", replace(project, frame=_thinner(frame, mark)), project
    for by in (5, 150):
        yield f"span {by}", replace(project, frame=replace(frame, max_span=frame.max_span + mark * by)), project
    yield "room", _longer(project, mark * 64), project


def _thinner(frame: Frame, mark: Length) -> Frame:
    return replace(
        frame,
        arm_thickness=frame.arm_thickness - mark * 11,
        open_end_thickness=frame.open_end_thickness - mark * 3,
    )


def _longer(project: Project, by: Length) -> Project:
    """Where one edge backs all layouts: its second corner farther out, in its own line as near as units allow."""
    names = project.wish.against or ()
    if len(names) != 1:
        return project
    edge = project.room.edge(names[0])
    dx, dy = edge.end.x.units - edge.start.x.units, edge.end.y.units - edge.start.y.units
    if dx and dy:
        return project
    sign = (dx > 0) - (dx < 0), (dy > 0) - (dy < 0)
    far = Point(edge.end.x + by * sign[0], edge.end.y + by * sign[1])
    return replace(project, room=_with_corner(project.room, edge.end, far))


def _with_corner(room: Room, old: Point, new: Point) -> Room:
    def moved(point: Point) -> Point:
        return new if point == old else point

    edges = tuple(replace(edge, start=moved(edge.start), end=moved(edge.end)) for edge in room.edges)
    return replace(room, edges=edges, corners=tuple((name, moved(point)) for name, point in room.corners))


def softer(project: Project) -> Iterator[tuple[str, Project, Project]]:
    """Pairs of which the first has cushions with less ease or overhang; one kind, in a straight or L-shaped layout."""
    shape = project.wish.shape if project.wish.shape in (Shape.STRAIGHT, Shape.L) else Shape.L
    kind = replace(project.cushions[0], may_turn=False, own=None, price=None)
    low = tuple(thing for thing in project.room.obstacles if not thing.low)
    plain = replace(
        project,
        cushions=(kind,),
        wish=replace(project.wish, shape=shape, least=1),
        room=replace(project.room, obstacles=low),
    )
    mark = project.mark
    eased = replace(kind, ease=kind.ease + mark * 5)
    yield "ease", plain, replace(plain, cushions=(eased,))
    frame = replace(plain.frame, overhang=plain.frame.overhang + mark * 7)
    yield "overhang", plain, replace(plain, frame=frame)


def cases(seeds: range) -> list[tuple[int, str]]:
    """Pairs of which anything is known, by seed and name."""
    found = []
    for seed in seeds:
        pairs = [*changed(projects(seed)), *softer(projects(seed))]
        found += [(seed, name) for name, less, more in pairs if less != more and less_asked(less, more)]
    return found


QUICK = [case for seed in (10, 43, 46, 53, 65, 69) for case in cases(range(seed, seed + 1))][::5]
"""Of rooms whose straight layouts are soon found."""


def holds(seed: int, name: str) -> None:
    """No worse in as many leading values as are known; where all are equal, first among equal answers too."""
    pairs = [*changed(projects(seed)), *softer(projects(seed))]
    less, more = next((less, more) for each, less, more in pairs if each == name)
    known = less_asked(less, more)
    easy, hard = _answer(seed, less), _answer(seed, more)
    one, other = rank(easy, less)[: known + 1], rank(hard, more)[: known + 1]
    assert one >= other
    if known >= WHOLE and one == other and easy.layout is not None and hard.layout is not None:
        first, second = (
            tuple(ties(project, each, Settled.WHOLE))
            for project, each in ((less, easy.layout), (more, hard.layout))
        )  # fmt: skip
        assert first <= second


def _answer(seed: int, project: Project) -> Answer:
    return answer(seed) if project == projects(seed) else solve(project)


def test_every_kind_of_change_is_known_somewhere() -> None:
    """A rule that never held would prove nothing here."""
    names = {name for _, name in cases(range(16))}
    assert names >= {name for name, _, _ in (*changed(projects(0)), *softer(projects(0)))} - {"most", "radius", "room"}


@pytest.mark.parametrize(("seed", "name"), QUICK)
def test_who_asks_less_is_no_worse_off(seed: int, name: str) -> None:
    holds(seed, name)


@pytest.mark.sweep
@pytest.mark.parametrize("seed", range(40))
def test_who_asks_less_is_no_worse_off_wide(seed: int) -> None:
    for each, name in cases(range(seed, seed + 1)):
        holds(each, name)
