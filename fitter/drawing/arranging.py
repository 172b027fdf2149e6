"""Where the boxes of a sheet go, and what they leave for the drawing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fitter.drawing.block import WIDTH, Built
from fitter.drawing.page import Item, Line, Pen, Role, Spot, bounds, moved

Rectangle = tuple[float, float, float, float]
_AIR = 2.0  # around the drawing, mm


@dataclass(frozen=True)
class Panel:
    """Boxes on a sheet, and the part of the sheet that they leave for the drawing."""

    items: tuple[Item, ...]
    plan: Rectangle


def arrange(title: Built, others: Sequence[Built], frame: Rectangle, landscape: bool) -> Iterator[Panel]:
    """Ways to place the boxes: at the right of a lying sheet, or in a strip at the foot of a standing one.

    The title block goes to the lower right corner, as ISO 7200 has it (from memory).

    Args:
        title: the title block.
        others: the other boxes, in reading order.
        frame: the border of the sheet: left, low, right, high.
        landscape: whether the sheet lies.

    Yields:
        Each way that holds all boxes, the one that leaves the most room first.
    """
    if landscape:
        yield from _at_the_right(title, others, frame)
    else:
        yield from _at_the_foot(title, others, frame)


def _at_the_right(title: Built, others: Sequence[Built], frame: Rectangle) -> Iterator[Panel]:
    """One column; what does not fit into it stands in a row at the foot, or in a second column."""
    x0, y0, x1, y1 = frame
    left = x1 - WIDTH
    room = y1 - y0 - title[1]
    if room < 0:
        return
    count = _filling(others, room)
    border = Line(((left, y0), (left, y1)), Pen.MEDIUM, Role.PANEL)
    column = (*moved_to(title, (left, y0 + title[1])), *_hung(others[:count], left, y1), border)
    rest = others[count:]
    if not rest:
        yield Panel(column, (x0, y0, left, y1))
        return
    height = max(size for _, size in rest)
    if len(rest) * WIDTH <= left - x0:
        low = left - len(rest) * WIDTH
        row = [item for n, block in enumerate(rest) for item in moved_to(block, (low + n * WIDTH, y0 + height))]
        yield Panel((*column, *row), (x0, y0 + height, left, y1))
    if _filling(rest, y1 - y0) == len(rest):
        yield Panel((*column, *_hung(rest, left - WIDTH, y1)), (x0, y0, left - WIDTH, y1))


def _at_the_foot(title: Built, others: Sequence[Built], frame: Rectangle) -> Iterator[Panel]:
    """As many columns as the sheet is wide for, in the lowest strip that holds all boxes."""
    x0, y0, x1, y1 = frame
    count = int((x1 - x0) // WIDTH)
    columns = [x1 - WIDTH * (count - i) for i in range(count)]
    height = title[1]
    while height < 0.6 * (y1 - y0):
        if placed := _flowed(title, others, columns, y0, height):
            border = Line(((x0, y0 + height), (x1, y0 + height)), Pen.MEDIUM, Role.PANEL)
            yield Panel((*placed, border), (x0, y0 + height, x1, y1))
            return
        height += 5.0


def _flowed(
    title: Built, others: Sequence[Built], columns: Sequence[float], foot: float, height: float
) -> tuple[Item, ...]:
    """Fill columns from the top, the last one down to the title block; empty if there is too much."""
    items: list[Item] = list(moved_to(title, (columns[-1], foot + title[1])))
    rest = list(others)
    for n, column in enumerate(columns):
        room = height - (title[1] if n == len(columns) - 1 else 0.0)
        fitting = _filling(rest, room)
        items.extend(_hung(rest[:fitting], column, foot + height))
        rest = rest[fitting:]
    return () if rest else tuple(items)


def _filling(blocks: Sequence[Built], room: float) -> int:
    """How many boxes, one below the other, fit into a height."""
    count = 0
    while count < len(blocks) and blocks[count][1] <= room + 1e-6:
        room -= blocks[count][1]
        count += 1
    return count


def _hung(blocks: Sequence[Built], left: float, top: float) -> Iterator[Item]:
    for block in blocks:
        yield from moved_to(block, (left, top))
        top -= block[1]


def moved_to(block: Built, corner: Spot) -> Iterator[Item]:
    """The things in a box, its upper left corner at a place."""
    return (moved(item, corner) for item in block[0])


def placed_inside(items: Sequence[Item], plan: Rectangle) -> Spot | None:
    """By how much the drawing moves to stand in the middle of the free part; None if it is too large."""
    x0, y0, x1, y1 = bounds(items)
    left, low, right, high = plan
    if x1 - x0 > right - left - 2 * _AIR or y1 - y0 > high - low - 2 * _AIR:
        return None
    return (left + right - x0 - x1) / 2, (low + high - y0 - y1) / 2
