"""Results as JSON documents: lengths in the unit of the file, coordinates of the room."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import Any

from fitter.domain.findings import Finding, ProjectError, Severity
from fitter.domain.layout import Verdict
from fitter.domain.outcome import FitResult, LayoutResult
from fitter.domain.owned import Buying
from fitter.domain.project import Project
from fitter.report.entries import Document, layout_entry, number, plain, proof_entry
from fitter.report.more_bought import buying_entry
from fitter.report.near_document import near_entries
from fitter.report.setting import ground_notes
from fitter.report.sources import source_entries
from fitter.report.why_document import why_entry
from fitter.report.words import teller
from rooms.room import Obstacle

__all__ = [
    "SCHEMA",
    "Document",
    "failure_document",
    "finding_entry",
    "fit_document",
    "number",
    "plain",
    "refusal_document",
    "written",
]

SCHEMA = 1


def written(document: Document) -> str:
    """A document as text: one entry a line, outlines and other lists of bare numbers in one.

    Letters beyond ASCII are escaped, so that every terminal and locale gets the same bytes.
    """
    return _text(document, 0)


def _text(value: object, depth: int) -> str:
    if not isinstance(value, dict | list) or not value or _bare(value):
        return json.dumps(value)
    blank, inner = " " * depth, depth + 1
    if isinstance(value, dict):
        lines = [f"{json.dumps(key)}: {_text(entry, inner)}" for key, entry in value.items()]
    else:
        lines = [_text(entry, inner) for entry in value]
    opening, closing = "{}" if isinstance(value, dict) else "[]"
    body = f",\n{blank} ".join(lines)
    return f"{opening}\n{blank} {body}\n{blank}{closing}"


def _bare(value: object) -> bool:
    """Whether a list holds numbers only, or lists of them."""
    if isinstance(value, list):
        return all(isinstance(entry, int | float) or _bare(entry) for entry in value)
    return False


def fit_document(project: Project, result: FitResult, buying: Buying | None = None) -> Document:
    """A fit; its layouts only if the checker accepts them.

    Args:
        project: what was asked.
        result: what came out.
        buying: what buying cushions would bring; None where that was not asked.

    Returns:
        Keys are added over time, never renamed.
    """
    shown = result.layouts if result.verdict is not Verdict.FAULT else ()
    document: Document = {
        "schema": SCHEMA,
        "units": str(project.unit),
        "outcome": str(result.verdict),
        "interrupted": result.interrupted,
        "exhausted": result.exhausted,
        "title": project.title,
        "file": project.file,
        "layouts": [{**layout_entry(project, result, each), **_held(project, each)} for each in shown],
        "proofs": [proof_entry(proof) for proof in result.proofs if result.layouts],
        "bounds": [{"objective": str(proof.objective), "bound": proof.bound} for proof in result.bounds],
        "obstacles": [_obstacle(project, obstacle) for obstacle in project.room.obstacles],
    }
    if result.verdict is Verdict.IMPOSSIBLE:
        document["why"] = why_entry(project, result)
    if shown:
        document |= near_entries(project, result.near)
    if project.flags:
        document["flags"] = dict(project.flags)
    if buying is not None:
        document["buying"] = buying_entry(project, buying)
    document["findings"] = [finding_entry(finding, project.file) for finding in project.findings]
    document["sources"] = source_entries(project)
    if result.checked:
        document["errors"] = [finding_entry(finding, project.file) for finding in result.checked]
    return document


def _held(project: Project, shown: LayoutResult) -> Document:
    """What codes, standards and habit say of a layout, and whether it misses one that the file asks for."""
    findings = [finding_entry(finding, project.file) for finding in shown.findings]
    return {"findings": findings, "failed": bool(shown.failed)}


def _obstacle(project: Project, obstacle: Obstacle) -> Document:
    notes = dict(ground_notes(project, teller(project.unit)))
    return {
        "name": obstacle.name,
        "height": str(obstacle.height),
        "hole": obstacle.hole,
        "clear": number(obstacle.clear, project.unit),
        "says": notes.get(obstacle.name),
    }


def finding_entry(finding: Finding, file: str) -> Document:
    """A finding with its place, and with its details where there are any."""
    entry: Document = {
        "severity": str(finding.severity),
        "code": finding.code,
        "message": finding.message,
        "key": finding.key,
        "file": file,
        "line": finding.place.line if finding.place else None,
        "column": finding.place.column if finding.place else None,
        "help": finding.help,
        "source": finding.source,
    }
    return {**entry, "details": list(finding.details)} if finding.details else entry


def refusal_document(error: ProjectError) -> Document:
    """What is wrong with a file: `disagree` if only its tape readings are, else `invalid`."""
    errors = [finding for finding in error.findings if finding.severity is Severity.ERROR]
    others = [finding for finding in error.findings if finding.severity is not Severity.ERROR]
    document = failure_document("disagree" if error.disagree else "invalid", ())
    document["errors"] = [finding_entry(finding, error.file) for finding in errors]
    document["findings"] = [finding_entry(finding, error.file) for finding in others]
    return document


def failure_document(outcome: str, errors: Sequence[Mapping[str, Any]]) -> Document:
    """A document for a command that came to no result.

    Args:
        outcome: such as `invalid`, `fault` or `interrupted`.
        errors: each with `code` and `message` at least.
    """
    return {"schema": SCHEMA, "units": None, "outcome": outcome, "layouts": [], "errors": list(errors)}
