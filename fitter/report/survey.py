"""A closed survey as tables and as a JSON document."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from rich.console import Console

from fitter.domain.layout import Verdict
from fitter.project import RoomReading
from fitter.report.document import SCHEMA, Document, finding_entry, number, plain
from fitter.report.tables import print_findings, print_table, say
from fitter.report.words import Teller, teller
from rooms.geometry import signed_area
from rooms.lengths import Length, Unit
from rooms.survey import Residual, Survey
from rooms.survey.wording import listed

_SQUARE = {True: ("sq ft", Unit.FT), False: ("m²", Unit.M)}


def print_survey(console: Console, reading: RoomReading, denominator: int = 64) -> None:
    """Print what the tape readings come to.

    Args:
        console: where to.
        reading: of the room.
        denominator: finest fraction of an inch; metric sizes of residuals go to 0.1 mm.
    """
    unit = reading.unit
    tell, fine = teller(unit), _fine(unit, denominator)
    console.print(reading.title, style="bold")
    if reading.survey is None:
        say(console, "The corners are given by coordinates, so there is nothing to adjust.")
    else:
        for line in _closure(reading.survey, tell, fine):
            say(console, line)
        heads = ("reading", "kind", "taped", "adjusted", "residual", "limit")
        print_table(console, heads, _readings(reading.survey, tell, fine))
    print_table(console, ("corner", "x", "y"), _corners(reading, tell))
    edges = [(edge.name, str(edge.kind), tell(edge.length)) for edge in reading.room.edges]
    print_table(console, ("edge", "kind", "length"), edges)
    word, one = _SQUARE[unit.imperial]
    console.print()
    console.print(f"area: {float(_area(reading, one)):.1f} {word}")
    print_findings(console, reading.findings)


def _fine(unit: Unit, denominator: int) -> Teller:
    """Writes small differences, finer than a tape shows them."""
    if unit.imperial:
        return teller(unit, denominator)

    def tell(length: Length) -> str:
        return f"{float(length.mm):.1f} mm".replace("-0.0 mm", "0.0 mm")

    return tell


def _closure(survey: Survey, tell: Teller, fine: Teller) -> Iterator[str]:
    if survey.misclosure is None:
        yield "Sides and turns alone do not walk the outline, so there is no misclosure to tell."
    elif survey.ratio is None:
        yield f"Sides and turns close exactly, over a way of {tell(survey.perimeter)}."
    else:
        way = tell(survey.perimeter)
        yield f"Sides and turns miss closing by {fine(survey.misclosure)} in {way}, 1:{survey.ratio}."
    surplus = survey.redundancy
    if not surplus:
        yield "There is no reading more than the shape needs, so a slip would not show."
    else:
        yield f"{surplus} more reading{'s' * (surplus > 1)} than the shape needs; all agree within their limits."
    if survey.unchecked and surplus:
        yield f"Not checked by any other reading: {listed(survey.unchecked)}."
    if survey.next_tie is not None:
        yield f"The next tie worth taping: {survey.next_tie}."


def _readings(survey: Survey, tell: Teller, fine: Teller) -> Iterator[tuple[str, ...]]:
    def said(value: Length | float, *, small: bool = False) -> str:
        if isinstance(value, Length):
            return fine(value) if small else tell(value)
        return f"{value:.2f}°".replace("-0.00", "0.00")

    for r in survey.residuals:
        row = (said(r.reading), said(r.adjusted, small=True), said(r.residual, small=True), said(r.limit, small=True))
        yield r.name, str(r.kind), *row


def _corners(reading: RoomReading, tell: Teller) -> Iterator[tuple[str, ...]]:
    for name, point in reading.room.corners:
        yield name, tell(point.x), tell(point.y)


def _area(reading: RoomReading, unit: Unit) -> Fraction:
    return abs(signed_area(reading.room.outline)) / unit.one.units**2


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
        "area": plain(_area(reading, unit)),
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
        "readings": [_reading_entry(residual, unit) for residual in survey.residuals],
    }


def _reading_entry(residual: Residual, unit: Unit) -> Document:
    def value(size: Length | float) -> int | float:
        return number(size, unit) if isinstance(size, Length) else plain(Fraction(size))

    return {
        "name": residual.name,
        "kind": str(residual.kind),
        "reading": value(residual.reading),
        "adjusted": value(residual.adjusted),
        "residual": value(residual.residual),
        "limit": value(residual.limit),
    }
