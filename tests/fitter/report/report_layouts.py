"""Layouts to tell of, laid out by hand in an invented room; none of them need fit it."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

from hand_built import INSIDE, OPEN, OUTSIDE, Chain, Row, lay_out

from fitter.domain.cushions import Cushion, Option
from fitter.domain.layout import Layout, Pose, Proof, Side, Verdict
from fitter.domain.outcome import FitResult, LayoutResult
from fitter.domain.project import Project
from fitter.domain.wishes import CornerKind, EndKind, Objective
from fitter.project import read_project
from rooms.geometry import Point
from rooms.lengths import ZERO, Length

EXAMPLES = Path(__file__).parents[3] / "examples"
inch = Length.inches

SQUARE = Cushion("square", inch(24), inch(24), inch(5), own=5, price=Fraction(68), may_turn=True)
BENCH = Cushion("bench", inch(48), inch(24), inch(5), own=1, price=Fraction(90), seats=2)
SMALL = Cushion("small", inch(20), inch(18), inch(5), own=1)


def courtyard() -> Project:
    """The example with three kinds of cushion."""
    project = read_project(str(EXAMPLES / "courtyard.yaml"))
    return replace(project, cushions=(SQUARE, BENCH, SMALL))


def layout(
    main: int = 3,
    right: int = 0,
    left: int = 0,
    *,
    option: Option | None = None,
    corner: CornerKind = OUTSIDE,
    in_corner: Option | None = None,
    ends: tuple[EndKind, EndKind] = (EndKind.ARMED, OPEN),
    x: int = 40,
    edge: str | None = "AB",
    aligned: Side = Side.MAIN,
) -> Layout:
    """A chain of runs of square cushions; of `option` on the main run."""
    chain = Chain(
        inch(x),
        inch(5),
        Row(option or Option(SQUARE), main, (), ()),
        right=Row(Option(SQUARE), right, (), (0,)) if right else None,
        left=Row(Option(SQUARE), left, (), (0,)) if left else None,
        corner=corner if right or left else None,
        right_corner=in_corner,
        left_corner=in_corner,
        ends=ends,
    )
    return lay_out(courtyard(), Pose(Point(ZERO, ZERO), Fraction(1), Fraction(0), edge, aligned), chain)


def result(*layouts: Layout, unproven: int = 0, interrupted: bool = False, exhausted: bool = False) -> FitResult:
    """An answer with these layouts, all proven but the one of rank `unproven`."""
    shown = []
    for rank, each in enumerate(layouts, start=1):
        open_end = Proof(Objective.POSTS, len(each.posts), len(each.posts) - 1, proven=rank != unproven)
        seats = Proof(Objective.SEATS, each.seats, each.seats, proven=True)
        verdict = Verdict.FOUND if rank == unproven else Verdict.PROVEN
        shown.append(LayoutResult(rank, verdict, each, (seats, open_end)))
    verdict = Verdict.FOUND if unproven else Verdict.PROVEN
    return FitResult(verdict, tuple(shown), interrupted=interrupted, exhausted=exhausted)


__all__ = ["BENCH", "EXAMPLES", "INSIDE", "OPEN", "SMALL", "SQUARE", "courtyard", "inch", "layout", "result"]
