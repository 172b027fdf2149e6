"""Which lengths the plan shows: of every edge and opening, of each run, and where the furniture stands."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from shapely.geometry import LineString, Point, Polygon

from fitter.domain.fixing import fixing_gaps
from fitter.domain.layout import Box, Layout, Run, Side
from fitter.domain.project import Project
from fitter.drawing.chains import FIRST, STEP, Chain, draw_chain, draw_span
from fitter.drawing.corners import overhang
from fitter.drawing.draft import Draft
from fitter.drawing.metrics import text_width
from fitter.drawing.page import SMALL, Dimension, Segment
from fitter.drawing.view import View, along, towards
from rooms.lengths import ZERO, Length
from rooms.room import Edge, Room

_NEAR = 26.0  # a chain goes outside the outline if that is no farther than this from the furniture, mm
_BEHIND = 7.0
_FAR = 60.0  # extension lines hardly get longer than this, mm
_HAIR = 0.3  # so far within the ends of a chain it is looked what lies behind, mm
_LEVEL = 0.5  # lines that lean less over each other, and lap less, are beside each other, mm
_ASIDE = 45.0  # a chain that is farther from an edge belongs to another one, mm
_SHOWN = 4.0  # a gap at the edge that is narrower on paper is only written, mm


def draw_measures(draft: Draft, project: Project, layout: Layout, view: View) -> None:
    """Draw all chains, those of the furniture nearest to it, those of the room outside them."""
    room = project.room
    foot = _extent(layout.footprint)
    draft.foresee(ray for edge in room.edges for ray in _rays(room, edge, view))
    if layout.pose.edge is None:
        _from_the_edges(draft, room, layout, view)
    for run in layout.runs:
        _run_chain(draft, room, layout, run, foot, view)
    if len(layout.runs) == 1 or (len(layout.runs) == 2 and layout.gap):
        _depth_chain(draft, project, layout, foot, view)
    if layout.pose.edge is None:
        _overall_chain(draft, room, layout, foot, view)
    else:
        _position_chain(draft, room.edge(layout.pose.edge), layout, view)
    wood = tuple(item for item in draft.items if isinstance(item, Dimension))
    for edge in room.edges:
        _edge_chains(draft, room, edge, wood, view)


def _outside(chain: Chain, drawn: Iterable[Dimension]) -> float:
    """The first distance from its feet at which a chain lies outside those of the details along it."""
    start, (x, y) = chain.feet[0], chain.direction
    end = (chain.feet[-1][0] - start[0]) * x + (chain.feet[-1][1] - start[1]) * y
    first = FIRST
    for dimension in drawn:
        spots = [(a - start[0], b - start[1]) for a, b in dimension.ends]
        low, high = sorted(a * x + b * y for a, b in spots)
        near, far = sorted(a * y - b * x for a, b in spots)
        if far - near < _LEVEL and min(high, end) - max(low, 0.0) > _LEVEL and 0.0 < near < _ASIDE:
            first = max(first, far + STEP)
    return first


def _extent(boxes: Sequence[Box]) -> Box:
    return Box(
        min(box.x0 for box in boxes),
        min(box.y0 for box in boxes),
        max(box.x1 for box in boxes),
        max(box.y1 for box in boxes),
    )


def _run_chain(draft: Draft, room: Room, layout: Layout, run: Run, foot: Box, view: View) -> None:
    """Modules and all that adds to them, behind the back of the run."""
    if run.side is Side.MAIN:
        places = _stations(layout, run, [*_from_edge(layout, run, foot.x0, foot.x1, view), foot.x0, foot.x1], view)
        spots = [layout.pose.to_room(x, foot.y0) for x in places]
        lengths, labels = _parts(places, run, run.deck.x0, run.deck.x1, view)
    else:
        top = max(box.y1 for box in _last(layout, run))
        places = _stations(layout, run, [*_from_edge(layout, run, foot.y0, top, view), foot.y0, top], view)
        low = run.side is Side.RIGHT
        spots = [layout.pose.to_room(foot.x0 if low else foot.x1, y) for y in places]
        lengths, labels = _parts(places, run, run.deck.y0, run.deck.y1, view)
        if low:
            spots, lengths, labels = spots[::-1], lengths[::-1], labels[::-1]
    feet = tuple(view.exact(spot) for spot in spots)
    chain = Chain(feet, towards(feet[0], feet[-1]), tuple(lengths), tuple(labels))
    base, first = _beyond(room, chain, view)
    # Others stand outside it, so that it moves out no farther than it must.
    draw_chain(draft, chain, base, first, STEP / 2)


def _last(layout: Layout, run: Run) -> list[Box]:
    """What stands beyond the last module of an arm."""
    ends = [end.box for end in layout.ends if end.run is run.side]
    return [*ends, *(fill.box for fill in layout.built_fills if fill.run is run.side)]


def _from_edge(layout: Layout, run: Run, low: Length, high: Length, view: View) -> list[Length]:
    """The line of the backing edge where a run stands off from it, unless the gap is too small to be dimensioned.

    It is written under "Setting out" in any case.
    """
    across = (run.side is Side.MAIN) is not (layout.pose.aligned is Side.MAIN)
    gap = min(abs(low), abs(high))
    return [ZERO] if layout.pose.edge is not None and across and view.of(gap) >= _SHOWN else []


def _stations(layout: Layout, run: Run, outer: Sequence[Length], view: View) -> list[Length]:
    """Where the chain of a run is divided: outer faces, the corner places at its ends, splits, the module lines."""
    main = run.side is Side.MAIN
    start, end = (run.deck.x0, run.deck.x1) if main else (run.deck.y0, run.deck.y1)
    places = [*outer, start, end]
    for fill in layout.built_fills:
        if fill.run is run.side:
            places += [fill.box.x0, fill.box.x1] if main else [fill.box.y0, fill.box.y1]
    for module in layout.corners:
        if main:
            places += [module.box.x0, module.box.x1]
        elif module.corner is run.side:
            places += [module.box.y0, module.box.y1]
    places += [layout.line_at(run.side, line) for line in layout.split_lines(run.side)]
    if _written_singly(run, view):
        places += [start + i * run.pitch for i in range(1, run.count)]
    return sorted(set(places))


def _written_singly(run: Run, view: View) -> bool:
    wide = text_width(view.written(run.pitch, feet=False), SMALL) + 2.5
    return run.count <= 4 and view.of(run.pitch) >= wide


def _parts(places: list[Length], run: Run, start: Length, end: Length, view: View) -> tuple[list[Length], list[str]]:
    lengths = [b - a for a, b in pairwise(places)]
    labels = [_part(a, b, run, start, end, view) for a, b in pairwise(places)]
    return lengths, labels


def _part(a: Length, b: Length, run: Run, start: Length, end: Length, view: View) -> str:
    """A part of a run's chain, several modules as a product."""
    count, rest = divmod((b - a).units, run.pitch.units)
    whole = view.written(b - a, feet=False)
    if count > 1 and not rest and start <= a and b <= end:
        return f"{count} × {view.written(run.pitch, feet=False)} = {whole}"
    return whole


def _beyond(room: Room, chain: Chain, view: View) -> tuple[float, float]:
    """How far the outline goes on to the right of a chain's feet, and the first distance from there.

    Where the outline is far, the chain stays inside the room, close to the furniture.
    """
    inside = Polygon([view.at(point) for point in room.outline])
    start, end = chain.feet[0], chain.feet[-1]
    size = Point(start).distance(Point(end))
    reach = 0.0
    for i in range(21):
        foot = along(start, chain.direction, min(max(size * i / 20, _HAIR), size - _HAIR))
        ray = LineString([foot, along(foot, chain.direction, 0, -4000.0)]).intersection(inside)
        first = min(getattr(ray, "geoms", (ray,)), key=lambda part: part.distance(Point(foot)))
        reach = max(reach, 0.0 if first.is_empty else first.length)
    return (reach, FIRST) if reach <= _NEAR else (0.0, _BEHIND)


def _depth_chain(draft: Draft, project: Project, layout: Layout, foot: Box, view: View) -> None:
    """Off the edge, back panel and deck of the main run, beyond an end without an arm; in an L its deck only.

    The deck is divided where cushions begin and where the wood ends below them.
    """
    run, low = layout.runs[0], layout.hand is Side.LEFT
    front = run.deck.y1 - overhang(project)
    stations = {run.deck.y0, run.deck.y0 + layout.gap, front, run.deck.y1}
    if len(layout.runs) == 1:
        stations |= {foot.y0, ZERO if layout.pose.edge is not None else foot.y0}
    places = sorted(stations, reverse=low)
    x = foot.x0 if low else foot.x1
    feet = tuple(view.exact(layout.pose.to_room(x, y)) for y in places)
    lengths = tuple(abs(b - a) for a, b in pairwise(places))
    labels = tuple(view.written(length, feet=False) for length in lengths)
    chain = Chain(feet, towards(feet[0], feet[-1]), lengths, labels)
    base, first = _beyond(project.room, chain, view)
    draw_chain(draft, chain, base, first)


def _position_chain(draft: Draft, edge: Edge, layout: Layout, view: View) -> None:
    """Where the furniture begins and ends along its backing edge, and its overall length there."""
    low, high = layout.reach

    def draw(*places: Length) -> None:
        feet = tuple(view.exact(_on_edge(layout, place)) for place in places)
        lengths = tuple(b - a for a, b in pairwise(places))
        chain = Chain(feet, towards(feet[0], feet[-1]), lengths, tuple(map(view.written, lengths)))
        draw_chain(draft, chain, 0.0, _outside(chain, [item for item in draft.items if isinstance(item, Dimension)]))

    if low >= ZERO and high <= edge.length:
        draw(*sorted({ZERO, low, high, edge.length}))
        return
    draw(low, high)
    if low:
        draw(*sorted((ZERO, low)))


def _on_edge(layout: Layout, place: Length) -> tuple[Fraction, Fraction]:
    """A place on the line of the backing edge, counted from its start."""
    aligned = layout.pose.aligned
    if aligned is Side.MAIN:
        return layout.pose.to_room(place, ZERO)
    return layout.pose.to_room(ZERO, place if aligned is Side.LEFT else -place)


def _overall_chain(draft: Draft, room: Room, layout: Layout, foot: Box, view: View) -> None:
    """The overall length of free standing furniture."""
    feet = tuple(view.exact(layout.pose.to_room(x, foot.y0)) for x in (foot.x0, foot.x1))
    length = foot.x1 - foot.x0
    chain = Chain(feet, towards(*feet), (length,), (view.written(length),))
    draw_chain(draft, chain, *_beyond(room, chain, view))


def _from_the_edges(draft: Draft, room: Room, layout: Layout, view: View) -> None:
    """Of free standing furniture: the gaps to the outline that fix its place; small ones are only written."""
    for gap in fixing_gaps(room, layout):
        spot, touch = (view.exact((Fraction(x), Fraction(y))) for x, y in (gap.place, gap.touch))
        if view.of(gap.length) >= _SHOWN:
            draw_span(draft, spot, touch, gap.length, view.written(gap.length))


def _edge_chains(draft: Draft, room: Room, edge: Edge, wood: Sequence[Dimension], view: View) -> None:
    """Jambs of an edge's openings outside the lengths of the furniture there, its whole length outside them."""
    first = 0.0
    for places in dict.fromkeys((_jambs(room, edge), (ZERO, edge.length))):
        feet = tuple(view.at(edge.at(place)) for place in places)
        lengths = tuple(b - a for a, b in pairwise(places))
        labels = tuple(map(view.written, lengths))
        chain = Chain(feet, towards(feet[0], feet[-1]), lengths, labels)
        first = STEP + draw_chain(draft, chain, 0.0, max(first, _outside(chain, wood)))


def _jambs(room: Room, edge: Edge) -> tuple[Length, ...]:
    """Both ends of an edge and the jambs of its openings, along it."""
    stations = {ZERO, edge.length}
    for opening in room.openings:
        if opening.edge == edge.name:
            near = opening.offset if edge.forward else edge.length - opening.offset - opening.width
            stations |= {near, near + opening.width}
    return tuple(sorted(stations))


def _rays(room: Room, edge: Edge, view: View) -> Iterator[Segment]:
    """Where the extension lines of an edge's chains will be."""
    direction = towards(view.at(edge.start), view.at(edge.end))
    for place in _jambs(room, edge):
        foot = view.at(edge.at(place))
        yield foot, along(foot, direction, 0.0, -_FAR)
