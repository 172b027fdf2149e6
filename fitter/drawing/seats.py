"""The furniture on the plan: cushions, notches, back panels, ends, posts and rails."""

from __future__ import annotations

from collections.abc import Iterator
from math import dist

from shapely.affinity import translate
from shapely.geometry import Point, Polygon
from shapely.ops import unary_union

from fitter.domain.corner_words import notch_told
from fitter.domain.layout import Face, Layout, Module, ModuleLine, Rail, Side
from fitter.domain.notching import notch_ring
from fitter.domain.project import Project
from fitter.domain.wishes import EndKind, Shape
from fitter.drawing.corners import bare_strips, draw_gap, draw_posts, overhang
from fitter.drawing.draft import Draft
from fitter.drawing.fills import draw_fills, name_fills
from fitter.drawing.page import SMALL, Area, Dash, Line, Pen, Role, Spot, Text
from fitter.drawing.texts import within
from fitter.drawing.view import View, along, hatching, middle, ring_of, towards

_WOOD = 0.88
_HAIR = 1e-6  # mm
LINE = 4.2  # from one line of a tag to the next, mm
_BEYOND = 1.5  # so far a split is drawn past the wood, mm
SPLIT = Dash.LONG
SIDE_LETTER = {Side.MAIN: "M", Side.LEFT: "L", Side.RIGHT: "R"}


def draw_seats(draft: Draft, project: Project, layout: Layout, view: View) -> None:
    """Draw all parts, from the floor up: leg room, wood, cushions, then the rails seen through them."""
    draft.occupy(*(Polygon(view.ring(layout.pose, box)) for box in layout.footprint))
    for run in layout.runs:
        draft.add(Area(view.ring(layout.pose, run.legroom), None, Role.LEGROOM, Pen.FINE, Dash.DOTTED))
    draw_shape(draft, layout, view)
    over = overhang(project)
    for rail in layout.rails:
        draft.add(*_rail(layout, rail, view, covered=bool(over) and rail.face is Face.FRONT))
    draw_posts(draft, project, layout, view)
    for split in layout.splits:
        draft.add(Line(_split(layout, split, view), Pen.WIDE, Role.SPLIT, SPLIT))


def _split(layout: Layout, split: ModuleLine, view: View) -> tuple[Spot, Spot]:
    """Where the frame comes apart: across the back panel and the deck of a run, and a little beyond both."""
    run = next(run for run in layout.runs if run.side is split.run)
    at = layout.line_at(split.run, split.line)
    if split.run is Side.MAIN:
        ends = [layout.pose.to_room(at, y) for y in (run.back.y0, run.deck.y1)]
    else:
        across = (min(run.back.x0, run.deck.x0), max(run.back.x1, run.deck.x1))
        ends = [layout.pose.to_room(x, at) for x in across]
    start, end = (view.exact(spot) for spot in ends)
    outward = towards(start, end)
    return along(start, outward, -_BEYOND), along(end, outward, _BEYOND)


def draw_shape(draft: Draft, layout: Layout, view: View) -> None:
    """Draw what is seen from above: backs, ends and cushions."""
    for run in layout.runs:
        draft.add(Area(view.ring(layout.pose, run.back), _WOOD, Role.BACK, Pen.MEDIUM))
    for end in layout.ends:
        grey = _WOOD if end.kind is EndKind.ARMED else 1.0
        draft.add(Area(view.ring(layout.pose, end.box), grey, Role.END, Pen.MEDIUM))
    draw_fills(draft, layout, view)
    for module in layout.modules:
        draft.add(*_place(layout, module, view))
    draw_gap(draft, layout, view)


def _place(layout: Layout, module: Module, view: View) -> Iterator[Line | Area]:
    place = view.ring(layout.pose, module.box)
    if module.cushion is None:
        yield Area(place, 1.0, Role.CUSHION, Pen.MEDIUM)
        yield from (Line((place[i], place[i + 2]), Pen.FINE, Role.TABLE) for i in (0, 1))
        return
    if module.cover:
        yield Area(place, 1.0, Role.CUSHION, Pen.FINE)
        bare = unary_union([Polygon(view.ring(layout.pose, strip)) for strip in bare_strips(layout, module, view)])
        yield from (Line(stroke, Pen.FINE, Role.BARE) for stroke in hatching(bare, gap=1.6, rising=False))
    yield from _cushion(layout, module, view)


def _cushion(layout: Layout, module: Module, view: View) -> Iterator[Line | Area]:
    """The cushion with its rounded rim, what is cut from it, and lines between the seats of one that has several."""
    body, cut = Polygon(view.ring(layout.pose, module.cover or module.box)), Polygon()
    if module.notch:
        cut = Polygon([view.exact(layout.pose.to_room(*spot)) for spot in notch_ring(module.notch)])
        body = _without(body, cut)
    soft = body.buffer(-1.6, join_style="mitre").buffer(1.0, quad_segs=4)
    yield Area(ring_of(body), 1.0, Role.CUSHION, Pen.MEDIUM)
    if soft.geom_type == "Polygon" and not soft.is_empty:
        yield Area(ring_of(soft), None, Role.CUSHION, Pen.FINE)
    yield from (Line(pair, Pen.FINE, Role.SEAT, Dash.CENTRE) for pair in _between_seats(layout, module, view))
    if module.notch:
        yield Area(ring_of(cut), 1.0, Role.NOTCH, Pen.FINE)
        yield from (Line(stroke, Pen.FINE, Role.HATCH) for stroke in hatching(cut, gap=0.8, rising=False))


def _without(body: Polygon, cut: Polygon) -> Polygon:
    """A cushion less what is cut from its corner; the cut begins half the ease inside the corner of its place."""
    corner = min(body.exterior.coords, key=lambda spot: cut.distance(Point(spot)))
    near = min(cut.exterior.coords, key=lambda spot: dist(spot, corner))
    moved = translate(cut, corner[0] - near[0], corner[1] - near[1])
    rest = body.difference(cut.union(moved).buffer(_HAIR, join_style="mitre"))
    return max(getattr(rest, "geoms", (rest,)), key=lambda part: part.area)


def _between_seats(layout: Layout, module: Module, view: View) -> Iterator[tuple[Spot, Spot]]:
    """Lines that part a cushion for several people across its width as sold."""
    a, b, c, d = view.ring(layout.pose, module.cover or module.box)
    # The width of a cushion lies along its run, in a corner along the main run; x runs along the main run.
    lengthwise = module.corner is not None or module.run is Side.MAIN
    pairs = ((a, b), (d, c)) if lengthwise is not module.turned else ((b, c), (a, d))
    for n in range(1, module.seats):
        (p, q), (r, s) = pairs
        share = n / module.seats
        yield _share(p, q, share), _share(r, s, share)


def _share(start: Spot, end: Spot, share: float) -> Spot:
    return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])


def _rail(layout: Layout, rail: Rail, view: View, *, covered: bool) -> list[Line]:
    """Two hidden lines along the rail; its ends butt on posts or ends and need no line.

    Where cushions come forward over the front of the wood (`covered`), that front is drawn wider.
    """
    a, b, c, d = view.ring(layout.pose, rail.box)
    lengthwise = rail.box.x1 - rail.box.x0 >= rail.box.y1 - rail.box.y0
    low, high = ((a, b), (d, c)) if lengthwise else ((a, d), (b, c))
    front = low if rail.run is Side.LEFT else high
    return [
        Line(pair, Pen.WIDE if covered and pair is front else Pen.FINE, Role.RAIL, Dash.HIDDEN) for pair in (low, high)
    ]


def kind_letters(layout: Layout) -> dict[str, str]:
    """A small letter for each kind of cushion, in the order of the file; none where there is only one kind."""
    names = [row.cushion for row in layout.purchases]
    return {name: chr(ord("a") + n) for n, name in enumerate(names)} if len(names) > 1 else {}


def corner_tag(layout: Layout, module: Module) -> str:
    """`C`; of two corners `CR` and `CL`."""
    return f"C{SIDE_LETTER[module.corner]}" if module.corner and layout.shape is Shape.U else "C"


def tag(layout: Layout, module: Module) -> str:
    """What is written on a place: run and number, or corner; then the letter of its cushion."""
    name = corner_tag(layout, module) if module.corner else f"{SIDE_LETTER[module.run]}{module.place}"
    if module.cushion is None:
        return f"{name} table"
    return f"{name} {letter}" if (letter := kind_letters(layout).get(module.cushion)) else name


def name_seats(draft: Draft, layout: Layout, view: View) -> None:
    """Write each cushion's place, the corner treatment, the size of each notch and what stays uncovered."""
    called_out = []
    for module in layout.modules:
        if texts := _corner_within(draft, layout, module, view):
            draft.add(*texts)
            continue
        ring = view.ring(layout.pose, module.cover or module.box)
        if draft.put(within(tag(layout, module), ring), over=module.seats != 1) is None:
            draft.call_out([tag(layout, module)], middle(ring[0], ring[2]), reach=8.0)
        if module.notch:
            called_out.append(module)
    # Leaders come last: they find their way round all tags.
    for module in called_out:
        _name_notch(draft, layout, module, view)
    for module in layout.corners:
        _name_bare(draft, layout, module, view)
    name_fills(draft, layout, view)


def _corner_within(draft: Draft, layout: Layout, module: Module, view: View) -> list[Text]:
    """The corner place's tag with its notch or its treatment below, where there is room for it within the cushion."""
    if not module.corner or module.cushion is None or module.seats > 1:
        return []
    room = Polygon(view.ring(layout.pose, module.cover or module.box)).buffer(-0.5)
    x, y = room.centroid.x, room.centroid.y
    ways = [["notch", size] for size in _notch_sizes(module, view)] if module.notch else [str(layout.corner).split()]
    for below in ways:
        lines = [line for part in (tag(layout, module), *below) for line in part.split("\n")]
        top = y + LINE * (len(lines) / 2 - 1) + (LINE - SMALL) / 2
        texts = [Text((x, top - n * LINE), line, SMALL, 0.0, 0.5, Role.LABEL) for n, line in enumerate(lines)]
        if all(room.contains(Polygon(text.box)) and draft.free(text) for text in texts):
            return texts
    return []


def _notch_sizes(module: Module, view: View) -> tuple[str, str]:
    """The size of a notch in one line, and in several."""
    assert module.notch is not None
    told = notch_told(module.notch, lambda size: view.written(size, feet=False))
    if module.notch.depth is None:
        return told, told.replace(" × ", " ×\n")
    return told, told.replace(" deep along ", " deep\nalong ").replace(" and ", "\nand ")


def _name_notch(draft: Draft, layout: Layout, module: Module, view: View) -> None:
    assert module.notch is not None
    box = view.ring(layout.pose, module.notch.cut[0])
    draft.call_out([f"notch {_notch_sizes(module, view)[0]}"], middle(box[0], box[2]), reach=8.0)


def _name_bare(draft: Draft, layout: Layout, module: Module, view: View) -> None:
    """The sizes of the strips that the corner cushion leaves uncovered, along the main run first."""
    strips = bare_strips(layout, module, view)
    if not strips:
        return
    sizes = [" × ".join(view.written(s, feet=False) for s in (b.x1 - b.x0, b.y1 - b.y0)) for b in strips]
    ring = view.ring(layout.pose, strips[0])
    draft.call_out([f"bare {sizes[0]}", *(f"and {size}" for size in sizes[1:])], middle(ring[0], ring[2]), reach=8.0)
