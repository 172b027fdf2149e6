"""The product against CP-SAT, and CP-SAT against trying everything."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from random import Random

import pytest
import shapely
from bays import Spacing
from cones import apart, fine, polygon
from exhaustive import Tried, best_by_trying
from frames import turn_error, views
from random_projects import WALLED, is_skew, owned_projects, projects, tiny_projects
from twin import COUNTED, TwinAnswer, best_answer, counted

from fitter.domain.layout import Layout, Verdict
from fitter.domain.project import Project
from fitter.domain.wishes import CornerKind, Objective, Shape
from fitter.model import solve
from rooms.lengths import ZERO
from rooms.room import Height

Value = tuple[int, ...]
NOTHING: Value = ()
"""Less than any other value."""
HAIR = Fraction(1, 100)
"""Marks. A rational direction 1e-6 rad off its edge moves a corner 300 in away by 0.005 marks, so two right
models whose directions differ may part where a fit is exact to this."""

FEW = (0, 1, 2, 3, 7, 8, 9, 10, 11, 12, 22, 23, 25, 28, 31, 37, 38)
SLOW = 83
"""Free standing over a low thing with few seats: proving the fewest rail lengths takes the product many minutes."""
MANY = [seed for seed in range(240) if seed != SLOW]
TINY = (4, 5, 7, 8, 9, 10, 12, 22, 24)
MANY_TINY = range(160)


def judged(project: Project) -> tuple[Objective, ...]:
    """The objectives that both judge: those before the first that the twin does not know."""
    found: list[Objective] = []
    for objective in project.wish.prefer:
        if objective not in COUNTED:
            break
        found.append(objective)
    return tuple(found)


def twin_value(project: Project, answer: TwinAnswer) -> Value:
    """Greater is better, in the order of the wish."""
    if answer.verdict == "impossible":
        return NOTHING
    return tuple(answer.value(objective) for objective in judged(project))


def low_corners(layout: Layout) -> int:
    """Corners where the backs are joined to each other above a short post."""
    joined = layout.corner in (CornerKind.ANGLE_POST, CornerKind.LOW_POST)
    return len(layout.runs) - 1 if joined else 0


def layout_value(project: Project, layout: Layout) -> Value:
    """The same of a layout."""
    found = {
        Objective.SEATS: layout.seats,
        Objective.TALL: -low_corners(layout),
        Objective.WHOLE: -layout.notches,
        Objective.BUY: -sum(purchase.buy for purchase in layout.purchases),
        Objective.POSTS: -len(layout.posts),
    }
    return tuple(found[objective] for objective in judged(project))


def product_value(project: Project) -> Value:
    """What the product proves."""
    answer = solve(project)
    if answer.layout is None:
        assert answer.verdict is Verdict.IMPOSSIBLE
        return NOTHING
    assert answer.verdict is Verdict.PROVEN
    return layout_value(project, answer.layout)


@cache
def tried(seed: int) -> Tried | None:
    """What trying everything finds in a tiny room."""
    return best_by_trying(tiny_projects(seed))


def tried_value(seed: int) -> Value:
    """The same as a value that the twin judges too."""
    found = tried(seed)
    if found is None:
        return NOTHING
    return tuple(found.worth[COUNTED.index(objective)] for objective in judged(tiny_projects(seed)))


_known: dict[str, TwinAnswer] = {}
_asked: list[str] = []
_excused: list[str] = []


def twin(project: Project) -> TwinAnswer:
    """The twin's answer, asked once for each title (a random project's title holds its seed)."""
    if project.title not in _known:
        _known[project.title] = best_answer(project)
    return _known[project.title]


def agrees(project: Project, value: Value) -> bool:
    """Whether the twin finds the same; in skew rooms, or lies on both sides of it when nudged by a hair.

    In a skew room whose tolerance is whole marks the back may stand exactly on the tolerance, and which
    way a direction was rounded decides. A hair more distance and a hair less then enclose every right answer.
    """
    _asked.append(project.title)
    if twin_value(project, twin(project)) == value:
        return True
    if not is_skew(project):
        return False
    _excused.append(project.title)
    less, more = (twin_value(project, best_answer(project, nudge)) for nudge in (HAIR, -HAIR))
    return less <= value <= more


@pytest.mark.parametrize("seed", FEW)
def test_product_agrees_with_twin(seed: int) -> None:
    """Seats, notches, cushions to buy and posts are the twin's."""
    project = projects(seed)
    assert agrees(project, product_value(project))


@pytest.mark.sweep
@pytest.mark.parametrize("seed", [seed for seed in MANY if seed not in FEW])
def test_product_agrees_with_twin_on_many(seed: int) -> None:
    """The same on a wide sample."""
    project = projects(seed)
    assert agrees(project, product_value(project))


@pytest.mark.parametrize("seed", [9, 70, 79])
def test_product_agrees_with_twin_where_a_thin_wall_stands(seed: int) -> None:
    """In rooms with a closet, or a wall that stands into them, doors in it too."""
    project = projects(seed, WALLED)
    assert agrees(project, product_value(project))


@pytest.mark.sweep
@pytest.mark.parametrize("seed", [18, *range(100, 200)])
def test_product_agrees_with_twin_where_a_thin_wall_stands_in_many(seed: int) -> None:
    """The same on a wide sample."""
    project = projects(seed, WALLED)
    assert agrees(project, product_value(project))


@pytest.mark.parametrize("seed", TINY)
def test_product_and_twin_agree_with_trying_everything(seed: int) -> None:
    """Where every place can be tried: the twin is right, and the product too, without the twin in between."""
    project = tiny_projects(seed)
    assert agrees(project, tried_value(seed))
    if not is_skew(project):
        check_product_against_trying(seed)


@pytest.mark.sweep
@pytest.mark.parametrize("seed", [seed for seed in MANY_TINY if seed not in TINY])
def test_twin_agrees_with_trying_everything_on_many(seed: int) -> None:
    """The same on a wide sample."""
    project = tiny_projects(seed)
    assert agrees(project, tried_value(seed))


def check_product_against_trying(seed: int) -> None:
    """All seven objectives, as far as they come in the order in which trying everything knows them."""
    project = tiny_projects(seed)
    answer, found = solve(project), tried(seed)
    if found is None or answer.layout is None:
        assert (found is None) == (answer.layout is None)
        return
    assert layout_value(project, answer.layout) == tried_value(seed)
    if len(judged(project)) == len(COUNTED):
        assert project.wish.prefer[5:] == (Objective.LENGTHS, Objective.CLOSE)
        assert len(answer.layout.rail_lengths) == -found.worth[5]
        assert answer.layout.off_edge.units / project.mark.units == pytest.approx(found.off)


SQUARE = [seed for seed in MANY_TINY if not is_skew(tiny_projects(seed))]
"""Rooms where floats and exact directions are the same, so that nothing has to be excused."""


@pytest.mark.sweep
@pytest.mark.parametrize("seed", [seed for seed in SQUARE if seed not in TINY])
def test_product_agrees_with_trying_everything_on_many(seed: int) -> None:
    """The same on a wide sample."""
    check_product_against_trying(seed)


@pytest.mark.parametrize("seed", [2, 3, 9])
def test_product_agrees_with_twin_about_owned_cushions(seed: int) -> None:
    """Where kinds that are in the shed are used up before any is bought."""
    project = owned_projects(seed)
    assert agrees(project, product_value(project))


@pytest.mark.sweep
@pytest.mark.parametrize("seed", [7, *range(10, 130)])
def test_product_agrees_with_twin_about_owned_cushions_in_many(seed: int) -> None:
    """The same on a wide sample."""
    project = owned_projects(seed)
    assert agrees(project, product_value(project))


def test_few_answers_are_excused() -> None:
    """Fits that are exact to a hair are rare, so that the excuse hides nothing (counts what ran before)."""
    assert len(set(_excused)) <= 1 + len(set(_asked)) // 25


def test_random_projects_hold_what_they_promise() -> None:
    """The sample repeats, and holds every sort of room, cushion and wish."""
    many = [projects(seed) for seed in range(120)]
    assert many == [projects(seed) for seed in range(120)]
    assert {len(project.room.edges) for project in many} == {4, 5, 6, 8}
    assert any(is_skew(project) for project in many)
    assert {len(project.room.routes) for project in many} >= {0, 1, 2}
    things = [thing for project in many for thing in project.room.obstacles]
    assert {thing.height for thing in things} == set(Height)
    assert any(thing.hole for thing in things)
    kinds = [cushion for project in many for cushion in project.cushions]
    assert {(kind.own is None, kind.price is None) for kind in kinds} == {(a, b) for a in (0, 1) for b in (0, 1)}
    wishes = [project.wish for project in many]
    assert {wish.shape for wish in wishes} == {None, *Shape}
    assert {wish.against is None for wish in wishes} == {True, False}
    assert any(wish.left_end is not wish.right_end for wish in wishes)
    assert {wish.prefer[0] for wish in wishes} == set(COUNTED)
    assert {wish.corner for wish in wishes} == {None, *CornerKind}
    assert {wish.buy_most is None for wish in wishes} == {True, False}
    frames = [project.frame for project in many]
    assert {frame.overhang > ZERO for frame in frames} == {frame.backs_meet for frame in frames} == {True, False}
    eases = [{cushion.ease for cushion in project.cushions} for project in many]
    assert {len(some) > 1 for some in eases} == {True, False}


def test_answers_of_random_projects_are_of_many_sorts() -> None:
    """The default sample tells much: some are impossible, some are notched, bought and propped."""
    answers = [twin(projects(seed)) for seed in FEW]
    assert {answer.verdict for answer in answers} == {"feasible", "impossible"}
    assert len({answer.seats for answer in answers}) >= 7
    assert any(answer.notches for answer in answers)
    assert any(answer.buy for answer in answers)
    assert len({answer.posts for answer in answers}) >= 5


def test_the_order_of_the_wish_is_kept() -> None:
    """All five are judged, the named ones first."""
    for seed in range(40):
        order = counted(projects(seed))
        assert sorted(order) == sorted(COUNTED)
        assert order[: len(judged(projects(seed)))] == judged(projects(seed))


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
        cones = [part for cone in polygon(points) for part in fine(cone, Fraction(distance))]
        spots = [(x + wide * cone.corner[0], y + deep * cone.corner[1]) for cone in cones]
        box = shapely.box(x, y, x + wide, y + deep)
        touching = box.intersection(hull).area > 1e-9
        gap = box.distance(hull)
        if abs(gap - distance) > 1e-6 or distance == 0:
            decided += 1
            assert apart(cones, spots, Fraction(distance)) == (gap >= distance and not touching)
    assert decided > 300


def _openings(spacing: Spacing, gap: int, posts: list[int], stop: int) -> Iterator[int]:
    start = -gap
    for k in posts:
        at = k * spacing.pitch - (spacing.low if k == 0 else 0) + (spacing.high if k == spacing.count else 0)
        yield at - spacing.before - start
        start = at + spacing.after
    yield stop - start


@pytest.mark.parametrize("limit", range(8, 60, 3))
def test_windows_are_what_posts_need(limit: int) -> None:
    """A choice of posts leaves no opening too long if and only if every window holds a post.

    At corner places the first or last line's post stands nearer to the corner.
    """
    lines = ((1, 3, 0, 0, 0, 0), (0, 3, 4, 0, 0, 0), (0, 4, 7, 3, 0, 0), (1, 4, 0, 9, 0, 0))
    nearer = ((0, 3, 4, 0, 2, 0), (0, 4, 7, 8, 3, 3), (1, 4, 0, 9, 0, 4), (1, 3, 2, 2, 0, 0))
    for first, last, gap, more, low, high in (*lines, *nearer):
        spacing = Spacing(pitch=10, before=1, after=2, limit=limit, low=low, high=high, count=4)
        stop = 40 + more
        ends = (spacing.after_start(first, last, gap), spacing.before_stop(first, last, stop))
        windows = [*spacing.between(first, last), *(window for window in ends if window is not None)]
        for chosen in range(1 << (last + 1 - first)):
            posts = [k for k in range(first, last + 1) if chosen >> (k - first) & 1]
            good = all(length <= limit for length in _openings(spacing, gap, posts, stop))
            held = all(any(k in window for k in posts) for window in windows)
            assert good == (held and (bool(posts) or stop + gap <= limit))


def test_fewest_posts_are_the_fewest() -> None:
    """The greedy count is that of trying every choice."""
    for limit in range(5, 45):
        spacing = Spacing(pitch=10, before=1, after=2, limit=limit)
        for count in range(1, 6):
            choices = [[k for k in range(1, count) if chosen >> k & 1] for chosen in range(0, 1 << count, 2)]
            fits = [len(posts) for posts in choices if max(_openings(spacing, 0, posts, 10 * count)) <= limit]
            assert spacing.fewest(count) == min(fits, default=None)
