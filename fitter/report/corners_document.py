"""The corner trade-off as a JSON document: lengths in the unit of the file, areas in its square."""

from __future__ import annotations

from fractions import Fraction

from fitter.domain.layout import Verdict
from fitter.domain.project import Project
from fitter.domain.tradeoff import Step, TradeOff, Treatment, arms, bare_area, ground
from fitter.report.corners_units import Units
from fitter.report.corners_words import costs, gives, no_corner_line, straight_line, why_not
from fitter.report.document import SCHEMA, finding_entry
from fitter.report.entries import Document, layout_entry, number, plain, proof_entry
from fitter.report.words import Teller, source_place, teller
from rooms.lengths import Unit


def no_corner_document(project: Project) -> Document:
    """Of a file that asks for a straight run, which has no corners to compare."""
    place = source_place(project, "wish.shape")
    clash = {
        "id": "shape",
        "key": "wish.shape",
        "file": project.file,
        "line": place.line if place else None,
        "says": f"the shape is to be {project.wish.shape}",
    }
    return {
        **_head(project, Verdict.IMPOSSIBLE),
        "treatments": [],
        "why": {"says": no_corner_line(project).removeprefix("impossible: "), "clash": [clash], "cures": []},
    }


def corners_document(project: Project, made: TradeOff, denominator: int = 16) -> Document:
    """All treatments side by side; their layouts only if the checks accept them.

    Args:
        project: what was asked.
        made: what came out.
        denominator: finest fraction of an inch in sentences.

    Returns:
        Keys are added over time, never renamed.
    """
    tell = teller(project.unit, denominator)
    fault = made.verdict is Verdict.FAULT
    document: Document = {
        **_head(project, made.verdict),
        "interrupted": made.interrupted,
        "asked": None if made.asked is None else str(made.asked),
        "compared": [str(measure) for measure in made.compared],
        "straight": list(straight_line(project, made)),
        "treatments": [] if fault else [_treatment(project, made, each, tell) for each in made.treatments],
        "steps": [] if fault else [_step(step, project.unit) for step in made.steps],
        "steps_of": None if made.start is None else str(made.start),
        "findings": [finding_entry(finding, project.file) for finding in project.findings],
    }
    if fault:
        document["errors"] = [finding_entry(finding, project.file) for finding in made.faults]
    return document


def _head(project: Project, verdict: Verdict) -> Document:
    return {
        "schema": SCHEMA,
        "units": str(project.unit),
        "outcome": str(verdict),
        "title": project.title,
        "file": project.file,
    }


def _treatment(project: Project, made: TradeOff, treatment: Treatment, tell: Teller) -> Document:
    layout, built, unit = treatment.layout, treatment.built, project.unit
    entry: Document = {"corner": str(treatment.corner), "outcome": str(treatment.fit.verdict)}
    if layout is None or built is None or treatment.shown is None:
        empty = dict.fromkeys(("seats", "notch", "footprint", "cost", "reversible"))
        return {**entry, **empty, "why": why_not(project, treatment, tell)}
    on = ground(layout.footprint)
    whole = layout_entry(project, treatment.fit, treatment.shown)
    notches = [module.notch for module in layout.corners if module.notch]
    deepest = max(notches, key=lambda notch: notch.along_x.units, default=None)
    return {
        **entry,
        "seats": layout.seats,
        "armed_ends": arms(layout),
        "notch": None if deepest is None else [number(size, unit) for size in (deepest.along_x, deepest.along_y)],
        "footprint": whole["footprint"],
        "cost": _cents(built.money),
        "reversible": treatment.reversible,
        "shape": str(layout.shape),
        "size": [number(on.long, unit), number(on.deep, unit)],
        "area": _square(on.area, unit),
        "gap": number(layout.gap, unit),
        "bare": _square(bare_area(layout), unit),
        "cut": layout.notches,
        "foam": _cube(built.foam, unit),
        "parts": built.parts,
        "boards": _cents(built.boards),
        "boards_complete": built.covered,
        "cushions": _cents(built.cushions),
        "stiffness": built.stiffness,
        "held_by": built.held,
        "dominated_by": [str(other) for other in made.dominated_by(treatment.corner)],
        "gives": gives(made, treatment, Units(unit.imperial, tell)),
        "costs": costs(made, treatment, Units(unit.imperial, tell)),
        "proofs": [proof_entry(proof) for proof in treatment.fit.proofs],
        "layout": whole,
    }


def _step(step: Step, unit: Unit) -> Document:
    return {
        "post": step.post.name,
        "ease_more": number(step.more, unit),
        "overhang": number(step.overhang, unit),
        "notch": number(step.notch, unit),
        "longer": number(step.longer, unit),
        "deeper": number(step.deeper, unit),
        "area": _square(step.ground.area, unit),
        "gap": number(step.gap, unit),
        "boards": _cents(step.cents),
        "fits": step.fits,
        "why": None if step.bar is None else str(step.bar),
        "front": step.front,
    }


def _cents(cents: int | None) -> int | float | None:
    return None if cents is None else plain(Fraction(cents, 100))


def _square(units: int, unit: Unit) -> int | float:
    return plain(Fraction(units, unit.one.units**2))


def _cube(units: int, unit: Unit) -> int | float:
    return plain(Fraction(units, unit.one.units**3))
