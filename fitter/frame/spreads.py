"""A spread of slats as it is told."""

from __future__ import annotations

from fitter.domain.woodwork import PartRole, Spread
from fitter.frame.slats import Slats
from fitter.frame.strips import Site, Strip
from rooms.lengths import Length, format_length

_LIMITS = {
    PartRole.SEAT_SLAT: "slat_gap",
    PartRole.BACK_SLAT: "back_gap",
}


def told(
    site: Site, strip: Strip, role: PartRole, place: str, space: int, chosen: Slats, limit: Length | None = None
) -> Spread:
    """What is known of a spread.

    Args:
        site: for the unit and the limits.
        strip: whose slats.
        role: seat slats, back slats, table boards.
        place: in words.
        space: in units.
        chosen: in marks.
        limit: widest gap; that of the role where not given.
    """
    if limit is None:
        limit = getattr(site.options, _LIMITS[role])
    mark, count = site.mark, len(chosen.gaps) - 1
    gaps = tuple(Length(gap * mark) for gap in chosen.gaps)
    slat, why = Length(chosen.width * mark), _why(site, chosen, count)
    return Spread(strip.side, role, place, Length(space), slat, count, gaps, limit, why)


def _why(site: Site, chosen: Slats, count: int) -> str:
    if chosen.fewer is None:
        return "the space needs no slat"
    gap = format_length(Length(chosen.fewer * site.mark), site.project.unit, feet=False)
    if count == 1:
        return f"without it {gap} would be open"
    return f"{count - 1} {'slats' if count > 2 else 'slat'} would leave {gap} gaps"
