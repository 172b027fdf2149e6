"""Every kind of tampering is told by its own fact and code, and every fact of the checker tells some."""

# ruff: noqa: E501 - one line for one kind of tampering

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

import pytest
from hand_built import (
    ANGLE,
    ARMED,
    INSIDE,
    LEFT,
    LOW,
    MAIN,
    OPEN,
    OUTSIDE,
    RIGHT,
    SPREAD,
    TABLE,
    Chain,
    lay_out,
)
from tampering import (
    asking,
    by,
    changed,
    codes,
    cushioned,
    framed,
    moved,
    nudged,
    roomed,
    shifted,
    swapped,
    without,
)
from yards import ALONG as BACKED
from yards import (
    Yard,
    arm_run,
    box,
    carried,
    ell,
    inch,
    main_run,
    mixed,
    mixed_angle,
    mixed_spread,
    over_a_drain,
    overhung,
    overhung_straight,
    split_ell,
    split_straight,
    split_u,
    stout,
    straight,
    turned_corner,
    u,
    u_free,
    u_left_along,
    u_right_along,
)

from fitter.checking import _FACTS, check_layout, route_widths, whole
from fitter.checking.case import Case
from fitter.domain.findings import Finding, Severity
from fitter.domain.frame import Board, Carpentry, RailJoint, Section, Shop, Stance
from fitter.domain.layout import Face, ModuleLine, Notch, PostRole, Purchase, Side
from fitter.domain.wishes import Shape
from rooms.lengths import ZERO
from rooms.room import Height, Obstacle, Opening, Point, Route, Swing

LINE, ELL, LEFT_ELL, HORSESHOE, MIXED, TURNED = (
    straight(), ell(INSIDE, RIGHT), ell(OUTSIDE, LEFT), u(INSIDE), mixed(), turned_corner(),
)  # fmt: skip
FREE, ALONG, DRAIN = u_free(OUTSIDE), u_right_along(INSIDE, (2, 3, 1)), over_a_drain()
TABLED, STOUT, TIED = u(TABLE), stout(), u_left_along(OUTSIDE, (2, 1, 2))
FORWARD, ANGLED, LOWERED, EASED = overhung_straight(), ell(ANGLE, RIGHT), ell(LOW, LEFT), ell(SPREAD, RIGHT)
ANGLED_LEFT, OVERHUNG, ANGLES, SPREADS = ell(ANGLE, LEFT), u(INSIDE, "1/2"), mixed_angle(), mixed_spread()
LONG_ARM = Yard(
    LINE.project, lay_out(LINE.project, BACKED, Chain(inch(20), inch(5), main_run(2), arm_run(3), None, OUTSIDE))
)
NARROW = u_free(OUTSIDE, inch("389/16"))
"""One cushion of 24 1/4 in lies between the arms, where 24 5/16 in are asked before each."""

NOTCH = Notch(box(50, 5, "857/16", "137/16"), inch("57/16"), inch("57/16"))
"""A notch that the second seat of the straight run has no need of."""


def notch(yard: Yard, index: int) -> Notch:
    """The notch of a module that has one."""
    found = yard.layout.modules[index].notch
    assert found is not None
    return found


def pushed(yard: Yard, index: int, dx: str) -> Yard:
    """The notch of a module cut elsewhere."""
    old = notch(yard, index)
    x0, y0, x1, y1 = old.box.x0 + inch(dx), old.box.y0, old.box.x1 + inch(dx), old.box.y1
    return by(
        yard,
        lambda a: changed(a, "modules", index, notch=replace(old, box=replace(old.box, x0=x0, y0=y0, x1=x1, y1=y1))),
    )


def recut(yard: Yard, index: int = 0, **new: object) -> Yard:
    """The notch of a module told with other values."""
    cut = replace(notch(yard, index), **new)  # type: ignore[arg-type]
    return by(yard, lambda a: changed(a, "modules", index, notch=cut))


def forward(yard: Yard, part: str, index: int, dx: str, dy: str) -> Yard:
    """A part of an overhung layout where it would stand if the wood ended with the cushions."""
    return by(yard, lambda a: nudged(a, part, index, dx, dy))


def built(yard: Yard, **new: object) -> Yard:
    """The layout of a yard, where the frame is built otherwise."""
    return framed(yard, carpentry=Carpentry(**new))  # type: ignore[arg-type]


COMPLETE = [
    ("no run", "shape", by(LINE, lambda a: replace(a, runs=()))),
    ("straight named L", "shape", by(LINE, lambda a: replace(a, shape=Shape.L))),
    ("L named U", "shape", by(ELL, lambda a: replace(a, shape=Shape.U))),
    ("U named straight", "shape", by(HORSESHOE, lambda a: replace(a, shape=Shape.STRAIGHT))),
    ("right arm before left", "shape", by(HORSESHOE, lambda a: swapped(a, "runs", 1, 2))),
    ("arm before main", "shape", by(ELL, lambda a: swapped(a, "runs", 0, 1))),
    ("hand of a straight run", "shape", by(LINE, lambda a: replace(a, hand=LEFT))),
    ("other hand", "shape", by(ELL, lambda a: replace(a, hand=LEFT))),
    ("hand of a U", "shape", by(HORSESHOE, lambda a: replace(a, hand=RIGHT))),
    ("treatment lacks", "shape", by(ELL, lambda a: replace(a, corner=None))),
    ("treatment of a straight run", "shape", by(LINE, lambda a: replace(a, corner=INSIDE))),
    ("aligned run lacks", "shape", by(ELL, lambda a: replace(a, pose=replace(a.pose, aligned=LEFT)))),
    ("end lacks", "ends", by(LINE, lambda a: without(a, "ends", 1))),
    ("end too many", "ends", by(LINE, lambda a: replace(a, ends=(*a.ends, a.ends[0])))),
    ("ends in the other order", "ends", by(LINE, lambda a: swapped(a, "ends", 0, 1))),
    ("ends of a U in the other order", "ends", by(HORSESHOE, lambda a: swapped(a, "ends", 0, 1))),
    ("end of another hand", "ends", by(ELL, lambda a: changed(a, "ends", 0, hand=RIGHT))),
    ("end of another run", "ends", by(HORSESHOE, lambda a: changed(a, "ends", 0, run=MAIN))),
    ("unknown cushion", "cushion", by(LINE, lambda a: changed(a, "runs", 0, cushion="round"))),
    ("turned though it may not", "cushion", by(LINE, lambda a: changed(a, "runs", 0, turned=True))),
    ("no module", "count", by(LINE, lambda a: changed(replace(a, modules=()), "runs", 0, count=0))),
    ("module lacks", "count", by(LINE, lambda a: without(a, "modules", 2))),
    ("module twice", "count", by(LINE, lambda a: changed(a, "modules", 2, place=2))),
    ("module too many", "count", by(LINE, lambda a: replace(a, modules=(*a.modules, a.modules[0])))),
    ("count", "count", by(LINE, lambda a: changed(a, "runs", 0, count=4))),
    ("corner lacks", "count", by(ELL, lambda a: without(a, "modules", 0))),
    ("corner of no arm", "count", by(ELL, lambda a: changed(a, "modules", 0, corner=None))),
    ("corner of the other arm", "count", by(HORSESHOE, lambda a: changed(a, "modules", 0, corner=LEFT))),
    ("second corner counted as the first", "count", by(HORSESHOE, lambda a: changed(a, "modules", 1, place=0))),
    ("corner told of the shorter run", "count", by(ELL, lambda a: changed(a, "modules", 0, run=RIGHT))),
    ("equal runs, the other one along the edge", "count", by(TIED, lambda a: replace(a, pose=replace(a.pose, aligned=MAIN)))),
    ("corner told of the main run where an arm owns it", "count", by(FREE, lambda a: changed(a, "modules", 1, run=MAIN))),
    ("other cushion in a run", "cushion", by(LINE, lambda a: changed(a, "modules", 0, cushion="slim"))),
    ("no cushion in a run", "cushion", by(LINE, lambda a: changed(a, "modules", 0, cushion=None))),
    ("turned in a run", "cushion", by(LINE, lambda a: changed(a, "modules", 0, turned=True))),
    ("table in a notched corner", "shape", by(ELL, lambda a: changed(a, "modules", 0, cushion=None, seats=0))),
    ("cushion at a table corner", "shape", by(TABLED, lambda a: changed(a, "modules", 0, cushion="square"))),
    ("turned table", "cushion", by(TABLED, lambda a: changed(a, "modules", 0, turned=True))),
    ("unknown cushion in a corner", "cushion", by(ELL, lambda a: changed(a, "modules", 0, cushion="round"))),
    ("turned in a corner", "cushion", by(ELL, lambda a: changed(a, "modules", 0, turned=True))),
    ("rail of no run", "count", by(LINE, lambda a: changed(a, "rails", 1, run=LEFT))),
    ("post of no run", "count", by(ELL, lambda a: changed(a, "posts", 0, run=LEFT))),
]  # fmt: skip

WHOLE = [
    ("whole.order", "modules in another order", "order", by(LINE, lambda a: swapped(a, "modules", 0, 1))),
    ("whole.order", "arm told first", "order", by(ELL, lambda a: replace(a, modules=a.modules[::-1]))),
    ("whole.order", "back before front", "order", by(LINE, lambda a: swapped(a, "rails", 0, 2))),
    ("whole.order", "cross rails last", "order", by(HORSESHOE, lambda a: replace(a, rails=tuple(sorted(a.rails, key=lambda r: r.face is Face.CROSS))))),
    ("whole.wishes", "fewest seats", "seats", asking(LINE, least=4)),
    ("whole.wishes", "most seats", "seats", asking(LINE, most=2)),
    ("whole.wishes", "shape", "shape", asking(LINE, shape=Shape.L)),
    ("whole.wishes", "shape of a U", "shape", asking(HORSESHOE, shape=Shape.L)),
    ("whole.wishes", "hand", "hand", asking(ELL, hand=LEFT)),
    ("whole.wishes", "left end", "ends", asking(LINE, left_end=OPEN)),
    ("whole.wishes", "right end", "ends", asking(LINE, right_end=OPEN)),
    ("whole.wishes", "left end of a U", "ends", asking(HORSESHOE, left_end=ARMED)),
    ("whole.wishes", "corner", "corner", asking(ELL, corner=TABLE)),
    ("whole.cushions", "seats told", "seats", by(LINE, lambda a: changed(a, "modules", 0, seats=2))),
    ("whole.cushions", "places of a bench", "seats", by(MIXED, lambda a: changed(a, "modules", 5, seats=1))),
    ("whole.cushions", "a table that sits", "seats", by(TABLED, lambda a: changed(a, "modules", 0, seats=1))),
    ("whole.cushions", "stock of one run", "stock", cushioned(LINE, "square", own=2)),
    ("whole.cushions", "stock over runs and corners", "stock", cushioned(HORSESHOE, "square", own=8)),
    ("whole.cushions", "stock of a kind used in two places", "stock", cushioned(MIXED, "square", own=3)),
    ("whole.cushions", "purchases lack", "purchases", by(LINE, lambda a: replace(a, purchases=()))),
    ("whole.cushions", "used told", "purchases", by(LINE, lambda a: replace(a, purchases=(Purchase("square", 2, 0),)))),
    ("whole.cushions", "to buy told", "purchases", by(LINE, lambda a: replace(a, purchases=(Purchase("square", 3, 1),)))),
    ("whole.cushions", "purchases in another order", "purchases", by(MIXED, lambda a: swapped(a, "purchases", 0, 1))),
    ("whole.cushions", "more to buy than may be bought", "buy", asking(MIXED, buy_most=2)),
    ("whole.cushions", "nothing may be bought", "buy", asking(cushioned(LINE, "square", own=2, price=Fraction(30)), buy_most=0)),
    ("whole.cushions", "fewer in the shed", "purchases", cushioned(MIXED, "square", own=3, price=Fraction(30))),
]  # fmt: skip

SEATING = [
    ("seating.decks", "pitch", "pitch", by(LINE, lambda a: changed(a, "runs", 0, pitch=inch(24)))),
    ("seating.decks", "pitch of an arm", "pitch", by(MIXED, lambda a: changed(a, "runs", 2, pitch=inch("97/4")))),
    ("seating.decks", "deck", "deck", by(LINE, lambda a: changed(a, "runs", 0, deck=box(20, 5, 90, 29)))),
    ("seating.decks", "deck of an arm", "deck", by(ELL, lambda a: nudged(a, "runs", 1, "1", plan="deck"))),
    ("seating.decks", "deck of the left arm", "deck", by(HORSESHOE, lambda a: nudged(a, "runs", 1, "1/16", plan="deck"))),
    ("seating.modules", "module moved", "module-place", by(LINE, lambda a: nudged(a, "modules", 1, "1/16"))),
    ("seating.modules", "module on another", "overlap", by(LINE, lambda a: nudged(a, "modules", 1, "-2"))),
    ("seating.modules", "corner moved", "module-place", by(ELL, lambda a: nudged(a, "modules", 0, "1/16"))),
    ("seating.modules", "left corner moved", "module-place", by(HORSESHOE, lambda a: nudged(a, "modules", 1, "0", "1/16"))),
    ("seating.modules", "at its back", "module-place", by(FORWARD, lambda a: nudged(a, "modules", 1, "0", "-1/2"))),
    ("seating.modules", "as deep as its place", "module-place", by(FORWARD, lambda a: changed(a, "modules", 1, box=replace(a.modules[1].box, y0=inch(5))))),
    ("seating.modules", "module of a spread arm at its back", "module-place", by(EASED, lambda a: nudged(a, "modules", 4, "-57/16"))),
    ("seating.modules", "module of a spread left arm at its back", "module-place", by(SPREADS, lambda a: nudged(a, "modules", 5, "61/16"))),
    ("seating.modules", "counted from the other end", "module-place", by(LEFT_ELL, lambda a: replace(a, modules=tuple(replace(m, place=4 - m.place) if m.run is MAIN and m.place else m for m in a.modules)))),
    ("seating.backs", "back panel", "back", by(LINE, lambda a: nudged(a, "runs", 0, "0", "1/2", plan="back"))),
    ("seating.backs", "back of an arm", "back", by(ELL, lambda a: nudged(a, "runs", 1, "1", plan="back"))),
    ("seating.backs", "back stops short of an arm", "back", by(HORSESHOE, lambda a: changed(a, "runs", 0, back=box(20, "3/2", "579/4", 5)))),
    ("seating.ends", "end moved", "ends", by(LINE, lambda a: nudged(a, "ends", 0, "1"))),
    ("seating.ends", "end of another kind", "ends", by(LINE, lambda a: changed(a, "ends", 1, kind=OPEN))),
    ("seating.ends", "end of an arm", "ends", by(ELL, lambda a: nudged(a, "ends", 1, "0", "1"))),
    ("seating.ends", "open end of a left arm", "ends", by(HORSESHOE, lambda a: changed(a, "ends", 0, kind=ARMED))),
    ("seating.legroom_strips", "leg room short", "legroom", by(LINE, lambda a: changed(a, "runs", 0, legroom=box(20, "117/4", "371/4", 40)))),
    ("seating.legroom_strips", "leg room of an arm", "legroom", by(ELL, lambda a: nudged(a, "runs", 1, "1", plan="legroom"))),
    ("seating.legroom_strips", "more leg room asked", "legroom", asking(LINE, legroom=inch(20))),
    ("seating.legroom_strips", "arms too near", "legroom", NARROW),
    ("seating.footprint", "moved", "footprint", by(LINE, lambda a: replace(a, footprint=(shifted(a.footprint[0], "0", "1"), *a.footprint[1:])))),
    ("seating.footprint", "lacks an end", "footprint", by(LINE, lambda a: without(a, "footprint", 2))),
    ("seating.footprint", "lacks an outside post", "footprint", by(STOUT, lambda a: without(a, "footprint", -1))),
    ("seating.footprint", "lacks the gap behind the cushions", "footprint", by(FORWARD, lambda a: replace(a, footprint=tuple(replace(b, y0=inch("11/2")) if b == a.runs[0].deck else b for b in a.footprint)))),
    ("seating.footprint", "takes more than it needs", "footprint", by(ELL, lambda a: replace(a, footprint=(*a.footprint, box(60, 40, 61, 41))))),
    ("seating.on_the_mark", "not on the mark", "mark", by(LINE, lambda a: moved(a, "1/32", "0"))),
    ("seating.on_the_mark", "strips of a notch not on the mark", "mark", recut(ANGLED, strips=tuple(shifted(b, "1/32") for b in notch(ANGLED, 0).strips))),
    ("seating.on_the_mark", "rail not on the mark", "mark", by(LINE, lambda a: changed(a, "rails", 1, length=inch("1/32")))),
]  # fmt: skip

# Squares with an angle post, of boards 3/4 by 3 1/2 in, are cut 13/16 in deep, 3 9/16 in along and 4 5/16 in across.
CORNERS = [
    ("corners.gap", "gap not told", "gap", by(FORWARD, lambda a: replace(a, gap=ZERO))),
    ("corners.gap", "gap where nothing overhangs", "gap", by(LINE, lambda a: replace(a, gap=inch("1/16")))),
    ("corners.gap", "other overhang asked", "gap", framed(FORWARD, overhang=inch("9/16"))),
    ("corners.gap", "spread told", "gap", by(EASED, lambda a: replace(a, gap=inch("7/2")))),
    ("corners.gap", "spread by the corner that needs less", "gap", by(SPREADS, lambda a: replace(a, gap=inch("57/16")))),
    ("corners.gap", "spread around more air", "gap", framed(EASED, notch_clearance=inch("1/4"))),
    ("corners.gap", "spread of another cushion", "gap", cushioned(SPREADS, "stool", ease=ZERO)),
    ("corners.backs_meet", "low post where backs lean", "backs", built(LOWERED, lean=Fraction(5))),
    ("corners.backs_meet", "angle post where backs lean", "backs", built(ANGLED, lean=Fraction(1, 2))),
    ("corners.backs_meet", "low post between uprights on edge", "backs", built(LOWERED, upright_at_corner=Stance.EDGE)),
    ("corners.backs_meet", "angle post between uprights on edge", "backs", built(ANGLES, upright_at_corner=Stance.EDGE)),
    ("corners.room_for_wood", "wood less deep than the spread place", "corner-room", framed(EASED, post=replace(EASED.project.frame.post, width=inch(30)))),
    ("corners.room_for_wood", "wood less deep than the overhung place", "corner-room", framed(OVERHUNG, post=replace(OVERHUNG.project.frame.post, width=inch("91/8")))),
    ("corners.cushions_in_corners", "too deep for a place with a gap", "corner-fit", cushioned(SPREADS, "stool", depth=inch(25))),
    ("corners.cushions_in_corners", "too wide for a place with a gap", "corner-fit", cushioned(ANGLES, "stool", width=inch(25))),
    ("corners.cushions_in_corners", "cover at the backs", "cover", by(EASED, lambda a: nudged(a, "modules", 0, "-57/16", "-57/16", plan="cover"))),
    ("corners.cushions_in_corners", "cover off one back", "cover", by(SPREADS, lambda a: nudged(a, "modules", 1, "61/16", plan="cover"))),
    ("corners.cushions_in_corners", "cover not told where it leaves a gap", "cover", by(OVERHUNG, lambda a: changed(a, "modules", 0, cover=None))),
    ("corners.notches", "strips lack", "notch", recut(ANGLED, strips=())),
    ("corners.notches", "strip lacks", "notch", recut(ANGLED, strips=notch(ANGLED, 0).strips[:1])),
    ("corners.notches", "strips of the other corner", "notch", recut(ANGLED_LEFT, strips=notch(ANGLED, 0).strips)),
    ("corners.notches", "strips in the other order", "notch", recut(ANGLED, strips=notch(ANGLED, 0).strips[::-1])),
    ("corners.notches", "depth of strips told wrong", "notch", recut(ANGLED, depth=inch("3/4"))),
    ("corners.notches", "depth not told", "notch", recut(ANGLED, depth=None)),
    ("corners.notches", "depth of a whole notch", "notch", recut(ELL, depth=inch("57/16"))),
    ("corners.notches", "strips of a whole notch", "notch", recut(ELL, strips=(notch(ELL, 0).box,))),
    ("corners.notches", "across told as along", "notch", recut(ANGLED, along_y=inch("57/16"))),
    ("corners.notches", "wider boards", "notch", framed(ANGLED, angle=Section("1x5", inch("3/4"), inch("9/2")))),
    ("corners.notches", "thicker boards", "notch", framed(ANGLED, angle=Section("5/4x4", inch(1), inch("7/2")))),
    ("corners.notches", "boards that the cushions lie off", "notch", framed(ANGLED, overhang=inch("13/16"))),
    ("corners.notches", "boards cut what may not be cut", "notch", cushioned(ANGLED, "square", may_notch=False)),
    ("corners.notches", "notch at boards lacks", "notch", by(ANGLES, lambda a: changed(a, "modules", 1, notch=None))),
    ("corners.notches", "notch above a low post", "notch", by(LOWERED, lambda a: changed(a, "modules", 0, notch=NOTCH))),
    ("corners.notches", "notch in a spread", "notch", by(EASED, lambda a: changed(a, "modules", 0, notch=notch(ELL, 0)))),
    ("corners.notches", "notch as without overhang", "notch", by(OVERHUNG, lambda a: changed(a, "modules", 0, notch=notch(HORSESHOE, 0)))),
    ("corners.room_for_wood", "posts too thick for an arm", "corner-room", framed(TURNED, post=replace(TURNED.project.frame.post, width=inch("37/4")))),
    ("corners.room_for_wood", "posts too thick for the main run", "corner-room", framed(ELL, post=replace(ELL.project.frame.post, width=inch("91/8")))),
    ("corners.cushions_in_corners", "too wide for its place", "corner-fit", cushioned(MIXED, "stool", width=inch(25))),
    ("corners.cushions_in_corners", "too deep for its place", "corner-fit", cushioned(MIXED, "stool", depth=inch(25))),
    ("corners.cushions_in_corners", "wider than deep", "corner-fit", cushioned(ELL, "square", width=inch(25))),
    ("corners.cushions_in_corners", "cover lacks", "cover", by(MIXED, lambda a: changed(a, "modules", 0, cover=None))),
    ("corners.cushions_in_corners", "cover at the other side", "cover", by(MIXED, lambda a: nudged(a, "modules", 1, "-1", plan="cover"))),
    ("corners.cushions_in_corners", "cover where the cushion fills its place", "cover", by(ELL, lambda a: changed(a, "modules", 0, cover=a.modules[0].box))),
    ("corners.cushions_in_corners", "cover in a run", "cover", by(LINE, lambda a: changed(a, "modules", 0, cover=box(20, 5, 44, 29)))),
    ("corners.cushions_in_corners", "cover of a table", "cover", by(TABLED, lambda a: changed(a, "modules", 0, cover=a.modules[0].box))),
    ("corners.notches", "notch lacks", "notch", by(ELL, lambda a: changed(a, "modules", 0, notch=None))),
    ("corners.notches", "notch of the left corner lacks", "notch", by(HORSESHOE, lambda a: changed(a, "modules", 1, notch=None))),
    ("corners.notches", "notch told small", "notch", by(ELL, lambda a: changed(a, "modules", 0, notch=replace(notch(ELL, 0), along_x=inch(3))))),
    ("corners.notches", "notch told small the other way", "notch", by(ELL, lambda a: changed(a, "modules", 0, notch=replace(notch(ELL, 0), along_y=inch(3))))),
    ("corners.notches", "notch drawn small", "notch", by(ELL, lambda a: changed(a, "modules", 0, notch=replace(notch(ELL, 0), box=box(20, 5, 22, 7))))),
    ("corners.notches", "notch off the post", "notch", pushed(ELL, 0, "9")),
    ("corners.notches", "notch out of the cushion", "notch", pushed(ELL, 0, "-1/4")),
    ("corners.notches", "left notch off the post", "notch", pushed(HORSESHOE, 1, "-9")),
    ("corners.notches", "notch of the other corner's cushion", "notch", by(MIXED, lambda a: changed(a, "modules", 1, notch=notch(MIXED, 0)))),
    ("corners.notches", "notch in a run", "notch", by(LINE, lambda a: changed(a, "modules", 1, notch=NOTCH))),
    ("corners.notches", "notch beside an outside post", "notch", by(LEFT_ELL, lambda a: changed(a, "modules", 0, notch=NOTCH))),
    ("corners.notches", "notch in a table", "notch", by(TABLED, lambda a: changed(a, "modules", 0, notch=NOTCH))),
    ("corners.notches", "may not be notched", "notch", cushioned(ELL, "square", may_notch=False)),
    ("corners.notches", "more air asked", "notch", framed(ELL, notch_clearance=inch("1/4"))),
]  # fmt: skip

TIMBER = [
    ("timber.posts", "flush with the cushions", "post", forward(FORWARD, "posts", 0, "0", "1/2")),
    ("timber.posts", "flush with the cushions of an arm", "post", forward(u_free(INSIDE, over="1/2"), "posts", 1, "-1/2", "0")),
    ("timber.posts", "inner post flush with the cushions", "post", forward(OVERHUNG, "posts", -2, "1/2", "1/2")),
    ("timber.posts", "inside post for an angle post outside", "post", by(LEFT_ELL, lambda a: replace(a, corner=ANGLE))),
    ("timber.rails", "flush with the cushions", "rail-fill", forward(FORWARD, "rails", 0, "0", "1/2")),
    ("timber.rails", "front rail as long as the cushions", "rail-fill", by(OVERHUNG, lambda a: changed(a, "rails", 0, box=replace(a.rails[0].box, x0=a.runs[0].deck.x0)))),
    ("timber.rails", "front rail of an arm flush with its cushions", "rail-fill", forward(OVERHUNG, "rails", 5, "-1/2", "0")),
    ("timber.rails", "cross rail flush with the cushions", "rail-fill", forward(OVERHUNG, "rails", -1, "1/2", "1/2")),
    ("timber.posts", "off its line", "post", by(LINE, lambda a: nudged(a, "posts", 0, "1/16"))),
    ("timber.posts", "off the line of an arm", "post", by(HORSESHOE, lambda a: nudged(a, "posts", 3, "0", "1/16"))),
    ("timber.posts", "at no line", "post", by(LINE, lambda a: changed(a, "posts", 0, line=3))),
    ("timber.posts", "line not told", "post", by(LINE, lambda a: changed(a, "posts", 0, line=None))),
    ("timber.posts", "in front at the start of a run", "post", by(LINE, lambda a: changed(a, "posts", 0, line=0))),
    ("timber.posts", "behind at a corner in front", "post", by(MIXED, lambda a: changed(a, "posts", 1, face=Face.FRONT))),
    ("timber.posts", "line counted from the other hand", "post", by(LEFT_ELL, lambda a: changed(a, "posts", 0, line=2))),
    ("timber.posts", "not flush", "post", by(LINE, lambda a: nudged(a, "posts", 1, "0", "1"))),
    ("timber.posts", "in no line of rails", "post", by(LINE, lambda a: changed(a, "posts", 1, face=Face.CROSS))),
    ("timber.posts", "corner post in a straight run", "post", by(LINE, lambda a: changed(a, "posts", 1, role=PostRole.CORNER))),
    ("timber.posts", "inner post moved", "post", by(ELL, lambda a: nudged(a, "posts", -2, "1/16"))),
    ("timber.posts", "corner post dropped", "post", by(ELL, lambda a: without(a, "posts", -1))),
    ("timber.posts", "corner post of the other arm dropped", "post", by(HORSESHOE, lambda a: without(a, "posts", -3))),
    ("timber.posts", "corner post told of the main run", "post", by(ELL, lambda a: changed(a, "posts", -1, run=MAIN))),
    ("timber.posts", "inside for outside", "post", by(ELL, lambda a: replace(a, corner=OUTSIDE))),
    ("timber.posts", "thicker posts", "post", framed(LINE, post=replace(LINE.project.frame.post, width=inch(4)))),
    ("timber.rails", "plan shrunk", "rail-fill", by(LINE, lambda a: changed(a, "rails", 0, box=box(20, "111/4", 42, "117/4")))),
    ("timber.rails", "off the front", "rail-fill", by(LINE, lambda a: nudged(a, "rails", 0, "0", "-1"))),
    ("timber.rails", "lacks", "rail-fill", by(LINE, lambda a: without(a, "rails", 3))),
    ("timber.rails", "bays miscounted", "rail-fill", by(LINE, lambda a: changed(a, "rails", 1, bay=3))),
    ("timber.rails", "post dropped", "rail-fill", by(LINE, lambda a: without(a, "posts", 0))),
    ("timber.rails", "post of an arm dropped", "rail-fill", by(ELL, lambda a: without(a, "posts", 2))),
    ("timber.rails", "of an arm lacks", "rail-fill", by(ELL, lambda a: without(a, "rails", 5))),
    ("timber.rails", "bays counted from the other hand", "rail-fill", by(LEFT_ELL, lambda a: replace(swapped(changed(changed(a, "rails", 0, bay=2), "rails", 1, bay=1), "rails", 0, 1)))),
    ("timber.rails", "cross rail lacks", "rail-fill", by(ELL, lambda a: without(a, "rails", -1))),
    ("timber.rails", "cross rail of the left corner lacks", "rail-fill", by(HORSESHOE, lambda a: without(a, "rails", 8))),
    ("timber.rails", "cross rail to the back of the shorter run", "rail-fill", by(HORSESHOE, lambda a: changed(a, "rails", 8, box=box("239/2", "111/4", "559/4", "117/4")))),
    ("timber.rails", "another cross rail, of the main run", "rail-fill", by(ELL, lambda a: replace(a, rails=(*a.rails, replace(a.rails[-1], run=MAIN))))),
    ("timber.rails", "cross rail told of the main run", "rail-fill", by(ELL, lambda a: changed(a, "rails", -1, run=MAIN))),
    ("timber.rails", "cross rail through a post", "rail-fill", by(MIXED, lambda a: changed(a, "rails", -1, box=replace(a.rails[-1].box, y0=inch("13/2"))))),
    ("timber.rails", "through the rail of the arm that owns an outside corner", "rail-fill", by(TIED, lambda a: changed(a, "rails", 2, box=replace(a.rails[2].box, x1=a.rails[2].box.x1 + inch("3/2"))))),
    ("timber.lengths", "shrunk", "rail-length", by(LINE, lambda a: changed(a, "rails", 1, length=a.rails[1].length - inch("1/16")))),
    ("timber.lengths", "cross rail", "rail-length", by(ELL, lambda a: changed(a, "rails", -1, length=inch(17)))),
    ("timber.lengths", "cross rail of an owning arm told by its thickness", "rail-length", by(FREE, lambda a: changed(a, "rails", -1, length=inch("3/2")))),
    ("timber.lengths", "rail of an arm told by its thickness", "rail-length", by(ELL, lambda a: changed(a, "rails", 4, length=inch("3/2")))),
    ("timber.lengths", "span", "span", framed(LINE, max_span=inch(46))),
    ("timber.lengths", "board", "board", Yard(replace(LINE.project, shop=replace(LINE.project.shop, longest_carried=inch(40))), LINE.layout)),
    ("timber.solids_apart", "posts in one place", "overlap", by(LINE, lambda a: replace(a, posts=(*a.posts, a.posts[0])))),
    ("timber.solids_apart", "rail through a post", "overlap", by(LINE, lambda a: changed(a, "rails", 0, box=box(20, "111/4", 45, "117/4")))),
]  # fmt: skip


BENCH, CUT, CUT_U = split_straight(), split_ell(INSIDE, LEFT), split_u(OUTSIDE)


def split(*lines: tuple[Side, int]) -> tuple[ModuleLine, ...]:
    """Splits as a layout tells them."""
    return tuple(ModuleLine(side, line) for side, line in lines)


def longest(yard: Yard, size: str) -> Yard:
    """The layout of a yard, where pieces may be so long."""
    return Yard(carried(yard.project, size), yard.layout)


def housed(yard: Yard, deep: str, board: str) -> Yard:
    """The layout of a yard with rails let into posts, from boards of a length without trim."""
    frame = replace(yard.project.frame, carpentry=Carpentry(rail_joint=RailJoint.HOUSING, housing=inch(deep)))
    shop = Shop((Board("2x8", inch(board)),), ZERO, ZERO)
    return Yard(replace(yard.project, frame=frame, shop=shop), yard.layout)


# The pieces of the straight run are 74 1/4, 72 3/4 and 50 in long, the corner piece of the L 76 1/4 in, in the U 52 in.
SPLITS = [
    ("splitting.split_lines", "split though nothing asks", "split", Yard(LINE.project, BENCH.layout)),
    ("splitting.split_lines", "at the end of a run", "split", by(BENCH, lambda a: replace(a, splits=split((MAIN, 3), (MAIN, 8))))),
    ("splitting.split_lines", "at the start of a run", "split", by(BENCH, lambda a: replace(a, splits=split((MAIN, 0), (MAIN, 3), (MAIN, 6))))),
    ("splitting.split_lines", "of a run that is not there", "split", by(BENCH, lambda a: replace(a, splits=(*a.splits, *split((LEFT, 0)))))),
    ("splitting.split_lines", "told twice", "split", by(BENCH, lambda a: replace(a, splits=split((MAIN, 3), (MAIN, 3), (MAIN, 6))))),
    ("splitting.split_lines", "in another order", "split", by(CUT, lambda a: replace(a, splits=a.splits[::-1]))),
    ("splitting.corners", "arm not split off", "split", by(CUT, lambda a: replace(a, splits=a.splits[:1]))),
    ("splitting.corners", "main run not split off from its first corner", "split", by(CUT_U, lambda a: replace(a, splits=a.splits[1:]))),
    ("splitting.corners", "main run not split off from its last corner", "split", by(CUT_U, lambda a: replace(a, splits=(a.splits[0], *a.splits[2:])))),
    ("splitting.sections", "the first piece too long", "carry", longest(BENCH, "1187/16")),
    ("splitting.sections", "a split dropped", "carry", by(BENCH, lambda a: replace(a, splits=a.splits[:1]))),
    ("splitting.sections", "the corner's piece too long", "carry", longest(CUT, "1219/16")),
    ("splitting.sections", "the piece of an arm that owns its corner too long", "carry", longest(CUT_U, "831/16")),
    ("splitting.sections", "a thicker back behind the corner", "carry", framed(CUT_U, back_thickness=inch("57/16"))),
    ("splitting.sections", "a thicker end", "carry", framed(BENCH, arm_thickness=inch("25/16"))),
    ("timber.posts", "post of a split dropped", "post", by(BENCH, lambda a: without(a, "posts", 2))),
    ("timber.posts", "split where one post stands", "post", by(BENCH, lambda a: replace(a, splits=split((MAIN, 3), (MAIN, 5), (MAIN, 6))))),
    ("timber.posts", "two posts where nothing is split", "post", by(BENCH, lambda a: replace(a, splits=a.splits[:1]))),
    ("timber.posts", "post of a split moved", "post", by(BENCH, lambda a: nudged(a, "posts", 2, "1/16"))),
    ("timber.posts", "second post of a split in front of its corner dropped", "post", by(CUT, lambda a: replace(a, posts=tuple(p for p in a.posts if (p.run, p.face, p.line) != (LEFT, Face.FRONT, 0))))),
    ("timber.posts", "post of a split twice", "post", by(BENCH, lambda a: replace(a, posts=(*a.posts, next(p for p in a.posts if p.line == 3))))),
    ("timber.rails", "rail between the posts of a split", "rail-fill", by(BENCH, lambda a: replace(a, rails=(*a.rails, replace(a.rails[0], length=ZERO))))),
    ("timber.rails", "rail goes on through a split", "rail-fill", by(BENCH, lambda a: without(a, "rails", 1))),
    ("timber.lengths", "board too short for housings", "board", housed(LINE, "1/2", "47")),
]  # fmt: skip


def bowl(yard: Yard, x: str, y: str, radius: str = "5", clear: str = "0", height: Height = Height.FULL) -> Yard:
    """The layout of a yard where nothing but a round thing stands."""
    thing = Obstacle("bowl", (Point(inch(x), inch(y)),), inch(radius), inch(clear), height=height)
    return roomed(yard, obstacles=(thing,), openings=(), routes=())


def door(offset: str, swing: Swing = Swing.IN) -> Yard:
    """The straight run with a door in the edge that it backs onto, with nothing else in the room."""
    return roomed(LINE, openings=(Opening("door", "AB", inch(offset), inch(30), swing),), routes=())


def passage(width: str) -> Yard:
    """The straight run, its arm at 94 1/4 in, with a tub from 115 in on and a way between them."""
    corners = [("115", "0"), ("220", "0"), ("220", "80"), ("115", "80")]
    tub = Obstacle("tub", tuple(Point(inch(x), inch(y)) for x, y in corners))
    openings = (Opening("low", "AB", inch("185/2"), inch(40)), Opening("high", "CD", inch(40), inch(50)))
    return roomed(LINE, obstacles=(tub,), openings=openings, routes=(Route("way", "low", "high", inch(width)),))


# The straight run stands from x = 18 1/2 to 94 1/4 and y = 1 1/2 to 29 1/4; its leg room reaches y = 47 1/4.
# Its posts stand at x = 42 1/2 to 46 in front and at x = 66 3/4 to 70 1/4 behind.
PLACE = [
    ("stance.pose", "no rotation", "pose", by(LINE, lambda a: replace(a, pose=replace(a.pose, cos=Fraction(999999, 10**6))))),
    ("stance.pose", "turned a little", "pose", by(LINE, lambda a: replace(a, pose=replace(a.pose, cos=Fraction(999999, 1000001), sin=Fraction(2000, 1000001))))),
    ("stance.pose", "turned a little, free", "pose", by(FREE, lambda a: replace(a, pose=replace(a.pose, cos=Fraction(999999, 1000001), sin=Fraction(2000, 1000001))))),
    ("stance.pose", "turned half round", "pose", by(LINE, lambda a: replace(a, pose=replace(a.pose, cos=Fraction(-1))))),
    ("stance.pose", "an arm aligned, turned as for the main run", "pose", by(ALONG, lambda a: replace(a, pose=replace(a.pose, cos=Fraction(1), sin=Fraction(0))))),
    ("stance.pose", "the other arm's turn", "pose", by(ALONG, lambda a: replace(a, pose=replace(a.pose, sin=Fraction(-1))))),
    ("stance.pose", "counted from elsewhere", "pose", by(LINE, lambda a: replace(a, pose=replace(a.pose, origin=Point(inch(1), ZERO))))),
    ("stance.pose", "unknown edge", "pose", by(LINE, lambda a: replace(a, pose=replace(a.pose, edge="XY")))),
    ("stance.longest", "arm of an L along the edge", "longest", by(ELL, lambda a: replace(a, pose=replace(a.pose, aligned=RIGHT)))),
    ("stance.longest", "arm aligned, free", "longest", by(FREE, lambda a: replace(a, pose=replace(a.pose, aligned=LEFT)))),
    ("stance.longest", "shorter run along the edge", "longest", by(ALONG, lambda a: replace(a, pose=replace(a.pose, aligned=MAIN)))),
    ("stance.longest", "L with the longer arm", "longest", LONG_ARM),
    ("stance.against", "edge not asked", "against", by(LINE, lambda a: replace(a, pose=replace(a.pose, edge="CD")))),
    ("stance.against", "no edge", "against", by(LINE, lambda a: replace(a, pose=replace(a.pose, edge=None)))),
    ("stance.against", "free is asked", "against", asking(LINE, against=None)),
    ("stance.against", "other edges asked", "against", asking(LINE, against=("BC",))),
    ("stance.against", "too far off", "against", by(LINE, lambda a: moved(a, "0", "2"))),
    ("stance.against", "nearer asked", "against", asking(LINE, off_wall=inch("23/16"))),
    ("stance.against", "nearer asked of an arm", "against", asking(ALONG, off_wall=inch("23/16"))),
    ("stance.against", "behind the edge", "against", by(LINE, lambda a: moved(a, "0", "-2"))),
    ("stance.against", "distance told wrong", "against", by(LINE, lambda a: replace(a, off_edge=ZERO))),
    ("stance.against", "distance of an arm told wrong", "against", by(ALONG, lambda a: replace(a, off_edge=inch(1)))),
    ("stance.against", "distance told wrong, free", "against", by(FREE, lambda a: replace(a, off_edge=a.off_edge + inch(1)))),
    ("stance.against", "beyond the end of its edge", "against", by(LINE, lambda a: moved(a, "165", "0"))),
    ("stance.against", "before the start of its edge", "against", by(LINE, lambda a: moved(a, "-58", "0"))),
    ("stance.against", "arm before the start of its edge", "against", by(ALONG, lambda a: moved(a, "0", "104"))),
    ("room.inside", "out behind", "outside-room", by(LINE, lambda a: moved(a, "0", "-2"))),
    ("room.inside", "out at the side", "outside-room", by(LINE, lambda a: moved(a, "-19", "0"))),
    ("room.inside", "too close", "too-close", by(LINE, lambda a: moved(a, "-293/16", "0"))),
    ("room.inside", "tolerance", "too-close", roomed(LINE, tolerance=inch("7/4"))),
    ("room.inside", "an arm out", "outside-room", by(ALONG, lambda a: moved(a, "0", "-75"))),
    ("room.apart", "clear distance", "too-close", bowl(LINE, "60", "40", "2", "9")),
    ("room.apart", "not quite clear of the run", "too-close", bowl(LINE, "120", "20", "5", "329/16")),
    ("room.apart", "between the arms, too near to one", "too-close", bowl(HORSESHOE, "50", "70", "2", "5")),
    ("room.apart", "drain under a front post", "too-close", bowl(LINE, "44", "27", "1", height=Height.LOW)),
    ("room.apart", "drain under an end", "too-close", bowl(LINE, "18", "17", "1", height=Height.LOW)),
    ("room.apart", "drain's clear ground", "too-close", bowl(LINE, "60", "20", "1", "13", height=Height.LOW)),
    ("room.apart", "tap within reach", "too-close", bowl(LINE, "120", "20", "5", "329/16", height=Height.REACH)),
    ("room.apart", "drain that stands up", "too-close", roomed(DRAIN, obstacles=(replace(DRAIN.project.room.obstacles[0], height=Height.FULL),))),
    ("room.apart", "swing", "in-swing", door("90")),
    ("room.apart", "swing within the tolerance", "in-swing", door("1511/16")),
    ("room.legroom", "in the leg room", "legroom", bowl(LINE, "60", "52")),
    ("room.legroom", "in the leg room of an arm", "legroom", bowl(HORSESHOE, "100", "60")),
    ("room.legroom", "tap in the leg room", "legroom", bowl(LINE, "60", "52", height=Height.REACH)),
    ("room.legroom", "to the outline", "legroom", by(LINE, lambda a: moved(a, "0", "103"))),
    ("room.routes", "narrow", "route-blocked", passage("83/4")),
]  # fmt: skip

OTHERS = [*WHOLE, *SEATING, *CORNERS, *TIMBER, *SPLITS, *PLACE]
FACTS = {f"{fact.__module__.rpartition('.')[2]}.{fact.__name__}": fact for fact in _FACTS}


@pytest.mark.parametrize(("code", "yard"), [row[1:] for row in COMPLETE], ids=[row[0] for row in COMPLETE])
def test_incomplete_layout_is_told_by_that_alone(code: str, yard: Yard) -> None:
    """The other facts would speak of what is not there."""
    assert code in [finding.code for finding in whole.complete(Case(yard.project, yard.layout))]
    assert codes(yard) == [code]


@pytest.mark.parametrize(
    ("fact", "code", "yard"), [(f, c, y) for f, _, c, y in OTHERS], ids=[f"{f}: {n}" for f, n, _, _ in OTHERS]
)
def test_tampering_is_told_by_its_own_fact(fact: str, code: str, yard: Yard) -> None:
    """A layout that is complete but wrong, or right for another project only."""
    own = list(FACTS[fact](Case(yard.project, yard.layout)))
    assert code in [finding.code for finding in own]
    found = check_layout(yard.project, yard.layout)
    assert all(finding in found for finding in own)


def test_every_fact_of_the_checker_is_tampered_with() -> None:
    """No fact is listed that nothing here would miss, and none is tested that is not listed."""
    assert {row[0] for row in OTHERS} == set(FACTS)
    assert len(FACTS) == len(_FACTS)


RIGHT_ENOUGH = [
    ("just clear of the run", bowl(LINE, "120", "20", "5", "41/2")),
    ("out of the leg room", bowl(LINE, "60", "421/8")),
    ("drain in the leg room", bowl(LINE, "60", "52", height=Height.LOW)),
    ("drain between the feet", bowl(LINE, "56", "20", "1", "5", height=Height.LOW)),
    ("swing out", door("90", Swing.OUT)),
    ("swing apart", door("379/4")),
    ("swing on the tolerance", door("757/8")),
    ("way as wide as asked", passage("41/2")),
    ("as many to buy as may be bought", asking(MIXED, buy_most=3)),
    ("nothing to buy, nothing asked to be", asking(LINE, buy_most=0)),
    ("uprights on edge behind tall posts", built(ELL, upright_at_corner=Stance.EDGE)),
    ("backs that lean at a spread", built(EASED, lean=Fraction(5))),
    ("low post asks no notch", cushioned(LOWERED, "square", may_notch=False)),
    ("spread asks no notch", cushioned(EASED, "square", may_notch=False)),
    ("boards that stand in the gap", Yard(overhung(1), ell(ANGLE, LEFT, 1).layout)),
    ("table needs no cushion", cushioned(TABLED, "square", own=7)),
    ("table asks no fit", cushioned(TABLED, "square", may_notch=False)),
    ("hand of a straight run", asking(LINE, hand=LEFT)),
    ("longest piece", longest(BENCH, "297/4")),
    ("longest piece with a corner", longest(CUT, "305/4")),
    ("longest piece behind an outside post", longest(CUT_U, "52")),
    ("board for rails in housings", housed(LINE, "1/2", "48")),
]


@pytest.mark.parametrize("yard", [row[1] for row in RIGHT_ENOUGH], ids=[row[0] for row in RIGHT_ENOUGH])
def test_right_to_the_last_mark(yard: Yard) -> None:
    """What is just enough is enough."""
    assert codes(yard) == []


def told(yard: Yard) -> Iterable[Finding]:
    """What is found wrong."""
    return check_layout(yard.project, yard.layout)


def test_findings_are_errors_with_a_place_and_a_value() -> None:
    """What the report needs."""
    (finding,) = told(asking(LINE, least=4))
    assert finding.severity is Severity.ERROR
    assert finding.key == "wish.seats.least"
    assert finding.message == "3 seats, at least 4 are asked"


def test_width_of_a_route_past_the_seats() -> None:
    """From the arm at 94 1/4 in to the tub less one tolerance, 114 3/4 in."""
    yard = passage("20")
    (width,) = route_widths(yard.project, yard.layout)
    assert (width.asked, width.clear) == (inch(20), inch("41/2"))
