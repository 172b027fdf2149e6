"""The corner trade-off as tables for the terminal, 80 columns wide."""

from __future__ import annotations

from rich.console import Console

from fitter.domain.layout import Verdict
from fitter.domain.project import Project
from fitter.domain.tradeoff import Bar, TradeOff
from fitter.report import corners_rows as rows
from fitter.report.corners_words import (
    Units,
    costs,
    gives,
    no_corner_line,
    straight_line,
    verdict_line,
    why_not,
)
from fitter.report.tables import print_findings, print_table, say
from fitter.report.words import SAFETY, Teller, counted, teller
from rooms.survey.wording import listed


def print_no_corner(console: Console, project: Project) -> None:
    """Print that a straight run has no corners to compare."""
    _title(console, project)
    say(console, no_corner_line(project))


def print_corners(console: Console, project: Project, made: TradeOff, denominator: int = 16) -> None:
    """Print all treatments side by side, what each gives and costs, and how the notch of an inside post shrinks.

    Args:
        console: where to.
        project: what was asked.
        made: not a `fault`, which must not be shown.
        denominator: finest fraction of an inch.
    """
    tell = teller(project.unit, denominator)
    cut = teller(project.unit, denominator, feet=False)
    units = Units(project.unit.imperial, tell)
    _title(console, project)
    say(console, verdict_line(made))
    for line in straight_line(project, made):
        say(console, line)
    print_table(console, rows.SPACE_HEADS, rows.space(made, units))
    print_table(console, rows.CUSHION_HEADS, rows.cushions(made, units, cut))
    print_table(console, rows.WORTH_HEADS, rows.worth(made))
    if any(each.built for each in made.treatments):
        _print_notes(console, made)
    for each in made.treatments:
        console.print()
        console.print(str(each.corner), style="bold")
        if each.layout is None:
            say(console, f"{each.fit.verdict}. {why_not(project, each, tell)}")
        else:
            say(console, f"{gives(made, each, units)} {costs(made, each, units)}")
    if made.steps:
        _print_steps(console, project, made, units, cut)
    print_findings(console, project.findings)
    if made.verdict is not Verdict.IMPOSSIBLE:
        console.print()
        console.print(f"{SAFETY}.")


def _title(console: Console, project: Project) -> None:
    console.print(project.title, style="bold")
    if project.note:
        say(console, project.note)


def _print_notes(console: Console, made: TradeOff) -> None:
    console.print()
    if note := rows.asked_note(made):
        say(console, note)
    say(console, rows.compared(made))
    say(
        console,
        "Beaten is a treatment that another one equals in all of these and betters in one. Length, depth and ground "
        "are those of the whole, ends and backs included; behind is how far cushions lie off the backs, bare what they "
        "leave open in the corner places. Boards are those of the whole frame. Stiffness is that of the weakest corner "
        "against turning one back against the other, in kN·m a radian: an estimate to compare by.",
    )
    seats = {each.layout.seats for each in made.treatments if each.layout}
    if len(seats) > 1:
        say(console, "Fewer seats take fewer cushions and boards: compare money only at equal seats.")
    if any(each.built and not each.built.covered for each in made.treatments):
        say(console, "Some wood has no price in the file, and is in no sum.")


def _print_steps(console: Console, project: Project, made: TradeOff, units: Units, cut: Teller) -> None:
    console.print()
    console.print("how the notch of an inside post shrinks to nothing", style="bold")
    layout = next(each.layout for each in made.treatments if each.corner is made.start)
    assert layout is not None
    counts = listed([str(run.count) for run in layout.runs])
    say(
        console,
        f"The arrangement is that of the {made.start} above, with runs of {counts} modules. One size is changed at a "
        "time: the post, the ease of every cushion, or how far cushions overhang the wood in front.",
    )
    print_table(console, rows.step_heads(units), rows.steps(project, made, units, cut))
    console.print()
    said = {
        Bar.ROOM: "this arrangement was not placed in the room at that size",
        Bar.FOAM: "it would need a cut, and the file says that the cushion stays whole",
        Bar.TIPS: "more than a third of a cushion would hang over the wood, and tip",
        Bar.ELSEWHERE: "as many seats fit at that size, but not in this arrangement",
        Bar.NONE: f"proven that no {layout.shape} with {counted(layout.seats, 'seat')} fits at that size",
    }
    told = "On the front is what no other row that can be had betters in notch, ground and cost."
    bars = {step.bar for step in made.steps}
    told += "".join(f" `{rows.BARS[bar]}`: {words}." for bar, words in said.items() if bar in bars)
    say(console, told)
    say(console, "Boards here are those that the layout decides on: without arms, legs and feet.")
