"""Every fastener runs in wood: from a surface through the part it holds into the part it bites, clear of all others."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from fitter.checking.wood.built import Built
from fitter.checking.wood.solids import TINY, Counts, Flags, Floats
from fitter.checking.wood.steel import FAR, between, near
from fitter.domain.findings import Finding
from fitter.domain.woodwork import Fastener, Fixing, Part
from rooms.lengths import UNITS_PER_INCH

_LEAST = 6
"""Diameters of penetration: NDS chapter 12, wood screws, tip included."""
_TIP = 0.125
"""Wood beyond a tip; common practice."""
_APART = 3
"""Diameters between the middles of two fasteners; Wood Handbook, prebored, across the grain, from memory."""
_BORE = 3 / 16
"""Half of a pocket's wide bore; common practice."""
_LOOSE = 4 * TINY
"""What rounding to whole units and a slanting path may add up to."""
_UPWARD = 0.5
"""Height of a unit normal from which water stays on a face."""
_BITING = (Fixing.SCREW, Fixing.POCKET_SCREW, Fixing.NAIL)


def fasteners_drawn(built: Built) -> Iterator[Finding]:
    """Every fastener is as long as it is told, and its pilot hole leaves wood for its thread."""
    steel = built.steel
    wrong = steel.are(*_BITING) & (np.abs(steel.long - steel.sold) > _LOOSE)
    wrong |= steel.are(Fixing.BOLT) & (steel.sold < steel.long + steel.thick - _LOOSE)
    for number in np.flatnonzero(wrong | (steel.long < TINY)).tolist():
        told, drawn = built.tell(float(steel.sold[number])), built.tell(float(steel.long[number]))
        yield _fault(built, number, "fastener-length", f"is told {told} long and drawn {drawn}")
    for number, fastener in enumerate(steel.fasteners):
        fits = (
            fastener.pilot > fastener.diameter if fastener.kind is Fixing.BOLT else fastener.pilot < fastener.diameter
        )
        if not fits:
            yield _fault(built, number, "fastener-pilot", "does not suit the hole that is bored for it")


def fasteners_in_wood(built: Built) -> Iterator[Finding]:
    """Each runs from a surface through the held part into the other, far enough, and never comes out again."""
    steel = built.steel
    if not steel.fasteners:
        return
    held, bitten, bites = steel.through, steel.into, steel.are(*_BITING)
    pocket, bolt = steel.are(Fixing.POCKET_SCREW), steel.are(Fixing.BOLT)
    on_face = np.abs(held.enter) < _LOOSE
    sunk = (held.enter < -_LOOSE) & (held.enter > -FAR)
    faults: tuple[tuple[Flags, str, str], ...] = (
        (~np.where(pocket, sunk, on_face), "fastener-head", "does not begin on a face of the part that it holds"),
        (held.inside + bitten.inside < steel.long - _LOOSE, "fastener-out", "leaves the wood of its two parts"),
        (held.leave > bitten.enter + _LOOSE, "fastener-astray", "does not go from one part into the other"),
        (bites & (bitten.inside < _LEAST * steel.thick - _LOOSE), "fastener-short", "bites less than 6 diameters"),
        (bites & (bitten.leave < steel.long + _TIP - _LOOSE), "fastener-through", 'comes nearer than 1/8" to a face'),
        (bolt & (np.abs(bitten.leave - steel.long) > _LOOSE), "fastener-through", "does not end on the far face"),
    )
    for wrong, code, what in faults:
        yield from (_fault(built, number, code, what) for number in np.flatnonzero(wrong).tolist())


def fasteners_apart(built: Built) -> Iterator[Finding]:
    """No two come nearer than three diameters, and none into the bore of another's pocket."""
    steel = built.steel
    which, mouths = steel.bores
    # Pocket bores follow the fasteners as bars of their own.
    start, stop = np.concatenate([steel.heads, mouths]), np.concatenate([steel.tips, steel.heads[which]])
    owner = np.concatenate([np.arange(len(steel.fasteners)), which])
    bore = np.arange(len(owner)) >= len(steel.fasteners)
    thick = steel.thick[owner]
    one, other = _close(start, stop, thick)
    keep = owner[one] != owner[other]
    one, other = one[keep], other[keep]
    # Steel keeps its diameters from steel; from a bore, and a bore from a bore, it is enough that they do not meet.
    reach = np.where(bore, _BORE, thick / 2)
    wanted = np.where(bore[one] | bore[other], reach[one] + reach[other], _APART * (thick[one] + thick[other]) / 2)
    gap = between(start[one], stop[one], start[other], stop[other])
    for row in np.flatnonzero(gap < wanted - _LOOSE).tolist():
        number, second = int(owner[one[row]]), int(owner[other[row]])
        what = f"comes within {built.tell(float(gap[row]))} of the {_named(built, steel.fasteners[second])}"
        yield _fault(built, number, "fasteners-meet", what)


def _close(start: Floats, stop: Floats, thick: Floats) -> tuple[Counts, Counts]:
    if not len(start):
        return np.zeros(0, dtype=np.intp), np.zeros(0, dtype=np.intp)
    margin = max(_APART * float(thick.max()), 2 * _BORE)
    return near(np.minimum(start, stop), np.maximum(start, stop), margin)


def pockets_hidden(built: Built) -> Iterator[Finding]:
    """No pocket is bored in a face that looks up and gathers water, nor in one that is to be seen."""
    steel = built.steel
    which, _ = steel.bores
    for number in which.tolist():
        face = steel.through.face[number]
        part = built.parts[steel.fasteners[number].through]
        if face[2] > _UPWARD:
            yield _fault(built, number, "pocket-upward", "is bored from above, where water stays")
        if float(face @ _shown(built, steel.fasteners[number].through, part)) > _UPWARD:
            yield _fault(built, number, "pocket-shows", "is bored in a face that is to be seen")


def _shown(built: Built, number: int, part: Part) -> Floats:
    """Which way the face looks that is told to be seen; nil where none is told."""
    way = built.ways[part.run]
    looks = np.zeros(3)
    if "to the front" in part.shows or "to the seat" in part.shows:
        looks[way.deep] = way.sign
    elif "to the back" in part.shows:
        looks[way.deep] = -way.sign
    elif "outer" in part.shows:
        run = next(run for run in built.layout.runs if run.side is part.run)
        middle = (run.deck.x0.units + run.deck.x1.units, run.deck.y0.units + run.deck.y1.units)[way.along]
        looks[way.along] = np.sign(built.middle(number)[way.along] - middle / 2 / UNITS_PER_INCH)
    return looks


def _named(built: Built, fastener: Fastener) -> str:
    held, bitten = built.parts[fastener.through], built.parts[fastener.into]
    return f"{fastener.kind} {fastener.size} from {held.mark or held.role} into {bitten.mark or bitten.role}"


def _fault(built: Built, number: int, code: str, what: str) -> Finding:
    fastener = built.steel.fasteners[number]
    return built.fault(code, f"the {_named(built, fastener)} {what}", built.steel.heads[number])
