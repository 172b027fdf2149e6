"""How the model's time grows with the corners of the outline and with the obstacles; run by hand.

Usage: PYTHONPATH=. python tests/bench/growth.py [SECONDS]

Invented rooms of one character and area (200 by 150 in, walls that jog by a few inches, corners as taped, so that
walls are a little out of square; two doors with a route that the empty room leaves open; small round and square
things): 10, 20, 40 and 80 corners with three things, then 0, 5, 10 and 20 things in 10 corners. Each size is asked for
three rooms, most seats of any shape, one thread, at most SECONDS (120 if not given) each. The median of the processor
seconds is shown, with the exponent of growth since the size before: the time grows as size ** exponent. A size with
an answer that was cut off is marked with `>`.
"""

from __future__ import annotations

import itertools
import sys
import time
from collections.abc import Iterator
from fractions import Fraction
from math import log
from random import Random
from statistics import median

import shapely

from fitter.domain.cushions import Cushion
from fitter.domain.frame import Board, Frame, Section, Shop
from fitter.domain.layout import Verdict
from fitter.domain.project import Project
from fitter.domain.wishes import Wish
from fitter.model import solve
from rooms.clearance import widest_passage
from rooms.lengths import ZERO, Length, Unit
from rooms.room import Edge, EdgeKind, Obstacle, Opening, Point, Room, Route

WIDE, DEEP = 200.0, 150.0
ROOMS = 3
Spot = tuple[float, float]


def inch(value: float) -> Length:
    """A length on the sixteenth."""
    return Length.inches(Fraction(round(value * 16), 16))


def outline(random: Random, corners: int) -> list[Spot]:
    """A rectangle whose walls step in and out, with that many corners (even, at least 4)."""
    steps = [0, 0, 0, 0]
    for n in range((corners - 4) // 2):
        steps[n % 4] += 1
    offsets = []
    for count in steps:
        now, line = 0.0, [0.0]
        for _ in range(count):
            now = random.uniform(2, 8) if not now else 0.0
            line.append(now)
        offsets.append(line)
    ring: list[Spot] = []
    for side, line in enumerate(offsets):
        length = (WIDE, DEEP)[side % 2]
        before, after = offsets[side - 1][-1], offsets[(side + 1) % 4][0]
        # Along the wall: from the wall before to the wall after it, stepping in between.
        at = [before, *(length * (k + 1 + random.uniform(-0.2, 0.2)) / (len(line)) for k in range(len(line) - 1))]
        for n, off in enumerate(line):
            if n:
                ring.append(_turned(side, at[n], line[n - 1]))
            ring.append(_turned(side, at[n], off))
        assert after == 0.0
    return [(x + random.uniform(-0.25, 0.25), y + random.uniform(-0.25, 0.25)) for x, y in ring]


def _turned(side: int, along: float, off: float) -> Spot:
    """A point by its place along a wall and its distance from the wall's line."""
    x, y = along, off
    return [(x, y), (WIDE - y, x), (WIDE - x, DEEP - y), (y, DEEP - x)][side]


def things(random: Random, room: shapely.Polygon, count: int) -> Iterator[Obstacle]:
    """Small round and square things, apart from each other."""
    taken: list[shapely.Geometry] = []
    while len(taken) < count:
        x, y, size = random.uniform(0, WIDE), random.uniform(0, DEEP), random.uniform(2, 5)
        spot = shapely.Point(x, y).buffer(size)
        if not room.covers(spot) or any(spot.distance(other) < 4 for other in taken):
            continue
        taken.append(spot)
        name, at = f"thing {len(taken)}", Point(inch(x), inch(y))
        if random.random() < 0.5:
            yield Obstacle(name, (at,), inch(size), inch(3))
        else:
            far = Point(at.x + inch(size), at.y + inch(size))
            yield Obstacle(name, (at, Point(far.x, at.y), far, Point(at.x, far.y)), ZERO, inch(3))


def project(seed: int, corners: int, obstacles: int) -> Project:
    """An invented patio of that size."""
    random = Random(f"growth {seed} {corners} {obstacles}")
    points = [Point(inch(x), inch(y)) for x, y in outline(random, corners)]
    names = [f"P{n}" for n in range(len(points))]
    edges = tuple(
        Edge(f"{names[n]} {names[(n + 1) % len(names)]}", EdgeKind.WALL, point, points[(n + 1) % len(points)])
        for n, point in enumerate(points)
    )
    doors = sorted(edges, key=lambda edge: -edge.length.units)[:2]
    openings = tuple(Opening(f"door {n}", edge.name, inch(2), inch(12)) for n, edge in enumerate(doors))
    shape = shapely.Polygon([(float(p.x.inch), float(p.y.inch)) for p in points])
    room = Room(
        tuple(zip(names, points, strict=True)),
        edges,
        openings,
        tuple(things(random, shape, obstacles)),
        (Route("way", "door 0", "door 1", inch(24)),),
        inch(0.25),
    )
    cushions = (
        Cushion("wide", inch(24), inch(26), inch(5), price=Fraction(60), may_turn=True),
        Cushion("slim", inch(20), inch(22), inch(5), ease=inch(0.25), own=4),
    )
    edges_all = tuple(edge.name for edge in edges)
    wish = Wish(None, 1, None, None, None, None, None, edges_all, off_wall=inch(2), legroom=inch(18))
    frame = Frame(
        Section("4x4", inch(3.5), inch(3.5)), Section("2x6", inch(1.5), inch(5.5)), inch(2.5), inch(3.5), inch(1.5),
        inch(0.25), inch(60),
    )  # fmt: skip
    shop = Shop((Board("2x6", inch(144), Fraction(14)),), inch(0.125), inch(0.5))
    return Project(f"invented room {seed}", Unit.IN, room, cushions, wish, frame, shop)


def passable(corners: int, obstacles: int) -> Iterator[Project]:
    """Rooms whose route is open while they are empty: a barred one is answered before anything is solved."""
    for seed in itertools.count():
        asked = project(seed, corners, obstacles)
        (route,) = asked.room.routes
        if widest_passage(asked.room, route, ()).clear + 1 >= route.width.units:
            yield asked


def seconds(asked: Project, limit: float) -> tuple[float, bool]:
    """Processor seconds, and whether the answer was proven."""
    start = time.process_time()
    answer = solve(asked, limit)
    return time.process_time() - start, answer.verdict in (Verdict.PROVEN, Verdict.IMPOSSIBLE)


def main() -> None:
    """Print both tables."""
    limit = float(sys.argv[1]) if len(sys.argv) > 1 else 120.0
    tables = {"corners": [(n, 3) for n in (10, 20, 40, 80)], "obstacles": [(10, n) for n in (0, 5, 10, 20)]}
    for name, sizes in tables.items():
        print(f"{name:>10} {'median s':>10} {'worst s':>10} {'exponent':>9}")
        before: tuple[int, float] | None = None
        for size in sizes:
            found = [seconds(asked, limit) for asked in itertools.islice(passable(*size), ROOMS)]
            middle, number = median(s for s, _ in found), size[0] if name == "corners" else size[1]
            mark = "" if all(proven for _, proven in found) else ">"
            known = before is not None and before[0] > 0
            growth = f"{log(middle / before[1]) / log(number / before[0]):9.2f}" if before and known else f"{'':>9}"
            print(f"{number:>10} {mark + f'{middle:.2f}':>10} {max(s for s, _ in found):>10.2f} {growth}", flush=True)
            before = number, middle


if __name__ == "__main__":
    main()
