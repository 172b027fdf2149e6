"""Each table corner has a top: boards over its whole place; what they lie on is told by their bearing."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from fitter.checking.wood.built import Built, sides
from fitter.checking.wood.carried import slat_way
from fitter.checking.wood.solids import TINY, inches
from fitter.domain.findings import Finding
from fitter.domain.layout import Module
from fitter.domain.woodwork import PartRole

_GAP = 0.5
"""Widest gap between the boards of a table, inches: as between boards of a deck, common practice."""


def tables(built: Built) -> Iterator[Finding]:
    """Boards across each corner place without a cushion, evenly, their tops at the table's height."""
    for module in built.layout.corners:
        if module.cushion is None:
            yield from _table(built, module)


def _table(built: Built, module: Module) -> Iterator[Finding]:
    low, high = sides(module.box)
    top = inches(built.levels.table)
    spot = np.append((low + high) / 2, top)
    boards = _inside(built, module, PartRole.TABLE_BOARD)
    where = f"the table at the {module.corner} corner"
    if not boards:
        yield built.fault("table-missing", f"{where} has no boards", spot)
        return
    for number in boards:
        if (built.solids.part_low[number][:2] < low - TINY).any() or (
            built.solids.part_high[number][:2] > high + TINY
        ).any():
            yield built.fault("table-beyond", f"{built.name(number)} reaches beyond its corner", built.middle(number))
        if abs(built.solids.part_high[number][2] - top) > TINY:
            yield built.fault("table-height", f"{built.name(number)} does not lie at {built.tell(top)}", spot)
    yield from _bearers(built, module, boards, where)
    across = 1 - int(np.abs(built.solids.axes[boards[0]][0][:2]).argmax())
    spans = sorted((float(built.solids.part_low[n][across]), float(built.solids.part_high[n][across])) for n in boards)
    stops = [float(low[across]), *(x for span in spans for x in span), float(high[across])]
    gaps = [b - a for a, b in zip(stops[::2], stops[1::2], strict=True)]
    if max(gaps) > _GAP + TINY or max(gaps) - min(gaps) > built.one_mark + TINY:
        message = f"gaps between the boards of {where} are uneven or too wide, up to {built.tell(max(gaps))}"
        yield built.fault("table-gaps", message, spot)


def _bearers(built: Built, module: Module, boards: list[int], where: str) -> Iterator[Finding]:
    """The outermost bearers lie flush with ends of boards, or behind them by what these overhang the wood in front.

    Boards that lie on the deck itself need none.
    """
    bearers = _inside(built, module, PartRole.TABLE_BEARER)
    along = int(np.abs(built.solids.axes[boards[0]][0][:2]).argmax())
    solids, sign = built.solids, slat_way(built, module).sign
    for ends, outer, out in ((solids.part_low, np.min, -1), (solids.part_high, np.max, 1)):
        at = outer(ends[bearers][:, along]) if bearers else ends[boards[0], along]
        if bearers and out == sign:
            at += sign * built.overhang
        if np.abs(ends[boards][:, along] - at).min() > built.one_mark + TINY:
            spot = built.middle(bearers[0])
            yield built.fault("table-bearer-astray", f"a bearer of {where} lies away from the boards' ends", spot)


def _inside(built: Built, module: Module, role: PartRole) -> list[int]:
    low, high = sides(module.box)
    middle = [(number, built.middle(number)[:2]) for number in built.of(role)]
    return [number for number, at in middle if (at > low - TINY).all() and (at < high + TINY).all()]
