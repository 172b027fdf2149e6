"""Ways to tamper with a layout, and what the checker says of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields, is_dataclass, replace
from typing import TypeVar

from yards import Yard, inch

from fitter.checking import check_layout
from fitter.domain.layout import Box, Layout, Pose
from fitter.domain.project import Project

_Value = TypeVar("_Value")


def codes(yard: Yard) -> list[str]:
    """What is found wrong, each code once."""
    return list(dict.fromkeys(finding.code for finding in check_layout(yard.project, yard.layout)))


def shifted(plan: Box, dx: str = "0", dy: str = "0") -> Box:
    """A box moved by inches."""
    x, y = inch(dx), inch(dy)
    return Box(plan.x0 + x, plan.y0 + y, plan.x1 + x, plan.y1 + y)


def changed(layout: Layout, part: str, index: int, **new: object) -> Layout:
    """A layout with other values in one of its parts."""
    parts = list(getattr(layout, part))
    parts[index] = replace(parts[index], **new)
    return replace(layout, **{part: tuple(parts)})


def nudged(layout: Layout, part: str, index: int, dx: str, dy: str = "0", plan: str = "box") -> Layout:
    """A layout with one of its parts moved by inches."""
    box = getattr(getattr(layout, part)[index], plan)
    return changed(layout, part, index, **{plan: shifted(box, dx, dy)})


def without(layout: Layout, part: str, index: int) -> Layout:
    """A layout that lacks one of its parts."""
    parts = list(getattr(layout, part))
    del parts[index]
    return replace(layout, **{part: tuple(parts)})


def swapped(layout: Layout, part: str, one: int, other: int) -> Layout:
    """A layout that tells two of its parts in the other order."""
    parts = list(getattr(layout, part))
    parts[one], parts[other] = parts[other], parts[one]
    return replace(layout, **{part: tuple(parts)})


def moved(layout: Layout, dx: str, dy: str) -> Layout:
    """A layout shifted as a whole within its frame; the distance told follows where the main run is aligned."""
    return replace(_everywhere(layout, lambda box: shifted(box, dx, dy)), off_edge=layout.off_edge + inch(dy))


def _everywhere(value: _Value, turn: Callable[[Box], Box]) -> _Value:
    """A value with every box in it turned into another."""
    if isinstance(value, Box):
        return turn(value)  # type: ignore[return-value]
    if isinstance(value, tuple) and not hasattr(value, "_fields"):
        return tuple(_everywhere(part, turn) for part in value)  # type: ignore[return-value]
    if is_dataclass(value) and not isinstance(value, Pose):
        new = {field.name: _everywhere(getattr(value, field.name), turn) for field in fields(value)}
        return replace(value, **new)  # type: ignore[type-var, return-value]
    return value


def asking(yard: Yard, **new: object) -> Yard:
    """The layout of a yard, where something else is wished."""
    return Yard(replace(yard.project, wish=replace(yard.project.wish, **new)), yard.layout)  # type: ignore[arg-type]


def framed(yard: Yard, **new: object) -> Yard:
    """The layout of a yard, where the frame has other sizes."""
    return Yard(replace(yard.project, frame=replace(yard.project.frame, **new)), yard.layout)  # type: ignore[arg-type]


def roomed(yard: Yard, **new: object) -> Yard:
    """The layout of a yard in another room."""
    return Yard(replace(yard.project, room=replace(yard.project.room, **new)), yard.layout)  # type: ignore[arg-type]


def cushioned(yard: Yard, name: str, **new: object) -> Yard:
    """The layout of a yard, where one kind of cushion is another."""
    kinds = tuple(replace(c, **new) if c.name == name else c for c in yard.project.cushions)  # type: ignore[arg-type]
    return Yard(replace(yard.project, cushions=kinds), yard.layout)


def by(yard: Yard, change: Callable[[Layout], Layout]) -> Yard:
    """The yard, its layout tampered with."""
    return Yard(yard.project, change(yard.layout))


def laid(yard: Yard, layout: Layout, project: Project | None = None) -> Yard:
    """Another layout in the same yard."""
    return Yard(project or yard.project, layout)
