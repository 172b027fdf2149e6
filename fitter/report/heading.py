"""How the text of a command begins: the title, how the answer stands, and what it rests on."""

from __future__ import annotations

from rich.console import Console

from fitter.domain.layout import Verdict
from fitter.domain.outcome import FrameResult, LayoutResult
from fitter.domain.project import Project
from fitter.report.printing import say
from fitter.report.shed import limit_line
from fitter.report.words import Teller, headline, stamp


def print_heading(console: Console, project: Project, *verdicts: str) -> None:
    """Print the title, how the answer stands, and how many cushions may be bought.

    Args:
        console: where to.
        project: what was asked.
        verdicts: how the answer stands, a line each.
    """
    console.print(project.title, style="bold")
    for line in (project.note, *verdicts, limit_line(project)):
        if line:
            say(console, line)


def layout_line(project: Project, shown: LayoutResult, tell: Teller) -> str:
    """How the layout stands that is built, with its verdict word first."""
    if shown.verdict is not Verdict.PROVEN:
        return f"{shown.verdict}: {headline(shown.layout)}; {stamp(shown, project, tell)}"
    first = shown.rank == 1
    best = "no layout does better" if first else "none that differs from the layouts before it does better"
    return f"proven: {headline(shown.layout)}; {best}"


def no_such_layout(framed: FrameResult) -> str:
    """That there is no layout of the rank that was asked for."""
    last = framed.fit.layouts[-1].rank
    if framed.verdict is Verdict.IMPOSSIBLE:
        none = f"proven that there is none after rank {last} that differs enough from those before it"
        return f"impossible: no layout has rank {framed.rank}; {none}"
    stopped = "you stopped the search" if framed.fit.interrupted else "time ran out"
    return f"unknown: no layout of rank {framed.rank} was found before {stopped}; the last one has rank {last}"
