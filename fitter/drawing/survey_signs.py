"""What the drawing of a survey shows to scale: outline, ties, turns that were read, error ellipses, taped lengths."""

from __future__ import annotations

from collections.abc import Iterator
from math import atan2, cos, degrees, dist, radians, sin

from fitter.drawing.draft import Draft
from fitter.drawing.ground import name_corners
from fitter.drawing.page import SMALL, Arc, Area, Dash, Line, Pen, Role, Spot, Text
from fitter.drawing.texts import around, readable
from fitter.drawing.view import View, along, middle, towards
from rooms.lengths import Length, format_length
from rooms.room import Room
from rooms.survey import ReadingKind, Residual, Survey

_LARGEST = 7.0
"""The greatest half axis of an ellipse on paper, mm."""
_FACTORS = (1000, 500, 200, 100, 50, 20, 10, 5, 2, 1)
_TURN = 6.0
"""Radius of the arc at a corner whose turn was read, mm."""
_OFF_TIE = 1.8
"""How far the text of a tie stands from it, mm."""
CROWD = 40
"""With more lengths than this, those that find no place of their own stand in the table alone."""


def fine(length: Length, view: View) -> str:
    """A small difference with its sign, in fractions of an inch or tenths of a millimetre."""
    if view.unit.imperial:
        size = abs(length).round_to(Length.inches("1/64"))
        text = format_length(size, view.unit, denominator=64, feet=False)
    else:
        text = f"{abs(float(length.mm)):.1f}"
        size = Length.millimetres(text)
    return text if not size else f"{'+' if length.units > 0 else '−'}{text}"


def enlarged(survey: Survey, view: View) -> int:
    """How many times larger than to scale the ellipses are drawn, a round number."""
    greatest = max(view.of(ellipse.long) for ellipse in survey.ellipses)
    return next((factor for factor in _FACTORS if factor * greatest <= _LARGEST), 1)


def draw_outline(draft: Draft, survey: Survey, view: View) -> None:
    """Draw the sides, heavy where they were taped and dashed where they follow from the rest."""
    spots = [view.at(point) for _, point in survey.points]
    names = [name for name, _ in survey.points]
    taped = {r.name for r in survey.residuals if r.kind is ReadingKind.SIDE}
    for k, start in enumerate(spots):
        end, pair = spots[(k + 1) % len(spots)], (names[k], names[(k + 1) % len(spots)])
        known = pair[0] + pair[1] in taped or pair[1] + pair[0] in taped
        draft.add(Line((start, end), Pen.HEAVY, Role.EDGE, Dash.SOLID if known else Dash.LONG))


def draw_ties(draft: Draft, survey: Survey, view: View) -> None:
    """Draw each taped diagonal."""
    for start, end, _ in _lines(survey, view, ReadingKind.TIE):
        draft.add(Line((start, end), Pen.FINE, Role.TIE, Dash.CENTRE))


def draw_turns(draft: Draft, survey: Survey, view: View) -> None:
    """Draw an arc inside each corner whose turn was read."""
    read = {r.name for r in survey.residuals if r.kind is ReadingKind.TURN}
    spots = [view.at(point) for _, point in survey.points]
    for k, (name, _) in enumerate(survey.points):
        if name in read:
            here, before, after = spots[k], spots[k - 1], spots[(k + 1) % len(spots)]
            # With the room on the left the inside angle opens from the side ahead round to the side behind.
            ends = (after, before) if survey.anticlockwise else (before, after)
            first, last = (degrees(atan2(end[1] - here[1], end[0] - here[0])) for end in ends)
            radius = min(_TURN, dist(here, before) / 3, dist(here, after) / 3)
            draft.add(Arc(here, radius, first, last + 360.0 * (last < first), Pen.FINE, Role.TURN))


def draw_ellipses(draft: Draft, survey: Survey, view: View) -> None:
    """Draw the error ellipse of each corner, enlarged; a flat one as a stroke."""
    factor = enlarged(survey, view)
    for ellipse, (_, point) in zip(survey.ellipses, survey.points, strict=True):
        centre = view.at(point)
        long, short = factor * view.of(ellipse.long), factor * view.of(ellipse.short)
        if short >= 0.1:
            draft.add(Area(ellipse_ring(centre, long, short, ellipse.direction), None, Role.ELLIPSE, Pen.FINE))
        elif long >= 0.1:
            reach = (cos(radians(ellipse.direction)), sin(radians(ellipse.direction)))
            draft.add(Line((along(centre, reach, -long), along(centre, reach, long)), Pen.FINE, Role.ELLIPSE))


def ellipse_ring(centre: Spot, long: float, short: float, direction: float) -> tuple[Spot, ...]:
    """An ellipse as a polygon: half axes in mm, the long one's direction in degrees."""
    axis = (cos(radians(direction)), sin(radians(direction)))
    angles = [radians(6 * step) for step in range(60)]
    return tuple(along(centre, axis, long * cos(angle), short * sin(angle)) for angle in angles)


def name_every_corner(draft: Draft, room: Room, view: View) -> None:
    """Write the corners' names: outside on the bisector, else smaller all round, else with a leader."""
    name_corners(draft, room, view)
    named = {item.text for item in draft.items if isinstance(item, Text) and item.role is Role.CORNER}
    for name, point in room.corners:
        if name not in named and draft.put(around(name, view.at(point), 1.5, role=Role.CORNER)) is None:
            draft.call_out([name], view.at(point), reach=6.0)


def label_lengths(draft: Draft, survey: Survey, view: View) -> None:
    """Write each taped length with its residual along its line; sides outside, ties where there is room."""
    crowded = len(survey.residuals) > CROWD
    for kind in (ReadingKind.SIDE, ReadingKind.TIE):
        for start, end, residual in _lines(survey, view, kind):
            text = length_label(residual, view)
            places = _outside if kind is ReadingKind.SIDE else _beside
            outward = -1.0 if survey.anticlockwise else 1.0
            put = draft.put(places(text, start, end, outward))
            if put is None and not crowded:
                draft.call_out([text], middle(start, end), reach=5.0)


def length_label(residual: Residual, view: View) -> str:
    """What was taped, and in brackets how far the adjusted length is from it."""
    assert isinstance(residual.reading, Length)
    assert isinstance(residual.residual, Length)
    return f"{view.written(residual.reading)} ({fine(residual.residual, view)})"


def _lines(survey: Survey, view: View, kind: ReadingKind) -> Iterator[tuple[Spot, Spot, Residual]]:
    """The lines of one kind of reading, in the order of the walk and in its direction."""
    places = {name: view.at(point) for name, point in survey.points}
    found = {r.name: r for r in survey.residuals if r.kind is kind}
    for first in places:
        for second in places:
            residual = found.get(first + second)
            if residual is not None:
                yield places[first], places[second], residual


def _outside(text: str, start: Spot, end: Spot, outward: float) -> Iterator[Text]:
    """Places along a side, outside the room, nearest to its middle first; then inside it.

    None is so far off that one could wonder which side is meant.
    """
    direction = towards(start, end)
    for side in (outward, -outward):
        for away in (1.4, 3.0, 5.0):
            for share in (0.5, 0.4, 0.6, 0.3, 0.7):
                yield _along(text, start, direction, share * dist(start, end), side * away)


def _beside(text: str, start: Spot, end: Spot, outward: float) -> Iterator[Text]:
    """Places along a tie, close to it on either side, nearest to its middle first."""
    direction = towards(start, end)
    for step in range(19):
        share = 0.5 + (-1) ** step * 0.02 * ((step + 1) // 2 * 2)
        for side in (1.0, -1.0):
            yield _along(text, start, direction, share * dist(start, end), side * _OFF_TIE)


def _along(text: str, start: Spot, direction: Spot, far: float, aside: float) -> Text:
    """A text that reads along a line, clear of it by `aside`, to its left if that is positive."""
    angle = readable(direction)
    # A line that is upright but for a hair reads from the right, as a true one does.
    angle = angle + 180.0 if angle < -87.0 else angle
    upright = cos(radians(angle)) * direction[0] + sin(radians(angle)) * direction[1] > 0
    # The baseline is the text's lower edge as it reads; below the line its whole height comes between.
    below = (aside > 0) != upright
    reach = aside + (SMALL if aside > 0 else -SMALL) * below
    return Text(along(start, direction, far, reach), text, SMALL, angle, 0.5)
