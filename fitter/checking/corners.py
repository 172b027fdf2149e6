"""Whether what lies in the corner places fits there, and is cut exactly as what stands there asks."""

from __future__ import annotations

from collections.abc import Iterator

from fitter.checking import places
from fitter.checking.case import Case
from fitter.domain.findings import Finding
from fitter.domain.frame import Stance
from fitter.domain.layout import Module, Notch, Side
from fitter.domain.wishes import CornerKind


def gap(case: Case) -> Iterator[Finding]:
    """Cushions lie as far off the backs as they come forward in front, and in a spread as far as its posts ask."""
    if case.layout.gap != case.gap:
        told, right = case.tell(case.layout.gap), case.tell(case.gap)
        yield case.fault("gap", f"cushions are told to lie {told} off the backs, they lie {right}", "frame.overhang")


def backs_meet(case: Case) -> Iterator[Finding]:
    """Backs that no tall post holds touch each other, so that they can be joined: plumb, flat uprights at corners."""
    work = case.project.frame.carpentry
    if case.layout.corner not in (CornerKind.ANGLE_POST, CornerKind.LOW_POST):
        return
    if work.lean or work.upright_at_corner is not Stance.FLAT:
        yield case.fault("backs", f"{case.layout.corner}, though the backs do not meet at corners", "frame")


def room_for_wood(case: Case) -> Iterator[Finding]:
    """A corner place has room for its two posts and the cross rail between them."""
    least = case.post * 2 + case.rail
    for arm in case.arms:
        for name, deep in ((f"{arm.side} arm", case.wood(arm)), ("main run", case.wood(case.main))):
            if deep <= least:
                message = f"the wood of the {name} is {case.tell(deep)} deep, a corner needs over {case.tell(least)}"
                yield case.fault("corner-room", message, "frame.sections.post")


def cushions_in_corners(case: Case) -> Iterator[Finding]:
    """A corner cushion is no larger than its place, and what it covers of a larger one is told."""
    for module in case.layout.modules:
        if module.corner is not None and module.cushion is not None:
            yield from _fits(case, module, module.corner)
        if module.cover != (wanted := places.cover(case, module)):
            told, right = ("all" if box is None else case.tell_box(box) for box in (module.cover, wanted))
            message = f"module {module.place} of the {module.run} run is told to cover {told}; it covers {right}"
            yield case.fault("cover", message)


def _fits(case: Case, module: Module, hand: Side) -> Iterator[Finding]:
    along, across = case.reach(hand) - case.gap, case.depth(case.main) - case.gap
    wide, deep = case.pitch(module), case.deck(module)
    if wide > along or deep > across:
        place = f"{case.tell(along)} × {case.tell(across)}"
        message = f"{module.cushion} takes {case.tell(wide)} × {case.tell(deep)}, the {hand} corner place has {place}"
        yield case.fault("corner-fit", message, "cushions")


def notches(case: Case) -> Iterator[Finding]:
    """A cushion is cut where wood stands in its place, and by what that wood and its own ease ask."""
    for module in case.layout.modules:
        name, kind, wanted = f"module {module.place} of the {module.run} run", case.cushion(module.cushion), None
        if module.corner is not None:
            wanted = places.notch(case, module)
        if module.notch != wanted:
            told, right = (_tell(case, notch) for notch in (module.notch, wanted))
            yield case.fault("notch", f"{name} is told to have {told}; {case.layout.corner} asks {right}")
        if module.notch is not None and kind is not None and not kind.may_notch:
            yield case.fault("notch", f"{kind.name} may not be notched", "cushions")


def _tell(case: Case, notch: Notch | None) -> str:
    if notch is None:
        return "no notch"
    parts = " and ".join(case.tell_box(box) for box in notch.strips)
    sizes = f"{case.tell(notch.along_x)} × {case.tell(notch.along_y)}"
    deep = "" if notch.depth is None else f", {case.tell(notch.depth)} deep"
    return f"a notch of {sizes}{deep} at {case.tell_box(notch.box)}" + (f" in strips at {parts}" if parts else "")
