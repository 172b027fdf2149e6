"""Drawings of boards: the laws of every page, every saw cut numbered, every part true to scale along its board."""

from __future__ import annotations

from collections import Counter
from functools import cache
from itertools import groupby, pairwise

import pytest
from cut_cases import tiny, workshop
from page_laws import check_on_sheet, check_texts

from fitter.cutting import plan_boards
from fitter.domain.cuts import Cut, CutOptions, PlannedBoard
from fitter.domain.saw_list import sawing, short_first, small
from fitter.domain.woodwork import EndCut
from fitter.drawing import Heading, Page, saw_pages
from fitter.drawing.boards_strip import spread
from fitter.drawing.page import Area, Pen, Role
from rooms.lengths import UNITS_PER_INCH, UNITS_PER_MM, ZERO, Length, Unit

OPTIONS = CutOptions(kerf=Length.inches("1/8"), trim=Length.inches("1/2"))
HANDLED = Length.inches(100)
CASES: dict[str, tuple[int, bool, Unit, Length | None]] = {
    "workshop": (3, False, Unit.IN, None),
    "first cut": (5, False, Unit.FT, HANDLED),
    "metric": (8, False, Unit.MM, HANDLED),
    "mitred": (1, True, Unit.IN, None),
    "mitred metric": (10, True, Unit.M, None),
}


@cache
def case(name: str) -> tuple[tuple[PlannedBoard, ...], list[Page]]:
    seed, mitred, unit, handled = CASES[name]
    pieces, stocks = tiny(seed, mitred=True) if mitred else workshop(seed, 70)
    boards = short_first(plan_boards(pieces, stocks, OPTIONS, 20.0), OPTIONS, small(unit)).boards
    return boards, saw_pages(Heading("Parts of a bench", "parts.csv", unit, ZERO), boards, OPTIONS, handled)


def drawn_once(boards: tuple[PlannedBoard, ...]) -> list[PlannedBoard]:
    return [board for board, _ in groupby(boards)]


@pytest.mark.parametrize("name", CASES)
def test_pages_keep_the_laws(name: str) -> None:
    """No text hides another, no leader crosses one, all is on the sheet."""
    for page in case(name)[1]:
        check_texts(page)
        check_on_sheet(page)


@pytest.mark.parametrize("name", CASES)
def test_every_saw_cut_is_numbered(name: str) -> None:
    boards, pages = case(name)
    handled = CASES[name][3]
    wanted = Counter(
        str(stroke.number) for board in drawn_once(boards) for stroke in sawing(board, OPTIONS, handled).strokes
    )
    told = Counter(text.text for page in pages for text in page.texts if text.role is Role.MARK)
    # The key of each page shows a third cut.
    assert told == wanted + Counter({"3": len(pages)})


@pytest.mark.parametrize("name", CASES)
def test_parts_are_true_to_scale_along_their_board(name: str) -> None:
    boards, pages = case(name)
    wanted = sorted(cut.length.units for board in drawn_once(boards) for cut in board.cuts)
    found = []
    for page in pages:
        for item in page.having(Role.PART):
            if isinstance(item, Area) and item.ring[0][0] < page.width - 80:  # not the sample of the key
                xs = [x for x, _ in item.ring]
                found.append((max(xs) - min(xs)) * page.denominator * UNITS_PER_MM)
    assert sorted(found) == pytest.approx(wanted, abs=2)


@pytest.mark.parametrize("name", CASES)
def test_every_mark_is_written(name: str) -> None:
    boards, pages = case(name)
    said = " ".join(text.text for page in pages for text in page.texts)
    for board in boards:
        assert all(cut.mark in said for cut in board.cuts)


def test_offcut_and_waste_differ_without_colour() -> None:
    """What is kept has strokes one way, waste both ways."""
    _, pages = case("workshop")
    for page in pages:
        for role, ways in ((Role.UNSEEN, 1), (Role.BARE, 2)):
            for area in page.having(role):
                assert isinstance(area, Area)
                xs, ys = [x for x, _ in area.ring], [y for _, y in area.ring]
                slopes = set()
                for stroke in page.having(Role.HATCH):
                    (x0, y0), (x1, y1) = stroke.spots[0], stroke.spots[-1]  # type: ignore[union-attr]
                    if min(xs) <= (x0 + x1) / 2 <= max(xs) and min(ys) <= (y0 + y1) / 2 <= max(ys):
                        slopes.add((y1 - y0) * (x1 - x0) > 0)
                if max(xs) - min(xs) > 8:
                    assert len(slopes) == ways


def test_first_cuts_are_heavy() -> None:
    boards, pages = case("first cut")
    first = sum(len(sawing(board, OPTIONS, HANDLED).first) for board in drawn_once(boards))
    heavy = [line for page in pages for line in page.having(Role.SPLIT)]
    assert first > 0
    assert len(heavy) == first + len(pages)
    assert all(line.pen is Pen.HEAVY for line in heavy)  # type: ignore[union-attr]


def test_no_boards_no_pages() -> None:
    assert saw_pages(Heading("Nothing", "", Unit.IN, ZERO), (), OPTIONS) == []


def test_cuts_that_find_no_room_for_their_numbers_are_refused() -> None:
    thin = [Cut("A", Length.inches(n), Length.inches(n + 1) - OPTIONS.kerf) for n in range(1, 190)]
    board = PlannedBoard("1x2", Length.inches(192), 100, tuple(thin), ZERO)
    with pytest.raises(ValueError, match="too close"):
        saw_pages(Heading("Pegs", "", Unit.IN, ZERO), (board,), OPTIONS, sheet="A4")


def test_board_longer_than_any_sheet_is_refused() -> None:
    long = Length.inches(100_000)
    board = PlannedBoard("1x2", long, 100, (Cut("A", ZERO, long),), ZERO)
    with pytest.raises(ValueError, match="too long"):
        saw_pages(Heading("Masts", "", Unit.IN, ZERO), (board,), OPTIONS, sheet="A4")


def test_spread_keeps_order_widths_and_limits() -> None:
    places = [0.0, 0.1, 0.2, 5.0, 30.0, 30.0]
    found = spread(places, [4.0] * 6, (-2.0, 40.0))
    assert all(b - a >= 4.0 - 1e-9 for a, b in pairwise(found))
    assert found[0] >= 0.0
    assert found[-1] <= 38.0
    assert spread([7.0], [3.0], (0.0, 10.0)) == [7.0]


def test_a_slanted_cut_is_measured_to_the_edge_that_its_figure_is_for() -> None:
    r"""Two arms of 26 3/4 in, mitred by 3 1/2 in: `/` at 1/4 near, `\` at 27 near, `/` at 50 7/16 on the far edge.

    By hand: the second arm shares the cut of the first, 27 - 3 1/2 + 3/16 of the blade along the board = 23 11/16 is
    where its far end begins; 26 3/4 more are 50 7/16.
    """
    side, inch = Length.inches("7/2"), Length.inches
    rising, falling = EndCut(side), EndCut(side, low=False)
    arms = (
        Cut("A", inch("1/4"), inch(27), (rising, rising)),
        Cut("A", inch("379/16"), inch("807/16"), (falling, falling)),
    )
    assert [cut.leans for cut in arms] == [(1, -1), (-1, 1)]
    board = PlannedBoard("4x4", inch(96), 100, arms, inch(40))
    (page,) = saw_pages(Heading("Arms", "", Unit.IN, ZERO), (board,), OPTIONS)
    drawn = page.width - 80  # the key lies beyond
    parts = [area for area in page.having(Role.PART) if isinstance(area, Area) and area.ring[0][0] < drawn]
    scale = page.denominator * UNITS_PER_MM
    first = min(x for part in parts for x, _ in part.ring) - inch("1/4").units / scale
    low, high = (take(y for _, y in parts[0].ring) for take in (min, max))
    dots = [area for area in page.having(Role.LEADER) if isinstance(area, Area) and area.ring[0][0] < drawn]
    found = []
    for dot in sorted(dots, key=lambda area: area.ring[0][0]):
        x, y = (sum(c) / len(dot.ring) for c in zip(*dot.ring, strict=True))
        edge = {round(low, 3): "near", round(high, 3): "far"}[round(y, 3)]
        found.append((round((x - first) * scale / UNITS_PER_INCH, 3), edge))
        corners = [corner for part in parts for corner in part.ring]
        assert min(abs(x - a) + abs(y - b) for a, b in corners) < 1e-6  # a long point of a part
    assert found == [(0.25, "near"), (27.0, "near"), (50.438, "far")]
    said = [text.text for text in page.texts]
    assert [text for text in said if text.endswith((", near", ", far"))] == ['1/4", near', '27", near', '50 7/16", far']
    assert any("far edge" in line for line in said)


@pytest.mark.parametrize("name", ["workshop", "metric"])
def test_square_cuts_name_no_edge(name: str) -> None:
    said = [text.text for page in case(name)[1] for text in page.texts]
    assert not any(text.endswith((", near", ", far")) for text in said)
