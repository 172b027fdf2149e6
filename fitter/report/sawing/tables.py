"""The boards of a frame as tables for the terminal, 80 columns wide: for the yard, then for the saw."""

from __future__ import annotations

from rich.console import Console

from fitter.domain.board_list import BoardList
from fitter.domain.layout import Verdict
from fitter.domain.project import Project
from fitter.domain.saw_list import small
from fitter.report.cuts_rows import HAND_HEADS, cents, on_hand
from fitter.report.heading import print_heading
from fitter.report.parts.tables import print_parts
from fitter.report.printing import print_findings, print_table, say
from fitter.report.sawing import rows
from fitter.report.sawing.saw import Saw, print_saw_list
from fitter.report.words import SAFETY, Teller, headline, stamp, teller


def print_boards(console: Console, project: Project, made: BoardList, denominator: int = 16) -> None:
    """Print what to buy and where to saw it, or why there is no frame.

    Args:
        console: where to.
        project: what was asked.
        made: not a `fault`, whose plan must not be shown.
        denominator: finest fraction of an inch.
    """
    framed = made.framed
    if framed.shown is None or framed.woodwork is None:
        # Tells why there is none.
        print_parts(console, project, framed, denominator)
        return
    tell = teller(project.unit, denominator)
    cut = teller(project.unit, denominator, feet=False)
    shown = framed.shown
    layout = f"layout: {headline(shown.layout)}; {stamp(shown, project, tell)}"
    print_heading(console, project, layout, verdict_line(made))
    _print_yard(console, made, tell, cut)
    if made.boards:
        saw = Saw(
            made.boards,
            made.options,
            small(project.unit),
            project.shop.longest_carried,
            tell,
            cut,
            "shop.longest_carried",
        )
        print_saw_list(console, saw)
    if made.ripped:
        _title(console, "made narrower or thinner once sawn to length")
        print_table(console, rows.RIP_HEADS, rows.ripped(made.ripped, cut))
    print_findings(console, (*made.framed.failed, *project.findings))
    console.print()
    console.print(f"{SAFETY}.")


def verdict_line(made: BoardList) -> str:
    """How the boards stand, with the verdict word first."""
    if not made.boards:
        return "no boards are planned; see below"
    lacks = "" if made.complete else ", for the wood whose price is known" if made.cost is not None else ""
    cost = f"the boards cost {cents(made.cost)}{lacks}" if made.cost is not None else "no price is known"
    if made.verdict is Verdict.IMPOSSIBLE:
        return f"impossible: some parts cannot be cut from the boards that are named; {cost}"
    if made.verdict in (Verdict.FOUND, Verdict.UNKNOWN):
        bound = f"; none cost less than {cents(made.bound)}" if made.bound else ""
        return f"{made.verdict}, not proven: {cost}{bound}"
    least = "no plan costs less" if made.cost is not None else "no plan takes less length of boards"
    return f"proven: {cost}, and {least}"


def _print_yard(console: Console, made: BoardList, tell: Teller, cut: Teller) -> None:
    if any(not board.on_hand for board in made.boards):
        _title(console, "to buy")
        print_table(console, rows.BUY_HEADS, rows.buy(made, tell))
    if any(board.on_hand for board in made.boards):
        _title(console, "from those on hand")
        print_table(console, HAND_HEADS, on_hand(made.boards, tell))
    lacking = list(rows.lacking(made, tell, cut))
    if lacking:
        _title(console, "not planned, and not in the cost")
        for line in lacking:
            say(console, line, 2)
    print_table(console, rows.SECTION_HEADS, rows.sections(made))
    notes = dict.fromkeys(
        note
        for section in made.sections
        if section.result and section.result.plan
        for note in section.result.plan.notes
    )
    for note in notes:
        console.print()
        say(console, f"note: {note}", 2)


def _title(console: Console, title: str) -> None:
    console.print()
    console.print(title, style="bold")
