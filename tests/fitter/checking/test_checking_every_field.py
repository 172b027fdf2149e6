"""Nothing that a layout tells goes unchecked: whatever field is changed alone, something is told to be wrong."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from enum import StrEnum
from fractions import Fraction

import pytest
from hand_built import OUTSIDE
from shapely import box as area
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union
from tampering import codes, laid, roomed
from yards import inch, mixed, mixed_angle, mixed_spread, split_u, stout, straight, u_left_along

from fitter.domain.layout import Box, Layout, Notch, Side
from rooms.lengths import Length

MARK = inch("1/16")
YARDS = {
    "straight": straight(),
    "L with posts that stand out": stout(),
    "U of many kinds": mixed(),
    "U along its left arm": u_left_along(OUTSIDE, (2, 1, 3)),
    "U to be carried": split_u(OUTSIDE),
    "U of many kinds with angle posts": mixed_angle(),
    "U of many kinds, spread": mixed_spread(),
}
ONLY = {"U of many kinds with angle posts": ("modules", "gap"), "U of many kinds, spread": ("gap", "runs")}
"""The parts that are not much the same elsewhere; of other layouts every part is changed."""

ANYTHING: dict[str, object] = {
    "notch": Notch(Box(inch(20), inch(5), inch(22), inch(7)), inch(2), inch(2)),
    "cover": Box(inch(20), inch(5), inch(22), inch(7)),
    "line": 1,
    "depth": inch("1/2"),
    "hand": Side.LEFT,
    "corner": Side.LEFT,
    "edge": "CD",
}
"""What may stand where nothing does, by the name of the field."""


def others(value: object, name: str) -> Iterator[object]:
    """Values a little different from one."""
    match value:
        case bool():
            yield not value
        case StrEnum():
            yield from (member for member in type(value) if member is not value)
        case Length():
            yield from (value + MARK, value - MARK)
        case int():
            yield from (value + 1, value - 1)
        case Fraction():
            yield value + Fraction(1, 1000)
        case str():
            yield from (kind for kind in ("square", "slim", "CD", "nothing of that name") if kind != value)
        case None:
            yield ANYTHING[name]
        case tuple():
            yield from _sequences(value)
        case _ if is_dataclass(value) and not isinstance(value, type):
            for field in fields(value):
                for other in others(getattr(value, field.name), field.name):
                    yield replace(value, **{field.name: other})
            if name in ("notch", "cover"):
                yield None


def _sequences(parts: tuple[object, ...]) -> Iterator[tuple[object, ...]]:
    """Each part changed, left out, or told twice; a point of the room is moved only."""
    for index, part in enumerate(parts):
        for other in others(part, ""):
            changed = (*parts[:index], other, *parts[index + 1 :])
            yield type(parts)(*changed) if hasattr(parts, "_fields") else changed
        if not hasattr(parts, "_fields"):
            yield (*parts[:index], *parts[index + 1 :])
            yield (*parts[: index + 1], *parts[index:])


def ground(boxes: tuple[Box, ...]) -> BaseGeometry:
    """What boxes cover together; whole units this small are exact as floats."""
    return unary_union([area(box.x0.units, box.y0.units, box.x1.units, box.y1.units) for box in boxes])


def means_the_same(one: Layout, other: Layout) -> bool:
    """Whether only the footprint is told by other boxes, which cover the same ground."""
    return replace(one, footprint=()) == replace(other, footprint=()) and bool(
        ground(one.footprint).equals(ground(other.footprint))
    )


@pytest.mark.parametrize(
    ("name", "part"),
    [
        (name, field.name)
        for name, yard in YARDS.items()
        for field in fields(Layout)
        if field.name != "routes"
        and field.name in ONLY.get(name, (field.name,))
        and (field.name not in ("splits", "fills", "eased") or getattr(yard.layout, field.name))
    ],
)
def test_every_change_of_a_field_is_told(name: str, part: str) -> None:
    """The widths of the routes are left out: the checker itself finds them, after a layout has passed.

    Nothing can be changed in splits, fills and added ease where there are none; that none are told there is tampered
    with elsewhere.
    """
    yard = roomed(YARDS[name], routes=(), openings=(), obstacles=())
    changes = [replace(yard.layout, **{part: value}) for value in others(getattr(yard.layout, part), part)]
    assert changes
    missed = [change for change in changes if not codes(laid(yard, change)) and not means_the_same(yard.layout, change)]
    assert missed == []
