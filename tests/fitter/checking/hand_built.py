"""A small invented project and layouts of it, laid out in plain arithmetic from the definitions."""

from __future__ import annotations

from fractions import Fraction

from fitter.domain.cushions import Cushion
from fitter.domain.frame import Board, Frame, Section, Shop
from fitter.domain.layout import (
    Box,
    End,
    Face,
    Layout,
    Module,
    Notch,
    Pose,
    Post,
    PostRole,
    Rail,
    Run,
    Side,
)
from fitter.domain.project import Project
from fitter.domain.wishes import CornerKind, EndKind, Shape, Wish
from rooms.lengths import ZERO, Length, Unit
from rooms.room import Edge, EdgeKind, Hinge, Obstacle, Opening, Point, Room, Route, Swing

Number = int | float | str | Fraction

PITCH, DECK = Fraction(97, 4), Fraction(97, 4)
BACK, POST, RAIL, ARM, LEG = Fraction(7, 2), Fraction(7, 2), Fraction(3, 2), Fraction(3, 2), 18
WIDE, DEEP = 200, 150
X, Y = 20, 5
"""The deck corner of every layout here, inches."""

NOTCH = Fraction(57, 16)
"""Post 3 1/2, clearance 3/16, less half the ease of 1/4: 3 9/16."""


def inch(value: Number) -> Length:
    """A length in inches."""
    return Length.inches(Fraction(value))


def box(x0: Number, y0: Number, x1: Number, y1: Number) -> Box:
    """A box in inches."""
    return Box(inch(x0), inch(y0), inch(x1), inch(y1))


def _room() -> Room:
    corners = [(0, 0), (WIDE, 0), (WIDE, DEEP), (0, DEEP)]
    points = [Point(inch(x), inch(y)) for x, y in corners]
    edges = tuple(
        Edge(name, EdgeKind.WALL, points[n], points[(n + 1) % 4]) for n, name in enumerate(("AB", "BC", "CD", "DA"))
    )
    return Room(
        corners=tuple(zip("ABCD", points, strict=True)),
        edges=edges,
        openings=(
            # From 60 in to 96 in along the top, counted from x = 0; its leaf reaches down to y = 114.
            Opening("door", "CD", inch(104), inch(36), Swing.IN, Hinge.FIRST),
            Opening("gate", "BC", inch(100), inch(40)),
        ),
        obstacles=(Obstacle("bowl", (Point(inch(140), inch(110)),), inch(10), inch(12)),),
        routes=(Route("door to gate", "door", "gate", inch(18)),),
        tolerance=inch("1/4"),
    )


def project() -> Project:
    """A rectangular patio with a door that swings in, a gate, a bowl and 24 in cushions."""
    cushion = Cushion("square", inch(24), inch(24), inch(5), ease=inch("1/4"), own=6, may_turn=False)
    return Project(
        title="Invented patio",
        unit=Unit.IN,
        room=_room(),
        cushions=(cushion,),
        wish=Wish(None, 2, 7, None, None, ("AB", "BC"), inch(3), inch(LEG)),
        frame=Frame(
            post=Section("4x4", inch("7/2"), inch("7/2")),
            rail=Section("2x8", inch("3/2"), inch("29/4")),
            back_thickness=inch(BACK),
            arm_thickness=inch(ARM),
            open_end_thickness=inch("3/4"),
            notch_clearance=inch("3/16"),
            max_span=inch(50),
        ),
        shop=Shop((Board("2x8", inch(96)),), inch("1/8"), inch("1/2")),
    )


def pose() -> Pose:
    """From corner A along AB."""
    return Pose(Point(ZERO, ZERO), Fraction(1), Fraction(0), "AB")


def straight() -> Layout:
    """Three modules, a post at line 1 in front and at line 2 behind."""
    x1 = X + 3 * PITCH
    run = Run(
        Side.MAIN, "square", False, 3, inch(PITCH), box(X, Y, x1, Y + DECK), box(X, Y - BACK, x1, Y),
        box(X, Y + DECK, x1, Y + DECK + LEG),
    )  # fmt: skip
    ends = [(X - ARM, X), (x1, x1 + ARM)]
    front, back = X + PITCH, X + 2 * PITCH
    y0, y1 = Y + DECK - RAIL, Y + DECK
    return Layout(
        shape=Shape.STRAIGHT,
        hand=None,
        pose=pose(),
        off_edge=inch(Y - BACK),
        corner=None,
        runs=(run,),
        modules=tuple(
            Module(Side.MAIN, k + 1, "square", False, box(X + k * PITCH, Y, X + (k + 1) * PITCH, Y + DECK), 1)
            for k in range(3)
        ),
        ends=tuple(End(Side.MAIN, EndKind.ARMED, box(a, Y - BACK, b, Y + DECK)) for a, b in ends),
        posts=(
            _post(Side.MAIN, Face.FRONT, 1, box(front - POST / 2, y1 - POST, front + POST / 2, y1)),
            _post(Side.MAIN, Face.BACK, 2, box(back - POST / 2, Y, back + POST / 2, Y + POST)),
        ),
        rails=(
            _rail(Side.MAIN, Face.FRONT, 1, box(X, y0, front - POST / 2, y1)),
            _rail(Side.MAIN, Face.FRONT, 2, box(front + POST / 2, y0, x1, y1)),
            _rail(Side.MAIN, Face.BACK, 1, box(X, Y, back - POST / 2, Y + RAIL)),
            _rail(Side.MAIN, Face.BACK, 2, box(back + POST / 2, Y, x1, Y + RAIL)),
        ),
        footprint=(box(X - ARM, Y - BACK, x1 + ARM, Y + DECK),),
    )


def ell(corner: CornerKind, hand: Side) -> Layout:
    """Three modules on the main run and two on the short one, at either hand."""
    layout = _low(corner)
    return layout if hand is Side.RIGHT else _mirrored(layout)


def _low(corner: CornerKind) -> Layout:
    """The L with its corner at the low-x end, the short run at the right hand of one who faces the seats."""
    inner, y1 = X + DECK, Y + DECK
    far, top = inner + 3 * PITCH, y1 + 2 * PITCH
    outside, table = corner is CornerKind.OUTSIDE_POST, corner is CornerKind.TABLE_CORNER
    main = Run(
        Side.MAIN, "square", False, 3, inch(PITCH), box(inner, Y, far, y1), box(X - BACK, Y - BACK, far, Y),
        box(inner, y1, far, y1 + LEG),
    )  # fmt: skip
    side = Run(
        Side.RIGHT, "square", False, 2, inch(PITCH), box(X, y1, inner, top), box(X - BACK, Y, X, top),
        box(inner, y1, inner + LEG, top),
    )  # fmt: skip
    cut = Fraction(1, 8)
    notch = Notch(box(X + cut, Y + cut, X + cut + NOTCH, Y + cut + NOTCH), inch(NOTCH), inch(NOTCH))
    place = Module(
        Side.MAIN, 0, None if table else "square", False, box(X, Y, inner, y1), 0 if table else 1,
        notch if corner is CornerKind.INSIDE_POST else None,
    )  # fmt: skip
    post_at = box(X - POST, Y - POST, X, Y) if outside else box(X, Y, X + POST, Y + POST)
    front, back = inner + PITCH, inner + PITCH
    starts = (X if outside else X + POST, Y + RAIL if outside else Y + POST)
    return Layout(
        shape=Shape.L,
        hand=Side.RIGHT,
        pose=pose(),
        off_edge=inch(Y - BACK),
        corner=corner,
        runs=(main, side),
        modules=(
            place,
            *(
                Module(
                    Side.MAIN,
                    k + 1,
                    "square",
                    False,
                    box(inner + k * PITCH, Y, inner + (k + 1) * PITCH, y1),
                    1,
                )
                for k in range(3)
            ),
            *(
                Module(Side.RIGHT, k + 1, "square", False, box(X, y1 + k * PITCH, inner, y1 + (k + 1) * PITCH), 1)
                for k in range(2)
            ),
        ),
        ends=(
            End(Side.MAIN, EndKind.ARMED, box(far, Y - BACK, far + ARM, y1)),
            End(Side.RIGHT, EndKind.ARMED, box(X - BACK, top, inner, top + ARM)),
        ),
        posts=(
            _post(Side.MAIN, Face.FRONT, 1, box(front - POST / 2, y1 - POST, front + POST / 2, y1)),
            _post(Side.MAIN, Face.BACK, 1, box(back - POST / 2, Y, back + POST / 2, Y + POST)),
            _post(Side.RIGHT, Face.BACK, 0, box(X, y1 - POST / 2, X + POST, y1 + POST / 2)),
            Post(PostRole.INNER_CORNER, Side.MAIN, Face.FRONT, None, box(inner - POST, y1 - POST, inner, y1)),
            Post(PostRole.CORNER, Side.MAIN, Face.BACK, None, post_at),
        ),
        rails=(
            _rail(Side.MAIN, Face.FRONT, 1, box(inner, y1 - RAIL, front - POST / 2, y1)),
            _rail(Side.MAIN, Face.FRONT, 2, box(front + POST / 2, y1 - RAIL, far, y1)),
            _rail(Side.MAIN, Face.BACK, 1, box(starts[0], Y, back - POST / 2, Y + RAIL)),
            _rail(Side.MAIN, Face.BACK, 2, box(back + POST / 2, Y, far, Y + RAIL)),
            _rail(Side.RIGHT, Face.FRONT, 1, box(inner - RAIL, y1, inner, top), along_y=True),
            _rail(Side.RIGHT, Face.BACK, 1, box(X, starts[1], X + RAIL, y1 - POST / 2), along_y=True),
            _rail(Side.RIGHT, Face.BACK, 2, box(X, y1 + POST / 2, X + RAIL, top), along_y=True),
            _rail(Side.MAIN, Face.CROSS, 1, box(inner - RAIL, Y + RAIL, inner, y1 - POST), along_y=True),
        ),
        footprint=(
            box(X - BACK, Y - BACK, far + ARM, y1),
            box(X - BACK, Y - BACK, inner, top + ARM),
            *((post_at,) if outside else ()),
        ),
    )


def _post(run: Side, face: Face, line: int, plan: Box) -> Post:
    return Post(PostRole.SUPPORT, run, face, line, plan)


def _rail(run: Side, face: Face, bay: int, plan: Box, *, along_y: bool = False) -> Rail:
    length = plan.y1 - plan.y0 if along_y else plan.x1 - plan.x0
    return Rail(run, face, bay, length, plan)


def _mirrored(layout: Layout) -> Layout:
    """Every box turned over about the middle of the edge, right hand for left."""

    def over(value: object) -> object:
        if isinstance(value, Box):
            return Box(inch(WIDE) - value.x1, value.y0, inch(WIDE) - value.x0, value.y1)
        if value is Side.RIGHT:
            return Side.LEFT
        if isinstance(value, tuple):
            return tuple(over(part) for part in value)
        if isinstance(value, (Layout, Run, Module, Notch, End, Post, Rail)):
            return type(value)(**{name: over(part) for name, part in vars(value).items()})
        return value

    turned = over(layout)
    assert isinstance(turned, Layout)
    return turned
