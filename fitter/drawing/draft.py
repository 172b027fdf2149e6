"""A drawing in the making: what has been drawn so far, and where a text still finds a free place."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import chain
from math import atan2, cos, degrees, hypot, inf, radians, sin
from typing import Any

import numpy as np
import numpy.typing as npt
import shapely
from shapely.geometry import LineString, Point, Polygon, box
from shapely.ops import substring

from fitter.drawing.page import (
    SMALL,
    Arc,
    Area,
    Dimension,
    Item,
    Line,
    Pen,
    Role,
    Segment,
    Spot,
    Text,
    bounds,
)

_AIR = 0.6  # between a text and whatever it must not touch, mm
_CROSSING = 1.5  # rings farther out that a leader goes rather than cross one more line
_INDOORS = 14.0  # the same rather than stand on the furniture
_LEAN = 75.0  # a text leans at most so far to the right of upright lines, degrees
_APART = 5.5  # between parallel dimension lines, at least, mm
# Lines that a name may cover with its white ground where there is no better place.
_SOFT = (Role.LEGROOM, Role.CLEAR, Role.ROUTE, Role.SEAT, Role.TABLE, Role.BARE, Role.LOW, Role.TIE)


class Draft:
    """Collects items and answers whether a place is free.

    Attributes:
        items: what was drawn, in order.
    """

    def __init__(self) -> None:
        self.items: list[Item] = []
        self._texts: list[Polygon] = []
        self._strokes: list[LineString] = []
        self._soft: list[LineString] = []
        self._hatched: list[LineString] = []
        self._solid: list[Polygon] = []
        self._occupied: list[Polygon] = []
        self._legroom: list[LineString] = []
        self._drawn: list[LineString] = []
        self._leaders: list[LineString] = []
        self._ends: list[Point] = []
        self._dimension_lines: list[LineString] = []

    def add(self, *items: Item) -> None:
        """Draw items and remember what they occupy."""
        for item in items:
            self.items.append(item)
            if isinstance(item, Text):
                self._texts.append(Polygon(item.box))
            elif isinstance(item, Dimension):
                self._add_dimension(item)
            elif item.role is Role.HATCH and isinstance(item, Line):
                self._hatched.append(LineString(item.spots))
            elif item.role is not Role.FRAME:
                self._add_stroke(item)

    def _add_dimension(self, item: Dimension) -> None:
        self._texts.append(Polygon(item.text.box))
        self._dimension_lines.append(LineString(item.ends))
        for stroke in (*item.strokes, *item.ticks):
            self._strokes.append(LineString(stroke))
            self._ends.extend((Point(stroke[0]), Point(stroke[-1])))

    def shade(self, *shapes: Polygon) -> None:
        """Keep names off what is hatched all over, such as the flesh of a wall, even where they are masked."""
        self._solid.extend(shape for shape in shapes if not shape.is_empty)

    def occupy(self, *shapes: Polygon) -> None:
        """Keep names that are called out off these, where there is as good a place beside them."""
        self._occupied.extend(shapes)

    def reserve(self, spots: Iterable[Spot]) -> None:
        """Keep texts off the ends of lines that will be drawn soon."""
        self._ends.extend(Point(spot) for spot in spots)

    def finish(self, dimension: Dimension, extensions: tuple[Segment, ...]) -> None:
        """Give a dimension that was drawn its extension lines."""
        self.items[self.items.index(dimension)] = replace(dimension, extensions=extensions)
        for stroke in extensions:
            self._strokes.append(LineString(stroke))
            self._ends.extend((Point(stroke[0]), Point(stroke[1])))

    def _add_stroke(self, item: Line | Area | Arc) -> None:
        if isinstance(item, Area):
            if item.pen is None and item.grey != 0:
                return
            stroke = LineString((*item.ring, item.ring[0]))
        else:
            stroke = LineString(item.spots)
        (self._soft if item.role in _SOFT else self._strokes).append(stroke)
        if item.role is Role.LEGROOM:
            self._legroom.append(stroke)
        self._drawn.append(stroke)
        if isinstance(item, Line) and item.role is Role.LEADER:
            self._leaders.append(stroke)
            self._ends.extend((Point(item.spots[0]), Point(item.spots[-1])))

    def mark(self) -> tuple[int, ...]:
        """How much was drawn so far, to come back to with `back_to`."""
        return tuple(len(things) for things in self._all())

    def back_to(self, mark: tuple[int, ...]) -> None:
        """Take away everything drawn since the mark."""
        for things, size in zip(self._all(), mark, strict=True):
            del things[size:]

    def _all(self) -> tuple[list[Any], ...]:
        return (
            self.items,
            self._texts,
            self._strokes,
            self._soft,
            self._hatched,
            self._solid,
            self._occupied,
            self._legroom,
            self._drawn,
            self._leaders,
            self._ends,
            self._dimension_lines,
        )

    def free(self, text: Text, *, strict: bool = True) -> bool:
        """Whether a text may stand there.

        Args:
            text: clear of other texts and of line ends in any case.
            strict: clear of every stroke too; a masked text may cover a faint line even then.
        """
        ground = Polygon(text.box).buffer(_AIR, join_style="mitre")
        if _hits(ground, self._texts) or _hits(ground, self._ends):
            return False
        if not strict:
            return True
        barriers = (
            (self._strokes, self._solid) if text.masked else (self._strokes, self._solid, self._soft, self._hatched)
        )
        return not any(_hits(ground, things) for things in barriers)

    def off_furniture(self, text: Text) -> bool:
        """Whether a text stands clear of what is occupied."""
        return not _hits(Polygon(text.box), self._occupied)

    def line_free(self, ends: Segment, *, strict: bool = True) -> bool:
        """Whether a dimension line keeps off texts and other dimension lines; strict: off the drawing too."""
        line = LineString(ends)
        # The signs of the next edges may touch its very ends.
        core = substring(line, min(3.0, line.length / 3), max(line.length - 3.0, line.length * 2 / 3))
        return not (
            _hits(line.buffer(1.5), self._texts)
            or _hits(line.buffer(_APART, cap_style="flat"), self._dimension_lines)
            or (strict and _hits(core, self._drawn))
        )

    def off_texts(self, stroke: Sequence[Spot]) -> bool:
        """Whether a stroke keeps off every text."""
        return not _hits(LineString(stroke).buffer(_AIR), self._texts)

    def broken(self, segment: Segment) -> tuple[Segment, ...]:
        """The pieces of a line that remain where it is broken for the texts in its way."""
        rest = LineString(segment)
        for ground in self._texts:
            if rest.intersects(ground):
                rest = rest.difference(ground.buffer(1.1 * _AIR, join_style="mitre"))
        parts = [part for part in getattr(rest, "geoms", (rest,)) if part.length > 0.3]
        return tuple((part.coords[0], part.coords[-1]) for part in parts)

    def put(self, candidates: Iterable[Text], *, over: bool = False) -> Text | None:
        """Draw the first text that finds a free place, if need be over a faint line; None if none does.

        Args:
            candidates: places, the best first.
            over: whether a place over a faint line is as good as one without.
        """
        tried: list[Text] = []
        plain = () if over else self._noted(candidates, tried)
        for text in chain(plain, (replace(text, masked=True) for text in (candidates if over else tried))):
            if self.free(text):
                self.add(text)
                return text
        return None

    def _noted(self, candidates: Iterable[Text], tried: list[Text]) -> Iterator[Text]:
        for text in candidates:
            tried.append(text)
            yield text

    def call_out(self, lines: Sequence[str], target: Spot, reach: float = 9.0) -> None:
        """Write lines beside a thing with a leader to it, at the nearest free place.

        First within what is drawn already, so that a name does not push the drawing to a smaller scale.

        Args:
            lines: one text below the other.
            target: the point that is named.
            reach: distance from the target to the first places that are tried, mm.
        """
        whole = box(*bounds(self.items))
        everywhere = whole.buffer(200.0)
        for manner in (
            _Manner(whole, 18),
            _Manner(whole, 25, masked=True),
            _Manner(everywhere, 50, masked=True, crossing=True),
            _Manner(everywhere, 50, masked=True, crossing=True, strict=False),
        ):
            if found := self._best_call(lines, target, reach, manner):
                self.add(*found)
                return

    def _best_call(
        self, lines: Sequence[str], target: Spot, reach: float, manner: _Manner
    ) -> tuple[Line | Text, ...] | None:
        """The place whose leader crosses the fewest lines, a little farther out if that helps."""
        best: tuple[Line | Text, ...] | None = None
        least = inf
        for ring in range(manner.rings):
            if ring >= least:
                break
            for angle in _COMPASS:
                elbow = _polar(target, reach + 3.0 * ring, angle)
                if not manner.within.contains(Point(elbow)):
                    continue
                leader = _leader(target, elbow)
                cost = ring + _CROSSING * self._crossed(leader)
                if cost < least and (texts := self._called(lines, leader, manner)):
                    cost += _INDOORS * (not all(self.off_furniture(text) for text in texts))
                    if cost < least:
                        best, least = (Line(leader, Pen.FINE, Role.LEADER), *texts), cost
        return best

    def _crossed(self, leader: tuple[Spot, Spot, Spot]) -> float:
        """How many lines a leader crosses; the strokes of a hatching count less."""
        line = LineString(leader)
        return sum(_count(line, things) for things in (self._strokes, self._soft, self._solid)) + 0.3 * _count(
            line, self._hatched
        )

    def _called(
        self, lines: Sequence[str], leader: tuple[Spot, Spot, Spot], manner: _Manner
    ) -> tuple[Text, ...] | None:
        """The texts at the end of a leader, if both find a free way and place there."""
        target, elbow, shoulder = leader
        right = elbow[0] >= target[0]
        start = (shoulder[0] + (1.2 if right else -1.2), shoulder[1] + (len(lines) - 1) * 2.1 - SMALL / 2)
        texts = stacked(lines, start, anchor=0.0 if right else 1.0, masked=manner.masked)
        if not all(self.free(text, strict=manner.strict) for text in texts):
            return None
        own = [Polygon(text.box) for text in texts]
        if not all(manner.within.contains(shape) for shape in own):
            return None
        way = LineString(leader)
        barriers = self._leaders if manner.crossing else (*self._leaders, *self._dimension_lines, *self._legroom)
        if (manner.strict and _hits(way, barriers)) or _hits(LineString((target, elbow)).buffer(_AIR), own):
            return None
        return texts if self.off_texts(leader) else None


@dataclass(frozen=True)
class _Manner:
    """How far a place for a name is sought, and what it may cover or cross on the way."""

    within: Polygon
    rings: int
    masked: bool = False
    crossing: bool = False
    strict: bool = True


def _leader(target: Spot, elbow: Spot) -> tuple[Spot, Spot, Spot]:
    """From the thing that is named to a short shoulder before its name."""
    return target, elbow, (elbow[0] + (2.0 if elbow[0] >= target[0] else -2.0), elbow[1])


def _polar(centre: Spot, radius: float, angle: float) -> Spot:
    return centre[0] + radius * cos(radians(angle)), centre[1] + radius * sin(radians(angle))


_TURNS = (45, 135, 32, 148, 58, 122, 20, 160, 70, 110, 26, 154, 38, 142, 52, 128, 64, 116)
_COMPASS = tuple(side * turn for turn in _TURNS for side in (1, -1))


def _count(line: LineString, others: Sequence[shapely.Geometry]) -> int:
    return int(shapely.intersects(line, np.asarray(others, dtype=object)).sum()) if others else 0


def _hits(shape: shapely.Geometry, others: Sequence[shapely.Geometry]) -> bool:
    if not others:
        return False
    hits: npt.NDArray[np.bool_] = shapely.intersects(shape, np.asarray(others, dtype=object))
    return bool(hits.any())


def stacked(
    lines: Sequence[str],
    first: Spot,
    *,
    anchor: float = 0.0,
    height: float = SMALL,
    role: Role = Role.LABEL,
    masked: bool = False,
) -> tuple[Text, ...]:
    """Lines of text one below the other, the first one's baseline at `first`."""
    return tuple(
        Text((first[0], first[1] - 1.7 * height * i), line, height, 0.0, anchor, role, masked)
        for i, line in enumerate(lines)
    )


def around(text: str, target: Spot, reach: float, *, role: Role = Role.LABEL, height: float = SMALL) -> Iterable[Text]:
    """Places for a short text around a point, nearest first."""
    width = Text(target, text, height).width
    for ring in range(12):
        for angle in _COMPASS:
            radius = reach + ring * 1.5
            x = target[0] + (radius + width / 2) * cos(radians(angle))
            y = target[1] + (radius + height / 2) * sin(radians(angle)) - height / 2
            yield Text((x, y), text, height, 0.0, 0.5, role)


def within(text: str, ring: Sequence[Spot], *, role: Role = Role.LABEL, height: float = SMALL) -> Iterable[Text]:
    """Places for a text inside a polygon, from its middle outward."""
    shape = Polygon(ring)
    middle = shape.representative_point() if not shape.contains(shape.centroid) else shape.centroid
    x0, y0, x1, y1 = shape.bounds
    clear = shape.buffer(-_AIR, join_style="mitre")
    shapely.prepare(clear)
    grid = [
        (middle.x + dx * (x1 - x0) / 16, middle.y + dy * (y1 - y0) / 16) for dx in range(-8, 9) for dy in range(-8, 9)
    ]
    for x, y in sorted(grid, key=lambda spot: (round(hypot(spot[0] - middle.x, spot[1] - middle.y), 3), spot)):
        text_there = Text((x, y - height / 2), text, height, 0.0, 0.5, role)
        if clear.contains(Polygon(text_there.box)):
            yield text_there


def readable(direction: Spot) -> float:
    """The angle of a text along a direction, turned so that it reads from the bottom or from the right.

    Lines that lean a little past the vertical, as taped walls do, still read from the right.
    """
    angle = degrees(atan2(direction[1], direction[0]))
    angle = angle - 180 if angle > 180 - _LEAN else angle + 180 if angle <= -_LEAN else angle
    return round(angle, 6)
