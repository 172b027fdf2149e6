"""Names at the end of a leader: of many places the one that hides and crosses least, all judged at once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, radians, sin
from typing import TypeAlias

import numpy as np
import numpy.typing as npt
import shapely
from shapely import STRtree

from fitter.drawing.callouts import Scene as Drawn
from fitter.drawing.draft import Draft
from fitter.drawing.leaders import dot_at
from fitter.drawing.page import SMALL, Line, Pen, Role, Spot, Text
from fitter.drawing.texts import AIR, COMPASS

Floats: TypeAlias = npt.NDArray[np.float64]
Shapes: TypeAlias = npt.NDArray[np.object_]

_BATCH = 3  # rings are judged in batches
_RINGS = tuple(range(0, 48, _BATCH))
_STEP = 2.5  # from one ring of places to the next, mm
_REACH = 5.0  # of the first ring, mm
_SHOULDER = 2.0
_SPACE = 1.2  # from the shoulder to the text, mm
_CROSSED = 1.2  # rings farther out that a leader goes rather than cross one more line
_HATCH = 0.3  # the same for a stroke of a hatching
_MEASURE = 5.0  # the same for a dimension line
_HIDDEN = 10.0  # the same rather than hide a piece of a line behind the name
_OTHER = 0.7  # the same rather than point to the next best spot of the thing
_GROWN = 4.0  # the same rather than make the picture larger, and one more for each 2 mm
_CLEAR = 1.2  # before and behind a name, mm
_OFF_CHAINS = 2.0  # between a name and a dimension line, mm
_BARRED = 1e6


@dataclass(frozen=True)
class _Places:
    """Places for a name: target, elbow and shoulder of each leader, and the rectangle of its text."""

    leaders: Floats
    texts: Floats
    base: Floats


def point_out(draft: Draft, words: str, targets: Sequence[Spot]) -> Spot | None:
    """Write a name beside a thing, with a leader that ends in a dot on it.

    Args:
        draft: the drawing so far.
        words: one line.
        targets: spots of the thing, the best first; one at least.

    Returns:
        The spot that the leader ends on; None if there is no place for the name.
    """
    scene = draft.scene()
    best: tuple[float, Line, Text] | None = None
    for start in _RINGS:
        if best is not None and best[0] <= start:
            break
        places = _places(words, targets, range(start, start + _BATCH))
        costs = _costs(scene, places)
        n = int(costs.argmin())
        if costs[n] < (_BARRED if best is None else best[0]):
            best = (float(costs[n]), *_made(words, places, n, scene))
    if best is None:
        return None
    leader, text = best[1:]
    draft.add(leader, dot_at(leader.spots[0]), text)
    return leader.spots[0]


def _places(words: str, targets: Sequence[Spot], rings: range) -> _Places:
    """All places of some rings around all targets."""
    ways = np.array([(cos(radians(angle)), sin(radians(angle))) for angle in COMPASS])
    aims = np.array(targets, dtype=float)
    radii = _REACH + _STEP * np.array(rings, dtype=float)
    # Targets by rings by directions.
    elbows = aims[:, None, None, :] + radii[None, :, None, None] * ways[None, None, :, :]
    starts = np.broadcast_to(aims[:, None, None, :], elbows.shape)
    base = np.add.outer(np.add.outer(_OTHER * np.arange(len(aims)), np.array(rings, dtype=float)), np.zeros(len(ways)))
    elbows, starts = elbows.reshape(-1, 2), starts.reshape(-1, 2)
    side = np.where(elbows[:, 0] >= starts[:, 0], 1.0, -1.0)
    shoulders = np.stack([elbows[:, 0] + _SHOULDER * side, elbows[:, 1]], axis=1)
    text = Text((0.0, -SMALL / 2), words).box
    left = shoulders[:, 0] + _SPACE * side - np.where(side > 0, 0.0, text[2][0])
    low, high = elbows[:, 1] + text[0][1], elbows[:, 1] + text[2][1]
    texts = np.stack([left, low, left + text[2][0], high], axis=1)
    return _Places(np.stack([starts, elbows, shoulders], axis=1), texts, base.reshape(-1))


def _costs(scene: Drawn, places: _Places) -> Floats:
    lines = shapely.linestrings(places.leaders)
    low, high = places.texts[:, :2], places.texts[:, 2:]
    boxes = shapely.box(low[:, 0] - _CLEAR, low[:, 1] - AIR, high[:, 0] + _CLEAR, high[:, 1] + AIR)
    barred = _count(scene.texts, boxes) + _count(scene.ends, boxes) + _near(scene.texts, lines, AIR)
    # Nor among the lengths of a chain, where it would be read as one of them.
    barred += _near(scene.barriers, boxes, _OFF_CHAINS)
    barred += _count(scene.leaders, lines) + _count(scene.leaders, boxes)
    # A name does not stand on its own leader.
    ways = shapely.linestrings(places.leaders[:, :2])
    barred += shapely.intersects(ways, boxes)
    crossed = _CROSSED * (_count(scene.strokes, lines) + _count(scene.soft, lines))
    crossed += _HATCH * _count(scene.hatched, lines) + _MEASURE * _count(scene.barriers, lines)
    hidden = _HIDDEN * sum(_count(tree, boxes) for tree in (scene.strokes, scene.soft, scene.hatched))
    x0, y0, x1, y1 = scene.whole.bounds
    out = np.maximum(np.maximum(x0 - low[:, 0], high[:, 0] - x1), np.maximum(y0 - low[:, 1], high[:, 1] - y1))
    grown = np.where(out > 0, _GROWN + out / 2, 0.0)
    costs: Floats = places.base + crossed + hidden + grown + np.where(barred > 0, _BARRED, 0.0)
    # Costs that differ by rounding alone are equal, so that every machine takes the same place.
    return np.round(costs, 6)


def _made(words: str, places: _Places, n: int, scene: Drawn) -> tuple[Line, Text]:
    spots = [(float(x), float(y)) for x, y in places.leaders[n]]
    right = spots[2][0] > spots[1][0]
    at = (spots[2][0] + (_SPACE if right else -_SPACE), spots[1][1] - SMALL / 2)
    text = Text(at, words, SMALL, 0.0, 0.0 if right else 1.0, Role.MARK)
    box = shapely.box(*(float(c) for c in places.texts[n])).buffer(AIR, join_style="mitre")
    covers = any(tree.query(box, predicate="intersects").size for tree in (scene.strokes, scene.soft, scene.hatched))
    if covers:
        text = Text(at, words, SMALL, 0.0, 0.0 if right else 1.0, Role.MARK, masked=True)
    return Line(tuple(spots), Pen.FINE, Role.LEADER), text


def _count(tree: STRtree, shapes: Shapes) -> npt.NDArray[np.int64]:
    """How many things of a tree each shape meets."""
    return np.bincount(tree.query(shapes, predicate="intersects")[0], minlength=len(shapes))


def _near(tree: STRtree, shapes: Shapes, distance: float) -> npt.NDArray[np.int64]:
    """How many things of a tree each shape comes nearer to than a distance."""
    return np.bincount(tree.query(shapes, predicate="dwithin", distance=distance)[0], minlength=len(shapes))
