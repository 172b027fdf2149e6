"""A closed survey as tables for the terminal, 80 columns wide."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import hypot

from rich.console import Console

from fitter.project import RoomReading
from fitter.report.printing import print_findings, print_table, say
from fitter.report.words import Teller, teller
from rooms.geometry import Point, signed_area
from rooms.lengths import Length, Unit
from rooms.survey import WITHIN, Survey, Suspicion, Traverse
from rooms.survey.wording import listed

_SQUARE = {True: ("sq ft", Unit.FT), False: ("m²", Unit.M)}
_OF_100 = f"{round(100 * WITHIN)} of 100"


def print_survey(console: Console, reading: RoomReading, denominator: int = 64, *, compass: bool = False) -> None:
    """Print what the tape readings come to.

    Args:
        console: where to.
        reading: of the room.
        denominator: finest fraction of an inch; metric sizes of residuals go to 0.1 mm.
        compass: whether to lay the compass rule beside the least squares; every side and turn must be read.
    """
    unit, survey = reading.unit, reading.survey
    tell, fine = teller(unit), _fine(unit, denominator)
    console.print(reading.title, style="bold")
    if survey is None:
        say(console, "The corners are given by coordinates, so there is nothing to adjust.")
        print_table(console, ("corner", "x", "y"), _corners(reading, tell))
    else:
        _print_readings(console, survey, tell, fine)
        _print_corners(console, reading, survey, tell, fine)
        if compass and survey.traverse is not None:
            _print_compass(console, survey, survey.traverse, tell, fine)
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


def _print_readings(console: Console, survey: Survey, tell: Teller, fine: Teller) -> None:
    for line in _closure(survey, tell, fine):
        say(console, line)
    heads = ("reading", "kind", "taped", "adjusted", "residual", "limit", "w")
    print_table(console, heads, _readings(survey, tell, fine))
    if survey.redundancy:
        console.print()
        meaning = f"{_OF_100} readings are taken to lie within their limit"
        say(console, f"w: the least-squares residual in its own standard deviations ({meaning}); - is not checked.")
    if survey.suspicion is not None:
        _print_suspicion(console, survey, survey.suspicion, tell)


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
    if surplus and survey.suspicion is None:
        yield _calm(survey)
    if survey.unchecked and surplus:
        yield f"Hardly or not checked by the others: {listed(survey.unchecked)}."
    if survey.next_tie is not None and (survey.suspicion is None or survey.suspicion.line is None):
        yield f"The next tie worth taping: {survey.next_tie}."


def _calm(survey: Survey) -> str:
    """That no reading stands out, and how near the nearest one comes to it."""
    greatest = max(survey.residuals, key=lambda r: abs(r.standardised or 0.0))
    size = abs(greatest.standardised or 0.0)
    if size < 0.005:
        return "No reading stands out."
    return f"No reading stands out: the greatest w is {size:.1f}, at {greatest.name}; {survey.critical:.1f} would."


def _print_suspicion(console: Console, survey: Survey, suspicion: Suspicion, tell: Teller) -> None:
    """Which reading stands out, or which of several may be the one."""
    console.print()
    first = suspicion.suspects[0]
    w = f"w is {abs(first.standardised):.1f}, and {survey.critical:.1f} is seldom passed"
    if suspicion.clear:
        meant = _said(first.meant, tell)
        again = "Tape it again" if isinstance(first.meant, Length) else "Check that corner"
        say(console, f"{first.name} stands out: {w}. By the other readings it is {meant}. {again}.")
        return
    say(console, f"The readings miss each other visibly: {w}. Any one of these would explain it:")
    line = suspicion.line
    heads = ("suspect", "taped", "by the others", *([f"{line} is then"] if line else []))
    rows = [
        (one.name, _said(one.reading, tell), _said(one.meant, tell), *([tell(one.foretold)] if one.foretold else []))
        for one in suspicion.suspects
    ]
    print_table(console, heads, rows)
    console.print()
    if line is None:
        say(console, "No further tie would tell which; tape these again, the first one first.")
    else:
        say(console, f"Tape {line} too, which {'tells which it is' if suspicion.decided else 'leaves fewer'}.")


def _said(value: Length | float, tell: Teller) -> str:
    return tell(value) if isinstance(value, Length) else f"{value:.2f}°".replace("-0.00", "0.00")


def _readings(survey: Survey, tell: Teller, fine: Teller) -> Iterator[tuple[str, ...]]:
    for r in survey.residuals:
        sizes = (_said(r.reading, tell), *(_said(value, fine) for value in (r.adjusted, r.residual, r.limit)))
        test = "-" if r.standardised is None else f"{r.standardised:.1f}".replace("-0.0", "0.0")
        yield r.name, str(r.kind), *sizes, test


def _print_corners(console: Console, reading: RoomReading, survey: Survey, tell: Teller, fine: Teller) -> None:
    heads = ("corner", "x", "y", "± long", "± short", "direction")
    print_table(console, heads, _uncertain(reading, survey, tell, fine))
    first, second = (name for name, _ in survey.points[:2])
    console.print()
    say(
        console,
        f"± long, ± short: half axes of the ellipse that holds the corner in {_OF_100} such surveys, "
        f"and the direction of the long one; corner {first} and the direction to {second} are held.",
    )


def _uncertain(reading: RoomReading, survey: Survey, tell: Teller, fine: Teller) -> Iterator[tuple[str, ...]]:
    for row, ellipse in zip(_corners(reading, tell), survey.ellipses, strict=True):
        direction = f"{ellipse.direction:.0f}°" if ellipse.long else "-"
        yield *row, fine(ellipse.long), fine(ellipse.short), direction


def _corners(reading: RoomReading, tell: Teller) -> Iterator[tuple[str, str, str]]:
    for name, point in reading.room.corners:
        yield name, tell(point.x), tell(point.y)


def _print_compass(console: Console, survey: Survey, traverse: Traverse, tell: Teller, fine: Teller) -> None:
    """The corners by the compass rule, and how far they are from those by least squares."""
    console.print()
    console.print("By the compass rule", style="bold")
    more = "exceed" if traverse.angular > 0 else "fall short of"
    angles = f"{more} their sum by {abs(traverse.angular):.2f}°, shared alike" if traverse.angular else "add up"
    if traverse.ratio is None:
        sides = "the sides then close exactly"
    else:
        sides = f"the sides then miss closing by {fine(traverse.misclosure)}, 1:{traverse.ratio}"
    say(console, f"Without the ties: the inside angles {angles}; {sides}.")
    rows = []
    for name, point in traverse.points:
        other = survey.point(name)
        gap = Point(point.x - other.x, point.y - other.y)
        apart = Length(round(hypot(gap.x.units, gap.y.units)))
        rows.append((name, tell(point.x), tell(point.y), fine(gap.x), fine(gap.y), fine(apart)))
    print_table(console, ("corner", "x", "y", "x differs", "y differs", "apart"), rows)
    console.print()
    say(console, "Differs: the compass rule less the least squares above, which also use the ties.")


def _area(reading: RoomReading, unit: Unit) -> Fraction:
    return abs(signed_area(reading.room.outline)) / unit.one.units**2
