"""A fit as one JSON document."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from fitter.domain.layout import Box, Layout
from fitter.domain.outcome import FitResult
from fitter.domain.project import Project
from rooms.lengths import Length


def fit_document(project: Project, result: FitResult) -> dict[str, Any]:
    """The result with lengths in the project's unit and coordinates of the room."""
    place = {fact.id: project.place(fact.key) for fact in result.clash}
    document: dict[str, Any] = {
        "schema": 1,
        "units": str(project.unit),
        "outcome": str(result.verdict),
        "layouts": [] if result.layout is None else [_layout(project, result.layout)],
        "proofs": [
            {"objective": str(p.objective), "value": p.value, "bound": p.bound, "proven": p.proven} for p in result.proofs
        ],
    }
    if result.clash:
        clash = [
            {"key": f.key, "line": at.line if (at := place[f.id]) else None, "says": f.says} for f in result.clash
        ]
        document["why"] = {"clash": clash, "cures": []}
    return document


def _layout(project: Project, layout: Layout) -> dict[str, Any]:
    def number(length: Length | Fraction) -> float:
        units = length.units if isinstance(length, Length) else length
        return round(float(Fraction(units) / project.unit.one.units), 6)

    def outline(box: Box) -> list[list[float]]:
        return [[number(x), number(y)] for x, y in layout.pose.outline(box)]

    return {
        "rank": 1,
        "shape": str(layout.shape),
        "hand": layout.hand and str(layout.hand),
        "seats": layout.seats,
        "corner": layout.corner and str(layout.corner),
        "turned": round(layout.pose.turned, 6),
        "modules": [
            {
                "run": str(m.run),
                "place": m.place,
                "cushion": m.cushion,
                "outline": outline(m.box),
                "notch": None if m.notch is None else outline(m.notch.box),
            }
            for m in layout.modules
        ],
        "footprint": [outline(box) for box in layout.footprint],
        "rails": [
            {"run": str(r.run), "face": str(r.face), "bay": r.bay, "length": number(r.length)} for r in layout.rails
        ],
        "routes": [
            {"name": r.name, "asked": number(r.asked), "clear": None if r.clear is None else number(r.clear)}
            for r in layout.routes
        ],
    }
