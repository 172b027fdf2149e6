"""Seats near an edge that somebody may fall over: railings that are climbed from a seat, drops, and steps."""

from __future__ import annotations

from collections.abc import Iterator

from fitter.checking.clearances.held import Held, line_of
from fitter.domain.benchmarks import CLIMB, GUARD_DROP, GUARD_HEIGHT, STEP
from fitter.domain.findings import Finding
from fitter.domain.layout import Box, Run, Side
from fitter.domain.levels import derived
from rooms.lengths import ZERO, Length
from rooms.room import Edge, EdgeKind


def railings(held: Held) -> Iterator[Finding]:
    """Seats, or their backs, so near to a railing that it is climbed from them."""
    seat = _seat_top(held)
    for edge in held.project.room.edges:
        if edge.kind is not EdgeKind.RAILING or (edge.drop is not None and edge.drop <= held.size(GUARD_DROP)):
            continue
        near, wanted = held.near(line_of(edge)), (seat + held.size(CLIMB)).ceil_to(held.project.mark)
        if held.short(near, CLIMB) and (edge.railing is None or edge.railing < wanted):
            yield _climbed(held, edge, near, seat, wanted)


def _climbed(held: Held, edge: Edge, near: Length, seat: Length, wanted: Length) -> Finding:
    where = f"come as near as {held.tell(near)} to" if near > held.project.mark else "stand at"
    message = f"the seats {where} railing {edge.name}, and a child climbs from them"
    asked, top = held.asked(CLIMB), held.tell(wanted)
    if edge.railing is not None:
        over = edge.railing - seat
        message += f"; it ends {held.tell(over)} above the seat" if over > ZERO else "; it ends no higher than the seat"
        help = f"raise it to {top} above the floor ({asked} above the seat), or keep the seats {asked} away"
        return held.missed(CLIMB, "seat-near-railing", message, f"room.railings.{edge.name}", help)
    help = (
        f"check that it ends at least {top} above the floor ({asked} above the seat), or keep the seats {asked} away; "
        f"write how high it is under `room.railings`, how deep it drops beyond under `room.drops`"
    )
    return held.missed(CLIMB, "seat-near-railing", message, f"room.edges.{edge.name}", help)


def _seat_top(held: Held) -> Length:
    """Top of the main run's cushions with nobody on them, above the floor."""
    project, name = held.project, held.layout.runs[0].cushion
    thickness = next(cushion.size[2] for cushion in project.cushions if cushion.name == name)
    return derived(project.frame.carpentry, project.frame.rail, project.unit, thickness).seat


def guards(held: Held) -> Iterator[Finding]:
    """Drops without a guard, and guards that are low: facts of the room, whatever stands in it."""
    for edge in held.project.room.edges:
        if edge.drop is None or edge.drop <= held.size(GUARD_DROP):
            continue
        drop, wanted = held.tell(edge.drop), held.asked(GUARD_HEIGHT)
        if edge.kind is not EdgeKind.RAILING:
            message = f"edge {edge.name} is `{edge.kind}` and drops {drop}; a guard of {wanted} is asked for there"
            help = f"from a drop of more than {held.asked(GUARD_DROP)} on"
            yield held.missed(GUARD_HEIGHT, "guard-missing", message, f"room.drops.{edge.name}", help)
        elif edge.railing is not None and edge.railing < held.size(GUARD_HEIGHT):
            message = f"railing {edge.name} is {held.tell(edge.railing)} high above a drop of {drop}"
            help = f"a guard is {wanted} high where it drops more than {held.asked(GUARD_DROP)}"
            yield held.missed(GUARD_HEIGHT, "guard-low", message, f"room.railings.{edge.name}", help)


def steps(held: Held) -> Iterator[Finding]:
    """Steps so near before a run's seats that whoever gets up may tread over them."""
    for edge in held.project.room.edges:
        if edge.kind is not EdgeKind.STEP and not (edge.kind is EdgeKind.OPEN and edge.drop):
            continue
        found = [(near, run) for run in held.layout.runs if (near := _before(held, run, edge)) is not None]
        if not found:
            continue
        near, run = min(found, key=lambda each: each[0])
        what = "step" if edge.kind is EdgeKind.STEP else "open edge"
        which = "the main run" if run.side is Side.MAIN else f"the {run.side} arm"
        message = f"{what} {edge.name} is {held.tell(near)} before the seats of {which}; {held.asked(STEP)} are usual"
        help = (
            "whoever gets up treads there first: keep more clear, turn the seats, or mark the edge so that it is seen"
        )
        yield held.missed(STEP, "step-before-seats", message, f"room.edges.{edge.name}", help)


def _before(held: Held, run: Run, edge: Edge) -> Length | None:
    """From the front of a run to an edge in front of it; None where that is far enough."""
    deck, deep = run.deck, held.size(STEP) + held.project.room.tolerance
    strip, front = {
        Side.MAIN: (Box(deck.x0, deck.y1, deck.x1, deck.y1 + deep), Box(deck.x0, deck.y1, deck.x1, deck.y1)),
        Side.RIGHT: (Box(deck.x1, deck.y0, deck.x1 + deep, deck.y1), Box(deck.x1, deck.y0, deck.x1, deck.y1)),
        Side.LEFT: (Box(deck.x0 - deep, deck.y0, deck.x0, deck.y1), Box(deck.x0, deck.y0, deck.x0, deck.y1)),
    }[run.side]
    met = held.area(strip).intersection(line_of(edge))
    if not met.length:
        return None
    near = held.near(met, held.area(front).boundary)
    return near if held.short(near, STEP) else None
