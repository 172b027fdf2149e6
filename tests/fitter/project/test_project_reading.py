"""What a sound project file is read as: exact, complete, and however it was spelled."""

from __future__ import annotations

import tempfile
from fractions import Fraction
from pathlib import Path

import pytest

from fitter.domain.findings import Place, Severity
from fitter.domain.project import Project
from fitter.domain.requirements import requirements
from fitter.domain.wishes import DEFAULT_ORDER, CornerKind, EndKind, Objective, Shape
from fitter.project import read_project, read_room
from rooms.lengths import ZERO, Length, Unit
from rooms.room import EdgeKind, Height, Hinge, Point, Room, Swing, signed_area

ROOM = "room: {corners: {A: [0, 0], B: [16' 4\", 0], C: [16' 4\", 11'], D: [0, 11']}%s}\n"
SEAT = "cushions: [{name: seat, size: [24 in, 24 in, 5 in]%s}]\n"
INCH = Length.inches


def read(text: str) -> Project:
    """The project that a text describes."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "back yard.yaml"
        file.write_text(text, encoding="utf-8")
        return read_project(str(file))


def small(units: str = "in", room: str = "", seat: str = "", rest: str = "") -> Project:
    """A small project with additions."""
    return read(f"units: {units}\n{ROOM % room}{SEAT % seat}{rest}")


def test_coordinates_are_exact() -> None:
    """Feet and inches come through without a rounding, and so do decimals that binary floats miss."""
    project = small(seat=", ease: 0.1")
    assert project.room.corners[1] == ("B", Point(INCH(196), ZERO))
    assert project.cushions[0].ease.units == round(Fraction(8128, 10))
    metric = read("units: mm\nroom: {corners: {A: [0.1, 0], B: [4 m, 0], C: [4m, 3333.3]}}\n" + SEAT % "")
    assert metric.room.corners[0][1].x.mm == Fraction(1, 10)
    assert metric.room.corners[2][1].y.mm == Fraction(33333, 10)


def test_money_is_exact() -> None:
    """Ten cents are a tenth."""
    assert small(seat=", price: 41.10").cushions[0].price == Fraction(411, 10)


def test_defaults_in_inches() -> None:
    """What a file in inches leaves out."""
    project = small()
    assert (project.title, project.note, project.unit) == ("back yard", "", Unit.IN)
    assert project.room.tolerance == INCH("1/4")
    assert {edge.kind for edge in project.room.edges} == {EdgeKind.WALL}
    wish, frame, shop = project.wish, project.frame, project.shop
    assert (wish.shape, wish.least, wish.most, wish.corner) == (None, 1, None, None)
    assert (wish.left_end, wish.right_end) == (None, None)
    assert wish.against == ("AB", "BC", "CD", "DA")
    assert (wish.off_wall, wish.legroom, wish.prefer) == (INCH(12), INCH(18), DEFAULT_ORDER)
    assert (frame.post.name, frame.post.width, frame.rail.name) == ("4x4", INCH("7/2"), "2x8")
    assert (frame.rail.thickness, frame.rail.width) == (INCH("3/2"), INCH("29/4"))
    assert (frame.back_thickness, frame.arm_thickness) == (INCH("9/4"), INCH("7/2"))
    assert (frame.open_end_thickness, frame.notch_clearance) == (INCH("3/2"), INCH("1/4"))
    assert frame.max_span == INCH(72)
    assert (shop.boards, shop.kerf, shop.trim, shop.longest_carried) == ((), INCH("1/8"), ZERO, None)
    assert shop.longest("2x8") is None
    cushion = project.cushions[0]
    assert (cushion.own, cushion.price, cushion.seats, cushion.ease) == (None, None, 1, ZERO)
    assert (cushion.may_turn, cushion.may_notch) == (False, True)


def test_defaults_in_millimetres() -> None:
    """A metric file gets round metric sizes."""
    project = small("m")
    mm = Length.millimetres
    wish, frame = project.wish, project.frame
    assert project.room.tolerance == mm(5)
    assert (wish.off_wall, wish.legroom) == (mm(300), mm(460))
    assert (frame.post.thickness, frame.post.width) == (mm(89), mm(89))
    assert (frame.rail.name, frame.rail.thickness, frame.rail.width) == ("38 x 140 mm", mm(38), mm(140))
    assert (frame.back_thickness, frame.arm_thickness, frame.open_end_thickness) == (mm(57), mm(89), mm(38))
    assert (frame.notch_clearance, frame.max_span, project.shop.kerf) == (mm(6), mm(1800), mm(3))


def test_sections_left_empty_have_their_defaults() -> None:
    """A heading with nothing below it says nothing."""
    empty = small(room=", openings: , obstacles: , routes: , edges: ", rest="wish:\nframe:\nshop:\n")
    plain = small()
    assert (empty.room, empty.wish, empty.frame, empty.shop) == (
        plain.room,
        plain.wish,
        plain.frame,
        plain.shop,
    )


def turned(ring: tuple[Point, ...]) -> tuple[Point, ...]:
    """A ring told from its least corner."""
    first = ring.index(min(ring))
    return ring[first:] + ring[:first]


def test_both_walking_directions_give_one_room() -> None:
    """The outline, the jambs and the kinds are the same whichever way the corners are named."""
    shape = "A: [0, 0], B: [16', 0], C: [16', 11'], D: [4', 13']"
    back = "D: [4', 13'], C: [16', 11'], B: [16', 0], A: [0, 0]"
    rest = "edges: {BC: open}, openings: [{name: gate, edge: CD, from: 2', width: 3', swing: in, hinge: first}]"
    one, other = (
        read(f"units: in\nroom: {{corners: {{{corners}}}, {rest}}}\n{SEAT % ''}").room for corners in (shape, back)
    )
    assert all(edge.forward for edge in one.edges)
    assert not any(edge.forward for edge in other.edges)
    assert signed_area(one.outline) > 0
    assert turned(one.outline) == turned(other.outline)
    assert other.edge("CB").kind is EdgeKind.OPEN
    apart = [
        abs(a - b)
        for here, there in zip(one.jambs(one.openings[0]), other.jambs(other.openings[0]), strict=True)
        for a, b in zip(here, there, strict=True)
    ]
    assert max(apart) <= Length(2)
    assert hinge_jamb(one) == hinge_jamb(other)


def hinge_jamb(room: Room) -> str:
    """Which end of its edge the hinge of the first opening is nearer to, told by the corner there."""
    opening = room.openings[0]
    edge = room.edge(opening.edge)
    first, second = (edge.start, edge.end) if edge.forward else (edge.end, edge.start)
    corner = first if opening.hinge is Hinge.FIRST else second
    return next(name for name, point in room.corners if point == corner)


def test_an_edge_named_from_its_other_end() -> None:
    """`BA` is `AB`; what is counted along it counts from B."""
    along = "openings: [{name: door, edge: %s, from: %s, width: 3', swing: out, hinge: %s}]"
    one = small(room=", " + along % ("AB", "4'", "first")).room
    other = small(room=", " + along % ("B-A", "9' 4\"", "second")).room
    assert one.openings == other.openings
    assert one.openings[0].swing is Swing.OUT


def test_an_opening_over_the_whole_edge_stays_on_it() -> None:
    """A jamb may overshoot its corner by the tolerance of the tape, and then stands at the corner."""
    opening = small(room=", openings: [{name: gate, edge: BC, from: 0, width: 11' 1/8\"}]").room.openings[0]
    assert (opening.offset, opening.width) == (ZERO, INCH(132))


def test_corners_with_longer_names() -> None:
    """Corners may be numbered or named in words; sides run the names together or join them by a hyphen."""
    text = "units: in\nroom: {sides: {%s: 16', %s: 12', %s: 16', %s: 12'}, ties: {%s: 20'}}\n" + SEAT % ""
    numbered = read(text % ("P1P2", "P2P3", "P3P10", "P10P1", "P1P3")).room
    assert [edge.name for edge in numbered.edges] == ["P1P2", "P2P3", "P3P10", "P10P1"]
    worded = read(text % ("SW-SE", "SE-NE", "NE-NW", "NW-SW", "SW-NE")).room
    assert [edge.name for edge in worded.edges] == ["SW-SE", "SE-NE", "NE-NW", "NW-SW"]
    assert numbered.outline == worded.outline
    lengths = [edge.length.round_to(Unit.IN.mark) for edge in numbered.edges]
    assert lengths == [INCH(192), INCH(144), INCH(192), INCH(144)]


def test_taped_rooms_keep_their_survey() -> None:
    """`read_room` hands on the survey of a taped room, and needs no cushions."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "taped.yaml"
        turns = "turns: {B: right, C: right, D: right}"
        text = f"units: ft\nroom: {{sides: {{AB: 16, BC: 12, CD: 16, DA: 12}}, {turns}}}\n"
        file.write_text(text, encoding="utf-8")
        reading = read_room(str(file))
        assert reading.survey is not None
        assert not reading.survey.anticlockwise
        assert not reading.room.edges[0].forward
        assert signed_area(reading.room.outline) == INCH(192).units * INCH(144).units
        assert reading.places["room.turns.C"] == Place(2, reading.places["room.turns.C"].column)
        file.write_text(f"units: in\n{ROOM % ''}", encoding="utf-8")
        assert read_room(str(file)).survey is None


def test_obstacles_of_every_kind() -> None:
    """Polygons turn anticlockwise, rectangles grow from their low corner, circles keep centre and radius."""
    kinds = (
        "{name: bed, corners: [[1', 1'], [1', 2'], [2', 1']]}",
        "{name: box, at: [3', 3'], size: [2', 1'], clear: 6}",
        "{name: tree, centre: [8', 8'], radius: 9}",
    )
    bed, box, tree = small(room=f", obstacles: [{', '.join(kinds)}]").room.obstacles
    assert signed_area(bed.core) > 0
    assert box.core[2] == Point(INCH(60), INCH(48))
    assert (box.clear, box.radius) == (INCH(6), ZERO)
    assert (tree.core, tree.radius, tree.open_flame) == ((Point(INCH(96), INCH(96)),), INCH(9), False)


def test_open_flames_are_kept_clear() -> None:
    """15 ft where nothing is said, with the document named; a smaller distance is used and cautioned.

    IFC 307.4.3 as adopted in Baltimore: portable outdoor fireplaces, 15 ft (4572 mm).
    """
    flame = ", obstacles: [{name: bowl, centre: [8', 6'], radius: 1', open_flame: yes%s}]"
    project = small(room=flame % "")
    (note,) = project.findings
    assert project.room.obstacles[0].clear == Length.millimetres(4572) == INCH(15 * 12)
    assert (note.severity, note.code) == (Severity.NOTE, "flame-default")
    assert "IFC 307.4.3" in note.source
    assert "local codes decide" in note.help
    near = small(room=flame % ", clear: 3'")
    assert near.room.obstacles[0].clear == INCH(36)
    assert [finding.severity for finding in near.findings] == [Severity.CAUTION]
    assert near.findings[0].source == note.source
    assert small(room=flame % ", clear: 15'").findings == ()


def test_routes_without_a_width() -> None:
    """36 in, or 915 mm, with a note that names the benchmark: 2010 ADA Standards, 403.5.1."""
    doors = "openings: [{name: door, edge: AB, from: 1', width: 3'}, {name: gate, edge: CD, from: 1', width: 3'}]"
    way = f", {doors}, routes: [{{from: door, to: gate%s}}]"
    for units, width in (("in", INCH(36)), ("mm", Length.millimetres(915))):
        project = small(units, room=way % "")
        route = project.room.routes[0]
        assert (route.name, route.start, route.end, route.width) == ("door to gate", "door", "gate", width)
        assert [finding.severity for finding in project.findings] == [Severity.NOTE]
        assert "403.5.1" in project.findings[0].source
    assert [finding.code for finding in small(room=way % ", width: 31").findings] == ["route-narrow"]
    assert small(room=way % ", width: 32").findings == ()


def test_a_measured_size_far_from_the_nominal_one_is_cautioned() -> None:
    """Two inches may be; more is asked about, and the measured size is used."""
    assert small(seat=", measured: [22, 24, 5]").findings == ()
    project = small(seat=", measured: [21 15/16, 24, 5]")
    assert [(f.code, f.severity) for f in project.findings] == [("measured-differs", Severity.CAUTION)]
    assert project.cushions[0].size[0] == INCH("351/16")


def test_the_rest_of_a_cushion() -> None:
    """Every key of a cushion arrives."""
    cushion = small(seat=", back: [24, 20, 6], own: 4, price: 0, may_turn: true, may_notch: no, seats: 3").cushions[0]
    assert cushion.back is not None
    assert (cushion.back.width, cushion.back.height, cushion.back.thickness) == (INCH(24), INCH(20), INCH(6))
    assert (cushion.own, cushion.price, cushion.stock, cushion.seats) == (4, Fraction(0), None, 3)
    assert (cushion.may_turn, cushion.may_notch) == (True, False)


def test_words_of_the_wish() -> None:
    """Capitals, hyphens and underscores make no difference; a single number of seats is the least."""
    wish = small(
        rest="wish: {shape: l, seats: 5, ends: Armed, corner: Outside_Post, against: free,\n  prefer: [fewer-posts]}\n"
    ).wish
    assert (wish.shape, wish.least, wish.most) == (Shape.L, 5, None)
    assert (wish.left_end, wish.right_end) == (EndKind.ARMED, EndKind.ARMED)
    assert (wish.corner, wish.against) == (CornerKind.OUTSIDE_POST, None)
    assert wish.prefer[:2] == (Objective.POSTS, Objective.SEATS)
    assert sorted(wish.prefer) == sorted(DEFAULT_ORDER)
    other = small(rest="wish: {shape: any, seats: {most: 4}, against: [BA, A-B, CD]}\n").wish
    assert (other.shape, other.least, other.most, other.against) == (None, 1, 4, ("AB", "CD"))
    assert small(rest="wish: {against: CD}\n").wish.against == ("CD",)


@pytest.mark.parametrize(
    ("text", "units", "name", "size"),
    [
        # American Softwood Lumber Standard PS 20 as in the NDS Supplement, Table 1A.
        ("2x4", "in", "2x4", (INCH("3/2"), INCH("7/2"))),
        ("2 × 10", "ft", "2x10", (INCH("3/2"), INCH("37/4"))),
        ("2x6", "mm", "2x6", (Length.millimetres(38), Length.millimetres(140))),
        ("5/4x6", "in", "5/4x6", (INCH(1), INCH("11/2"))),
        ("38 x 140 mm", "mm", "38 x 140 mm", (Length.millimetres(38), Length.millimetres(140))),
        ("38 x 140 mm", "in", "38 x 140 mm", (Length.millimetres(38), Length.millimetres(140))),
        ("140 x 38", "mm", "38 x 140 mm", (Length.millimetres(38), Length.millimetres(140))),
        ("4.5 x 9.7", "cm", "45 x 97 mm", (Length.millimetres(45), Length.millimetres(97))),
        ('1 1/2" x 7 1/4"', "mm", "38.1 x 184.15 mm", (INCH("3/2"), INCH("29/4"))),
        ('1 1/2" x 7 1/8"', "in", '1 1/2" x 7 1/8"', (INCH("3/2"), INCH("57/8"))),
        ("1.5 x 7.25", "in", '1 1/2" x 7 1/4"', (INCH("3/2"), INCH("29/4"))),
    ],
)
def test_sections(text: str, units: str, name: str, size: tuple[Length, Length]) -> None:
    """Nominal names have their dressed size; explicit sizes are taken as they are, thickness first."""
    rail = small(units, rest=f"frame: {{sections: {{rail: '{text}'}}}}\n").frame.rail
    assert (rail.name, (rail.thickness, rail.width)) == (name, size)


def test_boards_carry_the_frame_s_name_for_their_section() -> None:
    """A board limits the rails of its size, whichever way its section was written."""
    shop = small(
        rest="shop: {boards: [{section: '1 1/2\" x 7 1/4\"', length: 12', price: 20.50}, "
        "{section: 2x4, length: 8', have: 3}], trim: 1/2, longest_carried: 11'}\n"
    ).shop
    assert [(board.section, board.price, board.have) for board in shop.boards] == [
        ("2x8", Fraction(41, 2), None),
        ("2x4", None, 3),
    ]
    assert shop.longest("2x8") == INCH(132)
    assert shop.longest("2x4") == INCH(95)


def test_places_point_at_values() -> None:
    """Each key that was written can be found again; one that was not, at the nearest above it."""
    project = small(rest="wish:\n  seats: {least: 2}\n")
    assert project.place("wish.seats.least") == Place(5, 18)
    assert project.place("wish.seats.most") == project.place("wish.seats") == Place(5, 10)
    assert project.place("wish.legroom") == project.place("wish") == Place(4, 1)
    assert project.place("room.corners.B.0") == Place(2, 33)
    assert project.place("frame.max_span") is None


def test_heights_of_obstacles_combine_with_every_shape() -> None:
    """Whatever its shape, a thing may lie flat or have to stay within reach."""
    shapes = ("at: [1', 1'], size: [12, 12]", "centre: [6', 6'], radius: 4", "corners: [[9', 2'], [10', 2'], [9', 3']]")
    for height in Height:
        things = [f"{{name: thing {n}, {shape}, height: {height}, clear: 3}}" for n, shape in enumerate(shapes)]
        obstacles = small(room=f", obstacles: [{', '.join(things)}]").room.obstacles
        assert [(thing.height, thing.clear, thing.hole) for thing in obstacles] == [(height, INCH(3), False)] * 3
    assert small(room=", obstacles: [{name: box, at: [1', 1'], size: [9, 9]}]").room.obstacles[0].height is Height.FULL


@pytest.mark.parametrize(
    ("units", "more", "clear", "codes"),
    [
        ("in", "", INCH(24), ["reach-default"]),
        ("ft", "", INCH(24), ["reach-default"]),
        ("m", "", Length.millimetres(600), ["reach-default"]),
        ("in", ", clear: 0", ZERO, []),
        ("in", ", clear: 30 in", INCH(30), []),
        ("in", ", open_flame: yes", INCH(15 * 12), ["flame-default"]),
    ],
)
def test_ground_before_a_thing_to_reach(units: str, more: str, clear: Length, codes: list[str]) -> None:
    """Common practice where the file says nothing; a flame has its own rule."""
    tap = f"{{name: tap, centre: [8', 6'], radius: 2 in, height: reach{more}}}"
    project = small(units, room=f", obstacles: [{tap}]")
    assert project.room.obstacles[0].clear == clear
    assert [finding.code for finding in project.findings] == codes
    assert all(finding.severity is Severity.NOTE and finding.source for finding in project.findings)


def test_holes_follow_the_obstacles() -> None:
    """Each is a full obstacle that nothing is kept clear of, of any shape."""
    shapes = ("at: [1', 1'], size: [12, 12]", "centre: [6', 6'], radius: 4", "corners: [[9', 2'], [9', 3'], [10', 2']]")
    holes = ", ".join(f"{{name: well {n}, {shape}}}" for n, shape in enumerate(shapes))
    project = small(room=f", holes: [{holes}], obstacles: [{{name: box, at: [1', 5'], size: [9, 9]}}]")
    assert [thing.name for thing in project.room.obstacles] == ["box", "well 0", "well 1", "well 2"]
    assert [thing.hole for thing in project.room.obstacles] == [False, True, True, True]
    assert {(thing.height, thing.clear, thing.open_flame) for thing in project.room.obstacles[1:]} == {
        (Height.FULL, ZERO, False)
    }
    assert signed_area(project.room.obstacles[3].core) > 0
    keys = {fact.id: fact.key for fact in requirements(project) if fact.id.startswith("obstacle:")}
    assert keys == {
        "obstacle:box": "room.obstacles.0",
        "obstacle:well 0": "room.holes.0",
        "obstacle:well 1": "room.holes.1",
        "obstacle:well 2": "room.holes.2",
    }


def test_openings_may_have_a_jamb_in_common() -> None:
    """10.1 + 30.2 and 40.3 in, each rounded to a unit, are a unit apart; that is no overlap."""
    pair = "{name: door, edge: AB, from: 10.1, width: 30.2}, {name: gate, edge: AB, from: 40.3, width: 36}"
    door, gate = small(room=f", openings: [{pair}]").room.openings
    assert (door.offset + door.width - gate.offset).units == 1


def test_an_edge_named_like_a_hole_takes_the_opening() -> None:
    """Only where no edge is meant is the hole the mistake."""
    hole = ", holes: [{name: AB, centre: [6', 6'], radius: 4}], openings: [{name: door, edge: AB, from: 1', width: 36}]"
    assert small(room=hole).room.openings[0].edge == "AB"


def test_a_hole_that_sticks_out_is_cautioned() -> None:
    """It belongs to the outline."""
    project = small(room=", holes: [{name: well, at: [-6, 1'], size: [12, 12]}]")
    assert [(f.code, f.severity) for f in project.findings] == [("obstacle-sticks-out", Severity.CAUTION)]
    assert "outline" in project.findings[0].help


def test_an_obstacle_that_sticks_out_is_cautioned() -> None:
    """Partly outside may be meant; it is said."""
    project = small(room=", obstacles: [{name: pier, at: [-6, 1'], size: [12, 12]}]")
    assert [(f.code, f.severity) for f in project.findings] == [("obstacle-sticks-out", Severity.CAUTION)]
