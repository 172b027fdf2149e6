"""A layout: every module, rail and post of one arrangement, placed exactly.

Boxes are axis-parallel in the layout's own frame, whose x runs along the backs of the main run and
whose y runs from the backing edge into the room; `Pose` carries them into the room frame.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from math import atan2, degrees

from fitter.domain.wishes import CornerKind, EndKind, FillKind, Objective, Shape
from fitter.domain.wishes import Side as Side
from rooms.lengths import ZERO, Length
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
        aligned: the run whose back lies along that edge: the main run, or in a U whose longest run is an arm, that arm.
    """

    origin: Point
    cos: Fraction
    sin: Fraction
    edge: str | None
    aligned: Side = Side.MAIN

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


@dataclass(frozen=True)
class Notch:
    """What is cut from one corner of a cushion for a post: a rectangle, or for an angle post a strip along either side.

    Args:
        box: the rectangle around what is cut away, in the layout frame.
        along_x: its size along x.
        along_y: its size along y.
        strips: the two rectangles that are cut away where that is not the whole box: along x, then the rest along y.
        depth: of these strips; None where the whole box is cut away.
    """

    box: Box
    along_x: Length
    along_y: Length
    strips: tuple[Box, ...] = ()
    depth: Length | None = None

    @property
    def cut(self) -> tuple[Box, ...]:
        """Rectangles that do not overlap and are cut away together."""
        return self.strips or (self.box,)


@dataclass(frozen=True)
class Module:
    """One cushion in its place.

    Args:
        run: the run it belongs to; a corner place belongs to the run that owns it.
        place: counted from 1 along the run: an arm from its corner, the main run of an L from its corner, any other
            main run from its right hand; the corner places of a run are 0 and, for a main run that owns two, count + 1.
        cushion: name of the kind; None where a table stands.
        turned: whether its depth lies along its run.
        box: pitch by deck depth; of a corner place the whole place, from back to front.
        seats: sitting places on it.
        notch: what is cut from it, if anything.
        cover: what the cushion covers of its place, where that is larger than the cushion; else None.
        corner: the arm that meets the main run there, if this is a corner place; else None.
    """

    run: Side
    place: int
    cushion: str | None
    turned: bool
    box: Box
    seats: int
    notch: Notch | None = None
    cover: Box | None = None
    corner: Side | None = None

    @property
    def bare(self) -> tuple[Box, ...]:
        """The strips of its place that the cushion leaves uncovered: beside it, then before it."""
        if self.cover is None:
            return ()
        box, cover = self.box, self.cover
        strips = (
            Box(box.x0, box.y0, cover.x0, box.y1),
            Box(cover.x1, box.y0, box.x1, box.y1),
            Box(cover.x0, box.y0, cover.x1, cover.y0),
            Box(cover.x0, cover.y1, cover.x1, box.y1),
        )
        return tuple(strip for strip in strips if strip.x0 < strip.x1 and strip.y0 < strip.y1)


class Face(StrEnum):
    """Which line of rails: under the front, under the back, or across from the inner corner."""

    FRONT = "front"
    BACK = "back"
    CROSS = "cross"


@dataclass(frozen=True)
class Rail:
    """A rail between two posts; `length` is cut length, face to face.

    Args:
        run: the run it carries; for a cross rail the arm at whose corner it lies.
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
        run: the run whose rails it carries; at a corner the arm that meets the main run there.
        face: the line of rails it stands in.
        line: the module line it is centred on, or stands beside where the run is split there, counted from 0 at the
            start of the run; None at corners.
        box: its plan.
    """

    role: PostRole
    run: Side
    face: Face
    line: int | None
    box: Box


@dataclass(frozen=True)
class ModuleLine:
    """A line between two modules of a run, or between its first or last one and a corner place.

    Args:
        run: the run.
        line: counted from 0 at the start of the run.
    """

    run: Side
    line: int


@dataclass(frozen=True)
class End:
    """The end of a run: an arm panel or an open end frame, with its plan.

    Args:
        run: the run that ends there.
        kind: armed or open.
        box: its plan.
        hand: which end of the whole chain of runs it is, for a person facing the main run's seats.
    """

    run: Side
    kind: EndKind
    box: Box
    hand: Side


@dataclass(frozen=True)
class Fill:
    """What takes up the room beyond an end, or the room that stays open there.

    Args:
        kind: what stands there; a gap is no part of the footprint.
        run: the run that ends there.
        hand: which end of the whole chain of runs it is, as of the end itself.
        box: its plan, from the end's outer face outward, as deep as the wood of the end.
        stop: what it would run into if it were a mark wider: the id of a requirement, such as `edge:BC`, or `widest`.
    """

    kind: FillKind
    run: Side
    hand: Side
    box: Box
    stop: str

    @property
    def size(self) -> tuple[Length, Length]:
        """How wide it is, along its run, and how deep."""
        along, across = self.box.x1 - self.box.x0, self.box.y1 - self.box.y0
        return (along, across) if self.run is Side.MAIN else (across, along)


@dataclass(frozen=True)
class Stretch:
    """How much more ease the cushions of a kind have than the project says, a whole number of marks."""

    cushion: str
    more: Length


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
class Purchase:
    """How many of a kind of cushion a layout uses, and how many of those have to be bought."""

    cushion: str
    used: int
    buy: int


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
        shape: straight, L or U.
        hand: side of the short run of an L for a person facing the seats; else None.
        pose: where it lies in the room.
        off_edge: from the backing edge to the back of the run that is aligned with it.
        corner: the treatment of every corner; None for a straight run.
        runs: the main run, then the left arm, then the right arm, as far as there are any.
        modules: run by run in that order, each run's corner places first.
        ends: in the order of the runs; those of a straight run right hand first.
        posts: interior and corner posts (ends carry their own legs).
        rails: in the order run, face, bay.
        footprint: boxes that together cover all that stands or overhangs.
        purchases: of each kind of cushion that is used, in the order of the file.
        routes: walkways with the width found.
        splits: where the frame is split into pieces that can be carried, in the order of the runs.
        gap: how far the cushions lie off the backs: what they overhang in front, more where runs are spread.
        fills: what takes up the room beyond the ends, the right hand first.
        eased: kinds of cushions that have more ease than the project says, in the order of the file.
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
    purchases: tuple[Purchase, ...] = ()
    routes: tuple[RouteWidth, ...] = ()
    splits: tuple[ModuleLine, ...] = ()
    gap: Length = ZERO
    fills: tuple[Fill, ...] = ()
    eased: tuple[Stretch, ...] = ()

    @property
    def seats(self) -> int:
        """Sitting places."""
        return sum(module.seats for module in self.modules)

    @property
    def corners(self) -> tuple[Module, ...]:
        """What fills the corner places, the right one first."""
        return tuple(sorted((m for m in self.modules if m.corner), key=lambda m: m.corner is not Side.RIGHT))

    @property
    def built_fills(self) -> tuple[Fill, ...]:
        """What stands beyond the ends."""
        return tuple(fill for fill in self.fills if fill.kind.built)

    def fill(self, hand: Side) -> Fill | None:
        """What takes up the room beyond the end at a hand, or the gap that is left there, if either is told."""
        return next((fill for fill in self.fills if fill.hand is hand), None)

    def run(self, side: Side) -> Run | None:
        """The run of that side, if there is one."""
        return next((run for run in self.runs if run.side is side), None)

    def split_lines(self, side: Side) -> tuple[int, ...]:
        """Module lines at which a run is split, rising."""
        return tuple(split.line for split in self.splits if split.run is side)

    def line_at(self, side: Side, line: int) -> Length:
        """Where a module line of a run that there is lies: along x for the main run, along y for an arm."""
        run = next(run for run in self.runs if run.side is side)
        if side is not Side.MAIN:
            return run.deck.y0 + run.pitch * line
        # The main run of an L is counted from its corner.
        falling = self.hand is Side.LEFT
        return run.deck.x1 - run.pitch * line if falling else run.deck.x0 + run.pitch * line

    @property
    def reach(self) -> tuple[Length, Length]:
        """From where to where the footprint lies along the backing edge, counted from the edge's start.

        Free standing: along the layout frame's x.
        """
        if self.pose.aligned is Side.MAIN:
            return min(box.x0 for box in self.footprint), max(box.x1 for box in self.footprint)
        low, high = min(box.y0 for box in self.footprint), max(box.y1 for box in self.footprint)
        return (low, high) if self.pose.aligned is Side.LEFT else (-high, -low)

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
        usual: the layout as its posts would stand if boards cost nothing; None where that was not asked.
    """

    verdict: Verdict
    layout: Layout | None
    proofs: tuple[Proof, ...]
    clash: tuple[str, ...] = ()
    seconds: float = 0.0
    usual: Layout | None = None
