"""Layout frames: for each edge direction a rational rotation, so that all geometry stays in integers."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from math import hypot

from fitter.domain.layout import Pose, Side
from fitter.domain.project import Project
from fitter.domain.wishes import Shape
from rooms.lengths import Length
from rooms.room import Edge, Point, Room

Vector = tuple[int, int]
ANGLE = 1e-6  # rad; the greatest turn between an edge and the frame that stands for it


@dataclass(frozen=True)
class Mount:
    """One way to lie along an edge, or to stand free, in a frame that it may share with others.

    Args:
        number: in the order of all mounts: edges in file order, the main run aligned before the right and the left arm.
        pose: rotation, and an origin of its own.
        dx: marks from the frame's origin to this one's, along x.
        dy: the same along y.
        reach: twice the length of the backing edge in marks, rounded down; None when free standing.
        low: marks from the origin down to the lowest y of the outline; 0 with a backing edge.
    """

    number: int
    pose: Pose
    dx: int = 0
    dy: int = 0
    reach: int | None = None
    low: int = 0


@dataclass(frozen=True)
class Frame:
    """A layout frame with integer coordinates.

    A point's *fine* coordinates count 1/(8128 × scale) in, which makes every rotated corner whole.

    Args:
        pose: the rotation and origin, those of its first mount.
        scale: fine units per unit of length.
        mark: fine units per shop mark.
        mounts: all that share its rotation and lie whole marks apart.
    """

    pose: Pose
    scale: int
    mark: int
    mounts: tuple[Mount, ...]

    def fine(self, point: Point) -> Vector:
        """A point of the room in fine coordinates of this frame."""
        return _fine(self.pose, self.scale, point)

    def mount(self, number: int) -> Mount:
        """The mount of that number."""
        return next(mount for mount in self.mounts if mount.number == number)


def frames(project: Project) -> tuple[Frame, ...]:
    """Every frame that the wishes allow, in the order of their first mounts.

    Mounts share a frame where they can: what is learned for one then holds for all.
    """
    found: list[Frame] = []
    for mount in _free_mounts(project) if project.wish.against is None else _edge_mounts(project):
        pose, scale = mount.pose, mount.pose.cos.denominator
        mark = project.mark.units * scale
        for n, frame in enumerate(found):
            x, y = frame.fine(pose.origin)
            if (frame.pose.cos, frame.pose.sin) == (pose.cos, pose.sin) and x % mark == y % mark == 0:
                found[n] = replace(frame, mounts=(*frame.mounts, replace(mount, dx=x // mark, dy=y // mark)))
                break
        else:
            found.append(Frame(pose, scale, mark, (mount,)))
    return tuple(found)


def mount_number(project: Project, pose: Pose) -> int:
    """The place of a layout's mount in the order of all of them, by which equal answers are ordered."""
    key = (pose.cos, pose.sin, pose.edge, pose.aligned)
    mounts = (mount for frame in frames(project) for mount in frame.mounts)
    return next(m.number for m in mounts if (m.pose.cos, m.pose.sin, m.pose.edge, m.pose.aligned) == key)


def _edge_mounts(project: Project) -> list[Mount]:
    wish = project.wish
    # Only in a U may another run than the main one be the longest.
    aligned = (Side.MAIN, Side.RIGHT, Side.LEFT) if wish.shape in (None, Shape.U) else (Side.MAIN,)
    edges = [edge for edge in project.room.edges if edge.name in (wish.against or ())]
    pairs = [(edge, side) for edge in edges for side in aligned]
    return [_edge_mount(project, n, edge, side) for n, (edge, side) in enumerate(pairs)]


def _edge_mount(project: Project, number: int, edge: Edge, aligned: Side) -> Mount:
    cos, sin = rational_direction(*_vector(edge))
    scale = cos.denominator
    reach = 2 * _fine(Pose(edge.start, cos, sin, edge.name), scale, edge.end)[0] // (project.mark.units * scale)
    if aligned is Side.RIGHT:  # the right arm looks along +x, and away from the edge
        cos, sin = -sin, cos
    elif aligned is Side.LEFT:
        cos, sin = sin, -cos
    return Mount(number, Pose(edge.start, cos, sin, edge.name, aligned), reach=reach)


def _free_mounts(project: Project) -> list[Mount]:
    found: dict[tuple[Fraction, Fraction], Mount] = {}
    for edge in project.room.edges:
        cos, sin = rational_direction(*_vector(edge))
        for _ in range(4):
            if (cos, sin) not in found:
                pose, scale = Pose(edge.start, cos, sin, None), cos.denominator
                lowest = min(_fine(pose, scale, point)[1] for point in project.room.outline)
                low = lowest // (project.mark.units * scale)
                found[cos, sin] = Mount(len(found), pose, low=low)
            cos, sin = -sin, cos
    return list(found.values())


def _fine(pose: Pose, scale: int, point: Point) -> Vector:
    dx, dy = point.x.units - pose.origin.x.units, point.y.units - pose.origin.y.units
    cos, sin = int(pose.cos * scale), int(pose.sin * scale)
    return dx * cos + dy * sin, dy * cos - dx * sin


def _vector(edge: Edge) -> Vector:
    return edge.end.x.units - edge.start.x.units, edge.end.y.units - edge.start.y.units


def rational_direction(dx: int, dy: int) -> tuple[Fraction, Fraction]:
    """A rational unit vector within 1e-6 rad of (dx, dy), exact along the axes.

    Every rational t gives the point ((1 - t²)/(1 + t²), 2t/(1 + t²)) of the unit circle, where t is the
    tangent of half the angle (the classical parametrisation of Pythagorean triples).

    >>> rational_direction(4, 3)
    (Fraction(4, 5), Fraction(3, 5))
    """
    turns = 0
    while not dx >= abs(dy):  # quarter turns bring the angle within 45° of +x, where t is small
        dx, dy, turns = dy, -dx, turns + 1
    half = Fraction(dy / (hypot(dx, dy) + dx)) if dy else Fraction(0)
    # d(angle) = 2 dt / (1 + t²) <= 2 dt; a quarter of the allowance also covers the float's own error.
    limit, near = 16, half.limit_denominator(16)
    while abs(near - half) > ANGLE / 4:
        limit *= 2
        near = half.limit_denominator(limit)
    cos, sin = (1 - near * near) / (1 + near * near), 2 * near / (1 + near * near)
    for _ in range(turns):
        cos, sin = -sin, cos
    return cos, sin


def around(room: Room) -> int:
    """Half the way round the room's bounding box, in units: no two of its points are farther apart."""
    xs, ys = [p.x.units for p in room.outline], [p.y.units for p in room.outline]
    return max(xs) - min(xs) + max(ys) - min(ys)


def marks(length: Length, mark: Length) -> int:
    """A length in whole shop marks, rounded up."""
    return -(-length.units // mark.units)
