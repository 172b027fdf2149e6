"""A room seen in a mirror takes the same seats, with left for right."""

from __future__ import annotations

from dataclasses import replace

import pytest
from answers import answer, rank
from random_projects import is_skew, projects

from fitter.checking import check_layout
from fitter.domain.project import Project
from fitter.domain.wishes import Objective, Side, Wish
from fitter.model import solve
from rooms.room import Edge, Obstacle, Point, Room

_OTHER = {Side.LEFT: Side.RIGHT, Side.RIGHT: Side.LEFT, None: None}
_POSTS = (Objective.POSTS, Objective.LENGTHS, Objective.CLOSE)
"""An odd half mark goes to the high side in either room, so that lengths of rails may differ by one."""


def mirrored(project: Project) -> Project:
    """The project with its room turned over about the y axis."""
    room = project.room
    turned = Room(
        corners=tuple((name, _over(point)) for name, point in room.corners),
        edges=tuple(_edge(edge) for edge in room.edges),
        openings=room.openings,
        obstacles=tuple(_obstacle(obstacle) for obstacle in room.obstacles),
        routes=room.routes,
        tolerance=room.tolerance,
    )
    return replace(project, room=turned, wish=_wish(project.wish))


def _edge(edge: Edge) -> Edge:
    """Still with the room on its left, so that it now runs from its other corner."""
    return replace(edge, start=_over(edge.end), end=_over(edge.start), forward=not edge.forward)


def _over(point: Point) -> Point:
    return Point(-point.x, point.y)


def _obstacle(obstacle: Obstacle) -> Obstacle:
    return replace(obstacle, core=tuple(_over(point) for point in reversed(obstacle.core)))


def _wish(wish: Wish) -> Wish:
    return replace(wish, hand=_OTHER[wish.hand], left_end=wish.right_end, right_end=wish.left_end)


SQUARE_ROOMS = [seed for seed in range(300) if not is_skew(projects(seed))]
"""Their corners lie on whole marks, so that the places counted from either end of an edge are the same ones."""


def same_in_the_mirror(seed: int) -> None:
    """Seats, notches and purchases, as far as they are preferred to posts."""
    project = projects(seed)
    turned = mirrored(project)
    assert mirrored(turned) == project
    found = solve(turned)
    assert found.verdict is answer(seed).verdict
    assert rank(found, turned, but=_POSTS) == rank(answer(seed), project, but=_POSTS)
    if found.layout is not None:
        assert list(check_layout(turned, found.layout)) == []


@pytest.mark.parametrize("seed", SQUARE_ROOMS[:6])
def test_mirrored_room_takes_the_same_seats(seed: int) -> None:
    same_in_the_mirror(seed)


@pytest.mark.sweep
@pytest.mark.parametrize("seed", SQUARE_ROOMS[6:80])
def test_mirrored_room_takes_the_same_seats_wide(seed: int) -> None:
    same_in_the_mirror(seed)
