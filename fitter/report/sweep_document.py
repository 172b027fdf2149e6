"""A sweep as a JSON document: lengths in the unit of the file."""

from __future__ import annotations

from fractions import Fraction

from fitter.domain.amounts import Amount, Quantity
from fitter.domain.layout import Verdict
from fitter.domain.sweeps import Look, Shown, Stretch, Sweep, Value
from fitter.report.document import SCHEMA, Document, finding_entry, number, plain
from fitter.report.reason import reason
from fitter.report.words import teller
from rooms.lengths import Unit


def sweep_document(sweep: Sweep, unit: Unit, file: str) -> Document:
    """A sweep; keys are added over time, never renamed.

    Args:
        sweep: what came out.
        unit: of the file.
        file: its path.
    """
    project = sweep.usable
    return {
        "schema": SCHEMA,
        "units": str(unit),
        "outcome": outcome(sweep),
        "interrupted": sweep.interrupted,
        "title": project.title if project is not None else None,
        "file": file,
        "key": sweep.key,
        "step": _amount(sweep.step, unit),
        "written": sweep.written,
        "shown": [str(one) for one in sweep.shown],
        "values": sweep.values,
        "solves": sweep.solves,
        "bounded": sweep.related,
        "stretches": [_stretch(sweep, stretch, unit, file) for stretch in sweep.stretches],
    }


def outcome(sweep: Sweep) -> str:
    """The verdict on the whole: the least certain one, then whether anything fits."""
    verdicts = {stretch.look.verdict for stretch in sweep.stretches}
    for verdict in (Verdict.UNKNOWN, Verdict.FOUND, Verdict.PROVEN, Verdict.IMPOSSIBLE):
        if verdict in verdicts:
            return str(verdict)
    return "invalid"


def _stretch(sweep: Sweep, stretch: Stretch, unit: Unit, file: str) -> Document:
    verdict = stretch.look.verdict
    entry: Document = {
        "from": _amount(stretch.first, unit),
        "to": _amount(stretch.last, unit),
        "values": stretch.count,
        "solved": stretch.solved,
        "outcome": "invalid" if verdict is None else str(verdict),
    }
    entry |= _shown(sweep, stretch.look, unit)
    if stretch.until != stretch.look:
        entry["until"] = _shown(sweep, stretch.until, unit)
    if stretch.refusal is not None:
        entry["errors"] = [finding_entry(stretch.refusal, file)]
    if verdict is Verdict.IMPOSSIBLE and stretch.project is not None and stretch.result is not None:
        clash = [{"id": fact.id, "key": fact.key, "says": fact.says} for fact in stretch.result.clash]
        entry["why"] = {"says": reason(stretch.project, stretch.result, teller(unit)), "clash": clash}
    return entry


def _shown(sweep: Sweep, look: Look, unit: Unit) -> Document:
    return {
        str(one): _value(one, value, unit)
        for one, value in zip(sweep.shown, look.values, strict=False)
        if one is not Shown.VERDICT
    }


def _value(one: Shown, value: Value, unit: Unit) -> object:
    if isinstance(value, tuple):
        shape, seats, hand, corner = value
        return {"shape": shape, "seats": int(seats), "hand": hand or None, "corner": corner or None}
    if value is None:
        return None
    if one is Shown.COST:
        return plain(Fraction(value, 100))
    if one is Shown.OFF_EDGE:
        return number(unit.mark * value, unit)
    return plain(Fraction(value, unit.one.units**2)) if one is Shown.AREA else value


def _amount(amount: Amount, unit: Unit) -> int | float:
    return number(amount.length, unit) if amount.quantity is Quantity.LENGTH else plain(amount.number)
