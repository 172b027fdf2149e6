"""Finding a place for every fastener of a joint: in wood all the way, and clear of all others."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from fitter.domain.woodwork import Fastener, Fixing
from fitter.frame.angled import mitres, pockets
from fitter.frame.bodies import Floats
from fitter.frame.clearance import Bar, Taken
from fitter.frame.patterns import How, Meeting, Pattern
from fitter.frame.spots import Drive, Places, Shop, Task
from fitter.frame.straight import straight
from rooms.lengths import Length

NEAR = 15
"""Diameters to an end within which a hole is bored first: NDS commentary, Table C12.1.6.6, from memory."""
_LONGEST = Length.inches(4)
"""Part that the longest screws sold go through, where bolts have no room for their nuts."""
_MAKERS = {
    How.STRAIGHT: straight,
    How.STAGGERED: straight,
    How.BOLTS: straight,
    How.POCKET: pockets,
    How.MITRE: mitres,
}


def drive(task: Task, shop: Shop, taken: Taken) -> tuple[list[Fastener], int]:
    """Place the fasteners of a joint and take up their places.

    Args:
        task: what is to be fastened, and how.
        shop: what is the same for all joints.
        taken: by fasteners placed before; those placed here are added.

    Returns:
        The fasteners for which there is a place, and how many were wanted.
    """
    best: list[Drive] = []
    wanted = 0
    for attempt in _attempts(task):
        places = _MAKERS[attempt.pattern.how](attempt, shop)
        found, number = _placed(places, taken), len(places[0])
        wanted = wanted or number
        if len(found) > len(best) and (len(found) == number or attempt.pattern.how is not How.BOLTS):
            best = found
        if best and len(best) == number:
            break
    for one in best:
        for bar in one.bars:
            taken.add(bar)
    return [_exact(one, task.meeting, shop) for one in best], wanted


def _attempts(task: Task) -> Iterator[Task]:
    """The pattern itself, then what is done where it does not fit.

    Slimmer and shorter ones; then screws for bolts; where they cannot go straight, screws at an angle, or the longest.
    """
    yield task
    how, fixing = task.pattern.how, task.pattern.fixing
    if how not in (How.POCKET, How.MITRE):
        yield replace(task, slim=True)
    if how is How.BOLTS:
        yield replace(task, pattern=Pattern(How.STRAIGHT, thickest=_LONGEST))
    if how in (How.BOLTS, How.STRAIGHT) and fixing is not Fixing.NAIL:
        yield replace(task, pattern=Pattern(How.POCKET, Fixing.POCKET_SCREW))
        yield replace(task, pattern=Pattern(How.STRAIGHT, thickest=_LONGEST))


def _placed(places: Places, taken: Taken) -> list[Drive]:
    """Each at the first of its spots that is free; under another part only where there is no other."""
    found: list[Drive] = []
    own: list[Bar] = []
    rows, make = places
    for spots in rows:
        drives = (make(spot, lenient) for lenient in (False, True) for spot in spots)
        one = next((drive for drive in drives if drive and _free(drive.bars, own, taken)), None)
        if one:
            found.append(one)
            own += one.bars
    return found


def _free(bars: tuple[Bar, ...], own: list[Bar], taken: Taken) -> bool:
    """Whether all keep clear of those of the same joint, and of those placed before."""
    return all(bar.clear_of(other) for bar in bars for other in own) and all(taken.free(bar) for bar in bars)


def _exact(one: Drive, meeting: Meeting, shop: Shop) -> Fastener:
    held, into = meeting.held, meeting.into
    kind = one.size.kind
    near = _near_end(one, meeting)
    return Fastener(
        kind=kind,
        size=one.size.name,
        diameter=one.size.diameter,
        length=one.length,
        head=held.part.at(*one.head),
        tip=held.part.at(*one.tip),
        through=held.number,
        into=into.number,
        pilot=shop.pilot(one.size, near_end=near),
        countersunk=kind is Fixing.SCREW,
    )


def _near_end(one: Drive, meeting: Meeting) -> bool:
    """Whether it goes in close to an end of either part, where wood splits."""
    close = NEAR * one.size.shank
    held, into = meeting.held, meeting.into
    tip: Floats = (float(one.tip[0]), float(one.tip[1]), float(one.tip[2]))
    spots = ((float(one.head[0]), held.size[0]), (into.local(held.world(tip))[0], into.size[0]))
    return any(min(along, length - along) < close for along, length in spots)
