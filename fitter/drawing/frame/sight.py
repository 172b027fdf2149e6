"""Which edges can be seen along a direction: exact for any solids with flat faces, however they overlap.

No order of depth is needed. What one convex piece hides of an edge is the part of it that lies within the outline of
the piece, as seen, and behind every one of its faces that look at the viewer: linear inequalities along the edge, and
so one interval, which is empty or not. An edge is asked for just inside each of its faces that look at the viewer, so
that parts that touch or lie flush hide nothing of each other by chance.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TypeAlias

import numpy as np
import numpy.typing as npt
from shapely.geometry import MultiPoint, Polygon

from fitter.drawing.frame.solids import Face3, Solid, Spot3, cross, dot, minus, normal, plus, unit
from fitter.drawing.page import Segment, Spot

Floats: TypeAlias = npt.NDArray[np.float64]

_DEEP = 1.0  # nearer in depth is flush, units (1/320 mm)
_INSIDE = 8.0  # so far inside a face its edges are asked for, units
_FLAT = 1e-6  # cosine; a face that looks less toward the viewer is seen on edge
_SAME = 1 - 1e-9  # cosine between the directions of two faces that are one
_SHORT = 40.0  # pieces that are shorter are not told, units
_NEVER = 1e15  # of an inequality that always holds
_BATCH = 400


@dataclass(frozen=True)
class Gaze:
    """A direction of view, without perspective.

    Args:
        right: of the picture; a unit vector.
        up: of the picture; a unit vector at right angles to it.
    """

    right: Spot3
    up: Spot3

    @property
    def toward(self) -> Spot3:
        """From what is seen to the viewer."""
        return cross(self.right, self.up)

    def at(self, spot: Spot3) -> Spot:
        """Where a spot appears, in units."""
        return dot(self.right, spot), dot(self.up, spot)


@dataclass(frozen=True)
class Seen:
    """The edges of one solid as they appear, in units.

    Args:
        number: of the part.
        visible: pieces of edges that can be seen.
        hidden: pieces of edges on its near side that something hides.
    """

    number: int
    visible: tuple[Segment, ...]
    hidden: tuple[Segment, ...]


class Sight:
    """Solids seen along a direction."""

    def __init__(self, solids: Sequence[Solid], gaze: Gaze) -> None:
        self.gaze = gaze
        self._numbers: list[int] = []
        outlines, faces = [], []
        for solid in solids:
            for piece in solid.pieces:
                outline = _outline(piece, gaze)
                planes = [plane for face in piece if (plane := _plane(face, gaze))]
                if outline and planes:
                    outlines.append(outline)
                    faces.append(planes)
                    self._numbers.append(solid.number)
        self._outlines, self._faces = _padded(outlines), _padded(faces)

    def seen(self, solid: Solid) -> Seen:
        """The edges of a solid; it need not be one of those that hide, but mostly is."""
        edges = list(_edges(solid, self.gaze))
        ends = np.array([[self._view(a), self._view(b)] for edge in edges for a, b in edge.asked]).reshape(-1, 2, 3)
        hidden = [span for start in range(0, len(ends), _BATCH) for span in self._spans(ends[start : start + _BATCH])]
        visible: list[Segment] = []
        covered: list[Segment] = []
        count = 0
        for edge in edges:
            own = hidden[count : count + len(edge.asked)]
            count += len(edge.asked)
            # Seen where the face at one of its sides is seen.
            dark = own[0] if len(own) == 1 else _both(own[0], own[1])
            visible += _pieces(edge.ends, _rest(dark))
            covered += _pieces(edge.ends, dark)
        return Seen(solid.number, tuple(visible), tuple(covered))

    def foremost(self, spots: Sequence[Spot]) -> list[int | None]:
        """The part that is seen at each of some places of the picture; None where there is none."""
        if not self._numbers or not spots:
            return [None for _ in spots]
        flat = np.array([(x, y, 1.0) for x, y in spots])
        inside = (np.einsum("pkc,sc->spk", self._outlines, flat) > 0).all(axis=2)
        depth = np.where(inside, np.einsum("pkc,sc->spk", self._faces, flat).min(axis=2), -np.inf)
        best = depth.argmax(axis=1)
        return [self._numbers[n] if inside[row, n] else None for row, n in enumerate(best)]

    def _view(self, spot: Spot3) -> Spot3:
        return (*self.gaze.at(spot), dot(self.gaze.toward, spot))

    def _spans(self, ends: Floats) -> Iterator[list[Spot]]:
        """For each segment the shares of it that some piece hides, in order, without overlap."""
        if not self._numbers:
            yield from ([] for _ in ends)
            return
        first, last = (np.concatenate(self._over(ends[:, i]), axis=2) for i in (0, 1))
        slope = last - first
        with np.errstate(divide="ignore", invalid="ignore"):
            zero = -first / slope
        low = np.where(slope > 0, zero, np.where((slope == 0) & (first <= 0), 2.0, 0.0)).max(axis=2)
        high = np.where(slope < 0, zero, 1.0).min(axis=2)
        low, high = np.maximum(low, 0.0), np.minimum(high, 1.0)
        for row in range(len(ends)):
            some = np.flatnonzero(high[row] > low[row])
            yield _joined(sorted((float(low[row, i]), float(high[row, i])) for i in some))

    def _over(self, spots: Floats) -> tuple[Floats, Floats]:
        """By how much each inequality of each piece holds at spots (n, 3): within outlines, behind faces."""
        flat = np.concatenate([spots[:, :2], np.ones((len(spots), 1))], axis=1)
        within = np.einsum("pkc,sc->spk", self._outlines, flat)
        behind = np.einsum("pkc,sc->spk", self._faces, flat) - spots[:, 2][:, None, None] - _DEEP
        return within, behind


def _padded(rows: Sequence[Sequence[Spot3]]) -> Floats:
    """Rows of different length in one array, filled up with what always holds."""
    longest = max((len(row) for row in rows), default=1)
    return np.array([[*row, *[(0.0, 0.0, _NEVER)] * (longest - len(row))] for row in rows]).reshape(-1, longest, 3)


def _outline(piece: Iterable[Face3], gaze: Gaze) -> tuple[Spot3, ...]:
    """The sides of a convex piece as seen: (a, b, c) with a·x + b·y + c the distance to the inside, in units."""
    hull = MultiPoint([gaze.at(spot) for face in piece for spot in face]).convex_hull
    if not isinstance(hull, Polygon):
        return ()
    ring = list((hull if hull.exterior.is_ccw else hull.reverse()).exterior.coords)
    sides = []
    for (x0, y0), (x1, y1) in pairwise(ring):
        size = float(np.hypot(x1 - x0, y1 - y0))
        if size > _DEEP:
            a, b = (y0 - y1) / size, (x1 - x0) / size
            sides.append((a, b, -a * x0 - b * y0))
    return tuple(sides)


def _plane(face: Face3, gaze: Gaze) -> Spot3 | None:
    """The depth of a face over the picture, as (a, b, c) of a·x + b·y + c; None if it does not look at the viewer."""
    out = normal(face)
    front = dot(out, gaze.toward)
    if front <= _FLAT:
        return None
    return (
        -dot(out, gaze.right) / front,
        -dot(out, gaze.up) / front,
        dot(out, face[0]) / front,
    )


@dataclass(frozen=True)
class _Edge:
    """An edge as it appears, and the lines just inside its faces that are asked instead."""

    ends: Segment
    asked: tuple[tuple[Spot3, Spot3], ...]


def _edges(solid: Solid, gaze: Gaze) -> Iterator[_Edge]:
    """Edges of faces that look at the viewer, but those that only part a flat face."""
    sides: dict[tuple[Spot3, Spot3], list[tuple[Spot3, tuple[Spot3, Spot3]]]] = {}
    for face in solid.faces:
        out = normal(face)
        for a, b in zip(face, (*face[1:], face[0]), strict=True):
            if a != b:
                sides.setdefault((min(a, b), max(a, b)), []).append((out, (a, b)))
    for (a, b), faces in sides.items():
        if len(faces) == 2 and dot(faces[0][0], faces[1][0]) > _SAME:
            continue
        asked = tuple(_inside(out, way, gaze) for out, way in faces if dot(out, gaze.toward) > _FLAT)
        if asked:
            yield _Edge((gaze.at(a), gaze.at(b)), asked[:2])


def _inside(out: Spot3, way: tuple[Spot3, Spot3], gaze: Gaze) -> tuple[Spot3, Spot3]:
    """A line beside an edge on its face, its lesser end first, so far from it that the gap is `_INSIDE` as seen."""
    a, b = way
    inward = unit(cross(out, minus(b, a)))
    flat, (x, y) = gaze.at(inward), gaze.at(unit(minus(b, a)))
    size = (x * x + y * y) ** 0.5
    gap = abs(flat[0] * y - flat[1] * x) / size if size > 1e-9 else 1.0
    step = _INSIDE / max(gap, 0.02)
    first, last = sorted(way)
    return plus(first, inward, step), plus(last, inward, step)


def _joined(spans: Iterable[Spot]) -> list[Spot]:
    """Spans in order, those that meet made one."""
    joined: list[Spot] = []
    for low, high in spans:
        if joined and low <= joined[-1][1] + 1e-9:
            joined[-1] = (joined[-1][0], max(joined[-1][1], high))
        else:
            joined.append((low, high))
    return joined


def _rest(spans: Sequence[Spot]) -> list[Spot]:
    """What spans leave of 0 to 1."""
    ends = [0.0, *(end for span in spans for end in span), 1.0]
    return [(ends[i], ends[i + 1]) for i in range(0, len(ends), 2)]


def _both(some: Sequence[Spot], others: Sequence[Spot]) -> list[Spot]:
    """What lies in a span of each of two rows."""
    pairs = ((max(a[0], b[0]), min(a[1], b[1])) for a in some for b in others)
    return sorted((low, high) for low, high in pairs if high > low)


def _pieces(ends: Segment, spans: Iterable[Spot]) -> Iterator[Segment]:
    """The pieces of a segment at some shares of it, but for those too short to matter."""
    (x0, y0), (x1, y1) = ends
    size = float(np.hypot(x1 - x0, y1 - y0))
    for low, high in spans:
        if (high - low) * size > _SHORT:
            yield (
                (x0 + low * (x1 - x0), y0 + low * (y1 - y0)),
                (x0 + high * (x1 - x0), y0 + high * (y1 - y0)),
            )


def looked_at(solids: Sequence[Solid], gaze: Gaze) -> tuple[tuple[Solid, ...], Sight, tuple[Seen, ...]]:
    """Solids seen together along a direction, and what is seen of each."""
    sight = Sight(solids, gaze)
    return tuple(solids), sight, tuple(map(sight.seen, solids))
