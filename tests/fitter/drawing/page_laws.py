"""The laws that every page keeps, for tests to check."""

from __future__ import annotations

from itertools import combinations
from math import dist

import pytest
from shapely.geometry import Point, Polygon

from fitter.drawing import Page
from fitter.drawing.page import Dimension, Line, Role, spots_of
from fitter.drawing.sheets import MARGIN


def line_ends(page: Page) -> list[Point]:
    """End points of dimension, extension and leader lines and of ticks."""
    ends = []
    for item in page.items:
        if isinstance(item, Dimension):
            for stroke in (*item.strokes, *item.ticks):
                ends += [Point(stroke[0]), Point(stroke[-1])]
        elif isinstance(item, Line) and item.role is Role.LEADER:
            ends += [Point(item.spots[0]), Point(item.spots[-1])]
    return ends


def check_texts(page: Page) -> None:
    """No text box overlaps another one or a line end."""
    boxes = [(text.text, Polygon(text.box)) for text in page.texts]
    for (one, a), (other, b) in combinations(boxes, 2):
        assert not a.buffer(-0.01).intersects(b), f"`{one}` and `{other}` overlap"
    for end in line_ends(page):
        for text, box in boxes:
            assert not box.buffer(-0.01).contains(end), f"a line ends in `{text}`"


def check_on_sheet(page: Page) -> None:
    """Everything keeps the margin."""
    assert MARGIN >= 10
    for item in page.items:
        for x, y in spots_of(item):
            assert MARGIN - 1e-6 <= x <= page.width - MARGIN + 1e-6, item
            assert MARGIN - 1e-6 <= y <= page.height - MARGIN + 1e-6, item


def check_scale(page: Page) -> None:
    """Every dimension line is as long as what it says, by the scale; and says what it measures."""
    for dimension in page.dimensions:
        measured = dist(*dimension.ends) * page.denominator
        assert measured == pytest.approx(float(dimension.length.mm), abs=0.02)


def check_page(page: Page) -> None:
    """All laws at once."""
    check_texts(page)
    check_on_sheet(page)
    check_scale(page)
