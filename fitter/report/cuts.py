"""A board plan for the yard and the saw, 80 columns wide."""

from __future__ import annotations

from rich.console import Console

from fitter.domain.cuts import BoardPlan, CutOptions, CutResult
from fitter.domain.layout import Verdict
from fitter.domain.saw_list import small
from fitter.report.cuts_rows import (
    AIM_HEADS,
    BUY_HEADS,
    HAND_HEADS,
    aims,
    buy,
    cents,
    on_hand,
    share,
)  # fmt: skip
from fitter.report.printing import print_table, say
from fitter.report.sawing.saw import Saw, print_saw_list
from fitter.report.words import SAFETY, Teller, counted, teller
from rooms.lengths import Length, Unit


def print_cuts(
    console: Console, title: str, result: CutResult, options: CutOptions, unit: Unit, denominator: int = 16
) -> None:  # fmt: skip
    """Print what to buy, then each board with its cuts, or why there is no plan.

    Args:
        console: where to.
        title: what the parts are for.
        result: not a `fault`, whose plan must not be shown.
        options: how the boards are cut.
        unit: that lengths are printed in.
        denominator: finest fraction of an inch.
    """
    tell, cut = teller(unit, denominator), teller(unit, denominator, feet=False)
    console.print(title, style="bold")
    say(console, verdict_line(result, tell))
    if result.plan is None:
        return
    plan = result.plan
    _print_heading(console, "to buy", buy(plan, tell))
    print_table(console, BUY_HEADS if plan.cost is not None else HAND_HEADS, buy(plan, tell))
    _print_heading(console, "from those on hand", on_hand(plan.boards, tell))
    print_table(console, HAND_HEADS, on_hand(plan.boards, tell))
    print_table(console, AIM_HEADS, aims(plan, cut))
    console.print()
    whole = [board.length for board in plan.boards]
    wasted = f"waste {tell(plan.waste)} of {tell(sum(whole, Length(0)))}, {share(plan.waste, whole)}"
    say(console, wasted + _kept(plan, options, cut))
    for note in plan.notes:
        console.print()
        say(console, f"note: {note}", 2)
    print_saw_list(console, Saw(plan.boards, options, small(unit), None, tell, cut))
    console.print()
    console.print(f"{SAFETY}.")


def _print_heading(console: Console, title: str, rows: object) -> None:
    if next(iter(rows), None) is not None:  # type: ignore[call-overload]
        console.print()
        console.print(title, style="bold")


def _kept(plan: BoardPlan, options: CutOptions, cut: Teller) -> str:
    """What is left for another time."""
    kept = [board.offcut for board in plan.boards if board.offcut >= options.least_offcut]
    if not kept:
        return ""
    return (
        f"; {counted(len(kept), 'offcut')} of at least {cut(options.least_offcut)} kept, {cut(max(kept))} the longest"
    )


def verdict_line(result: CutResult, tell: Teller) -> str:
    """How the plan stands, with its verdict word first."""
    if result.plan is None:
        if result.verdict is Verdict.IMPOSSIBLE:
            return (
                f"impossible: proven that the boards of {result.section} do not yield its parts, and no more are sold"
            )
        return f"unknown: time ran out before boards of {result.section} were found that yield its parts"
    plan = result.plan
    if plan.proven:
        return "proven: no plan " + ("costs less" if plan.cost is not None else "takes less length of boards")
    stopped = "stopped by you" if plan.interrupted else "time ran out"
    if plan.cost is None or plan.bound is None:
        bound = plan.reached[0].bound or 0
        return f"found, not proven: {stopped}; no plan takes less than {tell(Length(bound))} of boards"
    gap = f"at most {cents(plan.gap)} can be saved" if plan.bound else "nothing is known of the least cost"
    return f"found, not proven: {stopped}; no plan costs less than {cents(plan.bound)}, so {gap}"
