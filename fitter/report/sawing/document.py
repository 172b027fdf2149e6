"""The boards of a frame as a JSON document: lengths in the unit of the file, money in units of the prices."""

from __future__ import annotations

from dataclasses import replace

from fitter.domain.board_list import BoardList, SectionPlan
from fitter.domain.project import Project
from fitter.domain.saw_list import sawing
from fitter.report.cuts_document import amount, board_entry
from fitter.report.document import finding_entry, fit_document
from fitter.report.entries import Document, layout_entry, number, proof_entry
from fitter.report.sawing.entries import saw_entry, stop_entries
from rooms.lengths import Unit


def boards_document(project: Project, made: BoardList) -> Document:
    """The boards with the layout that they are for; only plans that the check accepts.

    Args:
        project: what was asked.
        made: what came out.

    Returns:
        Keys are added over time, never renamed. `layouts` holds the one layout that is built.
    """
    framed = made.framed
    document = fit_document(project, replace(framed.fit, layouts=()))
    errors = document.pop("errors", [])
    if framed.shown and framed.woodwork:
        document["layouts"] = [layout_entry(project, framed.fit, framed.shown)]
        document["proofs"] = [proof_entry(proof) for proof in framed.shown.proofs]
        document["bounds"] = []
    elif framed.fit.layouts:
        message = f"there is no layout of rank {framed.rank}, only {len(framed.fit.layouts)}"
        errors.append({"code": "no-such-layout", "message": message})
    checked = [finding for section in made.sections if section.result for finding in section.result.checked]
    errors += [finding_entry(finding, project.file) for finding in (*framed.checked, *checked)]
    unit = project.unit
    return {
        **document,
        "outcome": str(made.verdict),
        "kerf": number(made.options.kerf, unit),
        "trim": number(made.options.trim, unit),
        "cost": amount(made.cost),
        "bound": amount(made.bound),
        "complete": made.complete and bool(made.sections),
        "sections": [_section(section, unit) for section in made.sections],
        "boards": [
            {**board_entry(board, unit), **saw_entry(sawing(board, made.options, project.shop.longest_carried), unit)}
            for board in made.boards
        ],
        "stops": stop_entries(made.boards, unit),
        "ripped": [
            {"mark": part.mark, "width": number(part.width, unit), "thickness": number(part.thickness, unit)}
            for part in made.ripped
        ],
        **({"errors": errors} if errors else {}),
    }


def _section(section: SectionPlan, unit: Unit) -> Document:
    plan = section.result.plan if section.result and not section.result.checked else None
    outcome = str(section.result.verdict) if section.result else "impossible" if section.too_long else "not planned"
    entry: Document = {
        "section": section.section,
        "outcome": outcome,
        "parts": section.count,
        "length": number(section.wood, unit),
        "boards": len(section.boards),
        "cost": amount(section.cost),
        "bound": amount(section.bound),
        "waste": number(plan.waste, unit) if plan else None,
        "notes": list(plan.notes) if plan else [],
    }
    if section.too_long is not None and section.longest is not None:
        entry["too_long"] = {
            "mark": section.too_long.mark,
            "length": number(section.too_long.length, unit),
            "longest": number(section.longest, unit),
        }
    if section.unpriced:
        entry["without_price"] = [number(stock.length, unit) for stock in section.unpriced]
    return entry
