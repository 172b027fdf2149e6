"""How much wood is finished: by hand for a plain box, and cell by cell for whole frames."""

from __future__ import annotations

from itertools import product

import numpy as np
import pytest
from buyers import answer, box, frame_of, nook

from fitter.domain.surfaces import polygon_area, surface
from fitter.domain.woodwork import Woodwork
from fitter.takeoff import takeoff
from fitter.workflow.buying import touching
from rooms.lengths import UNITS_PER_INCH, Length


def area_of(frame: Woodwork) -> int:
    """Exposed area as the take-off of a nook with this frame has it."""
    layout = answer().layout
    assert layout is not None
    return takeoff(nook(), layout, frame, (), touching(frame)).area.exposed


def test_area_of_a_plain_box_frame() -> None:
    """2 · 408 + 2 · 208 - 2 · 4 · 4 = 1200 sq in.

    Long sticks have 2 (40 · 4 + 40 · 1 + 4 · 1) = 408, short ones 2 (20 · 4 + 20 · 1 + 4 · 1) = 208; four ends of
    4 sq in touch.
    """
    frame = box()
    assert sum(map(surface, frame.parts)) == 1232 * UNITS_PER_INCH**2
    assert [touch.area for touch in touching(frame)] == [4 * UNITS_PER_INCH**2] * 4
    assert area_of(frame) == 1200 * UNITS_PER_INCH**2


def test_area_of_a_polygon_that_stands_askew() -> None:
    """Sides 3-4-5 and 7: 35; halves are rounded up."""
    assert polygon_area([(0, 0, 0), (3, 0, 4), (3, 7, 4), (0, 7, 0)]) == 35
    assert polygon_area([(0, 0, 0), (1, 0, 0), (0, 1, 0)]) == 1


def cells(frame: Woodwork) -> int:
    """Faces between wood and air, in square units, of the cells that all planes of all boxes cut space into."""
    boxes = []
    for part in frame.parts:
        for piece in part.pieces:
            boxes.append([(min(axis), max(axis)) for axis in zip(*piece, strict=True)])
    planes = [sorted({edge for each in boxes for edge in each[axis]}) for axis in range(3)]
    wood = np.zeros([len(axis) + 1 for axis in planes], dtype=bool)
    for each in boxes:
        spans = [
            slice(planes[axis].index(low) + 1, planes[axis].index(top) + 1) for axis, (low, top) in enumerate(each)
        ]
        wood[tuple(spans)] = True
    total = 0
    for axis in range(3):
        one, other = (each for each in range(3) if each != axis)
        changes = np.diff(wood.astype(np.int8), axis=axis) != 0
        counts = changes.sum(axis=axis)
        wide = [[0, *np.diff(np.array(planes[k], dtype=object)), 0] for k in (one, other)]
        for i, j in product(range(counts.shape[0]), range(counts.shape[1])):
            total += int(counts[i, j]) * int(wide[0][i]) * int(wide[1][j])
    return total


@pytest.mark.parametrize(
    "key",
    [("open", "mitred", "screws", ""), ("armed", "posts", "housing", ""), ("armed", "posts", "ledger", "")],
    ids=["open ends", "housings", "ledgers"],
)
def test_area_of_a_frame_is_that_of_its_cells(key: tuple[str, str, str, str]) -> None:
    """Of frames without a mitre: every plane of every part cuts space into cells, full or empty."""
    frame = frame_of(key)
    assert area_of(frame) == cells(frame)


def test_mitres_are_covered() -> None:
    """Two mitred pieces share a slanted face of 3 1/2 by 3 1/2 √2 in."""
    frame = frame_of()
    areas = {touch.area for touch in touching(frame)}
    side = Length.inches("7/2").units
    assert any(abs(area - side * side * 2**0.5) <= 1 for area in areas)
