"""What holds the backs at a corner on the plan, and what lies bare behind cushions that keep off the backs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from shapely.geometry import MultiPolygon, Polygon
from shapely.ops import unary_union

from fitter.domain.layout import Box, Layout, Module, Post, PostRole
from fitter.domain.notching import angle_boards
from fitter.domain.project import Project
from fitter.domain.uncovered import beyond_gap, gap_strips
from fitter.drawing.draft import Draft
from fitter.drawing.page import Area, Dash, Line, Pen, Role, Spot
from fitter.drawing.view import View, hatching, middle
from rooms.lengths import Length

_VISIBLE = 0.8  # a strip that is narrower on paper is told in the panel only, mm
BOARD = 0.45  # how dark the boards of an angle post are
_SHADE = 0.8  # how dark a post is that ends under the seats
_LOW = 0.8  # between the strokes over such a post, mm


def draw_gap(draft: Draft, layout: Layout, view: View) -> None:
    """Hatch what lies bare between cushions and backs."""
    for strip in _parts(layout, visible_gap(layout, view), view):
        draft.add(*(Line(stroke, Pen.FINE, Role.BARE) for stroke in hatching(strip, gap=1.6, rising=False)))


def visible_gap(layout: Layout, view: View) -> tuple[Box, ...]:
    """The strips behind the cushions, where they can be seen at a scale."""
    return gap_strips(layout) if view.of(layout.gap) > _VISIBLE else ()


def _parts(layout: Layout, boxes: Sequence[Box], view: View) -> tuple[Polygon, ...]:
    """Boxes of the layout on paper, those that touch as one."""
    shape = unary_union([Polygon(view.ring(layout.pose, box)) for box in boxes])
    return tuple(shape.geoms) if isinstance(shape, MultiPolygon) else (shape,)


def bare_strips(layout: Layout, module: Module, view: View) -> tuple[Box, ...]:
    """What a corner cushion leaves uncovered beside the gap behind it, as far as it can be seen at a scale."""
    return tuple(
        strip
        for strip in beyond_gap(layout, module)
        if min(view.of(strip.x1 - strip.x0), view.of(strip.y1 - strip.y0)) > _VISIBLE
    )


def draw_posts(draft: Draft, project: Project, layout: Layout, view: View) -> None:
    """Draw all posts, those that end under the seats in a corner as hidden ones, and the boards of angle posts."""
    for post in layout.posts:
        ring = view.ring(layout.pose, post.box)
        draft.add(*(low_post(ring, Role.POST) if _ends_low(layout, post) else (Area(ring, 0.0, Role.POST, Pen.FINE),)))
    for board in angle_boards(layout, project.frame, project.mark):
        draft.add(Area(view.ring(layout.pose, board), BOARD, Role.BOARD, Pen.FINE))


def _ends_low(layout: Layout, post: Post) -> bool:
    """Whether it stands where backs meet and does not hold them."""
    return post.role is PostRole.CORNER and layout.corner is not None and not layout.corner.tall


def low_post(ring: Sequence[Spot], role: Role) -> Iterator[Area | Line]:
    """The sign of a post that ends under the seats where backs meet."""
    yield Area(tuple(ring), _SHADE, role, Pen.MEDIUM, Dash.SHORT)
    hatch = role if role is Role.PANEL else Role.HATCH
    yield from (Line(stroke, Pen.FINE, hatch) for stroke in hatching(Polygon(ring), gap=_LOW))


def name_gap(draft: Draft, layout: Layout, view: View) -> None:
    """Write how far cushions lie off the backs, where no chain of dimensions does."""
    strips = visible_gap(layout, view)
    if not strips or len(layout.runs) < 3:
        return
    deck = layout.runs[0].deck
    a, b, c, d = view.ring(layout.pose, Box(deck.x0, deck.y0, deck.x1, deck.y0 + layout.gap))
    spots = [_share(middle(a, d), middle(b, c), share) for share in (0.5, 0.25, 0.75, 0.9)]
    draft.call_out([f"gap {view.written(layout.gap, feet=False)}"], spots[0], *spots[1:], reach=8.0)


def _share(start: Spot, end: Spot, share: float) -> Spot:
    return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])


def overhang(project: Project) -> Length:
    """How far cushions come forward over the front of the wood, on the shop mark."""
    return project.frame.overhang.ceil_to(project.mark)
