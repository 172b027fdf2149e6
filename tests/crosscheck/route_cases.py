"""Rooms whose routes are special cases, each with widths that pencil and square give.

Coordinates in inches, anticlockwise; edge `e0` begins at the first corner. Each case says what goes wrong without
its treatment.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import hypot

from shapely import Polygon, box

from rooms.lengths import UNITS_PER_INCH, Length
from rooms.room import Edge, EdgeKind, Height, Obstacle, Opening, Point, Room, Route

Ring = tuple[tuple[float, float], ...]
Door = tuple[str, float, float]
"""Edge, distance from its start to the near jamb, width."""

BOX: Ring = ((0, 0), (200, 0), (200, 100), (0, 100))
CLOSET: Ring = ((0, 0), (90, 0), (90, 60), (110, 60), (110, 0), (200, 0), (200, 100), (0, 100))
WEDGE: Ring = ((0, 0), (79, 0), (100, 72), (121, 0), (200, 0), (200, 160), (0, 160))
THIN: Ring = ((0, 0), (99, 0), (99, 60), (101, 60), (101, 0), (200, 0), (200, 100), (0, 100))
DOOR, GATE = ("e0", 80, 40), ("e2", 80, 40)


@dataclass(frozen=True)
class RouteCase:
    """A route from `door` to `gate`.

    Args:
        why: what goes wrong without the treatment of this case.
        clear: the clear width that is found, by the width that is asked; inches.
        ring: outline.
        doors: the door and the gate.
        boxes: furniture, each least x and y and greatest x and y.
        obstacles: what else stands there.
        tolerance: inches.
    """

    why: str
    clear: Mapping[float, float]
    ring: Ring = BOX
    doors: tuple[Door, Door] = (DOOR, GATE)
    boxes: tuple[tuple[float, float, float, float], ...] = ()
    obstacles: tuple[Obstacle, ...] = ()
    tolerance: str = "0"

    def room(self, asked: float, kind: EdgeKind = EdgeKind.WALL) -> Room:
        """The room with its route as wide as asked."""
        openings = tuple(
            Opening(name, edge, inches(at), inches(width))
            for name, (edge, at, width) in zip(("door", "gate"), self.doors, strict=True)
        )
        route = Route("way", "door", "gate", inches(asked))
        return Room((), walls(self.ring, kind), openings, self.obstacles, (route,), Length.inches(self.tolerance))

    @property
    def furniture(self) -> tuple[Polygon, ...]:
        """The boxes as areas in units."""
        return tuple(box(*each) for each in self.in_units)

    @property
    def in_units(self) -> tuple[tuple[int, int, int, int], ...]:
        """The boxes in whole units."""
        return tuple(tuple(inches(size).units for size in each) for each in self.boxes)  # type: ignore[misc]


def inches(size: float) -> Length:
    """A length, to the nearest unit."""
    return Length(round(size * UNITS_PER_INCH))


def point(x: float, y: float) -> Point:
    """A point, from inches."""
    return Point(inches(x), inches(y))


def walls(ring: Sequence[tuple[float, float]], kind: EdgeKind = EdgeKind.WALL) -> tuple[Edge, ...]:
    """The edges of an outline."""
    points = [point(x, y) for x, y in ring]
    return tuple(
        Edge(f"e{n}", kind, a, b) for n, (a, b) in enumerate(zip(points, [*points[1:], points[0]], strict=True))
    )


def tub(x0: float, y0: float, x1: float, y1: float, height: Height = Height.FULL, *, hole: bool = False) -> Obstacle:
    """A square thing."""
    ring = (point(x0, y0), point(x1, y0), point(x1, y1), point(x0, y1))
    return Obstacle("tub", ring, height=height, hole=hole)


CASES = {
    "an opening wider than its route": RouteCase("", {36: 40, 30: 40}),
    "a door narrower than its route": RouteCase(
        "a narrow door, which is reported by itself, is taken for a blocked way",
        {36: 36, 29: 29.5},
        doors=(("e0", 80, 30), GATE),
        tolerance="1/4",
    ),
    "a door in a corner": RouteCase(
        "widened beyond the corner, it would lie outside the room",
        {36: 36},
        doors=(("e0", 0, 30), GATE),
    ),
    "a door that fills its edge": RouteCase(
        "not widened round the corners at its jambs, it is taken for a blocked way",
        {36: 36},
        ((0, 0), (30, 0), (100, 60), (100, 160), (-70, 160), (-70, 60)),
        (("e0", 0, 30), ("e3", 60, 40)),
    ),
    "a door at the end of a corridor as narrow": RouteCase(
        "the corridor is taken for the narrow door",
        {36: 30, 30: 30},
        ((0, 0), (30, 0), (30, 90), (200, 90), (200, 200), (0, 200)),
        (("e0", 0, 30), ("e4", 20, 60)),
    ),
    "a door beside a corner that juts into the room": RouteCase(
        "widened round the corner, the door takes the corner away, and the furniture seems 30 in from the wall",
        {29: 28, 28: 28},
        ((0, 0), (100, 0), (100, 60), (200, 60), (200, 160), (0, 160)),
        (("e1", 48, 12), ("e3", 30, 40)),
        ((60, 88, 100, 158),),
    ),
    "a door that ends at the tip of a wedge": RouteCase(
        "the way from the furniture to the wedge's other side leads out through the door, so that its tip is not seen",
        {30: hypot(20, 12), 23: hypot(20, 12)},
        WEDGE,
        (("e1", 35, 40), ("e4", 60, 40)),
        ((5, 40, 80, 60),),
    ),
    "a tub before a door that ends at the tip of a wedge": RouteCase(
        "the way from the tub to the wedge's other side leads out through the door, so that its tip is not seen",
        {30: hypot(20, 12), 23: hypot(20, 12)},
        WEDGE,
        (("e1", 35, 40), ("e4", 60, 40)),
        obstacles=(tub(5, 40, 80, 60),),
    ),
    "two openings on one edge": RouteCase(
        "widened past the middle of the wall between them, they run into each other",
        {36: 36},
        doors=(("e0", 60, 30), ("e0", 94, 30)),
    ),
    "two openings with a jamb in common": RouteCase(
        "with no wall between them there seems to be nothing on the right, and every way is open",
        {36: 20, 18: 20},
        doors=(("e0", 60, 40), ("e0", 100, 40)),
        boxes=((98, 20, 102, 90),),
    ),
    "two openings that meet in a corner": RouteCase(
        "with no wall between them there seems to be nothing on the right, and every way is open",
        {36: hypot(10, 30), 31: hypot(10, 30)},
        doors=(("e0", 160, 40), ("e1", 0, 40)),
        boxes=((150, 30, 190, 60),),
    ),
    "two openings with a jamb in common in a skew edge": RouteCase(
        "rounding puts the second jamb a hair before the first, and all the outline seems to lie between them",
        {31: 31.6},
        ((0, 0), (170, 35), (150, 130), (-20, 100)),
        (("e0", 79.2, 31.6), ("e0", 110.8, 44)),
    ),
    "a narrow gate that meets a door in a sharp corner": RouteCase(
        "where rounding leaves a hair of wall between them, the gate goes round the corner by that hair, the straight"
        " way to its other jamb is a hair too short, and the gate seems to be no wider than if half were missing",
        {30: 30},
        ((0, 0), (120, 17), (60, 70), (55, 140), (-30, 130)),
        (("e0", hypot(120, 17) - 40, 40), ("e1", 0, 16)),
    ),
    "a thin wall between door and gate": RouteCase("", {40: 40}, THIN, (("e0", 30, 40), ("e4", 30, 40))),
    "a door in a thin wall": RouteCase(
        "the wall's two faces are of different banks, and seem to leave a way of 2 in between them",
        {40: 40},
        THIN,
        (("e3", 10, 40), ("e5", 30, 40)),
    ),
    "a door in a thin wall with a niche behind": RouteCase(
        "the niche of 5 in behind the wall seems to narrow the door",
        {50: 50},
        ((0, 0), (90, 0), (90, 90), (92, 90), (92, 0), (97, 0), (97, 200), (0, 200)),
        (("e1", 20, 50), ("e7", 20, 50)),
    ),
    "furniture behind a closet": RouteCase(
        "25 in through the closet are counted as a way between the furniture and the wall on its other side",
        {36: 40},
        CLOSET,
        (("e3", 10, 40), ("e5", 30, 40)),
        ((40, 10, 85, 40),),
    ),
    "furniture behind a closet, and a tub before it": RouteCase(
        "27 in through the closet are counted as a way between the furniture and the tub on its other side",
        {36: 40},
        CLOSET,
        (("e3", 10, 40), ("e5", 30, 40)),
        ((40, 10, 85, 40),),
        (tub(112, 0, 125, 8),),
    ),
    "a beam through a closet": RouteCase(
        "both ends of the beam seem to hang together, and to bar the way from the closet's door",
        {36: 40},
        ((0, 0), (70, 0), (70, 60), (130, 60), (130, 0), (200, 0), (200, 140), (0, 140)),
        (("e2", 10, 40), ("e6", 80, 40)),
        obstacles=(tub(60, 20, 140, 30),),
    ),
    "a slanting tub in the wall beside a door": RouteCase(
        "what it has outside seems to narrow the way to 33 1/2 in, through the open door",
        {37: hypot(15, 34), 37.5: hypot(15, 34)},
        doors=(("e1", 36, 40), ("e3", 30, 40)),
        boxes=((150, 70, 185, 95),),
        obstacles=(Obstacle("tub", (point(180, 10), point(190, 10), point(230, 60), point(220, 60))),),
    ),
    "a round tub in a wall": RouteCase(
        "cut by the wall it is a thing of a hundred sides, and a whole one bars no more",
        {31: 32, 33: 32},
        boxes=((0, 40, 120, 60),),
        obstacles=(Obstacle("tub", (point(210, 50),), inches(58)),),
    ),
    "corner to corner": RouteCase(
        "the gap is 25 in, though it is but 15 in along and 20 in across",
        {25: 25, 26: 25},
        boxes=((105, 65, 198, 70),),
        obstacles=(tub(0, 40, 90, 45),),
    ),
    "a tub at a wall": RouteCase("", {36: 30, 30: 30}, obstacles=(tub(0, 40, 170, 70),)),
    "a tap at a wall": RouteCase("", {36: 30, 30: 30}, obstacles=(tub(0, 40, 170, 70, Height.REACH),)),
    "a hole": RouteCase("", {36: 30, 30: 30}, obstacles=(tub(0, 40, 170, 70, hole=True),)),
    "a drain": RouteCase(
        "what is low narrows the way to 30 in", {36: 40}, obstacles=(tub(0, 40, 170, 70, Height.LOW),)
    ),
    "a hole in the middle": RouteCase(
        "", {30: 35, 36: 35}, obstacles=(tub(90, 35, 110, 65, hole=True),), doors=(("e1", 30, 40), ("e3", 30, 40))
    ),
}
