"""A corner trade-off to files: treatments side by side, their table and the diagram of the notch."""

from __future__ import annotations

from pathlib import Path

from fitter.domain.project import Project
from fitter.domain.tradeoff import TradeOff, Treatment
from fitter.drawing import write_pages
from fitter.drawing.corners_page import Cell, Comparison, corners_pages
from fitter.drawing.variants_table import Table
from fitter.report.corners_rows import page_heads, page_rows
from fitter.report.corners_units import Units
from fitter.report.corners_words import verdict_line, why_not
from fitter.report.words import counted, teller
from fitter.workflow.variants_picturing import tied

_RIGHT = frozenset(range(2, 11))
_SPARE = frozenset((1, 6, 7))  # outcome, left bare and parts


def write_corners(project: Project, made: TradeOff, folder: Path, *, sheet: str | None = None) -> list[Path]:
    """Draw a trade-off and write it under the name of the project file.

    Args:
        project: what was asked.
        made: with a layout at least; that of `courtyard.yaml` gives `courtyard-corners.pdf`, `.svg` and `.png`.
        folder: made if it is not there.
        sheet: a paper that must be used; None to choose.

    Returns:
        The files written.

    Raises:
        ValueError: the sheet is too small.
        OSError: a file cannot be written.
    """
    units = Units(project.unit.imperial, teller(project.unit))
    cut = teller(project.unit, feet=False)
    stiff = (
        f"Stiffness: {units.torque} that turn one back against the other by one degree, at the weakest corner; an "
        "estimate, only to compare by."
    )
    rows = tuple((*row[:-1], tied(row[-1])) for row in page_rows(made, units, cut))
    table = Table(page_heads(), rows, _RIGHT, _SPARE, (stiff,))
    says = (verdict_line(made), "All corners are drawn at the lower left, left ones mirrored")
    shown = Comparison(tuple(_cell(project, made, each, units) for each in made.treatments), table, made.steps, says)
    pages = corners_pages(project, shown, sheet)
    folder.mkdir(parents=True, exist_ok=True)
    return write_pages(pages, folder / f"{Path(project.file).stem}-corners")


def _cell(project: Project, made: TradeOff, treatment: Treatment, units: Units) -> Cell:
    layout = treatment.layout
    name = str(treatment.corner).capitalize()
    if layout is None:
        return Cell(
            name, (tied(f"{str(treatment.fit.verdict).capitalize()}. {why_not(project, treatment, units.tell)}"),), None
        )
    cut = f", {counted(layout.notches, 'cushion')} cut" if layout.notches else ""
    beaten = made.dominated_by(treatment.corner)
    told = (f"beaten by {', '.join(map(str, beaten))}",) if beaten else ()
    return Cell(name, (f"{layout.shape}, {counted(layout.seats, 'seat')}{cut}", *told), layout)
