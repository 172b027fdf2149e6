"""Names with a leader: the place beside a thing where its name stands best."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import cos, inf, radians, sin
from typing import TypeAlias

import numpy as np
import numpy.typing as npt
import shapely
from shapely import STRtree
from shapely.geometry import LineString, Polygon

from fitter.drawing.leaders import dot_at
from fitter.drawing.page import SMALL, Area, Line, Pen, Role, Spot, Text
from fitter.drawing.texts import AIR, COMPASS, stacked

_CROSSING = 1.5  # rings farther out that a leader goes rather than cross one more line
_HATCH = 0.45  # the same for one stroke of a hatching
_INDOORS = 14.0  # the same rather than stand on the furniture
_OVER = 5.0  # the same rather than cross a place of the furniture that is not what is named
_LEGROOM = 2.0  # the same rather than cross the rim of leg room, beyond what any line costs
_DIMENSION = 6.0  # the same rather than cross a dimension line
_COVER = 4.0  # the same rather than hide a piece of a faint line behind the name
_OUTSIDE = 6.0  # the same rather than make the drawing larger, and as many more as it grows by in mm
_ALIKE = 4.0  # the same rather than run along a line or a hatching at the target
_LIKE = 0.3  # sine of the angle below which it runs along it: 17 degrees
_BESIDE, _ON = 2.5, 0.3  # how near to the target a hatching and a line count, mm
_RINGS = 50
_STEP = 3.0  # from one ring of places to the next, mm
_AT_ONCE = 10  # rings that are asked for in one go, which is much quicker than one by one

Name: TypeAlias = tuple[Line | Area | Text, ...]
Leader: TypeAlias = tuple[Spot, Spot, Spot]
Counts: TypeAlias = npt.NDArray[np.int64]


@dataclass(frozen=True)
class Scene:
    """What has been drawn, in trees that are quick to ask.

    Args:
        whole: the bounds of all.
        texts: rectangles of texts.
        ends: ends of lines, which no text may touch.
        strokes: lines and flesh that no name may cover.
        soft: faint lines that a masked name may cover.
        hatched: strokes of hatchings, which the same may cover.
        leaders: which no other leader crosses.
        barriers: lines of dimensions, which a leader crosses only where there is no other way.
        legroom: its rim, which a leader had better not cross.
        occupied: what a name does not stand on if there is a place beside it.
    """

    whole: Polygon
    texts: STRtree
    ends: STRtree
    strokes: STRtree
    soft: STRtree
    hatched: STRtree
    leaders: STRtree
    barriers: STRtree
    legroom: STRtree
    occupied: STRtree


def find(scene: Scene, lines: Sequence[str], target: Spot, reach: float) -> Name:
    """The leader and the texts of a name, at the nearest free place.

    Rather within what is drawn already, so that a name does not push the drawing to a smaller scale.

    Args:
        scene: what is drawn already.
        lines: one text below the other.
        target: the point that is named.
        reach: distance from the target to the first places that are tried, mm.

    Returns:
        What is to be drawn; nothing if there is no place anywhere.
    """
    return _best(scene, lines, target, reach, strict=True) or _best(scene, lines, target, reach, strict=False)


def _best(scene: Scene, lines: Sequence[str], target: Spot, reach: float, *, strict: bool) -> Name:
    """The place whose leader crosses the fewest lines, a little farther out if that helps."""
    best: Name = ()
    least = inf
    for ring, ways in enumerate(_rings(scene, target, reach, strict=strict)):
        if ring >= least:
            break
        for leader, crossed in ways:
            cost = ring + crossed
            if cost >= least:
                break
            if texts := _texts(scene, lines, leader, strict=strict):
                shapes = [Polygon(text.box) for text in texts]
                cost += _COVER * sum(_covered(scene, shape) for shape in shapes)
                cost += max(_growth(scene, shape) for shape in shapes)
                cost += _INDOORS * any(_hits(scene.occupied, shape) for shape in shapes)
                if cost < least:
                    best, least = (Line(leader, Pen.FINE, Role.LEADER), dot_at(target), *texts), cost
    return best


def _rings(scene: Scene, target: Spot, reach: float, *, strict: bool) -> Iterator[list[tuple[Leader, float]]]:
    """Ring by ring, leaders to the places that are allowed, those that cross the least first."""
    for first in range(0, _RINGS, _AT_ONCE):
        radii = [reach + _STEP * ring for ring in range(first, min(first + _AT_ONCE, _RINGS))]
        leaders = [_leader(target, _spot(target, radius, angle)) for radius in radii for angle in COMPASS]
        lines = shapely.linestrings(np.array(leaders))
        allowed = np.flatnonzero(_allowed(scene, lines, strict=strict))
        cost = np.full(len(leaders), inf)
        cost[allowed] = _crossed(scene, target, lines[allowed])
        for start in range(0, len(leaders), len(COMPASS)):
            order = start + np.argsort(cost[start : start + len(COMPASS)], kind="stable")
            yield [(leaders[n], float(cost[n])) for n in order if cost[n] < inf]


def _spot(target: Spot, radius: float, angle: float) -> Spot:
    return target[0] + radius * cos(radians(angle)), target[1] + radius * sin(radians(angle))


def _allowed(scene: Scene, lines: npt.NDArray[np.object_], *, strict: bool) -> npt.NDArray[np.bool_]:
    """Which leaders keep off texts, and off each other."""
    near = scene.texts.query(lines, predicate="dwithin", distance=AIR)[0]
    allowed: npt.NDArray[np.bool_] = np.bincount(near, minlength=len(lines)) == 0
    if strict:
        allowed &= _counts(scene.leaders, lines) == 0
    return allowed


def _crossed(scene: Scene, target: Spot, lines: npt.NDArray[np.object_]) -> npt.NDArray[np.float64]:
    """What each leader costs by what it crosses."""
    over = _counts(scene.occupied, lines) - _counts(scene.occupied, np.array([shapely.points(target)]))
    cost: npt.NDArray[np.float64] = (
        _CROSSING * (_counts(scene.strokes, lines) + _counts(scene.soft, lines))
        + _HATCH * _counts(scene.hatched, lines)
        + _LEGROOM * _counts(scene.legroom, lines)
        + _DIMENSION * _counts(scene.barriers, lines)
        + _OVER * over
    )
    return cost + _ALIKE * _along_a_stroke(scene, target, lines)


def _along_a_stroke(scene: Scene, target: Spot, lines: npt.NDArray[np.object_]) -> npt.NDArray[np.bool_]:
    """Which leaders run along a line or a hatching at their target, and so could be taken for a stroke of it."""
    spot = shapely.points(target)
    near = [
        (side, tree.geometries[n])
        for tree, side in ((scene.hatched, _BESIDE), (scene.soft, _ON), (scene.strokes, _ON))
        for n in tree.query(spot, predicate="dwithin", distance=side)
    ]
    sides = [
        pair
        for reach, shape in near
        for pair in pairwise(shape.coords if shape.geom_type == "LineString" else shape.exterior.coords)
        if spot.distance(LineString(pair)) <= reach
    ]
    if not sides or not lines.size:
        return np.zeros(len(lines), dtype=bool)
    ways = np.array([np.subtract(b, a) for a, b in sides])
    leads = np.array([np.subtract(line.coords[1], line.coords[0]) for line in lines])
    ways, leads = (v / np.maximum(np.linalg.norm(v, axis=1, keepdims=True), 1e-9) for v in (ways, leads))
    sines = np.abs(leads[:, None, 0] * ways[None, :, 1] - leads[:, None, 1] * ways[None, :, 0])
    found: npt.NDArray[np.bool_] = (sines < _LIKE).any(axis=1)
    return found


def _leader(target: Spot, elbow: Spot) -> Leader:
    """From the thing that is named to a short shoulder before its name."""
    return target, elbow, (elbow[0] + (2.0 if elbow[0] >= target[0] else -2.0), elbow[1])


def _texts(scene: Scene, lines: Sequence[str], leader: Leader, *, strict: bool) -> tuple[Text, ...]:
    """The texts at the end of a leader, masked if they hide something; none if one of them finds no place there."""
    target, elbow, shoulder = leader
    right = elbow[0] >= target[0]
    start = (shoulder[0] + (1.2 if right else -1.2), shoulder[1] + (len(lines) - 1) * 2.1 - SMALL / 2)
    texts = stacked(lines, start, anchor=0.0 if right else 1.0)
    boxes = [Polygon(text.box) for text in texts]
    way = LineString((target, elbow)).buffer(AIR)
    for shape in boxes:
        if way.intersects(shape) or not _free(scene, shape, strict=strict):
            return ()
    covered = [_covered(scene, shape) for shape in boxes]
    return tuple(replace(text, masked=count > 0) for text, count in zip(texts, covered, strict=True))


def _growth(scene: Scene, shape: Polygon) -> float:
    """What it costs that a text lies beyond what is drawn: the drawing may need a smaller scale then."""
    x0, y0, x1, y1 = shape.bounds
    left, low, right, high = scene.whole.bounds
    out = max(left - x0, low - y0, x1 - right, y1 - high)
    return _OUTSIDE + out if out > 0 else 0.0


def _covered(scene: Scene, shape: Polygon) -> int:
    """How many lines a name there hides a piece of."""
    ground = shape.buffer(AIR, join_style="mitre")
    return sum(tree.query(ground, predicate="intersects").size for tree in (scene.strokes, scene.soft, scene.hatched))


def _free(scene: Scene, shape: Polygon, *, strict: bool) -> bool:
    ground = shape.buffer(AIR, join_style="mitre")
    if _hits(scene.texts, ground) or _hits(scene.ends, ground):
        return False
    return not strict or not _hits(scene.strokes, ground)


def _counts(tree: STRtree, shapes: npt.NDArray[np.object_]) -> Counts:
    """How many things of a tree each shape meets."""
    return np.bincount(tree.query(shapes, predicate="intersects")[0], minlength=len(shapes))


def _hits(tree: STRtree, shape: shapely.Geometry) -> bool:
    return bool(tree.query(shape, predicate="intersects").size)
