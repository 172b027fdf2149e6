"""Things in the room that seats stay off, and holes in its ground."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TypeVar

from shapely import Point as Spot
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from fitter.domain.findings import Severity
from fitter.project.defaults import FLAME_CLEAR, FLAME_HELP, FLAME_SOURCE, REACH_HELP, REACH_SOURCE, defaults
from fitter.project.forms import HoleForm, ObstacleForm
from fitter.project.ledger import MOST_ENTRIES, Ledger, known_keys
from fitter.project.openings import named_once
from fitter.project.tree import Data
from fitter.project.words import listed
from rooms.geometry import Point, signed_area
from rooms.lengths import ZERO, Length
from rooms.room import Height, Obstacle
from rooms.survey.ring import is_simple

_F = TypeVar("_F", bound=HoleForm)
_WAYS = (("corners",), ("at", "size"), ("centre", "radius"))
_HELP = "give `corners`, or `at` with `size`, or `centre` with `radius`"
_WALLED_IN = "right for a thing that is built into a wall; else check its size and place"
_CUT_AWAY = "take the hole's edge into the outline of the room, or check its size and place"


def read_obstacles(
    ledger: Ledger, data: Data, holes: Data, outline: tuple[Point, ...], tolerance: Length
) -> tuple[Obstacle, ...]:
    """The obstacles, then the holes, with their polygons anticlockwise.

    Args:
        ledger: takes the mistakes.
        data: `room.obstacles`.
        holes: `room.holes`.
        outline: of the room; empty if it has mistakes, and then places stay unchecked.
        tolerance: how far an obstacle may stick out of the room without a word.
    """
    standing = list(_forms(ledger, ObstacleForm, data, "obstacles"))
    forms = [*standing, *_forms(ledger, HoleForm, holes, "holes")]
    # Both are shown under their names alone, so one name serves only one of them.
    what = "obstacles or holes" if len(forms) > len(standing) else "obstacles"
    named_once(ledger, what, ((key, form.name) for key, form in forms))
    obstacles = []
    for key, form in forms:
        core = _core(ledger, key, form)
        if core:
            obstacle = _obstacle(ledger, key, form, core)
            _check_place(ledger, key, obstacle, outline, tolerance)
            obstacles.append(obstacle)
    return tuple(obstacles)


def _forms(ledger: Ledger, kind: type[_F], data: Data, what: str) -> Iterator[tuple[str, _F]]:
    for key, item in ledger.items(data, f"room.{what}", what):
        if (form := ledger.form(kind, item, key)) is not None:
            yield key, form


def _obstacle(ledger: Ledger, key: str, form: HoleForm, core: tuple[Point, ...]) -> Obstacle:
    radius = form.radius or ZERO
    if not isinstance(form, ObstacleForm):
        return Obstacle(form.name, core, radius, hole=True)
    if form.height is Height.LOW and form.open_flame:
        message = f"`{form.name}` burns openly, and `low` is for what lies flat and seats may pass over"
        help = "leave out `height`; or leave out `open_flame` if it never burns"
        ledger.error("flame-low", message, f"{key}.height", help)
    return Obstacle(form.name, core, radius, _clear(ledger, key, form), form.open_flame, form.height)


def _core(ledger: Ledger, key: str, form: HoleForm) -> tuple[Point, ...]:
    """The polygon or the centre; empty, with the mistake recorded, if it is not clear."""
    given = [name for way in _WAYS for name in way if getattr(form, name) is not None]
    way = next((way for way in _WAYS if way[0] in given or way[-1] in given), ())
    if not way or any(name not in given for name in way):
        written = ledger.raw(key)
        lacking = [name for name in way or ("corners",) if name not in written]
        # A misspelt key is told on its own; what seems to be lacking may be just that one.
        if lacking and all(name in known_keys(type(form)) for name in written):
            message = f"`{form.name}` has no {listed(lacking, 'and')}"
            ledger.error("obstacle-shapeless", message, key, _HELP)
        return ()
    if extra := [name for name in given if name not in way]:
        message = f"`{form.name}` has {listed(way, 'and')}, and {listed(extra, 'and')} as well"
        ledger.error("obstacle-twice", message, f"{key}.{extra[0]}", _HELP, at_key=True)
        return ()
    return _ring(ledger, key, form)


def _ring(ledger: Ledger, key: str, form: HoleForm) -> tuple[Point, ...]:
    if form.centre is not None:
        return (Point(*form.centre),)
    if form.at is not None and form.size is not None:
        (x, y), (width, depth) = form.at, form.size
        return (Point(x, y), Point(x + width, y), Point(x + width, y + depth), Point(x, y + depth))
    ring = tuple(Point(*pair) for pair in form.corners or ())
    if len(ring) < 3:
        message = f"`{form.name}` has {len(ring)} corner{'s' * (len(ring) != 1)} and needs at least three"
        ledger.error("too-few-corners", message, f"{key}.corners", "name every corner, walking round it")
        return ()
    if len(ring) > MOST_ENTRIES:
        message = f"`{form.name}` has {len(ring)} corners, and {MOST_ENTRIES} is the most"
        ledger.error("too-many", message, f"{key}.corners", "leave out corners that hardly turn")
        return ()
    if not is_simple(ring):
        help = "name the corners in walking order, and check the coordinates"
        ledger.error("obstacle-crosses", f"the outline of `{form.name}` crosses itself", f"{key}.corners", help)
        return ()
    return ring if signed_area(ring) > 0 else ring[::-1]


def _clear(ledger: Ledger, key: str, form: ObstacleForm) -> Length:
    """The clear distance; an open flame or a thing to reach without one gets the default.

    One that is too small for an open flame gets a caution.
    """
    if not form.open_flame:
        if form.clear is None and form.height is Height.REACH:
            return _reach_clear(ledger, key, form.name)
        return form.clear if form.clear is not None else ZERO
    wanted = ledger.say(FLAME_CLEAR)
    if form.clear is None:
        message = f"open flame `{form.name}` is given a clear distance of {wanted}"
        ledger.remark("flame-default", message, key, FLAME_HELP, FLAME_SOURCE, severity=Severity.NOTE)
        return FLAME_CLEAR
    if form.clear < FLAME_CLEAR:
        message = f"open flame `{form.name}` is kept clear by {ledger.say(form.clear)}; a rule says {wanted}"
        ledger.remark("flame-near", message, f"{key}.clear", FLAME_HELP, FLAME_SOURCE, severity=Severity.CAUTION)
    return form.clear


def _reach_clear(ledger: Ledger, key: str, name: str) -> Length:
    clear = defaults(ledger.unit).reach_clear
    message = f"{ledger.say(clear)} of clear ground are kept before `{name}`, so that it stays within reach"
    ledger.remark("reach-default", message, key, REACH_HELP, REACH_SOURCE, severity=Severity.NOTE)
    return clear


def _check_place(ledger: Ledger, key: str, obstacle: Obstacle, outline: tuple[Point, ...], tolerance: Length) -> None:
    if not outline:
        return
    room = Polygon([(p.x.units, p.y.units) for p in outline])
    shape = _shape(obstacle)
    where = next(f"{key}.{name}" for name in ("centre", "at", "corners") if name in ledger.raw(key))
    help = "coordinates are those of the room: its first corner and first side, x along and y into the room"
    if not shape.intersection(room).area:
        ledger.error("obstacle-outside", f"`{obstacle.name}` lies outside the room", where, help)
    elif not room.buffer(tolerance.units + 1, join_style="mitre").covers(shape):
        message = f"`{obstacle.name}` sticks out of the room"
        help = _CUT_AWAY if obstacle.hole else _WALLED_IN
        ledger.remark("obstacle-sticks-out", message, where, help, severity=Severity.CAUTION)


def _shape(obstacle: Obstacle) -> BaseGeometry:
    if len(obstacle.core) == 1:
        return Spot(obstacle.core[0].x.units, obstacle.core[0].y.units).buffer(obstacle.radius.units)
    return Polygon([(p.x.units, p.y.units) for p in obstacle.core])
