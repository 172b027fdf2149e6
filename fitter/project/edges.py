"""The edges of the outline, however a file spells their names."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Annotated

from pydantic import TypeAdapter

from fitter.project.fields import Size, one_of, words_of
from fitter.project.ledger import Ledger
from fitter.project.outline import Walk, edge_name
from fitter.project.tree import Data
from rooms.geometry import signed_area
from rooms.lengths import Length
from rooms.room import Edge, EdgeKind

_KIND: TypeAdapter[EdgeKind] = TypeAdapter(Annotated[EdgeKind, one_of(words_of(EdgeKind))])
_SIZE: TypeAdapter[Length] = TypeAdapter(Size)

HIGHEST_RAILING = Length.inches(10 * 12)
DEEPEST_DROP = Length.inches(1000 * 12)
"""Common practice: more than these was most likely written in another unit."""


class EdgeNames:
    """Every spelling of every edge: `AB`, `A-B`, `BA`, `B-A`.

    Args:
        corners: in walking order; empty if they are not known, and then every name passes.
    """

    def __init__(self, corners: tuple[str, ...]) -> None:
        pairs = list(zip(corners, (*corners[1:], *corners[:1]), strict=True))
        self.names = tuple(edge_name(*pair) for pair in pairs)
        self._spelled: dict[str, tuple[str, bool]] = {}
        for name, (a, b) in zip(self.names, pairs, strict=True):
            for spelling in (f"{b}{a}", f"{b}-{a}"):
                self._spelled[spelling] = (name, False)
            for spelling in (f"{a}{b}", f"{a}-{b}"):
                self._spelled[spelling] = (name, True)

    def __contains__(self, text: str) -> bool:
        """Whether an edge is spelled so."""
        return text.replace(" ", "") in self._spelled

    def find(self, ledger: Ledger, text: str, key: str, *, at_key: bool = False) -> tuple[str, bool] | None:
        """The edge's name, and whether it was named in walking order; None, recorded, if there is none."""
        found = self._spelled.get(text.replace(" ", ""))
        if found is None and self.names:
            ledger.unknown_name("edge", text, self.names, key, at_key=at_key)
        return found


def read_kinds(ledger: Ledger, data: Data, names: EdgeNames) -> dict[str, EdgeKind]:
    """What stands along each edge that `room.edges` names."""
    kinds: dict[str, EdgeKind] = {}
    for key, text, value in ledger.entries(data, "room.edges", "{AB: wall, BC: railing}"):
        kind = ledger.value(_KIND, value, key)
        found = names.find(ledger, text, key, at_key=True)
        if found is None:
            continue
        if found[0] in kinds:
            ledger.error("named-twice", f"`{text}` names edge {found[0]} again", key, "keep one", at_key=True)
        kinds[found[0]] = kind or EdgeKind.WALL
    return kinds


def read_drops(ledger: Ledger, data: Data, names: EdgeNames, kinds: Mapping[str, EdgeKind]) -> dict[str, Length]:
    """How far it is down to the ground beyond edges that are no walls."""
    drops = {}
    for edge, key, drop in _sizes(ledger, data, "room.drops", "{BC: 4'}", DEEPEST_DROP, names):
        if kinds.get(edge, EdgeKind.WALL) is EdgeKind.WALL:
            message = f"edge {edge} is a wall, and a drop of {ledger.say(drop)} is written for it"
            help = "write `railing`, `open` or `step` for it under `edges`, or leave the drop out"
            ledger.error("drop-at-wall", message, key, help, at_key=True)
        drops[edge] = drop
    return drops


def read_railings(ledger: Ledger, data: Data, names: EdgeNames, kinds: Mapping[str, EdgeKind]) -> dict[str, Length]:
    """How high railings stand above the floor."""
    railings = {}
    for edge, key, height in _sizes(ledger, data, "room.railings", '{BC: 36"}', HIGHEST_RAILING, names):
        if (kind := kinds.get(edge, EdgeKind.WALL)) is not EdgeKind.RAILING:
            message = f"edge {edge} is `{kind}`, and the height of a railing is written for it"
            help = "write `railing` for it under `edges`, or leave the height out"
            ledger.error("no-railing-there", message, key, help, at_key=True)
        railings[edge] = height
    return railings


def _sizes(
    ledger: Ledger, data: Data, section: str, example: str, most: Length, names: EdgeNames
) -> Iterator[tuple[str, str, Length]]:
    """Name of the edge, key and length of each sound entry."""
    seen: list[str] = []
    for key, text, value in ledger.entries(data, section, example):
        size, found = ledger.value(_SIZE, value, key), names.find(ledger, text, key, at_key=True)
        if found is None or size is None:
            continue
        if found[0] in seen:
            ledger.error("named-twice", f"`{text}` names edge {found[0]} again", key, "keep one", at_key=True)
        elif ledger.unit_known and size > most:
            message = f"`{text}` is {ledger.say(size)}, and {ledger.say(most)} is the most"
            ledger.error("size-absurd", message, key, ledger.ask_unit)
        else:
            yield found[0], key, size
        seen.append(found[0])


def build_edges(
    walk: Walk,
    kinds: Mapping[str, EdgeKind],
    drops: Mapping[str, Length],
    railings: Mapping[str, Length],
) -> tuple[Edge, ...]:
    """The edges in the order of the file, each with the room on its left; a wall where nothing is said."""
    forward = signed_area(walk.points) > 0
    edges = []
    for i, name in enumerate(EdgeNames(walk.names).names):
        ends = (walk.points[i], walk.points[(i + 1) % len(walk.points)])
        start, end = ends if forward else ends[::-1]
        kind = kinds.get(name, EdgeKind.WALL)
        edges.append(Edge(name, kind, start, end, forward, drops.get(name), railings.get(name)))
    return tuple(edges)
