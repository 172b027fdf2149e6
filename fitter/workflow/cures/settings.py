"""Levers on cushions, the frame and walkways."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from fitter.domain.project import Project
from fitter.domain.why import Change, Ease
from fitter.workflow.cures.lengths import Sized, down_to, round_limit, up_to
from fitter.workflow.cures.lever import Lever, Told
from rooms.lengths import ZERO, Length, format_length

EASE_FACT = "ease:"
"""What the fact of a cushion's ease begins with; it is told with the cushion, and has no switch of its own."""

_MOST_OWNED = 24
_MORE_SPAN, _MORE_CARRIED = (24, 600), (48, 1200)
_NARROWEST = (18, 450)
"""Common practice: a grown person passes sideways."""
_ACCESSIBLE, _PINCH, _PINCHED = (36, 915), (32, 815), (24, 610)
"""Widths and the length of a pinch, inches and millimetres, as the 2010 ADA Standards, 403.5.1, print both."""


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

        # Where only so many may be bought, none but the owned ones are free of that.
        facts = (f"stock:{kind.name}", *(("buy",) if project.wish.buy_most is not None else ()))
        reach = f"up to {(kind.own or 0) + _MOST_OWNED}"
        yield Lever(facts, Ease.CUSHIONS, f"more of cushion `{kind.name}`", _MOST_OWNED, more, told, reach=reach)


def ease_levers(project: Project) -> Iterator[Lever]:
    """Less slack around the cushions of a kind."""
    for n, kind in enumerate(project.cushions):

        def tighter(value: Length, n: int = n) -> Project:
            kinds = list(project.cushions)
            kinds[n] = replace(kinds[n], ease=value)
            return replace(project, cushions=tuple(kinds))

        says = f"give each cushion `{kind.name}` {{after}} of ease instead of {{before}}"
        sized = Sized(
            f"{EASE_FACT}{kind.name}", Ease.CUSHIONS, f"less ease for cushion `{kind.name}`", says,
            f"cushions.{n}.ease", kind.ease, tighter, lambda value: "try on the real cushions that they go in so tight",
        )  # fmt: skip
        yield replace(down_to(project, sized, ZERO), within=False)


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
    yield up_to(project, sized, frame.max_span + round_limit(project, *_MORE_SPAN))
    carry = frame.carry
    if carry is not None:

        def longest(value: Length) -> Project:
            return replace(project, frame=replace(frame, carry=replace(carry, longest=value)))

        says = "carry pieces of up to {after} instead of {before}"
        key = "frame.carry.longest"
        sized = Sized("carry", Ease.FRAME, "longer pieces to carry", says, key, carry.longest, longest)
        yield up_to(project, sized, carry.longest + round_limit(project, *_MORE_CARRIED))


def route_levers(project: Project) -> Iterator[Lever]:
    """Narrower walkways."""
    for n, route in enumerate(project.room.routes):

        def narrower(value: Length, n: int = n) -> Project:
            routes = list(project.room.routes)
            routes[n] = replace(routes[n], width=value)
            return replace(project, room=replace(project.room, routes=tuple(routes)))

        says = f"let the route `{route.name}` be {{after}} wide instead of {{before}}"
        name = f"a narrower route `{route.name}`"
        key = f"room.routes.{n}.width"
        sized = Sized(
            f"route:{route.name}", Ease.ROUTE, name, says, key, route.width, narrower, lambda v: _narrow(project, v),
            clearance=True,
        )  # fmt: skip
        yield down_to(project, sized, round_limit(project, *_NARROWEST))


def _narrow(project: Project, width: Length) -> str:
    """What a route that is narrower than the benchmark means."""
    accessible, pinch, pinched = (round_limit(project, *sizes) for sizes in (_ACCESSIBLE, _PINCH, _PINCHED))
    said = [format_length(size, project.unit, feet=False) for size in (accessible, pinch, pinched)]
    source = "(2010 ADA Standards, 403.5.1; a benchmark, no duty at home)"
    if width >= accessible:
        return ""
    if width >= pinch:
        return f"for a wheelchair a stretch narrower than {said[0]} may be {said[2]} long at most {source}"
    return f"narrower than {said[1]}, it may not let a wheelchair pass {source}"
