"""A fit as tables for the terminal, 80 columns wide."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

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
    listed,
    money,
    objective_bound,
    objective_name,
    objective_value,
    run_name,
    teller,
    verdict_line,
)

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
        console.print(project.note)
    console.print(verdict_line(result, project, tell))
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
    console.print(reason(project, result, tell))
    console.print()
    print_table(console, ("it rests on", "stated in"), grounds(project, result))


def _print_layout(console: Console, project: Project, result: FitResult, layout: Layout, denominator: int) -> None:
    tell = teller(project.unit, denominator)
    cut = teller(project.unit, denominator, feet=False)
    console.print()
    console.print(headline(layout), style="bold")
    for line in setting_out(project, layout, tell):
        console.print(line)
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
        console.print(line)


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
    """The runs; a straight one has two ends of its own, those of an L one each."""
    kinds = {side: [str(end.kind) for end in layout.ends if end.run is side] for side in Side}
    for run in layout.runs:
        cushion = f"{run.cushion}, turned" if run.turned else run.cushion
        length = tell(run.pitch * run.count)
        yield run_name(run.side), cushion, str(run.count), tell(run.pitch), length, listed(kinds[run.side])


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
        yield run, face, str(len(lines)), f"centred {listed([_line(line) for line in lines])}"


def _line(line: int) -> str:
    return f"after module {line}" if line else "before module 1"


def _cushions(project: Project, layout: Layout) -> Iterator[tuple[str, ...]]:
    for row in purchases(project, layout):
        own = "unknown" if row.own is None else str(row.own)
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


def print_findings(console: Console, findings: Sequence[Finding]) -> None:
    """Print cautions and notes, each with the document that it comes from."""
    for finding in findings:
        console.print()
        console.print(f"{finding.severity}: {finding.message}")
        for word, said in (("help", finding.help), ("source", finding.source)):
            if said:
                console.print(f"  {word}: {said}")
