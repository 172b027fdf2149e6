"""The key of the page of corner treatments: the signs of the corners, then those of the diagram."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from fitter.domain.layout import Layout
from fitter.domain.project import Project
from fitter.drawing.block import LEADING, PAD, WIDTH, Block, Built
from fitter.drawing.corners_plot import FITS, dot
from fitter.drawing.metrics import wrap
from fitter.drawing.page import MEDIUM, SMALL, Dash, Item, Line, Pen, Role, moved
from fitter.drawing.signs import LEGS, wood_signs
from fitter.drawing.texts import stacked
from fitter.drawing.view import View


def corners_key(project: Project, layouts: Iterable[Layout], view: View, *, steps: bool) -> Built:
    """A box with a sample of each sign, those of several layouts once.

    Args:
        project: names the wood.
        layouts: whose corners are drawn.
        view: the scale of the corners.
        steps: whether the diagram is drawn.
    """
    block = Block()
    block.write("Corners", MEDIUM)
    # A sketch shows no leg room, nothing beyond the ends, and no place where the whole comes apart.
    bare = [replace(layout, fills=(), splits=()) for layout in layouts]
    samples = {sign.says: sign.items for layout in bare for sign in wood_signs(project, layout, view)}
    for says, items in samples.items():
        if says != LEGS:
            _sign(block, items, says)
    _sign(block, (_stroke(Dash.CENTRE),), "run goes on")
    if steps:
        block.rule()
        block.write("Notch of an inside post", MEDIUM)
        _sign(block, (_stroke(Dash.HIDDEN),), "more ease")
        _sign(block, (_stroke(Dash.SOLID),), "more overhang")
        _sign(block, (dot((6.5, 0.0), 0.0),), "unbeaten; what its boards cost, where there is room")
        _sign(block, (dot((6.5, 0.0), FITS),), "fits, and is beaten")
        _sign(block, (dot((6.5, 0.0), 1.0),), "does not fit here, or is not allowed")
    return block.closed()


def _stroke(dash: Dash) -> Line:
    return Line(((0.0, 0.0), (13.0, 0.0)), Pen.FINE, Role.PANEL, dash)


def _sign(block: Block, items: Sequence[Item], says: str) -> None:
    middle = -(block.depth + 2.2)
    block.items.extend(moved(item, (PAD + 1.0, middle)) for item in items)
    lines = wrap(says, SMALL, WIDTH - 2 * PAD - 18.0)
    block.items.extend(stacked(lines, (PAD + 18.0, middle - SMALL / 2), role=Role.PANEL))
    block.depth += 5.4 + LEADING * (len(lines) - 1)
