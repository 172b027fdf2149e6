"""Tools, with what the cuts, holes and joints of a frame ask of them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import isqrt

from fitter.domain.drilling import Bore, drill, told_drill
from fitter.domain.evidence import Source, Status
from fitter.domain.takeoff import Tool
from fitter.domain.woodwork import EndCut, Fixing, Part, PartRole, Slant
from fitter.takeoff.case import Case
from fitter.takeoff.hardware import pockets, told_bore
from rooms.lengths import Length

WRENCHES = {'5/16"': '1/2"', '3/8"': '9/16"', "M8": "13 mm", "M10": "17 mm (16 mm by newer standards)"}
"""Across the flats of a nut: from memory."""
_MEMORY = Source("", Status.MEMORY).says
_PRACTICE = Source("", Status.PRACTICE).says


def tools(case: Case) -> Iterator[Tool]:
    """What is measured, sawn, bored, driven, held and finished with."""
    yield Tool("tape measure, square, pencil", says="every cut is marked and checked before it is sawn")
    yield from saws(case)
    yield from _cutters(case)
    yield from drills(case)
    yield from _clamps(case)
    yield Tool("sander or sanding block", says="with the grain")
    if case.supplies.conditioner + case.supplies.stain + case.supplies.varnish:
        brush = '3" wide' if case.project.unit.imperial else "75 mm wide"
        yield Tool("brush", brush, "for oil, as the finish names it; one for each kind", _PRACTICE)


def saws(case: Case) -> Iterator[Tool]:
    """How deep a saw must cut, square and at each angle, for the thickest part that is cut so."""
    parts = case.woodwork.parts
    thick = max(part.thickness for part in parts)
    half = Length(-(-thick.units // 2)).ceil_to(case.project.mark)
    yield Tool(
        "saw, cutting square",
        "; ".join(f"{case.cut(deep)} deep and {case.cut(wide)} wide" for deep, wide in capacities(parts)),
        f"as boards lie flat; one that reaches {case.cut(half)} deep will do for the thickest from both sides",
    )
    for slant in Slant:
        cuts = [(part, cut) for part in parts for cut in part.cuts if not cut.square and cut.over is slant]
        if cuts:
            yield _mitre(case, slant, cuts)


def capacities(parts: Sequence[Part]) -> list[tuple[Length, Length]]:
    """Thickness and width of parts, thick ones first, without those that are no larger than another in both."""
    found: list[tuple[Length, Length]] = []
    for thick, wide in sorted({(part.thickness, part.width) for part in parts}, reverse=True):
        if not found or wide > found[-1][1]:
            found.append((thick, wide))
    return found


def _mitre(case: Case, slant: Slant, cuts: list[tuple[Part, EndCut]]) -> Tool:
    """A cut that leaves the square by a recess r over a side s is √(r² + s²) long."""
    long = max(slanted(part, cut) for part, cut in cuts).ceil_to(case.project.mark)
    marks = ", ".join(dict.fromkeys(part.mark for part, _ in cuts))
    if slant is Slant.THICKNESS:
        return Tool(
            "saw, blade tilted", f"{case.cut(long)} deep along the tilted blade", f"mitres over the thickness: {marks}"
        )
    thick = max(part.thickness for part, _ in cuts)
    needs = f"{case.cut(thick)} deep, {case.cut(long)} along the cut"
    square = [part for part, _ in cuts if part.width == part.thickness]
    says = f"mitres over the width: {marks}"
    if square:
        says += f"; with the blade tilted in place of the saw turned, {case.cut(long)} deep"
    return Tool("saw, turned", needs, says)


def slanted(part: Part, cut: EndCut) -> Length:
    """How long a slanted cut is, rounded up to the unit; at 45° the side times √2.

    >>> Length(isqrt(2 * Length.inches("7/2").units ** 2)).round_to(Length.inches("1/64")).inch
    Fraction(317, 64)
    """
    side = part.width if cut.over is Slant.WIDTH else part.thickness
    square = side.units**2 + cut.recess.units**2
    root = isqrt(square)
    return Length(root + (root * root < square))


def _cutters(case: Case) -> Iterator[Tool]:
    """For what no crosscut does: ripping, and housings."""
    ripped = [part for part in case.woodwork.parts if part.width < part.section.width - case.project.mark]
    if ripped:
        thick = max(part.thickness for part in ripped)
        marks = ", ".join(dict.fromkeys(part.mark for part in ripped))
        yield Tool("saw, with a rip fence or guide", f"{case.cut(thick)} deep", f"parts made narrower: {marks}")
    housed = [housing for part in case.woodwork.parts for housing in part.housings]
    if housed:
        deep = max(min(one.b1 - one.b0, one.c1 - one.c0) for one in housed)
        yield Tool("chisel and mallet, or router", f"{case.cut(deep)} deep", f"{len(housed)} housings")


def drills(case: Case) -> Iterator[Tool]:
    """Drill, bits, and what drives screws and turns nuts."""
    held = [each for joint in case.woodwork.joints for each in joint.fasteners]
    if not held:
        return
    yield Tool("drill and driver", says="with bits for the heads of the screws")
    bits: dict[Bore, dict[Length, None]] = {}
    for each in held:
        bolt = each.kind is Fixing.BOLT
        if each.kind not in (Fixing.NAIL, Fixing.POCKET_SCREW):
            bore = Bore.BOLT if bolt else Bore.CLEARANCE
            bits.setdefault(bore, {})[drill(each, bore, case.project.unit)] = None
        if each.pilot and not bolt:
            bits.setdefault(Bore.PILOT, {})[drill(each, Bore.PILOT, case.project.unit)] = None
    says = {Bore.PILOT: "pilot holes", Bore.CLEARANCE: "holes that screws slip through", Bore.BOLT: "holes for bolts"}
    for bore in (Bore.PILOT, Bore.CLEARANCE, Bore.BOLT):
        if bore in bits:
            sizes = ", ".join(told_drill(size, case.project.unit) for size in sorted(bits[bore]))
            long = f", {case.cut(_longest(case))} long at least" if bore is Bore.BOLT else ""
            yield Tool("drill bits", sizes + long, says[bore])
    if any(each.countersunk for each in held):
        yield Tool("countersink bit", says="for heads that are let in")
    yield from _pocket_tools(case)
    if any(each.kind is Fixing.NAIL for each in held):
        yield Tool("hammer", says="for nails")
    for size in sorted({each.size for each in held if each.kind is Fixing.BOLT}):
        yield Tool("wrench", WRENCHES.get(size, f"for nuts {size}"), f"for nuts {size}", _MEMORY)


def _longest(case: Case) -> Length:
    """The longest bolt: its hole goes through both parts."""
    bolts = [each for joint in case.woodwork.joints for each in joint.fasteners if each.kind is Fixing.BOLT]
    return max(each.length for each in bolts)


def _pocket_tools(case: Case) -> Iterator[Tool]:
    screws = pockets(case)
    if screws:
        parts = [case.woodwork.parts[screw.through] for screw in screws]
        stocks = ", ".join(case.cut(size) for size in sorted({min(part.width, part.thickness) for part in parts}))
        yield Tool("pocket-hole guide", f"for stock {stocks} thick", f"{len(screws)} pockets at 15°", _PRACTICE)
        yield Tool("stepped drill bit with a stop collar", told_bore(case.project.unit), "for pockets")
        yield Tool("long driver bit", '6"' if case.project.unit.imperial else "150 mm", "for pockets", _PRACTICE)


def _clamps(case: Case) -> Iterator[Tool]:
    """As many as hold one joint from both sides while it is fastened; frames of mitres take their whole width."""
    pieces = [part.length for part in case.woodwork.parts if part.role is PartRole.ARM_PIECE]
    if pieces:
        yield Tool("bar clamps, 4", f"opening {case.cut(max(pieces))}", "around a mitred end panel", _PRACTICE)
    thick = max(part.thickness for part in case.woodwork.parts)
    across = max((part.width for part in case.woodwork.parts), default=thick)
    yield Tool("clamps, 2", f"opening {case.cut(across + thick)}", "to hold parts while they are fastened", _PRACTICE)
