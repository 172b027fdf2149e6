"""A sweep as tables: stretches of values with the same answer, and why there is none."""

from __future__ import annotations

from collections.abc import Iterator

from rich.console import Console

from fitter.domain.layout import Verdict
from fitter.domain.sweeps import Shown, Stretch, Sweep
from fitter.report.printing import print_table, say
from fitter.report.reason import reason
from fitter.report.sweep_words import HEADS, NOTHING, AmountTeller, amount_teller, answer_word, effort, value_words
from fitter.report.words import teller
from rooms.lengths import Unit

Row = tuple[str, ...]
Column = tuple[str, list[str]]
_BETWEEN = 2  # blanks between two columns


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
    say(console, f"{sweep.name} from {first} to {last} in steps of {tell(sweep.step)}; {now}")
    for heads, rows in _tables(_columns(sweep, tell, unit, denominator), console.width):
        print_table(console, heads, rows)
    if lines := list(_reasons(sweep, tell, unit, denominator)):
        console.print()
    for line in lines:
        say(console, line, 2)
    console.print()
    say(console, effort(sweep))


def _amounts(sweep: Sweep, unit: Unit, denominator: int) -> AmountTeller:
    ends = [amount for stretch in sweep.stretches for amount in (stretch.first, stretch.last)]
    return amount_teller(unit, [*ends, sweep.step], denominator)


def _columns(sweep: Sweep, tell: AmountTeller, unit: Unit, denominator: int) -> list[Column]:
    """Each column with its head, those that tell of the stretch itself first."""
    stretches = sweep.stretches
    return [
        ("from", [tell(stretch.first) for stretch in stretches]),
        ("to", [tell(stretch.last) for stretch in stretches]),
        ("values", [str(stretch.count) for stretch in stretches]),
        ("answer", [answer_word(stretch) for stretch in stretches]),
        *(
            (HEADS[one], [_cell(sweep, stretch, one, unit, denominator) for stretch in stretches])
            for one in sweep.shown
            if one is not Shown.VERDICT
        ),
    ]


def _tables(columns: list[Column], width: int) -> Iterator[tuple[Row, list[Row]]]:
    """Heads and rows of as many tables as it takes, none wider than the console; each begins with its stretches."""
    fixed, rest = columns[:2], columns[2:]
    while rest:
        taken = 1
        while taken < len(rest) and _wide([*fixed, *rest[: taken + 1]]) <= width:
            taken += 1
        shown = [*fixed, *rest[:taken]]
        rest = rest[taken:]
        yield tuple(head for head, _ in shown), list(zip(*(cells for _, cells in shown), strict=True))


def _wide(columns: list[Column]) -> int:
    return sum(max(len(text) for text in (head, *cells)) + _BETWEEN for head, cells in columns) - _BETWEEN


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
