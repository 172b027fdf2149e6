"""A take-off as tables for the yard, 80 columns wide."""

from __future__ import annotations

from collections import Counter

from rich.console import Console

from fitter.domain.board_list import BoardList
from fitter.domain.findings import Finding, Severity
from fitter.domain.layout import Verdict
from fitter.domain.outcome import FrameResult
from fitter.domain.project import Project
from fitter.domain.species import species
from fitter.domain.takeoff import BuyResult, Group, Takeoff
from fitter.report import takeoff_rows as rows
from fitter.report.heading import layout_line, no_such_layout, print_heading
from fitter.report.printing import print_findings, print_table, say
from fitter.report.tables import print_fit
from fitter.report.words import Teller, counted, teller
from rooms.survey.wording import listed


def print_takeoff(console: Console, project: Project, result: BuyResult, denominator: int = 16) -> None:
    """Print what to buy group by group, the sums and the tools, or why there is nothing to buy for.

    Args:
        console: where to.
        project: what was asked.
        result: not a `fault`.
        denominator: finest fraction of an inch.
    """
    framed = result.boards.framed
    if not framed.fit.layouts:
        print_fit(console, project, framed.fit, denominator)
        return
    if framed.shown is None or result.takeoff is None:
        print_heading(console, project, no_such_layout(framed))
        return
    layout = layout_line(project, framed.shown, teller(project.unit, denominator))
    boards = boards_lines(result.boards, teller(project.unit, denominator, feet=False))
    print_heading(console, project, layout, *boards)
    _Printer(console, project, result.takeoff, denominator, wrong(framed)).whole()


def wrong(framed: FrameResult) -> tuple[Finding, ...]:
    """What keeps a frame from being built as asked, and benchmarks that the file asks for and its layout misses."""
    found = (*framed.failed, *(framed.woodwork.findings if framed.woodwork else ()))
    return tuple(finding for finding in found if finding.severity is Severity.ERROR)


def boards_lines(boards: BoardList, tell: Teller) -> list[str]:
    """How the plans of the boards stand: proven, not proven, or none."""
    lines = [
        f"boards of {each.section}: impossible, part {each.too_long.mark} is {tell(each.too_long.length)} long"
        for each in boards.sections
        if each.too_long is not None
    ]
    for words, verdict in (
        ("proven cheapest, or shortest where no price is known", Verdict.PROVEN),
        ("found, not proven cheapest: time ran out", Verdict.FOUND),
        ("unknown: time ran out", Verdict.UNKNOWN),
        ("impossible: those on hand are too few, and no more are sold", Verdict.IMPOSSIBLE),
    ):
        those = [each.section for each in boards.sections if each.result and each.result.verdict is verdict]
        if those:
            lines.append(f"boards of {listed(those)}: {words}")
    hand = Counter((board.section, board.length) for board in boards.boards if board.on_hand)
    if hand:
        told = [f"{count} of {section} {tell(length)}" for (section, length), count in hand.items()]
        lines.append(f"from those on hand: {listed(told)}")
    lines += [
        f"boards of {each.section} in the shop without a price are left out, since others of them have one"
        for each in boards.sections
        if each.unpriced
    ]
    return lines


class _Printer:
    """Prints one take-off."""

    def __init__(
        self, console: Console, project: Project, takeoff: Takeoff, denominator: int, wrong: tuple[Finding, ...]
    ) -> None:
        self._console, self._project, self._takeoff, self._wrong = console, project, takeoff, wrong
        self._tell = teller(project.unit, denominator)

    def whole(self) -> None:
        """Groups, sums, tools, cautions."""
        for group in Group:
            self._group(group)
        self._sums()
        self._title("tools, in no sum")
        print_table(self._console, rows.TOOL_HEADS, rows.tools(self._takeoff.tools))
        print_findings(self._console, (*self._wrong, *self._takeoff.findings, *self._project.findings))

    def _title(self, text: str) -> None:
        self._console.print()
        self._console.print(text, style="bold")

    def _group(self, group: Group) -> None:
        told = list(rows.items(self._takeoff, group, self._project.unit, self._tell))
        if not told:
            return
        self._title(str(group))
        if group is Group.FINISH:
            say(self._console, rows.area_line(self._takeoff.area, self._project.unit))
        if group is Group.FASTENERS:
            share = rows.share(self._project.shop.supplies.spare)
            say(self._console, f"Counted from the joints of the frame; {share} spare, up to whole boxes.")
            wood = species(self._project.frame.carpentry.species)
            say(self._console, f"For {wood.name} outdoors: {wood.fasteners}.")
        print_table(self._console, rows.ITEM_HEADS, told)
        if lines := list(rows.notes(self._takeoff, group)):
            self._console.print()
            for line in lines:
                say(self._console, line, 2)

    def _sums(self) -> None:
        self._title("sums")
        print_table(self._console, rows.TOTAL_HEADS, rows.totals(self._takeoff))
        whole = self._takeoff.totals[-1]
        self._console.print()
        if whole.unknown:
            lack = f"{whole.unknown} of {counted(self._counted(), 'item')} have no price and are in no sum"
            say(self._console, f"{lack}: they are marked ?, and all of it will cost more than this.")
        if any(item.choice for item in self._takeoff.items):
            say(self._console, "What is in brackets stands for the row before it: take one of them.")
        if whole.share is not None:
            say(self._console, "Shares are of the cost half-way between its bounds.")

    def _counted(self) -> int:
        return sum(item.chosen for item in self._takeoff.items)
