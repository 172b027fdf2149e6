"""What counts where a file says nothing, in sizes that are round in its own units."""

from __future__ import annotations

from dataclasses import dataclass

from rooms.lengths import Length, Unit

FLAME_CLEAR = Length.inches(15 * 12)
FLAME_SOURCE = (
    "IFC 307.4.3 as adopted in Baltimore (portable outdoor fireplace, 15 ft from combustible material; "
    "one- and two-family dwellings exempt there)"
)
FLAME_HELP = "local codes decide; set `clear` to what your code and the maker of the bowl require"

REACH_SOURCE = "common practice"
REACH_HELP = "set `clear` to the ground that one needs to stand on and use it"

ROUTE_SOURCE = "2010 ADA Standards, 403.5.1 (clear width of an accessible route), used as a benchmark only"
ROUTE_NARROWEST = Length.inches(32)


@dataclass(frozen=True)
class Defaults:
    """Common practice throughout, but for `route_width` (see `ROUTE_SOURCE`).

    Args:
        tolerance: of one tape reading.
        route_width: clear width of a walkway.
        reach_clear: ground that stays open before a thing that must stay within reach.
        off_wall: greatest distance from the backing edge to the backs.
        legroom: clear depth before the seats.
        post: section, thickness by width.
        rail: section, thickness by width.
        back_thickness: of a back panel: a frame laid flat with slats on it.
        arm_thickness: of an end panel.
        open_end_thickness: of an open end.
        notch_clearance: air between a post and the notch for it.
        max_span: of a rail, face to face.
        kerf: of the saw.
    """

    tolerance: Length
    route_width: Length
    reach_clear: Length
    off_wall: Length
    legroom: Length
    post: str
    rail: str
    back_thickness: Length
    arm_thickness: Length
    open_end_thickness: Length
    notch_clearance: Length
    max_span: Length
    kerf: Length


_INCHES = Defaults(
    tolerance=Length.inches("1/4"),
    route_width=Length.inches(36),
    reach_clear=Length.inches(24),
    off_wall=Length.inches(12),
    legroom=Length.inches(18),
    post="4x4",
    rail="2x8",
    back_thickness=Length.inches("9/4"),
    arm_thickness=Length.inches("7/2"),
    open_end_thickness=Length.inches("3/2"),
    notch_clearance=Length.inches("1/4"),
    max_span=Length.inches(72),
    kerf=Length.inches("1/8"),
)
_MILLIMETRES = Defaults(
    tolerance=Length.millimetres(5),
    route_width=Length.millimetres(915),
    reach_clear=Length.millimetres(600),
    off_wall=Length.millimetres(300),
    legroom=Length.millimetres(460),
    post="89 x 89 mm",
    rail="38 x 140 mm",
    back_thickness=Length.millimetres(57),
    arm_thickness=Length.millimetres(89),
    open_end_thickness=Length.millimetres(38),
    notch_clearance=Length.millimetres(6),
    max_span=Length.millimetres(1800),
    kerf=Length.millimetres(3),
)


def defaults(unit: Unit) -> Defaults:
    """The defaults for a project in inches and feet, or for a metric one."""
    return _INCHES if unit.imperial else _MILLIMETRES
