"""The corner trade-off as tables for the terminal, 80 columns wide."""

from __future__ import annotations

from rich.console import Console

from fitter.domain.layout import Verdict
from fitter.domain.project import Project
from fitter.domain.tradeoff import Bar, TradeOff
from fitter.report import corners_rows as rows
from fitter.report.corners_units import Units
from fitter.report.corners_words import (
    costs,
    gives,
    no_corner_line,
    straight_line,
    verdict_line,
    why_not,
)
from fitter.report.heading import print_heading
from fitter.report.printing import print_findings, print_table, say
from fitter.report.words import SAFETY, Teller, counted, teller
from rooms.survey.wording import listed


def print_no_corner(console: Console, project: Project) -> None:
    """Print that a straight run has no corners to compare."""
    print_heading(console, project, no_corner_line(project))


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
    print_heading(console, project, verdict_line(made), *straight_line(project, made))
    print_table(console, rows.SPACE_HEADS, rows.space(made, units), rows.RIGHT)
    print_table(console, rows.CUSHION_HEADS, rows.cushions(made, units, cut), rows.RIGHT)
    print_table(console, rows.worth_heads(made), rows.worth(made, units), rows.RIGHT)
    if any(each.built for each in made.treatments):
        _print_notes(console, made, units)
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


def _print_notes(console: Console, made: TradeOff, units: Units) -> None:
    console.print()
    if note := rows.asked_note(made):
        say(console, note)
    say(console, rows.compared(made))
    say(
        console,
        "Length, depth and ground are those of the whole, ends and backs included. A notch goes through the cushion "
        "from top to bottom; foam cut is that of all corners together. Gap behind is how far all cushions lie off the "
        "backs; left bare is what no cushion covers of the seat in the corners, such a gap included.",
    )
    say(
        console,
        "Cost counts the boards of the whole frame and the cushions to buy. Stiffness is what turns one back against "
        f"the other by one degree at the weakest corner, in {units.torque}: an estimate, only to compare by.",
    )
    seats = {each.layout.seats for each in made.treatments if each.layout}
    if len(seats) > 1:
        say(console, "Fewer seats take fewer cushions and boards: compare money only at equal seats.")
    if made.arms_differ:
        say(console, "An armed end takes more wood than an open one: compare money only at equal armed ends.")
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
        "With more ease the seats of each run lie farther apart, with more overhang all cushions come forward over "
        "the front of the wood; both make room for the post. The runs keep their number of modules, as with "
        f"{made.start} above: {counts}. Longer and deeper tell how much the whole grows.",
    )
    print_table(console, rows.step_heads(units), rows.steps(project, made, units, cut), rows.RIGHT)
    console.print()
    said = {
        Bar.ROOM: "no place in the room was found for these runs at that size",
        Bar.FOAM: "it would need a cut, and the file says that the cushion stays whole",
        Bar.TIPS: "more than a third of a cushion would hang over the wood, and tip",
        Bar.ELSEWHERE: "as many seats fit at that size, but not with these runs",
        Bar.NONE: f"proven that no {layout.shape} with {counted(layout.seats, 'seat')} fits at that size",
    }
    priced = all(step.cents is not None for step in made.steps if step.fits)
    less = "notch, ground and cost" if priced else "notch and ground (cost is not known of all)"
    told = f"`unbeaten`: no other row that can be had is as good in {less}, and better in one of them."
    bars = {step.bar for step in made.steps}
    told += "".join(f" `{rows.BARS[bar]}`: {words}." for bar, words in said.items() if bar in bars)
    say(console, told)
    say(console, "Cost here is that of the boards that the layout decides on: without arms, legs and feet.")
