"""A closed survey as a JSON document."""

from __future__ import annotations

from fractions import Fraction

from fitter.domain.layout import Verdict
from fitter.project import RoomReading
from fitter.report.document import SCHEMA, Document, finding_entry, number, plain
from rooms.geometry import Point, signed_area
from rooms.lengths import Length, Unit
from rooms.survey import WITHIN, Ellipse, Residual, Survey, Suspect, Suspicion, Traverse


def survey_document(reading: RoomReading) -> Document:
    """The room of a file with what each reading is worth.

    Args:
        reading: of the room.

    Returns:
        Lengths in the unit of the file, angles in degrees, the area in the square of the unit; `outcome` is
        `proven` when the readings check each other, `found` when a slip in one of them would not show.
    """
    unit, survey = reading.unit, reading.survey
    checked = survey is None or not survey.unchecked
    document: Document = {
        "schema": SCHEMA,
        "units": str(unit),
        "outcome": str(Verdict.PROVEN if checked else Verdict.FOUND),
        "title": reading.title,
        "file": reading.file,
        "corners": {name: [number(p.x, unit), number(p.y, unit)] for name, p in reading.room.corners},
        "edges": [
            {"name": edge.name, "kind": str(edge.kind), "length": number(edge.length, unit)}
            for edge in reading.room.edges
        ],
        "area": plain(abs(signed_area(reading.room.outline)) / unit.one.units**2),
    }
    if survey is not None:
        document |= _survey_keys(survey, unit)
    document["findings"] = [finding_entry(finding, reading.file) for finding in reading.findings]
    return document


def _survey_keys(survey: Survey, unit: Unit) -> Document:
    return {
        "misclosure": None if survey.misclosure is None else number(survey.misclosure, unit),
        "ratio": survey.ratio,
        "perimeter": number(survey.perimeter, unit),
        "redundancy": survey.redundancy,
        "unchecked": list(survey.unchecked),
        "next_tie": survey.next_tie,
        "s0": survey.s0,
        "within": WITHIN,
        "critical": survey.critical,
        "readings": [_reading_entry(residual, unit) for residual in survey.residuals],
        "suspicion": None if survey.suspicion is None else _suspicion_entry(survey.suspicion, unit),
        "ellipses": [_ellipse_entry(ellipse, unit) for ellipse in survey.ellipses],
        "compass": None if survey.traverse is None else _traverse_entry(survey.traverse, unit),
    }


def _value(size: Length | float, unit: Unit) -> int | float:
    return number(size, unit) if isinstance(size, Length) else plain(Fraction(size))


def _reading_entry(residual: Residual, unit: Unit) -> Document:
    return {
        "name": residual.name,
        "kind": str(residual.kind),
        "reading": _value(residual.reading, unit),
        "adjusted": _value(residual.adjusted, unit),
        "residual": _value(residual.residual, unit),
        "limit": _value(residual.limit, unit),
        "checked": plain(Fraction(residual.checked)),
        "standardised": residual.standardised,
    }


def _suspicion_entry(suspicion: Suspicion, unit: Unit) -> Document:
    return {
        "suspects": [_suspect_entry(suspect, unit) for suspect in suspicion.suspects],
        "enough": suspicion.enough,
        "second": None if suspicion.second is None else _suspect_entry(suspicion.second, unit),
        "line": suspicion.line,
    }


def _suspect_entry(suspect: Suspect, unit: Unit) -> Document:
    return {
        "name": suspect.name,
        "kind": str(suspect.kind),
        "reading": _value(suspect.reading, unit),
        "meant": _value(suspect.meant, unit),
        "standardised": suspect.standardised,
        "foretold": None if suspect.foretold is None else number(suspect.foretold, unit),
    }


def _ellipse_entry(ellipse: Ellipse, unit: Unit) -> Document:
    return {
        "corner": ellipse.corner,
        "long": number(ellipse.long, unit),
        "short": number(ellipse.short, unit),
        "direction": plain(Fraction(ellipse.direction)),
    }


def _traverse_entry(traverse: Traverse, unit: Unit) -> Document:
    return {
        "corners": {name: _place(point, unit) for name, point in traverse.points},
        "angular": traverse.angular,
        "misclosure": number(traverse.misclosure, unit),
        "perimeter": number(traverse.perimeter, unit),
        "ratio": traverse.ratio,
    }


def _place(point: Point, unit: Unit) -> list[int | float]:
    return [number(point.x, unit), number(point.y, unit)]
