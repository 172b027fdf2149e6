"""The top of a wide arm: boards from panel to panel, on a bearer along each; and ties between the panels below."""

from __future__ import annotations

from collections.abc import Iterator

from fitter.domain.wishes import FillKind
from fitter.domain.woodwork import Part, PartRole, Spread
from fitter.frame.beyond import Beyond
from fitter.frame.slats import Slats, spread
from fitter.frame.spreads import told
from fitter.frame.strips import Site
from fitter.frame.tables import GAP


def wide_arms(site: Site) -> tuple[list[Part], list[Spread]]:
    """All but the two panels of every wide arm, and how its boards are spread."""
    parts: list[Part] = []
    spreads: list[Spread] = []
    for arm in _standing(site):
        parts += [*arm.bearers(), *arm.ties()]
        boards, chosen = arm.boards()
        parts += boards
        place = f"arm at the {arm.end.hand} end"
        spreads.append(told(site, arm.strip, PartRole.ARM_BOARD, place, arm.deep, chosen, GAP))
    return parts, spreads


def _standing(site: Site) -> Iterator[_WideArm]:
    for strip in site.strips:
        for low in (True, False):
            end = strip.finish(low)
            fill = site.layout.fill(end.hand) if end is not None else None
            if end is not None and fill is not None and fill.kind is FillKind.ARM:
                yield _WideArm(site, strip, end, fill, low)


class _WideArm(Beyond):
    """What joins the two panels of an arm; between their faces it is open but for the boards."""

    @property
    def between(self) -> tuple[int, int]:
        """From the outer face of the near panel to the inner face of the far one; both are as thick."""
        return self.face, self.outer - self.face

    @property
    def under(self) -> int:
        """The underside of the boards, whose tops are flush with the arm."""
        return self.site.levels.arm.units - self.site.thick(self.site.options.table)

    def bearers(self) -> Iterator[Part]:
        """One along each panel, from its back to its front."""
        site, section = self.site, self.site.options.cleat
        thick, z = site.thick(section), (self.under - site.wide(section), self.under)
        near, far = self.between
        for side, out in (("near", (near, near + thick)), ("far", (far - thick, far))):
            name = f"wide arm, {side}"
            yield self.part(PartRole.ARM_BEARER, section, name, out, self.q, z, self.strip.across, 2)

    def ties(self) -> Iterator[Part]:
        """One at the back and one at the front, low down, so that the panels cannot swing about the boards."""
        site, section = self.site, self.site.options.leg
        thick, foot, (back, front) = site.thick(section), self.site.levels.foot.units, self.q
        for place, q in (("front", (front - thick, front)), ("back", (back, back + thick))):
            name, z = f"wide arm, {place}", (foot, foot + site.wide(section))
            yield self.part(PartRole.ARM_TIE, section, name, self.between, q, z, self.strip.axis, 2)

    def boards(self) -> tuple[list[Part], Slats]:
        """Short ones from panel to panel, as many from back to front as keep the gaps that a cup stands over."""
        site, section = self.site, self.site.options.table
        least, limit = site.gaps(section, GAP)
        chosen = spread(self.deep // site.mark, site.wide(section) // site.mark, limit, least)
        parts, role = [], PartRole.ARM_BOARD
        for start in chosen.starts:
            q0 = self.q[0] + start * site.mark
            q, z = (q0, q0 + chosen.width * site.mark), (self.under, self.site.levels.arm.units)
            axes = self.strip.axis, self.strip.across
            parts.append(self.part(role, section, "wide arm", self.between, q, z, *axes, "wide face up"))
        return parts, chosen
