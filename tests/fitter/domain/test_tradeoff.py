"""What corner treatments are compared by, against arithmetic of its own."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from fitter.domain.cushions import Cushion
from fitter.domain.frame import Frame, Section
from fitter.domain.layout import Box
from fitter.domain.tradeoff import (
    Bar,
    Ground,
    Measure,
    Step,
    dominates,
    fronted,
    ground,
    notch_depth,
    shrinking,
)
from rooms.lengths import ZERO, Length

INCH = Length.inches(1)
MARK = Length.inches("1/16")


@st.composite
def boxes(draw: st.DrawFn) -> Box:
    x, y = draw(st.integers(-6, 6)), draw(st.integers(-6, 6))
    return Box(Length(x), Length(y), Length(x + draw(st.integers(1, 6))), Length(y + draw(st.integers(1, 6))))


@given(st.lists(boxes(), min_size=1, max_size=6))
@settings(max_examples=150, deadline=None)
def test_ground_is_the_cells_that_any_box_covers(given_boxes: list[Box]) -> None:
    cells = {
        cell
        for box in given_boxes
        for cell in product(range(box.x0.units, box.x1.units), range(box.y0.units, box.y1.units))
    }
    found = ground(given_boxes)
    assert found.area == len(cells)
    assert found.long.units == max(x for x, _ in cells) - min(x for x, _ in cells) + 1
    assert found.deep.units == max(y for _, y in cells) - min(y for _, y in cells) + 1


VALUES = st.fixed_dictionaries({measure: st.integers(0, 2).map(Fraction) for measure in Measure})
MORE_IS_BETTER = {"seats", "armed ends", "stiffness", "can be undone"}


@given(VALUES, VALUES)
@settings(max_examples=200, deadline=None)
def test_one_dominates_where_it_is_nowhere_worse_and_somewhere_better(
    one: dict[Measure, Fraction], other: dict[Measure, Fraction]
) -> None:
    def losses(values: dict[Measure, Fraction]) -> list[Fraction]:
        return [-values[each] if each.value in MORE_IS_BETTER else values[each] for each in Measure]

    mine, theirs = losses(one), losses(other)
    right = mine != theirs and all(a <= b for a, b in zip(mine, theirs, strict=True))
    assert dominates(one, other, tuple(Measure)) is right


def test_what_is_not_compared_does_not_count() -> None:
    alike = {measure: Fraction(1) for measure in Measure}
    dearer = {**alike, Measure.MONEY: Fraction(2), Measure.SEATS: Fraction(2)}
    assert not dominates(dearer, alike, tuple(Measure))
    assert dominates(dearer, alike, tuple(each for each in Measure if each is not Measure.MONEY))


POST = Section("4x4", Length.inches("7/2"), Length.inches("7/2"))


def step(notch: int, area: int, cents: int | None, bar: Bar | None = None) -> Step:
    return Step(POST, ZERO, ZERO, Length(notch), Ground(ZERO, ZERO, area), ZERO, ZERO, 0, ZERO, cents, bar)


@given(st.lists(st.tuples(*(st.integers(0, 3),) * 3, st.sampled_from((None, Bar.ROOM))), max_size=8))
@settings(max_examples=200, deadline=None)
def test_the_front_is_what_nothing_that_fits_beats(rows: list[tuple[int, int, int, Bar | None]]) -> None:
    found = fronted([step(*row) for row in rows])
    had = [row[:3] for row in rows if row[3] is None]
    beaten = [any(o != row[:3] and all(a <= b for a, b in zip(o, row, strict=False)) for o in had) for row in rows]
    first = [row[:3] not in [each[:3] for each in rows[:n] if each[3] is None] for n, row in enumerate(rows)]
    assert found == tuple(
        row[3] is None and not lost and new for row, lost, new in zip(rows, beaten, first, strict=True)
    )


def test_cost_does_not_count_where_one_that_fits_has_none() -> None:
    assert fronted([step(1, 1, 5), step(1, 2, 3)]) == (True, True)
    assert fronted([step(1, 1, 5), step(1, 2, 3), step(9, 9, None)]) == (True, False, False)


def test_a_notch_shrinks_to_nothing_in_four_steps_at_most() -> None:
    for sixteenths in range(1, 130):
        notch = MARK * sixteenths
        found = shrinking(notch, imperial=True)
        assert found[-1] == notch
        assert len(found) <= 4
        assert list(found) == sorted(set(found), key=lambda length: length.units)


@given(st.integers(8, 96), st.integers(0, 8), st.integers(-16, 32), st.integers(0, 64))
@settings(max_examples=200, deadline=None)
def test_notch_depth_is_what_the_document_says(post: int, clearance: int, ease: int, over: int) -> None:
    """n(k) = max(0, k + notch clearance − half the cushion's ease − overhang), up to the mark; all in sixteenths."""
    frame = Frame(POST, POST, INCH, INCH, INCH, MARK * clearance, 72 * INCH, overhang=MARK * over)
    cushion = replace(Cushion("seat", 24 * INCH, 24 * INCH, 5 * INCH), ease=MARK * ease)
    exact = post + clearance - Fraction(ease, 2) - over
    assert notch_depth(frame, cushion, MARK * post, MARK) == MARK * max(0, -(-exact.numerator // exact.denominator))
