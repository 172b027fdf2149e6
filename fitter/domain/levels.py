"""Heights of the frame, counted from the floor at the highest foot."""

from __future__ import annotations

from fractions import Fraction

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

    All lie on the shop mark, but for two that hang on the true size of a rail or a cushion: the underside of the rails,
    and the top of the cushion with nobody on it.

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
    made, mark, rail = project.frame.carpentry, project.mark, project.frame.rail
    foot = made.foot_height.ceil_to(mark)
    if made.reveal_below is not None:
        deck = (made.reveal_below + rail.width).ceil_to(mark)
    else:
        deck = (made.seat_height - cushion_thickness).round_to(mark)
    seat = deck + cushion_thickness
    sat_on = (seat - given_way(cushion_thickness, made.compression)).round_to(mark)
    above = back_cushion_height if back_cushion_height is not None else in_units(BACK_ABOVE, project.unit)
    arm = made.arm_height if made.arm_height is not None else sat_on + in_units(ARM_ABOVE, project.unit)
    found = Levels(
        foot=foot,
        rail_bottom=deck - rail.width,
        deck=deck,
        seat=seat,
        sat_on=sat_on,
        arm=arm.ceil_to(mark),
        # Under the back no opening is left that a head could be caught in, so it begins a back gap above the deck.
        back_bottom=min(sat_on, deck + made.back_gap).floor_to(mark),
        back_top=(made.back_height if made.back_height is not None else seat + above).ceil_to(mark),
        table=(made.table_height if made.table_height is not None else seat).round_to(mark),
    )
    _sound(found)
    return found


def given_way(thickness: Length, share: Fraction) -> Length:
    """How much lower a cushion is under a person: a share of its thickness, to the nearest unit."""
    return Length(round_half_up(share * thickness.units))


def _sound(found: Levels) -> None:
    if found.rail_bottom < found.foot:
        message = "the rails lie lower than the top of the feet: the seat is too low for its cushion and rails"
        raise ValueError(message)
    if found.back_top <= found.back_bottom:
        message = "the back ends lower than it begins"
        raise ValueError(message)
