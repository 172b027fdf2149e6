"""Dressed sizes of the lumber that is sold under nominal names."""

from __future__ import annotations

from collections.abc import Mapping

from fitter.domain.frame import Section
from rooms.lengths import Length, Unit

# American Softwood Lumber Standard PS 20, minimum dressed dry sizes, as transcribed in the NDS
# Supplement, Table 1A (seen second-hand): inches, then the whole millimetres printed beside them.
# Boards of 1 in and the radius-edge 5/4 deck board follow retail size charts; 6x6 is a timber,
# dressed green. Boards differ from mill to mill, so an explicit size may stand in their place.
_SIZES: Mapping[str, tuple[tuple[str, str], tuple[int, int]]] = {
    "1x2": (("3/4", "3/2"), (19, 38)),
    "1x3": (("3/4", "5/2"), (19, 64)),
    "1x4": (("3/4", "7/2"), (19, 89)),
    "1x6": (("3/4", "11/2"), (19, 140)),
    "1x8": (("3/4", "29/4"), (19, 184)),
    "5/4x6": (("1", "11/2"), (25, 140)),
    "2x2": (("3/2", "3/2"), (38, 38)),
    "2x3": (("3/2", "5/2"), (38, 64)),
    "2x4": (("3/2", "7/2"), (38, 89)),
    "2x6": (("3/2", "11/2"), (38, 140)),
    "2x8": (("3/2", "29/4"), (38, 184)),
    "2x10": (("3/2", "37/4"), (38, 235)),
    "2x12": (("3/2", "45/4"), (38, 286)),
    "4x4": (("7/2", "7/2"), (89, 89)),
    "4x6": (("7/2", "11/2"), (89, 140)),
    "6x6": (("11/2", "11/2"), (140, 140)),
}

NOMINAL = tuple(_SIZES)
"""The nominal names that are known, thin ones first."""


def dressed(name: str, unit: Unit) -> Section | None:
    """The dressed section of a nominal name; None if the name is not in the table.

    Args:
        name: such as `2x4`, without blanks.
        unit: of the project; metric projects get the whole millimetres of the table.

    >>> dressed("2x8", Unit.IN).width.inch
    Fraction(29, 4)
    """
    if name not in _SIZES:
        return None
    inches, millimetres = _SIZES[name]
    if unit.imperial:
        return Section(name, Length.inches(inches[0]), Length.inches(inches[1]))
    return Section(name, Length.millimetres(millimetres[0]), Length.millimetres(millimetres[1]))
