"""What fills the room beyond the ends, on the plan: a shelf with its slats, a wide arm, and how wide each is."""

from __future__ import annotations

from fitter.domain.layout import Fill, Layout, Side
from fitter.domain.wishes import FillKind
from fitter.drawing.draft import Draft
from fitter.drawing.page import Area, Line, Pen, Role, Spot
from fitter.drawing.texts import within
from fitter.drawing.view import View, middle

SLATS = 5
"""Slats of the sign; how many there are is told where the frame is."""

_GREY = {FillKind.SHELF: 1.0, FillKind.ARM: 0.88}


def draw_fills(draft: Draft, layout: Layout, view: View) -> None:
    """Draw each shelf and wide arm as seen from above."""
    for fill in layout.built_fills:
        ring = view.ring(layout.pose, fill.box)
        draft.add(Area(ring, _GREY[fill.kind], Role.SHELF, Pen.MEDIUM))
        if fill.kind is FillKind.SHELF:
            draft.add(*(Line(pair, Pen.FINE, Role.SHELF) for pair in _slats(fill, ring)))


def _slats(fill: Fill, ring: tuple[Spot, ...]) -> list[tuple[Spot, Spot]]:
    """Lines across it from its near face to its far one."""
    a, b, c, d = ring
    (p, q), (r, s) = ((a, d), (b, c)) if fill.run is Side.MAIN else ((a, b), (d, c))
    shares = [n / SLATS for n in range(1, SLATS)]
    return [(_share(p, q, share), _share(r, s, share)) for share in shares]


def _share(start: Spot, end: Spot, share: float) -> Spot:
    return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])


def name_fills(draft: Draft, layout: Layout, view: View) -> None:
    """Write what each is and how wide, on it or beside it."""
    for fill in layout.built_fills:
        ring = view.ring(layout.pose, fill.box)
        name = "shelf" if fill.kind is FillKind.SHELF else "wide arm"
        if draft.put(within(name, ring), over=True) is None:
            wide = view.written(fill.size[0], feet=False)
            draft.call_out([f"{name} {wide}"], middle(ring[0], ring[2]), reach=8.0)
