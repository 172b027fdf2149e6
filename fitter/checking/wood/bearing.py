"""What lies on what: slats on cleats and rails, cleats and ledgers against what holds them, boards on bearers."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from fitter.checking.wood.built import DOWN, POSTS, SEAT_RAILS, UP, Built, Span, union
from fitter.checking.wood.solids import TINY, inches
from fitter.domain.findings import Finding
from fitter.domain.frame import RailJoint
from fitter.domain.woodwork import PartRole

MOST = 0.75
"""How much of its width a slat bears over at least: what hardly meets a post may lie on its rail's cleat alone."""

BEARING = 0.5
"""Least bearing of a slat along its length, inches; common practice."""

HOLD = 1.0
"""How much of a post a short cleat at least lies against, inches: as wide as screws, one above the other, keep three
diameters of 1/6 in from both its edges."""

SHARE = 0.95
"""How much of a contact must be there where all of it should be: less than an inch may be missing of any."""

UNDER_SLATS = (PartRole.CLEAT, PartRole.SHORT_CLEAT, *SEAT_RAILS, PartRole.END_RAIL)
CLEAT_HOLDERS = (
    *SEAT_RAILS, PartRole.END_RAIL, *POSTS, PartRole.LEG, PartRole.ARM_PIECE, PartRole.ARM_POST, PartRole.ARM_RAIL,
)  # fmt: skip
TABLE_HOLDERS = (PartRole.SEAT_SLAT, *SEAT_RAILS, *POSTS)


def seat_slats(built: Built) -> Iterator[Finding]:
    """Both ends of every seat slat bear on cleats or rails, over most of their width."""
    for number in built.of(PartRole.SEAT_SLAT):
        for end, where in enumerate(("first", "far")):
            yield from _borne(built, number, end, where)


def table_boards(built: Built) -> Iterator[Finding]:
    """Every board of a table lies on bearers or the deck at both ends, and every bearer on the deck."""
    for role, roles in (
        (PartRole.TABLE_BOARD, (PartRole.TABLE_BEARER, *TABLE_HOLDERS)),
        (PartRole.TABLE_BEARER, TABLE_HOLDERS),
    ):
        for number in built.of(role):
            face = built.solids.face_axis(number, DOWN)
            rows = built.touching(number, face, roles)
            length = built.solids.sizes[number][0]
            spans = [(built.contacts.low[row][0], built.contacts.high[row][0]) for row in rows]
            # What overhangs by more than a third of its length at an end tips.
            if not spans or min(spans)[0] > length / 3 or max(b for _, b in spans) < length * 2 / 3:
                yield built.fault("table-hangs", f"{built.name(number)} has nothing under an end", built.middle(number))


def _borne(built: Built, number: int, end: int, where: str) -> Iterator[Finding]:
    face = built.solids.face_axis(number, DOWN)
    wide = next(axis for axis in (1, 2) if axis != face // 2)
    length, width = built.solids.sizes[number][0], built.solids.sizes[number][wide]
    spans: list[Span] = []
    for row in built.touching(number, face, UNDER_SLATS):
        low, high = built.contacts.low[row], built.contacts.high[row]
        # Only what reaches under the outermost half inch holds the end up.
        over = high[0] - max(low[0], length - 2) if end else min(high[0], 2) - low[0]
        near = length - high[0] if end else low[0]
        if over >= BEARING - TINY and near <= BEARING:
            spans.append((low[wide], high[wide]))
    covered = sum(b - a for a, b in union(spans))
    if covered < MOST * width - TINY:
        spot = built.solids.origins[number] + built.solids.axes[number][0] * (length if end else 0)
        message = f"the {where} end of {built.name(number)} bears over {built.tell(covered)} of its {built.tell(width)}"
        yield built.fault("slat-hangs", message, spot)


def back_slats(built: Built) -> Iterator[Finding]:
    """Every back slat lies against the bottom and the top rail, over its whole width, its ends flush with them."""
    for number in built.of(PartRole.BACK_SLAT):
        length, width = built.solids.sizes[number][:2]
        rows = range(*built.contacts.of(number).indices(len(built.contacts.one)))
        for role in (PartRole.BOTTOM_RAIL, PartRole.TOP_RAIL):
            found = [row for row in rows if built.parts[built.contacts.other[row]].role is role]
            area = sum(built.contacts.area[row] for row in found)
            rail = max((built.solids.sizes[built.contacts.other[row]][1] for row in found), default=0.0)
            if not found or area < SHARE * width * rail:
                message = f"{built.name(number)} does not lie on a {role} over its whole width"
                yield built.fault("back-slat-loose", message, built.middle(number))
                continue
            low = min(built.contacts.low[row][0] for row in found)
            high = max(built.contacts.high[row][0] for row in found)
            if min(low, length - high) > built.one_mark + TINY:
                message = f"{built.name(number)} does not end flush with its {role}"
                yield built.fault("back-slat-uneven", message, built.middle(number))


def cleats(built: Built) -> Iterator[Finding]:
    """Every cleat lies with a side against what it is fastened to: all its length, a short one as screws need."""
    below = inches(built.levels.deck) - built.mark(built.made.seat_slat.thickness)
    for number in built.of(PartRole.CLEAT, PartRole.SHORT_CLEAT):
        length = built.solids.sizes[number][0]
        if abs(built.solids.part_high[number][2] - below) > TINY:
            message = f"{built.name(number)} does not lie a slat's thickness below the deck"
            yield built.fault("cleat-height", message, built.middle(number))
        best = 0.0
        for face in (2, 3, 4, 5):
            if built.solids.face_axis(number, UP) // 2 == face // 2:
                continue
            high = built.solids.sizes[number][1 if face // 2 == 2 else 2]
            rows = built.touching(number, face, CLEAT_HOLDERS)
            best = max(best, sum(built.contacts.area[row] for row in rows) / high)
        needed = min(length, HOLD) if built.parts[number].role is PartRole.SHORT_CLEAT else length
        if best < SHARE * needed:
            message = f"{built.name(number)} lies against {built.tell(best)} of wood, not {built.tell(needed)}"
            yield built.fault("cleat-loose", message, built.middle(number))


def short_cleats_flush(built: Built) -> Iterator[Finding]:
    """Each end of a short cleat is flush with a slat on it or with its post, or meets wood, so nothing sticks out."""
    for number in built.of(PartRole.SHORT_CLEAT):
        rows = built.contacts.of(number)
        length = built.solids.sizes[number][0]
        others = sorted(set(built.contacts.other[rows].tolist()))
        for end in (0.0, length):
            met = (built.contacts.face[rows] == (1 if end else 0)).any()
            tip = built.solids.origins[number] + built.solids.axes[number][0] * end
            axis = int(np.abs(built.solids.axes[number][0]).argmax())
            edges = [side[other][axis] for other in others for side in (built.solids.part_low, built.solids.part_high)]
            if not met and min((abs(edge - tip[axis]) for edge in edges), default=np.inf) > built.one_mark + TINY:
                message = f"{built.name(number)} ends beside what it carries"
                yield built.fault("cleat-astray", message, tip)


def ledgers(built: Built) -> Iterator[Finding]:
    """Each ledger lies with a side against a post; a rail end at a post is on one where they are chosen, or housed."""
    holders = (*POSTS, PartRole.LEG, PartRole.ARM_PIECE, PartRole.ARM_POST)
    for number in built.of(PartRole.LEDGER):
        sizes = built.solids.sizes[number]
        best = 0.0
        for face in range(6):
            rows = built.touching(number, face, holders)
            upright = [row for row in rows if abs(built.contacts.normal[row][2]) < TINY]
            side = float(np.delete(sizes, face // 2).prod())
            best = max(best, sum(built.contacts.area[row] for row in upright) / side)
        if best < SHARE:
            yield built.fault("ledger-loose", f"{built.name(number)} lies against no post", built.middle(number))
        if not built.touching(number, built.solids.face_axis(number, UP), SEAT_RAILS):
            yield built.fault("ledger-idle", f"{built.name(number)} carries no rail", built.middle(number))
    if built.made.rail_joint is not RailJoint.SCREWS:
        yield from _on_ledgers(built)


def _housed(built: Built, rows: list[int]) -> bool:
    """Whether the end of a rail sits in a housing, where those are chosen; else a ledger takes its place."""
    return built.made.rail_joint is RailJoint.HOUSING and bool((built.contacts.theirs[rows] == -1).any())


def _on_ledgers(built: Built) -> Iterator[Finding]:
    for number in built.of(*SEAT_RAILS):
        face, length = built.solids.face_axis(number, DOWN), built.solids.sizes[number][0]
        thick = next(axis for axis in (1, 2) if axis != face // 2)
        low, high = built.contacts.low[:, thick], built.contacts.high[:, thick]
        ledges = built.touching(number, face, (PartRole.LEDGER,))
        for end in (0, 1):
            met = built.touching(number, end, POSTS)
            if not met or _housed(built, met):
                continue
            # As wide as the rail's end and the post share.
            whole = SHARE * float((high[met] - low[met]).max())
            wide = [row for row in ledges if high[row] - low[row] > whole]
            ends = [(built.contacts.low[row][0], length - built.contacts.high[row][0])[end] for row in wide]
            if min(ends, default=np.inf) > TINY:
                message = f"no ledger carries the {'far' if end else 'first'} end of {built.name(number)}"
                yield built.fault("rail-without-ledger", message, built.middle(number))
