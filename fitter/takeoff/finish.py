"""Sandpaper and finish for what is seen of the wood, and what goes with them."""

from __future__ import annotations

from collections.abc import Iterator

from fitter.domain.evidence import Source, Status
from fitter.domain.surfaces import square_feet, surface
from fitter.domain.takeoff import Area, Group, Item, Measure, Span, pieces
from fitter.takeoff.case import CAN, Case
from fitter.takeoff.coverage import CONDITIONER, FEET_A_METRE, ROUGH_STAIN, STAIN, VARNISH

SHEET = (20, 40)
"""Square feet that a sheet of sandpaper does before it is worn: common practice."""
WET_RAGS = 2
"""For each coat that is wiped: common practice."""
_PRACTICE = Source("", Status.PRACTICE).says
_MEMORY = Source("OSHA 1910.134, NIOSH", Status.MEMORY).says
_HANDBOOK = Source("Wood Handbook (FPL-GTR-190), chapter 16; NFPA on oily rags", Status.VERIFIED).says


def exposed(case: Case) -> Area:
    """All faces of all parts, less those that touch other parts."""
    whole = sum(surface(part) for part in case.woodwork.parts)
    return Area(whole, 2 * sum(touch.area for touch in case.touching))


def sanding(case: Case, area: int) -> Iterator[Item]:
    """Sandpaper, coarse to fine."""
    grits = [("80", 1, "to take off what the mill left"), ("120", 1, "before the finish")]
    between = case.supplies.varnish - 1
    if between > 0:
        grits.append(("220", between, "between coats of varnish"))
    for grit, times, why in grits:
        needed = square_feet(area) * times
        span = Span(needed / SHEET[1], needed / SHEET[0])
        says = f"{why}; a sheet of {_sheet(case)} does {_reach(case, *SHEET)}" if grit == grits[0][0] else why
        name = f"sandpaper {grit} grit"
        yield case.priced(Item(Group.FINISH, name, span, pack=pieces(1), says=says, source=_PRACTICE))


def _sheet(case: Case) -> str:
    return "9 x 11 in" if case.project.unit.imperial else "230 x 280 mm"


def _reach(case: Case, least: int, most: int) -> str:
    """Square feet in the system of the file."""
    if case.project.unit.imperial:
        return f"{least} to {most} sq ft"
    low, high = (float(feet / FEET_A_METRE) for feet in (least, most))
    return f"{low:.1f} to {high:.1f} m²"


def coats(case: Case, area: int) -> Iterator[Item]:
    """Conditioner, stain and varnish, each as far as the file wants coats of it."""
    said = case.supplies
    for name, number, coverage in (
        ("conditioner", said.conditioner, CONDITIONER),
        ("stain", said.stain, ROUGH_STAIN if said.rough else STAIN),
        ("varnish", said.varnish, VARNISH),
    ):
        if number:
            says = f"{number} coat{'s' * (number > 1)}, {coverage.told(case.project.unit)}"
            needed = coverage.amount(area, number)
            pack = case.can(CAN, needed.most)
            item = Item(Group.FINISH, name, needed, Measure.VOLUME, pack, says=says, source=coverage.source.says)
            yield case.priced(item)


def gear(case: Case) -> Iterator[Item]:
    """Rags, and what protects the maker; whoever has them already need not buy them."""
    said = case.supplies
    wiped, wet = said.conditioner + said.stain, said.conditioner + said.stain + said.varnish
    rows = [
        ("safety glasses", 1, "for sawing, boring and sanding", _PRACTICE),
        ("ear muffs", 1, "for sawing and sanding", _PRACTICE),
        ("dust mask N95 or FFP2", 2, "for sawing and sanding; it does not stop vapour", _MEMORY),
    ]
    if wiped:
        rows.append(("rag without lint", WET_RAGS * wiped, f"{WET_RAGS} for each coat that is wiped", _PRACTICE))
        rows.append(("metal can with tight lid", 1, "filled with water, for oily rags right after use", _HANDBOOK))
    if wet:
        rows.append(("nitrile gloves", wet, "a pair for each coat", _PRACTICE))
        why = "half mask with cartridges, for finish with solvents; open doors and windows too"
        rows.append(("organic vapour respirator", 1, why, _MEMORY))
    for name, count, says, source in rows:
        yield case.counted(Group.GEAR, name, count, says=says, source=source)
