"""Sample projects and layouts for drawing, built from the definitions in DEVELOPERS.md; all invented."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from math import cos, radians, sin

from shapely.geometry import Polygon

from fitter.domain.cushions import Cushion
from fitter.domain.frame import Board, Frame, Section, Shop
from fitter.domain.layout import (
    Box,
    End,
    Face,
    Layout,
    Module,
    Notch,
    Pose,
    Post,
    PostRole,
    Rail,
    RouteWidth,
    Run,
    Side,
)
from fitter.domain.project import Project
from fitter.domain.wishes import CornerKind, EndKind, Shape, Wish
from rooms.clearance import widest_passage
from rooms.lengths import ZERO, Length, Unit, parse_length
from rooms.room import Edge, EdgeKind, Hinge, Obstacle, Opening, Point, Room, Route, Swing

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


def project_of(sizes: Sizes, room: Room, title: str = "Sample patio") -> Project:
    """A project around a room, with one invented cushion."""
    cushion = Cushion("Harbour seat", sizes.pitch, sizes.deck, Length.inches(5))
    section = Section("2x4", sizes.rail, Length.inches("7/2"))
    frame = Frame(
        Section("4x4", sizes.post, sizes.post),
        section,
        sizes.back,
        sizes.arm,
        sizes.arm,
        ZERO,
        Length.inches(72),
    )
    wish = Wish(None, 1, None, None, None, None, Length.inches(6), Length.inches(18))
    return Project(
        title=title,
        unit=sizes.unit,
        room=room,
        cushions=(cushion,),
        wish=wish,
        frame=frame,
        shop=Shop((Board("2x4", Length.inches(96)),), Length.inches("1/8"), ZERO),
        file="sample-patio.yaml",
        note="Demo data: this patio, its cushions and prices are invented.",
    )


def pose_on(edge: Edge) -> Pose:
    """The layout frame of a backing edge, its direction a rational point of the unit circle."""
    dx, dy = edge.end.x.units - edge.start.x.units, edge.end.y.units - edge.start.y.units
    size = (dx * dx + dy * dy) ** 0.5
    if dx < 0 and abs(dy) < 1e-9 * size:
        return Pose(edge.start, Fraction(-1), Fraction(0), edge.name)
    half = Fraction(dy / (size + dx)).limit_denominator(3000)
    square = half * half
    return Pose(edge.start, (1 - square) / (1 + square), 2 * half / (1 + square), edge.name)


def pose_turned(origin: Point, degrees: float) -> Pose:
    """A free standing layout frame, turned by about so many degrees (under 180)."""
    half = Fraction(sin(radians(degrees)) / (1 + cos(radians(degrees)))).limit_denominator(3000)
    square = half * half
    return Pose(origin, (1 - square) / (1 + square), 2 * half / (1 + square), None)


def straight(sizes: Sizes, pose: Pose, count: int, x: Length, y: Length, *, armed: bool = True) -> Layout:
    """A straight run of `count` modules, its deck corner at (x, y); a post at every second module line."""
    p, d, t, e = sizes.pitch, sizes.deck, sizes.back, sizes.arm
    deck = Box(x, y, x + count * p, y + d)
    kind = EndKind.ARMED if armed else EndKind.OPEN
    ends = (
        End(Side.MAIN, kind, Box(x - e, y - t, x, y + d)),
        End(Side.MAIN, kind, Box(deck.x1, y - t, deck.x1 + e, y + d)),
    )
    run = _run(sizes, Side.MAIN, count, deck, Box(x, y - t, deck.x1, y))
    modules = tuple(_module(Side.MAIN, i + 1, Box(x + i * p, y, x + (i + 1) * p, y + d)) for i in range(count))
    posts, rails = _bays(sizes, Side.MAIN, x, deck.x1, [(x + i * p, i) for i in range(2, count, 2)], y, y + d)
    footprint = (deck, run.back, *(end.box for end in ends))
    off = y - t if pose.edge else ZERO
    return Layout(Shape.STRAIGHT, None, pose, off, None, (run,), modules, ends, posts, rails, footprint)


def _run(sizes: Sizes, side: Side, count: int, deck: Box, back: Box) -> Run:
    room = Length.inches(18) if sizes.unit.imperial else Length.millimetres(450)
    legroom = Box(deck.x0, deck.y1, deck.x1, deck.y1 + room)
    return Run(side, "Harbour seat", False, count, sizes.pitch, deck, back, legroom)


def _module(side: Side, place: int, box: Box, notch: Notch | None = None) -> Module:
    return Module(side, place, "Harbour seat", False, box, 1, notch)


def _bays(
    sizes: Sizes,
    side: Side,
    start: Length,
    end: Length,
    lines: list[tuple[Length, int]],
    y0: Length,
    y1: Length,
) -> tuple[tuple[Post, ...], tuple[Rail, ...]]:
    """Front and back rails between posts centred on the same lines."""
    posts: list[Post] = []
    rails: list[Rail] = []
    for face, low, high in ((Face.FRONT, y1 - sizes.post, y1), (Face.BACK, y0, y0 + sizes.post)):
        at = start
        for bay, (line, number) in enumerate([*lines, (end, -1)], start=1):
            half = (sizes.post.units // 2 // sizes.unit.mark.units) * sizes.unit.mark.units
            left = end if number < 0 else line - Length(half)
            rail_y = high - sizes.rail if face is Face.FRONT else low
            rails.append(Rail(side, face, bay, left - at, Box(at, rail_y, left, rail_y + sizes.rail)))
            if number >= 0:
                at = left + sizes.post
                posts.append(Post(PostRole.SUPPORT, side, face, number, Box(left, low, at, high)))
    return tuple(posts), tuple(rails)


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
    n, m = counts
    p, d, t, e, post, r = sizes.pitch, sizes.deck, sizes.back, sizes.arm, sizes.post, sizes.rail
    side = Side.RIGHT if mirrored_at is None else Side.LEFT
    place = Box(x, y, x + d, y + d)
    main = Box(x + d, y, x + d + n * p, y + d)
    arm = Box(x, y + d, x + d, y + d + m * p)
    main_back, side_back = Box(x - t, y - t, main.x1, y), Box(x - t, y, x, arm.y1)
    ends = (
        End(Side.MAIN, EndKind.ARMED, Box(main.x1, y - t, main.x1 + e, y + d)),
        End(side, EndKind.ARMED, Box(x - t, arm.y1, x + d, arm.y1 + e)),
    )
    outside = kind is CornerKind.OUTSIDE_POST
    corner_box = Box(x - post, y - post, x, y) if outside else Box(x, y, x + post, y + post)
    inner = Box(main.x0 - post, main.y1 - post, main.x0, main.y1)
    room = Length.inches(18) if sizes.unit.imperial else Length.millimetres(450)
    runs = (
        _run(sizes, Side.MAIN, n, main, main_back),
        Run(side, "Harbour seat", False, m, p, arm, side_back, Box(arm.x1, arm.y0, arm.x1 + room, arm.y1)),
    )
    notch = Notch(corner_box, post, post) if kind is CornerKind.INSIDE_POST else None
    first = Module(Side.MAIN, 0, None, False, place, 0) if kind is CornerKind.TABLE_CORNER else None
    modules = (
        first or _module(Side.MAIN, 0, place, notch),
        *(_module(Side.MAIN, i + 1, Box(main.x0 + i * p, y, main.x0 + (i + 1) * p, y + d)) for i in range(n)),
        *(_module(side, i + 1, Box(x, arm.y0 + i * p, arm.x1, arm.y0 + (i + 1) * p)) for i in range(m)),
    )
    rails = (
        Rail(Side.MAIN, Face.FRONT, 1, n * p, Box(main.x0, main.y1 - r, main.x1, main.y1)),
        Rail(
            Side.MAIN,
            Face.BACK,
            1,
            main.x1 - (x if outside else x + post),
            Box(x if outside else x + post, y, main.x1, y + r),
        ),
        Rail(Side.MAIN, Face.CROSS, 1, inner.y0 - (y + r), Box(main.x0 - r, y + r, main.x0, inner.y0)),
        Rail(side, Face.FRONT, 1, m * p, Box(arm.x1 - r, arm.y0, arm.x1, arm.y1)),
        Rail(
            side,
            Face.BACK,
            1,
            arm.y1 - (y + r if outside else y + post),
            Box(x, y + r if outside else y + post, x + r, arm.y1),
        ),
    )
    posts = (
        Post(PostRole.INNER_CORNER, Side.MAIN, Face.FRONT, None, inner),
        Post(PostRole.CORNER, Side.MAIN, Face.BACK, None, corner_box),
    )
    footprint = (
        place,
        main,
        arm,
        main_back,
        side_back,
        *(end.box for end in ends),
        *((corner_box,) if outside else ()),
    )
    layout = Layout(
        Shape.L, side, pose, y - t if pose.edge else ZERO, kind, runs, modules, ends, posts, rails, footprint
    )
    return layout if mirrored_at is None else _mirrored(layout, mirrored_at)


def _mirrored(layout: Layout, whole: Length) -> Layout:

    def flip(box: Box) -> Box:
        return Box(whole - box.x1, box.y0, whole - box.x0, box.y1)

    return replace(
        layout,
        runs=tuple(
            replace(run, deck=flip(run.deck), back=flip(run.back), legroom=flip(run.legroom)) for run in layout.runs
        ),
        modules=tuple(
            replace(
                module,
                box=flip(module.box),
                notch=module.notch and replace(module.notch, box=flip(module.notch.box)),
            )
            for module in layout.modules
        ),
        ends=tuple(replace(end, box=flip(end.box)) for end in layout.ends),
        posts=tuple(replace(post, box=flip(post.box)) for post in layout.posts),
        rails=tuple(replace(rail, box=flip(rail.box)) for rail in layout.rails),
        footprint=tuple(map(flip, layout.footprint)),
    )


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
                    for x, y in (("1000", "2500"), ("1600", "2500"), ("1600", "3000"), ("1000", "3000"))
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
    s = INCHES
    room = room_of(s.unit, [("0", "0"), ("20'", "0"), ("22'", "14'"), ("3'", "17'")])
    pose = pose_turned(Point(s.of("60"), s.of("50")), 20)
    return project_of(s, room, "Open Deck"), straight(s, pose, 4, s.of("20"), s.of("20"), armed=False)


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
