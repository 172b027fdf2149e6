"""Differences of two lists of sticks, held against lists that are counted here by hand."""

from __future__ import annotations

from buyers import frame_of

from fitter.domain.part_changes import Resized, part_changes
from fitter.domain.woodwork import Part, PartRole
from rooms.lengths import Length

RAIL = next(part for part in frame_of().parts if part.role is PartRole.FRONT_RAIL)


def rails(*inches: int, role: PartRole = PartRole.FRONT_RAIL, wide: int = 7) -> list[Part]:
    return [
        Part(role, RAIL.run, RAIL.section, Length.inches(n), Length.inches(wide), RAIL.thickness, *_axes())
        for n in inches
    ]


def _axes() -> tuple[tuple[int, int, int], ...]:
    return (0, 0, 0), (1, 0, 0), (0, 1, 0), (0, 0, 1)


def test_equal_lists_differ_in_nothing() -> None:
    assert part_changes(rails(70, 20, 20), rails(20, 70, 20)) == ()


def test_as_many_sticks_of_other_lengths_are_resized_shortest_to_shortest() -> None:
    (change,) = part_changes(rails(72, 72, 30, 10), rails(10, 40, 96, 96))
    assert change.resized == (
        Resized(1, Length.inches(30), Length.inches(40)),
        Resized(2, Length.inches(72), Length.inches(96)),
    )
    assert (change.before, change.after, change.gone, change.come) == (4, 4, (), ())
    assert change.wood_after - change.wood_before == Length.inches(10 + 24 + 24)


def test_more_sticks_are_told_as_gone_and_come_longest_first() -> None:
    (change,) = part_changes(rails(72, 20), rails(40, 40, 30))
    assert [(count, stick[3].inch) for count, stick in change.gone] == [(1, 72), (1, 20)]
    assert [(count, stick[3].inch) for count, stick in change.come] == [(2, 40), (1, 30)]
    assert change.resized == ()


def test_a_stick_of_another_width_is_no_resized_one() -> None:
    (change,) = part_changes(rails(20), rails(20, wide=5))
    assert (len(change.gone), len(change.come), change.resized) == (1, 1, ())


def test_roles_come_in_the_order_of_every_list() -> None:
    before = [*rails(20, role=PartRole.TOP_RAIL), *rails(10)]
    after = [*rails(21, role=PartRole.TOP_RAIL), *rails(11)]
    assert [change.role for change in part_changes(before, after)] == [PartRole.FRONT_RAIL, PartRole.TOP_RAIL]
