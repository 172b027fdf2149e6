"""Lengths that makers know by heart: common practice, no source."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from hand_built import INSIDE, MAIN, Chain, Row, lay_out
from yards import ALONG, inch, project

from fitter.domain.cushions import Option
from fitter.domain.frame import Carpentry, Section, Stance
from fitter.domain.project import Project
from fitter.domain.woodwork import Part, PartRole, Woodwork
from fitter.frame import build_frame
from rooms.lengths import Length

FOUR = Section("4x4", inch("7/2"), inch("7/2"))
EIGHT = Section("2x8", inch("3/2"), inch("29/4"))


def yard(pitch: int, deck: str, **carpentry: object) -> Project:
    """A project with one cushion of that pitch and deck depth, and a frame of 4x4 and 2x8."""
    asked = project()
    kind = replace(
        asked.cushions[0], width=inch(pitch), depth=inch(deck), measured=None, ease=inch(0), thickness=inch(5)
    )
    frame = replace(
        asked.frame, post=FOUR, rail=EIGHT, arm_thickness=inch("7/2"), back_thickness=inch("9/4"),
        max_span=inch(400), carpentry=replace(Carpentry(), **carpentry),
    )  # fmt: skip
    return replace(asked, cushions=(kind,), frame=frame, shop=replace(asked.shop, boards=()))


def straight(asked: Project, count: int, *posts: int) -> Woodwork:
    """A straight run of so many modules, with front and back posts on those lines."""
    row = Row(Option(asked.cushions[0]), count, posts, posts)
    return build_frame(asked, lay_out(asked, ALONG, Chain(inch(0), inch(0), row)))


def roles(frame: Woodwork, role: PartRole) -> list[Part]:
    return [part for part in frame.parts if part.role is role]


def test_a_post_under_a_rail_is_as_high_as_rail_and_gap() -> None:
    # A 2x8 rail over a gap one 2x4 thick: 8 3/4 in.
    frame = straight(yard(24, "24", reveal_below=inch("3/2"), foot_height=Length(0)), 4, 2)
    assert {part.length for part in roles(frame, PartRole.SUPPORT_POST)} == {inch("35/4")}


def test_a_back_rail_between_an_upright_on_the_flat_and_one_on_edge() -> None:
    # In a run of 120 in: 115 in, between one upright 3 1/2 in wide and another 1 1/2 in thick.
    asked = yard(24, "24", back_span=inch(200), upright_at_corner=Stance.EDGE)
    asked = replace(asked, frame=replace(asked.frame, back_thickness=inch("7/2")))
    option = Option(asked.cushions[0])
    # The back of the arm begins at the inside of the corner and ends at the arm panel: 24 in of corner and 96 of seats.
    chain = Chain(inch(0), inch(0), Row(option, 5), Row(option, 4), corner=INSIDE)
    frame = build_frame(asked, lay_out(asked, ALONG, chain))
    rails = [part for part in roles(frame, PartRole.TOP_RAIL) if part.run is not MAIN]
    assert [part.length for part in rails] == [inch(115)]


def test_four_mitred_pieces_leave_nineteen_inches_inside() -> None:
    # 26 in pieces of stock 3 1/2 in wide.
    asked = yard(24, "95/4", arm_height=inch(26), foot_height=Length(0))
    frame = straight(asked, 3)
    pieces = roles(frame, PartRole.ARM_PIECE)
    assert len(pieces) == 8
    assert {part.length for part in pieces} == {inch(26)}
    assert {part.short for part in pieces} == {inch(19)}
    assert {cut.recess for part in pieces for cut in part.cuts} == {inch("7/2")}


def test_what_mitred_pieces_weigh_is_what_they_fill() -> None:
    # A square ring of side 26 and width and depth 3 1/2: (26² − 19²) · 3 1/2 cubic inches.
    frame = straight(yard(24, "95/4", arm_height=inch(26), foot_height=Length(0)), 3)
    volume = sum((part.volume for part in roles(frame, PartRole.ARM_PIECE)), Fraction(0))
    assert volume == 2 * (26**2 - 19**2) * Fraction(7, 2) * inch(1).units ** 3
