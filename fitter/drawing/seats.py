"""The furniture on the plan: cushions, notches, back panels, ends, posts and rails."""

from __future__ import annotations

from shapely.geometry import Polygon

from fitter.domain.layout import Layout, Module, PostRole, Rail, Side
from fitter.domain.wishes import EndKind
from fitter.drawing.draft import Draft, within
from fitter.drawing.page import SMALL, Area, Dash, Line, Pen, Role, Spot, Text
from fitter.drawing.view import View, hatching, middle

_WOOD = 0.88
LINE = 4.2  # from one line of a tag to the next, mm


def draw_seats(draft: Draft, layout: Layout, view: View) -> None:
    """Draw all parts, from the floor up: leg room, wood, cushions, then the rails seen through them."""
    pose = layout.pose
    for run in layout.runs:
        draft.add(Area(view.ring(pose, run.legroom), None, Role.LEGROOM, Pen.FINE, Dash.DOTTED))
    for run in layout.runs:
        draft.add(Area(view.ring(pose, run.back), _WOOD, Role.BACK, Pen.MEDIUM))
    for end in layout.ends:
        grey = _WOOD if end.kind is EndKind.ARMED else 1.0
        draft.add(Area(view.ring(pose, end.box), grey, Role.END, Pen.MEDIUM))
    for module in layout.modules:
        draft.add(*_cushion(layout, module, view))
    for rail in layout.rails:
        draft.add(*_rail(layout, rail, view))
    for post in layout.posts:
        draft.add(Area(view.ring(pose, post.box), 0.0, Role.POST, Pen.FINE))


def _cushion(layout: Layout, module: Module, view: View) -> list[Line | Area]:
    place = view.ring(layout.pose, module.box)
    if module.cushion is None:
        cross = [Line((place[i], place[i + 2]), Pen.FINE, Role.CUSHION) for i in (0, 1)]
        return [Area(place, 1.0, Role.CUSHION, Pen.MEDIUM), *cross]
    shape = Polygon(view.ring(layout.pose, module.cover or module.box))
    cut = Polygon(view.ring(layout.pose, module.notch.box)) if module.notch else Polygon()
    body = shape.difference(cut)
    soft = body.buffer(-1.6, join_style="mitre").buffer(1.0, quad_segs=4)
    lines: list[Line | Area] = [Area(place, 1.0, Role.CUSHION, Pen.FINE)] if module.cover else []
    lines.append(Area(_ring(body), 1.0, Role.CUSHION, Pen.MEDIUM))
    if soft.geom_type == "Polygon" and not soft.is_empty:
        lines.append(Area(_ring(soft), None, Role.CUSHION, Pen.FINE))
    if module.notch:
        lines.append(Area(_ring(cut), 1.0, Role.NOTCH, Pen.FINE))
        lines.extend(Line(stroke, Pen.FINE, Role.HATCH) for stroke in hatching(cut, gap=0.8, rising=False))
    return lines


def _ring(shape: Polygon) -> tuple[Spot, ...]:
    return tuple((x, y) for x, y in shape.exterior.coords[:-1])


def _rail(layout: Layout, rail: Rail, view: View) -> list[Line]:
    """Two hidden lines along the rail; its ends butt on posts or ends and need no line."""
    a, b, c, d = view.ring(layout.pose, rail.box)
    lengthwise = rail.box.x1 - rail.box.x0 >= rail.box.y1 - rail.box.y0
    pairs = ((a, b), (d, c)) if lengthwise else ((b, c), (a, d))
    return [Line(pair, Pen.FINE, Role.RAIL, Dash.HIDDEN) for pair in pairs]


SIDE_LETTER = {Side.MAIN: "M", Side.LEFT: "L", Side.RIGHT: "R"}


def name_seats(draft: Draft, layout: Layout, view: View) -> None:
    """Write each cushion's place, the corner treatment and the size of each notch."""
    called_out = []
    for module in layout.modules:
        if texts := _treatment_within(layout, module, view):
            draft.add(*texts)
            continue
        ring = view.ring(layout.pose, module.box)
        tag = f"{SIDE_LETTER[module.run]}{module.place}" if module.place else "C" if module.cushion else "table"
        if draft.put(within(tag, ring)) is None:
            draft.call_out([tag], middle(ring[0], ring[2]), reach=12.0)
        if module.place == 0 and module.cushion:
            called_out.append(module)
    # Leaders come last: they find their way round all tags.
    for module in called_out:
        _name_corner(draft, layout, module, view)


def _treatment_within(layout: Layout, module: Module, view: View) -> list[Text]:
    """The corner place's tag with its treatment below, where there is room for it within the cushion."""
    if module.place or module.notch or module.cushion is None:
        return []
    lines = ["C", *str(layout.corner).split()]
    ring = view.ring(layout.pose, module.cover or module.box)
    x, y = middle(ring[0], ring[2])
    top = y + LINE * (len(lines) / 2 - 1) + (LINE - SMALL) / 2
    texts = [Text((x, top - n * LINE), line, SMALL, 0.0, 0.5, Role.LABEL) for n, line in enumerate(lines)]
    room = Polygon(ring).buffer(-0.5)
    return texts if all(room.contains(Polygon(text.box)) for text in texts) else []


def _name_corner(draft: Draft, layout: Layout, module: Module, view: View) -> None:
    lines = [str(layout.corner)]
    ring = view.ring(layout.pose, module.box)
    target = middle(ring[0], middle(ring[0], ring[2]))
    if module.notch:
        sizes = (module.notch.along_x, module.notch.along_y)
        lines.append("notch " + " × ".join(view.written(size, feet=False) for size in sizes))
        box = view.ring(layout.pose, module.notch.box)
        target = middle(box[0], box[2])
    else:
        target = _corner_post(layout, view) or target
    draft.call_out(lines, target, reach=12.0)


def _corner_post(layout: Layout, view: View) -> Spot | None:
    for post in layout.posts:
        if post.role is PostRole.CORNER:
            box = view.ring(layout.pose, post.box)
            return middle(box[0], box[2])
    return None
