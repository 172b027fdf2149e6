"""What wood weighs and how much of it there is, in the words of the file's system."""

from __future__ import annotations

from fractions import Fraction

from fitter.domain.project import Project
from fitter.domain.species import species
from fitter.report.parts.batches import board_feet, cubic_metres, kilograms, pounds
from rooms.lengths import Unit


def density(project: Project) -> Fraction:
    """Of the frame's species at 12 % moisture, in whole kg/m³."""
    return Fraction(round(species(project.frame.carpentry.species).density))


def weight(project: Project, cubic: Fraction) -> Fraction:
    """What cubic units of the frame's wood weigh, in pounds or in kilograms."""
    mass = kilograms(cubic, density(project))
    return pounds(mass) if project.unit.imperial else mass


def weight_unit(unit: Unit) -> str:
    """The unit of `weight`."""
    return "lb" if unit.imperial else "kg"


def told_weight(project: Project, cubic: Fraction) -> str:
    """A weight to be read: whole pounds or kilograms, with a tenth below ten."""
    heavy = weight(project, cubic)
    figure = f"{float(heavy):.1f}" if heavy < 10 else f"{round(heavy)}"
    return f"{figure} {weight_unit(project.unit)}"


def told_volume(unit: Unit, cubic: Fraction) -> str:
    """A volume of finished wood, with what a board foot is."""
    if unit.imperial:
        return f"{float(board_feet(cubic)):.1f} board feet of finished wood (cubic inches ÷ 144)"
    return f"{float(cubic_metres(cubic)):.3f} m³ of finished wood"
