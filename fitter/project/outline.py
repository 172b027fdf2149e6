"""The outline of the room: corners as given, or worked out from what the tape says."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from pydantic import TypeAdapter

from fitter.project.fields import Pair, Size, Turn
from fitter.project.forms import RoomForm
from fitter.project.ledger import Ledger
from fitter.project.tree import Data
from fitter.project.words import listed, shown
from rooms.geometry import Point
from rooms.lengths import ZERO, Length
from rooms.survey import check_ring, describe

LONGEST_SIDE = Length.inches(300 * 12)
SMALLEST_ROOM = Length.inches(36)
"""Common practice: beyond these a room was most likely written in another unit."""

_PAIR: TypeAdapter[tuple[Length, Length]] = TypeAdapter(Pair)
_SIZE: TypeAdapter[Length] = TypeAdapter(Size)
_TURN: TypeAdapter[str | Fraction] = TypeAdapter(Turn)
_NAME = re.compile(r"[A-Za-z][A-Za-z0-9]{0,11}")
_TWO_SHORT = re.compile(r"([A-Za-z][0-9]*)([A-Za-z][0-9]*)")
_SHORT = re.compile(r"[A-Za-z][0-9]*")


@dataclass(frozen=True)
class Walk:
    """The corners in the order of the file.

    Args:
        key: where they were written, `room.corners` or `room.sides`.
        names: of the corners; empty if they could not be read.
        points: one for each name; empty if a mistake hides them.
    """

    key: str
    names: tuple[str, ...] = ()
    points: tuple[Point, ...] = ()


@dataclass(frozen=True)
class Tape:
    """What the tape says, in the order of the file.

    Args:
        corners: names, in walking order.
        sides: each side's first corner, second corner and length.
        turns: corner and `left`, `right` or the inside angle in degrees.
        ties: two corners and the length between them.
    """

    corners: tuple[str, ...]
    sides: tuple[tuple[str, str, Length], ...]
    turns: tuple[tuple[str, str | Fraction], ...] = ()
    ties: tuple[tuple[str, str, Length], ...] = ()


def edge_name(first: str, second: str) -> str:
    """The name of the edge between two corners: `AB`, or `NE-SW` where running together could mislead."""
    short = _SHORT.fullmatch(first) and _SHORT.fullmatch(second)
    return f"{first}{second}" if short else f"{first}-{second}"


def split_edge(text: str, corners: Sequence[str] = ()) -> tuple[str, str] | None:
    """The two corners that a side, a tie or an edge is named after; None if the text is not clear.

    >>> split_edge("A1B"), split_edge("NE-SW"), split_edge("ABC")
    (('A1', 'B'), ('NE', 'SW'), None)
    """
    if "-" in text:
        first, _, second = (part.strip() for part in text.partition("-"))
        return (first, second) if _NAME.fullmatch(first) and _NAME.fullmatch(second) else None
    splits = [(text[:i], text[i:]) for i in range(1, len(text))]
    known = [pair for pair in splits if pair[0] in corners and pair[1] in corners]
    if known:
        return known[0] if len(known) == 1 else None
    short = _TWO_SHORT.fullmatch(text)
    return (short[1], short[2]) if short else None


def read_walk(ledger: Ledger, form: RoomForm) -> Walk | Tape | None:
    """The outline as far as the file says it; None, with the mistake recorded, if it does not."""
    help = "give `corners: {A: [x, y], …}`, or `sides: {AB: …, BC: …}` with `turns` or `ties`"
    if form.corners is None and form.sides is None:
        if not ledger.misspelt("room.corners", "room.sides"):
            ledger.error("no-outline", "the room has neither corners nor sides", "room", help)
        return None
    for name in ("sides", "turns", "ties"):
        if form.corners is not None and getattr(form, name) is not None:
            message = f"the room has both `corners` and `{name}`"
            help = "keep one of the two: corners where coordinates are known, sides where they were taped"
            ledger.error("corners-and-sides", message, f"room.{name}", help, at_key=True)
            break
    return _corners(ledger, form) if form.corners is not None else _tape(ledger, form)


def _corners(ledger: Ledger, form: RoomForm) -> Walk:
    found = [
        (name, ledger.value(_PAIR, value, key, "two lengths, `[x, y]`"))
        for key, name, value in ledger.entries(form.corners, "room.corners", "{A: [0, 0], B: [16', 0]}")
        if _named_well(ledger, name, key)
    ]
    complete = isinstance(form.corners, dict) and 2 < len(form.corners) == len(found)
    names = tuple(name for name, _ in found)
    places = tuple(Point(*pair) for _, pair in found if pair is not None)
    whole = isinstance(form.corners, dict) and len(form.corners) == len(places)
    walk = Walk("room.corners", names, places)
    return walk if whole and sound_outline(ledger, walk) else Walk(walk.key, names if complete else ())


def _named_well(ledger: Ledger, name: str, key: str) -> bool:
    if _NAME.fullmatch(name):
        return True
    help = "begin with a letter, then letters and digits only, such as `A` or `P12`"
    ledger.error("bad-corner-name", f"`{shown(name)}` cannot name a corner", key, help, at_key=True)
    return False


def sound_outline(ledger: Ledger, walk: Walk) -> bool:
    """Whether corners make a room; records what is wrong if they do not."""
    before = ledger.errors
    for problem in check_ring(tuple(zip(walk.names, walk.points, strict=True))):
        message, help = describe(problem, ledger.unit)
        ledger.error(problem.code, message, walk.key, help, at_key=True)
    _check_sizes(ledger, walk)
    return ledger.errors == before


def _check_sizes(ledger: Ledger, walk: Walk) -> None:
    for i, (name, start) in enumerate(zip(walk.names, walk.points, strict=True)):
        j = (i + 1) % len(walk.names)
        end = walk.points[j]
        far = max(abs(end.x - start.x), abs(end.y - start.y))
        if check_side(ledger, edge_name(name, walk.names[j]), far, f"{walk.key}.{walk.names[j]}"):
            return
    axes = ([point[axis] for point in walk.points] for axis in (0, 1))
    span = max((max(axis) - min(axis) for axis in axes if axis), default=ZERO)
    if ledger.unit_known and ZERO < span < SMALLEST_ROOM:
        message = f"the whole room is {ledger.say(span)} across"
        ledger.error("size-absurd", message, walk.key, ledger.ask_unit, at_key=True)


def check_side(ledger: Ledger, name: str, length: Length, key: str) -> bool:
    """Whether a side is too long to be meant; recorded if so."""
    if ledger.unit_known and length > LONGEST_SIDE:
        message = f"side {name} is {ledger.say(length)} long, and {ledger.say(LONGEST_SIDE)} is the most"
        ledger.error("size-absurd", message, key, ledger.ask_unit)
        return True
    return False


def _tape(ledger: Ledger, form: RoomForm) -> Tape | None:
    before = ledger.errors
    sides = _chained(ledger, list(_named_sides(ledger, form.sides)), before)
    if not sides:
        return None
    corners = tuple(first for first, _, _ in sides)
    turns = tuple(_turns(ledger, form.turns, corners))
    ties = tuple(_ties(ledger, form.ties, corners))
    return Tape(corners, tuple(sides) if ledger.errors == before else (), turns, ties)


_Side = tuple[str, str, Length]


def _named_sides(ledger: Ledger, data: Data) -> Iterator[tuple[str, _Side]]:
    """Key and corners of each side whose name is clear, with its length (zero if that is not)."""
    seen: dict[frozenset[str], str] = {}
    for key, name, value in ledger.entries(data, "room.sides", "{AB: 16', BC: 11', CD: 16', DA: 11'}"):
        length = ledger.value(_SIZE, value, key)
        pair = split_edge(name, [corner for known in seen for corner in known])
        if pair is None or pair[0] == pair[1]:
            help = "write the names of two corners together, such as `AB`; longer names as `NE-SW`"
            ledger.error("bad-side-name", f"`{shown(name)}` does not name two corners", key, help, at_key=True)
        elif (same := seen.setdefault(frozenset(pair), name)) != name:
            message = f"`{name}` is the same side as `{same}`"
            ledger.error("named-twice", message, key, "keep one of the two", at_key=True)
        else:
            if length is not None:
                check_side(ledger, name, length, key)
            yield key, (*pair, length or ZERO)


def _chained(ledger: Ledger, named: list[tuple[str, _Side]], before: int) -> list[_Side]:
    """The sides, each beginning where the one before it ends; empty if they make no walk round."""
    sides: list[_Side] = []
    help = "name the sides in walking order, such as `AB`, `BC`, `CD`, `DA`"
    for key, (first, second, length) in named:
        here = sides[-1][1] if sides else first
        if here not in (first, second):
            message = f"side {first}{second} does not begin at {here}, where the side before it ends"
        elif here in [side[0] for side in sides]:
            message = f"the walk comes back to {here} before side {first}{second}"
        else:
            sides.append((here, second if here == first else first, length))
            continue
        if all(finding.code not in ("bad-side-name", "named-twice") for finding in ledger.since(before)):
            ledger.error("sides-unchained", message, key, help, at_key=True)
        return []
    if len(sides) > 2 and sides[-1][1] != sides[0][0]:
        message = f"the last side ends at {sides[-1][1]}, and the walk began at {sides[0][0]}"
        ledger.error("sides-unchained", message, "room.sides", help, at_key=True)
        return []
    if len(sides) < 3 and ledger.errors == before:
        message = f"the room has {len(sides)} side{'s' * (len(sides) != 1)} and needs at least three"
        ledger.error("too-few-corners", message, "room.sides", "name every side, walking round it", at_key=True)
    return sides if len(sides) > 2 else []


def _turns(ledger: Ledger, data: Data, corners: tuple[str, ...]) -> Iterator[tuple[str, str | Fraction]]:
    for key, name, value in ledger.entries(data, "room.turns", "{B: left, C: 118}"):
        turn = ledger.value(_TURN, value, key)
        if name not in corners:
            ledger.unknown_name("corner", name, corners, key, at_key=True)
        elif turn is not None:
            yield name, turn


def _ties(ledger: Ledger, data: Data, corners: tuple[str, ...]) -> Iterator[tuple[str, str, Length]]:
    seen: dict[frozenset[str], str] = {}
    for key, name, value in ledger.entries(data, "room.ties", "{AC: 19' 9 3/4\"}"):
        length = ledger.value(_SIZE, value, key)
        pair = split_edge(name, corners)
        if pair is None or any(corner not in corners for corner in pair) or pair[0] == pair[1]:
            help = f"a tie joins two of the corners {listed(corners, 'and')}, such as `{''.join(corners[:3:2])}`"
            message = f"`{shown(name)}` does not name two corners of the room"
            ledger.error("bad-tie-name", message, key, help, at_key=True)
        elif frozenset(pair) in seen:
            message = f"`{name}` is the same tie as `{seen[frozenset(pair)]}`"
            ledger.error("named-twice", message, key, "keep one of the two", at_key=True)
        elif (corners.index(pair[0]) - corners.index(pair[1])) % len(corners) in (1, len(corners) - 1):
            help = "write its length under `sides` only"
            ledger.error("tie-is-side", f"`{name}` is a side, not a tie", key, help, at_key=True)
        elif length is not None:
            yield *pair, length
        seen.setdefault(frozenset(pair or ()), name)
