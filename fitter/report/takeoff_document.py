"""A take-off as a JSON document, and as comma-separated values to write prices into."""

from __future__ import annotations

import csv
from dataclasses import replace
from fractions import Fraction
from io import StringIO

from fitter.domain.layout import Verdict
from fitter.domain.project import Project
from fitter.domain.surfaces import square_feet, square_metres
from fitter.domain.takeoff import BuyResult, Item, Measure, Span, Takeoff, Total
from fitter.report.document import Document, finding_entry, fit_document, number, plain
from fitter.report.entries import layout_entry
from rooms.lengths import Length, Unit

HEADS = (
    "group", "item", "counted", "spare", "unit", "buy least", "buy most", "per", "price", "cost least", "cost most",
    "counts",
)  # fmt: skip
"""Columns of the values; `fitter.project.price_list` reads them back."""


def takeoff_document(project: Project, result: BuyResult) -> Document:
    """Everything to buy, with the layout that it is bought for.

    Args:
        project: what was asked.
        result: what came out.

    Returns:
        Keys are added over time, never renamed. Volumes are in millilitres, money in units of the prices.
    """
    framed = result.boards.framed
    document = fit_document(project, replace(framed.fit, layouts=()))
    if framed.shown and framed.fit.verdict is not Verdict.FAULT:
        document["layouts"] = [layout_entry(project, framed.fit, framed.shown)]
    findings, errors = document.pop("findings"), document.pop("errors", [])
    document["outcome"] = str(result.verdict)
    errors += [finding_entry(finding, project.file) for finding in framed.checked]
    for section in result.boards.sections:
        errors += [finding_entry(each, project.file) for each in (section.result.checked if section.result else ())]
    taken = result.takeoff
    document |= _whole(taken, project.unit) if taken else {"items": [], "totals": [], "tools": []}
    built = framed.woodwork.findings if framed.woodwork and taken else ()
    findings += [finding_entry(finding, project.file) for finding in (*built, *(taken.findings if taken else ()))]
    return {**document, "findings": findings, **({"errors": errors} if errors else {})}


def _whole(taken: Takeoff, unit: Unit) -> Document:
    square = square_feet if unit.imperial else square_metres
    return {
        "items": [_item(item, unit) for item in taken.items],
        "totals": [_total(total) for total in taken.totals],
        "tools": [
            {"tool": tool.name, "needs": tool.needs, "says": tool.says, "source": tool.source} for tool in taken.tools
        ],
        "area": {
            "unit": "sq ft" if unit.imperial else "m2",
            "exposed": plain(square(taken.area.exposed)),
            "whole": plain(square(taken.area.whole)),
            "covered": plain(square(taken.area.covered)),
        },
        "pockets": taken.pockets,
    }


def _item(item: Item, unit: Unit) -> Document:
    packs = item.packs
    return {
        "group": str(item.group),
        "item": item.name,
        "measure": "ml" if item.measure is Measure.VOLUME else str(item.measure),
        "needed": [_amount(item, each, unit) for each in (item.needed.least, item.needed.most)],
        "spare": item.spare,
        "buy": None if packs is None else list(packs),
        "per": item.pack.says if item.pack else None,
        "price": None if item.price is None else plain(item.price),
        "cost": _cost(item.cost),
        "counts": item.chosen,
        "choice": item.choice or None,
        "says": item.says,
        "source": item.source,
    }


def _amount(item: Item, amount: Fraction, unit: Unit) -> int | float:
    return number(Length(round(amount)), unit) if item.measure is Measure.LENGTH else plain(amount)


def _cost(cost: Span | None) -> list[int | float] | None:
    return None if cost is None else [plain(cost.least), plain(cost.most)]


def _total(total: Total) -> Document:
    return {
        "group": None if total.group is None else str(total.group),
        "cost": _cost(total.cost),
        "unknown": total.unknown,
        "share": None if total.share is None else plain(total.share),
    }


def takeoff_values(taken: Takeoff, unit: Unit) -> str:
    """The items as comma-separated values; whoever fills in prices can give the file back as a price list.

    Args:
        taken: what to buy.
        unit: of the file, for lengths.
    """
    out = StringIO()
    # Names hold inch signs; they are quoted, and the signs in them doubled, only where a value begins with one.
    write = csv.writer(out, lineterminator="\n")
    write.writerow(HEADS)
    for item in taken.items:
        write.writerow(_value_row(item, unit))
    return out.getvalue()


def _value_row(item: Item, unit: Unit) -> list[object]:
    kind = {Measure.PIECES: "pieces", Measure.VOLUME: "ml", Measure.LENGTH: str(unit)}[item.measure]
    buy: tuple[object, ...] = item.packs or ("", "")
    cost: list[object] = [*(_cost(item.cost) or ("", ""))]
    price = "" if item.price is None else plain(item.price)
    most = item.needed.most
    counted = _amount(item, most, unit) if item.measure is Measure.LENGTH else most.__ceil__()
    per = item.pack.says if item.pack else ""
    counts = "yes" if item.chosen else "no"
    return [str(item.group), item.name, counted, item.spare, kind, *buy, per, price, *cost, counts]
