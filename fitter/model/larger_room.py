"""Whether one room holds every layout that another one holds, though some of its corners lie elsewhere.

A layout stands in the frame of its backing edge, so each edge that may back one is looked at for itself: the smaller
room is laid into the larger one by a shift that keeps the edge in its line. Then every layout there stays where it is
in that frame, as long as

- the shift is whole shop marks along the edge, so that places stay on the mark, and none across it, so that the
  distance from the edge stays;
- the smaller edge lies within the larger one, so that no less of the run lies over it;
- the smaller outline lies within the larger one: what keeps a distance from everything outside the smaller room
  keeps it from everything outside the larger one;
- every obstacle of the larger room lies within the same one of the smaller room, all its distances alike;
- every door leaf sweeps the same ground;
- the banks of every route begin and end in the same places: a disc that travels in the smaller room travels in the
  larger one, which only has more free ground.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import shapely
from shapely.geometry.base import BaseGeometry

from fitter.domain.project import Project
from fitter.model.banks import DUST, banks, xy
from fitter.model.frames import rational_direction
from rooms.lengths import Length
from rooms.room import Edge, Obstacle, Point, Room, Swing

Shift = tuple[int, int]
"""Units in the room frame."""


def holds_all(large: Project, small: Project) -> bool:
    """Whether every layout of the smaller room, as it is, stands in the larger one too.

    Args:
        large: with the larger room.
        small: the same but for its room.
    """
    edges = large.wish.against
    one, other = small.room, large.room
    if edges is None or not _alike(one, other):
        return False
    return all(any(_holds(other, one, name, shift, large) for shift in _shifts(other, one, name)) for name in edges)


def _alike(one: Room, other: Room) -> bool:
    """Whether both have the same parts with the same names, wherever these lie."""
    return (
        [(edge.name, edge.kind, edge.forward) for edge in one.edges]
        == [(edge.name, edge.kind, edge.forward) for edge in other.edges]
        and [(thing.name, thing.swing) for thing in one.openings]
        == [(thing.name, thing.swing) for thing in other.openings]
        and [_bare(thing) for thing in one.obstacles] == [_bare(thing) for thing in other.obstacles]
        and one.routes == other.routes
        and one.tolerance == other.tolerance
    )


def _bare(obstacle: Obstacle) -> Obstacle:
    return replace(obstacle, core=())


def _shifts(large: Room, small: Room, name: str) -> Iterator[Shift]:
    """Ways to lay one room into the other: as it lies, with the edges' first corners together, or their second ones."""
    one, other = small.edge(name), large.edge(name)
    yield from dict.fromkeys(((0, 0), _between(one.start, other.start), _between(one.end, other.end)))


def _between(start: Point, end: Point) -> Shift:
    return end.x.units - start.x.units, end.y.units - start.y.units


def _holds(large: Room, small: Room, name: str, shift: Shift, project: Project) -> bool:
    one, other = small.edge(name), large.edge(name)
    return (
        _in_line(one, other, shift, project.mark.units)
        and shapely.covers(_floor(large, (0, 0)), _floor(small, shift))
        and all(
            shapely.covers(_shape(thing, shift), _shape(less, (0, 0)))
            for thing, less in zip(small.obstacles, large.obstacles, strict=True)
        )
        and _same_leaves(large, small, shift)
        and _same_ends(large, small, shift)
    )


def _in_line(one: Edge, other: Edge, shift: Shift, mark: int) -> bool:
    """Whether an edge, shifted, lies within another one, a whole number of marks from its start."""
    (ux, uy), (vx, vy) = _between(one.start, one.end), _between(other.start, other.end)
    cos, sin = rational_direction(vx, vy)
    if ux * vy != uy * vx or rational_direction(ux, uy) != (cos, sin):
        return False
    ahead = [
        (_between(other.start, point)[0] + shift[0], _between(other.start, point)[1] + shift[1])
        for point in (one.start, one.end)
    ]
    if any(x * vy != y * vx for x, y in ahead):
        return False
    # In the frame of the edge, whose direction may be off the edge's own by a millionth.
    along, across = (ahead[0][0] * cos + ahead[0][1] * sin, ahead[0][1] * cos - ahead[0][0] * sin)
    length = vx * vx + vy * vy
    return across == 0 and along % mark == 0 and all(0 <= x * vx + y * vy <= length for x, y in ahead)


def _floor(room: Room, shift: Shift) -> shapely.Polygon:
    return shapely.Polygon([(p.x.units + shift[0], p.y.units + shift[1]) for p in room.outline])


def _shape(obstacle: Obstacle, shift: Shift) -> BaseGeometry:
    """Its polygon or its centre: around both lies the same radius."""
    spots = [(p.x.units + shift[0], p.y.units + shift[1]) for p in obstacle.core]
    return shapely.Polygon(spots) if len(spots) > 2 else shapely.Point(spots[0])


def _same_leaves(large: Room, small: Room, shift: Shift) -> bool:
    swinging = [opening for opening in large.openings if opening.swing is Swing.IN]
    return all(
        large.jambs(opening) == _moved(small.jambs(small.opening(opening.name)), shift)
        and opening.hinge is small.opening(opening.name).hinge
        for opening in swinging
    )


def _moved(points: tuple[Point, ...], shift: Shift) -> tuple[Point, ...]:
    return tuple(Point(Length(p.x.units + shift[0]), Length(p.y.units + shift[1])) for p in points)


def _same_ends(large: Room, small: Room, shift: Shift) -> bool:
    for route in large.routes:
        for bank, other in zip(banks(small, route), banks(large, route), strict=True):
            for end in (0, -1):
                (x, y), (u, v) = xy(bank.points[end]), xy(other.points[end])
                if abs(x + shift[0] - u) > DUST or abs(y + shift[1] - v) > DUST:
                    return False
    return True
