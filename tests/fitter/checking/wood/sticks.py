"""Sticks made by hand, for the geometry of the proof."""

from __future__ import annotations

from fractions import Fraction

from yards import Number, inch

from fitter.domain.frame import Section
from fitter.domain.layout import Side
from fitter.domain.woodwork import SQUARE, EndCut, Housing, Part, PartRole, Slant

ANY = Section("any", inch(10), inch(40))
COS, SIN = Fraction(4, 5), Fraction(3, 5)


def block(
    at: tuple[Number, Number, Number],
    size: tuple[Number, Number, Number],
    *,
    cuts: tuple[EndCut, EndCut] = (SQUARE, SQUARE),
    housings: tuple[Housing, ...] = (),
    tilted: bool = False,
) -> Part:
    """A cuboid whose grain lies along x; tilted about its origin's x axis, so that y turns toward z by 3-4-5."""
    origin = tuple(Fraction(inch(x).units) for x in at)
    across = (Fraction(0), COS, SIN) if tilted else (Fraction(0), Fraction(1), Fraction(0))
    through = (Fraction(0), -SIN, COS) if tilted else (Fraction(0), Fraction(0), Fraction(1))
    along = (Fraction(1), Fraction(0), Fraction(0))
    length, width, thick = (inch(x) for x in size)
    return Part(
        PartRole.UPRIGHT, Side.MAIN, ANY, length, width, thick, origin, along, across, through, cuts, housings
    )  # fmt: skip


def mitre(recess: Number, *, low: bool = True) -> EndCut:
    """An end that recedes across the width."""
    return EndCut(inch(recess), Slant.WIDTH, low)


def hole(a0: Number, a1: Number, b0: Number, b1: Number, c0: Number, c1: Number) -> Housing:
    """A housing in inches."""
    return Housing(*(inch(x) for x in (a0, a1, b0, b1, c0, c1)))
