"""Dressed sizes of the lumber that is sold under nominal names.

Boards differ from mill to mill and with their moisture, so what is taped on the real ones may stand in the place of any
size here.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from fitter.domain.evidence import Source, Status
from fitter.domain.frame import Section
from rooms.lengths import Length, Unit

DIMENSION = Source(
    "American Softwood Lumber Standard PS 20, minimum dressed dry sizes; NDS Supplement, Table 1A", Status.SECOND_HAND
)
"""Dimension lumber: nominal less 1/2 in, widths from 8 in on less 3/4 in; thicknesses 2 to 4 in less 1/2 in."""
BOARD = Source("retail size charts with millimetres, which agree with each other", Status.VERIFIED)
WIDE_BOARD = Source("PS 20: 1 in boards are 3/4 in thick, widths as of dimension lumber", Status.MEMORY)
DECKING = Source(
    "radius-edge deck board as measured on a size chart; grades from 1 to 1 5/32 in are sold", Status.VERIFIED
)
TIMBER = Source("PS 20: timbers of 5 in and more are dressed green, nominal less 1/2 in; size charts", Status.VERIFIED)
CLS = Source("trade pages on CLS, planed with eased edges; 38 x 63 mm is sold too", Status.VERIFIED)
CLS_WIDE = Source("CLS, planed with eased edges", Status.MEMORY)

EN_336 = Source("EN 336, tolerance class 2 (planed), reference moisture 20 %", Status.VERIFIED)
"""How far planed metric lumber may be off: up to 100 mm by 1 mm, above by 1 1/2 mm."""


@dataclass(frozen=True)
class Dressed:
    """A size that is sold under a name.

    Args:
        name: nominal, or for metric lumber its size.
        inches: thickness and width.
        millimetres: what metric charts print beside them; whole.
        source: where both are from.
    """

    name: str
    inches: tuple[str, str]
    millimetres: tuple[int, int]
    source: Source


_SIZES: tuple[Dressed, ...] = (
    Dressed("1x2", ("3/4", "3/2"), (19, 38), BOARD),
    Dressed("1x3", ("3/4", "5/2"), (19, 64), BOARD),
    Dressed("1x4", ("3/4", "7/2"), (19, 89), BOARD),
    Dressed("1x6", ("3/4", "11/2"), (19, 140), BOARD),
    Dressed("1x8", ("3/4", "29/4"), (19, 184), BOARD),
    Dressed("1x10", ("3/4", "37/4"), (19, 235), WIDE_BOARD),
    Dressed("1x12", ("3/4", "45/4"), (19, 286), WIDE_BOARD),
    Dressed("5/4x4", ("1", "7/2"), (25, 89), DECKING),
    Dressed("5/4x6", ("1", "11/2"), (25, 140), DECKING),
    Dressed("2x2", ("3/2", "3/2"), (38, 38), DIMENSION),
    Dressed("2x3", ("3/2", "5/2"), (38, 64), DIMENSION),
    Dressed("2x4", ("3/2", "7/2"), (38, 89), DIMENSION),
    Dressed("2x6", ("3/2", "11/2"), (38, 140), DIMENSION),
    Dressed("2x8", ("3/2", "29/4"), (38, 184), DIMENSION),
    Dressed("2x10", ("3/2", "37/4"), (38, 235), DIMENSION),
    Dressed("2x12", ("3/2", "45/4"), (38, 286), DIMENSION),
    Dressed("2x14", ("3/2", "53/4"), (38, 337), DIMENSION),
    Dressed("3x4", ("5/2", "7/2"), (64, 89), DIMENSION),
    Dressed("3x6", ("5/2", "11/2"), (64, 140), DIMENSION),
    Dressed("3x8", ("5/2", "29/4"), (64, 184), DIMENSION),
    Dressed("4x4", ("7/2", "7/2"), (89, 89), DIMENSION),
    Dressed("4x6", ("7/2", "11/2"), (89, 140), DIMENSION),
    Dressed("4x8", ("7/2", "29/4"), (89, 184), DIMENSION),
    Dressed("6x6", ("11/2", "11/2"), (140, 140), TIMBER),
)
# Of 6x8 and larger the charts differ (7 1/4 or 7 1/2 in), so these are to be measured.

_METRIC: tuple[Dressed, ...] = (
    Dressed("38x64", ("", ""), (38, 64), CLS),
    Dressed("38x89", ("", ""), (38, 89), CLS),
    Dressed("38x140", ("", ""), (38, 140), CLS_WIDE),
)

_KNOWN: Mapping[str, Dressed] = {size.name: size for size in (*_SIZES, *_METRIC)}

NOMINAL = tuple(size.name for size in _SIZES)
"""The nominal names that are known, thin ones first."""


def dressed(name: str, unit: Unit) -> Section | None:
    """The dressed section of a nominal name; None if the name is not in the table.

    Args:
        name: such as `2x4`, without blanks; metric sizes that are sold as such, such as `38x89`, are known too.
        unit: of the project; metric projects get the whole millimetres of the table.

    >>> dressed("2x8", Unit.IN).width.inch
    Fraction(29, 4)
    """
    size = _KNOWN.get(name)
    if size is None:
        return None
    thin, wide = size.millimetres
    if size in _METRIC:
        return Section(f"{thin} x {wide} mm", Length.millimetres(thin), Length.millimetres(wide))
    if unit.imperial:
        return Section(name, Length.inches(size.inches[0]), Length.inches(size.inches[1]))
    return Section(name, Length.millimetres(thin), Length.millimetres(wide))


def size_source(name: str) -> Source | None:
    """Where the dressed size of a section comes from: a nominal name, or a metric one such as `38 x 89 mm`."""
    size = _KNOWN.get(name.removesuffix("mm").replace(" ", ""))
    return size.source if size is not None else None
