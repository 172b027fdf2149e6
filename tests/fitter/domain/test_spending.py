"""Differences of costs: what has no price is never counted as nothing."""

from __future__ import annotations

from fitter.domain.spending import More, Spent, Unknown, more_for_boards, more_for_cushions, more_in_all


def test_what_is_known_of_both_is_exact() -> None:
    assert more_in_all(Spent(1000, 400), Spent(1250, 300)) == More(150, Unknown.NOTHING)
    assert more_in_all(Spent(1000, 400), Spent(1250, 300)).exact == 150


def test_as_many_cushions_without_a_price_cancel_out() -> None:
    one, other = Spent(1000, None, kinds={"old": 3}), Spent(1250, None, kinds={"old": 3})
    assert more_in_all(one, other).exact == 250
    assert more_for_cushions(one, other) == More(None, Unknown.NOTHING)


def test_more_or_fewer_without_a_price_are_told_as_such() -> None:
    few, many = Spent(1000, 80, kinds={"old": 3}), Spent(1000, 80, kinds={"old": 4})
    assert (more_in_all(few, many), more_in_all(many, few)) == (More(0, Unknown.MORE), More(0, Unknown.LESS))
    assert more_in_all(few, many).exact is None
    mixed = Spent(1000, 80, kinds={"old": 2, "new": 1})
    assert more_in_all(few, mixed).unknown is Unknown.BOTH


def test_wood_without_a_price_counts_by_its_length() -> None:
    short, long = Spent(500, None, wood={"2x4": 10}), Spent(700, None, wood={"2x4": 12})
    assert more_for_boards(short, long) == More(200, Unknown.MORE)
    # A section whose boards are too short for a part is known before, and not after.
    assert more_for_boards(Spent(500, None), Spent(300, None, wood={"2x4": 12})) == More(-200, Unknown.MORE)


def test_a_sum_is_complete_only_without_gaps() -> None:
    assert Spent(500, 400).complete
    assert not Spent(500, 400, kinds={"old": 1}).complete
    assert not Spent(None, 400, wood={"2x4": 1}).complete
    assert (Spent(None, None).total, Spent(None, 400).total) == (None, 400)
