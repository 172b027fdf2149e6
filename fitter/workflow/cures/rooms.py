"""Levers on the room: a door that opens outward, ground around things, things moved, and edges taped again or moved."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import hypot

from fitter.domain.project import Project
from fitter.domain.requirements import obstacle_key
from fitter.domain.why import Change, Ease
from fitter.workflow.cures.lengths import Sized, down_to, round_limit
from fitter.workflow.cures.lever import Easier, Lever, Told
from fitter.workflow.cures.outlines import outline_changes, side_key
from rooms.clearance import outline, solid
from rooms.lengths import ZERO, Length, format_length
from rooms.moved import edge_moved, obstacle_moved
from rooms.room import Edge, EdgeKind, Obstacle, Opening, Point, Room, Swing
from rooms.survey.wording import listed

_FARTHEST_EDGE = (24, 600)
_FARTHEST_THING = (36, 900)
"""How far an edge or a thing is tried to be moved: inches, millimetres."""
_MEASURED = ("room.openings.", "room.obstacles.", "room.holes.")
_KINDS = {EdgeKind.WALL: "wall", EdgeKind.RAILING: "railing", EdgeKind.STEP: "step"}
_ROUNDING = 1e4  # of areas in floating point, units squared: a tenth of a square millimetre
_SLIDING = Length.inches(1)
"""An edge that is shorter by less seldom bears a run any worse; only a proof takes it into account."""
_SQUARE, _ALIKE = 0.8, 1e-6
"""How squarely a way leads to an edge that it is told by, and what is as square: cosines."""
_SIDEWAYS = (("x", 1), ("x", -1), ("y", 1), ("y", -1))


def opening_levers(project: Project) -> Iterator[Lever]:
    """Doors that swing out instead of into the room."""
    for n, opening in enumerate(project.room.openings):
        if opening.swing is Swing.IN:
            yield _outward(project, n, opening)


def _outward(project: Project, n: int, opening: Opening) -> Lever:
    changed = replace(project, room=replace(project.room, openings=_other(project.room.openings, n)))
    told = Told(f"let `{opening.name}` swing out instead of in", (Change(f"room.openings.{n}.swing", "in", "out"),))
    fact, name = f"swing:{opening.name}", f"`{opening.name}` swinging out"
    return Lever((fact,), Ease.FRAME, name, 1, lambda step: changed, lambda step: told)


def _other(openings: tuple[Opening, ...], n: int) -> tuple[Opening, ...]:
    return (*openings[:n], replace(openings[n], swing=Swing.OUT), *openings[n + 1 :])


def obstacle_levers(project: Project) -> Iterator[Lever]:
    """Less clear ground around things, and things moved along x or y."""
    for n, thing in enumerate(project.room.obstacles):
        yield from _clear(project, n, thing)
        if not thing.hole:
            for axis, way in _SIDEWAYS:
                yield _moved(project, n, thing, axis, way)


def _with(project: Project, n: int, thing: Obstacle | None) -> Project:
    """With another thing in its place, or none."""
    things = project.room.obstacles
    kept = (*things[:n], *(() if thing is None else (thing,)), *things[n + 1 :])
    return replace(project, room=replace(project.room, obstacles=kept))


def _clear(project: Project, n: int, thing: Obstacle) -> Iterator[Lever]:
    def clear(value: Length) -> Project:
        return _with(project, n, replace(thing, clear=value))

    def mind(value: Length) -> str:
        if thing.open_flame:
            return "local codes and its maker say how far an open flame stays off"
        return "its maker and local codes say how much ground it needs to be used safely"

    if thing.clear > ZERO:
        key, name = f"{obstacle_key(project.room, n)}.clear", f"less clear ground around `{thing.name}`"
        says = f"leave only {{after}} clear around `{thing.name}` instead of {{before}}"
        fact = f"obstacle:{thing.name}"
        yield down_to(project, Sized(fact, Ease.OFFSET, name, says, key, thing.clear, clear, mind, True), ZERO)


def _moved(project: Project, n: int, thing: Obstacle, axis: str, way: int) -> Lever:
    mark, toward = project.mark, _toward(project.room, axis, way)

    def spot(step: int) -> Obstacle:
        far = mark * (way * step)
        return obstacle_moved(thing, *((far, ZERO) if axis == "x" else (ZERO, far)))

    def told(step: int) -> Told:
        says = f"move `{thing.name}` {format_length(mark * step, project.unit)} {toward}"
        return Told(says, tuple(_spots(project, obstacle_key(project.room, n), thing, spot(step))))

    def easier(low: int, high: int) -> Easier | None:
        common = _common(spot(low), spot(high), axis)
        # Without the thing something fits wherever it may be moved to, or the way is not tried at all.
        return None if common is None and low > 1 else (_with(project, n, common), frozenset())

    def at(step: int) -> Project | None:
        return _with(project, n, spot(step)) if _is_free(project.room, thing, spot(step)) else None

    def beyond(step: int) -> bool:
        return not _stays_inside(project.room, thing, spot(step))

    name = f"`{thing.name}` moved"
    steps = bisect_left(range(1, round_limit(project, *_FARTHEST_THING) // mark + 1), True, key=beyond)
    reach = f"by up to {format_length(round_limit(project, *_FARTHEST_THING), project.unit)} along x or y"
    return Lever((f"obstacle:{thing.name}",), Ease.OBSTACLE, name, steps, at, told, easier, within=False, reach=reach)


def _toward(room: Room, axis: str, way: int) -> str:
    """A direction by the edge that it leads to most squarely, the longest of equals; with its axis where it is skew."""
    best, square = None, _SQUARE
    for edge in sorted(room.edges, key=lambda edge: -edge.length):
        # The room lies to the left of its edges.
        out = (edge.end.y - edge.start.y, edge.start.x - edge.end.x)["xy".index(axis)]
        share = way * out.units / hypot((edge.end.x - edge.start.x).units, (edge.end.y - edge.start.y).units)
        if share > square + _ALIKE:
            best, square = edge, share
    along = f"along {'−' if way < 0 else ''}{axis}"
    if best is None:
        return along
    return f"toward edge {best.name}" if square > 1 - _ALIKE else f"{along}, toward edge {best.name}"


def _is_free(room: Room, thing: Obstacle, moved: Obstacle) -> bool:
    """Whether a thing is not pushed into another one."""
    others = [solid(other) for other in room.obstacles if other is not thing]
    was, now = (sum(solid(each).intersection(other).area for other in others) for each in (thing, moved))
    return bool(now <= was + _ROUNDING)


def _stays_inside(room: Room, thing: Obstacle, moved: Obstacle) -> bool:
    """Whether a thing is not pushed into a wall: no more of it lies outside the room than before."""
    floor = outline(room)
    was, now = (solid(each).difference(floor).area for each in (thing, moved))
    return bool(now <= was + _ROUNDING)


def _common(near: Obstacle, far: Obstacle, axis: str) -> Obstacle | None:
    """A thing that lies within a thing at each place between two: it leaves no less room than any of those; or none."""
    if near.radius:
        (a,), (b,) = near.core, far.core
        apart = abs(b.x - a.x) + abs(b.y - a.y)
        radius = near.radius - Length(apart.units // 2 + 1)
        middle = Point(Length((a.x.units + b.x.units) // 2), Length((a.y.units + b.y.units) // 2))
        return replace(near, core=(middle,), radius=radius) if radius > ZERO else None
    xs, ys = sorted({p.x for p in near.core}), sorted({p.y for p in near.core})
    if len(near.core) != 4 or len(xs) != 2 or len(ys) != 2:
        return None
    fx, fy = sorted({p.x for p in far.core}), sorted({p.y for p in far.core})
    x0, x1, y0, y1 = max(xs[0], fx[0]), min(xs[1], fx[1]), max(ys[0], fy[0]), min(ys[1], fy[1])
    if x0 >= x1 or y0 >= y1:
        return None
    return replace(near, core=(Point(x0, y0), Point(x1, y0), Point(x1, y1), Point(x0, y1)))


def _spots(project: Project, key: str, old: Obstacle, new: Obstacle) -> Iterator[Change]:
    """Where a thing stands, as the file says it."""

    def say(point: Point) -> str:
        return f"[{format_length(point.x, project.unit)}, {format_length(point.y, project.unit)}]"

    for form in ("centre", "at", "corners"):
        if f"{key}.{form}" in project.places:
            spots = []
            for thing in (old, new):
                low = Point(min(p.x for p in thing.core), min(p.y for p in thing.core))
                spots.append(f"[{', '.join(map(say, thing.core))}]" if form == "corners" else say(low))
            yield Change(f"{key}.{form}", *spots)


def edge_levers(project: Project) -> Iterator[Lever]:
    """Edges moved outward, parallel to themselves; within the tape's tolerance that is a reading to repeat."""
    for edge in project.room.edges:
        yield _edge(project, edge.name)


def _edge(project: Project, name: str) -> Lever:
    room, mark, against = project.room, project.mark, project.wish.against

    def moved(step: int) -> Room | None:
        return edge_moved(room, name, mark * step)

    def at(step: int) -> Project | None:
        found = moved(step)
        return None if found is None else replace(project, room=found)

    def easier(low: int, high: int) -> Easier | None:
        """The widest of those rooms holds each of them; its moved edge may back a run that stood at any of them."""
        farthest = at(high)
        if farthest is None:
            return None
        near, reach = (
            moved(low) or room,
            project.wish.off_wall + (mark * (high - low) if name in (against or ()) else ZERO),
        )
        off = _against_off(against, near, farthest.room, _SLIDING)
        return replace(farthest, wish=replace(farthest.wish, off_wall=reach)), off

    def surely(low: int, high: int) -> Easier | None:
        """Whole marks from one corner are none from another: what fits may have to shift by less than a mark."""
        found = easier(low, high)
        if found is None:
            return None
        wide, near = found[0], moved(low) or room
        less = replace(wide.room, tolerance=max(ZERO, room.tolerance - mark))
        reach = wide.wish.off_wall + mark
        return replace(wide, room=less, wish=replace(wide.wish, off_wall=reach)), _against_off(
            against, near, less, ZERO
        )

    def told(step: int) -> Told:
        return _edge_told(project, name, mark * step)

    # Beyond some step a neighbour would have vanished.
    limit = round_limit(project, *_FARTHEST_EDGE)
    steps = bisect_left(range(1, limit // mark + 1), True, key=lambda step: moved(step) is None)
    farthest = moved(1)
    strict = None if farthest is None or _same_grid(room, farthest, mark) else surely
    reach = f"by up to {format_length(limit, project.unit)}"
    return Lever(
        (f"edge:{name}",), Ease.EDGE, f"edge {name} farther out", steps, at, told, easier,
        surely=strict, within=False, reach=reach,
    )  # fmt: skip


def _against_off(against: Sequence[str] | None, room: Room, moved: Room, most: Length) -> frozenset[str]:
    """The fact of standing along an edge, where one of these edges no longer reaches along all that it did before.

    Args:
        against: edges that a run may stand along; None for none.
        room: before.
        moved: with an edge farther out.
        most: by how much an edge may be shorter at an end.
    """
    for name in against or ():
        old, new = room.edge(name), moved.edge(name)
        ex, ey = old.end.x.units - old.start.x.units, old.end.y.units - old.start.y.units
        slid = [ex * (q.x - p.x).units + ey * (q.y - p.y).units for p, q in zip(_ends(old), _ends(new), strict=True)]
        if max(slid[0], -slid[1]) > most.units * old.length.units:
            return frozenset(("against",))
    return frozenset()


def _ends(edge: Edge) -> tuple[Point, Point]:
    return edge.start, edge.end


def _same_grid(room: Room, moved: Room, mark: Length) -> bool:
    """Whether whole marks along every edge are counted from places that lie whole marks from the old ones."""
    pairs = [(old, new) for (_, old), (_, new) in zip(room.corners, moved.corners, strict=True)]
    whole = all((q.x - p.x).units % mark.units == 0 == (q.y - p.y).units % mark.units for p, q in pairs)
    return whole and all(e.start.x == e.end.x or e.start.y == e.end.y for e in room.edges)


def _edge_told(project: Project, name: str, by: Length) -> Told:
    moved = edge_moved(project.room, name, by)
    assert moved is not None

    def tell(length: Length) -> str:
        return format_length(length, project.unit)

    changes = outline_changes(project, moved)
    said = {change.key: (change.before, change.after) for change in changes}
    others = [(edge, moved.edge(edge.name).length.ceil_to(project.mark)) for edge in project.room.edges]
    changed = [
        (edge.name, *said.get(side_key(project, edge.name), (tell(edge.length), tell(new))))
        for edge, new in others
        # No less than rounding makes of a length.
        if edge.name != name and abs(new - edge.length) >= project.mark
    ]
    sides = listed([f"{side} {new}" for side, _, new in changed])
    grown = all(new >= edge.length for edge, new in others)
    if changed and grown and by <= project.room.tolerance:
        taped = listed([f"{side} {old}" for side, old, _ in changed])
        says = f"measure again: it fits if {sides} or more; you taped {taped}, ± {tell(project.room.tolerance)}"
        return Told(says, changes, "", Ease.READING)
    becomes = f" ({sides})" if sides else ""
    kind = project.room.edge(name).kind
    caution = "" if kind is EdgeKind.OPEN else f"{name} is a {_KINDS[kind]}: see whether it can be moved at all"
    if any(change.key.startswith(_MEASURED) for change in changes):
        stays = "doors and things stay where they are, and are measured from what has moved"
        caution = f"{caution}; {stays}" if caution else stays
    return Told(f"move edge {name} outward by {tell(by)}{becomes}", changes, caution)
