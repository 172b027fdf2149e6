"""Variants of a plan as a JSON document: lengths in the unit of the file, money in units of the prices."""

from __future__ import annotations

from fitter.domain.designs import Design, Laid, RunDesign, design_of
from fitter.domain.findings import Finding
from fitter.domain.growth import Growth, Step, growths, wood_of
from fitter.domain.layout import Verdict
from fitter.domain.part_changes import RoleChange, Stick, part_changes
from fitter.domain.project import Project
from fitter.domain.spending import more_in_all
from fitter.domain.variants import Variant, Variants
from fitter.domain.woodwork import PartRole
from fitter.report.cuts_document import amount
from fitter.report.document import finding_entry, fit_document
from fitter.report.entries import Document, layout_entry, number, plain
from fitter.report.variants.growing import sentences
from fitter.report.variants.names import explained, here, name, unbuilt
from fitter.report.variants.tables import notes
from fitter.report.words import teller
from rooms.lengths import Unit

_OF_A_ROOM = ("rank", "edge", "off_edge", "along_edge", "gaps", "differs", "routes")
"""Keys of a layout that speak of the room that it stands in; open ground is none."""


def variants_document(project: Project, found: Variants) -> Document:
    """The published layout, the same design on open ground, its variants, and what one module more takes.

    Args:
        project: as published.
        found: its variants; those that the checker or the proof does not accept are not shown.

    Returns:
        Keys are added over time, never renamed.
    """
    document = fit_document(project, found.fit)
    document["outcome"] = str(found.verdict)
    document["interrupted"] = found.interrupted or found.fit.interrupted
    if found.base is None or found.fit.layout is None:
        return document
    base = design_of(found.fit.layout)
    tell, cut = teller(project.unit), teller(project.unit, feet=False)
    steps = growths(project, found, base) if found.base.built else ()
    document["notes"] = list(notes(project, found))
    document["moved"] = list(found.moved)
    document["base"] = _variant(project, found, found.base, base)
    document["variants"] = [_variant(project, found, variant, base) for variant in found.variants]
    document["growth"] = [
        {**_growth(growth, project.unit), "says": list(sentences(growth, tell, cut))} for growth in steps
    ]
    checked = [each for variant in found.every for each in faults(variant)]
    if checked:
        document["errors"] = [finding_entry(finding, project.file) for finding in checked]
    return document


def faults(variant: Variant) -> list[Finding]:
    """What checker and proof hold against a variant."""
    made = variant.boards
    own = (*made.framed.fit.checked, *made.framed.checked)
    plans = (each for section in made.sections if section.result for each in section.result.checked)
    return [*own, *plans, *(variant.here.checked if variant.here else ())]


def _variant(project: Project, found: Variants, variant: Variant, base: Design) -> Document:
    change, tell = variant.change, teller(project.unit)
    design = change.design if change else base
    entry: Document = {
        "number": variant.number,
        "name": name(change, base),
        "changes": str(change.what) if change else None,
        "run": str(change.run) if change and change.run else None,
        "more": change.more if change and change.run else None,
        "swapped": bool(change and change.swapped),
        "design": _design(design),
        "outcome": str(variant.verdict),
    }
    if not variant.built:
        says = unbuilt(variant) if variant.verdict is not Verdict.FAULT else "our mistake"
        return {**entry, "why": {"says": says, "clash": [fact.id for fact in variant.clash]}}
    published = found.base if found.base and found.base.built else None
    differs = part_changes(published.parts, variant.parts) if published else ()
    length, depth = variant.size
    entry |= {
        "explained": list(explained(project, change, base)) if change else [],
        "length": number(length, project.unit),
        "depth": number(depth, project.unit),
        "seats": variant.layout.seats,
        "posts": variant.posts,
        "cushions": [
            {
                "cushion": kind.name,
                "seats": kind.seats,
                "backs": kind.backs,
                "own": kind.own,
                "buy": kind.buy,
                "cost": amount(kind.cost),
            }
            for kind in variant.cushions
        ],
        "cost": _cost(variant, published),
        "boards": _boards(variant, published, project.unit),
        "parts": [_parts(each, project.unit) for each in differs],
        "here": {"outcome": _here(variant), "says": here(project, variant, tell)},
    }
    shown = variant.boards.framed.shown
    assert shown is not None, "it is built"
    told = layout_entry(variant.ground, variant.boards.framed.fit, shown)
    entry["layout"] = {key: value for key, value in told.items() if key not in _OF_A_ROOM}
    return entry


def _here(variant: Variant) -> str:
    """Whether it stands in the author's room: proven either way, or unknown."""
    found = variant.here
    if found is None or found.verdict is Verdict.FOUND:
        return "fits"
    return str(found.verdict)


def _design(design: Design) -> Document:
    return {
        "shape": str(design.shape),
        "hand": None if design.hand is None else str(design.hand),
        "corner": None if design.corner is None else str(design.corner),
        "runs": [{"run": str(side), **_run(run)} for side, run in design.runs()],
        "corners": [{"corner": str(arm), **_laid(laid)} for arm in design.arms if (laid := design.in_corner(arm))],
        "ends": {"right": str(design.right_end), "left": str(design.left_end)},
    }


def _run(run: RunDesign) -> Document:
    return {**_laid(run.laid), "count": run.count}


def _laid(laid: Laid) -> Document:
    return {"cushion": laid.cushion, "turned": laid.turned}


def _cost(variant: Variant, base: Variant | None) -> Document:
    spent = variant.spent
    more = more_in_all(base.spent, spent) if base else None
    return {
        "boards": amount(spent.boards),
        "cushions": amount(spent.cushions),
        "total": amount(spent.total),
        "complete": spent.complete,
        "without_price": [*spent.wood, *spent.kinds],
        "more": amount(more.exact) if more else None,
        "more_known": amount(more.cents) if more else None,
    }


def _boards(variant: Variant, base: Variant | None, unit: Unit) -> list[Document]:
    new = variant.bought
    old = base.bought if base else new
    kinds = [*new, *(kind for kind in old if kind not in new)]
    return [
        {"section": kind[0], "length": number(kind[1], unit), "count": new[kind], "more": new[kind] - old[kind]}
        for kind in kinds
    ]


def _parts(change: RoleChange, unit: Unit) -> Document:
    return {
        "role": str(change.role),
        "count": change.after,
        "more": change.after - change.before,
        "wood": number(change.wood_after, unit),
        "more_wood": number(change.wood_after - change.wood_before, unit),
        "resized": [
            {"count": each.count, "before": number(each.before, unit), "after": number(each.after, unit)}
            for each in change.resized
        ],
        "gone": [_sticks(count, stick, unit) for count, stick in change.gone],
        "come": [_sticks(count, stick, unit) for count, stick in change.come],
    }


def _sticks(count: int, stick: Stick, unit: Unit) -> Document:
    section, width, thickness, length = stick
    sizes = {"length": length, "width": width, "thickness": thickness}
    return {"count": count, "section": section, **{key: number(size, unit) for key, size in sizes.items()}}


def _growth(growth: Growth, unit: Unit) -> Document:
    mean = growth.mean_boards
    return {
        "run": str(growth.run),
        "pitch": number(growth.pitch, unit),
        "missing": list(growth.missing),
        "mean_boards": None if mean is None else plain(mean / 100),
        "steps": [_step(growth, step, unit) for step in growth.steps],
    }


def _step(growth: Growth, step: Step, unit: Unit) -> Document:
    return {
        "from": step.low,
        "to": step.high,
        "length": number(step.length, unit),
        "depth": number(step.depth, unit),
        "seats": step.seats,
        "seat_cushions": step.seat_cushions,
        "back_cushions": step.back_cushions,
        "posts": step.posts,
        "parts": [_wood(step, role, unit) for role in growth.roles],
        "boards": amount(step.boards.exact),
        "boards_known": amount(step.boards.cents),
        "cushions": amount(step.cushions.exact),
        "cushions_known": amount(step.cushions.cents),
    }


def _wood(step: Step, role: PartRole, unit: Unit) -> Document:
    wood = wood_of(step, role)
    return {"role": str(role), "count": wood.count, "wood": number(wood.length, unit)}
