"""The room on the plan: edges of each kind, openings with their leaves, obstacles with their clear zones."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import atan2, cos, degrees, dist, radians, sin

from shapely.geometry import LineString, MultiPolygon, Point, Polygon
from shapely.ops import linemerge, unary_union

from fitter.drawing.draft import Draft
from fitter.drawing.page import MEDIUM, SMALL, Arc, Area, Dash, Line, Pen, Role, Spot, Text
from fitter.drawing.texts import around, readable, within
from fitter.drawing.view import View, along, hatching, middle, ring_of, towards
from rooms.lengths import ZERO
from rooms.room import Edge, EdgeKind, Height, Hinge, Obstacle, Opening, Room, Swing

_DOUBTFUL = 8.0  # a name that is farther than this from its opening has a leader, mm
_SHARES = (0.5, 0.3, 0.7, 0.15, 0.85)  # of an opening's width: where a leader may meet it
BAND = 2.0  # how far the sign of an edge reaches outward, mm


def draw_room(draft: Draft, room: Room, view: View) -> None:
    """Draw outline, openings and obstacles, without lengths and names."""
    inside = Polygon([view.at(point) for point in room.outline])
    for edge in room.edges:
        for start, end in _between_openings(room, edge, view):
            draft.add(*edge_sign(edge.kind, start, end, inside))
    for opening in room.openings:
        draft.add(*_opening(room, opening, view))
    for edge in room.edges:
        if edge.kind is EdgeKind.WALL:
            draft.shade(*(_flesh(start, end, inside) for start, end in _between_openings(room, edge, view)))
    for obstacle in room.obstacles:
        draft.add(*_obstacle(obstacle, inside, view))
    draft.bound([view.at(point) for point in room.outline])


def _between_openings(room: Room, edge: Edge, view: View) -> list[tuple[Spot, Spot]]:
    jambs = [room.jambs(opening) for opening in room.openings if opening.edge == edge.name]
    start = view.at(edge.start)
    pairs = [(view.at(a), view.at(b)) for a, b in jambs]
    pairs.sort(key=lambda pair: (pair[0][0] - start[0]) ** 2 + (pair[0][1] - start[1]) ** 2)
    spots = [start, *(spot for pair in pairs for spot in pair), view.at(edge.end)]
    return [(a, b) for a, b in zip(spots[::2], spots[1::2], strict=True) if a != b]


def edge_sign(kind: EdgeKind, start: Spot, end: Spot, inside: Polygon) -> list[Line | Area]:
    """The lines of a piece of edge; the room (`inside`, kept free) lies to the left of start to end."""
    direction = towards(start, end)
    if kind is EdgeKind.WALL:
        return [Line((start, end), Pen.HEAVY, Role.EDGE), *_wall_hatch(start, end, inside)]
    if kind is EdgeKind.RAILING:
        return _railing(start, end, direction)
    if kind is EdgeKind.OPEN:
        return [Line((start, end), Pen.MEDIUM, Role.EDGE, Dash.LONG)]
    treads = [
        Line((along(start, direction, 0, -aside), along(end, direction, 0, -aside)), Pen.FINE, Role.EDGE)
        for aside in (BAND / 2, BAND)
    ]
    return [Line((start, end), Pen.WIDE, Role.EDGE), *treads]


def _wall_hatch(start: Spot, end: Spot, inside: Polygon) -> list[Line | Area]:
    return [Line(stroke, Pen.FINE, Role.HATCH) for stroke in hatching(_flesh(start, end, inside))]


def _flesh(start: Spot, end: Spot, inside: Polygon) -> Polygon:
    """The strip behind the face of a wall that is hatched."""
    return LineString([start, end]).buffer(-BAND, single_sided=True).difference(inside.buffer(0.1))


def _railing(start: Spot, end: Spot, direction: Spot) -> list[Line | Area]:
    length = LineString([start, end]).length
    count = max(1, round(length / 14))
    posts = []
    for i in range(count + 1):
        near = min(max(length * i / count, 0.6), max(length - 0.6, 0.0))
        ring = tuple(along(start, direction, near + a, -b) for a, b in ((-0.6, 0), (0.6, 0), (0.6, 1.2), (-0.6, 1.2)))
        posts.append(Area(ring, 0.0, Role.EDGE))
    lines = [
        Line((along(start, direction, 0, -aside), along(end, direction, 0, -aside)), Pen.MEDIUM, Role.EDGE)
        for aside in (0.0, 1.2)
    ]
    return [*lines, *posts]


def _opening(room: Room, opening: Opening, view: View) -> list[Line | Arc]:
    first, last = (view.at(jamb) for jamb in room.jambs(opening))
    direction = towards(first, last)
    jambs = [
        Line((along(jamb, direction, 0, 0.8), along(jamb, direction, 0, -BAND - 0.4)), Pen.WIDE, Role.OPENING)
        for jamb in (first, last)
    ]
    sill = Line((first, last), Pen.FINE, Role.OPENING, Dash.HIDDEN)
    return [*jambs, sill, *_leaf(room.edge(opening.edge), opening, first, last, view)]


def _leaf(edge: Edge, opening: Opening, first: Spot, last: Spot, view: View) -> list[Line | Arc]:
    if opening.swing is Swing.NONE:
        return []
    hinge_first = (opening.hinge is Hinge.FIRST) == edge.forward
    hinge, latch = (first, last) if hinge_first else (last, first)
    inward = 1.0 if opening.swing is Swing.IN else -1.0
    radius = view.of(opening.width)
    tip = along(hinge, towards(first, last), 0, inward * radius)
    angles = [degrees(atan2(spot[1] - hinge[1], spot[0] - hinge[0])) for spot in (latch, tip)]
    low, high = sorted(angles)
    low, high = (low, high) if high - low < 180 else (high, low + 360)
    return [
        Line((hinge, tip), Pen.WIDE, Role.OPENING),
        Arc(hinge, radius, low, high, Pen.FINE, Role.OPENING),
    ]


def obstacle_shape(obstacle: Obstacle, view: View, grow: float = 0.0) -> Polygon:
    """An obstacle on paper, grown by `grow` millimetres of paper."""
    core = [view.at(point) for point in obstacle.core]
    shape = Point(core[0]) if len(core) == 1 else Polygon(core)
    size = view.of(obstacle.radius) + grow
    return shape.buffer(size, quad_segs=24) if size > 0 else shape


def _obstacle(obstacle: Obstacle, inside: Polygon, view: View) -> list[Line | Area]:
    """A thing on the floor, with the ground around it that stays clear as far as that lies in the room."""
    shape = obstacle_shape(obstacle, view)
    signs = obstacle_sign(obstacle, shape)
    if obstacle.clear <= ZERO:
        return signs
    zone = obstacle_shape(obstacle, view, view.of(obstacle.clear))
    rim = zone.exterior.intersection(inside)
    lines = linemerge(rim) if rim.geom_type == "MultiLineString" else rim
    parts = [part for part in getattr(lines, "geoms", (lines,)) if part.geom_type == "LineString" and not part.is_empty]
    return [*(Line(tuple(part.coords), Pen.FINE, Role.CLEAR, Dash.HIDDEN) for part in parts), *signs]


def obstacle_sign(obstacle: Obstacle, shape: Polygon) -> list[Line | Area]:
    """The sign of what stands, is to be reached, or is a hole; `draw_low` draws what lies low."""
    if obstacle.hole:
        strokes = [*hatching(shape, gap=2.4), *hatching(shape, gap=2.4, rising=False)]
        return [Area(ring_of(shape), 1.0, Role.HOLE, Pen.HEAVY), *_fine(strokes)]
    if obstacle.height is Height.LOW:
        return []
    body = Area(ring_of(shape), 1.0, Role.OBSTACLE, Pen.WIDE)
    if obstacle.height is Height.REACH:
        return [body, *_fine(hatching(shape, gap=2.0)), *reach_sign(shape)]
    return [body, *_fine(hatching(shape, gap=2.0))]


def _fine(strokes: Iterable[tuple[Spot, Spot]]) -> list[Line | Area]:
    return [Line(stroke, Pen.FINE, Role.HATCH) for stroke in strokes]


def reach_sign(shape: Polygon) -> list[Line | Area]:
    """A cross through a thing and a little beyond it, for what a hand has to reach."""
    x, y = shape.centroid.x, shape.centroid.y
    x0, y0, x1, y1 = shape.bounds
    wide, high = (x1 - x0) / 2 + 1.5, (y1 - y0) / 2 + 1.5
    strokes = (((x - wide, y), (x + wide, y)), ((x, y - high), (x, y + high)))
    return [Line(stroke, Pen.MEDIUM, Role.REACH) for stroke in strokes]


def draw_low(draft: Draft, room: Room, view: View) -> None:
    """Draw low obstacles, dashed and hatched, over whatever stands above them."""
    for obstacle in room.obstacles:
        if obstacle.height is Height.LOW:
            shape = obstacle_shape(obstacle, view)
            draft.add(*_fine(hatching(shape, gap=3.2)))
            draft.add(Area(ring_of(shape), None, Role.LOW, Pen.MEDIUM, Dash.HIDDEN))


def name_corners(draft: Draft, room: Room, view: View) -> None:
    """Write each corner's name outside the outline, on the line that halves the corner."""
    places = [view.at(point) for point in room.outline]
    names = {view.at(point): name for name, point in room.corners}
    inside = Polygon(places)
    for i, spot in enumerate(places):
        before, after = towards(spot, places[i - 1]), towards(spot, places[(i + 1) % len(places)])
        halving = towards((0.0, 0.0), (before[0] + after[0], before[1] + after[1]))
        if halving == (0.0, 0.0):
            halving = (-after[1], after[0])
        sign = -1.0 if inside.contains(Point(along(spot, halving, 0.5))) else 1.0
        draft.put(_corner_places(names.get(spot, ""), spot, (sign * halving[0], sign * halving[1])))


def _corner_places(name: str, spot: Spot, outward: Spot) -> list[Text]:
    places = [along(spot, outward, 4.4 + 0.8 * i, aside) for i in range(12) for aside in (0.0, 1.5, -1.5, 3.0, -3.0)]
    return [Text((x, y - MEDIUM / 2), name, MEDIUM, 0.0, 0.5, Role.CORNER) for x, y in places]


def name_things(draft: Draft, room: Room, view: View) -> None:
    """Write the names of openings and obstacles, with a leader where they find no place beside the thing."""
    inside = Polygon([view.at(point) for point in room.outline])
    hatched = unary_union([obstacle_shape(obstacle, view) for obstacle in room.obstacles])
    for obstacle in room.obstacles:
        _name_obstacle(draft, obstacle, view)
    for opening in room.openings:
        first, last = (view.at(jamb) for jamb in room.jambs(opening))
        target = along(middle(first, last), towards(first, last), 0, 1.0)
        near = [text for text in around(opening.name, target, 2.0) if inside.contains(Polygon(text.box))]
        places = (*_before(opening.name, first, last), *near, *_behind(opening.name, first, last))
        sill = LineString((first, last))
        good = [text for text in places if _tells(text, sill, hatched) and draft.off_furniture(text)]
        if draft.put(good) is None:
            # From the line of the door itself, which no obstacle can hatch.
            draft.call_out([opening.name], *(along(first, towards(first, last), s * sill.length) for s in _SHARES))


def _tells(text: Text, sill: LineString, hatched: Polygon | MultiPolygon) -> bool:
    """Whether the name of an opening is plain to read there, and near enough that one cannot doubt what it names."""
    shape = Polygon(text.box)
    return shape.distance(sill) <= _DOUBTFUL and not hatched.intersects(shape)


def _before(name: str, first: Spot, last: Spot) -> Iterator[Text]:
    """Places for a name on the floor before an opening, nearest to it first."""
    direction = towards(first, last)
    angle = readable(direction)
    width = Text(first, name, SMALL).width
    size = dist(first, last)
    upright = cos(radians(angle)) * direction[0] + sin(radians(angle)) * direction[1] > 0
    for away in (1.4, 3.4, 6.0, 9.0, 12.0):
        for share in (0.5, 0.25, 0.75):
            spot = along(first, direction, size * share, away if upright else away + SMALL)
            if min(share, 1 - share) * size > width / 2 + 0.8 or share == 0.5:
                yield Text(spot, name, SMALL, angle, 0.5)


def _behind(name: str, first: Spot, last: Spot) -> Iterator[Text]:
    """Places for a name outside an opening that furniture stands before, between its jambs."""
    direction = towards(first, last)
    angle = readable(direction)
    upright = cos(radians(angle)) * direction[0] + sin(radians(angle)) * direction[1] > 0
    if Text(first, name, SMALL).width + 1.6 < dist(first, last):
        for away in (1.4, 2.4, 3.4):
            spot = along(middle(first, last), direction, 0.0, -away - (SMALL if upright else 0.0))
            yield Text(spot, name, SMALL, angle, 0.5)


def _name_obstacle(draft: Draft, obstacle: Obstacle, view: View) -> None:
    shape = obstacle_shape(obstacle, view)
    lines = [obstacle.name, *_asked(obstacle, view)]
    for text in within(lines[0], ring_of(shape)):
        masked = Text(text.at, text.text, text.height, text.angle, text.anchor, text.role, masked=True)
        if len(lines) == 1 and draft.free(masked):
            draft.add(masked)
            return
    reach = max(6.0, shape.minimum_rotated_rectangle.length / 8 + 3.0)
    draft.call_out(lines, _target(draft, shape), reach=reach)


def _target(draft: Draft, shape: Polygon) -> Spot:
    """A point of a shape that no text hides: its middle, else one on its rim."""
    inner = shape.representative_point()
    rim = [shape.exterior.interpolate(n / 16, normalized=True) for n in range(16)]
    spots = [(point.x, point.y) for point in (inner, *rim)]
    return next((spot for spot in spots if draft.off_texts((spot, along(spot, (1.0, 0.0), 0.1)))), spots[0])


def _asked(obstacle: Obstacle, view: View) -> list[str]:
    """What an obstacle asks of its surroundings."""
    clear = view.written(obstacle.clear, feet=False)
    if obstacle.height is Height.LOW:
        return [f"no foot within {clear}" if obstacle.clear else "no foot on it"]
    return [f"keep {clear} clear"] if obstacle.clear else []
