"""Sample projects for drawing, with layouts laid out by hand; all invented."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from hand_built import ARMED, INSIDE, OPEN, OUTSIDE, Chain, Row, lay_out
from shapely.geometry import Polygon

from fitter.domain.cushions import Cushion, CushionSide, Option
from fitter.domain.frame import Board, Carry, Frame, Section, Shop
from fitter.domain.layout import Layout, Pose, RouteWidth, Side
from fitter.domain.project import Project
from fitter.domain.wishes import CornerKind, Wish
from rooms.clearance import widest_passage
from rooms.lengths import ZERO, Length, Unit, parse_length
from rooms.room import Edge, EdgeKind, Height, Hinge, Obstacle, Opening, Point, Room, Route, Swing

_KINDS = (EdgeKind.WALL, EdgeKind.RAILING, EdgeKind.OPEN, EdgeKind.STEP)


@dataclass(frozen=True)
class Sizes:
    """Sizes that a layout is built from (the letters of DEVELOPERS.md)."""

    unit: Unit
    pitch: Length
    deck: Length
    back: Length
    post: Length
    rail: Length
    arm: Length

    @property
    def cushion(self) -> Cushion:
        """A kind that makes this pitch and this deck depth."""
        return Cushion("Harbour seat", self.pitch, self.deck, Length.inches(5))

    def of(self, text: str) -> Length:
        """A length in the sizes' unit."""
        return parse_length(text, self.unit, negative=True)


INCHES = Sizes(Unit.IN, *(Length.inches(x) for x in ("97/4", "49/2", "7/2", "7/2", "3/2", "3/2")))
METRIC = Sizes(Unit.MM, *(Length.millimetres(x) for x in (605, 610, 89, 89, 38, 38)))


def room_of(
    unit: Unit,
    corners: list[tuple[str, str]],
    *,
    openings: tuple[Opening, ...] = (),
    obstacles: tuple[Obstacle, ...] = (),
    routes: tuple[Route, ...] = (),
    forward: bool = True,
) -> Room:
    """A room from corners in text, anticlockwise; edges take the four kinds in turn."""
    points = [Point(parse_length(x, unit, negative=True), parse_length(y, unit, negative=True)) for x, y in corners]
    names = "ABCDEFGHIJKLMNOP"[: len(points)]
    edges = []
    for i, (start, end) in enumerate(zip(points, [*points[1:], points[0]], strict=True)):
        pair = names[i] + names[(i + 1) % len(names)]
        edges.append(Edge(pair if forward else pair[::-1], _KINDS[i % 4], start, end, forward))
    tolerance = Length.inches("1/4") if unit.imperial else Length.millimetres(6)
    ordered = edges if forward else edges[::-1]
    return Room(tuple(zip(names, points, strict=True)), tuple(ordered), openings, obstacles, routes, tolerance)


def project_of(sizes: Sizes, room: Room, title: str = "Sample patio", cushions: tuple[Cushion, ...] = ()) -> Project:
    """A project around a room, with one invented cushion where no others are given."""
    frame = Frame(
        Section("4x4", sizes.post, sizes.post),
        Section("2x4", sizes.rail, Length.inches("7/2")),
        sizes.back,
        sizes.arm,
        sizes.arm,
        ZERO,
        Length.inches(72),
    )
    legroom = Length.inches(18) if sizes.unit.imperial else Length.millimetres(450)
    edges = tuple(edge.name for edge in room.edges)
    return Project(
        title=title,
        unit=sizes.unit,
        room=room,
        cushions=cushions or (sizes.cushion,),
        wish=Wish(None, 1, None, None, None, None, None, edges, Length.inches(6), legroom),
        frame=frame,
        shop=Shop((Board("2x4", Length.inches(96)),), Length.inches("1/8"), ZERO),
        file="sample-patio.yaml",
        note="Demo data: this patio, its cushions and prices are invented.",
    )


def free(project: Project) -> Project:
    """The project where seats stand free."""
    return replace(project, wish=replace(project.wish, against=None))


def pose_on(edge: Edge) -> Pose:
    """The layout frame of a backing edge, its direction a rational point of the unit circle."""
    dx, dy = edge.end.x.units - edge.start.x.units, edge.end.y.units - edge.start.y.units
    size = (dx * dx + dy * dy) ** 0.5
    if dx < 0 and abs(dy) < 1e-9 * size:
        return Pose(edge.start, Fraction(-1), Fraction(0), edge.name)
    half = Fraction(dy / (size + dx)).limit_denominator(3000)
    square = half * half
    return Pose(edge.start, (1 - square) / (1 + square), 2 * half / (1 + square), edge.name)


def pose_across(edge: Edge, arm: Side) -> Pose:
    """The layout frame of an edge that an arm lies along: a quarter turn from the edge's own."""
    pose, way = pose_on(edge), 1 if arm is Side.RIGHT else -1
    return Pose(pose.origin, -way * pose.sin, way * pose.cos, edge.name, arm)


def bare(sizes: Sizes) -> Project:
    """A project for layouts that ask nothing of their room."""
    return project_of(sizes, room_of(sizes.unit, [("0", "0"), ("20'", "0"), ("20'", "20'"), ("0", "20'")]))


def row(option: Option, count: int, *, corner: bool = False) -> Row:
    """A run with a post at every second module line, in front and behind; at a corner behind one at its start too."""
    lines = tuple(range(2, count, 2))
    return Row(option, count, lines, (0, *lines) if corner else lines)


def straight(sizes: Sizes, pose: Pose, count: int, x: Length, y: Length) -> Layout:
    """A straight run of `count` modules, its deck corner at (x, y)."""
    return lay_out(bare(sizes), pose, Chain(x, y, row(Option(sizes.cushion), count)))


def corner(
    sizes: Sizes,
    pose: Pose,
    counts: tuple[int, int],
    x: Length,
    y: Length,
    kind: CornerKind,
    *,
    mirrored_at: Length | None = None,
) -> Layout:
    """An L of `counts` modules, its corner place at low x; or mirrored, low x measured from `mirrored_at`."""
    main, arm = (row(Option(sizes.cushion), count, corner=True) for count in counts)
    if mirrored_at is None:
        return lay_out(bare(sizes), pose, Chain(x, y, main, right=arm, corner=kind))
    low = mirrored_at - x - sizes.deck - sizes.pitch * counts[0]
    return lay_out(bare(sizes), pose, Chain(low, y, main, left=arm, corner=kind))


def with_routes(layout: Layout, room: Room) -> Layout:
    """The layout with the widths that are left of the room's routes, to the nearest mark of the tape."""
    boxes = [Polygon([(float(x), float(y)) for x, y in layout.pose.outline(box)]) for box in layout.footprint]
    found = tuple(
        RouteWidth(route.name, route.width, Length(int(widest_passage(room, route, boxes).clear)).round_to(mark))
        for route in room.routes
        for mark in [Length.inches("1/16")]
    )
    return replace(layout, routes=found)


def samples() -> dict[str, tuple[Project, Layout]]:
    """The samples by name."""
    return {
        "rectangle-l-inches": _rectangle_inches(),
        "skew-straight-metric": _skew_metric(),
        "concave-l-left-metric": _concave_metric(),
        "free-standing-inches": _free_inches(),
        "table-corner-clockwise": _table_clockwise(),
        "long-run-metric": _long_metric(),
        "u-along-the-wall-inches": _u_inches(),
        "u-arm-along-the-wall-metric": _u_arm_metric(),
        "mixed-u-free-inches": _mixed_inches(),
        "carried-u-inches": _carried_inches(),
        "carried-l-left-metric": _carried_metric(),
        "angle-u-inches": _angle_inches(),
        "spread-l-left-metric": _spread_metric(),
    }


def _rectangle_inches() -> tuple[Project, Layout]:
    s = INCHES
    door = Opening("house door", "AB", s.of("160"), s.of("36"), Swing.IN, Hinge.SECOND)
    gate = Opening("gate", "CD", s.of("20"), s.of("40"))
    bowl = Obstacle("fire bowl", (Point(s.of("90"), s.of("90")),), s.of("14"), s.of("24"), True)
    room = room_of(
        s.unit,
        [("0", "0"), ("16' 10\"", "0"), ("16' 10\"", "13' 2 1/2\""), ("0", "13' 2 1/2\"")],
        openings=(door, gate),
        obstacles=(bowl,),
        routes=(Route("door to gate", "house door", "gate", s.of("36")),),
    )
    layout = corner(s, pose_on(room.edge("AB")), (4, 3), s.of("4 1/2"), s.of("4 1/4"), CornerKind.INSIDE_POST)
    return project_of(s, room, "Long Yard"), with_routes(layout, room)


def _skew_metric() -> tuple[Project, Layout]:
    s = METRIC
    room = room_of(
        s.unit,
        [("0", "0"), ("4210", "350"), ("3800", "3300"), ("-220", "2900")],
        openings=(
            Opening("kitchen door", "CD", s.of("700"), s.of("880"), Swing.OUT),
            Opening("steps", "DA", s.of("600"), s.of("1000")),
        ),
        obstacles=(
            Obstacle(
                "drain pipe",
                tuple(
                    Point(s.of(x), s.of(y))
                    for x, y in (("3400", "2700"), ("3640", "2720"), ("3600", "2950"), ("3380", "2930"))
                ),
            ),
        ),
        routes=(Route("kitchen to steps", "kitchen door", "steps", s.of("914")),),
    )
    layout = straight(s, pose_on(room.edge("AB")), 5, s.of("700"), s.of("110"))
    return project_of(s, room, "Crooked Court"), with_routes(layout, room)


def _concave_metric() -> tuple[Project, Layout]:
    s = METRIC
    room = room_of(
        s.unit,
        [("0", "0"), ("6200", "0"), ("6200", "2600"), ("4400", "2600"), ("4400", "4700"), ("0", "4700")],
        openings=(
            Opening("garden door", "FA", s.of("2900"), s.of("900"), Swing.IN),
            Opening("side gate", "BC", s.of("1500"), s.of("950")),
        ),
        obstacles=(
            Obstacle(
                "planter",
                tuple(
                    Point(s.of(x), s.of(y))
                    for x, y in (("1000", "2200"), ("1600", "2200"), ("1600", "2700"), ("1000", "2700"))
                ),
                clear=s.of("150"),
            ),
        ),
        routes=(Route("door to side gate", "garden door", "side gate", s.of("900")),),
    )
    edge = room.edge("EF")
    layout = corner(s, pose_on(edge), (4, 2), s.of("100"), s.of("96"), CornerKind.OUTSIDE_POST, mirrored_at=edge.length)
    return project_of(s, room, "Two Levels"), with_routes(layout, room)


def _free_inches() -> tuple[Project, Layout]:
    """Parallel to the far edge, which runs the other way."""
    s = INCHES
    room = room_of(s.unit, [("0", "0"), ("20'", "0"), ("22'", "14'"), ("3'", "17'")])
    far = pose_on(room.edge("CD"))
    pose = Pose(Point(s.of("60"), s.of("90")), -far.cos, -far.sin, None)
    project = free(project_of(s, room, "Open Deck"))
    return project, lay_out(project, pose, Chain(ZERO, ZERO, row(Option(s.cushion), 4), ends=(OPEN, OPEN)))


def _table_clockwise() -> tuple[Project, Layout]:
    s = INCHES
    room = room_of(
        s.unit,
        [("0", "0"), ("12' 4 3/16\"", "0"), ("12' 4 3/16\"", "11'"), ("0", "11'")],
        openings=(Opening("back door", "DC", s.of("6"), s.of("32"), Swing.OUT, Hinge.SECOND),),
        forward=False,
    )
    edge = room.edge("CB")
    return project_of(s, room, "Small Terrace"), corner(
        s, pose_on(edge), (2, 2), s.of("3 3/4"), s.of("3 3/4"), CornerKind.TABLE_CORNER
    )


def _long_metric() -> tuple[Project, Layout]:
    s = METRIC
    room = room_of(s.unit, [("0", "0"), ("9000", "0"), ("9000", "2500"), ("0", "2500")])
    return project_of(s, room, "A very long balcony with a title that does not fit on one line"), straight(
        s, pose_on(room.edge("AB")), 12, s.of("200"), s.of("95")
    )


def _u_inches() -> tuple[Project, Layout]:
    """Both arms shorter than the main run, over a drain that only legs keep off."""
    s = INCHES
    drain = Obstacle("drain", (Point(s.of("60"), s.of("12")),), s.of("3"), s.of("1"), height=Height.LOW)
    room = room_of(
        s.unit,
        [("0", "0"), ("17'", "0"), ("17'", "12'"), ("0", "12'")],
        openings=(Opening("back gate", "CD", s.of("60"), s.of("40")),),
        obstacles=(drain,),
    )
    main, right, left = (row(Option(s.cushion), count, corner=True) for count in (4, 3, 2))
    chain = Chain(s.of("20"), s.of("4 1/2"), main, right, left, INSIDE, ends=(ARMED, OPEN))
    project = project_of(s, room, "Horseshoe Yard")
    return project, lay_out(project, pose_on(room.edge("AB")), chain)


def _u_arm_metric() -> tuple[Project, Layout]:
    """The left arm is the longest run and lies along a skew wall; a tap beside it keeps its ground."""
    s = METRIC
    tap = Obstacle("tap", (Point(s.of("4800"), s.of("250")),), s.of("40"), s.of("500"), height=Height.REACH)
    room = room_of(s.unit, [("0", "0"), ("5200", "150"), ("5000", "4600"), ("0", "4400")], obstacles=(tap,))
    edge = room.edge("AB")
    option = Option(s.cushion)
    main, right, left = row(option, 2, corner=True), row(option, 2, corner=True), row(option, 4, corner=True)
    width = 2 * (s.deck + s.pitch)
    chain = Chain(-(s.of("95") + s.back + width), s.of("600"), main, right, left, OUTSIDE)
    project = project_of(s, room, "Windy Corner")
    return project, lay_out(project, pose_across(edge, Side.LEFT), chain)


def _mixed_inches() -> tuple[Project, Layout]:
    """Three kinds of cushion, one turned, one for two; the corner cushions leave strips uncovered."""
    s = INCHES
    bench = Cushion("Two-place bench", s.of("48"), s.of("24"), s.of("5"), own=2, price=Fraction(90), seats=2)
    slim = Cushion("Slim seat", s.of("20"), s.of("26"), s.of("4"), may_turn=True, price=Fraction(35))
    square = Cushion("Corner seat", s.of("20"), s.of("22"), s.of("4"), own=1, price=Fraction(30))
    room = room_of(s.unit, [("0", "0"), ("22'", "0"), ("22'", "16'"), ("0", "16'")])
    project = free(project_of(s, room, "Pick and Mix Terrace", (bench, slim, square)))
    chain = Chain(
        s.of("30"), s.of("40"),
        Row(Option(bench), 2, (1,), (0, 1, 2)),
        right=Row(Option(slim), 3, (2,), (2,)), left=Row(Option(slim, turned=True), 3, (2,), (0, 2)),
        corner=OUTSIDE,
        right_corner=Option(square), left_corner=Option(square),
        ends=(OPEN, ARMED),
    )  # fmt: skip
    return project, lay_out(project, Pose(Point(ZERO, ZERO), Fraction(1), Fraction(0), None), chain)


def carried(project: Project, longest: Length) -> Project:
    """The project where no piece may be longer."""
    return replace(project, frame=replace(project.frame, carry=Carry(Length.inches(30), longest)))


def _carried_inches() -> tuple[Project, Layout]:
    """Six modules that own both corners, in three pieces of two; the arms are split off where they begin."""
    s = INCHES
    room = room_of(s.unit, [("0", "0"), ("20'", "0"), ("20'", "12'"), ("0", "12'")])
    option = Option(s.cushion)
    main = Row(option, 6, (), (0, 6), splits=(2, 4))
    right, left = Row(option, 2, splits=(0,)), Row(option, 3, (2,), (2,), splits=(0,))
    chain = Chain(s.of("8"), s.of("4 1/2"), main, right, left, INSIDE, ends=(ARMED, OPEN))
    project = carried(project_of(s, room, "Attic Terrace"), s.of("77"))
    return project, lay_out(project, pose_on(room.edge("AB")), chain)


def _carried_metric() -> tuple[Project, Layout]:
    """An L that turns at its left hand, whose main run comes apart after the third module from there."""
    s = METRIC
    room = room_of(s.unit, [("0", "0"), ("5000", "0"), ("5000", "3600"), ("0", "3600")])
    option = Option(s.cushion)
    chain = Chain(
        s.of("600"), s.of("120"),
        Row(option, 5, (2,), (0, 2), splits=(3,)), left=Row(option, 2, splits=(0,)), corner=OUTSIDE,
    )  # fmt: skip
    project = carried(project_of(s, room, "Roof Garden"), s.of("2600"))
    return project, lay_out(project, pose_on(room.edge("AB")), chain)


def overhung(project: Project, over: Length) -> Project:
    """The project whose cushions come forward over the front of the wood."""
    return replace(project, frame=replace(project.frame, overhang=over))


def _angle_inches() -> tuple[Project, Layout]:
    """A U whose corner posts end under the seats; cushions with some ease are cut for the boards above them."""
    s = INCHES
    room = room_of(s.unit, [("0", "0"), ("16'", "0"), ("16'", "11'"), ("0", "11'")])
    seat = replace(s.cushion, ease=s.of("1/8"), zip=CushionSide.BACK)
    main, right, left = (row(Option(seat), count, corner=True) for count in (4, 2, 2))
    chain = Chain(s.of("10"), s.of("4 1/2"), main, right, left, CornerKind.ANGLE_POST)
    project = project_of(s, room, "Flat Boards Yard", (seat,))
    return project, lay_out(project, pose_on(room.edge("AB")), chain)


def _spread_metric() -> tuple[Project, Layout]:
    """An L that turns at its left hand along a skew wall, its cushions off the backs and over the front."""
    s = METRIC
    room = room_of(s.unit, [("0", "0"), ("4900", "120"), ("4800", "3500"), ("0", "3400")])
    main, left = (row(Option(s.cushion), count, corner=True) for count in (4, 2))
    chain = Chain(s.of("500"), s.of("120"), main, left=left, corner=CornerKind.SPREAD)
    project = overhung(project_of(s, room, "Eased Terrace"), s.of("20"))
    return project, lay_out(project, pose_on(room.edge("AB")), chain)
