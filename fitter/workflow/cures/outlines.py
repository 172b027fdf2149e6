"""A moved outline as the file would say it: corners, or sides and ties, and what is counted from corners that moved."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil, hypot

from fitter.domain.project import Project
from fitter.domain.requirements import obstacle_key
from fitter.domain.why import Change
from rooms.lengths import Length, format_length
from rooms.room import Point, Room


def outline_changes(project: Project, moved: Room) -> tuple[Change, ...]:
    """What to write for a room whose outline has moved while all in it stays.

    Args:
        project: as the file says it.
        moved: its room with other corners, by the same names.

    Returns:
        One change for each value that differs, in the order of the file.
    """
    if "room.corners" in project.places:
        return (*_corners(project, moved), *_offsets(project, moved))
    return (*_sides(project, moved), *_ties(project, moved), *_offsets(project, moved), *_things(project, moved))


def _corners(project: Project, moved: Room) -> Iterator[Change]:
    for (name, old), (_, new) in zip(project.room.corners, moved.corners, strict=True):
        if old != new:
            yield Change(f"room.corners.{name}", _pair(project, old), _pair(project, new))


def _sides(project: Project, moved: Room) -> Iterator[Change]:
    for old in project.room.edges:
        new = moved.edge(old.name)
        if f"room.sides.{old.name}" in project.places:
            yield from _length(project, f"room.sides.{old.name}", old.length, new.length)


def _ties(project: Project, moved: Room) -> Iterator[Change]:
    old, new = dict(project.room.corners), dict(moved.corners)
    for key in project.places:
        if key.startswith("room.ties.") and key.count(".") == 2:
            pair = _split(key.removeprefix("room.ties."), tuple(old))
            if pair is not None:
                yield from _length(project, key, _apart(old, pair), _apart(new, pair))


def _split(text: str, names: tuple[str, ...]) -> tuple[str, str] | None:
    if "-" in text:
        first, _, second = (part.strip() for part in text.partition("-"))
        return (first, second) if first in names and second in names else None
    pairs = [(text[:n], text[n:]) for n in range(1, len(text)) if text[:n] in names and text[n:] in names]
    return pairs[0] if len(pairs) == 1 else None


def _apart(corners: dict[str, Point], pair: tuple[str, str]) -> Length:
    a, b = (corners[name] for name in pair)
    return Length(ceil(hypot(a.x.units - b.x.units, a.y.units - b.y.units)))


def _offsets(project: Project, moved: Room) -> Iterator[Change]:
    for n, (old, new) in enumerate(zip(project.room.openings, moved.openings, strict=True)):
        if old.offset != new.offset:
            yield from _length(project, f"room.openings.{n}.from", old.offset, new.offset)


def _things(project: Project, moved: Room) -> Iterator[Change]:
    """Things are placed from the first corner: where that moves, their coordinates change though they stay."""
    origin = project.room.corners[0][1], moved.corners[0][1]
    if origin[0] == origin[1]:
        return
    dx, dy = origin[1].x - origin[0].x, origin[1].y - origin[0].y
    for n, thing in enumerate(project.room.obstacles):
        key = obstacle_key(project.room, n)
        for form in ("centre", "at", "corners"):
            if f"{key}.{form}" in project.places:
                low = Point(min(p.x for p in thing.core), min(p.y for p in thing.core))
                spots = thing.core if form == "corners" else (low,)
                before = ", ".join(_pair(project, p) for p in spots)
                after = ", ".join(_pair(project, Point(p.x - dx, p.y - dy)) for p in spots)
                yield Change(
                    f"{key}.{form}", *((f"[{before}]", f"[{after}]") if form == "corners" else (before, after))
                )


def _length(project: Project, key: str, old: Length, new: Length) -> Iterator[Change]:
    before, after = (format_length(size, project.unit) for size in (old, new.ceil_to(project.mark)))
    # A side that only rounding changes stays as it was taped.
    if before != after and abs(new - old) * 2 >= project.mark:
        yield Change(key, before, after)


def _pair(project: Project, point: Point) -> str:
    return f"[{format_length(point.x, project.unit)}, {format_length(point.y, project.unit)}]"
