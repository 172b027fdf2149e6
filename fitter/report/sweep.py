"""A sweep as tables: stretches of values with the same answer, and why there is none."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from rich.console import Console

from fitter.domain.layout import Verdict
from fitter.domain.sweeps import Shown, Stretch, Sweep
from fitter.report.reason import reason
from fitter.report.sweep_words import HEADS, NOTHING, AmountTeller, amount_teller, answer_word, effort, value_words
from fitter.report.tables import print_table, say
from fitter.report.words import teller
from rooms.lengths import Unit

Row = tuple[str, ...]


def print_sweep(console: Console, sweep: Sweep, unit: Unit, denominator: int = 16) -> None:
    """Print where the answer changes.

    Args:
        console: where to.
        sweep: what came out.
        unit: of the file.
        denominator: finest fraction of an inch, where the values need no finer one.
    """
    tell = _amounts(sweep, unit, denominator)
    project = sweep.usable
    if project is not None:
        console.print(project.title, style="bold")
        if project.note:
            say(console, project.note)
    first, last = tell(sweep.stretches[0].first), tell(sweep.stretches[-1].last)
    now = f"the file says {sweep.written}" if sweep.written is not None else "the file does not say it"
    say(console, f"{sweep.key} from {first} to {last} by {tell(sweep.step)}; {now}")
    columns = [one for one in sweep.shown if one is not Shown.VERDICT]
    heads = ("from", "to", "values", *(HEADS[one] for one in columns), "answer")
    print_table(console, heads, (_row(sweep, stretch, columns, tell, unit, denominator) for stretch in sweep.stretches))
    if lines := list(_reasons(sweep, tell, unit, denominator)):
        console.print()
    for line in lines:
        say(console, line, 2)
    console.print()
    say(console, effort(sweep))


def _amounts(sweep: Sweep, unit: Unit, denominator: int) -> AmountTeller:
    ends = [amount for stretch in sweep.stretches for amount in (stretch.first, stretch.last)]
    return amount_teller(unit, [*ends, sweep.step], denominator)


def _row(
    sweep: Sweep, stretch: Stretch, columns: Sequence[Shown], tell: AmountTeller, unit: Unit, denominator: int
) -> Row:  # fmt: skip
    cells = [_cell(sweep, stretch, one, unit, denominator) for one in columns]
    return tell(stretch.first), tell(stretch.last), str(stretch.count), *cells, answer_word(stretch)


def _cell(sweep: Sweep, stretch: Stretch, one: Shown, unit: Unit, denominator: int) -> str:
    at, tell = sweep.shown.index(one), teller(unit, denominator)
    if not stretch.look.values:
        return NOTHING
    seats = Shown.SEATS not in sweep.shown
    here, there = (
        value_words(one, look.values[at], unit.mark, unit, tell, seats=seats) for look in (stretch.look, stretch.until)
    )
    return here if here == there else f"{here} to {there}"


def _reasons(sweep: Sweep, tell: AmountTeller, unit: Unit, denominator: int) -> Iterator[str]:
    """Why no layout fits, and what is wrong with the file, each for the first value of its stretch."""
    for stretch in sweep.stretches:
        if stretch.refusal is not None:
            yield f"At {tell(stretch.first)}: {stretch.refusal.message}."
        elif stretch.look.verdict is Verdict.IMPOSSIBLE and stretch.project is not None and stretch.result is not None:
            yield f"At {tell(stretch.first)}: {reason(stretch.project, stretch.result, teller(unit, denominator))}"
