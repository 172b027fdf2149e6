"""The forbidden ground covers all that lies outside, and nothing of the inside."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from math import cos, pi, sin

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from fitter.model.frames import rational_direction
from fitter.model.pieces import Piece, convex_parts, pieces
from rooms.lengths import Length
from rooms.room import Edge, EdgeKind, Height, Obstacle, Point, Room

Star = list[tuple[int, int]]


def star(radii: list[int]) -> Star:
    """A star-shaped outline, anticlockwise, one corner for each radius."""
    turn = 2 * pi / len(radii)
    return [(round(r * cos(n * turn)), round(r * sin(n * turn))) for n, r in enumerate(radii)]


def room(corners: Star) -> Room:
    """A room with walls all round."""
    points = [Point(Length(x), Length(y)) for x, y in corners]
    names = [f"P{n}" for n in range(len(points))]
    edges = tuple(
        Edge(names[n] + names[(n + 1) % len(points)], EdgeKind.WALL, points[n], points[(n + 1) % len(points)])
        for n in range(len(points))
    )
    return Room(tuple(zip(names, points, strict=True)), edges)


@settings(derandomize=True, deadline=None, max_examples=30, database=None)
@given(st.lists(st.integers(2_000, 90_000), min_size=4, max_size=14))
def test_inside_and_outside_make_the_whole(radii: list[int]) -> None:
    corners = star(radii)
    inside = shapely.Polygon(corners)
    shapes = []
    for piece in pieces(room(corners)):
        spots = [(p.x.units, p.y.units) for p in piece.points]
        if piece.half_plane:
            (ax, ay), (bx, by) = spots
            size = 400_000 / ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5
            ux, uy = (bx - ax) * size, (by - ay) * size
            spots = [(ax - ux, ay - uy), (bx + ux, by + uy), (bx + ux + uy, by + uy - ux), (ax - ux + uy, ay - uy - ux)]
        shapes.append(shapely.Polygon(spots))
    assert all(shape.intersection(inside).area < 1e-6 * inside.area for shape in shapes)
    grid = [shapely.Point(x, y) for x in range(-99_000, 100_000, 6_001) for y in range(-99_000, 100_000, 6_007)]
    for spot in grid:
        near = spot.distance(inside.exterior) < 1
        assert near or inside.contains(spot) != any(shape.covers(spot) for shape in shapes)


@settings(derandomize=True, deadline=None, max_examples=80, database=None)
@given(st.lists(st.integers(2_000, 90_000), min_size=3, max_size=14))
def test_parts_are_convex_and_fill_the_polygon(radii: list[int]) -> None:
    corners = star(radii)
    whole = shapely.Polygon(corners)
    parts = [
        shapely.Polygon([(p.x.units, p.y.units) for p in part])
        for part in convex_parts([Point(Length(x), Length(y)) for x, y in corners])
    ]
    assert abs(sum(part.area for part in parts) - whole.area) < 1e-6 * whole.area
    assert all(part.convex_hull.area - part.area < 1e-6 * whole.area for part in parts)


@settings(derandomize=True, deadline=None, max_examples=80, database=None)
@given(st.lists(st.integers(2_000, 90_000), min_size=4, max_size=80))
def test_no_two_parts_could_be_one(radii: list[int]) -> None:
    """Fewer pieces make a smaller question: parts that share a side leave a corner there that turns inward."""
    corners = star(radii)
    cut = convex_parts([Point(Length(x), Length(y)) for x, y in corners])
    parts = [shapely.Polygon([(p.x.units, p.y.units) for p in part]) for part in cut]
    for one, other in combinations(parts, 2):
        if one.intersection(other).length > 1:
            whole = one.union(other)
            assert whole.convex_hull.area - whole.area > 0.5


@pytest.mark.parametrize(
    ("height", "hole", "seats", "legs", "feet_only"),
    [
        (Height.FULL, False, 59, 19, False),
        (Height.REACH, False, 59, 19, False),
        (Height.FULL, True, 59, 19, False),
        (Height.LOW, False, 59, None, True),
    ],
)
def test_what_keeps_off_an_obstacle(height: Height, hole: bool, seats: int, legs: int | None, feet_only: bool) -> None:
    """Radius 12, tolerance 7, clear 40: leg room may lie in the clear zone, and on what is low; feet may not."""
    clear, radius = Length(40), Length(12)
    thing = Obstacle("thing", (Point(Length(500), Length(500)),), radius, clear, height=height, hole=hole)
    around = replace(room([(0, 0), (1000, 0), (0, 1000)]), obstacles=(thing,), tolerance=Length(7))
    found = [piece for piece in pieces(around) if "obstacle:thing" in piece.facts]
    keep = None if legs is None else Length(legs)
    assert found == [Piece(thing.core, ("obstacle:thing",), Length(seats), keep, feet_only=feet_only)]


@settings(derandomize=True, deadline=None, max_examples=200, database=None)
@given(st.integers(-(10**7), 10**7), st.integers(-(10**7), 10**7))
def test_directions_are_rational_and_near(dx: int, dy: int) -> None:
    if dx == dy == 0:
        return
    c, s = rational_direction(dx, dy)
    assert c * c + s * s == 1
    across = float(c) * dy - float(s) * dx
    along = float(c) * dx + float(s) * dy
    assert along > 0
    assert abs(across) <= 1.0e-6 * along
