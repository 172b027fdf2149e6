"""A small invented project and right layouts of it, laid out by hand."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from hand_built import ANGLE, ARMED, INSIDE, LEFT, OPEN, OUTSIDE, RIGHT, SPREAD, Chain, Row, lay_out

from fitter.domain.cushions import Cushion, Option
from fitter.domain.frame import Board, Carry, Frame, Section, Shop
from fitter.domain.layout import Box, Layout, Pose, Side
from fitter.domain.project import Project
from fitter.domain.wishes import CornerKind, Wish
from rooms.lengths import ZERO, Length, Unit
from rooms.room import Edge, EdgeKind, Height, Hinge, Obstacle, Opening, Point, Room, Route, Swing

Number = int | float | str | Fraction


def inch(value: Number) -> Length:
    """A length in inches."""
    return Length.inches(Fraction(value))


def box(x0: Number, y0: Number, x1: Number, y1: Number) -> Box:
    """A box in inches."""
    return Box(inch(x0), inch(y0), inch(x1), inch(y1))


SQUARE = Cushion("square", inch(24), inch(24), inch(5), ease=inch("1/4"), own=9)
"""Pitch and deck 24 1/4 in; the notch at a post of 3 1/2 in with 3/16 in of air is 3 9/16 in, and so is the spread."""

SLIM = Cushion("slim", inch(20), inch(26), inch(4), price=Fraction(35), may_turn=True)
STOOL = Cushion("stool", inch(18), inch(20), inch(4), ease=inch("-1/4"), price=Fraction(20))
BENCH = Cushion("bench", inch(48), inch(24), inch(5), own=1, price=Fraction(90), may_notch=False, seats=2)


def room() -> Room:
    """A rectangle of 220 by 150 in with a door that swings in, a gate and a bowl."""
    corners = [(0, 0), (220, 0), (220, 150), (0, 150)]
    points = [Point(inch(x), inch(y)) for x, y in corners]
    edges = tuple(
        Edge(name, EdgeKind.WALL, points[n], points[(n + 1) % 4]) for n, name in enumerate(("AB", "BC", "CD", "DA"))
    )
    return Room(
        corners=tuple(zip("ABCD", points, strict=True)),
        edges=edges,
        openings=(
            # From 60 in to 96 in along the top, counted from x = 0; its leaf reaches down to y = 114.
            Opening("door", "CD", inch(124), inch(36), Swing.IN, Hinge.FIRST),
            Opening("gate", "BC", inch(100), inch(40)),
        ),
        obstacles=(Obstacle("bowl", (Point(inch(180), inch(112)),), inch(10), inch(12)),),
        routes=(Route("door to gate", "door", "gate", inch(18)),),
        tolerance=inch("1/4"),
    )


def project() -> Project:
    """A rectangular patio, four kinds of cushion, any shape along the edges AB and BC."""
    return Project(
        title="Invented patio",
        unit=Unit.IN,
        room=room(),
        cushions=(SQUARE, SLIM, BENCH, STOOL),
        wish=Wish(None, 2, 12, None, None, None, None, ("AB", "BC"), inch(3), inch(18)),
        frame=Frame(
            post=Section("4x4", inch("7/2"), inch("7/2")),
            rail=Section("2x8", inch("3/2"), inch("29/4")),
            back_thickness=inch("7/2"),
            arm_thickness=inch("3/2"),
            open_end_thickness=inch("3/4"),
            notch_clearance=inch("3/16"),
            max_span=inch(50),
        ),
        shop=Shop((Board("2x8", inch(96)),), inch("1/8"), inch("1/2")),
    )


def overhung(over: Number) -> Project:
    """The project where cushions come so many inches over the front of the wood."""
    return replace(project(), frame=replace(project().frame, overhang=inch(over)))


def gap(corner: CornerKind, over: Number = 0) -> Length:
    """How far squares lie off the backs; in a spread what they overhang is part of it."""
    return inch("57/16") if corner is SPREAD else inch(over)


def free(asked: Project) -> Project:
    """The project where seats stand free."""
    return replace(asked, wish=replace(asked.wish, against=None))


ALONG = Pose(Point(ZERO, ZERO), Fraction(1), Fraction(0), "AB")
"""From corner A along AB."""

RIGHT_ALONG = replace(ALONG, cos=Fraction(0), sin=Fraction(1), aligned=RIGHT)
"""The right arm along AB: x into the room, y back toward A."""

LEFT_ALONG = replace(ALONG, cos=Fraction(0), sin=Fraction(-1), aligned=LEFT)
"""The left arm along AB: x out of the room, y away from A."""

UNBACKED = replace(ALONG, edge=None)
FACING = replace(UNBACKED, origin=Point(inch(220), inch(150)), cos=Fraction(-1))
"""Turned half round, from the far corner."""


@dataclass(frozen=True)
class Yard:
    """A project and a right layout of it."""

    project: Project
    layout: Layout


_SQUARE = Option(SQUARE)


def main_run(count: int = 3) -> Row:
    """Squares with the posts that spans of 50 in ask for."""
    return Row(_SQUARE, count, (1,) if count > 2 else (), tuple(range(1, count)) or (0,))


def arm_run(count: int = 2) -> Row:
    """Squares of an arm, a post where its corner ends."""
    return Row(_SQUARE, count, tuple(range(2, count, 2)), (0, *range(2, count, 2)))


def straight() -> Yard:
    """Three modules, a post at line 1 in front and at line 2 behind; arms from x = 18 1/2 to 94 1/4."""
    run = Row(_SQUARE, 3, (1,), (2,))
    return Yard(project(), lay_out(project(), ALONG, Chain(inch(20), inch(5), run)))


def overhung_straight() -> Yard:
    """The same three modules, half an inch forward of the wood and as far off their back."""
    run = Row(_SQUARE, 3, (1,), (2,))
    return Yard(overhung("1/2"), lay_out(overhung("1/2"), ALONG, Chain(inch(20), inch(5), run)))


def ell(corner: CornerKind, hand: Side, over: Number = 0) -> Yard:
    """Three modules on the main run and two on the short one, at either hand."""
    right, left = (arm_run(), None) if hand is RIGHT else (None, arm_run())
    asked = overhung(over)
    return Yard(asked, lay_out(asked, ALONG, Chain(inch(20), inch(5), main_run(), right, left, corner)))


def u(corner: CornerKind, over: Number = 0) -> Yard:
    """Three modules between arms of two, the left end open."""
    chain = Chain(inch(20), inch(5), main_run(), arm_run(), arm_run(), corner, ends=(ARMED, OPEN))
    return Yard(overhung(over), lay_out(overhung(over), ALONG, chain))


def u_free(corner: CornerKind, legroom: Length | None = None, over: Number = 0) -> Yard:
    """Both arms longer than the main run, so that they own their corners; turned half round."""
    asked = free(replace(overhung(over), room=replace(room(), openings=(), routes=(), obstacles=())))
    if legroom is not None:
        asked = replace(asked, wish=replace(asked.wish, legroom=legroom))
    chain = Chain(inch(20), inch(20), main_run(1), arm_run(), arm_run(3), corner)
    return Yard(asked, lay_out(asked, FACING, chain))


def u_right_along(corner: CornerKind, counts: tuple[int, int, int], over: Number = 0) -> Yard:
    """The right arm along AB, its outer end at x = 26 in; counts of the main, the right and the left run."""
    main, right, left = counts
    # y runs back toward A, so that the open side of the U looks there.
    chain = Chain(inch(5), inch(-150), main_run(main), arm_run(right), arm_run(left), corner)
    return Yard(overhung(over), lay_out(overhung(over), RIGHT_ALONG, chain))


def u_left_along(corner: CornerKind, counts: tuple[int, int, int], over: Number = 0) -> Yard:
    """The left arm along AB, the main run's back to the side where A is."""
    main, right, left = counts
    low = inch(-5) - (2 + main) * inch("97/4") - 2 * gap(corner, over)
    chain = Chain(low, inch(30), main_run(main), arm_run(right), arm_run(left), corner)
    return Yard(overhung(over), lay_out(overhung(over), LEFT_ALONG, chain))


def mixed() -> Yard:
    """Another kind on every run and in every corner; the corner cushions leave strips uncovered."""
    return _mixed(INSIDE, project())


def mixed_angle() -> Yard:
    """The same with boards in the corners, which cut a cushion with little ease deeper than the other."""
    return _mixed(ANGLE, overhung("1/2"))


def mixed_spread() -> Yard:
    """The same spread by what the stool asks, which has less than no ease: 3 1/2 + 3/16 + 1/8 = 3 13/16 in."""
    return _mixed(SPREAD, overhung("1/2"))


def _mixed(corner: CornerKind, asked: Project) -> Yard:
    chain = Chain(
        inch(20), inch(5),
        Row(Option(SQUARE), 3, (1,), (0, 1, 2)),
        right=Row(Option(SLIM), 2, (), (0,)), left=Row(Option(BENCH), 1, (), (0,)),
        corner=corner, right_corner=_SQUARE, left_corner=Option(STOOL),
        ends=(OPEN, ARMED),
    )  # fmt: skip
    return Yard(asked, lay_out(asked, ALONG, chain))


def turned_corner() -> Yard:
    """A turned cushion along the arm, and one as sold that leaves a strip before it in the corner."""
    chain = Chain(
        inch(20), inch(5),
        Row(Option(SLIM), 3, (1,), (1, 2)),
        left=Row(Option(SLIM, turned=True), 2, (1,), (1,)),
        corner=OUTSIDE, left_corner=Option(SLIM),
    )  # fmt: skip
    return Yard(project(), lay_out(project(), ALONG, chain))


def slim(hand: Side) -> Yard:
    """Posts of 55 marks, an odd number, in an L at either hand."""
    asked = project()
    asked = replace(asked, frame=replace(asked.frame, post=Section("slim", inch("55/16"), inch("55/16"))))
    right, left = (arm_run(), None) if hand is RIGHT else (None, arm_run())
    return Yard(asked, lay_out(asked, ALONG, Chain(inch(20), inch(5), main_run(), right, left, INSIDE)))


def stout() -> Yard:
    """Posts thicker than the back, so that an outside one stands out behind it."""
    asked = project()
    asked = replace(asked, frame=replace(asked.frame, post=Section("6x6", inch("11/2"), inch("11/2"))))
    chain = Chain(inch(20), inch("25/4"), main_run(), arm_run(), None, OUTSIDE)
    return Yard(asked, lay_out(asked, ALONG, chain))


def over_a_drain() -> Yard:
    """A drain under the second seat, where neither post nor end stands."""
    drain = Obstacle("drain", (Point(inch(60), inch(17)),), inch(3), inch(1), height=Height.LOW)
    asked = replace(project(), room=replace(room(), obstacles=(drain,)))
    run = Row(_SQUARE, 3, (1,), (2,))
    return Yard(asked, lay_out(asked, ALONG, Chain(inch(20), inch(5), run)))


def carried(asked: Project, longest: Number) -> Project:
    """The project where no piece may be longer than so many inches."""
    return replace(asked, frame=replace(asked.frame, carry=Carry(inch(30), inch(longest))))


def split_straight() -> Yard:
    """Eight modules in pieces of three, three and two: 1 1/2 + 72 3/4, 72 3/4, 48 1/2 + 1 1/2 in."""
    run = Row(_SQUARE, 8, (1, 5), (2, 4, 7), splits=(3, 6))
    asked = carried(project(), "297/4")
    return Yard(asked, lay_out(asked, ALONG, Chain(inch(8), inch(5), run)))


def split_ell(corner: CornerKind, hand: Side) -> Yard:
    """Three modules that own the corner, split after the second; the arm of two is split off where it begins.

    The corner's piece is 24 1/4 + 3 1/2 + 48 1/2 = 76 1/4 in long.
    """
    arm = Row(_SQUARE, 2, (1,), (1,), splits=(0,))
    right, left = (arm, None) if hand is RIGHT else (None, arm)
    main = Row(_SQUARE, 3, (1,), (0, 1), splits=(2,))
    asked = carried(project(), Fraction(305, 4) + gap(corner).inch)
    return Yard(asked, lay_out(asked, ALONG, Chain(inch(20), inch(5), main, right, left, corner)))


def split_u(corner: CornerKind) -> Yard:
    """Both arms own their corners, three modules along AB and two; the main run of one is split off at both.

    The right corner's piece is 3 1/2 + 24 1/4 + 24 1/4 = 52 in long; the left arm's modules are split off, since with
    their end they take 50 in.
    """
    main = Row(_SQUARE, 1, splits=(0, 1))
    right = Row(_SQUARE, 3, (2,), (0, 2), splits=(1,))
    left = Row(_SQUARE, 2, (1,), (), splits=(0,))
    asked = carried(project(), 52 + gap(corner).inch)
    return Yard(asked, lay_out(asked, RIGHT_ALONG, Chain(inch(5), inch(-150), main, right, left, corner)))


def yards() -> dict[str, Yard]:
    """The right layouts by name."""
    found = {
        "straight": straight(),
        "mixed": mixed(),
        "turned corner": turned_corner(),
        "stout": stout(),
        "right odd": slim(RIGHT),
        "left odd": slim(LEFT),
        "drain": over_a_drain(),
        "split straight": split_straight(),
        "mixed, angle posts": mixed_angle(),
        "mixed, spread": mixed_spread(),
        "overhung straight": overhung_straight(),
    }
    for corner in CornerKind:
        found[f"split right L, {corner}"] = split_ell(corner, RIGHT)
        found[f"split left L, {corner}"] = split_ell(corner, LEFT)
        found[f"split U, {corner}"] = split_u(corner)
        found[f"right L, {corner}"] = ell(corner, RIGHT)
        found[f"left L, {corner}"] = ell(corner, LEFT)
        found[f"U, {corner}"] = u(corner)
        found[f"free U, {corner}"] = u_free(corner)
        for name, make in (("right", u_right_along), ("left", u_left_along)):
            # The arm along the edge longer than the main run; as long; and the other arm as long as the main run.
            for counts in ((2, 3, 1), (2, 2, 1), (2, 2, 2), (1, 3, 2)):
                main, one, other = counts
                arms = (one, other) if name == "right" else (other, one)
                found[f"U {counts} along its {name} arm, {corner}"] = make(corner, (main, *arms))
    return found | overhung_yards()


def overhung_yards() -> dict[str, Yard]:
    """The same of every treatment, where cushions come forward by half an inch."""
    half, found = "1/2", {}
    for corner in CornerKind:
        found[f"overhung right L, {corner}"] = ell(corner, RIGHT, half)
        found[f"overhung left L, {corner}"] = ell(corner, LEFT, half)
        found[f"overhung U, {corner}"] = u(corner, half)
        found[f"overhung free U, {corner}"] = u_free(corner, over=half)
        found[f"overhung U along its right arm, {corner}"] = u_right_along(corner, (1, 3, 2), half)
        found[f"overhung U along its left arm, {corner}"] = u_left_along(corner, (2, 2, 2), half)
    return found
