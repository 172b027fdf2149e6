"""What counts where a file says nothing, in sizes that are round in its own units."""

from __future__ import annotations

from collections.abc import Mapping
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


ENTRAPMENT = (Length.inches("7/2"), Length.inches(9))
ENTRAPMENT_SOURCE = "CPSC Public Playground Safety Handbook, B.2.5 (head entrapment), used as a benchmark only"
WIDEST_GAP = (ENTRAPMENT[0], Length.millimetres(89))
"""Greatest gap outside of it, in files in inches and in metric ones: the handbook prints both."""


@dataclass(frozen=True)
class Defaults:
    """Common practice throughout, but for `route_width` (see `ROUTE_SOURCE`).

    Args:
        tolerance: of one tape reading.
        route_width: clear width of a walkway.
        reach_clear: ground that stays open before a thing that must stay within reach.
        off_wall: greatest distance from the backing edge to the backs.
        legroom: clear depth before the seats.
        sections: of each kind of part, as `frame.sections` names them.
        notch_clearance: air between a post and the notch for it.
        max_span: of a rail, face to face.
        kerf: of the saw.
        seat_height: of the top of the seat cushion; more where that would leave the rails too low.
        under_rail: gap between feet and rails that the seat height leaves at least.
        slat_gap: widest gap between seat slats.
        back_gap: widest gap between back slats.
        housing: depth of a housing.
        back_span: longest opening between uprights; more where a module is wider.
        fill_least: narrowest shelf beyond an end.
        fill_arm: widest addition to an armed end.
    """

    tolerance: Length
    route_width: Length
    reach_clear: Length
    off_wall: Length
    legroom: Length
    sections: Mapping[str, str]
    notch_clearance: Length
    max_span: Length
    kerf: Length
    seat_height: Length
    under_rail: Length
    slat_gap: Length
    back_gap: Length
    housing: Length
    back_span: Length
    fill_least: Length
    fill_arm: Length


_INCHES = Defaults(
    tolerance=Length.inches("1/4"),
    route_width=Length.inches(36),
    reach_clear=Length.inches(24),
    off_wall=Length.inches(12),
    legroom=Length.inches(18),
    sections={
        "post": "4x4",
        "rail": "2x8",
        "upright": "2x4",
        "back_rail": "2x4",
        "back_slat": "1x4",
        "seat_slat": "5/4x6",
        "cleat": "2x2",
        "arm": "4x4",
        "leg": "2x4",
        "foot": "1x4",
        "table": "5/4x6",
        "angle": "1x4",
    },
    notch_clearance=Length.inches("1/4"),
    max_span=Length.inches(72),
    kerf=Length.inches("1/8"),
    seat_height=Length.inches(17),
    under_rail=Length.inches("3/2"),
    slat_gap=Length.inches(2),
    back_gap=Length.inches("13/4"),
    housing=Length.inches("1/2"),
    back_span=Length.inches(48),
    fill_least=Length.inches(6),
    fill_arm=Length.inches(12),
)
_MILLIMETRES = Defaults(
    tolerance=Length.millimetres(5),
    route_width=Length.millimetres(915),
    reach_clear=Length.millimetres(600),
    off_wall=Length.millimetres(300),
    legroom=Length.millimetres(460),
    sections={
        "post": "89 x 89 mm",
        "rail": "38 x 140 mm",
        "upright": "38 x 89 mm",
        "back_rail": "38 x 89 mm",
        "back_slat": "19 x 89 mm",
        "seat_slat": "25 x 140 mm",
        "cleat": "38 x 38 mm",
        "arm": "89 x 89 mm",
        "leg": "38 x 89 mm",
        "foot": "19 x 89 mm",
        "table": "25 x 140 mm",
        "angle": "19 x 89 mm",
    },
    notch_clearance=Length.millimetres(6),
    max_span=Length.millimetres(1800),
    kerf=Length.millimetres(3),
    seat_height=Length.millimetres(430),
    under_rail=Length.millimetres(38),
    slat_gap=Length.millimetres(50),
    back_gap=Length.millimetres(80),
    housing=Length.millimetres(12),
    back_span=Length.millimetres(1200),
    fill_least=Length.millimetres(150),
    fill_arm=Length.millimetres(300),
)


def defaults(unit: Unit) -> Defaults:
    """The defaults for a project in inches and feet, or for a metric one."""
    return _INCHES if unit.imperial else _MILLIMETRES
