"""A layout as entries of a JSON document: lengths in the unit of the file, coordinates of the room."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from fitter.domain.carried import carried_pieces
from fitter.domain.differences import differences
from fitter.domain.fixing import fixing_gaps
from fitter.domain.layout import Box, Layout, Module, Proof, Run, Side
from fitter.domain.notching import CutCushion, cut_cushions, notch_ring
from fitter.domain.outcome import FitResult, LayoutResult
from fitter.domain.project import Project
from fitter.report.board_costs import boards_entry
from fitter.report.fills import fill_entries
from fitter.report.setting import purchases
from fitter.report.shed import leftover_entries
from fitter.report.words import teller
from rooms.lengths import Length, Unit

_DECIMALS = 6

Document = dict[str, Any]
Outline = list[list[int | float]]


def number(length: Length | Fraction, unit: Unit) -> int | float:
    """A length in a unit: exact for whole shop marks of inches and millimetres, else to six decimals.

    Args:
        length: exact, or a coordinate in units of `rooms.lengths`.
        unit: of the file.

    >>> number(Length.inches("185/4"), Unit.IN), number(Length.millimetres(3810), Unit.MM)
    (46.25, 3810)
    """
    units = Fraction(length.units) if isinstance(length, Length) else length
    return plain(units / unit.one.units)


def plain(value: Fraction) -> int | float:
    """A number to six decimals; whole ones without a point, and no negative zero."""
    rounded = round(value, _DECIMALS)
    return rounded.numerator if rounded.denominator == 1 else float(rounded)


def proof_entry(proof: Proof) -> Document:
    """What is known of an objective."""
    return {"objective": str(proof.objective), "value": proof.value, "bound": proof.bound, "proven": proof.proven}


def layout_entry(project: Project, result: FitResult, shown: LayoutResult) -> Document:
    """A layout with its rank, its proofs and all its parts."""
    unit, layout, pose = project.unit, shown.layout, shown.layout.pose
    best = result.layouts[0].layout
    return {
        "rank": shown.rank,
        "outcome": str(shown.verdict),
        "shape": str(layout.shape),
        "hand": None if layout.hand is None else str(layout.hand),
        "seats": layout.seats,
        "corner": None if layout.corner is None else str(layout.corner),
        "turned": plain(Fraction(pose.turned)),
        "edge": pose.edge,
        "aligned": None if pose.edge is None else str(pose.aligned),
        "off_edge": number(layout.off_edge, unit),
        "along_edge": None if pose.edge is None else [number(length, unit) for length in layout.reach],
        "gaps": _gaps(project, layout),
        "differs": list(differences(project, best, layout, teller(unit))) if shown.rank > 1 else [],
        "gap": number(layout.gap, unit),
        "overhang": number(project.frame.overhang.ceil_to(project.mark), unit),
        **_seating(project, layout),
        **_timber(layout, unit),
        **_filled(layout, unit),
        **_carried(project, layout),
        "routes": [
            {
                "name": route.name,
                "asked": number(route.asked, unit),
                "clear": None if route.clear is None else number(route.clear, unit),
            }
            for route in layout.routes
        ],
        **_bought(project, layout),
        "boards": boards_entry(shown, unit),
        "proofs": [proof_entry(proof) for proof in shown.proofs],
    }


def _carried(project: Project, layout: Layout) -> Document:
    """Where the frame is split and the pieces that are carried; told where the file says what can be carried."""
    if project.frame.carry is None:
        return {}
    return {
        "splits": [{"run": str(split.run), "line": split.line} for split in layout.splits],
        "pieces": [
            {
                "run": str(piece.run),
                "first": piece.first,
                "last": piece.last,
                "corners": [str(arm) for arm in piece.corners],
                "length": number(piece.length, project.unit),
            }
            for piece in carried_pieces(layout)
        ],
    }


def _gaps(project: Project, layout: Layout) -> list[Document]:
    """Of free standing furniture: how far outer corners are from the nearest edges."""
    gaps = fixing_gaps(project.room, layout) if layout.pose.edge is None else ()
    return [
        {"corner": gap.corner, "edge": gap.edge, "distance": number(gap.length.round_to(project.mark), project.unit)}
        for gap in gaps
    ]


def _filled(layout: Layout, unit: Unit) -> Document:
    """What fills the room that is left; told where anything does."""
    if not (layout.fills or layout.eased):
        return {}
    return fill_entries(layout, lambda length: number(length, unit), lambda box: _outline(layout, unit, box))


def _bought(project: Project, layout: Layout) -> Document:
    rows = [
        ({"cushion": row.cushion, "used": row.used, "own": row.own, "buy": row.buy}, row.cost)
        for row in purchases(project, layout)
    ]
    return {
        "purchases": [row for row, _ in rows],
        "cushions": [{**row, "cost": None if cost is None else plain(cost)} for row, cost in rows],
        "leftovers": leftover_entries(project, layout),
    }


def _outline(layout: Layout, unit: Unit, box: Box) -> Outline:
    return _ring(layout, unit, box.corners)


def _ring(layout: Layout, unit: Unit, spots: Sequence[tuple[Length, Length]]) -> Outline:
    """Points of the layout frame in the room frame."""
    return [[number(x, unit), number(y, unit)] for x, y in (layout.pose.to_room(*spot) for spot in spots)]


def _seating(project: Project, layout: Layout) -> Document:
    unit = project.unit
    cuts: dict[Side | None, CutCushion] = {cut.corner: cut for cut in cut_cushions(layout, project.cushions)}
    return {
        "runs": [_run(layout, run, unit) for run in layout.runs],
        "corners": [_corner(layout, module, cuts.get(module.corner), unit) for module in layout.corners],
        "modules": [
            {
                "run": str(module.run),
                "place": module.place,
                "corner": None if module.corner is None else str(module.corner),
                "cushion": module.cushion,
                "turned": module.turned,
                "seats": module.seats,
                "outline": _outline(layout, unit, module.box),
                "notch": None if module.notch is None else _ring(layout, unit, notch_ring(module.notch)),
                "cover": _outline(layout, unit, module.cover or module.box),
            }
            for module in layout.modules
        ],
    }


def _run(layout: Layout, run: Run, unit: Unit) -> Document:
    return {
        "run": str(run.side),
        "cushion": run.cushion,
        "turned": run.turned,
        "count": run.count,
        "pitch": number(run.pitch, unit),
        "length": number(run.pitch * run.count, unit),
        "outline": _outline(layout, unit, run.deck),
        "back": _outline(layout, unit, run.back),
        "legroom": _outline(layout, unit, run.legroom),
    }


def _corner(layout: Layout, module: Module, cut: CutCushion | None, unit: Unit) -> Document:
    """A corner place; sizes are along the main run, then across it; `uncovered` includes the gap behind the cushion."""
    notch = module.notch
    return {
        "corner": str(module.corner),
        "owner": str(module.run),
        "treatment": str(layout.corner),
        "cushion": module.cushion,
        "turned": module.turned,
        "outline": _outline(layout, unit, module.box),
        "notch": None if notch is None else [number(notch.along_x, unit), number(notch.along_y, unit)],
        "cut": None if cut is None else _cut(cut, unit),
        "uncovered": [
            {
                "size": [number(bare.x1 - bare.x0, unit), number(bare.y1 - bare.y0, unit)],
                "outline": _outline(layout, unit, bare),
            }
            for bare in module.bare
        ],
    }


def _cut(cut: CutCushion, unit: Unit) -> Document:
    """What is cut from a cushion; `area` in squares of the unit of the file, `volume` in its cubes."""
    one = unit.one.units
    return {
        "depth": None if cut.depth is None else number(cut.depth, unit),
        "area": plain(Fraction(cut.area, one**2)),
        "volume": plain(Fraction(cut.volume, one**3)),
        "sides": [str(side) for side in cut.sides],
        "zip": None if cut.cushion.zip is None else str(cut.cushion.zip),
        "zip_cut": cut.zip_cut,
        "zip_faces": None if cut.beside is None else str(cut.beside),
        "keeps_zip": [{"turn": str(way.turn), "zip_faces": str(way.beside)} for way in cut.keeps],
    }


def _timber(layout: Layout, unit: Unit) -> Document:
    return {
        "ends": [
            {
                "run": str(end.run),
                "hand": str(end.hand),
                "kind": str(end.kind),
                "outline": _outline(layout, unit, end.box),
            }
            for end in layout.ends
        ],
        "footprint": [_outline(layout, unit, box) for box in layout.footprint],
        "posts": [
            {
                "role": str(post.role),
                "run": str(post.run),
                "face": str(post.face),
                "line": post.line,
                "outline": _outline(layout, unit, post.box),
            }
            for post in layout.posts
        ],
        "rails": [
            {
                "run": str(rail.run),
                "face": str(rail.face),
                "bay": rail.bay,
                "length": number(rail.length, unit),
                "outline": _outline(layout, unit, rail.box),
            }
            for rail in layout.rails
        ],
    }
