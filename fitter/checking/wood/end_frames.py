"""Each end of the chain has all its parts: posts, legs and rails, or mitred pieces around it."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from fitter.checking.wood.built import Built, Way, sides
from fitter.checking.wood.solids import TINY, Floats, inches
from fitter.domain.findings import Finding
from fitter.domain.frame import EndPanel
from fitter.domain.layout import End
from fitter.domain.wishes import EndKind
from fitter.domain.woodwork import PartRole


def ends_complete(built: Built) -> Iterator[Finding]:
    """Each end reaches from its back to its front, from the feet to its top, with what its kind asks for."""
    for end in built.layout.ends:
        way = built.ways[end.run]
        yield from _rails_in_line(built, end)
        if end.kind is EndKind.OPEN:
            yield from _open(built, end, way)
        elif built.made.end_panel is EndPanel.MITRED:
            yield from _mitred(built, end, way)
        else:
            yield from _posts(built, end, way)


def _rails_in_line(built: Built, end: End) -> Iterator[Finding]:
    """Rails at the seat lie flush with the end's face toward its run, those above in the middle of its thickness."""
    way, deck = built.ways[end.run], inches(built.levels.deck)
    rails = _inside(built, end, PartRole.END_RAIL, PartRole.ARM_RAIL)
    seat = [number for number in rails if built.solids.part_high[number][2] <= deck + TINY]
    if not _at_the_run(built, end, seat):
        yield _fault(built, end, "has a rail away from its run,")
    posts = _reach(built, _inside(built, end, PartRole.ARM_POST), way.along)
    for number in rails:
        if number not in seat and abs(sum(_reach(built, [number], way.along)) - sum(posts)) > built.one_mark + TINY:
            yield _fault(built, end, "has a rail out of the middle of its posts,")


def _inside(built: Built, end: End, *roles: PartRole) -> list[int]:
    """Parts of some roles that stand in the plan of an end."""
    low, high = sides(end.box)
    middle = [(number, built.middle(number)[:2]) for number in built.of(*roles)]
    return [number for number, at in middle if (at > low - TINY).all() and (at < high + TINY).all()]


def _fault(built: Built, end: End, what: str) -> Finding:
    low, high = sides(end.box)
    spot = np.append((low + high) / 2, inches(built.levels.deck))
    return built.fault("end-incomplete", f"the {end.kind} end of the {end.run} run at the {end.hand} {what}", spot)


def _depths(built: Built, end: End) -> tuple[float, float]:
    """Where an end's back and front lie on the deep axis of its run, low first."""
    way = built.ways[end.run]
    low, high = sides(end.box)
    return float(low[way.deep]), float(high[way.deep])


def _reach(built: Built, numbers: list[int], axis: int) -> tuple[float, float]:
    low, high = built.solids.part_low[numbers][:, axis], built.solids.part_high[numbers][:, axis]
    return float(low.min(initial=np.inf)), float(high.max(initial=-np.inf))


def _spans(found: tuple[float, float], wanted: tuple[float, float]) -> bool:
    return abs(found[0] - wanted[0]) < TINY and abs(found[1] - wanted[1]) < TINY


def _mitred(built: Built, end: End, way: Way) -> Iterator[Finding]:
    """Four pieces around a rectangle; that each meets two others is told by their ends."""
    pieces = _inside(built, end, PartRole.ARM_PIECE)
    heights = inches(built.levels.foot), inches(built.levels.arm)
    if len(pieces) != 4:
        yield _fault(built, end, f"has {len(pieces)} mitred pieces, not 4,")
    elif not (
        _spans(_reach(built, pieces, way.deep), _depths(built, end)) and _spans(_reach(built, pieces, 2), heights)
    ):
        yield _fault(built, end, "does not reach from back to front and from the feet to the arm's top,")
    elif not _at_the_run(built, end, pieces):
        yield _fault(built, end, "does not lie against its run,")
    rails = _inside(built, end, PartRole.ARM_RAIL, PartRole.END_RAIL)
    if (np.abs(_tops(built, rails) - inches(built.levels.deck)) > TINY).any():
        yield _fault(built, end, "has a rail that is not level with the seat rails,")


def _face(built: Built, end: End, way: Way) -> float:
    """Where an end's face toward its run lies along it."""
    low, high = sides(end.box)
    run = next(run for run in built.layout.runs if run.side is end.run)
    beyond = low[way.along] >= sides(run.deck)[1][way.along] - TINY
    return float(low[way.along] if beyond else high[way.along])


def _at_the_run(built: Built, end: End, numbers: list[int]) -> bool:
    """Whether each of the parts begins where the run ends."""
    way = built.ways[end.run]
    face = _face(built, end, way)
    near = np.abs(built.solids.part_low[numbers][:, way.along] - face)
    far = np.abs(built.solids.part_high[numbers][:, way.along] - face)
    return bool((np.minimum(near, far) < TINY).all())


def _two(built: Built, end: End, way: Way, role: PartRole, top: float) -> Iterator[Finding]:
    """Two uprights of a role, one at the back of the end or of the deck, one at the front."""
    found = _inside(built, end, role)
    low, high = _depths(built, end)
    deck = {way.back, way.front}
    middles = built.solids.part_low[found]
    heights = inches(built.levels.foot), top
    if len(found) != 2:
        yield _fault(built, end, f"has {len(found)} of {role}, not 2,")
        return
    reach = _reach(built, found, way.deep)
    whole = all(min(abs(at - stop) for stop in (low, high, *deck)) < TINY for at in reach)
    if not whole or abs(reach[1] - reach[0]) < abs(way.front - way.back) - TINY or len(middles) != 2:
        yield _fault(built, end, f"has a {role} away from its back or front,")
    reaches = [_reach(built, [number], 2) for number in found]
    # On a floor that falls far it reaches lower; that it stands on a foot is told by its contacts.
    if not all(abs(up - heights[1]) < TINY and down < heights[0] + TINY for down, up in reaches):
        yield _fault(built, end, f"has a {role} that does not reach from the feet to its top,")
    if not _at_the_run(built, end, found):
        yield _fault(built, end, f"has a {role} away from its run,")


def _tops(built: Built, numbers: list[int]) -> Floats:
    return built.solids.part_high[numbers][:, 2]


def _rail_at(built: Built, end: End, roles: tuple[PartRole, ...], top: float, what: str) -> Iterator[Finding]:
    rails = _inside(built, end, *roles)
    if not (np.abs(_tops(built, rails) - top) < TINY).any():
        yield _fault(built, end, f"has no rail {what},")


def _posts(built: Built, end: End, way: Way) -> Iterator[Finding]:
    yield from _two(built, end, way, PartRole.ARM_POST, inches(built.levels.arm))
    roles = (PartRole.ARM_RAIL, PartRole.END_RAIL)
    yield from _rail_at(built, end, roles, inches(built.levels.arm), "at the arm's top")
    yield from _rail_at(built, end, roles, inches(built.levels.deck), "at the seat")


def _open(built: Built, end: End, way: Way) -> Iterator[Finding]:
    yield from _two(built, end, way, PartRole.LEG, inches(built.levels.deck))
    yield from _rail_at(built, end, (PartRole.END_RAIL, PartRole.ARM_RAIL), inches(built.levels.deck), "at the seat")
