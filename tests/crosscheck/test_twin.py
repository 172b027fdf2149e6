"""The product against CP-SAT, and CP-SAT against trying everything."""

from __future__ import annotations

from fractions import Fraction
from random import Random

import pytest
import shapely
from cones import apart, fine, polygon
from exhaustive import best_by_trying
from frames import turn_error, views
from random_projects import is_skew, projects, tiny_projects
from twin import TwinAnswer, best_seats

from fitter.domain.layout import Verdict
from fitter.domain.project import Project
from fitter.model import solve

Value = tuple[int, int, int]
NOTHING: Value = (-1, 0, 0)
HAIR = Fraction(1, 100)
"""Marks. A rational direction 1e-6 rad off its edge moves a corner 300 in away by 0.005 marks, so two right
models whose directions differ may part where a fit is exact to this."""

TELLING = (36, 43, 46, 56, 85)
"""One module longer than the span, a notched cushion, a back that could lean on a wall across a notch."""


def twin_value(answer: TwinAnswer) -> Value:
    """Greater is better."""
    if answer.verdict == "impossible":
        return NOTHING
    return answer.seats, -answer.notches, -answer.posts


_known: dict[str, TwinAnswer] = {}


def twin(project: Project) -> TwinAnswer:
    """The twin's answer, asked once for each title (a random project's title holds its seed)."""
    if project.title not in _known:
        _known[project.title] = best_seats(project)
    return _known[project.title]


def agrees(project: Project, value: Value) -> bool:
    """Whether the twin finds the same; in skew rooms, or lies on both sides of it when nudged by a hair.

    In a skew room whose tolerance is whole marks the back may stand exactly on the tolerance, and which
    way a direction was rounded decides. A hair more distance and a hair less then enclose every right answer.
    """
    if twin_value(twin(project)) == value:
        return True
    if not is_skew(project):
        return False
    return twin_value(best_seats(project, HAIR)) <= value <= twin_value(best_seats(project, -HAIR))


def product_value(project: Project) -> Value:
    """What the product proves, on the same scale."""
    answer = solve(project)
    if answer.layout is None:
        assert answer.verdict is Verdict.IMPOSSIBLE
        return NOTHING
    assert answer.verdict is Verdict.PROVEN
    return answer.layout.seats, -answer.layout.notches, -len(answer.layout.posts)


@pytest.mark.parametrize("seed", [*range(22), *TELLING])
def test_product_agrees_with_twin(seed: int) -> None:
    """Seats, notches and posts are the twin's."""
    project = projects(seed)
    assert agrees(project, product_value(project))


@pytest.mark.sweep
@pytest.mark.parametrize("seed", range(22, 222))
def test_product_agrees_with_twin_on_many(seed: int) -> None:
    """The same on a wide sample."""
    project = projects(seed)
    assert agrees(project, product_value(project))


@pytest.mark.parametrize("seed", [0, 1, 3, 5, 9, 10, 12, 13, 14, 16, 24, 25, 28, 29])
def test_twin_agrees_with_trying_everything(seed: int) -> None:
    """The twin is right where every place can be tried."""
    project = tiny_projects(seed)
    assert agrees(project, tried_value(project))


@pytest.mark.sweep
@pytest.mark.parametrize("seed", range(30, 150))
def test_twin_agrees_with_trying_everything_on_many(seed: int) -> None:
    """The same on a wide sample."""
    project = tiny_projects(seed)
    assert agrees(project, tried_value(project))


@pytest.mark.parametrize("seed", [1, 3, 5, 10, 12, 24, 28, 29])
def test_product_agrees_with_trying_everything(seed: int) -> None:
    """The product too, without the twin in between where the room is square."""
    project = tiny_projects(seed)
    assert is_skew(project) or product_value(project) == tried_value(project)
    assert agrees(project, product_value(project))


def tried_value(project: Project) -> Value:
    """What trying everything finds, on the same scale."""
    found = best_by_trying(project)
    return NOTHING if found is None else (found[0], -found[1], -found[2])


def test_random_projects_hold_what_they_promise() -> None:
    """The sample repeats, and holds every sort of room, wish and outcome."""
    many = [projects(seed) for seed in range(60)]
    assert many == [projects(seed) for seed in range(60)]
    assert {len(project.room.edges) for project in many} == {4, 5, 6, 8}
    assert any(is_skew(project) for project in many)
    assert {len(project.room.routes) for project in many} >= {0, 1, 2}
    assert {project.wish.against is None for project in many} == {True, False}
    values = [twin_value(twin(projects(seed))) for seed in (*range(22), *TELLING)]
    assert NOTHING in values
    assert len({value[0] for value in values}) >= 7
    assert any(value[1] for value in values)


def test_directions_lie_within_a_millionth() -> None:
    """The twin's own directions are exact rotations, near enough to their edges."""
    for seed in range(60):
        project = projects(seed)
        for view in views(project):
            assert view.cos**2 + view.sin**2 == 1
            assert view.edge is None or turn_error(view, view.edge) < 1e-6


def test_parting_directions_measure_distance() -> None:
    """Boxes and convex things are as far apart as shapely says."""
    random = Random(5)
    decided = 0
    for _ in range(400):
        hull = shapely.MultiPoint([(random.randint(0, 30), random.randint(0, 30)) for _ in range(5)]).convex_hull
        x, y = random.randint(-30, 50), random.randint(-30, 50)
        wide, deep, distance = random.randint(1, 20), random.randint(1, 20), random.randint(0, 12)
        if hull.area == 0:
            continue
        ring = shapely.orient_polygons(hull).exterior.coords[:-1]
        points = tuple((Fraction(round(a)), Fraction(round(b))) for a, b in ring)
        cones = [part for cone in polygon(points) for part in fine(cone)]
        spots = [(x + wide * cone.corner[0], y + deep * cone.corner[1]) for cone in cones]
        box = shapely.box(x, y, x + wide, y + deep)
        touching = box.intersection(hull).area > 1e-9
        gap = box.distance(hull)
        if abs(gap - distance) > 1e-6 or distance == 0:
            decided += 1
            assert apart(cones, spots, Fraction(distance)) == (gap >= distance and not touching)
    assert decided > 300
