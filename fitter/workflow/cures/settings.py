"""Levers on cushions, the frame and walkways."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from fitter.domain.project import Project
from fitter.domain.why import Change, Ease
from fitter.workflow.cures.lengths import Sized, down_to, up_to
from fitter.workflow.cures.lever import Lever, Told
from rooms.lengths import Length, format_length

_MOST_OWNED = 24
_MORE_SPAN = Length.inches(24)
_MORE_CARRIED = Length.inches(48)
_NARROWEST = Length.inches(18)
"""Common practice: a grown person passes sideways."""
_ACCESSIBLE = Length.inches(36)
_PINCH = Length.inches(32)


def cushion_levers(project: Project) -> Iterator[Lever]:
    """More of a kind of which only so many are there."""
    for n, kind in enumerate(project.cushions):
        if kind.stock is None:
            continue

        def more(step: int, n: int = n) -> Project:
            kinds = list(project.cushions)
            kinds[n] = replace(kinds[n], own=(kinds[n].own or 0) + step)
            return replace(project, cushions=tuple(kinds))

        def told(step: int, n: int = n) -> Told:
            kind = project.cushions[n]
            own = kind.own or 0
            says = f"get {step} more of cushion `{kind.name}` ({own + step} instead of {own})"
            return Told(says, (Change(f"cushions.{n}.own", str(own), str(own + step)),))

        yield Lever((f"stock:{kind.name}",), Ease.CUSHIONS, f"more of cushion `{kind.name}`", _MOST_OWNED, more, told)


def frame_levers(project: Project) -> Iterator[Lever]:
    """Longer spans, and longer pieces to carry."""
    frame = project.frame

    def span(value: Length) -> Project:
        return replace(project, frame=replace(frame, max_span=value))

    says = "let rails bridge {after} instead of {before}"
    sized = Sized(
        "span", Ease.FRAME, "longer spans", says, "frame.max_span", frame.max_span, span,
        lambda value: "take a rail that is strong enough for that span",
    )  # fmt: skip
    yield up_to(project, sized, frame.max_span + _MORE_SPAN)
    carry = frame.carry
    if carry is not None:

        def longest(value: Length) -> Project:
            return replace(project, frame=replace(frame, carry=replace(carry, longest=value)))

        says = "carry pieces of up to {after} instead of {before}"
        key = "frame.carry.longest"
        sized = Sized("carry", Ease.FRAME, "longer pieces to carry", says, key, carry.longest, longest)
        yield up_to(project, sized, carry.longest + _MORE_CARRIED)


def route_levers(project: Project) -> Iterator[Lever]:
    """Narrower walkways."""
    for n, route in enumerate(project.room.routes):

        def narrower(value: Length, n: int = n) -> Project:
            routes = list(project.room.routes)
            routes[n] = replace(routes[n], width=value)
            return replace(project, room=replace(project.room, routes=tuple(routes)))

        says = f"keep the route `{route.name}` {{after}} wide instead of {{before}}"
        name = f"a narrower route `{route.name}`"
        key = f"room.routes.{n}.width"
        sized = Sized(
            f"route:{route.name}", Ease.ROUTE, name, says, key, route.width, narrower, lambda v: _narrow(project, v)
        )  # fmt: skip
        yield down_to(project, sized, _NARROWEST)


def _narrow(project: Project, width: Length) -> str:
    """What a route that is narrower than the benchmark means."""
    accessible, pinch = (format_length(size, project.unit) for size in (_ACCESSIBLE, _PINCH))
    if width >= _ACCESSIBLE:
        return ""
    if width >= _PINCH:
        return (
            f"below {accessible} it is no accessible route but for a pinch of at most 24 in (610 mm) "
            "(2010 ADA Standards, 403.5.1, a benchmark only)"
        )
    return f"below {pinch} a wheelchair does not pass at all (2010 ADA Standards, 403.5.1, a benchmark only)"
