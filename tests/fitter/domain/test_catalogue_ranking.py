"""How the cushions of a catalogue are ranked: by the objectives of the project, one after another."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from random import Random

from fitter.domain.catalogue import Candidate, Row, Trial, ranked
from fitter.domain.cushions import Cushion
from fitter.domain.layout import Proof, Verdict
from fitter.domain.outcome import FitResult, LayoutResult
from fitter.domain.wishes import DEFAULT_ORDER, Objective
from fitter.project import read_project
from rooms.lengths import Length

YARD = """\
units: in
room: {sides: {AB: 112, BC: 54, CD: 112, DA: 54}, turns: {A: left, B: left}}
cushions: [{name: seat, size: [24, 24, 5]}]
"""
PROJECT = read_project("yard.yaml", YARD)
SEATS, MONEY, POSTS = Objective.SEATS, Objective.MONEY, Objective.POSTS


def trial(
    line: int, values: Mapping[Objective, int] | None, verdict: Verdict = Verdict.PROVEN, *order: Objective
) -> Trial:
    """A trial that came to these values; None for no layout."""
    inch = Length.inches
    row = Row(line, Cushion(f"row {line}", inch(24), inch(24), inch(5)))
    project = replace(PROJECT, wish=replace(PROJECT.wish, prefer=tuple(dict.fromkeys((*order, *DEFAULT_ORDER)))))
    if values is None:
        return Trial(Candidate(row, project), FitResult(verdict))
    proofs = tuple(Proof(aim, value, value, proven=True) for aim, value in values.items())
    # No layout is looked at here, only what the objectives came to.
    shown = LayoutResult(1, verdict, None, proofs)  # type: ignore[arg-type]
    return Trial(Candidate(row, project), FitResult(verdict, (shown,)))


def lines(*trials: Trial) -> list[int]:
    return [each.candidate.row.line for each in ranked(trials).best]


def test_most_seats_first_then_least_money_then_fewest_posts() -> None:
    found = lines(
        trial(2, {SEATS: 8, MONEY: 900, POSTS: 4}),
        trial(3, {SEATS: 9, MONEY: 5000, POSTS: 9}),
        trial(4, {SEATS: 8, MONEY: 800, POSTS: 6}),
        trial(5, {SEATS: 8, MONEY: 800, POSTS: 5}),
    )
    assert found == [3, 5, 4, 2]


def test_the_order_of_the_wish_is_followed() -> None:
    dear, cheap = {SEATS: 9, MONEY: 5000}, {SEATS: 3, MONEY: 700}
    assert lines(trial(2, dear), trial(3, cheap)) == [2, 3]
    assert lines(trial(2, dear, Verdict.PROVEN, MONEY), trial(3, cheap, Verdict.PROVEN, MONEY)) == [3, 2]


def test_equal_ones_stay_as_the_catalogue_has_them_however_they_come() -> None:
    trials = [trial(line, {SEATS: 5 + line % 2, POSTS: 3}) for line in range(2, 30)]
    wanted = [line for line in range(2, 30) if line % 2] + [line for line in range(2, 30) if not line % 2]
    for seed in range(5):
        Random(seed).shuffle(trials)
        assert lines(*trials) == wanted


def test_what_was_not_reached_counts_as_worst() -> None:
    unfinished = trial(2, {SEATS: 8, MONEY: 100}, Verdict.FOUND)
    assert lines(unfinished, trial(3, {SEATS: 8, MONEY: 100, POSTS: 50})) == [3, 2]
    assert lines(unfinished, trial(3, {SEATS: 8, MONEY: 101, POSTS: 1})) == [2, 3]


def test_the_verdict_of_the_whole() -> None:
    proven, found = trial(2, {SEATS: 8}), trial(3, {SEATS: 8}, Verdict.FOUND)
    none, unknown, fault = (
        trial(n, None, v) for n, v in ((4, Verdict.IMPOSSIBLE), (5, Verdict.UNKNOWN), (6, Verdict.FAULT))
    )
    assert ranked([proven, none]).verdict is Verdict.PROVEN
    assert ranked([proven, none], left=1).verdict is Verdict.FOUND
    assert ranked([proven, found]).verdict is Verdict.FOUND
    assert ranked([proven, unknown]).verdict is Verdict.FOUND
    assert ranked([none]).verdict is Verdict.IMPOSSIBLE
    assert ranked([none], left=1).verdict is Verdict.UNKNOWN
    assert ranked([none, unknown]).verdict is Verdict.UNKNOWN
    assert ranked([proven, fault]).verdict is Verdict.FAULT
    refused = Trial(Candidate(none.candidate.row, None, "too thick"), None)
    assert ranked([proven, refused]).none == (refused,)
    assert ranked([refused]).verdict is Verdict.IMPOSSIBLE
