"""How far finish, glue and sealant go, each with its source."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from fitter.domain.evidence import Source, Status
from fitter.domain.surfaces import square_feet
from fitter.domain.takeoff import MILLILITRES_A_GALLON, MILLILITRES_AN_INCH, Span
from rooms.lengths import UNITS_PER_INCH, Length, Unit


@dataclass(frozen=True)
class Coverage:
    """What a gallon covers in one coat.

    Args:
        least: square feet a US gallon.
        most: likewise.
        source: of both.
    """

    least: int
    most: int
    source: Source

    def amount(self, area: int, coats: int = 1) -> Span:
        """Millilitres for an area in square units: least where a gallon goes furthest."""
        gallon = square_feet(area) * coats * MILLILITRES_A_GALLON
        return Span(gallon / self.most, gallon / self.least)

    def told(self, unit: Unit) -> str:
        """How far a gallon or a litre goes, in the system of a file."""
        if unit.imperial:
            return f"{self.least} to {self.most} sq ft a gallon"
        return f"{float(metric(self.least)):.1f} to {float(metric(self.most)):.1f} m² a litre"


FEET_A_METRE = 1 / Fraction("0.3048") ** 2
"""Square feet in a square metre."""


def metric(feet: int) -> Fraction:
    """Square feet a US gallon in square metres a litre.

    >>> [round(float(metric(feet)), 1) for feet in (200, 400)]
    [4.9, 9.8]
    """
    return feet / FEET_A_METRE * 1000 / MILLILITRES_A_GALLON


_STAIN = "Wood Handbook (FPL-GTR-190), chapter 16, semitransparent oil stain on"
_RECALLED = Source("", Status.MEMORY)

STAIN = Coverage(200, 400, Source(f"{_STAIN} smooth wood", Status.VERIFIED))
ROUGH_STAIN = Coverage(100, 200, Source(f"{_STAIN} saw-textured or weathered wood", Status.VERIFIED))
CONDITIONER = Coverage(100, 150, _RECALLED)
VARNISH = Coverage(300, 450, _RECALLED)
GLUE = Coverage(150, 250, _RECALLED)
"""Of one glue line, one side spread."""


@dataclass(frozen=True)
class Film:
    """Sealant between two faces: common practice.

    Args:
        least: how thick.
        most: likewise.
    """

    least: Length
    most: Length

    def amount(self, area: int) -> Span:
        """Millilitres for an area in square units."""
        return Span(volume(area * self.least.units), volume(area * self.most.units))


FILM = Film(Length.inches("1/32"), Length.inches("1/16"))
FILM_SOURCE = Source("", Status.PRACTICE)


def volume(cubic: int | Fraction) -> Fraction:
    """Cubic units in millilitres."""
    return Fraction(cubic) / UNITS_PER_INCH**3 * MILLILITRES_AN_INCH
