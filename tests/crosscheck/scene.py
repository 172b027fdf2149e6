"""All that stays put in a project, seen from one layout frame as convex things to keep away from."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

from cones import Cone, Dir, direction, polygon, root_above
from frames import Outside, Ring, View, convex_obstacle, outline, outside, swing
from lanes import Lane, lanes

from fitter.domain.project import Project
from rooms.lengths import Length
from rooms.room import Height, Obstacle


@dataclass(frozen=True)
class Thing:
    """A convex thing in one frame, and how far boxes keep from it."""

    cones: tuple[Cone, ...]
    distance: Fraction


@dataclass(frozen=True)
class Way:
    """A route in one frame: what is left, what is right, and each obstacle in its way with the colours it may take."""

    left: tuple[Thing, ...]
    right: tuple[Thing, ...]
    obstacles: tuple[tuple[Thing, ...], ...]
    lane: Lane


@dataclass(frozen=True)
class Scene:
    """What boxes keep away from, by what the boxes are.

    Args:
        view: the frame.
        planes: half planes that hold the room: inward normal, a point on the line.
        margin: how far inside those every box stays.
        hard: for all that stands or overhangs.
        open: for leg room.
        low: for feet.
        ways: routes.
        reach: least and greatest x, then y, of the room.
    """

    view: View
    planes: tuple[tuple[Dir, tuple[Fraction, Fraction]], ...]
    margin: Fraction
    hard: tuple[Thing, ...]
    open: tuple[Thing, ...]
    low: tuple[Thing, ...]
    ways: tuple[Way, ...]
    reach: tuple[int, int, int, int]


class Ground:
    """What a project's room is in any frame; made once.

    Args:
        project: the problem.
        nudge: marks added to every distance that must be kept.
    """

    def __init__(self, project: Project, nudge: Fraction) -> None:
        self.project, self.nudge = project, nudge
        self.ring = outline(project.room)
        self.outside: Outside = outside(self.ring)
        self.tall = tuple(o for o in project.room.obstacles if o.height is not Height.LOW)
        self.flat = tuple(o for o in project.room.obstacles if o.height is Height.LOW)
        self.lanes = lanes(project, self.tall)

    @property
    def blocked(self) -> bool:
        """Whether the walls alone close a route."""
        return any(lane.blocked for lane in self.lanes)

    @property
    def tolerance(self) -> Fraction:
        """What every box keeps from walls, in marks."""
        return self._marks(self.project.room.tolerance) + self.nudge

    def _marks(self, length: Length) -> Fraction:
        return Fraction(length.units, self.project.mark.units)

    @property
    def reach(self) -> int:
        """The greatest distance within the room, in marks: no run is longer."""
        longest = max((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2 for a in self.ring for b in self.ring)
        return ceil(root_above(longest) / self.project.mark.units)

    def seen(self, view: View) -> Scene:
        """The scene in a frame."""
        room, tolerance = self.project.room, self.tolerance
        pockets = tuple(Thing(polygon(view.ring(pocket)), tolerance) for pocket in self.outside.pockets)
        swings = (swing(view, room, opening) for opening in room.openings)
        ring = view.ring(self.ring)
        xs, ys = [p[0] for p in ring], [p[1] for p in ring]
        return Scene(
            view=view,
            planes=tuple((_turned(view, u), view.see(at)) for u, at in self.outside.planes),
            margin=tolerance,
            hard=(
                *pockets,
                *(thing for o in self.tall for thing in _things(view, o, tolerance + self._marks(o.clear))),
                *(Thing(cones, tolerance) for cones in swings if cones is not None),
            ),
            open=(*pockets, *(thing for o in self.tall for thing in _things(view, o, tolerance))),
            low=tuple(thing for o in self.flat for thing in _things(view, o, tolerance + self._marks(o.clear))),
            ways=tuple(self._way(view, lane) for lane in self.lanes),
            reach=(floor(min(xs)), ceil(max(xs)), floor(min(ys)), ceil(max(ys))),
        )

    def _way(self, view: View, lane: Lane) -> Way:
        past = Fraction(lane.past, view.mark) + self.nudge

        def walls(pieces: tuple[Ring, ...]) -> tuple[Thing, ...]:
            return tuple(Thing(polygon(view.ring(_no_point_twice(piece))), past) for piece in pieces)

        return Way(walls(lane.left), walls(lane.right), tuple(_things(view, o, past) for o in self.tall), lane)


def _turned(view: View, u: Dir) -> Dir:
    return direction(view.cos * u[0] + view.sin * u[1], view.cos * u[1] - view.sin * u[0])


def _no_point_twice(piece: Ring) -> Ring:
    return piece[:1] if piece[0] == piece[-1] else piece


def _things(view: View, obstacle: Obstacle, distance: Fraction) -> tuple[Thing, ...]:
    core = tuple((Fraction(p.x.units), Fraction(p.y.units)) for p in obstacle.core)
    return tuple(Thing(cones, distance) for cones in convex_obstacle(view, core, Fraction(obstacle.radius.units)))
