"""A fit as tables for the terminal, 80 columns wide."""

from __future__ import annotations

from rich.console import Console
from rich.table import Table

from fitter.domain.outcome import FitResult
from fitter.domain.project import Project
from fitter.report.words import (
    headline,
    listed,
    objective_bound,
    objective_name,
    objective_value,
    run_name,
    teller,
    verdict_line,
)


def print_fit(console: Console, project: Project, result: FitResult) -> None:
    """Print the verdict, and the layout's runs, rails and routes, or the reason why nothing fits."""
    tell = teller(project.unit)
    console.print(project.title)
    console.print(verdict_line(result, project, tell))
    layout = result.layout
    if layout is None:
        if result.clash:
            console.print(f"No layout fits, because {listed([f.says for f in result.clash])}.", soft_wrap=False)
        for block in result.blocked:
            gap = f"{block.between[0]} and {block.between[1]}"
            console.print(f"{block.route}: {tell(block.clear)} between {gap}, {tell(block.asked)} asked")
        return
    console.print(headline(layout) + f", {tell(layout.off_edge)} off edge {layout.pose.edge or '(free standing)'}")
    rows = [
        (run_name(r.side), r.cushion, f"{r.count} × {tell(r.pitch)} = {tell(r.pitch * r.count)}") for r in layout.runs
    ]
    console.print(_table(("run", "cushion", "modules"), rows))
    cut = teller(project.unit, feet=False)
    rails = [(run_name(r.run), str(r.face), str(r.bay), cut(r.length)) for r in layout.rails]
    console.print(_table(("run", "rail", "bay", "length"), rails))
    proofs = [
        (objective_name(p.objective), objective_value(p.objective, p.value, project, tell), objective_bound(p, project, tell))
        for p in result.proofs
    ]
    console.print(_table(("objective", "value", "proof"), proofs))
    if layout.routes:
        routes = [(r.name, tell(r.asked), "open" if r.clear is None else tell(r.clear)) for r in layout.routes]
        console.print(_table(("route", "asked", "found"), routes))
    for finding in (*project.findings, *result.checked):
        console.print(f"{finding.severity}: {finding.message}" + (f" ({finding.source})" if finding.source else ""))
    console.print("Check every length against the tape before sawing.")


def _table(heads: tuple[str, ...], rows: list[tuple[str, ...]]) -> Table:
    table = Table(*heads, box=None, pad_edge=False, padding=(0, 2, 0, 0))
    for row in rows:
        table.add_row(*row)
    return table
