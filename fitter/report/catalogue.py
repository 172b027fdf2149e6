"""The cushions of a catalogue as a table for the terminal, the best first."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING

from fitter.domain.catalogue import Ranking, Trial
from fitter.domain.layout import Layout, Verdict
from fitter.report.rows import Row
from fitter.report.shed import cushions_cost
from fitter.report.words import counted, money

if TYPE_CHECKING:
    from rich.console import Console

HEADS = ("rank", "cushion", "seats", "layout", "notched", "cushions", "boards")
RIGHT = ("rank", "seats", "notched", "cushions", "boards")


def print_ranking(console: Console, title: str, note: str, catalogue: str, ranking: Ranking) -> None:
    """Print how the catalogue stands, the ranked cushions, and those that do not fit.

    Args:
        console: where to.
        title: of the project.
        note: of the project; empty if none.
        catalogue: its file, as the user wrote it.
        ranking: not a `fault`, whose layouts must not be shown.
    """
    # Documents are written without the terminal's library.
    from fitter.report.printing import print_table, say

    console.print(title, style="bold")
    if note:
        say(console, note)
    say(console, verdict(ranking, catalogue))
    print_table(console, HEADS, rows(ranking), RIGHT)
    if told := list(lines(ranking)):
        console.print()
    for line in told:
        say(console, line, 2)


def verdict(ranking: Ranking, catalogue: str) -> str:
    """How the whole stands, with its verdict word first."""
    trials = (*ranking.best, *ranking.none)
    settled = all(trial.verdict in (Verdict.PROVEN, Verdict.IMPOSSIBLE) for trial in trials)
    whole = f"{counted(len(trials), 'cushion')} of {catalogue}"
    if ranking.left:
        stopped = f"stopped by you after {len(trials)} of {len(trials) + ranking.left} cushions of {catalogue}"
        if not ranking.best:
            return f"unknown: {stopped}, and no layout was found so far"
        return f"found: {stopped}" + ("; the layouts below are proven" if settled else "")
    return {
        Verdict.PROVEN: f"proven: the best layout with each of {whole}, the best cushion first",
        Verdict.IMPOSSIBLE: f"impossible: proven that no layout fits with any of {whole}",
        Verdict.UNKNOWN: f"unknown: time ran out, and no layout was found with any of {whole}",
    }.get(ranking.verdict, f"found, not proven: time ran out for some of {whole}; the best so far")


def open_end(trial: Trial) -> bool:
    """Whether time ran out before the layout was proven best."""
    return trial.verdict is not Verdict.PROVEN


def rows(ranking: Ranking) -> Iterator[Row]:
    """One row for each cushion that has a layout."""
    for rank, trial in enumerate(ranking.best, start=1):
        shown = trial.shown
        assert shown is not None
        layout, costs = shown.layout, trial_costs(trial)
        name = trial.candidate.row.cushion.name + (" (not proven)" if open_end(trial) else "")
        cushions, boards = ("unknown" if cost is None else money(cost) for cost in costs)
        yield str(rank), name, str(layout.seats), form(layout), str(layout.notches), cushions, boards


def form(layout: Layout) -> str:
    """Shape and corner of a layout in short; left and right make no difference to a cushion."""
    return f"{layout.shape}, {layout.corner}" if layout.corner else str(layout.shape)


def trial_costs(trial: Trial) -> tuple[Fraction | None, Fraction | None]:
    """What cushions and boards cost; None where no price is known."""
    shown, project = trial.shown, trial.candidate.project
    assert shown is not None
    assert project is not None
    boards = None if shown.boards is None else Fraction(shown.boards.cost, 100)
    return cushions_cost(project, shown.layout), boards


def lines(ranking: Ranking) -> Iterator[str]:
    """What is said of those without a layout."""
    fits = [trial for trial in ranking.none if not trial.candidate.refused]
    impossible = [_name(trial) for trial in fits if trial.verdict is Verdict.IMPOSSIBLE]
    open_ones = [_name(trial) for trial in fits if trial.verdict is not Verdict.IMPOSSIBLE]
    if impossible and ranking.verdict is not Verdict.IMPOSSIBLE:
        yield f"Proven that no layout fits with {', '.join(impossible)}."
    if open_ones:
        yield f"Time ran out before any layout was found with {', '.join(open_ones)}."
    for trial in ranking.none:
        if trial.candidate.refused:
            yield f"{_name(trial)} does not go with the frame: {trial.candidate.refused}."


def _name(trial: Trial) -> str:
    return trial.candidate.row.cushion.name
