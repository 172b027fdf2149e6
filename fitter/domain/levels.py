"""Heights of the frame, counted from the floor at the highest foot."""

from __future__ import annotations

from fractions import Fraction
from math import ceil, radians, tan

from fitter.domain.frame import Carpentry, Section
from fitter.domain.project import Project
from fitter.domain.woodwork import Levels
from rooms.lengths import Length, Unit, round_half_up

ARM_ABOVE = (Length.inches(8), Length.millimetres(200))
"""Top of an arm above the seat that is sat on, for files in inches and in metric units.

From memory: 7 to 9 1/2 in (180 to 240 mm) suits most people; NUREG-0700 rev. 3, Table 11.4 has the elbow 7.7 in above.
"""

BACK_ABOVE = (Length.inches(18), Length.millimetres(450))
"""Top of a back without a cushion of its own, above the seat: 2010 ADA Standards, 903 (18 in or more).

A benchmark for benches only; 450 mm is its round metric neighbour, 7 mm less.
"""


def in_units(choice: tuple[Length, Length], unit: Unit) -> Length:
    """The first length for a project in inches or feet, the second for a metric one."""
    return choice[0] if unit.imperial else choice[1]


def levels(project: Project, cushion_thickness: Length, back_cushion_height: Length | None = None) -> Levels:
    """Derive every height of the frame.

    All lie on the shop mark but the top of the cushion with nobody on it, which hangs on the cushion's true size.
    Sections that are no whole marks wide count as the next one, as everywhere.

    Args:
        project: with its frame; `reveal_below`, where it is set, decides the deck, else the seat height does.
        cushion_thickness: of the main run's seat cushion, as built for (measured, else as sold).
        back_cushion_height: of the tallest back cushion that is used; None where there is none.

    Returns:
        The heights above the floor at the highest foot.

    Raises:
        ValueError: the rails would lie lower than the top of the feet, or the back end lower than it begins; a
            project that was read from a file has been checked for both.
    """
    found = derived(project.frame.carpentry, project.frame.rail, project.unit, cushion_thickness, back_cushion_height)
    if found.rail_bottom < found.foot:
        message = "the rails lie lower than the top of the feet: the seat is too low for its cushion and rails"
        raise ValueError(message)
    if found.back_top <= found.back_bottom:
        message = "the back ends lower than it begins"
        raise ValueError(message)
    return found


def derived(made: Carpentry, rail: Section, unit: Unit, cushion: Length, back: Length | None = None) -> Levels:
    """The same before there is a project, and whether it can stand or not.

    Args:
        made: how the frame is built.
        rail: section of the seat rails.
        unit: of the project.
        cushion: thickness of the seat cushion.
        back: height of the tallest back cushion; None where there is none.
    """
    mark, wide = unit.mark, rail.width.ceil_to(unit.mark)
    if made.reveal_below is not None:
        deck = made.reveal_below.ceil_to(mark) + wide
    else:
        deck = (made.seat_height - cushion).round_to(mark)
    seat = deck + cushion
    sat_on = (seat - given_way(cushion, made.compression)).round_to(mark)
    arm = made.arm_height if made.arm_height is not None else sat_on + in_units(ARM_ABOVE, unit)
    top = made.back_height if made.back_height is not None else seat + (back or in_units(BACK_ABOVE, unit))
    return Levels(
        foot=made.foot_height.ceil_to(mark),
        rail_bottom=deck - wide,
        deck=deck,
        seat=seat,
        sat_on=sat_on,
        arm=arm.ceil_to(mark),
        # Under the back no opening is left that a head could be caught in, so it begins a back gap above the deck.
        back_bottom=min(sat_on, deck + made.back_gap).floor_to(mark),
        back_top=top.ceil_to(mark),
        table=_table(made, unit, deck, seat),
    )


def given_way(thickness: Length, share: Fraction) -> Length:
    """How much lower a cushion is under a person: a share of its thickness, to the nearest unit."""
    return Length(round_half_up(share * thickness.units))


def tilt(degrees: Fraction) -> tuple[Fraction, Fraction]:
    """Cosine and sine of an angle from 0 to 15 degrees, rational and within 1e-6 of the true ones.

    From half the angle's tangent t: cos = (1 - t²) / (1 + t²), sin = 2t / (1 + t²): their squares add up to one.
    """
    t = Fraction(tan(radians(float(degrees)) / 2)).limit_denominator(4096)
    return (1 - t * t) / (1 + t * t), 2 * t / (1 + t * t)


def lean_depth(height: Length, thickness: Length, lean: Fraction) -> Length:
    """How deep a leaning panel is in plan, from the front edge of its foot to the back edge of its top.

    h / cos along the slope, so h · sin / cos + thickness · cos, to the unit above.

    Args:
        height: from the front edge of its foot up to the front edge of its top.
        thickness: of the panel, square to its face.
        lean: degrees from upright.

    >>> lean_depth(Length.inches(20), Length.inches(2), Fraction(0)) == Length.inches(2)
    True
    """
    cos, sin = tilt(lean)
    return Length(ceil(height.units * sin / cos + thickness.units * cos))


THINNEST = (Length.inches("3/4"), Length.millimetres(19))
"""Lowest bearer that is worth ripping for a table; below that the boards lie on the deck itself: common practice."""


def _table(made: Carpentry, unit: Unit, deck: Length, seat: Length) -> Length:
    """Top of a table: as asked for, or where its boards lie if there is no room for bearers below them."""
    board = made.table.thickness.ceil_to(unit.mark)
    wanted = (made.table_height if made.table_height is not None else seat).round_to(unit.mark)
    return wanted if wanted - board - deck >= in_units(THINNEST, unit) else deck + board
