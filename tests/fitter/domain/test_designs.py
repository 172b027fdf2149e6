"""Neighbouring designs: which there are, who is the main run, what lies in the corner."""

from __future__ import annotations

from dataclasses import replace

from reader_plans import answer, bench, corner_bench

from fitter.domain.cushions import Cushion
from fitter.domain.designs import Change, Design, Laid, RunDesign, What, changes, design_of
from fitter.domain.wishes import CornerKind, EndKind, Shape, Side
from rooms.lengths import Length

SQUARE = Laid("square")
L_2_1 = Design(
    RunDesign(SQUARE, 2),
    RunDesign(SQUARE, 1),
    None,
    CornerKind.OUTSIDE_POST,
    SQUARE,
    None,
    EndKind.OPEN,
    EndKind.ARMED,
)


def counts(found: list[Change]) -> list[tuple[Side | None, int, int, int | None, Side | None]]:
    """Run, modules more, modules of the main run and of the arm, hand."""
    rows = []
    for change in found:
        design = change.design
        arm = design.run(design.hand) if design.hand else None
        rows.append((change.run, change.more, design.main.count, arm.count if arm else None, design.hand))
    return rows


def test_design_of_a_layout_is_what_was_asked() -> None:
    layout = answer(corner_bench(2, 1)).layout
    assert layout is not None
    design = design_of(layout)
    assert (design.shape, design.hand, design.corner) == (Shape.L, Side.RIGHT, CornerKind.OUTSIDE_POST)
    assert (design.main, design.right, design.left) == (RunDesign(SQUARE, 2), RunDesign(SQUARE, 1), None)
    assert (design.right_corner, design.left_corner) == (SQUARE, None)


def test_every_run_gets_a_module_more_or_less_but_never_none() -> None:
    found = [change for change in changes(corner_bench(2, 1), L_2_1) if change.what is What.COUNT]
    assert counts(found) == [
        (Side.MAIN, -1, 1, 1, Side.RIGHT),
        (Side.MAIN, 1, 3, 1, Side.RIGHT),
        (Side.MAIN, 2, 4, 1, Side.RIGHT),
        (Side.RIGHT, 1, 2, 2, Side.RIGHT),
        # Three modules are longer than two: the arm is the main run now, and the former one lies on its left.
        (Side.RIGHT, 2, 3, 2, Side.LEFT),
    ]
    assert [change.swapped for change in found] == [False, False, False, False, True]


def test_runs_that_change_roles_keep_their_ends() -> None:
    swapped = changes(corner_bench(2, 1), L_2_1)[4].design
    # A person before the longer run has the free end of the former arm on the right, as before.
    assert (swapped.right_end, swapped.left_end) == (EndKind.OPEN, EndKind.ARMED)
    assert (swapped.left_corner, swapped.right_corner) == (SQUARE, None)


def test_a_corner_cushion_is_turned_where_runs_change_roles() -> None:
    oblong = Cushion("oblong", Length.inches(24), Length.inches(20), Length.inches(5), may_turn=True)
    project = replace(corner_bench(2, 1), cushions=(oblong,))
    as_sold, turned = Laid("oblong"), Laid("oblong", turned=True)
    base = replace(L_2_1, main=RunDesign(turned, 2), right=RunDesign(as_sold, 1), right_corner=as_sold)
    grown = next(change for change in changes(project, base) if change.run is Side.RIGHT and change.more == 1)
    # 2 × 24 in is longer than 2 × 20 in.
    assert grown.swapped
    assert grown.design.left_corner == turned
    stiff = replace(project, cushions=(replace(oblong, may_turn=False),))
    kept = next(change for change in changes(stiff, replace(base, main=RunDesign(as_sold, 2))) if change.more == 2)
    assert kept.design.right_corner == as_sold


def test_the_other_hand_and_every_other_treatment_of_an_l() -> None:
    found = changes(corner_bench(2, 1), L_2_1)
    (hand,) = (change.design for change in found if change.what is What.HAND)
    assert (hand.hand, hand.left_end, hand.right_end) == (Side.LEFT, EndKind.OPEN, EndKind.ARMED)
    kinds = [change.design.corner for change in found if change.what is What.CORNER]
    assert kinds == [kind for kind in CornerKind if kind is not CornerKind.OUTSIDE_POST]
    table = next(change.design for change in found if change.design.corner is CornerKind.TABLE_CORNER)
    assert table.right_corner is None


def test_another_cushion_keeps_the_seats_as_far_as_they_come_out_even() -> None:
    single, double = Laid("seat"), Laid("double")
    base = Design(RunDesign(single, 3), None, None, None, None, None, EndKind.ARMED, EndKind.ARMED)
    found = changes(bench(3), base)
    assert [change.what for change in found] == [What.COUNT] * 3 + [What.CUSHION]
    assert (found[-1].laid, found[-1].design.main) == (double, RunDesign(double, 2))
    back = changes(bench(3), replace(base, main=RunDesign(double, 2)))
    assert back[-1].design.main == RunDesign(single, 4)
