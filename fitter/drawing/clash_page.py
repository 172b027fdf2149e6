"""The plan of a layout that would be built if something gave way, with what it clashes with hatched."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from shapely.geometry import box

from fitter.domain.project import Project
from fitter.drawing.block import Built
from fitter.drawing.clash import Clashing, draw_clash
from fitter.drawing.page import Area, Dash, Item, Line, Page, Pen, Role
from fitter.drawing.panel import cushion_block, key_block, route_block
from fitter.drawing.plan import Over, plan_page
from fitter.drawing.signs import Sign
from fitter.drawing.view import View, hatching


def clash_page(project: Project, shown: Clashing, says: Sequence[str], sheet: str | None = None) -> Page:
    """Draw it on the smallest sheet that shows it at a readable scale.

    Args:
        project: that is impossible.
        shown: what clashes, in which layout.
        says: for the title block, a paragraph each.
        sheet: name of a paper that must be used; None to choose.

    Raises:
        ValueError: no such sheet, or the room is too large for it.
    """

    def blocks(view: View) -> tuple[Built, ...]:
        built = [
            key_block(project, shown.layout, view, tuple(_signs(project, shown))),
            cushion_block(project, shown.layout),
        ]
        return (*built, *((route_block(project, shown.layout),) if project.room.routes else ()))

    over = Over(lambda draft, view: draw_clash(draft, project, shown, view), blocks)
    return plan_page(project, shown.layout, sheet, says=says, over=over)


def _signs(project: Project, shown: Clashing) -> Iterator[Sign]:
    ring = ((0.0, -1.7), (13.0, -1.7), (13.0, 1.7), (0.0, 1.7))
    strokes = hatching(box(0.0, -1.7, 13.0, 1.7), gap=0.9, rising=False)
    sample: tuple[Item, ...] = (
        Area(ring, None, Role.PANEL, Pen.HEAVY),
        *(Line(pair, Pen.FINE, Role.PANEL) for pair in strokes),
    )
    if shown.next:
        dashed = Area(ring, None, Role.PANEL, Pen.MEDIUM, Dash.HIDDEN)
        yield Sign((dashed,), "where the next cushion would lie, with its end")
    if shown.absent:
        yield Sign(sample, "a cushion that is missing")
    elif shown.hatched(project):
        yield Sign(sample, "in the way, tape tolerance counted in")
