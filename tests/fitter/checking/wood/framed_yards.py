"""Random layouts with random ways to build their frame; the same for the same seed."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from random import Random
from unittest.mock import patch

from hand_built import LEFT, MAIN, RIGHT, Chain, Row, lay_out
from random_chains import random_yard
from yards import Yard, inch

import fitter.frame
from fitter.checking.wood.built import Built
from fitter.domain.cushions import Option
from fitter.domain.frame import Carpentry, EndPanel, Frame, RailJoint, Section, Stance
from fitter.domain.layout import Face, Layout, PostRole, Side
from fitter.domain.levels import lean_depth
from fitter.domain.project import Project
from fitter.frame import build_frame
from rooms.lengths import ZERO, Length

LEANS = (0, 0, 5, 10, 15)
_ARM = Section("arm", inch("3/2"), inch("7/2"))


def chain_of(project: Project, layout: Layout) -> Chain:
    """The chain that a layout was laid out from, where posts may be chosen anew by nobody."""
    rows = {run.side: _row(project, layout, run.side) for run in layout.runs}
    corners = {module.corner: _option(project, module.cushion, module.turned) for module in layout.corners}
    low = min(run.deck.x0 for run in layout.runs)
    right = next((end.kind for end in layout.ends if end.hand is RIGHT), None)
    left = next((end.kind for end in layout.ends if end.hand is LEFT), None)
    assert right is not None
    assert left is not None
    return Chain(
        low, layout.runs[0].deck.y0, rows[MAIN], rows.get(RIGHT), rows.get(LEFT), layout.corner,
        corners.get(RIGHT), corners.get(LEFT), (right, left),
    )  # fmt: skip


def _row(project: Project, layout: Layout, side: Side) -> Row:
    run = next(run for run in layout.runs if run.side is side)
    option = _option(project, run.cushion, run.turned)
    assert option is not None
    splits = tuple(split.line for split in layout.splits if split.run is side)
    lines = {
        face: tuple(
            sorted(
                post.line
                for post in layout.posts
                if (post.role, post.run, post.face) == (PostRole.SUPPORT, side, face)
                and post.line is not None
                and post.line not in splits
            )
        )
        for face in (Face.FRONT, Face.BACK)
    }
    return Row(option, run.count, lines[Face.FRONT], lines[Face.BACK], splits)


def _option(project: Project, cushion: str | None, turned: bool) -> Option | None:
    return next((Option(kind, turned) for kind in project.cushions if kind.name == cushion), None)


def framed(seed: int) -> Yard:
    """The random chain of that seed, laid out for a random frame that it can be built with."""
    random = Random(f"frame {seed}")
    yard = random_yard(seed)
    frame = _frame(random, yard.project)
    corner = yard.layout.corner
    if corner and not corner.tall:
        # Backs that are to be joined to each other are plumb and meet flat.
        made = replace(frame.carpentry, lean=Fraction(0), upright_at_corner=Stance.FLAT)
        frame = replace(frame, carpentry=made)
    if yard.layout.splits:
        frame = replace(frame, overhang=ZERO)
    project = replace(yard.project, frame=frame)
    return Yard(project, lay_out(project, yard.layout.pose, chain_of(yard.project, yard.layout)))


def _frame(random: Random, project: Project) -> Frame:
    mark, frame = project.mark, project.frame
    made = _carpentry(random, project)
    leg = made.leg.thickness.ceil_to(mark)
    # As deep as the tallest back leans, and its uprights on edge.
    panel = made.back_rail.thickness.ceil_to(mark) + made.back_slat.thickness.ceil_to(mark)
    deep = max(made.upright.width, lean_depth(inch(34), panel, made.lean))
    # A front rail may stand back as long as it meets its posts with its whole end.
    room = frame.post.width.ceil_to(mark) - frame.rail.thickness.ceil_to(mark)
    made = replace(made, reveal_beside=min(made.reveal_beside, room))
    return replace(
        frame,
        back_thickness=deep.ceil_to(mark),
        arm_thickness=made.arm.thickness.ceil_to(mark),
        open_end_thickness=max(leg, frame.rail.thickness.ceil_to(mark)),
        carpentry=replace(made, upright=replace(made.upright, width=deep) if made.lean else made.upright),
        angle=Section("angle", inch(random.choice(("3/4", "1", "3/2"))), inch(random.choice(("5/2", "7/2", "11/2")))),
    )


def _carpentry(random: Random, project: Project) -> Carpentry:
    """Sections and sizes of every kind that a maker may choose."""

    def section(name: str, thick: tuple[str, ...], wide: tuple[str, ...]) -> Section:
        return Section(name, inch(random.choice(thick)), inch(random.choice(wide)))

    def marks(low: int, high: int) -> Length:
        return project.mark * round(random.randint(low, high) * inch(1).units / 16 / project.mark.units)

    lean = Fraction(random.choice(LEANS))
    return Carpentry(
        upright=section("upright", ("3/2", "2"), ("5/2", "7/2", "11/2")),
        back_rail=section("back rail", ("3/2", "2"), ("5/2", "7/2")),
        back_slat=section("back slat", ("3/4", "1"), ("3/2", "7/2")),
        seat_slat=section("seat slat", ("3/4", "1"), ("5/2", "7/2", "11/2")),
        cleat=section("cleat", ("3/2", "2"), ("3/2", "5/2")),
        arm=section("arm", ("3/2", "7/2"), ("7/2",)),
        leg=section("leg", ("3/2", "7/2"), ("7/2",)),
        foot=section("foot", ("3/4",), ("7/2",)),
        table=section("table", ("3/4", "1"), ("7/2", "11/2")),
        seat_height=inch(random.choice(("17", "18", "73/4"))),
        arm_height=random.choice((None, inch(26))),
        back_height=random.choice((None, inch(33))),
        table_height=random.choice((None, inch(20))),
        compression=Fraction(random.choice((0, 1, 2)), 5),
        lean=lean,
        slat_gap=marks(8, 40),
        back_gap=marks(16, 52),
        reveal_beside=random.choice((ZERO, ZERO, marks(1, 24))),
        end_panel=random.choice(list(EndPanel)),
        rail_joint=random.choice(list(RailJoint)),
        housing=inch("1/2").round_to(project.mark),
        upright_at_end=Stance.EDGE if lean else random.choice(list(Stance)),
        upright_at_corner=Stance.EDGE if lean else random.choice(list(Stance)),
        back_span=inch(random.choice((30, 48, 60))),
        foot_height=inch(random.choice(("3/4", "3/2"))),
    )


def built(yard: Yard) -> Built:
    """The frame of a yard, with its joints."""
    return Built(yard.project, yard.layout, build_frame(yard.project, yard.layout))


def unjoined(yard: Yard) -> Built:
    """The parts of a yard's frame alone: what fastens them takes longer to work out than all else."""
    with patch.object(fitter.frame, "joints", lambda parts, project, *, joined: ()):
        return built(yard)


def fitting(yard: Yard, **made: object) -> Yard:
    """A yard whose ends are as thick as what its frame makes them of, built in some way."""
    frame = yard.project.frame
    arm, leg = replace(_ARM, thickness=frame.arm_thickness), replace(_ARM, thickness=inch("3/2"))
    carpentry = replace(frame.carpentry, arm=arm, leg=leg, **made)  # type: ignore[arg-type]
    project = replace(yard.project, frame=replace(frame, open_end_thickness=leg.thickness, carpentry=carpentry))
    return Yard(project, lay_out(project, yard.layout.pose, chain_of(yard.project, yard.layout)))
