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
from fitter.report.tables import print_findings, print_fit, print_table, say
from fitter.report.words import Teller, counted, headline, stamp, teller
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
    console.print(project.title, style="bold")
    if project.note:
        say(console, project.note)
    if framed.shown is None or result.takeoff is None:
        say(console, lacking(framed))
        return
    say(console, verdict_line(project, framed, denominator))
    for line in boards_lines(result.boards, teller(project.unit, denominator, feet=False)):
        say(console, line)
    _Printer(console, project, result.takeoff, denominator, wrong(framed)).whole()


def wrong(framed: FrameResult) -> tuple[Finding, ...]:
    """What keeps a frame from being built as asked, and benchmarks that the file asks for and its layout misses."""
    found = (*framed.failed, *(framed.woodwork.findings if framed.woodwork else ()))
    return tuple(finding for finding in found if finding.severity is Severity.ERROR)


def lacking(framed: FrameResult) -> str:
    """That there is no layout of the rank that was asked for."""
    last = framed.fit.layouts[-1].rank
    if framed.verdict is Verdict.IMPOSSIBLE:
        return f"impossible: no layout has rank {framed.rank}; the last that differs enough has rank {last}"
    return f"unknown: no layout of rank {framed.rank} was found in the time; the last one has rank {last}"


def verdict_line(project: Project, framed: FrameResult, denominator: int) -> str:
    """How the layout stands that is bought for, with its verdict word first."""
    assert framed.shown is not None, "there is a layout"
    shown = framed.shown
    if shown.verdict is not Verdict.PROVEN:
        told = stamp(shown, project, teller(project.unit, denominator))
    else:
        told = "no layout does better" if shown.rank == 1 else "none that differs from those before it does better"
    return f"{shown.verdict}: {headline(shown.layout)}; {told}"


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
        print_findings(self._console, (*self._wrong, *self._takeoff.findings))

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
