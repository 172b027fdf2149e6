"""Sentences about verdicts, proofs, mistakes and progress."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from report_layouts import layout

from fitter.domain.findings import Finding, Place, ProjectError, Severity
from fitter.domain.layout import Proof, Verdict
from fitter.domain.outcome import Blocked, FitResult, LayoutResult
from fitter.domain.project import Project
from fitter.domain.wishes import Objective
from fitter.project import read_project
from fitter.report.document import number, written
from fitter.report.mistakes import mistakes_text
from fitter.report.progress import step_line
from fitter.report.reason import reason
from fitter.report.words import money, objective_bound, stamp, teller, verdict_line
from rooms.lengths import Length, Unit

EXAMPLES = Path(__file__).parents[3] / "examples"
TELL = teller(Unit.IN)


@pytest.fixture(scope="module")
def project() -> Project:
    return read_project(str(EXAMPLES / "courtyard.yaml"))


def test_every_verdict_begins_with_its_word(project: Project) -> None:
    for verdict in Verdict:
        assert verdict_line(FitResult(verdict), project, TELL).startswith(verdict)


@pytest.mark.parametrize(
    ("proof", "told"),
    [
        (Proof(Objective.SEATS, 7, 9, proven=False), "at most 2 more seats"),
        (Proof(Objective.POSTS, 6, 4, proven=False), "at most 2 fewer posts"),
        (Proof(Objective.POSTS, 6, 5, proven=False), "at most 1 fewer post"),
        (Proof(Objective.BUY, 6, 5, proven=False), "at most 1 fewer cushion to buy"),
        (Proof(Objective.BUY, 6, 6, proven=True), "cannot be fewer, with the rows above kept"),
        (Proof(Objective.CLOSE, 24, 8, proven=False), 'at most 1" closer'),
        (Proof(Objective.SEATS, 7, 7, proven=True), "no layout has 8 or more"),
        (Proof(Objective.WHOLE, 0, 0, proven=True), "cannot be less than none"),
        (Proof(Objective.LENGTHS, 3, 3, proven=True), "cannot be fewer, with the rows above kept"),
    ],
)
def test_what_is_known_beyond_a_value(project: Project, proof: Proof, told: str) -> None:
    assert objective_bound(proof, project, TELL) == told


def test_unproven_layout_says_how_much_better_one_might_be(project: Project) -> None:
    proofs = (Proof(Objective.SEATS, 7, 7, proven=True), Proof(Objective.POSTS, 6, 4, proven=False))
    shown = LayoutResult(1, Verdict.FOUND, layout(), proofs)
    told = verdict_line(FitResult(Verdict.FOUND, (shown,)), project, TELL)
    assert told == "found, not proven: time ran out, best so far; at most 2 fewer posts"
    assert stamp(shown, project, TELL) == "best found, not proven: at most 2 fewer posts"


def test_seats_that_meet_the_most_that_is_wanted_claim_no_more(project: Project) -> None:
    capped = replace(project, wish=replace(project.wish, most=7))
    assert objective_bound(Proof(Objective.SEATS, 7, 7, proven=True), capped, TELL) == "as many as are wanted"


def test_route_that_nothing_passes_is_told_without_a_width(project: Project) -> None:
    inch = Length.inches
    shut = Blocked("way out", inch(36), inch(0), ("AB", "fire bowl"))
    assert "no way leads through" in reason(project, FitResult(Verdict.IMPOSSIBLE, blocked=(shut,)), TELL)
    tight = replace(shut, clear=inch("63/2"))
    told = reason(project, FitResult(Verdict.IMPOSSIBLE, blocked=(tight,)), TELL)
    assert told.endswith("only 2' 7 1/2\" is left between edge AB and `fire bowl`.")


def test_caret_stands_below_the_column_even_far_out_in_a_long_line() -> None:
    line = "x" * 200 + "!" + "y" * 200
    error = ProjectError("a.yaml", (Finding("odd", "an odd sign", "", Place(1, 201), "leave it out"),))
    excerpt, caret = str(mistakes_text(error, [line])).splitlines()[1:3]
    assert excerpt[caret.index("^")] == "!"
    assert len(excerpt) < 80


def test_tabs_and_places_beyond_the_file_do_not_break_an_excerpt() -> None:
    findings = (Finding("odd", "one", "", Place(1, 3)), Finding("odd", "two", "", Place(9, 9)))
    told = str(mistakes_text(ProjectError("a.yaml", findings), ["\ta: b"]))
    assert "  1 |  a: b\n    |   ^" in told
    assert "a.yaml:9:9: error[odd]: two" in told
    assert told.endswith("2 mistakes in a.yaml")


def test_only_mistakes_are_told_of_a_file_that_cannot_be_used() -> None:
    findings = (
        Finding("a", "gone wrong"),
        Finding("b", "beware", severity=Severity.CAUTION),
        Finding("c", "by the way", severity=Severity.NOTE),
    )
    told = str(mistakes_text(ProjectError("a.yaml", findings), []))
    assert "by the way" not in told
    assert "beware" not in told
    assert told.endswith("1 mistake in a.yaml")


def test_numbers_are_exact_where_the_unit_allows() -> None:
    assert number(Length.inches("185/4"), Unit.IN) == 46.25
    assert number(Length.inches("1/64"), Unit.IN) == 0.015625
    assert number(Length.millimetres(1467), Unit.M) == 1.467
    assert str(number(Length.inches(-3), Unit.IN)) == "-3"
    assert str(number(Fraction(-1, 10**9), Unit.IN)) == "0"


def test_document_keeps_outlines_in_one_line() -> None:
    assert written({"a": [[1, 2.5], [3, 4]], "b": []}) == '{\n "a": [[1, 2.5], [3, 4]],\n "b": []\n}'


def test_money_keeps_its_hundredths() -> None:
    assert (money(Fraction(408)), money(Fraction(1, 10)), money(Fraction(1999, 100))) == ("408.00", "0.10", "19.99")


def test_progress_tells_best_bound_and_seconds(project: Project) -> None:
    told = step_line(project, TELL, Objective.SEATS, 7, 9, 3.21)
    assert told == "seats: best so far 7, bound 9, 3.2 s"
    assert "no bound yet" in step_line(project, TELL, Objective.SEATS, 7, None, 0.1)
    assert step_line(project, TELL, Objective.CLOSE, 24, 24, 1.0) == 'off the edge: best so far 1 1/2", proven, 1.0 s'
