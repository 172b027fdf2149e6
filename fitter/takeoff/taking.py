"""Everything to buy, group by group."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from difflib import get_close_matches

from fitter.domain.cuts import PlannedBoard
from fitter.domain.evidence import Source, Status
from fitter.domain.findings import Finding, Severity
from fitter.domain.layout import Layout
from fitter.domain.project import Project
from fitter.domain.surfaces import Touch
from fitter.domain.takeoff import Item, PriceList, Takeoff, item_key
from fitter.domain.woodwork import Woodwork
from fitter.takeoff.case import Case
from fitter.takeoff.finish import coats, exposed, gear, sanding
from fitter.takeoff.hardware import closing, fasteners, feet_sealant, glue, pockets
from fitter.takeoff.tools import tools
from fitter.takeoff.wood import board_name, boards, cushion_name, cushions

_HANDBOOK = Source("Wood Handbook (FPL-GTR-190), chapter 16", Status.VERIFIED)
_RAGS = Source("Wood Handbook (FPL-GTR-190), chapter 16; NFPA safety sheet on oily rags", Status.VERIFIED)
_VAPOUR = Source("OSHA 1910.134, NIOSH", Status.MEMORY)


def takeoff(
    project: Project,
    layout: Layout,
    woodwork: Woodwork,
    cut_from: Sequence[PlannedBoard],
    touching: Sequence[Touch],
    prices: PriceList | None = None,
) -> Takeoff:
    """Take off everything that a layout asks to be bought.

    Args:
        project: what was asked; its prices of boards and cushions come before those of the list.
        layout: whose cushions are bought.
        woodwork: its frame, with every joint.
        cut_from: boards of a plan; sections of which there is none are told by the length of their parts alone.
        touching: every two parts that touch, with what they share.
        prices: of everything else; None for none.
    """
    case = Case(project, layout, woodwork, tuple(cut_from), tuple(touching), prices or PriceList())
    area = exposed(case)
    sealant = feet_sealant(case)
    items = (
        *boards(case),
        *cushions(case),
        *fasteners(case),
        *_there(glue(case), sealant),
        *closing(case, sealant),
        *sanding(case, area.exposed),
        *coats(case, area.exposed),
        *gear(case),
    )
    findings = (*_unused(case, items), *_cautions(case))
    return Takeoff(items, tuple(tools(case)), area, len(pockets(case)), findings)


def _there(*items: Item | None) -> Iterator[Item]:
    yield from (item for item in items if item is not None)


def _unused(case: Case, items: Sequence[Item]) -> Iterator[Finding]:
    """Rows of the price list that price nothing here, and what was most likely meant."""
    names = {item_key(item.name): item for item in items}
    lacking = [key for key, item in names.items() if item.price is None]
    used = {*names, *_sold(case)}
    left = [(key, price) for key, price in case.prices.rows.items() if key not in used]
    others = 0
    for key, price in left:
        # Another size is no slip of the pen: a list may hold many.
        sized = [each for each in lacking if _numbers(each) == _numbers(key)]
        near = get_close_matches(key, sized, n=1, cutoff=0.85)
        if not near:
            others += 1
            continue
        message = f"`{price.item}` in {case.prices.file} is nothing on this list"
        help = f"did you mean `{names[near[0]].name}`, which has no price?"
        yield Finding("price-unused", message, place=price.place, help=help, severity=Severity.CAUTION)
    if others:
        message = f"{others} row{'s' * (others > 1)} of {case.prices.file} price{'s' * (others == 1)} nothing here"
        yield Finding("price-unused", message, severity=Severity.NOTE)


def _sold(case: Case) -> Iterator[str]:
    """What is weighed against others, bought or not: boards of the shop, and kinds of cushions."""
    for board in case.project.shop.boards:
        yield item_key(board_name(board.section, board.length, case.project.unit))
    yield from (item_key(cushion_name(cushion.name)) for cushion in case.project.cushions)


def _numbers(key: str) -> list[str]:
    return re.findall(r"[0-9]+", key)


def _cautions(case: Case) -> Iterator[Finding]:
    """What goes with finish."""
    said = case.supplies
    if said.stain > 1:
        message = "put the second coat of oil stain on 20 to 60 minutes after the first, before that has dried"
        yield Finding("stain-coats", message, source=_HANDBOOK.says, severity=Severity.NOTE)
    if said.varnish:
        message = "clear finish outdoors asks for a new coat after about a year, lightly pigmented finish after 2 to 3"
        yield Finding("finish-lasts", message, source=_HANDBOOK.says, severity=Severity.NOTE)
    if said.conditioner + said.stain + said.varnish:
        message = "work with solvents in moving air, with a respirator for organic vapour; a dust mask stops no vapour"
        yield Finding("vapour", message, source=_VAPOUR.says, severity=Severity.CAUTION)
        message = "oily rags can catch fire by themselves: never leave them in a pile"
        help = (
            "put them right after use into a metal can filled with water and close it, or spread them flat outdoors, "
            "away from buildings, until they are dry and stiff; ask locally how to get rid of them"
        )
        yield Finding("oily-rags", message, help=help, source=_RAGS.says, severity=Severity.CAUTION)
