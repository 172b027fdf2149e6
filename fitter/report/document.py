"""Results as JSON documents: lengths in the unit of the file, coordinates of the room."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import Any

from fitter.domain.findings import Finding, ProjectError, Severity
from fitter.domain.layout import Box, Layout, Run, Verdict
from fitter.domain.outcome import FitResult
from fitter.domain.project import Project
from fitter.report.reason import reason
from fitter.report.setting import purchases
from fitter.report.words import teller
from rooms.lengths import Length, Unit

SCHEMA = 1
_DECIMALS = 6

Document = dict[str, Any]


def written(document: Document) -> str:
    """A document as text, one key or short list a line."""
    return json.dumps(document, indent=1, ensure_ascii=False)


def number(length: Length | Fraction, unit: Unit) -> int | float:
    """A length in a unit: exact for whole shop marks of inches and millimetres, else to six decimals.

    Args:
        length: exact, or a coordinate in units of `rooms.lengths`.
        unit: of the file.

    >>> number(Length.inches("185/4"), Unit.IN), number(Length.millimetres(3810), Unit.MM)
    (46.25, 3810)
    """
    units = Fraction(length.units) if isinstance(length, Length) else length
    return plain(units / unit.one.units)


def plain(value: Fraction) -> int | float:
    """A number to six decimals; whole ones without a point, and no negative zero."""
    rounded = round(value, _DECIMALS)
    return rounded.numerator if rounded.denominator == 1 else float(rounded)


def fit_document(project: Project, result: FitResult) -> Document:
    """A fit; its layout only if the checker accepts it.

    Args:
        project: what was asked.
        result: what came out.

    Returns:
        Keys are added over time, never renamed.
    """
    shown = result.layout is not None and result.verdict is not Verdict.FAULT
    document: Document = {
        "schema": SCHEMA,
        "units": str(project.unit),
        "outcome": str(result.verdict),
        "title": project.title,
        "file": project.file,
        "layouts": [_layout(project, result.layout)] if shown and result.layout else [],
        "proofs": [
            {"objective": str(proof.objective), "value": proof.value, "bound": proof.bound, "proven": proof.proven}
            for proof in result.proofs
        ],
    }
    if result.verdict is Verdict.IMPOSSIBLE:
        document["why"] = _why(project, result)
    document["findings"] = [finding_entry(finding, project.file) for finding in project.findings]
    if result.checked:
        document["errors"] = [finding_entry(finding, project.file) for finding in result.checked]
    return document


def _why(project: Project, result: FitResult) -> Document:
    clash = []
    for fact in result.clash:
        place = project.place(fact.key)
        line = place.line if place else None
        clash.append({"id": fact.id, "key": fact.key, "file": project.file, "line": line, "says": fact.says})
    return {"says": reason(project, result, teller(project.unit)), "clash": clash, "cures": []}


def _layout(project: Project, layout: Layout) -> Document:
    unit = project.unit

    def outline(box: Box) -> list[list[int | float]]:
        return [[number(x, unit), number(y, unit)] for x, y in layout.pose.outline(box)]

    return {
        "rank": 1,
        "shape": str(layout.shape),
        "hand": None if layout.hand is None else str(layout.hand),
        "seats": layout.seats,
        "corner": None if layout.corner is None else str(layout.corner),
        "turned": plain(Fraction(layout.pose.turned)),
        "edge": layout.pose.edge,
        "off_edge": number(layout.off_edge, unit),
        "runs": [_run(run, unit, outline(run.deck)) for run in layout.runs],
        "modules": [
            {
                "run": str(module.run),
                "place": module.place,
                "cushion": module.cushion,
                "turned": module.turned,
                "seats": module.seats,
                "outline": outline(module.box),
                "notch": None if module.notch is None else outline(module.notch.box),
            }
            for module in layout.modules
        ],
        "ends": [{"run": str(end.run), "kind": str(end.kind), "outline": outline(end.box)} for end in layout.ends],
        "footprint": [outline(box) for box in layout.footprint],
        "posts": [
            {
                "role": str(post.role),
                "run": str(post.run),
                "face": str(post.face),
                "line": post.line,
                "outline": outline(post.box),
            }
            for post in layout.posts
        ],
        "rails": [
            {
                "run": str(rail.run),
                "face": str(rail.face),
                "bay": rail.bay,
                "length": number(rail.length, unit),
                "outline": outline(rail.box),
            }
            for rail in layout.rails
        ],
        "routes": [
            {
                "name": route.name,
                "asked": number(route.asked, unit),
                "clear": None if route.clear is None else number(route.clear, unit),
            }
            for route in layout.routes
        ],
        "cushions": [
            {
                "cushion": row.cushion,
                "used": row.used,
                "own": row.own,
                "buy": row.buy,
                "cost": None if row.cost is None else plain(row.cost),
            }
            for row in purchases(project, layout)
        ],
    }


def _run(run: Run, unit: Unit, outline: list[list[int | float]]) -> Document:
    return {
        "run": str(run.side),
        "cushion": run.cushion,
        "turned": run.turned,
        "count": run.count,
        "pitch": number(run.pitch, unit),
        "length": number(run.pitch * run.count, unit),
        "outline": outline,
    }


def finding_entry(finding: Finding, file: str) -> Document:
    """A finding with its place."""
    return {
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
