"""Names with a leader: the place beside a thing where its name stands best."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import cos, inf, radians, sin
from typing import TypeAlias

import numpy as np
import numpy.typing as npt
import shapely
from shapely import STRtree
from shapely.geometry import LineString, Polygon

from fitter.drawing.page import SMALL, Line, Pen, Role, Spot, Text
from fitter.drawing.texts import AIR, COMPASS, stacked

_CROSSING = 1.5  # rings farther out that a leader goes rather than cross one more line
_HATCH = 0.45  # the same for one stroke of a hatching
_INDOORS = 14.0  # the same rather than stand on the furniture
_STEP = 3.0  # from one ring of places to the next, mm

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
        barriers: lines that a leader crosses only where there is no other way.
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
    occupied: STRtree


@dataclass(frozen=True)
class _Manner:
    """How far a place is sought, and what name and leader may cover or cross on the way."""

    within: Polygon
    rings: int
    masked: bool = False
    crossing: bool = False
    strict: bool = True


def find(scene: Scene, lines: Sequence[str], target: Spot, reach: float) -> tuple[Line | Text, ...]:
    """The leader and the texts of a name, at the nearest free place.

    First within what is drawn already, so that a name does not push the drawing to a smaller scale.

    Args:
        scene: what is drawn already.
        lines: one text below the other.
        target: the point that is named.
        reach: distance from the target to the first places that are tried, mm.

    Returns:
        What is to be drawn; nothing if there is no place anywhere.
    """
    everywhere = scene.whole.buffer(200.0)
    for manner in (
        _Manner(scene.whole, 18),
        _Manner(scene.whole, 25, masked=True),
        _Manner(everywhere, 50, masked=True, crossing=True),
        _Manner(everywhere, 50, masked=True, crossing=True, strict=False),
    ):
        if found := _best(scene, lines, target, reach, manner):
            return found
    return ()


def _best(scene: Scene, lines: Sequence[str], target: Spot, reach: float, manner: _Manner) -> tuple[Line | Text, ...]:
    """The place whose leader crosses the fewest lines, a little farther out if that helps."""
    best: tuple[Line | Text, ...] = ()
    least = inf
    for ring in range(manner.rings):
        if ring >= least:
            break
        for leader, crossed in _ways(scene, target, reach + _STEP * ring, manner):
            cost = ring + crossed
            if cost >= least:
                break
            if texts := _texts(scene, lines, leader, manner):
                cost += _INDOORS * any(_hits(scene.occupied, Polygon(text.box)) for text in texts)
                if cost < least:
                    best, least = (Line(leader, Pen.FINE, Role.LEADER), *texts), cost
    return best


def _ways(scene: Scene, target: Spot, radius: float, manner: _Manner) -> Iterator[tuple[Leader, float]]:
    """Leaders to the places of a ring that are allowed, those that cross the least first."""
    spots = [(target[0] + radius * cos(radians(a)), target[1] + radius * sin(radians(a))) for a in COMPASS]
    leaders = [_leader(target, spot) for spot in spots if shapely.contains_xy(manner.within, *spot)]
    if not leaders:
        return
    lines = shapely.linestrings(np.array(leaders))
    barred = _counts(scene.texts, shapely.buffer(lines, AIR))
    if manner.strict:
        barred += _counts(scene.leaders, lines)
        barred += _counts(scene.barriers, lines) * (not manner.crossing)
    crossed = _CROSSING * (_counts(scene.strokes, lines) + _counts(scene.soft, lines))
    cost = crossed + _HATCH * _counts(scene.hatched, lines)
    for n in np.argsort(cost, kind="stable"):
        if not barred[n]:
            yield leaders[n], float(cost[n])


def _leader(target: Spot, elbow: Spot) -> Leader:
    """From the thing that is named to a short shoulder before its name."""
    return target, elbow, (elbow[0] + (2.0 if elbow[0] >= target[0] else -2.0), elbow[1])


def _texts(scene: Scene, lines: Sequence[str], leader: Leader, manner: _Manner) -> tuple[Text, ...]:
    """The texts at the end of a leader; none if one of them finds no free place there."""
    target, elbow, shoulder = leader
    right = elbow[0] >= target[0]
    start = (shoulder[0] + (1.2 if right else -1.2), shoulder[1] + (len(lines) - 1) * 2.1 - SMALL / 2)
    texts = stacked(lines, start, anchor=0.0 if right else 1.0, masked=manner.masked)
    boxes = [Polygon(text.box) for text in texts]
    way = LineString((target, elbow)).buffer(AIR)
    for shape in boxes:
        if not manner.within.contains(shape) or way.intersects(shape) or not _free(scene, shape, manner):
            return ()
    return texts


def _free(scene: Scene, shape: Polygon, manner: _Manner) -> bool:
    ground = shape.buffer(AIR, join_style="mitre")
    if _hits(scene.texts, ground) or _hits(scene.ends, ground):
        return False
    if not manner.strict:
        return True
    faint = () if manner.masked else (scene.soft, scene.hatched)
    return not any(_hits(tree, ground) for tree in (scene.strokes, *faint))


def _counts(tree: STRtree, shapes: npt.NDArray[np.object_]) -> Counts:
    """How many things of a tree each shape meets."""
    return np.bincount(tree.query(shapes, predicate="intersects")[0], minlength=len(shapes))


def _hits(tree: STRtree, shape: shapely.Geometry) -> bool:
    return bool(tree.query(shape, predicate="intersects").size)
