"""What the maker has to know of the corners of a frame, and of what stays open behind its cushions."""

from __future__ import annotations

from collections.abc import Iterator

from fitter.domain.evidence import Source, Status
from fitter.domain.findings import Finding, Severity
from fitter.domain.wishes import CornerKind
from fitter.domain.woodwork import Woodwork
from fitter.frame.deck import CAUGHT
from fitter.frame.racking import PUSH, racking
from fitter.frame.strips import Site
from rooms.lengths import ZERO, Length, format_length

NEWTONS = 4.448222
"""In a pound-force."""
FREE = Length.inches(9)
"""From here on a head comes out again by itself: CPSC Public Playground Safety Handbook, B.2.5."""
_HANDBOOK = Source("CPSC Public Playground Safety Handbook, B.2.5", Status.VERIFIED)


def corner_findings(site: Site, woodwork: Woodwork) -> Iterator[Finding]:
    """Cautions and notes, in a fixed order.

    Args:
        site: for the sizes.
        woodwork: with its joints.
    """
    yield from _racking(site, woodwork)
    yield from _open_behind(site)


def _racking(site: Site, woodwork: Woodwork) -> Iterator[Finding]:
    """The screw between two backs that would be overloaded most."""
    imperial, key = site.project.unit.imperial, "wish.corner"
    corners = racking(woodwork, site.layout, site.options.species, imperial=imperial)
    found = max(corners, key=lambda corner: corner.load - corner.limit, default=None)
    if found is not None and not found.holds:
        message = (
            f"a push of {_force(PUSH.value, imperial)} at the top of a back puts {_force(found.load, imperial)}"
            f" on the uppermost screw of the {found.corner} corner, which is good for {_force(found.limit, imperial)}"
        )
        help = "a corner treatment with a post up to the top of the backs does not rest on those screws"
        place, source = site.project.place(key), PUSH.source.says
        yield Finding("corner-racks", message, key, place, help, source, Severity.CAUTION)


def _open_behind(site: Site) -> Iterator[Finding]:
    """Cushions that lie off the backs leave an opening, in which a head can be caught if it is of that width."""
    gap = site.layout.gap
    if gap == ZERO:
        return
    told = format_length(gap, site.project.unit, feet=False)
    spread = site.layout.corner is CornerKind.SPREAD
    key = "wish.corner" if spread else "frame.overhang"
    why = "the runs are spread for their corner posts" if spread else "they overhang the wood in front"
    message = f"seat cushions lie {told} off the backs, as {why}"
    if CAUGHT < gap < FREE:
        least, most = (format_length(size, site.project.unit, feet=False) for size in (CAUGHT, FREE))
        help = f"from {least} to {most} a head can be caught: fill it with back cushions, or take another treatment"
        yield Finding(
            "open-behind-cushions", message, key, site.project.place(key), help, _HANDBOOK.says, Severity.CAUTION
        )
    else:
        help = "back cushions fill it; what is small falls through to the slats"
        yield Finding("open-behind-cushions", message, key, site.project.place(key), help, severity=Severity.NOTE)


def _force(pounds: float, imperial: bool) -> str:
    return f"{pounds:.0f} lbf" if imperial else f"{pounds * NEWTONS:.0f} N"
