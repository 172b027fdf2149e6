"""An invented small yard to buy for, with its frame; and frames made by hand."""

from __future__ import annotations

from functools import cache

from fitter.domain.frame import Section
from fitter.domain.outcome import FitResult
from fitter.domain.project import Project
from fitter.domain.wishes import Side
from fitter.domain.woodwork import Joint, Levels, Part, PartRole, Vector, Woodwork
from fitter.frame import build_frame
from fitter.project import read_project
from fitter.workflow.fitting import fit
from rooms.lengths import ZERO, Length

inch = Length.inches
TEXT = """
title: Nook
units: in
room:
  corners: {{A: [0, 0], B: [90, 0], C: [90, 70], D: [0, 70]}}
  edges: {{AB: wall, BC: wall, CD: open, DA: wall}}
cushions:
  - {{name: seat, size: [24, 24, 5], own: 1, price: 40}}
wish: {{shape: straight, ends: {ends}, against: [AB], legroom: 12"}}
frame: {{end_panel: {panel}, rail_joint: {joint}}}
shop:
  boards:
    - {{section: 2x4, length: 8', price: 4.50}}
    - {{section: 2x8, length: 12', price: 21.90}}
    - {{section: 4x4, length: 8', price: 12.40}}
{shop}
"""


@cache
def nook(ends: str = "armed", panel: str = "mitred", joint: str = "screws", shop: str = "") -> Project:
    """A straight run in a nook; `shop` is more lines below `shop`."""
    return read_project("nook.yaml", TEXT.format(ends=ends, panel=panel, joint=joint, shop=shop))


@cache
def answer(project_key: tuple[str, str, str, str] = ("armed", "mitred", "screws", "")) -> FitResult:
    """The best layout of a nook, by the arguments of `nook`."""
    return fit(nook(*project_key))


@cache
def frame_of(project_key: tuple[str, str, str, str] = ("armed", "mitred", "screws", "")) -> Woodwork:
    """Its frame."""
    layout = answer(project_key).layout
    assert layout is not None
    return build_frame(nook(*project_key), layout)


LEVELS = Levels(*(ZERO,) * 9)
BOX = Section("1x4", inch(1), inch(4))
X: Vector = (1, 0, 0)
Y: Vector = (0, 1, 0)
Z: Vector = (0, 0, 1)


def stick(length: int, at: tuple[int, int, int], along: Vector, across: Vector, through: Vector) -> Part:
    """A square stick, 1 in by 4 in, in inches."""
    x, y, z = (inch(each).units for each in at)
    return Part(PartRole.FRONT_RAIL, Side.MAIN, BOX, inch(length), inch(4), inch(1), (x, y, z), along, across, through)


def box(joints: tuple[Joint, ...] = ()) -> Woodwork:
    """A plain box frame, 40 in by 22 in and 4 in high: two sticks of 40 in with two of 20 in between them."""
    back: Vector = (0, -1, 0)
    return Woodwork(
        (
            stick(40, (0, 1, 0), X, Z, back),
            stick(40, (0, 22, 0), X, Z, back),
            stick(20, (0, 1, 0), Y, Z, X),
            stick(20, (39, 1, 0), Y, Z, X),
        ),
        joints,
        LEVELS,
    )
