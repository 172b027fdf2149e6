"""A small bench frame made by hand, every number of it known: two posts, a rail between them, a slat on a cleat."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from fitter.domain.frame import Section
from fitter.domain.wishes import Side
from fitter.domain.woodwork import (
    EndCut,
    Fastener,
    Fixing,
    Housing,
    Joint,
    Levels,
    Part,
    PartRole,
    Slant,
    Spread,
    Vector,
    Woodwork,
)
from rooms.lengths import Length

inch = Length.inches

X: Vector = (1, 0, 0)
Y: Vector = (0, 1, 0)
Z: Vector = (0, 0, 1)
BACK: Vector = (0, -1, 0)

POST = Section("4x4", inch("7/2"), inch("7/2"), measured=True)
RAIL = Section("2x8", inch("3/2"), inch("29/4"))
CLEAT = Section("2x2", inch("3/2"), inch("3/2"))
SLAT = Section("5/4x6", inch(1), inch("11/2"))
PAD = Section("1x4", inch("3/4"), inch("7/2"))


def spot(x: int | str, y: int | str, z: int | str) -> Vector:
    """A point given in inches."""
    return inch(x).units, inch(y).units, inch(z).units


HOUSED = Housing(inch(4), inch("45/4"), inch(3), inch("7/2"), inch(1), inch("5/2"))
FIRST = Part(
    PartRole.SUPPORT_POST, Side.MAIN, POST, inch("45/4"), inch("7/2"), inch("7/2"), spot(0, 0, "3/4"), Z, X, Y,
    housings=(HOUSED,), place="line 1", mark="M-P1",
)  # fmt: skip
SECOND = replace(FIRST, origin=spot("87/2", 0, "3/4"), housings=(), place="line 2", mark="M-P2")
FRONT_RAIL = Part(
    PartRole.FRONT_RAIL, Side.MAIN, RAIL, inch("81/2"), inch("29/4"), inch("3/2"), spot(3, "5/2", "19/4"), X, Z, BACK,
    shows="wide face to the front", place="front bay 1", mark="M-FR1",
)  # fmt: skip
LOW_CLEAT = Part(
    PartRole.CLEAT, Side.MAIN, CLEAT, inch(40), inch("3/2"), inch("3/2"), spot("7/2", 1, "19/2"), X, Z, BACK,
    place="front bay 1", mark="M-C1",
)  # fmt: skip
ONE_SLAT = Part(
    PartRole.SEAT_SLAT, Side.MAIN, SLAT, inch(20), inch("11/2"), inch(1), spot(10, 1, 11), BACK, X, Z,
    shows="wide face up", place="seat", mark="M-S1",
)  # fmt: skip
MITRE = EndCut(inch("7/2"), Slant.WIDTH, low=False)
ARM = Part(
    PartRole.ARM_PIECE, Side.RIGHT, POST, inch(27), inch("7/2"), inch("7/2"), spot(0, 60, "3/4"), X, BACK, (0, 0, -1),
    cuts=(MITRE, MITRE), shows="outer face", place="right end, bottom", piece=2, mark="R-A1",
)  # fmt: skip
PADS = tuple(
    Part(
        PartRole.FOOT, Side.MAIN, PAD, inch("7/2"), inch("7/2"), high, (at.units, 0, -drop.units), X, Y, Z,
        place="under support post", mark=mark,
    )
    for at, high, drop, mark in (
        (inch(0), inch("3/4"), inch(0), "M-F1"),
        (inch("87/2"), inch("5/4"), inch("1/2"), "M-F2"),
    )
)  # fmt: skip

POCKET = Fastener(
    Fixing.POCKET_SCREW, "#8", Fraction(inch("11/64").units), inch("5/2"),
    head=spot("9/2", "3/2", 8), tip=spot(2, 2, 8), through=2, into=0,
)  # fmt: skip
"""It sits 1 1/2 in from the rail's end and 1 in below its front, and falls 1/5: it is bored 4 in from that end."""
DOWN = Fastener(
    Fixing.SCREW, "#8", Fraction(inch("11/64").units), inch(2), head=spot(11, "1/4", 12), tip=spot(11, "1/4", 10),
    through=4, into=3, pilot=Fraction(inch("3/32").units), countersunk=True,
)  # fmt: skip
SECOND_DOWN = replace(DOWN, head=spot("29/2", "1/4", 12), tip=spot("29/2", "1/4", 10))
BOLT = Fastener(
    Fixing.BOLT, "3/8", Fraction(inch("3/8").units), inch("9/2"), head=spot(1, 0, 2), tip=spot(1, "7/2", 2),
    through=0, into=0,
)  # fmt: skip

LEVELS = Levels(
    inch("3/4"), inch("19/4"), inch(12), inch(17), inch(16), inch(24), inch("61/4"), inch(35), inch(17)
)  # fmt: skip
GAPS = (inch(2), inch(2), inch("33/16"), inch(2))
SEATS = Spread(
    Side.MAIN, PartRole.SEAT_SLAT, "field 1", inch("395/16"), inch("11/2"), 3, GAPS, inch("9/4"),
    '2 slats would leave 4 9/16" gaps',
)  # fmt: skip

BENCH = Woodwork(
    parts=(FIRST, SECOND, FRONT_RAIL, LOW_CLEAT, ONE_SLAT, ARM, *PADS),
    joints=(
        Joint((2, 0), (POCKET,), glued=True, housed=True, says="the rail sits in the post"),
        Joint((4, 3), (DOWN, SECOND_DOWN)),
        Joint((6, 0), says="bears"),
    ),
    levels=LEVELS,
    spreads=(SEATS,),
    fall=inch("1/2"),
)

__all__ = ["ARM", "BENCH", "BOLT", "FIRST", "FRONT_RAIL", "LEVELS", "SECOND", "inch", "spot"]
