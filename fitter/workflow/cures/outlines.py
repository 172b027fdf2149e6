"""A moved outline as the file would say it: corners, or sides and ties, and what is counted from corners that moved."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from math import hypot
from pathlib import Path

from fitter.domain.project import Project
from fitter.domain.requirements import obstacle_key
from fitter.domain.why import Change
from fitter.project.outline import split_edge
from fitter.project.source import read_text
from fitter.project.tree import Data, read_tree
from rooms.lengths import Length, LengthError, format_length, parse_length
from rooms.room import Point, Room

_HAIR = Length(8)
"""A thousandth of an inch, less than rounding of corners makes of a length; no mark is added for it."""


def outline_changes(project: Project, moved: Room) -> tuple[Change, ...]:
    """What to write for a room whose outline has moved while all in it stays.

    Args:
        project: as the file says it; a reading changes by as much as the adjusted outline does.
        moved: its room with other corners, by the same names.

    Returns:
        One change for each value that differs, in the order of the file.
    """
    if "room.corners" in project.places:
        return (*_corners(project, moved), *_offsets(project, moved))
    return (*_readings(project, moved), *_offsets(project, moved), *_things(project, moved))


def side_key(project: Project, edge: str) -> str:
    """The key of a side, which may be named from either end."""
    names = tuple(name for name, _ in project.room.corners)
    wanted = frozenset(split_edge(edge, names) or ())
    sides = (key for key in project.places if key.startswith("room.sides.") and key.count(".") == 2)
    return next((key for key in sides if frozenset(_ends(key, names) or ()) == wanted), f"room.sides.{edge}")


def _corners(project: Project, moved: Room) -> Iterator[Change]:
    for (name, old), (_, new) in zip(project.room.corners, moved.corners, strict=True):
        if old != new:
            yield _spot(project, f"room.corners.{name}", old, new)


def _ends(key: str, names: tuple[str, ...]) -> tuple[str, str] | None:
    """The two corners that a side or a tie joins."""
    return split_edge(key.split(".", 2)[2], names)


def _readings(project: Project, moved: Room) -> Iterator[Change]:
    """Sides, then ties."""
    old, new = dict(project.room.corners), dict(moved.corners)
    for section in ("sides", "ties"):
        for key in project.places:
            if key.startswith(f"room.{section}.") and key.count(".") == 2 and (pair := _ends(key, tuple(old))):
                yield from _length(project, key, _apart(old, pair), _apart(new, pair))


def _apart(corners: dict[str, Point], pair: tuple[str, str]) -> Length:
    a, b = (corners[name] for name in pair)
    return Length(round(hypot(a.x.units - b.x.units, a.y.units - b.y.units)))


def _offsets(project: Project, moved: Room) -> Iterator[Change]:
    for n, (old, new) in enumerate(zip(project.room.openings, moved.openings, strict=True)):
        before, after = old.offset, new.offset
        if _named_backward(project, f"room.openings.{n}.edge", old.edge):
            before = project.room.edge(old.edge).length - old.offset - old.width
            after = moved.edge(new.edge).length - new.offset - new.width
        yield from _length(project, f"room.openings.{n}.from", before, after)


def _named_backward(project: Project, key: str, edge: str) -> bool:
    """Whether the file names an opening's edge from its second corner, so that `from` counts from there."""
    names = tuple(name for name, _ in project.room.corners)
    written = _written(project, key)
    return isinstance(written, str) and split_edge(written, names) == (split_edge(edge, names) or ())[::-1]


def _things(project: Project, moved: Room) -> Iterator[Change]:
    """Things are placed from the first corner: where that moves, their coordinates change though they stay."""
    (_, old), (_, new) = project.room.corners[0], moved.corners[0]
    if old == new:
        return
    dx, dy = new.x - old.x, new.y - old.y
    for n, thing in enumerate(project.room.obstacles):
        key = obstacle_key(project.room, n)
        low = Point(min(p.x for p in thing.core), min(p.y for p in thing.core))
        for form in ("centre", "at"):
            if f"{key}.{form}" in project.places:
                yield _spot(project, f"{key}.{form}", low, Point(low.x - dx, low.y - dy))
        if f"{key}.corners" in project.places:
            spots = [(p, Point(p.x - dx, p.y - dy)) for p in thing.core]
            before, after = (", ".join(_pair(project, pair[which]) for pair in spots) for which in (0, 1))
            yield Change(f"{key}.corners", f"[{before}]", f"[{after}]")


def _length(project: Project, key: str, old: Length, new: Length) -> Iterator[Change]:
    """A length that is written anew, up to the mark; one that only rounding changes stays as it was."""
    if abs(new - old) * 2 < project.mark:
        return
    taped = _read(project, _written(project, key))
    then = (old if taped is None else taped) + new - old
    before, after = (_say(project, size) for size in (then - new + old, (then - _HAIR).ceil_to(project.mark)))
    if before != after:
        yield Change(key, before, after)


def _spot(project: Project, key: str, old: Point, new: Point) -> Change:
    """A place, of which only what differs is written anew."""
    written = _written(project, key)
    said = written if isinstance(written, list) and len(written) == 2 else (None, None)
    pairs = [_coordinate(project, *each) for each in zip(said, old, new, strict=True)]
    before, after = (", ".join(pair[which] for pair in pairs) for which in (0, 1))
    return Change(key, f"[{before}]", f"[{after}]")


def _coordinate(project: Project, text: Data, old: Length, new: Length) -> tuple[str, str]:
    """A coordinate before and after; one that stays, is told as the file has it only where no other words do."""
    say = _say(project, old)
    if abs(old - new) * 2 >= project.mark or not isinstance(text, str):
        return say, _say(project, new)
    return (say, say) if _read(project, say) == _read(project, text) else (text, text)


def _pair(project: Project, point: Point) -> str:
    return f"[{_say(project, point.x)}, {_say(project, point.y)}]"


def _say(project: Project, length: Length) -> str:
    """A length to the mark; of an inch to the fraction that it has, where a tape shows that."""
    parts = (n for n in (16, 32, 64) if (abs(length).inch * n).denominator == 1)
    return format_length(length, project.unit, denominator=next(parts, 16))


def _read(project: Project, text: Data) -> Length | None:
    try:
        return parse_length(text, project.unit, negative=True) if isinstance(text, str) else None
    except LengthError:
        return None


def _written(project: Project, key: str) -> Data:
    """What the file has at a key; None where the project came from no file, or the file says nothing there."""
    path = Path(project.file)
    if not project.file or not path.is_file():
        return None
    found = _whole(project.file, path.stat().st_mtime_ns)
    for step in key.split("."):
        if isinstance(found, dict):
            found = found.get(step)
        elif isinstance(found, list) and step.isdigit() and int(step) < len(found):
            found = found[int(step)]
        else:
            return None
    return found


@lru_cache(maxsize=4)
def _whole(path: str, changed: int) -> Data:
    """A file as it was at some time; `changed` tells a later state of it apart."""
    return read_tree(read_text(path), path).data


__all__ = ["outline_changes", "side_key"]
