"""What stands at the end of a run: an arm panel of one of two kinds, or two legs with a rail between them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from fitter.domain.frame import EndPanel, Section
from fitter.domain.layout import End
from fitter.domain.wishes import EndKind, FillKind
from fitter.domain.woodwork import SQUARE, EndCut, Part, PartRole, Slant
from fitter.frame.beyond import Beyond
from fitter.frame.sticks import Stick, stick
from fitter.frame.strips import Site, Strip
from rooms.lengths import Length


def ends(site: Site) -> Iterator[Part]:
    """Every part of every end."""
    for strip in site.strips:
        for low in (True, False):
            end = strip.finish(low)
            if end is not None:
                yield from _End(site, strip, end, low).parts()
                fill = site.layout.fill(end.hand)
                if fill is not None and fill.kind is FillKind.ARM:
                    # A wide arm has its panel once more, flush with its outer face.
                    far = Beyond(site, strip, end, fill, low)
                    yield from _End(site, strip, end, low, far.outer - far.face).parts()


@dataclass(frozen=True)
class _End:
    """An end in the making; it stands outside of its run, flush with the run's last face or so far `out` from it."""

    site: Site
    strip: Strip
    end: End
    low: bool
    out: int = 0

    def parts(self) -> Iterator[Part]:
        """What it is made of."""
        if self.end.kind is EndKind.OPEN:
            return self.open()
        return self.mitred() if self.site.options.end_panel is EndPanel.MITRED else self.posts()

    def _part(
        self, role: PartRole, section: Section, place: str, q: tuple[int, int], z: tuple[int, int], thick: int,
        along: int, wide: int, *, shows: str = "outer face", inset: int = 0,
        cuts: tuple[EndCut, EndCut] = (SQUARE, SQUARE),
    ) -> Part:  # fmt: skip
        """A part from its place across the run and in height, `inset` outward of the run's last face."""
        face = -self.out if self.low else self.strip.end + self.out
        place = f"far {place}" if self.out else place
        s0, s1 = (face - inset - thick, face - inset) if self.low else (face + inset, face + inset + thick)
        kind = Stick(role, self.strip.side, section, shows, f"{self.end.hand} end, {place}")
        box = self.strip.box(s0, s1, q[0], q[1], z[0], z[1])
        return stick(kind, box, along, wide, cuts=cuts)

    def mitred(self) -> Iterator[Part]:
        """Four pieces around a rectangle, their grain turning the corners at 45°."""
        site, strip, section = self.site, self.strip, self.site.options.arm
        w, h = site.wide(section), site.thick(section)
        back, front = -site.back, strip.depth
        low, top = site.levels.foot.units, site.levels.arm.units
        across, role = strip.across, PartRole.ARM_PIECE
        # The front lies at the high side of its layout axis, but in a left arm, which faces the other way.
        ahead = not strip.turned
        yield self._part(role, section, "bottom", (back, front), (low, low + w), h, across, 2, cuts=_mitre(w, True))
        yield self._part(role, section, "top", (back, front), (top - w, top), h, across, 2, cuts=_mitre(w, False))
        yield self._part(
            role, section, "front", (front - w, front), (low, top), h, 2, across, cuts=_mitre(w, not ahead)
        )
        yield self._part(role, section, "back", (back, back + w), (low, top), h, 2, across, cuts=_mitre(w, ahead))
        # Where the back is deep, or the rails stand far back from the front, one of them would pass the upright piece
        # with hardly anything to bear on.
        held = w - site.overhang - site.options.reveal_beside.ceil_to(site.project.mark).units
        if 2 * min(back + w, held) < site.rail:
            z = (max(site.levels.rail_bottom.units, low + w), min(site.levels.deck.units, top - w))
            if z[0] < z[1]:
                yield self._rail((back + w, front - w), z, "seat rail")

    def _rail(self, q: tuple[int, int], z: tuple[int, int], place: str) -> Part:
        section = self.site.project.frame.rail
        return self._part(PartRole.ARM_RAIL, section, place, q, z, self.site.rail, self.strip.across, 2)

    def posts(self) -> Iterator[Part]:
        """Two posts, with a rail at their tops and one at the height of the seat rails."""
        site, strip, section = self.site, self.strip, self.site.options.arm
        w, h = site.wide(section), site.thick(section)
        back, front = -site.back, strip.depth
        levels = site.levels
        z = (levels.foot.units, levels.arm.units)
        for place, q in (("front", (front - w, front)), ("back", (back, back + w))):
            yield self._part(PartRole.ARM_POST, section, place, q, z, h, 2, strip.across)
        between = (back + w, front - w)
        # A leg's section, or where that is thicker than the end, the end's own.
        upper = site.options.leg if site.thick(site.options.leg) <= h else section
        high, thick = site.wide(upper), site.thick(upper)
        # Ripped where there is less than its width above the seat.
        low = max(levels.arm.units - high, levels.deck.units)
        inset = max(0, (h - thick) // 2 // site.mark * site.mark)
        yield self._part(
            PartRole.ARM_RAIL, upper, "arm rail", between, (low, levels.arm.units), thick,
            strip.across, 2, inset=inset,
        )  # fmt: skip
        yield self._rail(between, (levels.rail_bottom.units, levels.deck.units), "seat rail")

    def open(self) -> Iterator[Part]:
        """Two legs and a rail, no higher than the deck."""
        site, strip, section = self.site, self.strip, self.site.options.leg
        w, h = site.wide(section), site.thick(section)
        z = (site.levels.foot.units, site.levels.deck.units)
        for place, q in (("front", (strip.depth - w, strip.depth)), ("back", (0, w))):
            yield self._part(PartRole.LEG, section, place, q, z, h, 2, strip.across)
        rail = site.project.frame.rail
        yield self._part(
            PartRole.END_RAIL, rail, "rail", (w, strip.depth - w), (site.levels.rail_bottom.units, z[1]), site.rail,
            strip.across, 2,
        )  # fmt: skip


def _mitre(width: int, low: bool) -> tuple[EndCut, EndCut]:
    """Both ends at 45° over the width, the long points at the low or the high side of it."""
    cut = EndCut(Length(width), Slant.WIDTH, low)
    return cut, cut
