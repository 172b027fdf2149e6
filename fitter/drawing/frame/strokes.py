"""Strokes that lie on each other are drawn once, and a hidden one not where a visible one lies."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import atan2, dist, hypot
from operator import attrgetter

from fitter.drawing.page import Segment, Spot

_ASIDE = 0.02  # strokes that run no farther beside each other lie on each other, mm
_LEVEL = 1e-6  # sine; strokes that lean less are level or upright
_SHORT = 0.15  # a shorter stroke is not drawn, mm


@dataclass(frozen=True)
class _Stroke:
    """A stroke on a line of some direction that lies `aside` to the left of the origin."""

    angle: float
    aside: float
    low: float
    high: float
    way: Spot


def _stroke(segment: Segment) -> _Stroke:
    (x0, y0), (x1, y1) = sorted(segment)
    size = hypot(x1 - x0, y1 - y0)
    c, s = (x1 - x0) / size, (y1 - y0) / size
    # A line that is upright but for rounding is upright.
    c, s = (0.0, 1.0) if c < _LEVEL else (1.0, 0.0) if abs(s) < _LEVEL else (c, s)
    places = sorted((x * c + y * s for x, y in segment))
    aside = (y0 + y1) / 2 * c - (x0 + x1) / 2 * s
    return _Stroke(round(atan2(s, c), 5), aside, places[0], places[1], (c, s))


def _segment(stroke: _Stroke, low: float, high: float) -> Segment:
    c, s = stroke.way
    return (
        (low * c - stroke.aside * s, low * s + stroke.aside * c),
        (high * c - stroke.aside * s, high * s + stroke.aside * c),
    )


def _lines(segments: Iterable[Segment]) -> Iterator[list[_Stroke]]:
    """Strokes gathered by the line that they lie on."""
    line: list[_Stroke] = []
    for stroke in sorted(map(_stroke, segments), key=attrgetter("angle", "aside", "low", "high")):
        if line and (stroke.angle != line[0].angle or stroke.aside > line[0].aside + _ASIDE):
            yield line
            line = []
        line.append(stroke)
    if line:
        yield line


def merged(segments: Iterable[Segment], besides: Sequence[Segment] = ()) -> tuple[Segment, ...]:
    """The same strokes, in order, each place drawn once.

    Args:
        segments: in mm.
        besides: what is drawn already; nothing is drawn there again.
    """
    longer = [segment for segment in segments if dist(*segment) > _LEVEL]
    taken = [_stroke(segment) for segment in besides]
    strokes = []
    for line in _lines(longer):
        over = [t for t in taken if t.angle == line[0].angle and -_ASIDE <= t.aside - line[0].aside <= 2 * _ASIDE]
        strokes += [_segment(line[0], low, high) for low, high in _free(_spans(line), _spans(over))]
    return tuple(strokes)


def _spans(strokes: Iterable[_Stroke]) -> list[tuple[float, float]]:
    """The strokes of one line as spans, those that meet made one."""
    spans: list[tuple[float, float]] = []
    for stroke in sorted(strokes, key=attrgetter("low", "high")):
        if spans and stroke.low <= spans[-1][1] + _ASIDE:
            spans[-1] = (spans[-1][0], max(spans[-1][1], stroke.high))
        else:
            spans.append((stroke.low, stroke.high))
    return spans


def _free(spans: Iterable[tuple[float, float]], taken: Iterable[tuple[float, float]]) -> Iterator[tuple[float, float]]:
    """What others leave of spans, but for crumbs."""
    for span in spans:
        pieces = [span]
        for low, high in taken:
            pieces = [
                piece for a, b in pieces for piece in ((a, min(b, low)), (max(a, high), b)) if piece[1] > piece[0]
            ]
        yield from ((a, b) for a, b in pieces if b - a > _SHORT)
