"""The page of a sweep: laws of pages, and steps where the values are."""

from __future__ import annotations

import pytest
from page_laws import check_page

from fitter.drawing.page import Area, Line, Page, Pen, Role
from fitter.drawing.sweep_page import Band, Chart, Level, Piece, State, sweep_page


def chart(lasts: tuple[int, ...], states: tuple[State, ...] = ()) -> Chart:
    """An invented sweep whose pieces end with these values, with seats that fall and a layout in words."""
    firsts = (0, *(last + 1 for last in lasts[:-1]))
    states = states or (State.PROVEN,) * len(lasts)
    pieces = tuple(
        Piece(first, last, f"{first} 15/16\"", state) for first, last, state in zip(firsts, lasts, states, strict=True)
    )  # fmt: skip
    there = [state in (State.PROVEN, State.FOUND) for state in states]
    levels = tuple(Level(9.0 - n, 9.0 - n, f"{9 - n}", f"{9 - n}") if fits else None for n, fits in enumerate(there))
    money = tuple(
        Level(100.0 * n, 100.0 * n + 50, f"{100 * n}.00", f"{100 * n + 50}.00") if fits else None
        for n, fits in enumerate(there)
    )
    words = tuple(f"L, short run on the left, treatment {n % 3}" if fits else None for n, fits in enumerate(there))
    bands = (Band("seats", levels), Band("money", money), Band("layout", words=words))
    return Chart(
        "Invented yard", "yard.yaml", ("from here to there",), "room.tolerance", pieces, f'{lasts[-1]}"', bands
    )


def steps(page: Page) -> list[Line]:
    return [item for item in page.having(Role.LEVEL) if isinstance(item, Line) and item.pen is Pen.HEAVY]


@pytest.mark.parametrize("imperial", [True, False])
@pytest.mark.parametrize(
    ("lasts", "states"),
    [
        ((40,), ()),
        ((0, 1, 2), ()),
        ((20, 21, 22, 23, 24, 90), ()),
        ((30, 60, 99), (State.PROVEN, State.NONE, State.WRONG)),
        ((2, 60, 64), (State.WRONG, State.FOUND, State.UNKNOWN)),
        (tuple(range(0, 400, 5)), ()),
    ],
)
def test_pages_keep_the_laws(lasts: tuple[int, ...], states: tuple[State, ...], imperial: bool) -> None:
    check_page(sweep_page(chart(lasts, states), imperial=imperial))


def test_steps_are_as_long_as_their_values_are_many() -> None:
    page = sweep_page(chart((9, 29, 99)), imperial=True)
    seats = steps(page)[:3]
    lengths = [line.spots[-1][0] - line.spots[0][0] for line in seats]
    assert lengths[1] == pytest.approx(2 * lengths[0])
    assert lengths[2] == pytest.approx(7 * lengths[0])
    heights = [line.spots[0][1] for line in seats]
    assert heights[0] - heights[1] == pytest.approx(heights[1] - heights[2])
    assert heights[0] > heights[2]


def test_money_that_rises_slopes() -> None:
    first = steps(sweep_page(chart((9, 29)), imperial=True))[2]
    assert first.spots[0][1] < first.spots[1][1]


def test_where_there_is_no_answer_it_is_grey_and_no_step() -> None:
    page = sweep_page(chart((30, 60, 99), (State.PROVEN, State.NONE, State.WRONG)), imperial=True)
    grey = [item for item in page.having(Role.HATCH) if isinstance(item, Area)]
    assert len(grey) == 2 * 3
    assert len(steps(page)) == 2
    written = {text.text for text in page.texts}
    assert {"no layout fits", "the file is wrong"} <= written


def test_what_is_not_proven_is_broken() -> None:
    page = sweep_page(chart((30, 60), (State.PROVEN, State.FOUND)), imperial=False)
    assert len({line.dash for line in steps(page)}) == 2
    assert any("Broken lines" in text.text for text in page.texts)


def test_words_that_find_no_room_get_letters() -> None:
    page = sweep_page(chart((80, 83, 86, 89)), imperial=True)
    written = [text.text for text in page.texts]
    assert "A" in written
    assert any(text.startswith("A: L, short run") for text in written)


def test_values_that_find_no_room_are_told() -> None:
    page = sweep_page(chart((20, 21, 22, 23, 600)), imperial=True)
    assert any("no room to write it" in text.text for text in page.texts)


def test_too_many_bands_for_a_sheet_are_refused() -> None:
    plain = chart((5, 9))
    many = Chart(plain.title, plain.file, plain.says, plain.axis, plain.pieces, plain.end, plain.bands * 8)
    with pytest.raises(ValueError, match="do not fit on the sheet"):
        sweep_page(many, imperial=True, sheet="Letter")
