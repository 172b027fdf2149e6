"""A fit as tables for the terminal, 80 columns wide."""

from __future__ import annotations

from rich.console import Console

from fitter.domain.corner_words import SEAMS, corner_told
from fitter.domain.differences import differences
from fitter.domain.layout import Layout, Verdict
from fitter.domain.outcome import FitResult, LayoutResult
from fitter.domain.owned import Buying
from fitter.domain.project import Project
from fitter.report import rows
from fitter.report.board_costs import boards_told
from fitter.report.fills import fill_notes, fill_rows
from fitter.report.heading import print_heading
from fitter.report.held import failed_lines, findings_told
from fitter.report.more_bought import BUYING_HEADS, BUYING_RIGHT, buying_lines, buying_rows
from fitter.report.printing import print_findings, print_table, say
from fitter.report.reason import grounds, reason
from fitter.report.setting import ground_notes, setting_out
from fitter.report.shed import shed_lines
from fitter.report.sources import LEGEND, SOURCE_HEADS, source_tables
from fitter.report.why import print_clash
from fitter.report.words import SAFETY, Teller, headline, open_end, teller, verdict_line


def print_fit(
    console: Console, project: Project, result: FitResult, denominator: int = 16, buying: Buying | None = None
) -> None:
    """Print the verdict with the layouts that belong to it, or the reason why there is none.

    Args:
        console: where to.
        project: what was asked.
        result: not a `fault`, whose layout must not be shown.
        denominator: finest fraction of an inch.
        buying: what buying cushions would bring; None where that was not asked.
    """
    tell = teller(project.unit, denominator)
    print_head(console, project, result, tell)
    for line in failed_lines(project, result):
        say(console, line)
    if len(result.layouts) > 1:
        _print_summary(console, project, result, tell)
    for shown in result.layouts:
        _print_layout(console, project, result, shown, denominator)
    if result.clash:
        print_clashing(console, project, result, tell)
    if buying is not None:
        print_buying(console, project, buying)
    print_table(console, ("obstacle", "what it asks for"), ground_notes(project, tell) if result.layouts else ())
    print_findings(console, findings_told(project, result))
    if result.layouts:
        console.print()
        console.print(f"{SAFETY}.")


def print_head(console: Console, project: Project, result: FitResult, tell: Teller) -> None:
    """Print the title, and how the answer stands."""
    print_heading(console, project, verdict_line(result, project, tell))


def print_buying(console: Console, project: Project, buying: Buying) -> None:
    """What each further cushion brings, none bought first."""
    print_table(console, BUYING_HEADS, buying_rows(project, buying), BUYING_RIGHT)
    if lines := list(buying_lines(project, buying)):
        console.print()
    for line in lines:
        say(console, line)


def print_clashing(
    console: Console, project: Project, result: FitResult, tell: Teller, open_end: str = ""
) -> None:  # fmt: skip
    """Print what clashes, in steps where they were worked out, and which command tells what would help.

    Args:
        console: where to.
        project: what was asked.
        result: with its clash.
        tell: writes lengths.
        open_end: what to say instead of that command.
    """
    if result.why is None:
        console.print()
        say(console, reason(project, result, tell))
        print_table(console, ("it rests on", "stated in"), grounds(project, result))
    else:
        print_clash(console, project, result.why.clashes[0], tell)
    console.print()
    say(console, open_end or f"`fitter fit {project.file}` tells what would make it fit.")


def _print_summary(console: Console, project: Project, result: FitResult, tell: Teller) -> None:
    """All layouts side by side, and in what each differs from the best one."""
    heads = ("rank", "layout", "seats", "notched", "to buy", "posts", "lengths", "off edge")
    print_table(console, heads, rows.summary(result, tell))
    console.print()
    for shown in result.layouts[1:]:
        told = "; ".join(differences(project, result.layouts[0].layout, shown.layout, tell))
        say(console, f"{shown.rank} differs from 1: {told}", 3)


def _print_layout(console: Console, project: Project, result: FitResult, shown: LayoutResult, denominator: int) -> None:
    layout = shown.layout
    tell = teller(project.unit, denominator)
    cut = teller(project.unit, denominator, feet=False)
    several = len(result.layouts) > 1
    console.print()
    place = f"layout {shown.rank} of {len(result.layouts)}: " if several else ""
    console.print(f"{place}{headline(layout)}", style="bold")
    for line in setting_out(project, layout, tell):
        say(console, line)
    if several and shown.verdict is not result.verdict:
        proven = shown.verdict is Verdict.PROVEN
        say(console, str(shown.verdict) if proven else f"{shown.verdict}, {open_end(shown, project, tell)}")
    print_table(console, ("objective", "value", "proof"), rows.objectives(project, shown, tell))
    for line in boards_told(shown, tell):
        say(console, line)
    print_table(console, ("run", "cushion", "count", "pitch", "length", "end"), rows.runs(layout, tell))
    _print_corners(console, project, layout, cut)
    print_table(console, ("beyond the", "filled with", "wide", "deep", "stopped by"), fill_rows(project, layout, cut))
    for line in fill_notes(project, layout, cut):
        say(console, line)
    print_table(console, ("rail of", "line", "bay", "pieces", "length"), rows.rails(layout, cut))
    print_table(console, ("post of", "line", "pieces", "where"), rows.posts(layout))
    print_table(console, ("carried in", "modules", "length"), rows.pieces(layout, tell))
    print_table(console, ("cushion", "used", "own", "to buy", "each", "cost"), rows.cushions(project, layout))
    if left := list(shed_lines(project, layout)):
        console.print()
    for line in left:
        say(console, line)
    print_table(console, ("route", "asked", "found", "door"), rows.routes(project, layout, tell))


def _print_corners(console: Console, project: Project, layout: Layout, cut: Teller) -> None:
    """What holds the backs where runs meet, what lies there, and what the cushions lose for it."""
    told = list(corner_told(layout, project.frame.overhang.ceil_to(project.mark), cut))
    if told:
        console.print()
    for line in told:
        say(console, line)
    print_table(console, ("corner place", "treatment", "cushion", "notch", "left bare"), rows.corners(layout, cut))
    print_table(console, ("cut from", "foam cut away", "sides cut", "zip"), rows.foam(project, layout))
    if layout.notches:
        console.print()
        for line in (*rows.zips(project, layout), SEAMS):
            say(console, line)


def print_sources(console: Console, project: Project, denominator: int = 16) -> None:
    """Print where the numbers come from that a project rests on without saying them."""
    for head, told in source_tables(project, teller(project.unit, denominator)):
        print_table(console, (head, *SOURCE_HEADS), told)
    console.print()
    for line in LEGEND:
        say(console, line, 2)
