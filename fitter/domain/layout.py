"""A layout: every module, rail and post of one arrangement, placed exactly.

Boxes are axis-parallel in the layout's own frame, whose x runs along the backs of the main run and
whose y runs from the backing edge into the room; `Pose` carries them into the room frame.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from math import atan2, degrees

from fitter.domain.wishes import CornerKind, EndKind, Objective, Shape
from rooms.lengths import Length
from rooms.room import Point


@dataclass(frozen=True)
class Box:
    """An axis-parallel rectangle in the layout frame, x0 <= x1 and y0 <= y1."""

    x0: Length
    y0: Length
    x1: Length
    y1: Length

    @property
    def corners(self) -> tuple[tuple[Length, Length], ...]:
        """The four corners anticlockwise from (x0, y0)."""
        return ((self.x0, self.y0), (self.x1, self.y0), (self.x1, self.y1), (self.x0, self.y1))


@dataclass(frozen=True)
class Pose:
    """Where the layout frame lies in the room: a rational rotation, then a shift.

    Args:
        origin: the layout frame's origin in the room frame.
        cos: cosine of the turn, rational; cos² + sin² = 1 exactly.
        sin: sine of the turn, rational.
        edge: name of the backing edge; None when free standing.
    """

    origin: Point
    cos: Fraction
    sin: Fraction
    edge: str | None

    @property
    def turned(self) -> float:
        """Angle of the main run in the room, degrees anticlockwise from +x, in (-180, 180]."""
        return degrees(atan2(self.sin, self.cos))

    def to_room(self, x: Length, y: Length) -> tuple[Fraction, Fraction]:
        """A point of the layout frame in the room frame, in units, exactly."""
        return (
            self.origin.x.units + self.cos * x.units - self.sin * y.units,
            self.origin.y.units + self.sin * x.units + self.cos * y.units,
        )

    def outline(self, box: Box) -> tuple[tuple[Fraction, Fraction], ...]:
        """The corners of a box in the room frame, anticlockwise, in units."""
        return tuple(self.to_room(x, y) for x, y in box.corners)


class Side(StrEnum):
    """Which run: the main one, or one named by the hand of a person who stands facing the seats."""

    MAIN = "main"
    LEFT = "left"
    RIGHT = "right"


@dataclass(frozen=True)
class Notch:
    """A rectangle cut from one corner of a cushion for a post.

    Args:
        box: what is cut away, in the layout frame.
        along_x: its size along x.
        along_y: its size along y.
    """

    box: Box
    along_x: Length
    along_y: Length


@dataclass(frozen=True)
class Module:
    """One cushion in its place.

    Args:
        run: the run it belongs to; the corner place belongs to the run that owns it.
        place: counted from 1 along the run from its corner, or from its right end as one faces the seats;
            0 is the corner place.
        cushion: name of the kind; None where a table stands.
        turned: whether its depth lies along its run.
        box: pitch by deck depth.
        seats: sitting places on it.
        notch: what is cut from it, if anything.
        cover: what the cushion covers of its place, where that is larger than the cushion; else None.
    """

    run: Side
    place: int
    cushion: str | None
    turned: bool
    box: Box
    seats: int
    notch: Notch | None = None
    cover: Box | None = None


class Face(StrEnum):
    """Which line of rails: under the front, under the back, or across from the inner corner."""

    FRONT = "front"
    BACK = "back"
    CROSS = "cross"


@dataclass(frozen=True)
class Rail:
    """A rail between two posts; `length` is cut length, face to face.

    Args:
        run: the run it carries.
        face: the line it lies in.
        bay: counted from 1 in the same direction as the modules.
        length: on the shop mark.
        box: its plan.
    """

    run: Side
    face: Face
    bay: int
    length: Length
    box: Box


class PostRole(StrEnum):
    """What a post is for."""

    SUPPORT = "support"
    INNER_CORNER = "inner corner"
    CORNER = "corner"


@dataclass(frozen=True)
class Post:
    """A post in plan.

    Args:
        role: what it is for.
        run: the run whose rails it carries (the main run at corners).
        face: the line of rails it stands in.
        line: the module line it is centred on, counted from 0 at the start of the run; None at corners.
        box: its plan.
    """

    role: PostRole
    run: Side
    face: Face
    line: int | None
    box: Box


@dataclass(frozen=True)
class End:
    """The end of a run: an arm panel or an open end frame, with its plan."""

    run: Side
    kind: EndKind
    box: Box


@dataclass(frozen=True)
class Run:
    """Modules in a row.

    Args:
        side: which run.
        cushion: name of the kind.
        turned: whether the cushions lie turned.
        count: modules, the corner place not counted.
        pitch: room per module.
        deck: the plan of its modules, without the corner place.
        back: the plan of its back panel.
        legroom: the clear strip before its front.
    """

    side: Side
    cushion: str
    turned: bool
    count: int
    pitch: Length
    deck: Box
    back: Box
    legroom: Box


@dataclass(frozen=True)
class RouteWidth:
    """How wide a route is past the layout: asked, found (worst within tolerance), and enough or not."""

    name: str
    asked: Length
    clear: Length | None


@dataclass(frozen=True)
class Layout:
    """One arrangement, complete in plan.

    Args:
        shape: straight or L.
        hand: side of the short run for a person facing the seats; None for a straight run.
        pose: where it lies in the room.
        off_edge: from the backing edge to the back of the main run.
        corner: the treatment; None for a straight run.
        runs: main run first.
        modules: in building order, corner place first.
        ends: of the main run, then of the short one.
        posts: interior and corner posts (ends carry their own legs).
        rails: in the order run, face, bay.
        footprint: boxes that together cover all that stands or overhangs.
        routes: walkways with the width found.
    """

    shape: Shape
    hand: Side | None
    pose: Pose
    off_edge: Length
    corner: CornerKind | None
    runs: tuple[Run, ...]
    modules: tuple[Module, ...]
    ends: tuple[End, ...]
    posts: tuple[Post, ...]
    rails: tuple[Rail, ...]
    footprint: tuple[Box, ...]
    routes: tuple[RouteWidth, ...] = ()

    @property
    def seats(self) -> int:
        """Sitting places."""
        return sum(module.seats for module in self.modules)

    @property
    def notches(self) -> int:
        """Cushions that are cut."""
        return sum(module.notch is not None for module in self.modules)

    @property
    def rail_lengths(self) -> tuple[Length, ...]:
        """The different cut lengths of front and back rails, shortest first."""
        return tuple(sorted({rail.length for rail in self.rails if rail.face is not Face.CROSS}))


class Verdict(StrEnum):
    """How an answer stands; never mixed."""

    PROVEN = "proven"
    FOUND = "found"
    IMPOSSIBLE = "impossible"
    UNKNOWN = "unknown"
    DISAGREE = "disagree"
    FAULT = "fault"


@dataclass(frozen=True)
class Proof:
    """What is known of one objective.

    Args:
        objective: which.
        value: of the layout shown.
        bound: no layout is better than this.
        proven: whether "strictly better" came back unsatisfiable.
    """

    objective: Objective
    value: int
    bound: int
    proven: bool


@dataclass(frozen=True)
class Answer:
    """What the layout model answers.

    Args:
        verdict: proven, found, impossible or unknown.
        layout: the best one; None when there is none.
        proofs: one for each objective that was reached, in order.
        clash: requirement ids that cannot hold together, when impossible.
        seconds: spent in the model.
    """

    verdict: Verdict
    layout: Layout | None
    proofs: tuple[Proof, ...]
    clash: tuple[str, ...] = ()
    seconds: float = 0.0
