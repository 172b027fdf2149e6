"""Exact separation against shapely's distances, and relaxed clauses that lose no feasible place."""

from __future__ import annotations

from math import pi

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
