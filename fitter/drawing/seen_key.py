"""The key of a page of small pictures: the signs of what they show, of all of them once."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from fitter.domain.layout import Layout
from fitter.domain.project import Project
from fitter.drawing.arranging import Rectangle, moved_to
from fitter.drawing.block import Block, Built
from fitter.drawing.page import MEDIUM, Item
from fitter.drawing.panel import sign_row
from fitter.drawing.signs import LEGS, Sign, room_signs, wood_signs
from fitter.drawing.view import View


def seen_key(project: Project, layouts: Iterable[Layout], view: View, *, room: bool) -> Built:
    """The box that explains the signs of some small pictures, in which rails, leg room and routes are not drawn.

    Args:
        project: the room, and the wood.
        layouts: what the pictures show.
        view: their scale.
        room: whether they show the room too.
    """
    block = Block()
    block.write("Key", MEDIUM)
    for sign in _signs(project, layouts, view, room=room):
        sign_row(block, sign)
    return block.closed()


def _signs(project: Project, layouts: Iterable[Layout], view: View, *, room: bool) -> Iterator[Sign]:
    if room:
        yield from room_signs(replace(project.room, routes=()))
    bare = [replace(layout, rails=(), splits=()) for layout in layouts]
    samples = {sign.says: sign for layout in bare for sign in wood_signs(project, layout, view)}
    yield from (sign for sign in samples.values() if sign.says != LEGS)


def hung(key: Built, title: Built, column: Rectangle) -> tuple[Item, ...]:
    """A key at the top of a column, above the title block; nothing where that leaves no room for it.

    Args:
        key: the box.
        title: the title block that stands at the foot of the column.
        column: left, low, right, high, mm.
    """
    left, low, _, high = column
    return tuple(moved_to(key, (left, high))) if key[1] + title[1] <= high - low else ()
