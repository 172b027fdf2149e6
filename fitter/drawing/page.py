"""A drawing as a list of things on a page, in millimetres of paper; x to the right, y up."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import Enum, StrEnum
from math import cos, hypot, radians, sin
from typing import TypeAlias

from fitter.drawing import metrics
from rooms.lengths import Length

Spot: TypeAlias = tuple[float, float]
Segment: TypeAlias = tuple[Spot, Spot]

SMALL = 2.5
MEDIUM = 3.5
LARGE = 5.0


class Pen(Enum):
    """Line widths in millimetres; the series of ISO 128, steps of the square root of two (from memory)."""

    FINE = 0.25
    MEDIUM = 0.35
    WIDE = 0.5
    HEAVY = 0.7


class Dash(Enum):
    """Line types: lengths of dash and gap in millimetres, repeated; ISO 128 by habit (from memory)."""

    SOLID = ()
    HIDDEN = (1.8, 0.9)
    SHORT = (0.8, 0.5)
    LONG = (6.0, 1.5)
    CENTRE = (7.0, 1.2, 0.8, 1.2)
    DOTTED = (0.5, 1.1)


class Role(StrEnum):
    """What a thing on the page stands for, so that tests and other drawings can pick it out."""

    FRAME = "frame"
    EDGE = "edge"
    HATCH = "hatch"
    OPENING = "opening"
    OBSTACLE = "obstacle"
    CLEAR = "clear zone"
    ROUTE = "route"
    LEGROOM = "leg room"
    CUSHION = "cushion"
    NOTCH = "notch"
    BARE = "uncovered"
    SEAT = "between seats"
    TABLE = "table"
    LOW = "low obstacle"
    REACH = "within reach"
    HOLE = "hole"
    BACK = "back panel"
    END = "end"
    SHELF = "shelf or wide arm"
    POST = "post"
    BOARD = "angle board"
    RAIL = "rail"
    SPLIT = "split"
    LEADER = "leader"
    DIMENSION = "dimension"
    CORNER = "corner name"
    LABEL = "label"
    PANEL = "panel"
    CLASH = "clash"
    TIE = "tie"
    TURN = "turn"
    ELLIPSE = "error ellipse"
    PART = "part"
    UNSEEN = "hidden part"
    CUT = "cut part"
    FLOOR = "floor"
    LEVEL = "level"
    MARK = "mark"


@dataclass(frozen=True)
class Line:
    """A polyline."""

    spots: tuple[Spot, ...]
    pen: Pen
    role: Role
    dash: Dash = Dash.SOLID


@dataclass(frozen=True)
class Area:
    """A filled polygon.

    Args:
        ring: its corners.
        grey: 0 is black, 1 is white; None leaves it unfilled.
        role: what it stands for.
        pen: of its outline; None draws none.
        dash: of its outline.
    """

    ring: tuple[Spot, ...]
    grey: float | None
    role: Role
    pen: Pen | None = None
    dash: Dash = Dash.SOLID


@dataclass(frozen=True)
class Arc:
    """A part of a circle, anticlockwise from `first` to `last` degrees."""

    centre: Spot
    radius: float
    first: float
    last: float
    pen: Pen
    role: Role
    dash: Dash = Dash.SOLID

    @property
    def spots(self) -> tuple[Spot, ...]:
        """Points along it, no more than 5 degrees apart."""
        steps = max(1, round(abs(self.last - self.first) / 5))
        angles = [radians(self.first + (self.last - self.first) * i / steps) for i in range(steps + 1)]
        x, y = self.centre
        return tuple((x + self.radius * cos(a), y + self.radius * sin(a)) for a in angles)


@dataclass(frozen=True)
class Text:
    """One line of text.

    Args:
        at: where the anchor lies on the page.
        text: what is written.
        height: of its capitals, mm.
        angle: degrees anticlockwise.
        anchor: the share of its width that lies before `at`: 0 left, 0.5 middle, 1 right.
        role: what it stands for.
        masked: whether it stands on a white ground that hides what lies below it.
    """

    at: Spot
    text: str
    height: float = SMALL
    angle: float = 0.0
    anchor: float = 0.0
    role: Role = Role.LABEL
    masked: bool = False

    @property
    def width(self) -> float:
        """Its length along the baseline, mm."""
        return metrics.text_width(self.text, self.height)

    @property
    def box(self) -> tuple[Spot, ...]:
        """The four corners of the rectangle that its glyphs stay in, from the lower left."""
        em = self.height / metrics.CAPITAL
        left, right = -self.anchor * self.width, (1 - self.anchor) * self.width
        low, high = -metrics.DESCENT * em, metrics.ASCENT * em
        c, s = cos(radians(self.angle)), sin(radians(self.angle))
        x, y = self.at
        return tuple(
            (x + a * c - b * s, y + a * s + b * c) for a, b in ((left, low), (right, low), (right, high), (left, high))
        )


def ticks(ends: Segment) -> tuple[Segment, Segment]:
    """Strokes at 45 degrees across both ends of a dimension line, as is common in building."""
    (x0, y0), (x1, y1) = ends
    size = hypot(x1 - x0, y1 - y0) or 1.0
    ux, uy = (x1 - x0) / size, (y1 - y0) / size
    dx, dy = 0.8 * (ux - uy), 0.8 * (uy + ux)
    return ((x0 - dx, y0 - dy), (x0 + dx, y0 + dy)), ((x1 - dx, y1 - dy), (x1 + dx, y1 + dy))


@dataclass(frozen=True)
class Dimension:
    """A length written between two extension lines.

    Args:
        feet: the two points of the drawing that it measures between, along the dimension line's direction.
        ends: the ends of the dimension line.
        length: what is measured, in the room.
        text: how it is written, and where.
        extensions: pieces of extension lines, already with their gap and overshoot, broken at texts.
        tail: what leads to a text that does not fit between: the line drawn on beyond an end, or a leader.
    """

    feet: Segment
    ends: Segment
    length: Length
    text: Text
    extensions: tuple[Segment, ...] = ()
    tail: tuple[Spot, ...] = ()

    @property
    def ticks(self) -> tuple[Segment, Segment]:
        """The oblique strokes at both ends."""
        return ticks(self.ends)

    @property
    def strokes(self) -> tuple[tuple[Spot, ...], ...]:
        """Its lines but for the ticks."""
        return (self.ends, *self.extensions, *((self.tail,) if self.tail else ()))


Item: TypeAlias = Line | Area | Arc | Text | Dimension


def moved(item: Item, by: Spot) -> Item:
    """The same thing, shifted on the page."""
    dx, dy = by

    def shift(spot: Spot) -> Spot:
        return (spot[0] + dx, spot[1] + dy)

    def pair(segment: Segment) -> Segment:
        return (shift(segment[0]), shift(segment[1]))

    if isinstance(item, Line):
        return replace(item, spots=tuple(map(shift, item.spots)))
    if isinstance(item, Area):
        return replace(item, ring=tuple(map(shift, item.ring)))
    if isinstance(item, Arc):
        return replace(item, centre=shift(item.centre))
    if isinstance(item, Text):
        return replace(item, at=shift(item.at))
    return replace(
        item,
        feet=pair(item.feet),
        ends=pair(item.ends),
        text=replace(item.text, at=shift(item.text.at)),
        extensions=tuple(map(pair, item.extensions)),
        tail=tuple(map(shift, item.tail)),
    )


def spots_of(item: Item) -> tuple[Spot, ...]:
    """Points whose hull holds the whole item."""
    if isinstance(item, Line | Arc):
        return item.spots
    if isinstance(item, Area):
        return item.ring
    if isinstance(item, Text):
        return item.box
    ticks = (spot for tick in item.ticks for spot in tick)
    return (*(spot for stroke in item.strokes for spot in stroke), *ticks, *item.text.box)


def bounds(items: Iterable[Item]) -> tuple[float, float, float, float]:
    """Least x, least y, greatest x and greatest y of all items."""
    spots = [spot for item in items for spot in spots_of(item)]
    xs, ys = [x for x, _ in spots], [y for _, y in spots]
    return min(xs), min(ys), max(xs), max(ys)


@dataclass(frozen=True)
class Page:
    """One sheet, ready to be rendered.

    Args:
        title: of the drawing.
        sheet: name of the paper, such as `A4 landscape`.
        width: of the paper, mm.
        height: of the paper, mm.
        denominator: true sizes are this many times those on paper.
        scale: how the scale is written.
        origin: where the origin of the room frame lies on the page.
        items: in drawing order, later ones on top.
    """

    title: str
    sheet: str
    width: float
    height: float
    denominator: int
    scale: str
    origin: Spot
    items: tuple[Item, ...]

    @property
    def texts(self) -> tuple[Text, ...]:
        """Every text on the page, those of dimensions included."""
        return tuple(
            item.text if isinstance(item, Dimension) else item
            for item in self.items
            if isinstance(item, Text | Dimension)
        )

    @property
    def dimensions(self) -> tuple[Dimension, ...]:
        """Every dimension on the page."""
        return tuple(item for item in self.items if isinstance(item, Dimension))

    def having(self, role: Role) -> tuple[Item, ...]:
        """The items of one role."""
        return tuple(item for item in self.items if not isinstance(item, Dimension) and item.role is role)
