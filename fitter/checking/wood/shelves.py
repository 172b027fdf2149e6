"""Each shelf that the layout tells is there as a whole: four legs, a rail on either side, slats over its depth."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from fitter.checking.wood.bearing import BEARING
from fitter.checking.wood.built import DOWN, Built, sides
from fitter.checking.wood.solids import TINY, Floats, inches
from fitter.domain.findings import Finding
from fitter.domain.layout import Fill
from fitter.domain.wishes import EndKind, FillKind
from fitter.domain.woodwork import PartRole

SHELF = (PartRole.SHELF_LEG, PartRole.SHELF_RAIL, PartRole.SHELF_SLAT)
END_WOOD = (PartRole.ARM_PIECE, PartRole.ARM_POST, PartRole.LEG)
"""What the legs of a shelf stand against."""

UNDER = (PartRole.SHELF_RAIL, PartRole.SHELF_LEG)

_GAP = 0.5
"""Widest gap between the slats of a shelf, inches: as between boards of a table, common practice."""


def shelves(built: Built) -> Iterator[Finding]:
    """Legs in the corners of each shelf, rails along both sides, slats at its height; and no shelf but those told."""
    left = set(built.of(*SHELF))
    for fill in built.layout.built_fills:
        if fill.kind is FillKind.SHELF:
            own = _own(built, fill)
            left -= set(own)
            yield from _legs(built, fill, [n for n in own if built.is_a(n, (PartRole.SHELF_LEG,))])
            yield from _rails(built, fill, [n for n in own if built.is_a(n, (PartRole.SHELF_RAIL,))])
            yield from _slats(built, fill, [n for n in own if built.is_a(n, (PartRole.SHELF_SLAT,))])
    for number in sorted(left):
        yield built.fault("shelf-unasked", f"{built.name(number)} is of no shelf of the layout", built.middle(number))


def shelf_slats(built: Built) -> Iterator[Finding]:
    """Both ends of every slat of a shelf bear, over their whole width and at least half an inch far."""
    for number in built.of(PartRole.SHELF_SLAT):
        face = built.solids.face_axis(number, DOWN)
        wide = next(axis for axis in (1, 2) if axis != face // 2)
        length, width = built.solids.sizes[number][0], built.solids.sizes[number][wide]
        rows = built.touching(number, face, UNDER)
        for end in (0, 1):
            low, high = built.contacts.low[rows], built.contacts.high[rows]
            near = (length - high[:, 0] if end else low[:, 0]) < BEARING
            bearing = near & (high[:, 0] - low[:, 0] > BEARING - TINY)
            borne = float((high[bearing, wide] - low[bearing, wide]).sum())
            if borne < width - TINY:
                message = f"the {'far' if end else 'first'} end of {built.name(number)} bears over {built.tell(borne)}"
                yield built.fault("shelf-slat-hangs", message, built.middle(number))


def _own(built: Built, fill: Fill) -> list[int]:
    """The parts of a shelf: the side near the end may stand before its plan, where the end's wood is thinner."""
    low, high = _ground(built, fill)
    middle = [(number, built.middle(number)[:2]) for number in built.of(*SHELF)]
    return [number for number, at in middle if (at > low - TINY).all() and (at < high + TINY).all()]


def _ground(built: Built, fill: Fill) -> tuple[Floats, Floats]:
    """The plan of a shelf with that of its end."""
    end = next(end for end in built.layout.ends if end.hand is fill.hand)
    (low, high), (a, b) = sides(fill.box), sides(end.box)
    along = built.ways[fill.run].along
    low[along], high[along] = min(low[along], a[along]), max(high[along], b[along])
    return low, high


def _top(built: Built, fill: Fill) -> float:
    end = next(end for end in built.layout.ends if end.hand is fill.hand)
    return inches(built.levels.arm if end.kind is EndKind.ARMED else built.levels.table)


def _where(fill: Fill) -> str:
    return f"the shelf at the {fill.hand} end"


def _spot(built: Built, fill: Fill) -> Floats:
    low, high = sides(fill.box)
    return np.append((low + high) / 2, _top(built, fill))


def _legs(built: Built, fill: Fill, legs: list[int]) -> Iterator[Finding]:
    """One at the back and one at the front of either side, from the feet to the slats."""
    low, high = sides(fill.box)
    along = built.ways[fill.run].along
    solids, top = built.solids, _top(built, fill) - built.mark(built.made.table.thickness)
    way = outward(built, fill)
    face = (high if way > 0 else low)[along]
    corners = set[tuple[bool, bool]]()
    for number in legs:
        a, b = solids.part_low[number], solids.part_high[number]
        back, front = abs(a[1 - along] - low[1 - along]) < TINY, abs(b[1 - along] - high[1 - along]) < TINY
        far = abs((b if way > 0 else a)[along] - face) < TINY
        if not (back or front) or abs(b[2] - top) > TINY or a[2] > inches(built.levels.foot) + TINY:
            yield built.fault(
                "shelf-leg", f"{built.name(number)} stands in no corner of its shelf", built.middle(number)
            )
        corners.add((back, far))
    met = {built.contacts.one[row] for n in legs for row in against(built, n)}
    if len(met) < 2:
        yield built.fault(
            "shelf-apart", f"{_where(fill)} stands with {len(met)} legs against its end", _spot(built, fill)
        )
    if len(corners) != 4 or len(legs) != 4:
        yield built.fault(
            "shelf-legs", f"{_where(fill)} has {len(legs)} legs in {len(corners)} corners", _spot(built, fill)
        )


def against(built: Built, number: int) -> list[int]:
    """Rows of contacts of a leg with the wood of an end, square to the run."""
    along = built.ways[built.parts[number].run].along
    rows = range(*built.contacts.of(number).indices(len(built.contacts.one)))
    level = [row for row in rows if abs(built.contacts.normal[row][along]) > 1 - TINY]
    return [row for row in level if built.is_a(built.contacts.other[row], END_WOOD)]


def outward(built: Built, fill: Fill) -> int:
    """Whether a shelf lies at the high or the low side of its end, along its run."""
    end = next(end for end in built.layout.ends if end.hand is fill.hand)
    along = built.ways[fill.run].along
    return 1 if sides(fill.box)[0][along] > sides(end.box)[0][along] else -1


def _rails(built: Built, fill: Fill, rails: list[int]) -> Iterator[Finding]:
    """One on either side, right below the slats; that each ends at legs is told by their ends."""
    under = _top(built, fill) - built.mark(built.made.table.thickness)
    along = built.ways[fill.run].along
    low, high = sides(fill.box)
    sides_met = {bool(built.middle(n)[along] > (low + high)[along] / 2) for n in rails}
    if len(rails) != 2 or len(sides_met) != 2:
        yield built.fault("shelf-rails", f"{_where(fill)} has {len(rails)} rails, not one a side", _spot(built, fill))
    for number in rails:
        if abs(built.solids.part_high[number][2] - under) > TINY:
            yield built.fault("shelf-rail", f"{built.name(number)} does not lie under the slats", built.middle(number))


def _slats(built: Built, fill: Fill, slats: list[int]) -> Iterator[Finding]:
    """Over the whole depth, evenly, at the height of the arm or of a table, out to the shelf's outer face."""
    low, high = sides(fill.box)
    along, top, solids = built.ways[fill.run].along, _top(built, fill), built.solids
    way = outward(built, fill)
    for number in slats:
        a, b = solids.part_low[number], solids.part_high[number]
        out = b[along] - high[along] if way > 0 else low[along] - a[along]
        if abs(b[2] - top) > TINY or abs(out) > TINY:
            yield built.fault("shelf-slat", f"{built.name(number)} lies away from its shelf", built.middle(number))
    deep = 1 - along
    spans = sorted((float(solids.part_low[n][deep]), float(solids.part_high[n][deep])) for n in slats)
    stops = [float(low[deep]), *(x for span in spans for x in span), float(high[deep])]
    gaps = [b - a for a, b in zip(stops[::2], stops[1::2], strict=True)]
    if max(gaps) > _GAP + TINY or max(gaps) - min(gaps) > built.one_mark + TINY:
        message = f"gaps between the slats of {_where(fill)} are uneven or too wide, up to {built.tell(max(gaps))}"
        yield built.fault("shelf-gaps", message, _spot(built, fill))
