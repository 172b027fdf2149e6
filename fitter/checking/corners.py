"""Whether what lies in the corner places fits there, and is notched exactly as the post asks."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from fitter.checking import places
from fitter.checking.case import Case
from fitter.domain.cushions import Cushion
from fitter.domain.findings import Finding
from fitter.domain.layout import Module, Notch, Side
from fitter.domain.wishes import CornerKind
from rooms.lengths import ZERO, Length


def room_for_wood(case: Case) -> Iterator[Finding]:
    """A corner place has room for its two posts and the cross rail between them."""
    least = case.post * 2 + case.rail
    for arm in case.arms:
        for name, deep in ((f"{arm.side} arm", case.deck(arm)), ("main run", case.deck(case.main))):
            if deep <= least:
                message = f"the deck of the {name} is {case.tell(deep)}, a corner needs more than {case.tell(least)}"
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
    wide, deep, main = case.pitch(module), case.deck(module), case.deck(case.main)
    if wide > case.reach(hand) or deep > main:
        place = f"{case.tell(case.reach(hand))} × {case.tell(main)}"
        message = f"{module.cushion} takes {case.tell(wide)} × {case.tell(deep)}, the {hand} corner place is {place}"
        yield case.fault("corner-fit", message, "cushions")


def notches(case: Case) -> Iterator[Finding]:
    """A cushion is notched where a post stands in its place, and by what that post and its own ease ask."""
    for module in case.layout.modules:
        name, kind = f"module {module.place} of the {module.run} run", case.cushion(module.cushion)
        size = _notch(case, kind) if module.corner is not None and kind is not None else ZERO
        if not size and module.notch is None:
            continue
        if not size or module.notch is None:
            message = f"{name} has {'a' if module.notch else 'no'} notch, its post asks {case.tell(size)}"
            yield case.fault("notch", message)
            continue
        if kind is not None and not kind.may_notch:
            yield case.fault("notch", f"{kind.name} may not be notched", "cushions")
        yield from _cut(case, module, module.notch, size)


def _notch(case: Case, kind: Cushion) -> Length:
    """The size asked, up to the mark: what an inside post and the air around it take, less half the ease."""
    if case.layout.corner is not CornerKind.INSIDE_POST:
        return ZERO
    taken = case.post.units + case.project.frame.notch_clearance.units - Fraction(kind.ease.units, 2)
    return Length(max(0, -(-taken // case.mark.units)) * case.mark.units)


def _cut(case: Case, module: Module, notch: Notch, size: Length) -> Iterator[Finding]:
    """Whether a notch has its size, and is cut from the corner of the cushion that lies at the post."""
    kind, hand = case.cushion(module.cushion), module.corner or Side.MAIN
    told, cut = (notch.along_x, notch.along_y), case.seen(notch.box, hand)
    if told != (size, size) or (cut.x1 - cut.x0, cut.y1 - cut.y0) != (size, size):
        sizes = " × ".join(case.tell(length) for length in told)
        yield case.fault("notch", f"the {hand} corner cushion has a notch of {sizes}, the post asks {case.tell(size)}")
        return
    # A cushion with ease may begin half of it inside its place, or be pushed home; its notch begins where it does.
    ease = max(kind.ease if kind else ZERO, ZERO)
    if not (case.x <= cut.x0 <= case.x + ease and case.y <= cut.y0 <= case.y + ease):
        yield case.fault("notch", f"the notch at {case.tell_box(notch.box)} is not cut at the {hand} corner post")
