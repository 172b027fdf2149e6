"""Whether what fills the room beyond the ends lies there, is as wide as can be, and keeps its limits.

A fill only ever adds ground to the footprint. What it strikes at one width it strikes at every greater one: walls,
clear ground, a door's leaf and the passages of a route are all met by a box that contains a box that meets them. So one
mark more is refused exactly where the widest is told, and whoever looks for that width may halve.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from shapely import LineString

from fitter.checking import places, room
from fitter.checking.case import HANDS, Case
from fitter.domain.fills import least_width, marks_to_stretch, most_width
from fitter.domain.findings import Finding
from fitter.domain.layout import Box, End, Fill, Side
from fitter.domain.requirements import obstacle_key
from fitter.domain.wishes import EndKind, FillKind, FillWish
from rooms.lengths import ZERO, Length

_KINDS = {
    FillWish.NONE: (),
    FillWish.EASE: (),
    FillWish.SHELF: (FillKind.SHELF,),
    FillWish.ARM: (FillKind.ARM,),
    FillWish.ANY: (FillKind.ARM, FillKind.SHELF),
}
"""What may be built for each wish; an arm stands at armed ends only."""


def stretched(case: Case) -> Iterator[Finding]:
    """Ease is stretched only where that is asked, of kinds in use, by marks, no more than each kind allows."""
    told = [stretch.cushion for stretch in case.layout.eased]
    kinds = {cushion.name: cushion for cushion in case.project.cushions}
    used = {module.cushion for module in case.layout.modules}
    if told and case.project.wish.fill not in (FillWish.EASE, FillWish.ANY):
        yield case.fault("ease", "ease is stretched, which is not asked", "wish.fill")
    if told != [name for name in kinds if name in told]:
        yield case.fault("ease", "kinds with more ease are not told once each, in the order of the file")
    for stretch in case.layout.eased:
        kind = kinds.get(stretch.cushion)
        most = case.mark * marks_to_stretch(case.project, kind) if kind and stretch.cushion in used else ZERO
        if not ZERO < stretch.more <= most or stretch.more.units % case.mark.units:
            message = f"the ease of {stretch.cushion} is told to grow by {case.tell(stretch.more)}, not up to "
            yield case.fault("ease", message + case.tell(most), "cushions")


def fills(case: Case) -> Iterator[Finding]:
    """Each end has what the wish asks for, in its place, within its limits and as wide as can be."""
    found = case.layout.fills
    if [fill.hand for fill in found] != [hand for hand in HANDS if case.layout.fill(hand)]:
        yield case.fault("fill", "what fills the ends is not told once each, the right hand first")
        return
    for hand in HANDS:
        end = next(end for end in case.layout.ends if end.hand is hand)
        fill = case.layout.fill(hand)
        before = tuple(each for each in found if HANDS.index(each.hand) < HANDS.index(hand))
        yield from _fill(case, end, fill, before)


def _fill(case: Case, end: End, fill: Fill | None, before: tuple[Fill, ...]) -> Iterator[Finding]:
    asked = case.project.wish.fill
    kinds = [kind for kind in _KINDS[asked] if kind is FillKind.SHELF or end.kind is EndKind.ARMED]
    where = f"the {end.hand} end"
    if fill is None:
        if kinds and stopped_by(case, beyond(case, end, case.mark), before) is None:
            yield case.fault("fill", f"at {where} there is room that nothing fills, and none is told", "wish.fill")
        return
    wide = _width(fill, end)
    if not kinds or fill.run is not end.run or fill.box != beyond(case, end, wide):
        message = f"{fill.kind} at {where} lies at {case.tell_box(fill.box)}; its place is beyond the end, if asked"
        yield case.fault("fill-place", message, "wish.fill")
        return
    kind, most = _right(case, end, kinds, fill)
    if fill.kind is not kind or not ZERO < wide <= most:
        message = f"a {fill.kind} of {case.tell(wide)} at {where} is no {kind} of at most {case.tell(most)}"
        yield case.fault("fill-width", message, "frame.fill")
        return
    if struck := stopped_by(case, fill.box, before):
        yield case.fault("fill-width", f"the {fill.kind} at {where} stands where nothing may: {struck}")
    stop = stopped_by(case, beyond(case, end, wide + case.mark), before)
    if fill.stop != (stop or "widest") or (stop is None and wide < most):
        message = f"the {fill.kind} at {where} is told to be stopped by {fill.stop}, a mark more by {stop or 'nothing'}"
        yield case.fault("fill-width", message)


def _right(case: Case, end: End, kinds: list[FillKind], fill: Fill) -> tuple[FillKind, Length]:
    """What belongs into a width that is told, and how wide that may be.

    An arm, where it is allowed, if that takes up all that is free; else a shelf; else an arm; else nothing.
    """
    run = next(run for run in case.layout.runs if run.side is end.run)
    wide = _width(fill, end)
    most = {kind: most_width(case.project, kind, run) for kind in kinds}
    least = {kind: least_width(case.project, kind) for kind in kinds}
    able = [kind for kind in kinds if least[kind] <= min(wide, most[kind])]
    if not able:
        return FillKind.GAP, max(*most.values(), *least.values())
    whole = [kind for kind in able if wide <= most[kind] and fill.stop != "widest"]
    best = whole[0] if whole else FillKind.SHELF if FillKind.SHELF in able else able[0]
    return best, most[best]


def _width(fill: Fill, end: End) -> Length:
    return fill.box.x1 - fill.box.x0 if end.run is Side.MAIN else fill.box.y1 - fill.box.y0


def beyond(case: Case, end: End, wide: Length) -> Box:
    """What stands beyond an end, as deep as the wood of the end: legs of an open one stand before the back line."""
    box = case.seen(places.end(case, end), end.hand)
    deep = case.back if end.kind is EndKind.OPEN else ZERO
    if case.layout.run(end.hand) is None:
        return case.seen(Box(box.x0 - wide, box.y0 + deep, box.x0, box.y1), end.hand)
    return case.seen(Box(box.x0 + deep, box.y1, box.x1, box.y1 + wide), end.hand)


def stopped_by(case: Case, box: Box, before: tuple[Fill, ...] = ()) -> str | None:
    """The first fact of the room that a box beyond an end would break.

    Args:
        case: a layout that breaks none itself.
        box: that is added to it.
        before: what fills other ends already.

    Returns:
        The id of its requirement; None where the box may stand there.
    """
    layout = case.layout
    bare = [each for each in layout.footprint if each not in [fill.box for fill in layout.built_fills]]
    fill = Fill(FillKind.SHELF, Side.MAIN, Side.RIGHT, box, "")
    told = (*(each for each in before if each.kind.built), fill)
    longer = replace(layout, footprint=(*bare, *(each.box for each in told)), fills=told)
    trial = Case(case.project, longer)
    for fact in (room.inside, room.apart, room.routes):
        for finding in fact(trial):
            return _named(case, finding, box)
    return None


def _named(case: Case, finding: Finding, box: Box) -> str:
    site = case.project.room
    names = {f"{obstacle_key(site, n)}.clear": f"obstacle:{thing.name}" for n, thing in enumerate(site.obstacles)}
    names |= {f"room.openings.{n}.swing": f"swing:{opening.name}" for n, opening in enumerate(site.openings)}
    names |= {f"room.routes.{n}.width": f"route:{route.name}" for n, route in enumerate(site.routes)}
    if finding.key in names:
        return names[finding.key]
    # Else it is the outline, and of that the edge that is met.
    thing = case.area(box)
    lines = [
        (LineString([(edge.start.x.units, edge.start.y.units), (edge.end.x.units, edge.end.y.units)]), edge.name)
        for edge in site.edges
    ]
    # Without a tolerance the wall behind may be touched as well: the nearer to the middle of the box is meant.
    near = [(round(line.distance(thing)), round(line.distance(thing.centroid)), n) for n, (line, _) in enumerate(lines)]
    return f"edge:{lines[min(near)[2]][1]}"
