"""Sentences, tables and findings on the terminal: no line is broken within a length."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from rich.console import Console
from rich.table import Table

from fitter.domain.findings import Finding
from fitter.report.paragraphs import paragraph, show, tied, untied

_RIGHT = (
    "rank", "seats", "notched", "posts", "lengths", "off edge", "count", "length", "value", "pieces", "asked", "found",
    "used", "own", "to buy", "each", "cost",
    "values", "money", "area", "no tall post",
)  # fmt: skip


def print_table(
    console: Console, heads: Sequence[str], rows: Iterable[Sequence[str]], right: Sequence[str] = _RIGHT
) -> None:
    """Print rows below heads, after a blank line; nothing without rows. Columns of `right` end alike."""
    table = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0))
    for head in heads:
        table.add_column(head, justify="right" if head in right else "left", header_style="bold")
    for row in rows:
        table.add_row(*(tied(cell) for cell in row))
    if table.row_count:
        console.print()
        # Cells are padded to their columns; blanks at the end of a line only trouble comparisons.
        with console.capture() as capture:
            console.print(table)
        lines = untied(capture.get()).splitlines()
        console.file.write("".join(f"{line.rstrip()}\n" for line in lines))


def say(console: Console, text: str, hang: int = 0) -> None:
    """Print a sentence, broken at the width of the console; lines after the first hang in by `hang` blanks."""
    show(console, paragraph(text, console.width, " " * hang, first=""))


def print_findings(console: Console, findings: Sequence[Finding]) -> None:
    """Print cautions and notes, each with the document that it comes from."""
    for finding in findings:
        console.print()
        say(console, f"{finding.severity}: {finding.message}", 2)
        for word, said in (("help", finding.help), ("source", finding.source)):
            if said:
                say(console, f"  {word}: {said}", 4)
