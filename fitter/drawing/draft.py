"""A drawing in the making: what has been drawn so far, and where a text still finds a free place."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import chain, pairwise
from typing import Any

import numpy as np
import numpy.typing as npt
import shapely
from shapely import STRtree
from shapely.geometry import LineString, Point, Polygon, box
from shapely.ops import substring, unary_union

from fitter.drawing.callouts import Scene, find
from fitter.drawing.metrics import text_width
from fitter.drawing.page import (
    SMALL,
    Arc,
    Area,
    Dimension,
    Item,
    Line,
    Role,
    Segment,
    Spot,
    Text,
    bounds,
)
from fitter.drawing.texts import AIR, stacked
from fitter.drawing.view import along

_APART = 5.5  # between parallel dimension lines, at least, mm
_ALONG = 2.0  # nearer than this to a line of its own direction a dimension line is taken for it, mm
_BESIDE = 10.0  # as far as that two lines may run beside each other, mm
_TOUCH = 1.2  # of a dimension line's end may lie on or beyond a wall that leans over it, mm
_CORNER_AIR = 0.6  # more than around other texts: a corner's name is no part of a length beside it, mm
_ON_A_LINE = (0.0, -0.15, 0.15, -0.3, 0.3, -0.42, 0.42)
"""How far off the middle of a name the line may run that it is written on, as a share of its width."""
# Lines that a name may cover with its white ground where there is no better place; extension lines too.
_SOFT = (Role.LEGROOM, Role.CLEAR, Role.ROUTE, Role.SEAT, Role.TABLE, Role.BARE, Role.TIE)


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
        self._faces: list[LineString] = []
        self._rays: list[LineString] = []
        self._corners: list[Polygon] = []

    def add(self, *items: Item) -> None:
        """Draw items and remember what they occupy."""
        for item in items:
            self.items.append(item)
            if isinstance(item, Text):
                self._texts.append(Polygon(item.box))
                if item.role is Role.CORNER:
                    self._corners.append(Polygon(item.box).buffer(_CORNER_AIR, join_style="mitre"))
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

    def bound(self, outline: Sequence[Spot]) -> None:
        """Keep dimension lines from crossing the faces of the room."""
        self._faces.extend(LineString(pair) for pair in pairwise((*outline, outline[0])))

    def foresee(self, rays: Iterable[Segment]) -> None:
        """Keep dimension lines from running beside extension lines that will be drawn later."""
        self._rays.extend(LineString(ray) for ray in rays)

    def reserve(self, spots: Iterable[Spot]) -> None:
        """Keep texts off the ends of lines that will be drawn soon."""
        self._ends.extend(Point(spot) for spot in spots)

    def finish(self, dimension: Dimension, extensions: tuple[Segment, ...]) -> None:
        """Give a dimension that was drawn its extension lines."""
        self.items[self.items.index(dimension)] = replace(dimension, extensions=extensions)
        for stroke in extensions:
            self._soft.append(LineString(stroke))
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
            self._faces,
            self._rays,
            self._corners,
        )

    def free(self, text: Text, *, strict: bool = True) -> bool:
        """Whether a text may stand there.

        Args:
            text: clear of other texts and of line ends in any case.
            strict: clear of every stroke too; a masked text may cover a faint line even then.
        """
        ground = Polygon(text.box).buffer(AIR, join_style="mitre")
        if _hits(ground, self._texts) or _hits(ground, self._ends) or _hits(ground, self._corners):
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
            or (strict and (_hits(core, self._drawn) or self._crosses_a_face(line) or self._beside_a_ray(line)))
        )

    def _crosses_a_face(self, line: LineString) -> bool:
        return line.length > 2 * _TOUCH and _hits(substring(line, _TOUCH, line.length - _TOUCH), self._faces)

    def _beside_a_ray(self, line: LineString) -> bool:
        strip = line.buffer(_ALONG, cap_style="flat")
        return any(ray.intersection(strip).length > _BESIDE for ray in self._rays)

    def off_texts(self, stroke: Sequence[Spot]) -> bool:
        """Whether a stroke keeps off every text."""
        return not _hits(LineString(stroke).buffer(AIR), self._texts)

    def broken(self, segment: Segment) -> tuple[Segment, ...]:
        """The pieces of a line that remain where it is broken for the texts in its way."""
        rest = LineString(segment)
        for ground in self._texts:
            if rest.intersects(ground):
                rest = rest.difference(ground.buffer(1.1 * AIR, join_style="mitre"))
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

    def scene(self) -> Scene:
        """What has been drawn so far, quick to ask."""
        return Scene(
            box(*bounds(self.items)),
            STRtree([*self._texts, *self._corners]),
            STRtree(self._ends),
            STRtree([*self._strokes, *self._solid]),
            STRtree(self._soft),
            STRtree(self._hatched),
            STRtree(self._leaders),
            STRtree(self._dimension_lines),
            STRtree(self._legroom),
            STRtree(self._occupied),
        )

    def write_on(self, lines: Sequence[str], spots: Sequence[Spot]) -> bool:
        """Write lines over a faint line of the drawing that they name, on white ground and without a leader.

        Args:
            lines: one text below the other.
            spots: places on the line, the best first.

        Returns:
            Whether one of them has room: clear of all but that line, and off the furniture.
        """
        soft, hatched = STRtree(self._soft), STRtree(self._hatched)
        wide = max(text_width(line, SMALL) for line in lines)
        for x, y in (along(spot, (1.0, 0.0), share * wide) for share in _ON_A_LINE for spot in spots):
            first = (x, y + (len(lines) - 1) * 0.85 * SMALL - SMALL / 2)
            texts = stacked(lines, first, anchor=0.5, masked=True)
            ground = unary_union([Polygon(text.box).buffer(AIR, join_style="mitre") for text in texts])
            others = [tree.query(ground, predicate="intersects").size for tree in (soft, hatched)]
            if others == [1, 0] and all(self.free(text) and self.off_furniture(text) for text in texts):
                self.add(*texts)
                return True
        return False

    def call_out(self, lines: Sequence[str], target: Spot, *others: Spot, reach: float = 9.0) -> None:
        """Write lines beside a thing with a leader to it, at the nearest free place.

        First within what is drawn already, so that a name does not push the drawing to a smaller scale.

        Args:
            lines: one text below the other.
            target: the point that is named.
            others: points of the same thing, for where no leader reaches the first.
            reach: distance from the target to the first places that are tried, mm.
        """
        scene = self.scene()
        for spot in (target, *others):
            if found := find(scene, lines, spot, reach):
                self.add(*found)
                return


def _hits(shape: shapely.Geometry, others: Sequence[shapely.Geometry]) -> bool:
    if not others:
        return False
    hits: npt.NDArray[np.bool_] = shapely.intersects(shape, np.asarray(others, dtype=object))
    return bool(hits.any())
