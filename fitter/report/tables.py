"""A fit as tables for the terminal, 80 columns wide."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from textwrap import wrap

from rich.console import Console
from rich.table import Table

from fitter.domain.findings import Finding
from fitter.domain.layout import Face, Layout, PostRole, Rail, Side
from fitter.domain.outcome import FitResult
from fitter.domain.project import Project
from fitter.report.reason import grounds, reason
from fitter.report.setting import purchases, setting_out, uncovered
from fitter.report.words import (
    SAFETY,
    Teller,
    headline,
    money,
    objective_bound,
    objective_name,
    objective_value,
    run_name,
    teller,
    verdict_line,
)
from rooms.survey.wording import listed

_RIGHT = ("count", "length", "value", "pieces", "asked", "found", "used", "own", "to buy", "each", "cost")


def print_fit(console: Console, project: Project, result: FitResult, denominator: int = 16) -> None:
    """Print the verdict with the layout that belongs to it, or the reason why there is none.

    Args:
        console: where to.
        project: what was asked.
        result: not a `fault`, whose layout must not be shown.
        denominator: finest fraction of an inch.
    """
    tell = teller(project.unit, denominator)
    console.print(project.title, style="bold")
    if project.note:
        say(console, project.note)
    say(console, verdict_line(result, project, tell))
    if result.layout is not None:
        _print_layout(console, project, result, result.layout, denominator)
    elif result.clash:
        _print_clash(console, project, result, tell)
    print_findings(console, project.findings)
    if result.layout is not None:
        console.print()
        console.print(f"{SAFETY}.")


def _print_clash(console: Console, project: Project, result: FitResult, tell: Teller) -> None:
    console.print()
    say(console, reason(project, result, tell))
    print_table(console, ("it rests on", "stated in"), grounds(project, result))


def _print_layout(console: Console, project: Project, result: FitResult, layout: Layout, denominator: int) -> None:
    tell = teller(project.unit, denominator)
    cut = teller(project.unit, denominator, feet=False)
    console.print()
    console.print(headline(layout), style="bold")
    for line in setting_out(project, layout, tell):
        say(console, line)
    print_table(console, ("objective", "value", "proof"), _objectives(project, result, tell))
    print_table(console, ("run", "cushion", "count", "pitch", "length", "end"), _runs(layout, tell))
    print_table(console, ("rail of", "line", "bay", "pieces", "length"), _rails(layout.rails, cut))
    print_table(console, ("post of", "line", "pieces", "where"), _posts(layout))
    print_table(console, ("cushion", "used", "own", "to buy", "each", "cost"), _cushions(project, layout))
    print_table(console, ("route", "asked", "found", "door"), _routes(project, layout, tell))
    remarks = (*_notches(layout, cut), *uncovered(layout, cut))
    if remarks:
        console.print()
    for line in remarks:
        say(console, line)


def print_table(console: Console, heads: Sequence[str], rows: Iterable[Sequence[str]]) -> None:
    """Print rows below heads, after a blank line; nothing without rows."""
    table = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0))
    for head in heads:
        table.add_column(head, justify="right" if head in _RIGHT else "left", header_style="bold")
    for row in rows:
        table.add_row(*row)
    if table.row_count:
        console.print()
        # Cells are padded to their columns; blanks at the end of a line only trouble comparisons.
        with console.capture() as capture:
            console.print(table)
        lines = capture.get().splitlines()
        console.file.write("".join(f"{line.rstrip()}\n" for line in lines))


def _objectives(project: Project, result: FitResult, tell: Teller) -> Iterator[tuple[str, ...]]:
    for proof in result.proofs:
        name = objective_name(proof.objective)
        value = objective_value(proof.objective, proof.value, project, tell)
        yield name, value, objective_bound(proof, project, tell)


def _runs(layout: Layout, tell: Teller) -> Iterator[tuple[str, ...]]:
    """One row for each run."""
    for run in layout.runs:
        cushion = f"{run.cushion}, turned" if run.turned else run.cushion
        length = tell(run.pitch * run.count)
        yield run_name(run.side), cushion, str(run.count), tell(run.pitch), length, _ends(layout, run.side)


def _rails(rails: Sequence[Rail], cut: Teller) -> Iterator[tuple[str, ...]]:
    """Rails of one line and length in one row."""
    groups: dict[tuple[Side, Face, str], list[int]] = {}
    for rail in rails:
        groups.setdefault((rail.run, rail.face, cut(rail.length)), []).append(rail.bay)
    for (run, face, length), bays in groups.items():
        yield run_name(run), str(face), ", ".join(map(str, bays)), str(len(bays)), length


def _posts(layout: Layout) -> Iterator[tuple[str, ...]]:
    groups: dict[tuple[str, str], list[int]] = {}
    for post in layout.posts:
        if post.role is PostRole.SUPPORT and post.line is not None:
            groups.setdefault((run_name(post.run), str(post.face)), []).append(post.line)
        else:
            yield run_name(post.run), str(post.role), "1", "where the runs meet"
    for (run, face), lines in groups.items():
        yield run, face, str(len(lines)), _stand(lines)


def _stand(lines: Sequence[int]) -> str:
    """Module lines in words; line 0 is where the corner place ends."""
    later = [str(line) for line in lines if line]
    after = f"after module{'s' * (len(later) > 1)} {listed(later)}" if later else ""
    first = "between the corner place and module 1" if 0 in lines else ""
    return f"centred {listed([part for part in (first, after) if part])}"


def _ends(layout: Layout, side: Side) -> str:
    """How a run stops; for a straight one as seen by a person who faces it, whose right is the low x."""
    kinds = [str(end.kind) for end in sorted(layout.ends, key=lambda end: end.box.x0) if end.run is side]
    if len(kinds) == 1:
        return kinds[0]
    return f"both {kinds[0]}" if kinds[0] == kinds[1] else f"{kinds[0]} right, {kinds[1]} left"


def _cushions(project: Project, layout: Layout) -> Iterator[tuple[str, ...]]:
    for row in purchases(project, layout):
        own = "not said" if row.own is None else str(row.own)
        each = "unknown" if row.price is None else money(row.price)
        cost = "unknown" if row.cost is None else money(row.cost)
        yield row.cushion, str(row.used), own, str(row.buy), each, cost


def _routes(project: Project, layout: Layout, tell: Teller) -> Iterator[tuple[str, ...]]:
    asked = {route.name: route for route in project.room.routes}
    for route in layout.routes:
        ends = [project.room.opening(name) for name in (asked[route.name].start, asked[route.name].end)]
        narrow = [f"{end.name} is only {tell(end.width)}" for end in ends if end.width < route.asked]
        found = "unknown" if route.clear is None else tell(route.clear)
        yield route.name, tell(route.asked), found, listed(narrow) if narrow else "wide enough"


def _notches(layout: Layout, cut: Teller) -> Iterator[str]:
    for module in layout.modules:
        if module.notch is not None:
            size = f"{cut(module.notch.along_x)} × {cut(module.notch.along_y)}"
            yield f"The corner cushion is notched: {size} are cut away for the corner post."


def say(console: Console, text: str, hang: int = 0) -> None:
    """Print a sentence, broken at the width of the console; lines after the first hang in by `hang` blanks."""
    lines = wrap(text, console.width, subsequent_indent=" " * hang, break_on_hyphens=False)
    console.print("\n".join(lines), soft_wrap=True)


def print_findings(console: Console, findings: Sequence[Finding]) -> None:
    """Print cautions and notes, each with the document that it comes from."""
    for finding in findings:
        console.print()
        say(console, f"{finding.severity}: {finding.message}", 2)
        for word, said in (("help", finding.help), ("source", finding.source)):
            if said:
                say(console, f"  {word}: {said}", 4)
