"""The room as a value: outline, edges, openings, obstacles and the routes that must stay open."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from math import isqrt
from typing import TypeVar

from rooms.geometry import Point as Point
from rooms.geometry import signed_area as signed_area
from rooms.lengths import ZERO, Length

_Named = TypeVar("_Named", "Edge", "Opening")


class EdgeKind(StrEnum):
    """What stands along an edge of the outline."""

    WALL = "wall"
    RAILING = "railing"
    OPEN = "open"
    STEP = "step"


class Swing(StrEnum):
    """Which way a door leaf turns; `in` means over the patio, `out` away from it, as into the house."""

    NONE = "none"
    IN = "in"
    OUT = "out"


class Hinge(StrEnum):
    """The jamb that carries the hinges, named after the nearer corner of the edge as written."""

    FIRST = "first"
    SECOND = "second"


class Height(StrEnum):
    """How an obstacle stands in the way: to its full height, flat on the ground, or to be reached."""

    FULL = "full"
    LOW = "low"
    REACH = "reach"


@dataclass(frozen=True)
class Edge:
    """One side of the outline, from `start` to `end` with the room on its left.

    Args:
        name: as in the project file, such as `AB`.
        kind: what stands there.
        start: where the edge begins when the outline is walked anticlockwise.
        end: where it ends.
        forward: whether the first corner of `name` is `start` (False when the tape walked clockwise).
        drop: how far it is down to the ground beyond the edge; None where nothing is said.
        railing: height of its railing above the floor; None where nothing is said.
    """

    name: str
    kind: EdgeKind
    start: Point
    end: Point
    forward: bool = True
    drop: Length | None = None
    railing: Length | None = None

    @property
    def length(self) -> Length:
        """The length of the edge, to the nearest unit below."""
        dx, dy = self.end.x.units - self.start.x.units, self.end.y.units - self.start.y.units
        return Length(isqrt(dx * dx + dy * dy))

    def at(self, distance: Length) -> Point:
        """The point `distance` from `start` along the edge, to the nearest unit."""
        share = Fraction(distance.units, max(self.length.units, 1))
        return Point(
            Length(round(self.start.x.units + share * (self.end.x.units - self.start.x.units))),
            Length(round(self.start.y.units + share * (self.end.y.units - self.start.y.units))),
        )


@dataclass(frozen=True)
class Opening:
    """A door or gate in an edge.

    Args:
        name: as in the project file.
        edge: name of the edge it stands in.
        offset: from the edge's first corner, as written, to the near jamb.
        width: the clear opening.
        swing: which way the leaf turns.
        hinge: the jamb with the hinges.
    """

    name: str
    edge: str
    offset: Length
    width: Length
    swing: Swing = Swing.NONE
    hinge: Hinge = Hinge.FIRST


@dataclass(frozen=True)
class Obstacle:
    """A thing that seats stay off: the points within `radius` of `core`.

    Args:
        name: as in the project file.
        core: corners of a simple polygon, anticlockwise; or the single centre of a round obstacle.
        radius: zero for a polygon.
        clear: distance that seats keep from it.
        open_flame: whether it burns openly (fire bowl, grill).
        height: full: nothing stands there; low (a drain, a hatch): no foot on it, but seats may pass over it and
            people walk on it; reach (a tap, an outlet): full, and the clear ground before it is there to use it.
        hole: whether it is a hole in the ground, part of the room's outline (a tree well, a light well).
    """

    name: str
    core: tuple[Point, ...]
    radius: Length = ZERO
    clear: Length = ZERO
    open_flame: bool = False
    height: Height = Height.FULL
    hole: bool = False

    @property
    def low(self) -> bool:
        """Whether it lies flat, so that only feet keep off it and people walk over it."""
        return self.height is Height.LOW


@dataclass(frozen=True)
class Route:
    """A walkway between two openings that stays open to a disc of diameter `width`."""

    name: str
    start: str
    end: str
    width: Length


@dataclass(frozen=True)
class Slope:
    """How the floor falls, evenly.

    Args:
        fall: drop per length, such as 1/48 for 1/4 in per ft.
        toward: name of the edge that it falls toward, square to it.
    """

    fall: Fraction
    toward: str


@dataclass(frozen=True)
class Room:
    """A closed outline with what stands in it.

    Args:
        corners: name and place of each corner, in the order of the file.
        edges: in the order of the file; each has the room on its left.
        openings: doors and gates.
        obstacles: what seats stay off.
        routes: walkways between openings.
        tolerance: of one tape reading; edges move in by it and obstacles grow by it, once.
        slope: how the floor falls; None where it is level, or nothing is said.
    """

    corners: tuple[tuple[str, Point], ...]
    edges: tuple[Edge, ...]
    openings: tuple[Opening, ...] = ()
    obstacles: tuple[Obstacle, ...] = ()
    routes: tuple[Route, ...] = ()
    tolerance: Length = ZERO
    slope: Slope | None = None

    @property
    def outline(self) -> tuple[Point, ...]:
        """The corners anticlockwise, beginning where the first edge of the walk begins."""
        forward = bool(self.edges) and self.edges[0].forward
        return tuple(edge.start for edge in (self.edges if forward else reversed(self.edges)))

    def edge(self, name: str) -> Edge:
        """The edge of that name; KeyError if there is none."""
        return _named(self.edges, name)

    def opening(self, name: str) -> Opening:
        """The opening of that name; KeyError if there is none."""
        return _named(self.openings, name)

    def jambs(self, opening: Opening) -> tuple[Point, Point]:
        """Both jambs of an opening, the one met first on an anticlockwise walk first."""
        edge = self.edge(opening.edge)
        near = opening.offset if edge.forward else edge.length - opening.offset - opening.width
        return edge.at(near), edge.at(near + opening.width)


def _named(things: tuple[_Named, ...], name: str) -> _Named:
    for thing in things:
        if thing.name == name:
            return thing
    raise KeyError(name)
