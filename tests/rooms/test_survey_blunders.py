"""The reading that is wrong is named; where it cannot be told, the tie that is named would tell."""

from __future__ import annotations

import math
from dataclasses import replace
from statistics import NormalDist

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from survey_cases import NAMES, Spot, outlines, readings, taken

from rooms.lengths import Length, Unit
from rooms.survey import Readings, SurveyError, SurveyProblem, Suspicion, adjust, describe, details
from rooms.survey.blunders import critical
from rooms.survey.readings import DEVIATIONS

PENTAGON: list[Spot] = [(0, 0), (200, 0), (230, 130), (110, 230), (-30, 140)]
"""With three ties every corner is held by three lengths or more, so there is no second outline."""
HEXAGON: list[Spot] = [(0, 0), (210, 10), (260, 150), (190, 260), (60, 250), (-40, 120)]
CLOSE = Length.inches("1/16")
"""Between a length foretold from readings in whole units and the true one."""


def refusal(found: Readings) -> SurveyProblem:
    """The one problem of readings that disagree."""
    with pytest.raises(SurveyError) as caught:
        adjust(found)
    (problem,) = caught.value.problems
    assert problem.code == "readings-disagree"
    return problem


def suspicion(found: Readings) -> Suspicion:
    """What is suspected of readings that disagree."""
    suspected = refusal(found).suspicion
    assert suspected is not None
    return suspected


def true_length(spots: list[Spot], name: str) -> Length:
    """The length of a line of the outline that was meant."""
    return Length.inches(str(math.dist(spots[NAMES.index(name[0])], spots[NAMES.index(name[1])])))


def off(found: Length | float | None, meant: Length) -> Length:
    """How far a length is from what is meant."""
    assert isinstance(found, Length)
    return abs(found - meant)


def numeric_design(found: Readings, spots: np.ndarray) -> np.ndarray:
    """Derivatives of all lengths over their tolerance by all free coordinates, by differences."""
    ends = [(found.index(a), found.index(b)) for a, b, _ in (*found.sides, *found.ties)]

    def lengths(free: np.ndarray) -> np.ndarray:
        places = spots.copy()
        places[1:, 0], places[2:, 1] = free[: len(spots) - 1], free[len(spots) - 1 :]
        return np.array([np.hypot(*(places[j] - places[i])) for i, j in ends]) / found.tolerance.units

    start = np.concatenate([spots[1:, 0], spots[2:, 1]])
    steps = np.eye(len(start))
    return np.array([(lengths(start + step) - lengths(start - step)) / 2 for step in steps]).T


def test_standardised_residuals_are_those_of_plain_linear_algebra() -> None:
    """Residuals of a straightened system, each over its own standard deviation."""
    noise = {"AB": 0.11, "CD": -0.07, "EF": 0.05, "AC": -0.12, "BE": 0.03, "CF": 0.1, "DF": -0.02}
    found = taken(HEXAGON, noise=noise)
    survey = adjust(found)
    spots = np.array([(float(p.x.units), float(p.y.units)) for _, p in survey.points])
    design = numeric_design(found, spots)
    taped = (*found.sides, *found.ties)
    apart = [np.hypot(*(spots[found.index(b)] - spots[found.index(a)])) - float(size.units) for a, b, size in taped]
    hat = design @ np.linalg.solve(design.T @ design, design.T)
    residuals = (np.eye(len(taped)) - hat) @ np.array(apart) / found.tolerance.units
    numbers = np.diag(np.eye(len(taped)) - hat)
    expected = {a + b: (1.96 * v / math.sqrt(r), r) for (a, b, _), v, r in zip(taped, residuals, numbers, strict=True)}
    for residual in survey.residuals:
        w, r = expected[residual.name]
        assert residual.standardised == pytest.approx(w, abs=0.002)
        assert residual.checked == pytest.approx(r, abs=1e-4)
    assert sum(residual.checked for residual in survey.residuals) == pytest.approx(survey.redundancy, abs=1e-4)


def test_the_square_of_w_is_what_leaving_a_reading_out_saves() -> None:
    """To first order, which holds for errors as small as these."""
    found = taken(HEXAGON, noise={"AB": 0.2, "CE": -0.15, "DE": 0.1})
    survey = adjust(found)

    def square_sum(taped: Readings) -> float:
        shape = adjust(taped)
        return (shape.s0 or 0.0) ** 2 * shape.redundancy

    for tie in ("AC", "CE", "BF"):
        w = next(r.standardised for r in survey.residuals if r.name == tie)
        without = replace(found, ties=tuple(line for line in found.ties if line[0] + line[1] != tie))
        assert square_sum(found) - square_sum(without) == pytest.approx((w or 0.0) ** 2, abs=0.01)


def test_what_stands_out_is_rare_among_sound_surveys() -> None:
    """One test at 95 percent is the common 1.96; with more tests each must be rarer, together 95 percent."""
    assert critical(1) == pytest.approx(DEVIATIONS)
    for count in (2, 5, 30):
        alone = 2 * NormalDist().cdf(critical(count)) - 1
        assert alone**count == pytest.approx(0.95)


@given(spots=outlines(least=5, most=6), data=st.data())
@settings(max_examples=40, deadline=None)
def test_the_one_wrong_reading_is_named_with_what_it_should_be(spots: list[Spot], data: st.DataObject) -> None:
    """All ties were taped, and one well checked reading is off by a foot."""
    exact = taken(spots)
    name = data.draw(st.sampled_from([a + b for a, b, _ in (*exact.sides, *exact.ties)]))
    assume(next(r.checked for r in adjust(exact).residuals if r.name == name) > 0.3)
    slip = data.draw(st.sampled_from([-12.0, 12.0]))
    assume(float(true_length(spots, name).inch) + slip > 12)
    with pytest.raises(SurveyError) as caught:
        adjust(taken(spots, slips={name: slip}))
    # Some slips no triangle allows, which is told before any shape is tried.
    assume([problem.code for problem in caught.value.problems] == ["readings-disagree"])
    suspected = caught.value.problems[0].suspicion
    assert suspected is not None
    assert suspected.enough
    assert suspected.suspects[0].name == name
    assert off(suspected.suspects[0].meant, true_length(spots, name)) < CLOSE


def test_a_tie_a_foot_short_is_told_alone() -> None:
    """With readings enough to spare there is nothing to guess; other readings only suffer from it."""
    problem = refusal(taken(HEXAGON, slips={"AD": -12}))
    assert problem.suspicion is not None
    assert problem.suspicion.clear
    assert problem.readings[0] == "AD"
    assert len(problem.residuals) > 1
    message, help = describe(problem, Unit.IN)
    assert message.startswith("the readings disagree: AD reads ")
    assert help == "tape AD again; without it, all other readings agree within their limits"
    assert details(problem, Unit.IN) == ()


def test_two_wrong_readings_are_named_together() -> None:
    """Where no reading alone explains it, the pair that does; one at a time would name others first."""
    suspected = suspicion(taken(HEXAGON, slips={"EF": 12, "BF": 12}))
    assert not suspected.enough
    assert suspected.second is not None
    assert {suspected.suspects[0].name, suspected.second.name} == {"EF", "BF"}


@pytest.mark.parametrize("wrong", ["AB", "BC", "CD", "DE", "EA", "AC", "AD", "BE"])
def test_with_one_reading_to_spare_a_further_tie_would_tell(wrong: str) -> None:
    """All that are checked explain it alike; if the wrong one is `wrong`, the named tie has the length foretold."""
    ties = "AC AD BE"
    problem = refusal(taken(PENTAGON, ties=ties, slips={wrong: 4.0}))
    found = problem.suspicion
    assert found is not None
    assert len(found.suspects) > 1
    assert len({round(abs(suspect.standardised), 1) for suspect in found.suspects}) == 1
    (suspect,) = (suspect for suspect in found.suspects if suspect.name == wrong)
    assert found.line is not None
    assert found.line not in ties.split()
    assert suspect.foretold is not None
    assert off(suspect.foretold, true_length(PENTAGON, found.line)) < CLOSE
    assert off(suspect.meant, true_length(PENTAGON, wrong)) < CLOSE
    assert found.line in describe(problem, Unit.IN)[1]
    assert len(details(problem, Unit.IN)) == 1 + len(found.suspects)
    settled = suspicion(taken(PENTAGON, ties=f"{ties} {found.line}", slips={wrong: 4.0}))
    assert len(settled.suspects) < len(found.suspects)
    assert wrong in [suspect.name for suspect in settled.suspects]


def test_no_other_tie_would_tell_more() -> None:
    """Tried out: with each tie taped in turn, and each suspect in turn the wrong one, suspects are counted."""
    ties, slip = "AC AD BE", 4.0
    found = suspicion(taken(PENTAGON, ties=ties, slips={"CD": slip}))
    left = {
        line: sum(
            len(suspicion(taken(PENTAGON, ties=f"{ties} {line}", slips={suspect.name: slip})).suspects)
            for suspect in found.suspects
        )
        for line in ("BD", "CE")
    }
    assert found.line is not None
    assert left[found.line] == min(left.values()) < len(found.suspects) ** 2


def test_two_readings_of_one_corner_cannot_be_told_apart_though_much_is_to_spare() -> None:
    """Corner F hangs on three lengths, so their slips show alike; the rest is taped all over."""
    ties = "AC AD AE BD BE CE CF"
    found = taken(HEXAGON, ties=ties, slips={"CF": 3.0})
    problem = refusal(found)
    assert adjust(taken(HEXAGON, ties=ties)).redundancy > 2
    suspected = problem.suspicion
    assert suspected is not None
    assert sorted(suspect.name for suspect in suspected.suspects) == ["CF", "EF", "FA"]
    assert suspected.line in ("BF", "DF")
    told = suspicion(taken(HEXAGON, ties=f"{ties} {suspected.line}", slips={"CF": 3.0}))
    assert [suspect.name for suspect in told.suspects] == ["CF"]


def test_a_turn_that_is_wrong_is_told_as_a_corner() -> None:
    """The inside angle read, what it should be, and what to do."""
    sides = {"AB": "16' 4\"", "BC": "11' 2\"", "CD": "16' 4\"", "DA": "11' 2\""}
    problem = refusal(readings("ABCD", sides, {"B": 80}, {"AC": "19' 9 7/16\"", "BD": "19' 9 7/16\""}))
    assert problem.suspicion is not None
    assert problem.suspicion.clear
    message, help = describe(problem, Unit.IN)
    assert message.endswith("the inside angle at B reads 80 degrees, the others make it 90.0")
    assert help.startswith("check corner B")


def test_a_visible_misclosure_within_the_limits_is_suspicious_but_accepted() -> None:
    """Half an inch in a diagonal leaves residuals below a quarter, yet sound tapes seldom do that."""
    sides = {"AB": "16' 4\"", "BC": "11' 2\"", "CD": "16' 4\"", "DA": "11' 2\""}
    survey = adjust(readings("ABCD", sides, {}, {"AC": "19' 9 7/16\"", "BD": "19' 10\""}))
    assert all(residual.share < 1 for residual in survey.residuals)
    assert survey.suspicion is not None
    assert len(survey.suspicion.suspects) == 6
    assert survey.suspicion.line is None
    close = adjust(readings("ABCD", sides, {}, {"AC": "19' 9 7/16\"", "BD": "19' 9 9/16\""}))
    assert close.suspicion is None


def test_nothing_is_suspected_where_nothing_is_to_spare() -> None:
    """A triangle of three lengths has no residuals."""
    survey = adjust(readings("ABC", {"AB": "3'", "BC": "4'", "CA": "5'"}))
    assert survey.suspicion is None
    assert survey.critical is None
    assert all(residual.standardised is None and residual.checked == 0 for residual in survey.residuals)
