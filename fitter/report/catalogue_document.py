"""A ranked catalogue as a JSON document: lengths in the unit of the project file."""

from __future__ import annotations

from fitter.domain.catalogue import Ranking, Trial
from fitter.domain.layout import Verdict
from fitter.domain.outcome import FitResult
from fitter.domain.project import Project
from fitter.report.catalogue import trial_costs
from fitter.report.document import SCHEMA
from fitter.report.entries import Document, layout_entry, number, plain, proof_entry
from fitter.report.reason import reason
from fitter.report.words import teller
from rooms.lengths import Unit


def catalogue_document(
    file: str, title: str, unit: Unit, catalogue: str, ranking: Ranking, *, stopped: bool
) -> Document:
    """Every cushion of a catalogue, the best first, those without a layout last.

    Args:
        file: of the project.
        title: of the project.
        unit: of the project.
        catalogue: its file.
        ranking: of all that were tried.
        stopped: whether the user stopped it.

    Returns:
        Keys are added over time, never renamed.
    """
    fault = ranking.verdict is Verdict.FAULT
    trials = () if fault else (*ranking.best, *ranking.none)
    ranks = {id(trial): rank for rank, trial in enumerate(ranking.best, start=1)}
    return {
        "schema": SCHEMA,
        "units": str(unit),
        "outcome": str(ranking.verdict),
        "interrupted": stopped,
        "title": title,
        "file": file,
        "catalogue": catalogue,
        "left": ranking.left,
        "cushions": [_entry(unit, trial, ranks.get(id(trial))) for trial in trials],
    }


def _entry(unit: Unit, trial: Trial, rank: int | None) -> Document:
    cushion, found = trial.candidate.row.cushion, trial.found
    entry: Document = {
        "rank": rank,
        "cushion": cushion.name,
        "line": trial.candidate.row.line,
        "size": [number(length, unit) for length in (cushion.width, cushion.depth, cushion.thickness)],
        "price": None if cushion.price is None else plain(cushion.price),
        "outcome": str(trial.verdict),
    }
    project = trial.candidate.project
    if project is None or found is None:
        return {**entry, "layout": None, "why": trial.candidate.refused}
    if trial.shown is None:
        return {**entry, "layout": None, "why": _why(project, found)}
    cushions, boards = (None if cost is None else plain(cost) for cost in trial_costs(trial))
    layout = trial.shown.layout
    return {
        **entry,
        "seats": layout.seats,
        "used": sum(row.used for row in layout.purchases),
        "notched": layout.notches,
        "costs": {"cushions": cushions, "boards": boards},
        "proofs": [proof_entry(proof) for proof in trial.shown.proofs],
        "layout": layout_entry(project, found, trial.shown),
    }


def _why(project: Project, found: FitResult) -> str | None:
    return reason(project, found, teller(project.unit)) if found.clash else None
