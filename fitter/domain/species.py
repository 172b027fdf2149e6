"""Properties of the woods that frames are built from, each with its source.

Clear-wood averages are for weights and movements; strength is judged by the design values of the commercial group.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from fitter.domain.evidence import Figure, Source, Status
from fitter.domain.moisture import change_coefficient

_OSU = Source("Oregon State University, table of properties after the Wood Handbook", Status.VERIFIED)
_WH_53 = Source("Wood Handbook (FPL-GTR-190), Table 5-3a", Status.VERIFIED)
_WH_43 = Source("Wood Handbook (FPL-GTR-190), Table 4-3", Status.VERIFIED)
_WH_135 = Source("Wood Handbook (FPL-GTR-190), Table 13-5", Status.VERIFIED)
_CHART = Source("flooring trade chart of dimensional change coefficients", Status.VERIFIED)
_RECALLED = Source("Wood Handbook", Status.MEMORY)
_FROM_SHRINKAGE = "from the shrinkage, 1 / (3000 / S0 - 20)"
_NDS_4A = Source("NDS Supplement 2018, Table 4A", Status.SECOND_HAND)
_NDS_4A_RECALLED = Source("NDS Supplement, Table 4A", Status.MEMORY)
_NDS_SG = Source("NDS 2018, Table 12.3.3A", Status.SECOND_HAND)
_SFPA = Source("SFPA Southern Pine Use Guide, in force since June 2013", Status.SECOND_HAND)

PSI_PER_MPA = 145.0377

HARMLESS = "hot-dip galvanised or stainless fasteners"
TANNIN = "stainless fasteners: its tannin stains and eats plain and galvanised steel"
FASTENER_SOURCE = Source("", Status.PRACTICE)
_TREATED = "hot-dip galvanised or stainless fasteners; treated boards need what their maker names"


@dataclass(frozen=True)
class Design:
    """Reference design values of a commercial group, No. 2, visually graded, 2 to 4 in thick.

    Args:
        group: as lumber is stamped.
        bending: Fb in psi, before any factor, by the widest nominal width in inches that it holds for; one width
            only where a size factor is to be applied.
        elasticity: E in psi.
        gravity: specific gravity G for fasteners.
    """

    group: str
    bending: tuple[tuple[int, Figure], ...]
    elasticity: Figure
    gravity: Figure


@dataclass(frozen=True)
class Species:
    """A wood.

    Args:
        name: as a project file names it.
        gravity: specific gravity: dry weight over volume at 12 % moisture content.
        bending: modulus of rupture of clear wood at 12 %, psi; None where not verified.
        elasticity: modulus of elasticity of clear wood at 12 %, psi; likewise.
        radial: shrinkage from green to oven-dry, per cent; None where not known.
        tangential: likewise.
        change: coefficients of dimensional change (radial, tangential) where a table has them; see `coefficients`.
        design: the values of its commercial group; None where not known.
        fasteners: what it asks for.
    """

    name: str
    gravity: Figure
    bending: Figure | None = None
    elasticity: Figure | None = None
    radial: Figure | None = None
    tangential: Figure | None = None
    change: tuple[Figure | None, Figure | None] = (None, None)
    design: Design | None = None
    fasteners: str = HARMLESS

    @property
    def density(self) -> float:
        """Mass of a cubic metre at 12 % moisture content, kg: SG · 1.12 · 1000."""
        return self.gravity.value * 1.12 * 1000

    @property
    def coefficients(self) -> tuple[Figure | None, Figure | None]:
        """Coefficients of dimensional change per per cent, radial and tangential: as tabulated, else computed."""
        return _coefficient(self.change[0], self.radial), _coefficient(self.change[1], self.tangential)


def _coefficient(tabulated: Figure | None, shrinkage: Figure | None) -> Figure | None:
    if tabulated is not None or shrinkage is None:
        return tabulated
    document = f"{_FROM_SHRINKAGE}: {shrinkage.source.says}"
    return Figure(change_coefficient(shrinkage.value), Source(document, Status.COMPUTED))


def _fig(source: Source, value: float) -> Figure:
    return Figure(value, source)


def _mpa(source: Source, value: float) -> Figure:
    return Figure(value * PSI_PER_MPA, source)


def _design(group: str, bending: float, elasticity: float, gravity: float, source: Source = _NDS_4A) -> Design:
    return Design(group, ((4, _fig(source, bending)),), _fig(source, elasticity), _fig(_NDS_SG, gravity))


_DFL = _design("Douglas fir-larch", 900, 1.6e6, 0.50)
_HF = _design("hem-fir", 850, 1.3e6, 0.43)
_SPF = _design("spruce-pine-fir", 875, 1.4e6, 0.42)
_CEDARS = _design("western cedars", 700, 1.0e6, 0.36, _NDS_4A_RECALLED)
_REDWOOD = _design("redwood", 925, 1.2e6, 0.37, _NDS_4A_RECALLED)
_REDWOOD_OPEN = _design("redwood, open grain", 725, 1.0e6, 0.37, _NDS_4A_RECALLED)
# The southern pine table is sized already; the guide has it in megapascals.
_SOUTHERN = Design(
    "southern pine",
    tuple((wide, _mpa(_SFPA, value)) for wide, value in ((4, 7.6), (6, 6.9), (8, 6.4), (10, 5.5), (12, 5.2))),
    _mpa(_SFPA, 9700),
    _fig(_NDS_SG, 0.55),
)

_SPECIES: tuple[Species, ...] = (
    Species(
        "Douglas-fir", _fig(_OSU, 0.48), _fig(_OSU, 12_400), _fig(_OSU, 1.95e6), _fig(_WH_43, 4.8), _fig(_WH_43, 7.6),
        change=(None, _fig(_CHART, 0.00267)), design=_DFL,
    ),
    Species("western larch", _fig(_OSU, 0.52), _fig(_OSU, 13_000), _fig(_OSU, 1.87e6), design=_DFL),
    Species(
        "western hemlock", _fig(_OSU, 0.45), _fig(_OSU, 11_300), _fig(_OSU, 1.63e6), _fig(_RECALLED, 4.2),
        _fig(_OSU, 7.8), design=_HF,
    ),
    Species(
        "grand fir", _fig(_OSU, 0.39), _fig(_OSU, 8_900), _fig(_OSU, 1.57e6), _fig(_WH_43, 3.4), _fig(_WH_43, 7.5),
        design=_HF,
    ),
    Species("noble fir", _fig(_OSU, 0.39), _fig(_OSU, 10_700), _fig(_OSU, 1.72e6), design=_HF),
    Species("white fir", _fig(_RECALLED, 0.39), radial=_fig(_WH_43, 3.3), tangential=_fig(_WH_43, 7.0), design=_HF),
    Species(
        "white spruce", _fig(_RECALLED, 0.36), radial=_fig(_RECALLED, 4.7), tangential=_fig(_RECALLED, 8.2), design=_SPF
    ),
    Species("Sitka spruce", _fig(_RECALLED, 0.40), radial=_fig(_RECALLED, 4.3), tangential=_fig(_RECALLED, 7.5)),
    Species(
        "ponderosa pine", _fig(_WH_53, 0.40), _mpa(_WH_53, 65), _mpa(_WH_53, 8900), _fig(_RECALLED, 3.9),
        _fig(_RECALLED, 6.2), fasteners=_TREATED,
    ),
    Species(
        "southern pine", _fig(_RECALLED, 0.51), radial=_fig(_RECALLED, 4.8), tangential=_fig(_RECALLED, 7.4),
        design=_SOUTHERN, fasteners=_TREATED,
    ),
    Species(
        "western redcedar", _fig(_RECALLED, 0.32), radial=_fig(_WH_43, 2.4), tangential=_fig(_WH_43, 5.0),
        design=_CEDARS, fasteners=TANNIN,
    ),
    Species(
        "yellow-cedar", _fig(_RECALLED, 0.44), radial=_fig(_WH_43, 2.8), tangential=_fig(_WH_43, 6.0), fasteners=TANNIN
    ),
    Species(
        "Port-Orford-cedar", _fig(_RECALLED, 0.43), radial=_fig(_WH_43, 4.6), tangential=_fig(_WH_43, 6.9),
        fasteners=TANNIN,
    ),
    Species(
        "incense-cedar", _fig(_RECALLED, 0.37), radial=_fig(_WH_43, 3.3), tangential=_fig(_WH_43, 5.2), fasteners=TANNIN
    ),
    Species(
        "redwood", _fig(_WH_53, 0.40), _mpa(_WH_53, 69), _mpa(_WH_53, 9200), _fig(_RECALLED, 2.6), _fig(_RECALLED, 4.4),
        design=_REDWOOD, fasteners=TANNIN,
    ),
    Species(
        "young redwood", _fig(_WH_53, 0.35), _mpa(_WH_53, 54), _mpa(_WH_53, 7600), _fig(_RECALLED, 2.2),
        _fig(_RECALLED, 4.9), design=_REDWOOD_OPEN, fasteners=TANNIN,
    ),
    Species(
        "white oak", _fig(_RECALLED, 0.68), radial=_fig(_WH_43, 5.6), tangential=_fig(_WH_43, 10.5),
        change=(_fig(_WH_135, 0.00180), _fig(_WH_135, 0.00365)), fasteners=TANNIN,
    ),
)  # fmt: skip

_BY_NAME: Mapping[str, Species] = {wood.name: wood for wood in _SPECIES}

SPECIES = tuple(_BY_NAME)
"""The names that a project file may use."""

OTHER_NAMES: Mapping[str, str] = {
    "cedar": "western redcedar",
    "red cedar": "western redcedar",
    "western red cedar": "western redcedar",
    "Alaska cedar": "yellow-cedar",
    "hemlock": "western hemlock",
    "hem-fir": "western hemlock",
    "spruce-pine-fir": "white spruce",
    "SPF": "white spruce",
    "spruce": "white spruce",
    "loblolly pine": "southern pine",
    "southern yellow pine": "southern pine",
    "oak": "white oak",
}
"""What these woods are called too, or the group they are sold in."""


def species(name: str) -> Species:
    """The wood of that name.

    Raises:
        KeyError: it is none of `SPECIES`.
    """
    return _BY_NAME[name]
