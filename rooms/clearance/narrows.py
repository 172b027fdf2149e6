"""Where a route is narrower than some width, and over what length.

What stands on the left and what stands on the right of one who walks are two things, and the way between them is
narrow where a shortest line from one to the other is. How long a narrow place is, is counted along the side that
makes it, square to those lines: a box beside a straight wall makes a place as long as the box, though one who is
near its corner is near the wall a little longer.

A thing that stands free may be passed on either side; the way is taken whose longest narrow place is shortest.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise, product
from math import ceil, dist, sqrt

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from rooms.clearance.chains import Spot, chains
from rooms.clearance.passage import DIGITS, LEFT, RIGHT, Gap, Part, gaps_of, parts_of, standing
from rooms.clearance.shapes import QUAD_SEGS, outline
from rooms.lengths import UNITS_PER_INCH, Length
from rooms.room import Room, Route

STEP = UNITS_PER_INCH / 4
"""Longest piece of a side that is measured at once, by the line from its middle."""

DUST = UNITS_PER_INCH / 100
"""What a width in floats may be short of the exact one; arcs that are polygons come to a part of it."""

_QUAD_SEGS = 32
"""Segments of a quarter circle where things grow: at 16 in, the arc is true to 0.005 in."""

_OVERLAP = 1.1
"""How much wider than its piece the strip about a line is drawn, so that those of neighbours hang together."""

_TANGENT = 0.01
"""Sine of the angle below which a line runs along the very side that it comes from."""

_MOST_FREE = 6
"""Things that may be passed on either side; of more than that the ones with the widest gaps count as walls."""


@dataclass(frozen=True)
class NarrowPlace:
    """A stretch of a route that is narrower than was asked.

    Args:
        clear: its least width, in units, tolerance taken off.
        length: in units; with what lies between, where two places are nearer to each other than was asked.
        names: the two things that leave the least width: an edge, an obstacle, or `furniture`.
        points: where the least width begins and ends, in units.
    """

    clear: float
    length: float
    names: tuple[str, str]
    points: tuple[Spot, Spot]


def narrow_places(
    room: Room, route: Route, furniture: Sequence[Polygon], *, full: Length, least: Length, apart: Length
) -> tuple[NarrowPlace, ...] | None:
    """Where a route is narrower than `full`.

    Args:
        room: its tolerance is taken off every wall and obstacle.
        route: joins two different openings; one that is narrower than `full` counts as that wide.
        furniture: boxes in units that together are one connected thing; may be none.
        full: the width that is looked for.
        least: no way with a narrower place than this is taken.
        apart: places that are nearer to each other than this are one.

    Returns:
        The places, longest first; none where the whole way is as wide as `full`; None where there is no way as wide
        as `least`.
    """
    return _Ways(room, replace(route, width=full), furniture, full, least, apart).best()


@dataclass(frozen=True)
class _Thing:
    """Something that stands, as large as it may be within the tolerance."""

    node: int
    name: str
    area: BaseGeometry


@dataclass(frozen=True)
class _Line:
    """A shortest way from a piece of one side to the other side."""

    width: float
    size: float
    counts: float
    other: str
    line: LineString


class _Ways:
    """A route, the things beside it, and which of them may be passed on either side."""

    def __init__(
        self, room: Room, route: Route, furniture: Sequence[Polygon], full: Length, least: Length, apart: Length
    ) -> None:
        self.full, self.least = full.units - DUST, least.units - DUST
        self.apart = float(apart.units)
        self.inside = outline(room)
        self.floor = self.inside.buffer(DUST, join_style="mitre")
        shapely.prepare(self.floor)
        parts = parts_of(room, chains(room, route), furniture)
        walls = [_Thing(part.node, part.name, _grown(part.shape, part.reach)) for part in parts if part.node <= RIGHT]
        stands = [
            _Thing(node, thing.name, _grown(thing.shape, thing.reach))
            for node, thing in enumerate(standing(room, furniture), RIGHT + 1)
        ]
        self.things = [*walls, *stands]
        # Side by side, since the nearest one of a thing may be hidden, and another one in sight.
        self.parts = parts
        self.groups = list(range(RIGHT + 1 + len(stands)))
        self.free = self._joined([gap for gap in gaps_of(parts) if gap.width < self.full])

    def _joined(self, gaps: Sequence[Gap]) -> list[int]:
        """Join what leaves no way between; the groups that are left and may be passed on either side."""
        near: dict[int, float] = {}
        for gap in sorted(gaps, key=lambda gap: gap.width):
            one, two = (self.groups[part.node] for part in gap.parts)
            if one == two or (gap.line.length and not self.floor.covers(gap.line)):
                continue
            if gap.width < self.least:
                kept, lost = min(one, two), max(one, two)
                self.groups = [kept if group == lost else group for group in self.groups]
            else:
                # The first gap that a group is met in is its least one.
                near.setdefault(one, gap.width)
                near.setdefault(two, gap.width)
        free = [group for group in dict.fromkeys(self.groups) if group not in (self.groups[LEFT], self.groups[RIGHT])]
        # What nothing is near to makes no place narrow, whichever side it is passed on.
        return sorted((group for group in free if group in near), key=lambda group: (near[group], group))[:_MOST_FREE]

    def best(self) -> tuple[NarrowPlace, ...] | None:
        """The narrow places of the way whose longest one is shortest."""
        if self.groups[LEFT] == self.groups[RIGHT]:
            return None
        found = []
        for sides in product((LEFT, RIGHT), repeat=len(self.free)):
            side = {self.groups[LEFT]: LEFT, self.groups[RIGHT]: RIGHT, **dict(zip(self.free, sides, strict=True))}
            right = frozenset(node for node, group in enumerate(self.groups) if side.get(group, LEFT) == RIGHT)
            left = frozenset(range(len(self.groups))) - right
            # Counted along the side that gives the shorter ones.
            found.append(min((self._along(left, right), self._along(right, left)), key=_weight))
        return min(found, key=_weight)

    def _along(self, one: frozenset[int], two: frozenset[int]) -> tuple[NarrowPlace, ...]:
        """The narrow places between two sides, as groups of nodes, counted along the first."""
        side = [thing for thing in self.things if thing.node in one]
        other = [part for part in self.parts if part.node in two]
        lines = list(self._lines(side, other))
        if not lines:
            return ()
        strips = unary_union([line.line.buffer(_OVERLAP * line.size / 2, cap_style="flat") for line in lines])
        places = []
        for strip in shapely.get_parts(strips).tolist():
            within = [line for line in lines if strip.intersects(line.line)]
            least = min(within, key=lambda line: line.width)
            ends = least.line.coords
            near = min(side, key=lambda thing: thing.area.distance(shapely.Point(ends[0]))).name
            length = sum(line.counts for line in within)
            place = NarrowPlace(least.width, length, (near, least.other), (ends[0], ends[-1]))
            places.append((place, strip))
        return self._gathered(places)

    def _gathered(self, places: list[tuple[NarrowPlace, BaseGeometry]]) -> tuple[NarrowPlace, ...]:
        """Places that are too near to each other as one, with what lies between."""
        near = [(one.distance(two), i, j) for i, (_, one) in enumerate(places) for j, (_, two) in enumerate(places[:i])]
        whole = list(range(len(places)))
        joined = [place for place, _ in places]
        for gap, i, j in sorted(near):
            a, b = sorted((whole[i], whole[j]))
            gap += (_OVERLAP - 1) * STEP
            if a == b or gap >= self.apart - DUST:
                continue
            narrower = min(joined[a], joined[b], key=lambda place: place.clear)
            joined[a] = replace(narrower, length=joined[a].length + joined[b].length + gap)
            whole = [a if n == b else n for n in whole]
        kept = [joined[n] for n in sorted(dict.fromkeys(whole))]
        return tuple(sorted(kept, key=lambda place: (-place.length, place.clear)))

    def _lines(self, side: Sequence[_Thing], other: Sequence[Part]) -> Iterator[_Line]:
        """From each piece of one side the shortest line to the other one, where that is narrow and in sight."""
        solid = unary_union([thing.area for thing in side])
        reach = unary_union([face.shape.buffer(face.reach + self.full, quad_segs=QUAD_SEGS) for face in other])
        pieces = list(_pieces(shapely.intersection(solid.boundary, reach.intersection(self.inside))))
        if not pieces:
            return
        ends = np.array(pieces)
        middles = shapely.points(ends.mean(axis=1))
        firsts, lasts = shapely.points(ends[:, 0]), shapely.points(ends[:, 1])
        best: dict[int, tuple[float, str, LineString]] = {}
        for face in other:
            near = np.nonzero(shapely.distance(middles, face.shape) < self.full + face.reach)[0]
            least = np.minimum(shapely.distance(firsts[near], face.shape), shapely.distance(lasts[near], face.shape))
            lines = _up_to(shapely.shortest_line(middles[near], face.shape), face.reach)
            widths = np.round(np.minimum(shapely.length(lines), least - face.reach), DIGITS)
            # A line that runs through the inside, and not through the side that it comes from.
            seen = shapely.covers(self.floor, lines) & (shapely.length(shapely.intersection(solid, lines)) <= DUST)
            for k in np.nonzero(seen)[0].tolist():
                n, width = int(near[k]), float(widths[k])
                if n not in best or width < best[n][0]:
                    best[n] = (width, face.name, lines[k])
        for n, (width, far, line) in sorted(best.items()):
            (a, b), ((x0, y0), (x1, y1)) = pieces[n], line.coords
            along = ((x1 - x0) * (b[0] - a[0]) + (y1 - y0) * (b[1] - a[1])) / line.length
            size = dist(a, b)
            counts = sqrt(max(0.0, size * size - along * along))
            if counts > _TANGENT * size:
                yield _Line(width, size, counts, far, line)


def _up_to(lines: NDArray[np.object_], reach: float) -> NDArray[np.object_]:
    """Straight lines, without their last piece."""
    ends = shapely.get_coordinates(lines).reshape(-1, 2, 2)
    share = 1 - reach / np.maximum(shapely.length(lines), 1.0)
    ends[:, 1] = ends[:, 0] + (ends[:, 1] - ends[:, 0]) * share[:, None]
    cut: NDArray[np.object_] = shapely.linestrings(ends)
    return cut


def _grown(shape: BaseGeometry, reach: float) -> BaseGeometry:
    """A shape as large as it may be; one of no thickness gets a unit, so that it has sides."""
    return shape if shape.area and not reach else shape.buffer(max(reach, 1.0), quad_segs=_QUAD_SEGS)


def _pieces(lines: BaseGeometry) -> Iterator[tuple[Spot, Spot]]:
    """Lines cut into short straight pieces."""
    for line in shapely.get_parts(lines).tolist():
        if not isinstance(line, LineString):
            continue
        for (x0, y0), (x1, y1) in pairwise(line.coords):
            count = max(1, ceil(dist((x0, y0), (x1, y1)) / STEP))
            for n in range(count):
                a, b = n / count, (n + 1) / count
                yield (x0 + a * (x1 - x0), y0 + a * (y1 - y0)), (x0 + b * (x1 - x0), y0 + b * (y1 - y0))


def _weight(places: tuple[NarrowPlace, ...]) -> tuple[float, float]:
    return max((place.length for place in places), default=0.0), sum(place.length for place in places)
