"""A frame as a JSON document: lengths in the unit of the file, coordinates of the room with z up."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from fitter.domain.layout import Pose, Verdict
from fitter.domain.outcome import FrameResult
from fitter.domain.project import Project
from fitter.domain.woodwork import EndCut, Fastener, Housing, Joint, Levels, Number, Part, Slant, Vector, Woodwork
from fitter.report.document import finding_entry, fit_document
from fitter.report.entries import Document, layout_entry, number, plain, proof_entry
from fitter.report.parts.batches import (
    Batch,
    batches,
    board_feet,
    cubic_metres,
    feet,
    hardware,
    pieces,
    running_lengths,
    unmeasured,
    volume,
)
from fitter.report.parts.holes import Hole, holes
from fitter.report.parts.rows import angle
from fitter.report.parts.sides import end_name, long_side, thickness_side, width_side
from fitter.report.parts.weight import density, weight, weight_unit
from rooms.lengths import Length


def parts_document(project: Project, framed: FrameResult) -> Document:
    """A frame with the layout that it carries; its parts only if the proof accepts them.

    Args:
        project: what was asked.
        framed: what came out.

    Returns:
        Keys are added over time, never renamed. `layouts` holds the one layout that is framed.
    """
    document = fit_document(project, replace(framed.fit, layouts=()))
    if framed.shown and framed.fit.verdict is not Verdict.FAULT:
        document["layouts"] = [layout_entry(project, framed.fit, framed.shown)]
        document["proofs"] = [proof_entry(proof) for proof in framed.shown.proofs]
        document["bounds"] = []
    findings = document.pop("findings")
    errors = document.pop("errors", [])
    document["outcome"] = str(framed.verdict)
    woodwork = framed.woodwork if framed.woodwork and not framed.checked else None
    if framed.shown and woodwork:
        document |= _Entries(project, framed.shown.layout.pose, woodwork).whole()
        findings += [finding_entry(finding, project.file) for finding in woodwork.findings]
    else:
        document |= {"parts": [], "solids": []}
        errors += [finding_entry(finding, project.file) for finding in framed.checked]
        if not framed.shown and framed.fit.layouts:
            message = f"there is no layout of rank {framed.rank}, only {len(framed.fit.layouts)}"
            errors.append({"code": "no-such-layout", "message": message})
    return {**document, "findings": findings, **({"errors": errors} if errors else {})}


class _Entries:
    """Makes entries of the parts of one frame."""

    def __init__(self, project: Project, pose: Pose, woodwork: Woodwork) -> None:
        self._project, self._pose, self._woodwork = project, pose, woodwork
        self._unit = project.unit
        self._holes = holes(woodwork, project.unit)

    def whole(self) -> Document:
        work = self._woodwork
        return {
            "levels": self._levels(work.levels),
            "fall": self._number(work.fall),
            "parts": [self._batch(batch) for batch in batches(work)],
            "solids": [self._solid(part) for part in work.parts],
            "joints": [self._joint(joint) for joint in work.joints],
            "spreads": [self._spread(n) for n in range(len(work.spreads))],
            "feet": [
                {
                    "mark": foot.part.mark,
                    "run": str(foot.part.run),
                    "place": foot.part.place,
                    "height": self._number(foot.height),
                    "under": foot.under.mark if foot.under else None,
                }
                for foot in feet(work)
            ],
            "to_measure": [
                {
                    "section": section.name,
                    "thickness": self._number(section.thickness),
                    "width": self._number(section.width),
                    "roles": [str(role) for role in roles],
                }
                for section, roles in unmeasured(work)
            ],
            "pieces": self._pieces(),
            "totals": self._totals(),
            "proof": {
                "passed": True,
                "solids": len(work.parts),
                "contacts": len(work.joints),
                "fasteners": sum(len(joint.fasteners) for joint in work.joints),
            },
        }

    def _number(self, length: Length) -> int | float:
        return number(length, self._unit)

    def _levels(self, at: Levels) -> Document:
        names = ("foot", "rail_bottom", "deck", "seat", "sat_on", "arm", "back_bottom", "back_top", "table")
        return {name: self._number(getattr(at, name)) for name in names}

    def _batch(self, batch: Batch) -> Document:
        part = batch.first
        return {
            "mark": batch.mark,
            "role": str(part.role),
            "run": str(part.run),
            "section": part.section.name,
            "length": self._number(part.length),
            "short": self._number(part.short),
            "width": self._number(part.width),
            "thickness": self._number(part.thickness),
            "count": batch.count,
            "ends": [self._end(part, which, cut) for which, cut in enumerate(part.cuts)],
            "housings": [self._housing(housing) for housing in part.housings],
            "sides": {
                "width": [width_side(part, high=False), width_side(part, high=True)],
                "thickness": [thickness_side(part, high=False), thickness_side(part, high=True)],
            },
            "holes": [self._hole(part, hole) for hole in self._holes[batch.numbers[0]]],
            "shows": part.shows,
            "places": [each.place for each in batch.parts],
            "volume": self._volume(part.volume),
            "weight": plain(round(weight(self._project, part.volume), 2)),
            "solids": list(batch.numbers),
        }

    def _end(self, part: Part, which: int, cut: EndCut) -> Document:
        entry: Document = {"end": end_name(part, which), "cut": "square" if cut.square else "mitre"}
        return {
            **entry,
            "angle": plain(Fraction(round(angle(part, cut), 4))),
            "over": None if cut.square else "width" if cut.over is Slant.WIDTH else "thickness",
            "recess": self._number(cut.recess),
            "long_side": None if cut.square else long_side(part, cut),
        }

    def _housing(self, housing: Housing) -> Document:
        pairs = {
            "along": (housing.a0, housing.a1),
            "width": (housing.b0, housing.b1),
            "thickness": (housing.c0, housing.c1),
        }
        return {name: [self._number(low), self._number(high)] for name, (low, high) in pairs.items()}

    def _hole(self, part: Part, hole: Hole) -> Document:
        from_end, across, through = (self._number(length) for length in hole.spot)
        return {
            "kind": str(hole.bore),
            "size": hole.size,
            "face": hole.face,
            "from_end": from_end,
            "across": across,
            "in_thickness": through,
            "diameter": self._number(hole.drill),
            "depth": self._number(hole.depth),
            "through": hole.through,
            "countersunk": hole.countersunk,
        }

    def _solid(self, part: Part) -> Document:
        vertices, faces = part.mesh
        return {
            "mark": part.mark,
            "role": str(part.role),
            "run": str(part.run),
            "place": part.place,
            "piece": part.piece,
            "vertices": [self._spot(vertex) for vertex in vertices],
            "faces": [list(face) for face in faces],
        }

    def _spot(self, point: Vector) -> list[int | float]:
        return [self._coordinate(each) for each in in_room(self._pose, point)]

    def _coordinate(self, units: Number) -> int | float:
        return number(Fraction(units), self._unit)

    def _joint(self, joint: Joint) -> Document:
        parts = [self._woodwork.parts[index] for index in joint.parts]
        return {
            "parts": [part.mark for part in parts],
            "solids": list(joint.parts),
            "glued": joint.glued,
            "housed": joint.housed,
            "says": joint.says,
            "fasteners": [self._fastener(each) for each in joint.fasteners],
        }

    def _fastener(self, each: Fastener) -> Document:
        return {
            "kind": str(each.kind),
            "size": each.size,
            "length": self._number(each.length),
            "diameter": number(Fraction(each.diameter), self._unit),
            "pilot": number(Fraction(each.pilot), self._unit),
            "countersunk": each.countersunk,
            "head": self._spot(each.head),
            "tip": self._spot(each.tip),
            "through": each.through,
            "into": each.into,
        }

    def _spread(self, which: int) -> Document:
        spread = self._woodwork.spreads[which]
        return {
            "run": str(spread.run),
            "role": str(spread.role),
            "place": spread.place,
            "space": self._number(spread.space),
            "slat": self._number(spread.slat),
            "count": spread.count,
            "gaps": [self._number(gap) for gap in spread.gaps],
            "limit": self._number(spread.limit),
            "says": spread.says,
        }

    def _pieces(self) -> list[Document]:
        carry = self._project.frame.carry
        return [
            {
                "piece": piece.number,
                "parts": len(piece.parts),
                "size": [self._number(side) for side in piece.sides],
                "weight": plain(round(weight(self._project, volume(piece.parts)), 1)),
                "passes": None if carry is None else not (piece.too_wide(carry) or piece.too_long(carry)),
            }
            for piece in pieces(self._woodwork)
        ]

    def _totals(self) -> Document:
        work, unit = self._woodwork, self._unit
        cubic = volume(work.parts)
        return {
            "pieces": len(work.parts),
            "marks": len(batches(work)),
            "sections": [
                {"section": section.name, "count": count, "length": self._number(length)}
                for section, count, length in running_lengths(work.parts)
            ],
            "fasteners": [
                {"kind": str(kind), "size": size, "length": self._number(length), "count": len(those)}
                for (kind, size, length), those in hardware(work).items()
            ],
            "volume": self._volume(cubic),
            "board_feet": plain(round(board_feet(cubic), 3)) if unit.imperial else None,
            "cubic_metres": plain(round(cubic_metres(cubic), 6)),
            "weight": plain(round(weight(self._project, cubic), 1)),
            "weight_unit": weight_unit(unit),
            "density_kg_m3": plain(density(self._project)),
            "species": self._project.frame.carpentry.species,
        }

    def _volume(self, cubic: Fraction) -> int | float:
        """In cubic units of the file; to nine decimals, as a small part in cubic metres needs."""
        value = round(cubic / self._unit.one.units**3, 9)
        return value.numerator if value.denominator == 1 else float(value)


def in_room(pose: Pose, point: Vector) -> Vector:
    """A point of the layout frame in the room frame, in units, exactly; z stays as it is."""
    x, y, z = point
    return (
        pose.origin.x.units + pose.cos * x - pose.sin * y,
        pose.origin.y.units + pose.sin * x + pose.cos * y,
        z,
    )


__all__ = ["in_room", "parts_document"]
