"""Ground that is kept before doors and things to reach, and around open flames."""

from __future__ import annotations

from collections.abc import Iterator
from math import hypot

from shapely import LineString, Polygon

from fitter.checking.clearances.held import Held
from fitter.domain.benchmarks import FLAME, LANDING, REACH, REACH_WIDTH
from fitter.domain.findings import Finding
from fitter.domain.requirements import obstacle_key
from fitter.project.defaults import FLAME_HELP, REACH_HELP
from rooms.lengths import ZERO
from rooms.room import EdgeKind, Height, Opening


def landings(held: Held) -> Iterator[Finding]:
    """Seats on the landing of a door: an opening in a wall counts as one."""
    room = held.project.room
    for n, opening in enumerate(room.openings):
        if room.edge(opening.edge).kind is not EdgeKind.WALL:
            continue
        door, ground = _landing(held, opening)
        taken = held.whole.intersection(ground)
        if not taken.area:
            continue
        near = held.near(door, taken)
        if held.short(near, LANDING):
            deep = held.asked(LANDING)
            message = f"the seats leave {held.tell(near)} of ground before `{opening.name}`; a landing is {deep} deep"
            help = "right for a gate in a garden wall; before a house door keep its width free so far"
            yield held.missed(LANDING, "seats-on-landing", message, f"room.openings.{n}", help)


def _landing(held: Held, opening: Opening) -> tuple[LineString, Polygon]:
    """The line of a door, and the ground before it, in units."""
    a, b = ((spot.x.units, spot.y.units) for spot in held.project.room.jambs(opening))
    dx, dy = b[0] - a[0], b[1] - a[1]
    share = (held.size(LANDING) + held.project.room.tolerance).units / hypot(dx, dy)
    # The room lies to the left of its edges.
    out = (-dy * share, dx * share)
    far = ((b[0] + out[0], b[1] + out[1]), (a[0] + out[0], a[1] + out[1]))
    return LineString([a, b]), Polygon([a, b, *far])


def flames(held: Held) -> Iterator[Finding]:
    """Seats, which burn, near an open flame."""
    for n, obstacle in enumerate(held.project.room.obstacles):
        if not obstacle.open_flame:
            continue
        near = held.near_obstacle(obstacle)
        if held.short(near, FLAME):
            message = f"the seats come as near as {held.tell(near)} to the open flame `{obstacle.name}`"
            message += f"; a rule says {held.asked(FLAME)}"
            key = f"{obstacle_key(held.project.room, n)}.clear"
            yield held.missed(FLAME, "flame-near-seats", message, key, FLAME_HELP)


def reach(held: Held) -> Iterator[Finding]:
    """Seats on the floor that one needs to reach a thing from a wheelchair."""
    for n, obstacle in enumerate(held.project.room.obstacles):
        if obstacle.height is not Height.REACH:
            continue
        near = held.near_obstacle(obstacle)
        if near > ZERO and held.short(near, REACH):
            message = (
                f"the seats come as near as {held.tell(near)} to `{obstacle.name}`; to reach it from a wheelchair "
            )
            message += f"takes a clear floor {held.asked(REACH)} deep and {held.asked(REACH_WIDTH)} wide"
            key = f"{obstacle_key(held.project.room, n)}.clear"
            yield held.missed(REACH, "reach-narrow", message, key, REACH_HELP)
