"""The laws that every page keeps, for tests to check."""

from __future__ import annotations

from itertools import permutations
from math import dist

import pytest
from shapely import STRtree
from shapely.geometry import LineString, Point, Polygon

from fitter.drawing import Page
from fitter.drawing.page import Dimension, Line, Role, spots_of
from fitter.drawing.sheets import MARGIN

CORNER_AIR = 1.0  # between a corner's name and any other text, at least, mm
BESIDE = 1.5  # so near to each other two lines of one direction look like one, mm


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
    names = [text.text for text in page.texts]
    boxes = [Polygon(text.box) for text in page.texts]
    # A hundredth of a millimetre is no overlap. Trees find who is near whom, which pair by pair takes minutes.
    inner = [box.buffer(-0.01) for box in boxes]
    tree = STRtree(boxes)
    for n, box in enumerate(inner):
        for m in tree.query(box, predicate="intersects"):
            assert m == n, f"`{names[n]}` and `{names[m]}` overlap"
    for name, corner in boxes_of_corners(page):
        for item in page.texts:
            near = item.role is not Role.CORNER and Polygon(item.box).distance(corner) < CORNER_AIR
            assert not near, f"`{item.text}` could be read as a part of `{name}`"
    within = STRtree(inner)
    for leader in page.having(Role.LEADER):
        for n in within.query(LineString(spots_of(leader)), predicate="intersects"):
            pytest.fail(f"a leader crosses `{names[n]}`")
    for end in line_ends(page):
        for n in within.query(end, predicate="within"):
            pytest.fail(f"a line ends in `{names[n]}`")


def boxes_of_corners(page: Page) -> list[tuple[str, Polygon]]:
    """The names of corners with their rectangles."""
    return [(text.text, Polygon(text.box)) for text in page.texts if text.role is Role.CORNER]


def check_lines(page: Page) -> None:
    """No dimension line can be mistaken for an extension line of another one, nor the other way round."""
    chains = [dimension for dimension in page.dimensions if dimension.feet != dimension.ends]
    for one, other in permutations(chains, 2):
        strip = LineString(one.ends).buffer(BESIDE, cap_style="flat")
        for extension in other.extensions:
            beside = LineString(extension).intersection(strip).length
            assert beside < 10.0, f"an extension line of `{other.text.text}` runs along `{one.text.text}`"


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
    check_lines(page)
    check_on_sheet(page)
    check_scale(page)
