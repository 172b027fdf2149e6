"""A project that asks nothing but some of its requirements."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace
from fractions import Fraction

from fitter.domain.frame import Carpentry
from fitter.domain.project import Project
from fitter.domain.wishes import Side, Wish
from rooms.lengths import ZERO, Length
from rooms.room import Room, Swing


def reduced(project: Project, clash: Collection[str]) -> Project:
    """The project that asks nothing but what clashes; its outline and its edges to stand against stay.

    How far off those edges, and how long a piece may be that is carried in, is asked only where it clashes.
    """
    cushions = tuple(
        cushion if f"stock:{cushion.name}" in clash else replace(cushion, price=Fraction(1))
        for cushion in project.cushions
    )
    frame = project.frame if "span" in clash else replace(project.frame, max_span=Length.inches(1000))
    if "backs" not in clash:
        frame = replace(frame, carpentry=Carpentry())
    if "carry" not in clash:
        frame = replace(frame, carry=None)
    return replace(
        project,
        room=_room(project.room, clash),
        wish=_wish(project.wish, clash),
        cushions=cushions,
        frame=frame,
    )


def _room(room: Room, clash: Collection[str]) -> Room:
    return replace(
        room,
        openings=tuple(
            opening if f"swing:{opening.name}" in clash else replace(opening, swing=Swing.OUT)
            for opening in room.openings
        ),
        obstacles=tuple(obstacle for obstacle in room.obstacles if f"obstacle:{obstacle.name}" in clash),
        routes=tuple(route for route in room.routes if f"route:{route.name}" in clash),
    )


def _wish(wish: Wish, clash: Collection[str]) -> Wish:
    kept = {hand: "ends" in clash or f"end:{hand}" in clash for hand in (Side.LEFT, Side.RIGHT)}
    return replace(
        wish,
        least=wish.least if "least" in clash else 1,
        most=wish.most if "most" in clash else None,
        shape=wish.shape if "shape" in clash else None,
        hand=wish.hand if "hand" in clash else None,
        left_end=wish.left_end if kept[Side.LEFT] else None,
        right_end=wish.right_end if kept[Side.RIGHT] else None,
        corner=wish.corner if "corner" in clash else None,
        buy_most=wish.buy_most if "buy" in clash else None,
        legroom=wish.legroom if "legroom" in clash else ZERO,
        off_wall=wish.off_wall if "against" in clash else Length.inches(1000),
    )
