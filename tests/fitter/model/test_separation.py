"""Exact separation against shapely's distances, and relaxed clauses that lose no feasible place."""

from __future__ import annotations

from math import cos, hypot, pi, sin

import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from fitter.model.separation import Ground, Rect, atoms, is_clear

MARK = 7  # fine units per mark; any number shows a slip between the two
SPOT = st.tuples(st.integers(-900, 900), st.integers(-900, 900))
PLACES = st.builds(
    lambda x, y, w, d: Rect(x, y, x + w, y + d),
    st.integers(-130, 130),
    st.integers(-130, 130),
    st.integers(1, 60),
    st.integers(1, 60),
)


def convex(spots: list[tuple[int, int]]) -> tuple[tuple[int, int], ...]:
    """The hull of some spots, anticlockwise; one spot stays one."""
    hull = shapely.MultiPoint(spots).convex_hull
    if hull.geom_type == "Point":
        return ((int(hull.x), int(hull.y)),)
    if hull.geom_type == "LineString":
        return tuple((int(x), int(y)) for x, y in hull.coords)
    ring = shapely.geometry.polygon.orient(hull).exterior.coords[:-1]
    return tuple((int(x), int(y)) for x, y in ring)


def distance(rect: Rect, points: tuple[tuple[int, int], ...]) -> float:
    """Distance by shapely, fine units."""
    box = shapely.box(*(float(side * MARK) for side in rect))
    if len(points) == 1:
        return float(box.distance(shapely.Point(points[0])))
    shape = shapely.LineString(points) if len(points) == 2 else shapely.Polygon(points)
    return float(box.distance(shape))


@settings(derandomize=True, deadline=None, max_examples=400, database=None)
@given(rect=PLACES, spots=st.lists(SPOT, min_size=1, max_size=7), keep=st.integers(1, 500))
def test_clear_is_what_shapely_measures(rect: Rect, spots: list[tuple[int, int]], keep: int) -> None:
    points = convex(spots)
    measured = distance(rect, points)
    assume(abs(measured - keep) > 1e-6)  # a hair that floats cannot decide
    assert is_clear(rect, Ground(points, keep, MARK, 4000)) == (measured > keep)


@settings(derandomize=True, deadline=None, max_examples=300, database=None)
@given(
    rect=PLACES,
    spots=st.lists(SPOT, min_size=1, max_size=7),
    keep=st.integers(0, 500),
    splits=st.lists(st.floats(-pi, pi), max_size=4),
    bits=st.sampled_from([2, 4, 8, 16, 40]),
)
def test_a_clear_place_satisfies_every_clause(
    rect: Rect, spots: list[tuple[int, int]], keep: int, splits: list[float], bits: int
) -> None:
    ground = Ground(convex(spots), keep, MARK, 4000)
    if is_clear(rect, ground):
        assert any(atom.holds(rect) for atom in atoms(ground, splits, bits))


def quarter(hinge: tuple[int, int], leaf: tuple[int, int], keep: int) -> Ground:
    """What a door leaf sweeps that turns anticlockwise."""
    (x, y), (u, v) = hinge, leaf
    arc = round(hypot(u, v))
    return Ground((hinge, (x + u, y + v), (x - v, y + u)), keep, MARK, 4000, arc=arc)


def swept(ground: Ground) -> shapely.Polygon:
    """The same as a polygon of very many sides within the arc."""
    (x, y), (u, v), _ = ground.points
    turns = [pi / 2 * n / 4000 for n in range(4001)]
    way, size = ((u - x) / hypot(u - x, v - y), (v - y) / hypot(u - x, v - y)), ground.arc
    rim = [
        (x + size * (cos(t) * way[0] - sin(t) * way[1]), y + size * (cos(t) * way[1] + sin(t) * way[0])) for t in turns
    ]
    return shapely.Polygon([(x, y), *rim])


LEAVES = st.tuples(st.integers(-400, 400), st.integers(-400, 400)).filter(lambda leaf: hypot(*leaf) > 60)


@settings(derandomize=True, deadline=None, max_examples=1500, database=None)
@given(rect=PLACES, hinge=SPOT, leaf=LEAVES, keep=st.integers(0, 200))
def test_clear_of_a_door_leaf_is_what_shapely_measures(
    rect: Rect, hinge: tuple[int, int], leaf: tuple[int, int], keep: int
) -> None:
    """Longer and shorter than the leaf, before and behind its hinge; a leaf's length is rounded to a unit."""
    ground = quarter(hinge, leaf, keep)
    box, swing = shapely.box(*(float(side * MARK) for side in rect)), swept(ground)
    measured = float(box.distance(swing)) or -(float(box.intersection(swing).area) ** 0.5)
    assume(abs(measured - keep) > 1)
    assert is_clear(rect, ground) == (measured > keep)


@settings(derandomize=True, deadline=None, max_examples=1500, database=None)
@given(
    rect=PLACES,
    hinge=SPOT,
    leaf=LEAVES,
    keep=st.integers(0, 200),
    splits=st.lists(st.floats(-pi, pi), max_size=4),
    bits=st.sampled_from([2, 4, 8, 16, 40]),
)
def test_a_place_clear_of_a_door_leaf_satisfies_every_clause(
    rect: Rect, hinge: tuple[int, int], leaf: tuple[int, int], keep: int, splits: list[float], bits: int
) -> None:
    ground = quarter(hinge, leaf, keep)
    if is_clear(rect, ground):
        assert any(atom.holds(rect) for atom in atoms(ground, splits, bits))


@pytest.mark.parametrize("angle", range(1, 90, 8))
def test_a_corner_may_come_as_near_as_the_arc(angle: int) -> None:
    """Leaf of 1000 units along x, marks of a unit: on a ray from the hinge, the arc is where a corner stops."""
    turn = pi * angle / 180
    ground = Ground(((0, 0), (1000, 0), (0, 1000)), 0, 1, 4000, arc=1000)
    for size in (997, 1003):
        x, y = round(size * cos(turn)), round(size * sin(turn))
        assert is_clear(Rect(x, y, x + 500, y + 500), ground) == (size > 1000)


def test_seats_may_touch_the_leaf_where_it_stands_open_and_where_it_is_hung() -> None:
    ground = Ground(((0, 0), (1000, 0), (0, 1000)), 0, 1, 4000, arc=1000)
    beside = [Rect(-500, 0, 0, 900), Rect(-500, -500, 0, 0), Rect(1000, 0, 1500, 10), Rect(0, 1000, 10, 1500)]
    assert all(is_clear(rect, ground) for rect in beside)
    within = [Rect(0, 0, 10, 10), Rect(-500, 0, 1, 900), Rect(0, 0, 2000, 2000), Rect(-9, 990, 9, 1500)]
    assert not any(is_clear(rect, ground) for rect in within)


def test_the_clause_of_long_coefficients_is_exact_beside_a_wall() -> None:
    ground = Ground(((0, 0), (1000, 7)), 40, MARK, 4000, half_plane=True)
    (atom,) = atoms(ground, (), 40)
    for y in range(-20, 40):
        rect = Rect(0, y, 100, y + 5)
        assert atom.holds(rect) == is_clear(rect, ground)


def test_behind_a_wall_counts_as_clear_only_where_told() -> None:
    wall = ((0, 0), (700, 0))  # the room lies above
    behind = Rect(10, -30, 50, -1)
    assert is_clear(behind, Ground(wall, 300, MARK, 4000, behind=(wall,)))
    assert not is_clear(behind, Ground(wall, 300, MARK, 4000))
    assert not is_clear(Rect(10, 1, 50, 30), Ground(wall, 300, MARK, 4000, behind=(wall,)))
