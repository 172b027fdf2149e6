"""Variants against files written by hand at the same sizes: the same sticks, boards and costs, whatever the road."""

from __future__ import annotations

import pytest
from reader_plans import answer, bench, corner_bench, framed, planned, some, sticks, varied

from fitter.checking import check_layout, check_woodwork
from fitter.domain.designs import What
from fitter.domain.layout import Verdict
from fitter.domain.outcome import FitResult
from fitter.domain.part_changes import part_changes
from fitter.domain.project import Project
from fitter.domain.variants import Variant
from fitter.domain.wishes import CornerKind, Side
from fitter.workflow.varying_plan import variants

PUBLISHED = corner_bench(2, 1)


def counted(project: Project, side: Side, more: int) -> Variant:
    """The variant with so many modules more of a run."""
    return next(
        each for each in varied(project).variants if each.change and (each.change.run, each.change.more) == (side, more)
    )


def treated(project: Project, kind: CornerKind) -> Variant:
    """The variant with another corner treatment."""
    return next(
        each for each in varied(project).variants if each.change and each.change.design.corner is kind
        and each.change.what is What.CORNER
    )  # fmt: skip


@pytest.mark.parametrize("more", [-1, 1, 2])
def test_a_bench_of_another_size_is_what_its_own_file_gives(more: int) -> None:
    by_hand, variant = bench(2 + more), counted(bench(2), Side.MAIN, more)
    assert sticks(variant.parts) == sticks(framed(by_hand))
    assert part_changes(framed(bench(2)), variant.parts) == part_changes(framed(bench(2)), framed(by_hand))
    made = planned(by_hand)
    assert variant.bought == {key: count for key, count in _bought(by_hand).items() if count}
    assert variant.spent.boards == made.cost
    assert variant.spent.cushions == 4000 * (2 + more)
    assert (variant.cushions[0].seats, variant.cushions[0].backs) == (2 + more, 2 + more)


def _bought(project: Project) -> dict[tuple[str, object], int]:
    found: dict[tuple[str, object], int] = {}
    for board in planned(project).boards:
        key = (board.section, board.length)
        found[key] = found.get(key, 0) + 1
    return found


SIZES = [
    (Side.MAIN, -1, 1, 1, "right"),
    (Side.MAIN, 1, 3, 1, "right"),
    (Side.RIGHT, 1, 2, 2, "right"),
    # The arm becomes the longer run, so both change roles.
    (Side.RIGHT, 2, 3, 2, "left"),
]


def test_variants_of_an_l() -> None:
    """One test for all that is held against the same variants, which take a while to build."""
    for side, more, main, arm, hand in SIZES:
        _same_as_a_file_of_its_own(counted(PUBLISHED, side, more), corner_bench(main, arm, hand))
    for kind in (CornerKind.INSIDE_POST, CornerKind.TABLE_CORNER):
        _same_as_a_file_of_its_own(treated(PUBLISHED, kind), corner_bench(2, 1, corner=str(kind)))
    _the_other_hand_takes_the_same_sticks()
    _every_variant_passes_checker_and_proof_in_a_room_of_its_own()
    _a_room_made_for_one_size_holds_no_larger_one()


def _same_as_a_file_of_its_own(variant: Variant, by_hand: Project) -> None:
    assert sticks(variant.parts) == sticks(framed(by_hand))
    assert part_changes(framed(PUBLISHED), variant.parts) == part_changes(framed(PUBLISHED), framed(by_hand))


def _the_other_hand_takes_the_same_sticks() -> None:
    hand = next(each for each in varied(PUBLISHED).variants if each.change and each.change.what is What.HAND)
    assert hand.layout.hand is Side.LEFT
    assert sticks(hand.parts) == sticks(framed(corner_bench(2, 1, "left"))) == sticks(framed(PUBLISHED))


def _every_variant_passes_checker_and_proof_in_a_room_of_its_own() -> None:
    found = varied(PUBLISHED)
    assert found.verdict is Verdict.PROVEN
    assert found.moved == ()
    assert found.base is not None
    for variant in found.every:
        framed_one = variant.boards.framed
        assert variant.built, variant
        assert framed_one.woodwork is not None
        assert check_layout(variant.ground, variant.layout) == ()
        assert check_woodwork(variant.ground, variant.layout, framed_one.woodwork) == ()


def _a_room_made_for_one_size_holds_no_larger_one() -> None:
    told = {
        (each.change.run, each.change.more): each.here.verdict
        for each in varied(PUBLISHED).variants
        if each.change and each.change.run and each.here
    }
    assert told == {
        (Side.MAIN, -1): Verdict.FOUND,
        (Side.MAIN, 1): Verdict.IMPOSSIBLE,
        (Side.MAIN, 2): Verdict.IMPOSSIBLE,
        (Side.RIGHT, 1): Verdict.IMPOSSIBLE,
        (Side.RIGHT, 2): Verdict.IMPOSSIBLE,
    }
    wide = counted(PUBLISHED, Side.MAIN, 1).here
    assert wide is not None
    # What forbids it are the edges that bound the main run, and nothing that was wished.
    assert {fact.id for fact in wide.clash} == {"edge:BC", "edge:DA"}


def only(project: Project, *kinds: CornerKind) -> tuple[Variant, ...]:
    """Variants of some corner treatments."""
    return some(
        project, lambda change: change.what is What.CORNER and change.design.corner in kinds
    ).variants  # fmt: skip


def test_leaning_backs_forbid_treatments_without_a_tall_post() -> None:
    found = only(corner_bench(1, 1, lean=8), CornerKind.ANGLE_POST, CornerKind.LOW_POST)
    assert [[fact.id for fact in variant.clash] for variant in found] == [["backs"], ["backs"]]
    assert {variant.verdict for variant in found} == {Verdict.IMPOSSIBLE}


def test_a_cushion_that_may_not_be_cut_is_why_an_inside_post_cannot_be() -> None:
    (variant,) = only(corner_bench(1, 1, soft=False), CornerKind.INSIDE_POST)
    assert variant.verdict is Verdict.IMPOSSIBLE
    assert variant.lacks == "the cushion in the corner would be cut for the post, and `square` may not be cut"


def test_a_reader_has_neither_cushions_nor_boards_of_the_author() -> None:
    stocked, bare = varied(bench(2, own=1, have=3)), varied(bench(2))
    assert [each.spent for each in stocked.every] == [each.spent for each in bare.every]
    assert stocked.base is not None
    assert (stocked.base.cushions[0].own, stocked.base.cushions[0].buy) == (1, 1)


def test_variants_that_time_does_not_reach_are_unknown() -> None:
    found = variants(PUBLISHED, answer(PUBLISHED), limit=1e-9)
    assert {each.verdict for each in found.every} == {Verdict.UNKNOWN}
    assert found.verdict is Verdict.FOUND


def test_without_a_layout_there_is_nothing_to_vary() -> None:
    found = variants(PUBLISHED, FitResult(Verdict.IMPOSSIBLE))
    assert (found.every, found.verdict) == ((), Verdict.IMPOSSIBLE)
