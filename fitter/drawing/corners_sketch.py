"""One corner of a layout from above, to scale: what meets there, cut off beyond, with its dimensions."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from shapely.geometry import LineString, Polygon, box

from fitter.domain.layout import Layout, Pose, Side
from fitter.domain.project import Project
from fitter.domain.wishes import CornerKind
from fitter.drawing.draft import Draft
from fitter.drawing.page import SMALL, Area, Dash, Dimension, Item, Line, Pen, Role, Segment, Spot, Text
from fitter.drawing.seats import draw_seats
from fitter.drawing.view import View
from rooms.lengths import ZERO, Length
from rooms.room import Point

_LEVEL = Pose(Point(ZERO, ZERO), Fraction(1), Fraction(0), None)
_OFF = 4.0  # from the wood to the first dimension line, mm
_ROW = 7.0  # from one dimension line to the next, mm
_GAP, _OVER = 0.8, 1.5  # of extension lines, mm
_BEYOND = 1.5  # so far a break is drawn past the wood, mm
_PART = 4  # this part of the first module of a run is drawn
_Turn = Callable[[Sequence[Spot]], list[Spot]]
_LEFT_OUT = (Role.LEGROOM, Role.SPLIT)


def corner_sketch(project: Project, layout: Layout, view: View) -> tuple[Item, ...]:
    """The right corner of a layout, or the left one mirrored, with a part of the first module of either run.

    Args:
        project: names the wood.
        layout: with a corner.
        view: the scale.

    Returns:
        The drawing, the corner of the deck at (0, 0), the main run to the right and the arm upward.
    """
    place = layout.corners[0]
    mirrored = place.corner is Side.LEFT
    draft = Draft()
    draw_seats(draft, project, replace(layout, pose=_LEVEL, splits=()), view)
    corner = view.of(place.box.x1 if mirrored else place.box.x0), view.of(place.box.y0)
    main, arm = layout.runs[0], next(run for run in layout.runs if run.side is place.corner)
    wide, deep = view.of(place.box.x1 - place.box.x0), view.of(place.box.y1 - place.box.y0)
    low = -view.of(_behind(project, layout))
    right, high = wide + view.of(main.pitch) / _PART, deep + view.of(arm.pitch) / _PART
    window = box(low - 1.0, low - 1.0, right, high)

    def turn(spots: Sequence[Spot]) -> list[Spot]:
        sign = -1 if mirrored else 1
        return [(sign * (x - corner[0]), y - corner[1]) for x, y in spots]

    drawn = [piece for item in draft.items for piece in _clipped(item, turn, window)]
    breaks = [
        Line(((right, low - _BEYOND), (right, deep + _BEYOND)), Pen.FINE, Role.CUT, Dash.CENTRE),
        Line(((low - _BEYOND, high), (wide + _BEYOND, high)), Pen.FINE, Role.CUT, Dash.CENTRE),
    ]
    return (*drawn, *breaks, *_measures(project, layout, view, low))


def _behind(project: Project, layout: Layout) -> Length:
    """How far wood stands behind the deck's back line: the back, or an outside post."""
    post = project.frame.post.width if layout.corner is CornerKind.OUTSIDE_POST else ZERO
    return max(post, project.frame.back_thickness, key=lambda length: length.units)


def _clipped(item: Item, turn: _Turn, window: Polygon) -> Iterator[Item]:
    """What of an item lies within the window; outlines are cut open there."""
    if not isinstance(item, Line | Area) or item.role in _LEFT_OUT:
        return
    if isinstance(item, Line):
        yield from _strokes(LineString(turn(item.spots)), window, item.pen, item.role, item.dash)
        return
    ring = turn(item.ring)
    if item.grey is not None:
        inside = Polygon(ring).intersection(window)
        for part in getattr(inside, "geoms", (inside,)):
            if isinstance(part, Polygon) and part.area > 0:
                yield replace(item, ring=tuple(part.exterior.coords[:-1]), pen=None)
    if item.pen is not None:
        yield from _strokes(LineString([*ring, ring[0]]), window, item.pen, item.role, item.dash)


def _strokes(line: LineString, window: Polygon, pen: Pen, role: Role, dash: Dash) -> Iterator[Line]:
    inside = line.intersection(window)
    for part in getattr(inside, "geoms", (inside,)):
        if isinstance(part, LineString) and part.length > 0:
            yield Line(tuple(part.coords), pen, role, dash)


def _measures(project: Project, layout: Layout, view: View, low: float) -> Iterator[Dimension]:
    """Along both backs: what gives way to the post, or stands out, and the depths of the place."""
    place = layout.corners[0]
    mirrored = place.corner is Side.LEFT
    sizes = place.box.x1 - place.box.x0, place.box.y1 - place.box.y0
    first = low - _OFF
    for upright in (False, True):
        if (small := _small(project, layout, upright, mirrored)) is not None:
            start, end, name = small
            yield _dimension(view, start, end, low, first, upright, f" {name}")
        row = first - (_ROW if small is not None else 0.0)
        yield _dimension(view, ZERO, sizes[upright], low, row, upright)


def _small(project: Project, layout: Layout, upright: bool, mirrored: bool) -> tuple[Length, Length, str] | None:
    """The size that the treatment is about, counted from the corner of the deck, with its name."""
    place = layout.corners[0]
    if place.notch is not None:
        cut = place.notch.box
        if upright:
            return cut.y0 - place.box.y0, cut.y1 - place.box.y0, "notch"
        if mirrored:
            return place.box.x1 - cut.x1, place.box.x1 - cut.x0, "notch"
        return cut.x0 - place.box.x0, cut.x1 - place.box.x0, "notch"
    if layout.corner is CornerKind.OUTSIDE_POST:
        return -project.frame.post.width.ceil_to(project.mark), ZERO, "post"
    return (ZERO, layout.gap, "gap") if layout.gap else None


def _dimension(
    view: View, start: Length, end: Length, low: float, row: float, upright: bool, name: str = ""
) -> Dimension:
    """A dimension line behind a back; a name stands beyond its end, since it has no room between its ends."""
    a, b = view.of(start), view.of(end)

    def at(along: float, across: float) -> Spot:
        return (across, along) if upright else (along, across)

    foot: Segment = at(a, low), at(b, low)
    extensions = tuple((at(x, low - _GAP), at(x, row - _OVER)) for x in (a, b))
    written = view.written(end - start, feet=False) + name
    angle = 90.0 if upright else 0.0
    if name:
        # To the left of an upright line its text reads from the right.
        aside = row + SMALL / 2 if upright else row - SMALL / 2
        text = Text(at(b + 2.0, aside), written, SMALL, angle, 0.0, Role.DIMENSION)
        return Dimension(foot, (at(a, row), at(b, row)), end - start, text, extensions, (at(b, row), at(b + 1.4, row)))
    aside = row - 0.8 if upright else row + 0.8
    text = Text(at((a + b) / 2, aside), written, SMALL, angle, 0.5, Role.DIMENSION)
    return Dimension(foot, (at(a, row), at(b, row)), end - start, text, extensions)
