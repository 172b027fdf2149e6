"""Frames of which something is wrong."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from yards import Number, inch

from fitter.checking.wood import SOLIDS
from fitter.checking.wood.built import Built, Fact
from fitter.domain.findings import Finding
from fitter.domain.woodwork import Part, PartRole, Woodwork

STEPS = tuple((axis, step) for axis in range(3) for step in (-1, 1))
"""An inch each way along each axis."""


def first(built: Built, facts: tuple[Fact, ...] = SOLIDS) -> Finding | None:
    """The first thing that is found wrong."""
    return next((finding for fact in facts for finding in fact(built)), None)


def codes(built: Built, facts: tuple[Fact, ...] = SOLIDS) -> list[str]:
    """What is found wrong, each code once."""
    return list(dict.fromkeys(finding.code for fact in facts for finding in fact(built)))


def with_wood(built: Built, woodwork: Woodwork) -> Built:
    """Other wood for the same layout."""
    return Built(built.project, built.layout, woodwork)


def with_parts(built: Built, parts: tuple[Part, ...]) -> Built:
    """Other parts for the same layout, without joints, which would speak of the old ones by number."""
    return with_wood(built, replace(built.woodwork, parts=parts, joints=()))


def without(built: Built, number: int) -> Built:
    """The frame without one part."""
    return with_parts(built, built.parts[:number] + built.parts[number + 1 :])


def changed(built: Built, number: int, **new: object) -> Built:
    """The frame, one of its parts another."""
    part = replace(built.parts[number], **new)  # type: ignore[arg-type]
    return with_parts(built, (*built.parts[:number], part, *built.parts[number + 1 :]))


def moved(part: Part, axis: int, by: Number) -> Part:
    """A part shifted along an axis of the layout frame."""
    origin = list(part.origin)
    origin[axis] += inch(by).units
    return replace(part, origin=(origin[0], origin[1], origin[2]))


def shifted(built: Built, number: int, axis: int, by: Number) -> Built:
    """The frame, one of its parts shifted."""
    return with_parts(built, (*built.parts[:number], moved(built.parts[number], axis, by), *built.parts[number + 1 :]))


def all_moved(built: Built, role: PartRole, axis: int, by: Number) -> Built:
    """The frame, all parts of a role shifted alike."""
    return with_parts(built, tuple(moved(part, axis, by) if part.role is role else part for part in built.parts))


def each(built: Built, role: PartRole, change: Callable[[Part], Part]) -> Built:
    """The frame, all parts of a role changed alike."""
    return with_parts(built, tuple(change(part) if part.role is role else part for part in built.parts))


def find(built: Built, role: PartRole, place: str = "") -> int:
    """The first part of a role whose place holds some words."""
    return next(n for n in built.of(role) if place in built.parts[n].place)
