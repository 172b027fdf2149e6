"""A board plan as a JSON document; lengths in the unit of the lists, money in units of the prices."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from fitter.domain.cuts import Aim, BoardPlan, Cut, CutOptions, CutResult, PlannedBoard, Reached
from fitter.domain.findings import ProjectError
from fitter.domain.saw_list import sawing
from fitter.report.cuts_rows import purchases
from fitter.report.document import SCHEMA, Document, finding_entry, number, plain, refusal_document
from fitter.report.sawing.entries import saw_entry, stop_entries
from rooms.lengths import Length, Unit


def cuts_document(title: str, result: CutResult, options: CutOptions, unit: Unit) -> Document:
    """A plan; only if the check accepts it.

    Args:
        title: the file of the parts.
        result: what came out.
        options: how the boards are cut.
        unit: of the lists.

    Returns:
        Keys are added over time, never renamed.
    """
    document: Document = {
        "schema": SCHEMA,
        "units": str(unit),
        "outcome": str(result.verdict),
        "title": title,
        "kerf": number(options.kerf, unit),
        "trim": number(options.trim, unit),
    }
    plan = result.plan if not result.checked else None
    if plan is not None:
        document |= _plan(plan, options, unit)
    else:
        document |= {"cost": None, "bound": None, "boards": []}
    if result.section:
        document["section"] = result.section
    if result.checked:
        document["errors"] = [finding_entry(finding, title) for finding in result.checked]
    return document


def _plan(plan: BoardPlan, options: CutOptions, unit: Unit) -> Document:
    return {
        "cost": amount(plan.cost),
        "bound": amount(plan.bound),
        "proven": plan.proven,
        "interrupted": plan.interrupted,
        "gap": amount(plan.gap) if plan.cost is not None else number(Length(plan.gap), unit),
        "waste": number(plan.waste, unit),
        "patterns": plan.patterns,
        "aims": [_aim(plan, reached, unit) for reached in plan.reached],
        "purchases": [
            {"section": section, "length": number(length, unit), "price": amount(price), "count": count}
            for section, length, price, count in purchases(plan)
        ],
        "boards": [{**board_entry(board, unit), **saw_entry(sawing(board, options), unit)} for board in plan.boards],
        "stops": stop_entries(plan.boards, unit),
        "notes": list(plan.notes),
    }


def amount(cents: int | None) -> int | float | None:
    """Money in units of the prices; None where it is not known."""
    return None if cents is None else plain(Fraction(cents, 100))


def _aim(plan: BoardPlan, reached: Reached, unit: Unit) -> Document:
    def told(value: int | None) -> int | float | None:
        if value is None or reached.aim in (Aim.BOARDS, Aim.PATTERNS):
            return value
        priced = reached.aim is Aim.COST and plan.cost is not None
        return amount(value) if priced else number(Length(value), unit)

    return {
        "aim": str(reached.aim),
        "value": told(reached.value),
        "bound": told(reached.bound),
        "proven": reached.proven,
    }


def board_entry(board: PlannedBoard, unit: Unit) -> Document:
    """A board with its cuts, measured along it from its first end."""
    return {
        "section": board.section,
        "length": number(board.length, unit),
        "price": amount(board.price),
        "on_hand": board.on_hand,
        "cuts": [_cut(cut, unit) for cut in board.cuts],
        "offcut": number(board.offcut, unit),
    }


def _cut(cut: Cut, unit: Unit) -> Document:
    entry: Document = {"mark": cut.mark, "from": number(cut.start, unit), "to": number(cut.end, unit)}
    if any(cut.leans):
        entry["leans"] = list(cut.leans)
    return entry


def lists_refusal(errors: Sequence[ProjectError]) -> Document:
    """What is wrong with both lists."""
    document = refusal_document(errors[0])
    for error in errors[1:]:
        more = refusal_document(error)
        document["errors"] += more["errors"]
        document["findings"] += more["findings"]
    return document
