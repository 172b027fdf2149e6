"""The table in a corner: bearers across the slats, boards across the bearers."""

from __future__ import annotations

from collections.abc import Iterator

from fitter.domain.frame import Section
from fitter.domain.layout import Side
from fitter.domain.wishes import CornerKind
from fitter.domain.woodwork import Part, PartRole, Spread
from fitter.frame.slats import Slats, spread
from fitter.frame.spreads import told
from fitter.frame.sticks import Stick, stick
from fitter.frame.strips import Site, Strip
from rooms.lengths import Length

GAP = Length.inches("1/2")
"""Widest gap between table boards, so that rain runs off and a glass stands: common practice."""


def tables(site: Site) -> tuple[list[Part], list[Spread]]:
    """The tables of all corners that have one."""
    parts: list[Part] = []
    spreads: list[Spread] = []
    if site.layout.corner is not CornerKind.TABLE_CORNER:
        return parts, spreads
    for arm in site.arms:
        # The slats of a corner run across the run that does not own it; bearers cross them.
        main = site.strip(Side.MAIN)
        strip, low = (arm, True) if site.owner(arm.side) is Side.MAIN else (main, arm.side is Side.RIGHT)
        corner = _Corner(site, strip, low)
        parts += corner.bearers()
        boards, chosen = corner.boards()
        parts += boards
        span = abs(corner.far - corner.near)
        spreads.append(told(site, strip, PartRole.TABLE_BOARD, f"{arm.side} corner", span, chosen, GAP))
    return parts, spreads


class _Corner:
    """One table, in the coordinates of the run whose slats it stands on."""

    def __init__(self, site: Site, strip: Strip, low: bool) -> None:
        self.site, self.strip = site, strip
        self.near, self.far = (0, strip.first) if low else (strip.last, strip.end)
        self.post_at = (0, site.post) if low else (strip.end - site.post, strip.end)
        self.top = site.levels.table.units
        self.under = self.top - site.thick(site.options.table)

    def bearers(self) -> Iterator[Part]:
        """Two on the wood, clear of the corner post, ripped to the height that the boards need."""
        site, strip = self.site, self.strip
        high = self.under - site.levels.deck.units
        if not high:  # the boards lie on the deck itself
            return
        section = self._section(high)
        thick = site.thick(section)
        for place, q in (("back", site.post), ("front", strip.wood - thick)):
            box = strip.box(self.near, self.far, q, q + thick, site.levels.deck.units, self.under)
            yield stick(Stick(PartRole.TABLE_BEARER, strip.side, section, place=place), box, strip.axis, 2)

    def _section(self, high: int) -> Section:
        """The narrowest that is wide enough."""
        frame, made = self.site.project.frame, self.site.options
        known = sorted((made.cleat, made.upright, frame.rail), key=lambda section: section.width)
        return next((section for section in known if self.site.wide(section) >= high), known[-1])

    def boards(self) -> tuple[list[Part], Slats]:
        """From back to front over the whole place; those behind which the post stands begin at its face."""
        site, strip, section = self.site, self.strip, self.site.options.table
        least, limit = site.gaps(section, GAP)
        chosen = spread((self.far - self.near) // site.mark, site.wide(section) // site.mark, limit, least)
        parts = []
        for start in chosen.starts:
            s0 = self.near + start * site.mark
            s1 = s0 + chosen.width * site.mark
            q0 = site.post if self.post_at[0] < s1 and s0 < self.post_at[1] else 0
            kind = Stick(PartRole.TABLE_BOARD, strip.side, section, "wide face up", "table")
            box = strip.box(s0, s1, q0, strip.depth, self.under, self.top)
            parts.append(stick(kind, box, strip.across, strip.axis))
        return parts, chosen
