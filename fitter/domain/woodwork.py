"""Woodwork: every part of the frame as a placed solid, and what holds it.

Coordinates are those of the layout frame with z up, in units, exactly: z = 0 is the floor under the highest foot.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction
from functools import cached_property
from itertools import pairwise, product
from typing import TypeAlias

from fitter.domain.findings import Finding
from fitter.domain.frame import Section
from fitter.domain.wishes import Side
from rooms.lengths import ZERO, Length

Number: TypeAlias = int | Fraction
Vector: TypeAlias = tuple[Number, Number, Number]
"""A point or a direction in the layout frame, z up; a point in units, exactly."""


class PartRole(StrEnum):
    """What a part is; the order is that of every list."""

    SUPPORT_POST = "support post"
    BACK_POST = "back post"
    INNER_POST = "inner corner post"
    CORNER_POST = "corner post"
    FOOT = "foot"
    FRONT_RAIL = "front rail"
    BACK_RAIL = "back rail"
    CROSS_RAIL = "cross rail"
    LEDGER = "ledger"
    ARM_PIECE = "end panel piece"
    ARM_POST = "end panel post"
    ARM_RAIL = "end panel rail"
    LEG = "leg"
    END_RAIL = "end rail"
    CLEAT = "cleat"
    SHORT_CLEAT = "short cleat"
    SEAT_SLAT = "seat slat"
    UPRIGHT = "upright"
    BOTTOM_RAIL = "back panel bottom rail"
    TOP_RAIL = "back panel top rail"
    BACK_SLAT = "back slat"
    CORNER_BOARD = "corner board"
    TABLE_BEARER = "table bearer"
    TABLE_BOARD = "table board"
    SHELF_LEG = "shelf leg"
    SHELF_RAIL = "shelf rail"
    SHELF_SLAT = "shelf slat"
    ARM_BEARER = "arm bearer"
    ARM_TIE = "arm tie"
    ARM_BOARD = "arm board"


class Slant(StrEnum):
    """Across which side of the section an end is cut askew."""

    WIDTH = "width"
    THICKNESS = "thickness"


@dataclass(frozen=True)
class EndCut:
    """How one end of a part is cut; square where `recess` is nil.

    Args:
        recess: how far the short point lies behind the long point, along the part.
        over: across which side of the section it recedes.
        low: whether the long point lies at the low side of that axis (b = 0 or c = 0).
    """

    recess: Length = ZERO
    over: Slant = Slant.WIDTH
    low: bool = True

    @property
    def square(self) -> bool:
        """Whether it is a plain cut."""
        return not self.recess


SQUARE = EndCut()


@dataclass(frozen=True)
class Housing:
    """A cuboid cut out of a part, in the part's own axes (a along, b across the width, c through the thickness)."""

    a0: Length
    a1: Length
    b0: Length
    b1: Length
    c0: Length
    c1: Length


@dataclass(frozen=True)
class Part:
    """One stick of wood in its place.

    Its own axes are a (along the grain, 0 to `length`), b (0 to `width`), c (0 to `thickness`); the three unit vectors
    are orthonormal and right-handed, and rational, so every corner is exact.

    Args:
        role: what it is.
        run: the run it belongs to; at a corner the arm that meets the main run there.
        section: what it is cut from.
        length: finished, from long point to long point, on the shop mark.
        width: finished; less than the section's where it is ripped.
        thickness: finished; likewise.
        origin: where a = b = c = 0 lies.
        along: unit vector of a.
        across: unit vector of b.
        through: unit vector of c.
        cuts: of the ends a = 0 and a = length.
        housings: what is cut out for other parts; only of parts with square ends.
        shows: which face is to be seen, in words, such as `outer wide face`.
        place: where it is, in words, such as `bay 2`.
        piece: number of the piece that is carried in, from 1.
        mark: its label; equal parts of a run share one.
    """

    role: PartRole
    run: Side
    section: Section
    length: Length
    width: Length
    thickness: Length
    origin: Vector
    along: Vector
    across: Vector
    through: Vector
    cuts: tuple[EndCut, EndCut] = (SQUARE, SQUARE)
    housings: tuple[Housing, ...] = ()
    shows: str = ""
    place: str = ""
    piece: int = 1
    mark: str = ""

    def at(self, a: Number, b: Number, c: Number) -> Vector:
        """A point given in the part's own axes, in units."""
        found = list(self.origin)
        # Most vectors lie along an axis, and rational products are dear.
        for distance, vector in ((a, self.along), (b, self.across), (c, self.through)):
            for axis, share in enumerate(vector):
                if share:
                    found[axis] += distance if share == 1 else distance * share
        x, y, z = found
        return x, y, z

    def end(self, which: int, b: int, c: int) -> int:
        """How far along the end 0 or 1 lies at a corner of the section (b and c 0 or 1), in units."""
        cut = self.cuts[which]
        at = b if cut.over is Slant.WIDTH else c
        back = cut.recess.units if at == (1 if cut.low else 0) else 0
        return self.length.units - back if which else back

    @cached_property
    def corners(self) -> tuple[Vector, ...]:
        """The eight corners without regard to housings; corner number 4i + 2j + k has a, b, c at their ends i, j, k."""
        return tuple(
            self.at(self.end(i, j, k), j * self.width.units, k * self.thickness.units)
            for i, j, k in product((0, 1), repeat=3)
        )

    @cached_property
    def pieces(self) -> tuple[tuple[Vector, ...], ...]:
        """Convex solids, each of eight corners in the order of `corners`, that fill it without overlapping."""
        if not self.housings:
            return (self.corners,)
        return tuple(
            tuple(self.at(a[i], b[j], c[k]) for i, j, k in product((0, 1), repeat=3)) for a, b, c in self._cells()
        )

    def _cuts(self) -> tuple[list[int], list[int], list[int]]:
        """Where planes of housings cut each axis, ends included, in units."""
        cut = self.housings
        a = {0, self.length.units, *(x.units for h in cut for x in (h.a0, h.a1))}
        b = {0, self.width.units, *(x.units for h in cut for x in (h.b0, h.b1))}
        c = {0, self.thickness.units, *(x.units for h in cut for x in (h.c0, h.c1))}
        return sorted(a), sorted(b), sorted(c)

    def _filled(self, a: int, b: int, c: int) -> bool:
        """Whether there is wood just above a point of the grid of `_cuts`."""
        return not any(
            h.a0.units <= a < h.a1.units and h.b0.units <= b < h.b1.units and h.c0.units <= c < h.c1.units
            for h in self.housings
        )

    def _cells(self) -> Iterator[tuple[tuple[int, int], tuple[int, int], tuple[int, int]]]:
        along, across, through = (tuple(pairwise(axis)) for axis in self._cuts())
        for a, b, c in product(along, across, through):
            if self._filled(a[0], b[0], c[0]):
                yield a, b, c

    @cached_property
    def mesh(self) -> tuple[tuple[Vector, ...], tuple[tuple[int, ...], ...]]:
        """Vertices, and faces as vertex indices anticlockwise seen from outside; closed, whatever is cut out."""
        points: dict[Vector, int] = {}
        faces: dict[frozenset[int], tuple[int, ...]] = {}
        for corners in self.pieces:
            number = [points.setdefault(corner, len(points)) for corner in corners]
            for ring in _FACES:
                face = tuple(number[i] for i in ring)
                # A wall between two pieces is no face.
                if faces.pop(frozenset(face), None) is None:
                    faces[frozenset(face)] = face
        return tuple(points), tuple(faces.values())

    @property
    def volume(self) -> Fraction:
        """In cubic units, exactly: a slanted end takes half of what it recedes."""
        slants = sum(cut.recess.units for cut in self.cuts)
        section = self.width.units * self.thickness.units
        cut = sum((h.a1 - h.a0).units * (h.b1 - h.b0).units * (h.c1 - h.c0).units for h in self.housings)
        return Fraction(2 * self.length.units - slants, 2) * section - cut

    @property
    def short(self) -> Length:
        """From short point to short point, where the short points of both ends lie on one side; else the length."""
        first, last = self.cuts
        if (first.over, first.low) == (last.over, last.low) or first.square or last.square:
            return self.length - first.recess - last.recess
        return self.length


_FACES = ((0, 1, 3, 2), (4, 6, 7, 5), (0, 4, 5, 1), (2, 3, 7, 6), (0, 2, 6, 4), (1, 5, 7, 3))
"""Of a piece whose corners are numbered 4i + 2j + k: a low, a high, b low, b high, c low, c high; seen from outside."""


class Fixing(StrEnum):
    """What holds two parts together."""

    POCKET_SCREW = "pocket screw"
    SCREW = "screw"
    NAIL = "ring-shank nail"
    BOLT = "carriage bolt"
    GLUE = "glue"


@dataclass(frozen=True)
class Fastener:
    """One screw, nail or bolt in its place.

    Args:
        kind: what it is.
        size: as it is sold, such as `#8` or `3/8"`.
        diameter: of its shank, in units.
        length: as it is sold, under the head.
        head: where the seat of its head lies.
        tip: where it ends; a bolt's lies on the far face.
        through: index of the part that it holds down.
        into: index of the part that it bites.
        pilot: diameter of the hole to bore first, in units; 0 for none.
        countersunk: whether its head is let in.
    """

    kind: Fixing
    size: str
    diameter: Fraction
    length: Length
    head: Vector
    tip: Vector
    through: int
    into: int
    pilot: Fraction = Fraction(0)
    countersunk: bool = False


@dataclass(frozen=True)
class Joint:
    """What holds two parts that touch.

    Args:
        parts: indices of both, the one that is held first.
        fasteners: in their places; none where they only bear on each other.
        glued: whether glue or sealant goes between them.
        housed: whether the first one sits in a housing of the second.
        says: how it is made, for a person.
    """

    parts: tuple[int, int]
    fasteners: tuple[Fastener, ...] = ()
    glued: bool = False
    housed: bool = False
    says: str = ""


@dataclass(frozen=True)
class Spread:
    """How slats are spread over a space: the fewest that keep every gap.

    Args:
        run: whose slats.
        role: seat slats or back slats, or the boards of a table.
        place: in words, such as `bay 2`.
        space: that they fill, gaps included.
        slat: width of one.
        count: how many.
        gaps: in order, the first and the last included; they differ by one mark at most.
        limit: widest gap that was allowed.
        says: why not fewer, for a person.
    """

    run: Side
    role: PartRole
    place: str
    space: Length
    slat: Length
    count: int
    gaps: tuple[Length, ...]
    limit: Length
    says: str


@dataclass(frozen=True)
class Levels:
    """Heights above the floor at the highest foot.

    Args:
        foot: top of the feet.
        rail_bottom: underside of the seat rails.
        deck: top of rails and seat slats.
        seat: top of the seat cushion.
        sat_on: top of the seat cushion under a person.
        arm: top of armed ends.
        back_bottom: underside of the back panels.
        back_top: top of the back panels.
        table: top of a table corner.
    """

    foot: Length
    rail_bottom: Length
    deck: Length
    seat: Length
    sat_on: Length
    arm: Length
    back_bottom: Length
    back_top: Length
    table: Length


@dataclass(frozen=True)
class Woodwork:
    """The whole frame.

    Args:
        parts: every stick, in the order of role within run.
        joints: what holds each contact.
        levels: heights.
        spreads: how slats are spread.
        fall: how much lower the lowest foot stands than the highest, on sloping ground.
        findings: what the maker has to know.
    """

    parts: tuple[Part, ...]
    joints: tuple[Joint, ...]
    levels: Levels
    spreads: tuple[Spread, ...] = ()
    fall: Length = ZERO
    findings: tuple[Finding, ...] = field(default=())
