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
from fitter.report.words import source_place, teller
from rooms.lengths import Length, Unit

SCHEMA = 1
_DECIMALS = 6

Document = dict[str, Any]


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
        place = source_place(project, fact.key)
        line = place.line if place else None
        clash.append({"id": fact.id, "key": fact.key, "file": project.file, "line": line, "says": fact.says})
    return {"says": reason(project, result, teller(project.unit)), "clash": clash, "cures": []}


def _layout(project: Project, layout: Layout) -> Document:
    unit = project.unit
    return {
        "rank": 1,
        "shape": str(layout.shape),
        "hand": None if layout.hand is None else str(layout.hand),
        "seats": layout.seats,
        "corner": None if layout.corner is None else str(layout.corner),
        "turned": plain(Fraction(layout.pose.turned)),
        "edge": layout.pose.edge,
        "off_edge": number(layout.off_edge, unit),
        **_seating(layout, unit),
        **_timber(layout, unit),
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


def _outline(layout: Layout, unit: Unit, box: Box) -> list[list[int | float]]:
    return [[number(x, unit), number(y, unit)] for x, y in layout.pose.outline(box)]


def _seating(layout: Layout, unit: Unit) -> Document:
    return {
        "runs": [_run(run, unit, _outline(layout, unit, run.deck)) for run in layout.runs],
        "modules": [
            {
                "run": str(module.run),
                "place": module.place,
                "cushion": module.cushion,
                "turned": module.turned,
                "seats": module.seats,
                "outline": _outline(layout, unit, module.box),
                "notch": None if module.notch is None else _outline(layout, unit, module.notch.box),
                "cover": _outline(layout, unit, module.cover or module.box),
            }
            for module in layout.modules
        ],
    }


def _timber(layout: Layout, unit: Unit) -> Document:
    return {
        "ends": [
            {"run": str(end.run), "kind": str(end.kind), "outline": _outline(layout, unit, end.box)}
            for end in layout.ends
        ],
        "footprint": [_outline(layout, unit, box) for box in layout.footprint],
        "posts": [
            {
                "role": str(post.role),
                "run": str(post.run),
                "face": str(post.face),
                "line": post.line,
                "outline": _outline(layout, unit, post.box),
            }
            for post in layout.posts
        ],
        "rails": [
            {
                "run": str(rail.run),
                "face": str(rail.face),
                "bay": rail.bay,
                "length": number(rail.length, unit),
                "outline": _outline(layout, unit, rail.box),
            }
            for rail in layout.rails
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
