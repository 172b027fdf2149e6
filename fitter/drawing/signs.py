"""The key: a small sample of each sign that occurs on the plan."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from shapely.geometry import Point, Polygon, box

from fitter.domain.layout import Layout
from fitter.domain.notching import angle_boards
from fitter.domain.project import Project
from fitter.domain.wishes import FillKind
from fitter.drawing.corners import BOARD, bare_strips, low_post, overhang, visible_gap
from fitter.drawing.ground import edge_sign, reach_sign
from fitter.drawing.page import Area, Dash, Item, Line, Pen, Role
from fitter.drawing.seats import SPLIT
from fitter.drawing.view import View, hatching, ring_of
from rooms.lengths import ZERO
from rooms.room import EdgeKind, Height, Room, Swing

_LONG = 13.0
_RING = ((0.0, -1.7), (_LONG, -1.7), (_LONG, 1.7), (0.0, 1.7))
_WIDE_ARM = 0.88
LEGS = "leg room kept free"
"""What the sign of the leg room says."""


@dataclass(frozen=True)
class Sign:
    """A sample, drawn from (0, 0) to the right, and what it stands for."""

    items: tuple[Item, ...]
    says: str


_EDGES = {
    EdgeKind.WALL: "wall",
    EdgeKind.RAILING: "railing",
    EdgeKind.OPEN: "open edge",
    EdgeKind.STEP: "step down",
}


def signs(project: Project, layout: Layout, view: View) -> tuple[Sign, ...]:
    """The signs that can be seen at a scale, edges first."""
    return (*room_signs(project.room), *wood_signs(project, layout, view))


def room_signs(room: Room) -> tuple[Sign, ...]:
    """The signs of a room, edges first."""
    return (*_edge_signs(room), *_things_signs(room))


def _edge_signs(room: Room) -> Iterator[Sign]:
    kinds = [edge.kind for edge in room.edges]
    for kind, says in _EDGES.items():
        if kind in kinds:
            sample = edge_sign(kind, (0.0, 0.6), (_LONG, 0.6), Polygon())
            yield Sign(tuple(_in_panel(item) for item in sample), says)


def _in_panel(item: Line | Area) -> Item:
    if isinstance(item, Line):
        return Line(item.spots, item.pen, Role.PANEL, item.dash)
    return Area(item.ring, item.grey, Role.PANEL, item.pen, item.dash)


def _stroke(pen: Pen, dash: Dash, y: float = 0.0) -> Line:
    return Line(((0.0, y), (_LONG, y)), pen, Role.PANEL, dash)


def _things_signs(room: Room) -> Iterator[Sign]:
    if any(obstacle.clear > ZERO for obstacle in room.obstacles):
        yield Sign((_stroke(Pen.FINE, Dash.HIDDEN),), "ground kept clear")
    if any(obstacle.height is Height.FULL and not obstacle.hole for obstacle in room.obstacles):
        yield Sign(_hatched(2.0, rising=True), "obstacle")
    yield from (Sign(tuple(items), says) for items, says in _special_obstacles(room))
    if any(opening.swing is not Swing.NONE for opening in room.openings):
        yield Sign((_stroke(Pen.WIDE, Dash.SOLID),), "door leaf, with its swing")
    if room.routes:
        ring = ((0.0, -1.7), (_LONG, -1.7), (_LONG, 1.7), (0.0, 1.7))
        yield Sign((Area(ring, 0.94, Role.PANEL), _stroke(Pen.FINE, Dash.CENTRE)), "route, as wide as asked")


def _special_obstacles(room: Room) -> Iterator[tuple[Iterable[Item], str]]:
    shape = box(0.0, -1.6, _LONG, 1.6)
    if any(obstacle.height is Height.LOW for obstacle in room.obstacles):
        strokes = (Line(stroke, Pen.FINE, Role.PANEL) for stroke in hatching(shape, gap=3.2))
        yield (Area(ring_of(shape), None, Role.PANEL, Pen.MEDIUM, Dash.HIDDEN), *strokes), "low: no foot on it"
    if any(obstacle.height is Height.REACH for obstacle in room.obstacles):
        dot = Point(_LONG / 2, 0.0).buffer(0.8)
        yield (
            (_in_panel(item) for item in (Area(ring_of(dot), 1.0, Role.PANEL, Pen.WIDE), *reach_sign(dot))),
            "to be reached",
        )
    if any(obstacle.hole for obstacle in room.obstacles):
        both = [*hatching(shape, gap=2.4), *hatching(shape, gap=2.4, rising=False)]
        lines = (Line(stroke, Pen.FINE, Role.PANEL) for stroke in both)
        yield (Area(ring_of(shape), None, Role.PANEL, Pen.HEAVY), *lines), "hole in the ground"


def _slatted() -> tuple[Item, ...]:
    strokes = (Line(((0.0, y), (_LONG, y)), Pen.FINE, Role.PANEL) for y in (-0.6, 0.6))
    return (Area(_RING, 1.0, Role.PANEL, Pen.MEDIUM), *strokes)


def _hatched(gap: float, *, rising: bool) -> tuple[Item, ...]:
    shape = box(0.0, -1.6, _LONG, 1.6)
    ring = tuple((x, y) for x, y in shape.exterior.coords[:-1])
    strokes = (Line(stroke, Pen.FINE, Role.PANEL) for stroke in hatching(shape, gap, rising))
    return (Area(ring, None, Role.PANEL, Pen.MEDIUM), *strokes)


def wood_signs(project: Project, layout: Layout, view: View) -> Iterator[Sign]:
    """The signs of the layout alone; `LEGS` first."""
    yield Sign((_stroke(Pen.FINE, Dash.DOTTED),), LEGS)
    if layout.rails:
        yield Sign((_stroke(Pen.FINE, Dash.HIDDEN, 0.8), _stroke(Pen.FINE, Dash.HIDDEN, -0.8)), "rail below")
    if layout.posts:
        ring = ((5.5, -1.0), (7.5, -1.0), (7.5, 1.0), (5.5, 1.0))
        yield Sign((Area(ring, 0.0, Role.PANEL),), "post")
        if layout.corner is not None and not layout.corner.tall:
            ring = ((4.9, -1.6), (8.1, -1.6), (8.1, 1.6), (4.9, 1.6))
            yield Sign(tuple(low_post(ring, Role.PANEL)), "corner post that ends under the seat")
    if angle_boards(layout, project.frame, project.mark):
        boards = (
            ((4.5, -1.6), (8.5, -1.6), (8.5, -0.8), (4.5, -0.8)),
            ((4.5, -0.8), (5.3, -0.8), (5.3, 1.8), (4.5, 1.8)),
        )
        yield Sign(tuple(Area(ring, BOARD, Role.PANEL, Pen.FINE) for ring in boards), "boards that hold the backs")
    if overhang(project) and layout.rails:
        yield Sign((_stroke(Pen.WIDE, Dash.HIDDEN),), "front of the wood, under the cushions")
    if any(fill.kind is FillKind.SHELF for fill in layout.fills):
        yield Sign(_slatted(), "slatted shelf")
    if any(fill.kind is FillKind.ARM for fill in layout.fills):
        yield Sign((Area(_RING, _WIDE_ARM, Role.PANEL, Pen.MEDIUM),), "wide arm")
    if layout.splits:
        yield Sign((_stroke(Pen.WIDE, SPLIT),), "comes apart here")
    if layout.notches:
        yield Sign(_hatched(0.8, rising=False), "notch in the cushion")
    if visible_gap(layout, view) or any(bare_strips(layout, module, view) for module in layout.modules):
        yield Sign(_hatched(1.6, rising=False), "place left uncovered")
    if any(module.seats > 1 for module in layout.modules):
        yield Sign((_stroke(Pen.FINE, Dash.CENTRE),), "between two seats")
