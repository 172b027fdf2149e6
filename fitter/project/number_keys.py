"""Which keys of a project file hold a number, what that counts, and how a path to one is followed through the file.

A path names keys and places in lists, counted from 0, with points between: `room.routes.0.width`. In a list whose
entries have names, a name may stand for the place: `room.routes.door to gate.width`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, get_args

from pydantic import PlainValidator

from fitter.domain.amounts import Quantity
from fitter.project import fields
from fitter.project.forms import (
    BoardForm,
    BoxesForm,
    CarryForm,
    CoatsForm,
    CushionForm,
    EndsForm,
    FillForm,
    Form,
    FrameForm,
    GapsForm,
    HoleForm,
    ObstacleForm,
    OpeningForm,
    ProjectForm,
    RevealForm,
    RoomForm,
    RouteForm,
    SeatsForm,
    SectionsForm,
    ShopForm,
    SlopeForm,
    UprightsForm,
    WishForm,
)
from fitter.project.ledger import known_keys
from fitter.project.tree import Data

_FORMS: Mapping[str, type[Form]] = {
    "": ProjectForm,
    "room": RoomForm,
    "room.slope": SlopeForm,
    "room.openings.*": OpeningForm,
    "room.obstacles.*": ObstacleForm,
    "room.holes.*": HoleForm,
    "room.routes.*": RouteForm,
    "cushions.*": CushionForm,
    "wish": WishForm,
    "wish.seats": SeatsForm,
    "wish.ends": EndsForm,
    "frame": FrameForm,
    "frame.sections": SectionsForm,
    "frame.slat_gap": GapsForm,
    "frame.reveal": RevealForm,
    "frame.uprights": UprightsForm,
    "frame.carry": CarryForm,
    "frame.fill": FillForm,
    "shop": ShopForm,
    "shop.boards.*": BoardForm,
    "shop.boxes": BoxesForm,
    "shop.coats": CoatsForm,
}
_NAMED = ("room.corners", "room.sides", "room.turns", "room.ties", "room.drops", "room.railings")
_LISTS = ("room.openings", "room.obstacles", "room.holes", "room.routes", "cushions", "shop.boards")
_XY, _SIZE = ("x", "y"), ("width", "depth", "thickness")
_PARTS: Mapping[str, tuple[str, ...]] = {
    "room.corners.*": _XY,
    **{f"room.{what}.*.{key}": _XY for what in ("obstacles", "holes") for key in ("at", "centre", "corners.*")},
    **{f"room.{what}.*.size": _SIZE[:2] for what in ("obstacles", "holes")},
    "cushions.*.size": _SIZE,
    "cushions.*.measured": _SIZE,
    "cushions.*.back": ("width", "height", "thickness"),
}
_SINGLE: Mapping[str, Quantity] = {
    "room.sides.*": Quantity.LENGTH,
    "room.ties.*": Quantity.LENGTH,
    "room.turns.*": Quantity.ANGLE,
    "room.drops.*": Quantity.LENGTH,
    "room.railings.*": Quantity.LENGTH,
    "wish.seats": Quantity.COUNT,
    "frame.slat_gap": Quantity.LENGTH,
}
"""Numbers that no form tells of."""

_READERS: tuple[tuple[Any, Quantity], ...] = (
    (fields.Size, Quantity.LENGTH),
    (fields.Distance, Quantity.LENGTH),
    (fields.Coordinate, Quantity.LENGTH),
    (fields.Count, Quantity.COUNT),
    (fields.Places, Quantity.COUNT),
    (fields.Coats, Quantity.COUNT),
    (fields.SeatCount, Quantity.COUNT),
    (fields.Money, Quantity.MONEY),
    (fields.Share, Quantity.SHARE),
    (fields.Lean, Quantity.ANGLE),
    (fields.Fall, Quantity.FALL),
)
_QUANTITIES: tuple[tuple[object, Quantity], ...] = tuple(
    (part.func, quantity)
    for kind, quantity in _READERS
    for part in get_args(kind)[1:]
    if isinstance(part, PlainValidator)
)


@dataclass(frozen=True)
class Found:
    """A key of the file.

    Args:
        path: keys and places in lists, from the top.
        quantity: of the number that it holds; None where it holds no single number.
    """

    path: tuple[str, ...]
    quantity: Quantity | None

    @property
    def key(self) -> str:
        """The path as findings write it."""
        return ".".join(self.path)


class UnknownKeyError(Exception):
    """A path that leads nowhere.

    Args:
        path: as far as it led.
        rest: what follows there.
        known: what would have led on.
    """

    def __init__(self, path: tuple[str, ...], rest: str, known: Sequence[str]) -> None:
        super().__init__(rest)
        self.path, self.rest, self.known = path, rest, tuple(known)


def find_key(data: Data, written: str) -> Found:
    """Follow a path through a file.

    Args:
        data: the top of the file.
        written: the path.

    Returns:
        What it leads to. The key itself need not be written, if it is one that the file knows.

    Raises:
        UnknownKeyError: there is no such key.
    """
    path: tuple[str, ...] = ()
    pattern, here, rest = "", data, written.strip()
    while rest:
        ways = dict(_ways(pattern, here))
        fitting = [spelled for spelled in ways if rest == spelled or rest.startswith(f"{spelled}.")]
        if not fitting:
            raise UnknownKeyError(path, rest, list(ways))
        # A name may hold points itself, so the longest goes first.
        spelled = max(fitting, key=len)
        step, general = ways[spelled]
        path, pattern = (*path, step), f"{pattern}.{general}" if pattern else general
        here = _below(here, step)
        rest = rest[len(spelled) + 1 :]
    return Found(path, _quantity(pattern, here))


def _ways(pattern: str, here: Data) -> Iterator[tuple[str, tuple[str, str]]]:
    """What may follow: as it may be spelled, the key itself, and what stands for it in a pattern."""
    if pattern in _FORMS:
        for key in known_keys(_FORMS[pattern]):
            yield key, (key, key)
    elif pattern in _NAMED and isinstance(here, dict):
        for key in here:
            yield key, (key, "*")
    elif pattern in _PARTS:
        for number, name in enumerate(_PARTS[pattern]):
            yield str(number), (str(number), str(number))
            yield name, (str(number), str(number))
    elif isinstance(here, list):
        for number, item in enumerate(here):
            for name in _names(pattern, item):
                yield name, (str(number), "*")
        for number in range(len(here)):
            yield str(number), (str(number), "*")


def _names(pattern: str, item: Data) -> Iterator[str]:
    """What an entry of a list is called."""
    if pattern in _LISTS and isinstance(item, dict):
        name = item.get("name")
        if isinstance(name, str):
            yield " ".join(name.split())
        elif pattern == "room.routes":
            yield f"{item.get('from')} to {item.get('to')}"


def _below(here: Data, step: str) -> Data:
    if isinstance(here, dict):
        below: Data = here.get(step)
        return below
    if isinstance(here, list) and step.isdigit() and int(step) < len(here):
        return here[int(step)]  # type: ignore[no-any-return]
    return None


def _quantity(pattern: str, here: Data) -> Quantity | None:
    above, _, last = pattern.rpartition(".")
    if above in _PARTS:
        return Quantity.LENGTH
    if isinstance(here, dict | list) or pattern in _LISTS or pattern in _PARTS:
        return None
    if pattern in _SINGLE:
        return _SINGLE[pattern]
    form = _FORMS.get(above)
    if form is None:
        return None
    field = next((f for name, f in form.model_fields.items() if (f.alias or name) == last), None)
    return None if field is None else _read_by([field.annotation, *field.metadata])


def _read_by(parts: Sequence[Any]) -> Quantity | None:
    """What the reader of a field, somewhere in its annotation, counts."""
    for part in parts:
        if isinstance(part, PlainValidator):
            for reader, quantity in _QUANTITIES:
                if part.func is reader:
                    return quantity
        elif (found := _read_by(get_args(part))) is not None:
            return found
    return None
