"""A slatted shelf beyond an end: two side frames of legs and a rail, the near one screwed to the end, slats across."""

from __future__ import annotations

from collections.abc import Iterator

from fitter.domain.wishes import EndKind, FillKind
from fitter.domain.woodwork import Part, PartRole, Spread
from fitter.frame.beyond import Beyond
from fitter.frame.slats import Slats, spread
from fitter.frame.spreads import told
from fitter.frame.strips import Site
from fitter.frame.tables import GAP
from rooms.lengths import Length

THINNEST = Length.inches(1)
"""A rail ripped lower than this is not worth having: common practice."""


def shelves(site: Site) -> tuple[list[Part], list[Spread]]:
    """Every part of the shelves of a layout, and how their slats are spread."""
    parts: list[Part] = []
    spreads: list[Spread] = []
    for shelf in _standing(site):
        parts += shelf.sides()
        slats, chosen = shelf.slats()
        parts += slats
        place = f"shelf at the {shelf.end.hand} end"
        spreads.append(told(site, shelf.strip, PartRole.SHELF_SLAT, place, shelf.deep, chosen, GAP))
    return parts, spreads


def _standing(site: Site) -> Iterator[_Shelf]:
    for strip in site.strips:
        for low in (True, False):
            end = strip.finish(low)
            fill = site.layout.fill(end.hand) if end is not None else None
            if end is not None and fill is not None and fill.kind is FillKind.SHELF:
                yield _Shelf(site, strip, end, fill, low)


class _Shelf(Beyond):
    """A shelf in the making: as high as an arm beside an armed end, else as a table."""

    @property
    def top(self) -> int:
        levels = self.site.levels
        return (levels.arm if self.end.kind is EndKind.ARMED else levels.table).units

    @property
    def under(self) -> int:
        return self.top - self.site.thick(self.site.options.table)

    def sides(self) -> Iterator[Part]:
        """Two legs and a rail between them, near the end and far from it; all of one section."""
        site, section = self.site, self.site.options.leg
        w, h, (back, front) = site.wide(section), site.thick(section), self.q
        across, foot = self.strip.across, site.levels.foot.units
        for side, out in (("near", (self.face, self.face + h)), ("far", (self.outer - h, self.outer))):
            for place, q in (("front", (front - w, front)), ("back", (back, back + w))):
                name = f"shelf, {side} {place}"
                yield self.part(PartRole.SHELF_LEG, section, name, out, q, (foot, self.under), 2, across)
            low = self.under - w
            if side == "near" and site.rail > h and self.end.kind is EndKind.OPEN:
                # The rail of the open end stands out before its legs.
                low = max(low, site.levels.deck.units)
            if self.under - low >= THINNEST.units:
                name = f"shelf, {side} rail"
                yield self.part(
                    PartRole.SHELF_RAIL, section, name, out, (back + w, front - w), (low, self.under), across, 2
                )

    def slats(self) -> tuple[list[Part], Slats]:
        """Short ones over both rails, as many from back to front as keep the gaps that a glass stands over."""
        site, section = self.site, self.site.options.table
        least, limit = site.gaps(section, GAP)
        chosen = spread(self.deep // site.mark, site.wide(section) // site.mark, limit, least)
        parts = []
        for start in chosen.starts:
            q0 = self.q[0] + start * site.mark
            q = (q0, q0 + chosen.width * site.mark)
            out, z = (self.face, self.outer), (self.under, self.top)
            parts.append(
                self.part(
                    PartRole.SHELF_SLAT, section, "shelf", out, q, z, self.strip.axis, self.strip.across, "wide face up"
                )
            )
        return parts, chosen
