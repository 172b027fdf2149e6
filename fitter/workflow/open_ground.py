"""A project on open ground: nothing in the way, nothing on hand, so that any design of it may stand."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from fitter.domain.designs import Design
from fitter.domain.project import Project
from fitter.domain.wishes import FillWish
from rooms.lengths import ZERO, Length
from rooms.room import Edge, EdgeKind, Point, Room

EDGE = "AB"
"""The edge that runs stand against, where the project asks for one."""


def open_ground(project: Project, design: Design) -> Project:
    """A project whose room is an empty, level square, large enough for a design.

    A reader has neither the author's cushions nor the boards on hand: all are bought. What the author wished for the
    layout is left out, since the design says it, and so is what would fill the room: open ground has no end. Leg room,
    spans and what can be carried stay.

    Args:
        project: as published.
        design: what is to stand there.

    Returns:
        A project without places in a file.
    """
    free = freed(project, design)
    against = None if project.wish.against is None else (EDGE,)
    return replace(
        free,
        room=square(_side(project, design), project.room.tolerance),
        cushions=tuple(replace(cushion, own=None) for cushion in project.cushions),
        wish=replace(free.wish, against=against, buy_most=None),
        shop=replace(project.shop, boards=tuple(replace(board, have=None) for board in project.shop.boards)),
        places={},
        findings=(),
    )


def freed(project: Project, design: Design) -> Project:
    """A project in its own room, with what a design says itself taken out of the wishes.

    The cushions that there are, the edges that may back it, how far off them it may be, leg room and routes stay.
    """
    wish = replace(
        project.wish,
        shape=design.shape,
        least=1,
        most=None,
        left_end=None,
        right_end=None,
        hand=None,
        corner=None,
        fill=FillWish.NONE,
    )
    return replace(project, wish=wish)


def square(side: Length, tolerance: Length) -> Room:
    """An empty square; only its first edge is a wall."""
    spots = [(ZERO, ZERO), (side, ZERO), (side, side), (ZERO, side)]
    corners = tuple((name, Point(*spot)) for name, spot in zip("ABCD", spots, strict=True))
    ring = [*corners, corners[0]]
    edges = tuple(
        Edge(f"{first}{last}", EdgeKind.WALL if n == 0 else EdgeKind.OPEN, start, end)
        for n, ((first, start), (last, end)) in enumerate(pairwise(ring))
    )
    return Room(corners, edges, tolerance=tolerance)


def _side(project: Project, design: Design) -> Length:
    """Longer than all runs and all that stands beside and before them, end to end."""
    frame, wish = project.frame, project.wish
    cushion = max(max(kind.size[:2]) + abs(kind.ease) for kind in project.cushions)
    modules = sum(run.count for _, run in design.runs()) + 2 * len(design.arms) + 1
    wood = frame.post.width + frame.back_thickness + frame.arm_thickness + frame.open_end_thickness
    beside = wood + frame.overhang + frame.notch_clearance + wish.legroom + project.room.tolerance + project.mark
    return cushion * modules + beside * 4 + wish.off_wall
