"""Plans whose answer a person can work out, and laws that every plan keeps."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import replace
from fractions import Fraction
from itertools import product
from pathlib import Path
from random import Random

import pytest
from cut_cases import tiny, workshop

from fitter.checking import check_plan
from fitter.cutting import NoPlanError, NoPriceError, board_prices, plan_boards
from fitter.cutting.columns import Generator
from fitter.domain.cuts import Aim, BoardPlan, CutOptions, OnHand, Piece, Reached, Stock
from fitter.domain.woodwork import EndCut, Slant
from rooms.lengths import ZERO, Length

inch = Length.inches
KERF = inch("1/8")
PLAIN = CutOptions(KERF)


def piece(length: int | str, count: int = 1, mark: str = "A") -> Piece:
    return Piece(mark, "2x4", inch(length), count)


def stock(length: int, price: int | None = None, have: int | None = None) -> Stock:
    return Stock("2x4", inch(length), price, have)


def bought(plan: BoardPlan) -> list[int]:
    return [int(board.length.inch) for board in plan.boards if not board.on_hand]


def reached(plan: BoardPlan, aim: Aim) -> Reached:
    return next(each for each in plan.reached if each.aim is aim)


@pytest.mark.parametrize(("length", "boards"), [("32", 2), ("127/4", 1)])
def test_n_parts_need_one_saw_cut_less(length: str, boards: int) -> None:
    """Three of 31 3/4 in and two saw cuts are 95 1/2 in; three of 32 in are 96 1/4 in."""
    assert len(plan_boards([piece(length, 3)], [stock(96, 500)], PLAIN).boards) == boards


def test_parts_that_fill_the_board_to_the_last_unit_fit() -> None:
    plan = plan_boards([piece("383/8", 2)], [stock(96, 500)], PLAIN)
    (board,) = plan.boards
    assert [(cut.start, cut.end) for cut in board.cuts] == [(ZERO, inch("383/8")), (inch(48), inch("767/8"))]
    assert board.offcut == ZERO


def test_trim_is_taken_off_both_ends() -> None:
    trimmed = replace(PLAIN, trim=inch("1/2"))
    assert plan_boards([piece(95)], [stock(96, 500), stock(120, 700)], trimmed).cost == 500
    plan = plan_boards([piece("1521/16")], [stock(96, 500), stock(120, 700)], trimmed)
    assert plan.cost == 700
    assert plan.boards[0].cuts[0].start == inch("1/2")


def test_price_beats_length() -> None:
    """Two cheap short boards for what one long one would do."""
    assert bought(plan_boards([piece(40, 4)], [stock(96, 300), stock(192, 700)], PLAIN)) == [96, 96]
    assert bought(plan_boards([piece(40, 4)], [stock(96, 300), stock(192, 599)], PLAIN)) == [192]


def test_a_longer_board_that_costs_less_takes_the_place_of_a_shorter_one() -> None:
    assert bought(plan_boards([piece(50)], [stock(60, 500), stock(72, 400)], PLAIN)) == [72]


def test_boards_on_hand_are_used_as_far_as_they_go() -> None:
    plan = plan_boards([piece(50, 3)], [stock(60, 500), stock(54, None, 2)], PLAIN)
    assert plan.cost == 500
    assert sorted(board.on_hand for board in plan.boards) == [False, True, True]


def test_some_on_hand_and_more_in_the_shop() -> None:
    plan = plan_boards([piece(50, 3)], [stock(60, 500, 1)], PLAIN)
    assert (plan.cost, len(plan.boards)) == (1000, 3)


def test_boards_on_hand_alone_may_not_suffice() -> None:
    with pytest.raises(NoPlanError) as caught:
        plan_boards([piece(50, 3)], [stock(60, None, 2)], PLAIN)
    assert (caught.value.section, caught.value.piece, caught.value.proven) == ("2x4", None, True)


def test_boards_on_hand_count_only_where_they_are_worth_keeping() -> None:
    """Both parts fit the bought board: the one on hand is left alone, unless it is as good as gone."""
    parts, boards = [piece(50), piece(30, mark="B")], [stock(96, 500), stock(31, None, 1)]
    kept = plan_boards(parts, boards, replace(PLAIN, on_hand=OnHand.CHEAPER))
    assert [board.on_hand for board in kept.boards] == [False]
    assert reached(kept, Aim.BOARDS).value == 1
    first = plan_boards(parts, boards, PLAIN)
    assert (first.cost, reached(first, Aim.BOARDS).value) == (500, 1)


def test_what_cannot_be_carried_is_not_bought() -> None:
    boards = [stock(96, 500), stock(192, 900)]
    assert bought(plan_boards([piece(60, 3)], boards, PLAIN)) == [192]
    assert bought(plan_boards([piece(60, 3)], boards, replace(PLAIN, longest_carried=inch(144)))) == [96, 96, 96]
    with pytest.raises(NoPlanError) as caught:
        plan_boards([piece(100)], boards, replace(PLAIN, longest_carried=inch(144)))
    assert caught.value.piece == piece(100)


def test_a_share_of_each_board_is_left_for_defects() -> None:
    """Of 100 in less 1 in at each end, a tenth is left: 88.2 in."""
    options = replace(PLAIN, trim=inch(1), defects=Fraction(1, 10))
    assert len(plan_boards([piece("441/10")], [stock(100, 500)], options).boards) == 1
    assert options.usable(inch(100)) == Length(98 * 8128 * 9 // 10)
    with pytest.raises(NoPlanError):
        plan_boards([piece("177/2")], [stock(100, 500)], options)


def test_without_any_price_the_least_length_is_bought() -> None:
    plan = plan_boards([piece(40, 4)], [stock(96), stock(168)], PLAIN)
    assert plan.cost is None
    assert plan.bound is None
    assert bought(plan) == [168]
    assert reached(plan, Aim.COST) == Reached(Aim.COST, inch(168).units, inch(168).units)
    assert check_plan([piece(40, 4)], [stock(96), stock(168)], PLAIN, plan) == ()


def test_one_price_that_is_missing_is_a_mistake() -> None:
    with pytest.raises(NoPriceError) as caught:
        plan_boards([piece(40)], [stock(96, 500), stock(120)], PLAIN)
    assert caught.value.stock == stock(120)


def test_fewer_boards_at_the_same_cost() -> None:
    """Two of 8 ft cost what one of 16 ft costs."""
    plan = plan_boards([piece(47, 4)], [stock(96, 400), stock(192, 800)], replace(PLAIN, kerf=ZERO))
    assert bought(plan) == [192]
    assert reached(plan, Aim.BOARDS) == Reached(Aim.BOARDS, 1, 1)


def test_less_length_at_the_same_cost_and_number() -> None:
    """One of 12 ft (five parts) and one of 7 ft (three) do what two of 10 ft (four each) do, for as much money."""
    boards = [stock(144, 600), stock(120, 500), stock(84, 400)]
    plan = plan_boards([piece("55/2", 8)], boards, PLAIN)
    assert plan.cost == 1000
    assert bought(plan) == [144, 84]
    assert reached(plan, Aim.WASTE) == Reached(Aim.WASTE, inch(228).units, inch(228).units)


def test_the_shorter_of_two_boards_of_one_price() -> None:
    assert bought(plan_boards([piece(100)], [stock(120, 500), stock(110, 500)], PLAIN)) == [110]


def test_a_board_for_nothing() -> None:
    """Sold for nothing, as many as wanted: the plan is free, and prices say nothing."""
    plan = plan_boards([piece(50, 3)], [stock(60, 0), stock(120, 500)], PLAIN)
    assert (plan.cost, plan.bound) == (0, 0)
    (prices,) = board_prices([piece(50, 3)], [stock(60, 0), stock(120, 500)], PLAIN)
    assert prices.bound([piece(50, 9)]) == 0


def test_fewer_patterns_on_the_same_boards() -> None:
    """Four boards of a long and a short part can all be sawn alike."""
    parts = [piece(50, 4), piece(40, 4, "B")]
    plan = plan_boards(parts, [stock(96, 500)], PLAIN)
    assert (len(plan.boards), plan.patterns) == (4, 1)
    assert reached(plan, Aim.PATTERNS) == Reached(Aim.PATTERNS, 1, 1)


@pytest.mark.parametrize("seed", range(12))
def test_the_longest_offcut_is_the_longest_of_all_cuttings(seed: int) -> None:
    """Where it comes before the patterns it is proven: tried against every way to share the parts among the boards."""
    parts, boards = tiny(seed, most=6)
    boards = tuple(board for board in boards if board.sold)
    options = replace(PLAIN, aims=(Aim.COST, Aim.BOARDS, Aim.WASTE, Aim.OFFCUT, Aim.PATTERNS))
    plan = plan_boards(parts, boards, options)
    assert check_plan(parts, boards, options, plan) == ()
    told = reached(plan, Aim.OFFCUT)
    assert told.proven
    each = [part.length + KERF for part in parts for _ in range(part.count)]
    longest = 0
    for shares in product(range(len(plan.boards)), repeat=len(each)):
        rests = [board.length.units for board in plan.boards]
        for width, share in zip(each, shares, strict=True):
            rests[share] -= width.units
        if min(rests) >= -KERF.units:
            longest = max(longest, *rests)
    assert told.value == longest


def test_sections_are_cut_apart_and_added_up() -> None:
    parts = [piece(50, 2), Piece("R", "2x8", inch(70), 3)]
    boards = [stock(96, 500), Stock("2x8", inch(144), 1900)]
    plan = plan_boards(parts, boards, PLAIN)
    assert plan.cost == 2 * 500 + 2 * 1900
    assert [board.section for board in plan.boards] == ["2x4", "2x4", "2x8", "2x8"]
    assert check_plan(parts, boards, PLAIN, plan) == ()


def test_two_mitred_parts_share_their_cuts() -> None:
    """Four trapezoids of 30 in, 3 1/2 in wide: 4 x 26 1/2 + 3 1/2 in and the saw cuts fit on 111 in, not on 110."""
    mitre = EndCut(inch("7/2"), Slant.WIDTH)
    parts = [Piece("T", "2x4", inch(30), 4, (mitre, mitre))]
    options = replace(PLAIN, mark=Length(1))
    plan = plan_boards(parts, [stock(111, 500)], options)
    assert len(plan.boards) == 1
    starts = [cut.start for cut in plan.boards[0].cuts]
    assert starts[1] < plan.boards[0].cuts[0].end
    assert check_plan(parts, [stock(111, 500)], options, plan) == ()
    assert len(plan_boards(parts, [stock(110, 500)], options).boards) == 2


@pytest.mark.parametrize("seed", range(25))
def test_mitred_plans_pass_the_check(seed: int) -> None:
    random = Random(f"mitred plans {seed}")
    over, side = random.choice(list(Slant)), inch("7/2")

    def end() -> EndCut:
        return EndCut(side, over, random.random() < 0.5) if random.random() < 0.6 else EndCut()

    parts = [
        Piece(f"P{n}", "2x4", inch(random.randint(8, 60)), random.randint(1, 4), (end(), end()), random.random() < 0.3)
        for n in range(random.randint(1, 6))
    ]
    boards = [stock(96, 450), stock(144, 710)]
    options = replace(PLAIN, trim=inch("1/2"))
    plan = plan_boards(parts, boards, options)
    assert check_plan(parts, boards, options, plan) == ()


def test_time_that_is_up_leaves_the_best_so_far_with_a_bound() -> None:
    parts, boards = workshop(12)
    plan = plan_boards(parts, boards, PLAIN, limit=1e-6)
    assert not plan.proven
    assert plan.cost is not None
    assert plan.bound is not None
    assert plan.bound < plan.cost
    assert plan.gap == plan.cost - plan.bound
    assert check_plan(parts, boards, PLAIN, plan) == ()


def test_an_interruption_leaves_the_best_so_far(monkeypatch: pytest.MonkeyPatch) -> None:
    parts, boards = workshop(12)

    def stop(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(Generator, "solve", stop)
    plan = plan_boards(parts, boards, PLAIN)
    assert plan.interrupted
    assert not plan.proven
    assert check_plan(parts, boards, PLAIN, plan) == ()


@pytest.mark.parametrize("seed", range(12))
def test_order_of_the_lists_changes_no_cost(seed: int) -> None:
    parts, boards = tiny(seed)
    random = Random(seed)
    mixed = random.sample(parts, len(parts)), random.sample(boards, len(boards))
    try:
        cost = plan_boards(parts, boards, PLAIN).cost
    except NoPlanError:
        with pytest.raises(NoPlanError):
            plan_boards(*mixed, PLAIN)
        return
    assert plan_boards(*mixed, PLAIN).cost == cost


@pytest.mark.parametrize("seed", range(6))
def test_a_part_less_never_costs_more(seed: int) -> None:
    parts, boards = workshop(seed, most=40)
    options = replace(PLAIN, aims=(Aim.COST,))
    whole, less = plan_boards(parts, boards, options), plan_boards(parts[1:], boards, options)
    assert whole.cost is not None
    assert less.cost is not None
    assert less.cost <= whole.cost


def test_same_lists_same_plan_whatever_the_hash_seed() -> None:
    code = (
        "from cut_cases import workshop; from fitter.cutting import plan_boards; from rooms.lengths import Length;"
        "from fitter.domain.cuts import CutOptions;"
        "print(plan_boards(*workshop(1, most=30), CutOptions(Length.inches('1/8'))))"
    )
    told = set()
    for seed in ("1", "2"):
        done = subprocess.run(
            [sys.executable, "-c", code],
            capture_output=True,
            text=True,
            check=True,
            env={"PYTHONHASHSEED": seed, "PYTHONPATH": f"tests/crosscheck:{Path.cwd()}", "PATH": ""},
        )
        told.add(done.stdout)
    assert len(told) == 1
