"""How a file says that the frame is built, and what follows where it says nothing."""

from __future__ import annotations

from fractions import Fraction

import pytest

from fitter.domain.findings import Severity
from fitter.domain.frame import Carpentry, Carry, EndPanel, RailJoint, Section, SlatFixing, Stance
from fitter.domain.levels import levels
from fitter.domain.project import Project
from fitter.domain.species import SPECIES
from fitter.project import read_project, read_room
from rooms.lengths import Length
from rooms.room import Slope

INCH, MM = Length.inches, Length.millimetres
SEAT = "{name: seat, size: [24 in, 24 in, 5 in], back: [24 in, 18 in, 6 in]}"


def read(*said: str, units: str = "in", seats: str = SEAT, room: str = "", shop: str = "") -> Project:
    """A small project whose frame has some keys."""
    lines = [
        f"units: {units}",
        f"room: {{corners: {{A: [0, 0], B: [5 m, 0], C: [5 m, 4 m], D: [0, 4 m]}}{room}}}",
        f"cushions: [{seats}]",
        *(["frame:", *(f"  {key}" for key in said)] if said else []),
        *([f"shop: {shop}"] if shop else []),
    ]
    return read_project("yard.yaml", "\n".join(lines) + "\n")


def carpentry(*said: str, units: str = "in", seats: str = SEAT) -> Carpentry:
    """How its frame is built."""
    return read(*said, units=units, seats=seats).frame.carpentry


def test_a_file_in_inches_that_says_nothing_has_the_usual_frame() -> None:
    project = read()
    assert project.frame.carpentry == Carpentry()
    assert project.frame.carry is None
    assert project.room.slope is None
    assert project.findings == ()


def test_a_metric_file_has_round_sizes_of_its_own() -> None:
    made = carpentry(units="mm")
    assert (made.upright.name, made.seat_slat.name, made.foot.name) == ("38 x 89 mm", "25 x 140 mm", "19 x 89 mm")
    assert (made.seat_height, made.slat_gap, made.back_gap) == (MM(430), MM(50), MM(80))
    assert (made.back_span, made.housing, made.foot_height) == (MM(1200), MM(12), MM(19))


def test_every_key_arrives() -> None:
    made = carpentry(
        "sections: {upright: 2x6, back_rail: 2x3, back_slat: 1x3, seat_slat: 2x4, cleat: 1x2, arm: 2x6, leg: 4x4, "
        "foot: 2x4, table: 2x6}",
        "seat_height: 18",
        "arm_height: 25",
        "back_height: 38",
        "table_height: 19",
        "compression: 1/4",
        "slat_gap: {seat: 3/4, back: 3}",
        "reveal: {beside: 1/2}",
        "end_panel: posts",
        "rail_joint: housing",
        "housing: 3/4",
        "uprights: {end: edge, corner: flat}",
        "back_span: 40",
        "slat_fixing: nails",
        "foot_height: 1",
        "slope: follow",
        "species: western redcedar",
    )
    names = ("upright", "back_rail", "back_slat", "seat_slat", "cleat", "arm", "leg", "foot", "table")
    assert [getattr(made, name).name for name in names] == [
        "2x6", "2x3", "1x3", "2x4", "1x2", "2x6", "4x4", "2x4", "2x6",
    ]  # fmt: skip
    heights = (made.seat_height, made.arm_height, made.back_height, made.table_height)
    assert heights == (INCH(18), INCH(25), INCH(38), INCH(19))
    assert (made.compression, made.slat_gap, made.back_gap) == (Fraction(1, 4), INCH("3/4"), INCH(3))
    assert (made.reveal_below, made.reveal_beside) == (None, INCH("1/2"))
    assert (made.end_panel, made.rail_joint, made.housing) == (EndPanel.POSTS, RailJoint.HOUSING, INCH("3/4"))
    assert (made.upright_at_end, made.upright_at_corner) == (Stance.EDGE, Stance.FLAT)
    assert (made.back_span, made.slat_fixing, made.foot_height) == (INCH(40), SlatFixing.NAILS, INCH(1))
    assert (made.level, made.species) == (False, "western redcedar")


def test_one_gap_counts_for_seat_and_back_and_one_stance_for_all_uprights() -> None:
    made = carpentry("slat_gap: 1 1/2", "uprights: edge")
    assert (made.slat_gap, made.back_gap) == (INCH("3/2"), INCH("3/2"))
    assert (made.upright_at_end, made.upright_at_corner) == (Stance.EDGE, Stance.EDGE)
    assert carpentry("slat_gap: {back: 3}").slat_gap == INCH(2)


@pytest.mark.parametrize(
    ("text", "share"), [("20 %", "1/5"), ("12.5%", "1/8"), ("0.3", "3/10"), ("1/6", "1/6"), ("0", "0"), ("50 %", "1/2")]
)
def test_shares(text: str, share: str) -> None:
    assert carpentry(f"compression: {text}").compression == Fraction(share)


@pytest.mark.parametrize(
    ("text", "angle"), [("7.5", "15/2"), ("10°", "10"), ("12 degrees", "12"), ("0", "0"), ("15", "15")]
)
def test_leans(text: str, angle: str) -> None:
    assert carpentry(f"lean: {text}").lean == Fraction(angle)


@pytest.mark.parametrize(
    ("units", "text", "fall"),
    [
        ("in", '1/4" per ft', "1/48"),
        ("in", "1/4 per ft", "1/48"),
        ("in", "1/4 in/ft", "1/48"),
        ("ft", '1/8" per 1 foot', "1/96"),
        ("mm", "20 mm per m", "1/50"),
        ("m", "2 cm per 1 m", "1/50"),
        ("in", "2 %", "1/50"),
        ("in", "1.5%", "3/200"),
        ("in", "1:48", "1/48"),
        ("in", "1 : 40", "1/40"),
    ],
)
def test_falls(units: str, text: str, fall: str) -> None:
    """Whatever way a fall is said, it is a drop per length; the edge may be named from either end."""
    room = read(units=units, room=f", slope: {{fall: '{text}', toward: DC}}").room
    assert room.slope == Slope(Fraction(fall), "CD")


def test_a_level_floor_has_no_slope_and_a_room_alone_has_one() -> None:
    assert read(room=", slope: {fall: 0 %, toward: AB}").room.slope is None
    text = "units: in\nroom: {corners: {A: [0, 0], B: [9', 0], C: [9', 8']}, slope: {fall: 1:60, toward: AB}}\n"
    assert read_room("yard.yaml", text).room.slope == Slope(Fraction(1, 60), "AB")


def test_carry() -> None:
    assert read("carry: {way: 30, longest: 8'}").frame.carry == Carry(INCH(30), INCH(96))


def test_every_wood_may_be_named_and_some_by_other_names() -> None:
    for name in SPECIES:
        assert carpentry(f"species: {name.lower()}").species == name
    assert carpentry("species: cedar").species == "western redcedar"
    assert carpentry("species: SPF").species == "white spruce"


def test_measured_boards_beat_the_table_wherever_their_name_is_used() -> None:
    """Name kept, size as taped: post, rail, every kind of part, and the boards of the shop."""
    project = read(
        'measured: {2x4: 1 1/2" x 3 7/16", 2x8: 1 1/2 x 7 1/8, 4x4: 3 9/16 x 3 9/16}',
        "sections: {leg: 2x4, table: 2x6}",
        shop="{boards: [{section: 2x4, length: 8'}, {section: 1 1/2 in x 7 1/8 in, length: 12'}]}",
    )
    frame, made = project.frame, project.frame.carpentry
    taped = Section("2x4", INCH("3/2"), INCH("55/16"), measured=True)
    assert made.leg == made.upright == made.back_rail == taped
    assert (frame.rail, frame.post.width) == (Section("2x8", INCH("3/2"), INCH("57/8"), measured=True), INCH("57/16"))
    assert (made.table.name, made.table.measured) == ("2x6", False)
    assert frame.arm_thickness == INCH("57/16")
    assert [board.section for board in project.shop.boards] == ["2x4", "2x8"]


def test_measured_boards_of_a_metric_file_go_by_their_size() -> None:
    made = carpentry("measured: {38 x 89 mm: 37.5 x 88}", units="mm")
    assert made.upright == Section("38 x 89 mm", MM("37.5"), MM(88), measured=True)
    assert not made.cleat.measured


def test_a_measured_size_far_from_the_usual_one_is_cautioned() -> None:
    assert read("measured: {2x4: 1 1/2 x 4}").findings == ()
    (finding,) = read("measured: {2x4: 1 1/2 x 4 1/16}").findings
    assert (finding.code, finding.severity) == ("measured-differs", Severity.CAUTION)


@pytest.mark.parametrize(
    ("thick", "rail", "seat"),
    [
        # thickest cushion + rail + foot 3/4 + 1 1/2 over the usual 17 in, by hand
        ("5", "2x8", "17"), ("7 1/2", "2x8", "17"), ("8", "2x8", "35/2"), ("9", "2x12", "45/2"),
    ],
)  # fmt: skip
def test_the_seat_rises_for_a_thick_cushion(thick: str, rail: str, seat: str) -> None:
    seats = f"{{name: thin, size: [24, 24, 4]}}, {{name: thick, size: [24, 24, {thick}]}}"
    project = read(f"sections: {{rail: {rail}}}", seats=seats)
    assert project.frame.carpentry.seat_height == INCH(seat)
    assert project.findings == ()
    for cushion in project.cushions:
        found = levels(project, cushion.size[2])
        assert found.rail_bottom - found.foot >= INCH("3/2")


def test_the_reveal_sets_the_seat() -> None:
    """Deck = reveal + rail: 4 + 7 1/4; seat 5 in above."""
    project = read("reveal: {below: 4}")
    assert levels(project, INCH(5)).deck == INCH("45/4")
    assert project.frame.carpentry.seat_height == INCH("65/4")
    both = read("reveal: {below: 4}", "seat_height: 16 1/4")
    assert levels(both, INCH(5)) == levels(project, INCH(5))


@pytest.mark.parametrize(
    ("said", "back", "upright"),
    [
        ((), "9/4", "2x4"),
        (("sections: {back_slat: 5/4x4}",), "5/2", "2x4"),
        (("sections: {upright: 4x4}",), "7/2", "4x4"),
        (("uprights: edge",), "7/2", "2x4"),
        (("uprights: {corner: edge}",), "7/2", "2x4"),
        (("uprights: edge", "sections: {upright: 2x3}"), "5/2", "2x3"),
        # 17 + 18 - 15 1/4 = 19 3/4 in high: 19.75 tan 10 + 2.25 cos 10 = 5.698; uprights 3.482 + 1.477 = 4.960
        (("lean: 10",), "23/4", "2x6"),
        # 19.75 tan 2 + 2.25 cos 2 = 2.938, less than the upright; uprights 0.690 + 1.499
        (("lean: 2",), "7/2", "2x4"),
        # 19.75 tan 15 + 2.25 cos 15 = 7.465; uprights 5.292 + 1.449 = 6.741
        (("lean: 15",), "15/2", "2x8"),
    ],
)  # fmt: skip
def test_the_back_is_as_thick_as_its_parts_and_its_lean_make_it(said: tuple[str, ...], back: str, upright: str) -> None:
    frame = read(*said).frame
    assert frame.back_thickness == INCH(back)
    assert frame.carpentry.upright.name == upright
    assert (frame.carpentry.upright_at_end is Stance.EDGE) == (bool(frame.carpentry.lean) or "uprights: edge" in said)


def test_a_metric_leaning_back_has_metric_uprights() -> None:
    """Back 430 + 457.2 - (430 - 127 + 80): uprights at least 504 tan 8 + 38 cos 8 = 108 mm."""
    frame = read("lean: 8", units="mm").frame
    assert frame.carpentry.upright.name == "38 x 140 mm"
    assert frame.back_thickness == MM(140)


@pytest.mark.parametrize(
    ("said", "arm", "armed", "leg", "opened"),
    [
        ((), "4x4", "7/2", "2x4", "3/2"),
        (("sections: {arm: 2x6, leg: 4x4}",), "2x6", "3/2", "4x4", "7/2"),
        (("arm_thickness: 2", "open_end_thickness: 1 1/2"), "2x4", "2", "2x4", "3/2"),
        (("arm_thickness: 2 1/2",), "3x4", "5/2", "2x4", "3/2"),
        # The end's own rail is as thick as the others.
        (("sections: {arm: 1x4, leg: 1x4}",), "1x4", "3/2", "1x4", "3/2"),
        (("sections: {rail: 4x6}",), "4x4", "7/2", "3x4", "7/2"),
        (("sections: {rail: 1x6, cleat: 1x2}", "arm_thickness: 1 1/4"), "1x4", "5/4", "2x4", "3/2"),
        (("arm_thickness: 5", "open_end_thickness: 3 1/2"), "4x4", "5", "2x4", "7/2"),
    ],
)
def test_ends_are_as_thick_as_their_sections(
    said: tuple[str, ...], arm: str, armed: str, leg: str, opened: str
) -> None:
    """A file from before there were such sections keeps its thickness, and gets a section that fits into it."""
    project = read(*said)
    frame, made = project.frame, project.frame.carpentry
    assert (made.arm.name, frame.arm_thickness, made.leg.name, frame.open_end_thickness) == (
        arm, INCH(armed), leg, INCH(opened),
    )  # fmt: skip
    assert project.findings == ()


def test_feet_follow_their_section_and_their_section_follows_them() -> None:
    assert carpentry("sections: {foot: 2x4}").foot_height == INCH("3/2")
    assert carpentry("foot_height: 1 1/4").foot.name == "2x4"
    assert carpentry("foot_height: 3 1/2").foot.name == "4x4"


def test_bays_of_a_back_are_as_long_as_the_widest_module() -> None:
    wide = "{name: bench, size: [60, 24, 5], ease: 1/4}"
    assert carpentry(seats=wide).back_span == INCH("241/4")
    assert carpentry("back_span: 30", seats=wide).back_span == INCH(30)


@pytest.mark.parametrize(
    ("said", "seats", "code"),
    [
        (("sections: {rail: 1x2}",), SEAT, "cleat-too-tall"),
        ((), "{name: seat, size: [24, 24, 5], back: [24, 3, 4]}", "back-rails-too-wide"),
    ],
)
def test_usual_sizes_beside_the_user_s_own_give_cautions_only(said: tuple[str, ...], seats: str, code: str) -> None:
    """A file that says nothing of such parts is read as before."""
    (finding,) = read(*said, seats=seats).findings
    assert (finding.code, finding.severity) == (code, Severity.CAUTION)
    assert finding.help


def test_what_is_usual_may_be_written() -> None:
    written = read(
        "sections: {post: 4x4, rail: 2x8, arm: 4x4}",
        "seat_height: 17",
        "lean: 0",
        "uprights: flat",
        "back_thickness: 2 1/4",
    )
    assert written.frame == read().frame
