"""Where rails end: against wood that holds them; and where mitred pieces meet."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from fitter.checking.wood.built import POSTS, SEAT_RAILS, Built, sides
from fitter.checking.wood.solids import TINY, Floats
from fitter.domain.findings import Finding
from fitter.domain.wishes import CornerKind
from fitter.domain.woodwork import PartRole

_PANEL_RAILS = (PartRole.BOTTOM_RAIL, PartRole.TOP_RAIL)
_END_PIECES = (PartRole.ARM_PIECE, PartRole.ARM_POST, PartRole.ARM_RAIL, PartRole.LEG, PartRole.END_RAIL)

HOLDERS: dict[PartRole, tuple[PartRole, ...]] = {
    **dict.fromkeys(SEAT_RAILS, (*POSTS, *_END_PIECES, *SEAT_RAILS)),
    **dict.fromkeys(_PANEL_RAILS, (PartRole.UPRIGHT, PartRole.CORNER_POST)),
    PartRole.ARM_RAIL: (PartRole.ARM_POST, PartRole.ARM_PIECE),
    PartRole.END_RAIL: (PartRole.LEG, PartRole.ARM_PIECE, PartRole.ARM_POST),
    PartRole.ARM_PIECE: (PartRole.ARM_PIECE,),
    PartRole.SHELF_RAIL: (PartRole.SHELF_LEG,),
    PartRole.ARM_TIE: (PartRole.ARM_PIECE, PartRole.ARM_POST),
}
"""What may hold the end of what."""

_LEAST = {PartRole.ARM_PIECE: 0.95}
"""Which share of an end must be held; half of it for those that are not named."""


_NEAR = 4.0
"""How far from the corner of a place a rail's end may lie that is told to be there, inches."""


def ends_held(built: Built) -> Iterator[Finding]:
    """Each end of each rail meets what holds it, face to face, or laps it close to the end."""
    for number in built.of(*HOLDERS):
        role = built.parts[number].role
        for end, where in enumerate(("first", "far")):
            area = built.solids.sizes[number][1] * built.solids.sizes[number][2]
            if role is PartRole.ARM_PIECE:
                area *= _slant(built, number, end)
            rows = built.touching(number, end, HOLDERS[role])
            held = sum(built.contacts.area[row] for row in rows)
            if held < _LEAST.get(role, 0.5) * area - TINY and not _lapped(built, number, end):
                length = built.solids.sizes[number][0]
                spot = built.solids.origins[number] + built.solids.axes[number][0] * (length if end else 0)
                yield built.fault("end-hangs", f"the {where} end of {built.name(number)} hangs free", spot)


def _slant(built: Built, number: int, end: int) -> float:
    """How much larger a slanted end is than a square one."""
    piece = int(built.solids.part.searchsorted(number))
    normal = built.solids.normals[piece][end]
    return float(1 / max(abs(normal @ built.solids.axes[number][0]), TINY))


def _lapped(built: Built, number: int, end: int) -> bool:
    """Whether a back rail ends free at a post outside the deck, but lies against an upright or post close to its end.

    Beyond such a post the longer run's back rail has nothing to butt against.
    """
    if built.layout.corner is not CornerKind.OUTSIDE_POST or built.parts[number].role is not PartRole.BACK_RAIL:
        return False
    post, length = built.mark(built.project.frame.post.width), built.solids.sizes[number][0]
    tip = built.solids.origins[number] + built.solids.axes[number][0] * (length if end else 0)
    if not any(_at_corner(tip, *sides(corner.box)) for corner in built.layout.corners):
        return False
    for face in (2, 3, 4, 5):
        for row in built.touching(number, face, (PartRole.UPRIGHT, *POSTS)):
            gap = length - built.contacts.high[row][0] if end else built.contacts.low[row][0]
            if gap < post:
                return True
    return False


def _at_corner(tip: Floats, low: Floats, high: Floats) -> bool:
    """Whether the end of a rail lies at a corner of a corner place, as near as the rail is thick."""
    return bool((np.minimum(np.abs(tip[:2] - low), np.abs(tip[:2] - high)) < _NEAR).all())
