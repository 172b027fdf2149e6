"""Each wide arm that the layout tells is whole: its panel twice, boards from one to the other, bearers and ties."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from fitter.checking.wood.bearing import BEARING
from fitter.checking.wood.built import DOWN, Built, sides
from fitter.checking.wood.shelves import outward
from fitter.checking.wood.solids import TINY, Floats, inches
from fitter.domain.findings import Finding
from fitter.domain.frame import EndPanel
from fitter.domain.layout import End, Fill
from fitter.domain.wishes import FillKind
from fitter.domain.woodwork import PartRole

PANEL = (PartRole.ARM_PIECE, PartRole.ARM_POST, PartRole.ARM_RAIL)
TOP = (PartRole.ARM_BEARER, PartRole.ARM_TIE, PartRole.ARM_BOARD)

_GAP = 0.5
"""Widest gap between boards, inches: as between boards of a table, common practice."""


def wide_arms(built: Built) -> Iterator[Finding]:
    """The panel of each wide arm stands once more at its outer face, with a top between; and none is there unasked."""
    left = set(built.of(*TOP))
    far = set(built.of(*PANEL)) - {n for end in built.layout.ends for n in _within(built, sides(end.box), PANEL)}
    for fill in built.layout.built_fills:
        if fill.kind is not FillKind.ARM:
            continue
        end = next(end for end in built.layout.ends if end.hand is fill.hand)
        own = _within(built, _ground(fill, end), TOP)
        left -= set(own)
        second = _within(built, sides(fill.box), PANEL)
        far -= set(second)
        yield from _panel(built, fill, end, second)
        yield from _bearers(built, fill, [n for n in own if built.is_a(n, (PartRole.ARM_BEARER,))])
        yield from _ties(built, fill, [n for n in own if built.is_a(n, (PartRole.ARM_TIE,))])
        yield from _boards(built, fill, [n for n in own if built.is_a(n, (PartRole.ARM_BOARD,))])
    for number in sorted((*left, *far)):
        yield built.fault("arm-unasked", f"{built.name(number)} is of no arm of the layout", built.middle(number))


def arm_boards(built: Built) -> Iterator[Finding]:
    """Both ends of every board of an arm bear, over their whole width and at least half an inch far."""
    for number in built.of(PartRole.ARM_BOARD):
        face = built.solids.face_axis(number, DOWN)
        wide = next(axis for axis in (1, 2) if axis != face // 2)
        length, width = built.solids.sizes[number][0], built.solids.sizes[number][wide]
        rows = built.touching(number, face, (PartRole.ARM_BEARER,))
        low, high = built.contacts.low[rows], built.contacts.high[rows]
        for end in (0, 1):
            near = (length - high[:, 0] if end else low[:, 0]) < BEARING
            bearing = near & (high[:, 0] - low[:, 0] > BEARING - TINY)
            borne = float((high[bearing, wide] - low[bearing, wide]).sum())
            if borne < width - TINY:
                message = f"the {'far' if end else 'first'} end of {built.name(number)} bears over {built.tell(borne)}"
                yield built.fault("arm-board-hangs", message, built.middle(number))


def _within(built: Built, plan: tuple[Floats, Floats], roles: tuple[PartRole, ...]) -> list[int]:
    """Parts whose middle lies in a plan."""
    low, high = plan
    middle = [(number, built.middle(number)[:2]) for number in built.of(*roles)]
    return [number for number, at in middle if (at > low - TINY).all() and (at < high + TINY).all()]


def _ground(fill: Fill, end: End) -> tuple[Floats, Floats]:
    """The plan of an arm with that of its end."""
    (low, high), (a, b) = sides(fill.box), sides(end.box)
    return np.minimum(low, a), np.maximum(high, b)


def _fault(built: Built, code: str, fill: Fill, what: str) -> Finding:
    low, high = sides(fill.box)
    spot = np.append((low + high) / 2, inches(built.levels.arm))
    return built.fault(code, f"the wide arm at the {fill.hand} end {what}", spot)


def _panel(built: Built, fill: Fill, end: End, second: list[int]) -> Iterator[Finding]:
    """Every part of the panel at the run but a rail for the seat stands once more, at the outer face of the arm."""
    along, way = built.ways[fill.run].along, outward(built, fill)
    first = _within(built, sides(end.box), PANEL)
    solids = built.solids
    if not first or not second:
        yield _fault(built, "arm-panel", fill, "has no second panel")
        return
    faces = [(solids.part_high if way > 0 else solids.part_low)[n][along] for n in (*first, *second)]
    low, high = sides(fill.box)
    face = (high if way > 0 else low)[along]
    out = face - (max(faces[: len(first)]) if way > 0 else min(faces[: len(first)]))
    places = {_place(built, n, 0.0, along) for n in second}
    for number in first:
        spare = built.made.end_panel is EndPanel.MITRED and built.is_a(number, (PartRole.ARM_RAIL,))
        if not spare and _place(built, number, out, along) not in places:
            yield _fault(built, "arm-panel", fill, f"has no part like {built.name(number)} at its outer face")
    if len(second) > len(first):
        yield _fault(built, "arm-panel", fill, f"has {len(second)} parts in its second panel, not {len(first)}")


def _place(built: Built, number: int, out: float, along: int) -> tuple[object, ...]:
    """What a part is and where it would lie, moved along its run."""
    low, high = built.solids.part_low[number].copy(), built.solids.part_high[number].copy()
    low[along], high[along] = low[along] + out, high[along] + out
    low[2] = 0.0 if built.project.room.slope else low[2]  # on falling ground either may reach lower
    return built.parts[number].role, *np.round(np.append(low, high), 3).tolist()


def _bearers(built: Built, fill: Fill, bearers: list[int]) -> Iterator[Finding]:
    """One bearer along either panel, from back to front, right below the boards."""
    along, solids = built.ways[fill.run].along, built.solids
    low, high = sides(fill.box)
    under = inches(built.levels.arm) - built.mark(built.made.table.thickness)
    sides_met = {bool(built.middle(n)[along] > np.mean([built.middle(m)[along] for m in bearers])) for n in bearers}
    if len(bearers) != 2 or len(sides_met) != 2:
        yield _fault(built, "arm-bearers", fill, f"has {len(bearers)} bearers, not one a panel")
    for n in bearers:
        if not _spans(built, n, 1 - along, low, high) or abs(solids.part_high[n][2] - under) > TINY:
            yield _fault(built, "arm-bearers", fill, f"has {built.name(n)} away from its panel's top")


def _spans(built: Built, number: int, axis: int, low: Floats, high: Floats) -> bool:
    a, b = built.solids.part_low[number][axis], built.solids.part_high[number][axis]
    return bool(abs(a - low[axis]) < TINY and abs(b - high[axis]) < TINY)


def _ties(built: Built, fill: Fill, ties: list[int]) -> Iterator[Finding]:
    """Two, at the back and the front, in the lower half of the arm."""
    deep = 1 - built.ways[fill.run].along
    low, high = sides(fill.box)
    at = {bool(built.middle(n)[deep] > (low + high)[deep] / 2) for n in ties}
    if len(ties) != 2 or len(at) != 2:
        yield _fault(built, "arm-ties", fill, f"has {len(ties)} ties between its panels, not one at back and front")
    for n in ties:
        if built.middle(n)[2] > inches(built.levels.arm) / 2:
            yield _fault(built, "arm-ties", fill, f"has {built.name(n)} in its upper half")


def _boards(built: Built, fill: Fill, boards: list[int]) -> Iterator[Finding]:
    """Evenly from the back to the front, their tops flush with the arm."""
    deep, solids = 1 - built.ways[fill.run].along, built.solids
    low, high = sides(fill.box)
    for n in boards:
        if abs(solids.part_high[n][2] - inches(built.levels.arm)) > TINY:
            yield _fault(built, "arm-board", fill, f"has {built.name(n)} not flush with its top")
    spans = sorted((float(solids.part_low[n][deep]), float(solids.part_high[n][deep])) for n in boards)
    stops = [float(low[deep]), *(x for span in spans for x in span), float(high[deep])]
    gaps = [b - a for a, b in zip(stops[::2], stops[1::2], strict=True)]
    if max(gaps) > _GAP + TINY or max(gaps) - min(gaps) > built.one_mark + TINY:
        yield _fault(built, "arm-gaps", fill, f"has gaps that are uneven or too wide, up to {built.tell(max(gaps))}")
