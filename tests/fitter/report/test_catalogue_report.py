"""How a ranked catalogue is told, where it is not all proven."""

from __future__ import annotations

import io
from dataclasses import replace

from report_layouts import SQUARE, courtyard, layout, result
from rich.console import Console

from fitter.domain.catalogue import Candidate, Ranking, Row, Trial, ranked
from fitter.domain.layout import Verdict
from fitter.domain.outcome import FitResult
from fitter.report.catalogue import lines, rows, verdict
from fitter.report.catalogue_progress import CatalogueWatcher, best_line


def trial(name: str, line: int, count: int = 3, *, unproven: bool = False) -> Trial:
    """A cushion that so many of fit; none where that is 0."""
    project = replace(courtyard(), cushions=(replace(SQUARE, own=None),))
    row = Row(line, replace(SQUARE, name=name))
    none = Verdict.UNKNOWN if unproven else Verdict.IMPOSSIBLE
    found = result(layout(count), unproven=int(unproven)) if count else FitResult(none)
    return Trial(Candidate(row, project), found)


def told(ranking: Ranking) -> str:
    return verdict(ranking, "list.csv")


def test_the_verdict_says_what_was_left_open() -> None:
    one, two, none = trial("one", 2), trial("two", 3, unproven=True), trial("none", 4, 0)
    assert told(ranked([one, none])) == (
        "proven: the best layout with each of 2 cushions of list.csv, the best cushion first"
    )
    assert told(ranked([one, two])).startswith("found, not proven: time ran out for some of 2 cushions of list.csv")
    assert told(ranked([one], left=3)) == (
        "found: stopped by you after 1 of 4 cushions of list.csv; the layouts below are proven"
    )
    assert told(ranked([two], left=3)) == "found: stopped by you after 1 of 4 cushions of list.csv"
    assert told(ranked([], left=3)) == (
        "unknown: stopped by you after 0 of 3 cushions of list.csv, and no layout was found so far"
    )
    assert told(ranked([none])) == "impossible: proven that no layout fits with any of 1 cushion of list.csv"
    unknown = trial("open", 2, 0, unproven=True)
    assert told(ranked([unknown])).startswith("unknown: time ran out")


def test_rows_and_lines_mark_what_is_not_proven() -> None:
    ranking = ranked([trial("one", 2), trial("two", 3, unproven=True), trial("open", 4, 0, unproven=True)])
    assert [row[1] for row in rows(ranking)] == ["one", "two (not proven)"]
    assert list(lines(ranking)) == ["Time ran out before any layout was found with open."]


def test_the_bar_names_the_best_so_far() -> None:
    assert best_line(None) == "none fits so far"
    stream = io.StringIO()
    watcher = CatalogueWatcher(Console(file=stream, width=80, force_terminal=True), 3)
    with watcher.shown():
        for each in (trial("none", 2, 0), trial("small", 3, 2), trial("large", 4, 5), trial("middle", 5, 4)):
            watcher(each)
    assert "best so far: large, 5 seats" in stream.getvalue()
    assert "small, 2 seats" not in stream.getvalue().split("large, 5 seats")[-1]
