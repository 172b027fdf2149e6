"""The checker accepts nothing beyond the ends, and no ease, but what the room, the wish and the limits allow."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from hand_built import LEFT, RIGHT
from tampering import asking, changed, codes, framed, laid, nudged, roomed, without
from yards import Yard, inch, straight

from fitter.domain.frame import FillLimits
from fitter.domain.layout import Layout, Stretch
from fitter.domain.wishes import FillKind, FillWish
from fitter.workflow.filling import filled

MARK = inch("1/16")


def _yard(wish: FillWish) -> Yard:
    bare = asking(roomed(straight(), openings=(), routes=(), obstacles=()), fill=wish)
    return laid(bare, filled(bare.project, bare.layout))


SHELVED, ARMED_WIDE = _yard(FillWish.SHELF), _yard(FillWish.ARM)


def resized(layout: Layout, index: int, **sides: int) -> Layout:
    """A fill whose box has sides moved by marks, on the ground too."""
    box = layout.fills[index].box
    new = replace(box, **{name: getattr(box, name) + MARK * count for name, count in sides.items()})
    ground = tuple(new if each == box else each for each in layout.footprint)
    return changed(replace(layout, footprint=ground), "fills", index, box=new)


TAMPERINGS: dict[str, tuple[Callable[[], Yard], str]] = {
    "narrower by a mark": (lambda: laid(SHELVED, resized(SHELVED.layout, 0, x0=1)), "fill-width"),
    "wider by a mark": (lambda: laid(SHELVED, resized(SHELVED.layout, 0, x0=-1)), "fill-width"),
    "wider than the widest": (lambda: laid(SHELVED, resized(SHELVED.layout, 1, x1=1)), "fill-width"),
    "narrower than the widest": (lambda: laid(SHELVED, resized(SHELVED.layout, 1, x1=-1)), "fill-width"),
    "less deep": (lambda: laid(SHELVED, resized(SHELVED.layout, 0, y1=-1)), "fill-place"),
    "away from its end": (lambda: laid(SHELVED, nudged(SHELVED.layout, "fills", 1, "1/16")), "fill-place"),
    "half a mark off": (lambda: laid(SHELVED, nudged(SHELVED.layout, "fills", 1, "1/32")), "mark"),
    "of another run": (lambda: laid(SHELVED, changed(SHELVED.layout, "fills", 0, run=RIGHT)), "fill-place"),
    "stopped by another wall": (
        lambda: laid(SHELVED, changed(SHELVED.layout, "fills", 0, stop="edge:AB")),
        "fill-width",
    ),
    "stopped by its limit": (lambda: laid(SHELVED, changed(SHELVED.layout, "fills", 0, stop="widest")), "fill-width"),
    "a gap with room for it": (
        lambda: laid(SHELVED, changed(SHELVED.layout, "fills", 0, kind=FillKind.GAP)),
        "fill-width",
    ),
    "an arm for a shelf": (lambda: laid(SHELVED, changed(SHELVED.layout, "fills", 0, kind=FillKind.ARM)), "fill-width"),
    "a shelf for an arm": (
        lambda: laid(ARMED_WIDE, changed(ARMED_WIDE.layout, "fills", 0, kind=FillKind.SHELF)),
        "fill-width",
    ),
    "left out": (lambda: laid(SHELVED, without(SHELVED.layout, "fills", 0)), "fill"),
    "left out of the ground": (
        lambda: laid(SHELVED, replace(SHELVED.layout, footprint=SHELVED.layout.footprint[:-1])),
        "footprint",
    ),
    "told twice": (lambda: laid(SHELVED, replace(SHELVED.layout, fills=SHELVED.layout.fills * 2)), "fill"),
    "told the left first": (lambda: laid(SHELVED, replace(SHELVED.layout, fills=SHELVED.layout.fills[::-1])), "fill"),
    "not asked": (lambda: asking(SHELVED, fill=FillWish.NONE), "fill-place"),
    "an arm asked": (lambda: asking(SHELVED, fill=FillWish.ARM), "fill-width"),
    "too narrow for its limit": (lambda: framed(SHELVED, fills=FillLimits(inch(20))), "fill-width"),
    "limit drawn in": (lambda: framed(SHELVED, fills=FillLimits(inch(6), inch(24))), "fill-width"),
    "more ease, not asked": (
        lambda: laid(SHELVED, replace(SHELVED.layout, eased=(Stretch("square", MARK),))),
        "ease",
    ),
    "more ease than its sizes": (
        lambda: laid(
            asking(straight(), fill=FillWish.EASE), replace(straight().layout, eased=(Stretch("square", MARK),))
        ),
        "pitch",
    ),
    "more ease than allowed": (
        lambda: laid(
            asking(straight(), fill=FillWish.EASE), replace(straight().layout, eased=(Stretch("square", inch(1)),))
        ),
        "ease",
    ),
    "ease of a kind that is not used": (
        lambda: laid(
            asking(straight(), fill=FillWish.EASE), replace(straight().layout, eased=(Stretch("slim", MARK),))
        ),
        "ease",
    ),
    "ease of no kind": (
        lambda: laid(
            asking(straight(), fill=FillWish.EASE), replace(straight().layout, eased=(Stretch("sofa", MARK),))
        ),
        "ease",
    ),
}


@pytest.mark.parametrize("name", TAMPERINGS)
def test_tampering_is_told(name: str) -> None:
    tamper, code = TAMPERINGS[name]
    assert code in codes(tamper())


@pytest.mark.parametrize("yard", [SHELVED, ARMED_WIDE])
def test_right_ones_are_accepted(yard: Yard) -> None:
    assert [fill.hand for fill in yard.layout.fills] == [RIGHT, LEFT]
    assert codes(yard) == []
