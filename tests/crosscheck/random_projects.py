"""Random projects of believable sizes, the same for the same seed; all of them invented."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from random import Random

import shapely

from fitter.domain.cushions import Cushion
from fitter.domain.frame import Board, Carpentry, Frame, Section, Shop, Stance
from fitter.domain.project import Project
from fitter.domain.wishes import DEFAULT_ORDER, CornerKind, EndKind, Objective, Shape, Side, Wish
from rooms.lengths import ZERO, Length, Unit
from rooms.room import Edge, EdgeKind, Height, Hinge, Obstacle, Opening, Point, Room, Route, Swing

Corner = tuple[int, int]
RECTILINEAR = ("rectangle", "L", "T", "U")
SKEW = ("quadrilateral", "cut corner")
KINDS = (*RECTILINEAR, *SKEW, "rectangle", "L")
WALLED = ("closet", "wing wall")
"""Rooms with a wall that is thinner than a route is wide, and has the room on both its sides."""


class Sizes:
    """Draws sizes on the shop mark of one unit system; asked for in inches, given in that system."""

    def __init__(self, random: Random, unit: Unit) -> None:
        self.random, self.unit = random, unit

    def mark(self, inches: float) -> Length:
        """The mark nearest to a number of inches."""
        return Length.inches(Fraction(inches)).round_to(self.unit.mark)

    def between(self, low: float, high: float, step: float = 0.25) -> Length:
        """A random size, both bounds included, in steps such as people write."""
        return self.mark(low + step * self.random.randint(0, round((high - low) / step)))


_FIRST = (CornerKind.INSIDE_POST, CornerKind.OUTSIDE_POST, CornerKind.TABLE_CORNER)
"""Treatments among which a wish is drawn first, before one of all may take its place."""

ORDER = tuple(aim for aim in DEFAULT_ORDER if aim is not Objective.MONEY)
"""The usual order of projects whose boards have no prices."""


def projects(seed: int, kinds: tuple[str, ...] = KINDS) -> Project:
    """The random project of that seed, in a room of one of some kinds.

    Skew rooms get odd corners (to 1/16 in or 1 mm), so that exact fits are rare in them; the rest is in
    steps of 1/4 in, where exact fits are common.
    """
    random = Random(f"patio {seed}")
    unit = random.choice((Unit.IN, Unit.IN, Unit.MM, Unit.FT, Unit.CM))
    draw = Sizes(random, unit)
    kind = random.choice(kinds)
    corners = _corners(draw, kind)
    edges = _edges(corners, clockwise=random.random() < 0.3)
    tolerance = draw.mark(random.choice((0, 0.125, 0.25, 0.5)))
    openings = _openings(draw, edges)
    room = Room(
        corners=tuple((edge.name[0], edge.start if edge.forward else edge.end) for edge in edges),
        edges=edges,
        openings=openings,
        obstacles=_obstacles(draw, corners),
        routes=_routes(draw, openings),
        tolerance=tolerance,
    )
    project = Project(
        title=f"invented room {seed} ({kind})",
        unit=unit,
        room=room,
        cushions=_cushions(draw),
        wish=_wish(draw, edges),
        frame=_frame(draw),
        shop=_shop(draw),
    )
    return _turned_corners(Sizes(Random(f"corners {seed}"), unit), project)


def _turned_corners(draw: Sizes, project: Project) -> Project:
    """The project with any treatment of corners, some overhang and a limit to what is bought: drawn by themselves."""
    random = draw.random
    frame = replace(
        project.frame,
        overhang=draw.mark(random.choice((0, 0, 0, 0.25, 0.5, 0.75, 1, 1.5, 2))),
        angle=Section("thin", draw.mark(random.choice((0.5, 0.75, 0.75, 1.5))), draw.mark(random.choice((1.5, 3.5)))),
        carpentry=_apart(random, project.frame.carpentry),
    )
    wish = replace(project.wish, corner=_treatment(random, project.wish.corner), prefer=_tall(random, project.wish))
    if any(kind.price is not None for kind in project.cushions) and random.random() < 0.25:
        wish = replace(wish, buy_most=random.choice((0, 1, 2, 3, 5)))
    kinds = project.cushions
    if random.random() < 0.3:
        kinds = tuple(replace(kind, ease=draw.mark(random.choice((-0.5, 0, 0.25, 0.5, 1, 1.5)))) for kind in kinds)
    return replace(project, frame=frame, wish=wish, cushions=kinds)


def _apart(random: Random, work: Carpentry) -> Carpentry:
    """Now and then backs that do not meet at corners."""
    leaning = replace(work, lean=Fraction(random.randint(1, 10)))
    return random.choice((*(work for _ in range(7)), leaning, replace(work, upright_at_corner=Stance.EDGE)))


def _treatment(random: Random, asked: CornerKind | None) -> CornerKind | None:
    """Any treatment where any was asked, and else one of all."""
    return asked and random.choice((asked, *CornerKind))


def _tall(random: Random, wish: Wish) -> tuple[Objective, ...]:
    """The order with tall posts where they usually come, or somewhere among the first."""
    if random.random() < 0.75:
        return wish.prefer
    others = [aim for aim in wish.prefer if aim is not Objective.TALL]
    others.insert(random.randint(0, 4), Objective.TALL)
    return tuple(others)


def owned_projects(seed: int) -> Project:
    """A random project where everything is in the shed: two to four kinds, a few of each, some more to be had."""
    random, project = Random(f"shed {seed}"), projects(seed)
    draw = Sizes(random, project.unit)
    kinds = []
    for n in range(random.choice((2, 3, 3, 4))):
        wide, deep = draw.between(18, 28), draw.between(20, 28)
        double = random.random() < 0.2
        kinds.append(
            Cushion(
                name=f"old cushion {n}",
                width=wide * 2 if double else wide,
                depth=deep,
                thickness=draw.between(3, 6),
                ease=draw.mark(random.choice((-0.5, 0, 0.125, 0.25, 0.5, 1))),
                own=random.randint(1, 6),
                price=Fraction(random.randint(20, 90)) if random.random() < 0.3 else None,
                may_turn=random.random() < 0.6,
                may_notch=random.random() < 0.5,
                seats=2 if double else 1,
            )
        )
    wish = replace(project.wish, least=1, most=None, buy_most=random.choice((0, 0, 1, 2)))
    title = f"invented shed {seed}"
    return replace(project, title=title, cushions=tuple(kinds), wish=wish)


def is_skew(project: Project) -> bool:
    """Whether some edge is parallel to neither axis."""
    return any(edge.start.x != edge.end.x and edge.start.y != edge.end.y for edge in project.room.edges)


def _corners(draw: Sizes, kind: str) -> tuple[Point, ...]:
    w, h = draw.between(75, 170), draw.between(60, 140)
    a, b = draw.between(28, 44), draw.between(24, 40)
    o = ZERO
    wide = w + draw.mark(48)
    rings = {
        "rectangle": ((o, o), (w, o), (w, h), (o, h)),
        "L": ((o, o), (w, o), (w, h - b), (w - a, h - b), (w - a, h), (o, h)),
        "U": ((o, o), (wide, o), (wide, h), (wide - a, h), (wide - a, h - b), (a, h - b), (a, h), (o, h)),
        "T": (
            (o, o),
            (wide, o),
            (wide, h - b),
            (wide - a, h - b),
            (wide - a, h),
            (a, h),
            (a, h - b),
            (o, h - b),
        ),
    }
    if kind in WALLED:
        x, thick = (w if kind == "wing wall" else a + draw.mark(12)), draw.between(3, 9)
        rings[kind] = (
            (o, o),
            (wide, o),
            (wide, h),
            (x + thick, h),
            (x + thick, b),
            (x, b),
            (x, h),
            (o, h),
        )
    if kind in rings:
        return tuple(Point(x, y) for x, y in rings[kind])
    off = [draw.between(-12, 12, 0.0625) for _ in range(4)]
    if kind == "quadrilateral":
        return (Point(o, o), Point(w, off[0]), Point(w + off[1], h + off[2]), Point(off[3], h))
    return (Point(o, o), Point(w, off[0]), Point(w, h - b), Point(w - a + off[1], h + off[2]), Point(o, h))


def _edges(corners: tuple[Point, ...], *, clockwise: bool) -> tuple[Edge, ...]:
    names = "ABCDEFGH"[: len(corners)]
    walk = tuple(reversed(corners)) if clockwise else corners
    kinds = (EdgeKind.WALL, EdgeKind.RAILING, EdgeKind.OPEN, EdgeKind.STEP)
    edges = []
    for i, here in enumerate(walk):
        there = walk[(i + 1) % len(walk)]
        name = names[i] + names[(i + 1) % len(walk)]
        start, end = (there, here) if clockwise else (here, there)
        edges.append(Edge(name, kinds[i % 4], start, end, forward=not clockwise))
    return tuple(edges)


def _openings(draw: Sizes, edges: tuple[Edge, ...]) -> tuple[Opening, ...]:
    """At most one opening to an edge, mostly 8 in or more from the corners; some stand in a corner."""
    chosen = draw.random.sample(edges, k=draw.random.choice((0, 1, 2, 2, 3, 4)))
    openings = []
    for i, edge in enumerate(chosen):
        width = draw.mark(draw.random.choice((24, 28, 30, 32, 36)))
        beside = draw.mark(draw.random.choice((8, 8, 8, 8, 0)))
        spare = edge.length - width - 2 * beside
        if spare >= ZERO:
            offset = beside + Length(draw.random.randint(0, spare.units)).floor_to(draw.mark(0.25))
            if not beside:
                offset = draw.random.choice((ZERO, draw.mark(3)))
            swing = draw.random.choice((Swing.NONE, Swing.NONE, Swing.IN, Swing.OUT))
            if offset + width <= edge.length:
                openings.append(Opening(f"door {i}", edge.name, offset, width, swing, draw.random.choice(list(Hinge))))
    return tuple(openings)


def _routes(draw: Sizes, openings: tuple[Opening, ...]) -> tuple[Route, ...]:
    pairs = list(pairwise(openings))
    kept = draw.random.sample(pairs, k=draw.random.randint(0, len(pairs))) if pairs else []
    return tuple(Route(f"way {i}", a.name, b.name, draw.between(22, 34, 0.5)) for i, (a, b) in enumerate(kept))


def _obstacles(draw: Sizes, corners: tuple[Point, ...]) -> tuple[Obstacle, ...]:
    """Round, rectangular or three-cornered things of every height, and holes, that lie inside the outline."""
    room = shapely.Polygon([(p.x.units, p.y.units) for p in corners])
    wide, high = max(p.x for p in corners).inch, max(p.y for p in corners).inch
    found = []
    for i in range(draw.random.choice((0, 0, 1, 1, 2, 3))):
        x = draw.mark(float(wide) * draw.random.uniform(0.1, 0.8))
        y = draw.mark(float(high) * draw.random.uniform(0.05, 0.7))
        clear = draw.mark(draw.random.choice((0, 0, 3, 6, 12)))
        a, b = draw.between(3, 14), draw.between(3, 14)
        shape = draw.random.choice(("round", "box", "triangle"))
        box = (Point(x, y), Point(x + a, y), Point(x + a, y + b), Point(x, y + b))
        core = {"round": (Point(x, y),), "box": box, "triangle": box[:3]}[shape]
        radius = draw.between(2, 8) if shape == "round" else ZERO
        height = draw.random.choice((Height.FULL, Height.FULL, Height.LOW, Height.LOW, Height.REACH))
        hole = height is Height.FULL and shape != "round" and draw.random.random() < 0.3
        if room.covers(shapely.MultiPoint([(p.x.units, p.y.units) for p in core]).convex_hull.buffer(radius.units)):
            found.append(Obstacle(f"thing {i}", core, radius, ZERO if hole else clear, height=height, hole=hole))
    return tuple(found)


def _cushions(draw: Sizes) -> tuple[Cushion, ...]:
    """One to four kinds; beside those for the runs there may be a square one that suits a corner."""
    random, found = draw.random, []
    count = random.choice((1, 1, 2, 2, 3))
    for i in range(count + random.choice((0, 0, 1))):
        double, square = random.random() < 0.15, i >= count
        width, depth, thick = draw.between(18, 28), draw.between(20, 28), draw.between(3, 6)
        if square:
            width = depth = draw.between(18, 24)
        elif double:
            width = draw.between(38, 50)
        own = random.choice((None, None, 0, 1, 2, 3, 4, 6))
        priced = own == 0 or random.random() < (0.6 if own is None else 0.5)
        found.append(
            Cushion(
                name=f"cushion {i}",
                width=width,
                depth=depth,
                thickness=thick,
                measured=(width + draw.mark(0.25), depth, thick) if random.random() < 0.2 else None,
                ease=draw.mark(random.choice((0, 0, 0.25, 0.5, 0.125, -0.25, -0.5))),
                own=own,
                price=Fraction(random.randint(20, 90)) if priced else None,
                may_turn=random.random() < 0.4,
                may_notch=random.random() < 0.7,
                seats=2 if double and not square else 1,
            )
        )
    return tuple(found)


def _wish(draw: Sizes, edges: tuple[Edge, ...]) -> Wish:
    random = draw.random
    names = tuple(edge.name for edge in edges)
    some = tuple(name for name in names if random.random() < 0.5) or names[:1]
    least = random.choice((1, 1, 1, 2, 3, 5))
    ends = (None, None, *EndKind)
    both = random.choice(ends)
    apart = random.random() < 0.4
    return Wish(
        shape=random.choice((None, None, None, Shape.L, Shape.STRAIGHT, Shape.U, Shape.U)),
        least=least,
        most=random.choice((None, None, None, least + 2)),
        left_end=random.choice(ends) if apart else both,
        right_end=random.choice(ends) if apart else both,
        hand=random.choice((None, None, None, Side.LEFT, Side.RIGHT)),
        corner=random.choice((None, None, None, *_FIRST)),
        against=random.choice((names, names, some, None)),
        off_wall=draw.mark(random.choice((0.5, 1, 3, 6, 12))),
        legroom=draw.mark(random.choice((0, 12, 16, 18))),
        prefer=_order(random),
    )


def _order(random: Random) -> tuple[Objective, ...]:
    """The default order, or some objectives drawn to its front."""
    if random.random() < 0.65:
        return ORDER
    some = [aim for aim in ORDER if aim is not Objective.TALL]
    first = random.sample(some[:4], k=random.choice((1, 2, 3)))
    if random.random() < 0.15:
        first.append(random.choice(some[4:]))
    return tuple(dict.fromkeys((*first, *ORDER)))


def _frame(draw: Sizes) -> Frame:
    """Dressed sizes; a metric post is an odd number of marks."""
    post, thick, wide = draw.mark(3.5), draw.mark(1.5), draw.mark(5.5)
    return Frame(
        post=Section("4x4", post, post),
        rail=Section("2x6", thick, wide),
        back_thickness=draw.mark(draw.random.choice((1.5, 2.5, 4))),
        arm_thickness=draw.mark(draw.random.choice((1.5, 3.5, 5.5))),
        open_end_thickness=draw.mark(draw.random.choice((1.5, 1.5, 3.5))),
        notch_clearance=draw.mark(0.25),
        max_span=draw.mark(draw.random.choice((24, 36, 48, 60, 72))),
    )


def _shop(draw: Sizes) -> Shop:
    boards = (Board("2x6", draw.mark(96), Fraction(9)), Board("2x6", draw.mark(144), Fraction(14)))
    return Shop(boards, kerf=draw.mark(0.125), trim=draw.mark(0.5), longest_carried=None)


def tiny_projects(seed: int) -> Project:
    """A random project of doll's size: some twenty millimetres, so that every place can be tried."""
    random = Random(f"doll {seed}")
    draw = Sizes(random, Unit.MM)

    def mm(low: int, high: int) -> Length:
        return Length.millimetres(random.randint(low, high))

    w, h, a, b, o = mm(18, 30), mm(14, 26), mm(5, 8), mm(4, 8), ZERO
    corners = random.choice((
        (Point(o, o), Point(w, o), Point(w, h), Point(o, h)),
        (Point(o, o), Point(w, o), Point(w, h - b), Point(w - a, h - b), Point(w - a, h), Point(o, h)),
        (Point(o, o), Point(w, mm(-3, 3)), Point(w + mm(-3, 3), h), Point(mm(-2, 2), h + mm(-3, 3))),
    ))  # fmt: skip
    edges = _edges(corners, clockwise=random.random() < 0.3)
    openings = tuple(
        Opening(f"door {i}", edge.name, mm(2, 4), mm(3, 5), random.choice(list(Swing)), random.choice(list(Hinge)))
        for i, edge in enumerate(random.sample(edges, k=random.choice((0, 0, 1, 2, 2))))
        if edge.length >= Length.millimetres(12)
    )
    routes = (Route("way", "door 0", "door 1", mm(4, 5)),) if len(openings) == 2 else ()
    room = Room(
        corners=tuple((edge.name[0], edge.start if edge.forward else edge.end) for edge in edges),
        edges=edges,
        openings=tuple(replace(door, name=f"door {i}") for i, door in enumerate(openings)),
        obstacles=tuple(_tiny_obstacles(random, mm)),
        routes=tuple(route for route in routes if {o.name for o in openings} == {"door 0", "door 1"}),
        tolerance=mm(0, 1),
    )
    cushions = tuple(
        Cushion(
            f"doll cushion {i}", mm(4, 6), mm(6, 8) if random.random() < 0.8 else mm(4, 5), mm(1, 1),
            ease=mm(-1, 0) if random.random() < 0.2 else ZERO, own=random.choice((1, 2, 3, 4, 5)),
            price=Fraction(9) if random.random() < 0.1 else None,
            may_turn=random.random() < 0.4, may_notch=random.random() < 0.7,
        )
        for i in range(random.choice((1, 2, 2)))
    )  # fmt: skip
    wish = replace(_wish(draw, edges), off_wall=mm(1, 4), legroom=mm(0, 4), most=None)
    frame = replace(
        _frame(draw), post=Section("4x4", mm(2, 2), mm(2, 2)), rail=Section("2x6", mm(1, 1), mm(2, 2)),
        back_thickness=mm(1, 2), arm_thickness=mm(1, 2), open_end_thickness=mm(1, 2),
        notch_clearance=mm(0, 1),
        max_span=mm(5, 14),
    )  # fmt: skip
    title = f"doll's room {seed}"
    return _doll_corners(
        Random(f"doll's corners {seed}"), Project(title, Unit.MM, room, cushions, wish, frame, _shop(draw))
    )


def _doll_corners(random: Random, project: Project) -> Project:
    """The same for a doll's room: what overhangs is at most half a post."""
    one, thin = Length.millimetres(1), Length.millimetres(random.choice((1, 1, 2)))
    frame = replace(
        project.frame,
        overhang=random.choice((ZERO, ZERO, one)),
        angle=Section("thin", one, thin),
        carpentry=_apart(random, project.frame.carpentry),
    )
    wish = replace(project.wish, corner=_treatment(random, project.wish.corner), prefer=_tall(random, project.wish))
    if random.random() < 0.2:
        wish = replace(wish, buy_most=random.choice((0, 1)))
    return replace(project, frame=frame, wish=wish)


def _tiny_obstacles(random: Random, mm: Callable[[int, int], Length]) -> Iterator[Obstacle]:
    for i in range(random.choice((0, 1, 1, 2))):
        at, size = Point(mm(4, 18), mm(2, 12)), mm(1, 3)
        height = random.choice((Height.FULL, Height.LOW, Height.LOW, Height.REACH))
        corner = (at, Point(at.x + size, at.y), Point(at.x + size, at.y + size))
        core, radius = random.choice((((at,), size), (corner, ZERO)))
        yield Obstacle(f"thing {i}", core, radius, mm(0, 2), height=height)


def cornered_projects(seed: int, kind: CornerKind) -> Project:
    """A bare doll's room that a corner of one treatment goes into; walls only, an L or a U."""
    random = Random(f"doll's corner {seed}")

    def mm(low: int, high: int) -> Length:
        return Length.millimetres(random.randint(low, high))

    shape = random.choice((Shape.L, Shape.L, Shape.U))
    w, h, o = mm(20, 28) if shape is Shape.L else mm(26, 36), mm(18, 26), ZERO
    edges = _edges((Point(o, o), Point(w, o), Point(w, h), Point(o, h)), clockwise=False)
    project = tiny_projects(seed)
    post = mm(1, 2)
    kinds = tuple(
        Cushion(
            f"doll cushion {i}", mm(4, 6), mm(6, 8), mm(1, 1), ease=mm(-1, 2), own=random.randint(3, 9),
            may_turn=random.random() < 0.3, may_notch=random.random() < 0.8,
        )
        for i in range(random.choice((1, 1, 2)))
    )  # fmt: skip
    frame = replace(
        project.frame, post=Section("4x4", post, post), notch_clearance=mm(0, 1), overhang=mm(0, 1),
        angle=Section("thin", mm(1, 1), mm(1, 3)), max_span=mm(8, 14), carpentry=Carpentry(),
    )  # fmt: skip
    wish = replace(
        project.wish, shape=shape, hand=None, corner=kind, least=1, most=None, buy_most=None,
        left_end=EndKind.OPEN, right_end=EndKind.OPEN, against=("AB", "BC"), legroom=mm(0, 3),
    )  # fmt: skip
    room = Room(tuple((edge.name[0], edge.start) for edge in edges), edges, tolerance=mm(0, 1))
    title = f"doll's corner {seed}, {kind}"
    return replace(project, title=title, room=room, cushions=kinds, frame=frame, wish=wish)
