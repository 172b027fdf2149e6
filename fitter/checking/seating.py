"""Whether decks, modules, panels, ends and leg room lie where the sizes put them.

Written for a corner at the low-x end of the main run; `Case.plain` mirrors the others.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations

from shapely import box as area
from shapely.ops import unary_union

from fitter.checking.case import Case
from fitter.domain.findings import Finding
from fitter.domain.layout import Box, End, Module, Post, Rail, Run
from fitter.domain.wishes import CornerKind
from rooms.lengths import ZERO, Length


def decks(case: Case) -> Iterator[Finding]:
    """Each run's deck is its pitches long and its cushion deep, and the runs meet at the corner place."""
    x, y = case.start
    for run in case.layout.runs:
        if run.pitch != case.pitch(run):
            told, right = case.tell(run.pitch), case.tell(case.pitch(run))
            message = f"{run.side} run: pitch {told}, its cushion makes {right}"
            yield case.fault("pitch", message, "cushions")
    long, deep, side = case.pitch(case.main) * case.main.count, case.deck(case.main), case.side
    corner = case.deck(side) if side else ZERO
    low = x + corner
    yield from _placed(case, "deck", "main deck", case.main.deck, Box(low, y, low + long, y + deep))
    if side:
        short = case.pitch(side) * side.count
        yield from _placed(case, "deck", "side deck", side.deck, Box(x, y + deep, low, y + deep + short))
        if short > long:
            message = f"the main run is {case.tell(long)} long, the {side.side} run {case.tell(short)}"
            yield case.fault("corner-owner", message)


def modules(case: Case) -> Iterator[Finding]:
    """The modules tile the decks and the corner place, and no two lie over each other."""
    for module in case.layout.modules:
        name = f"module {module.place} of the {module.run} run"
        yield from _placed(case, "module-place", name, module.box, _slot(case, module))
    for one, other in combinations(case.layout.modules, 2):
        if overlapping(one.box, other.box):
            where = f"module {other.place} of the {other.run} run"
            message = f"module {one.place} of the {one.run} run lies over {where}"
            yield case.fault("overlap", message)


def _slot(case: Case, module: Module) -> Box:
    x, y = case.start
    if module.place == 0:
        wide = case.deck(case.side) if case.side else ZERO
        return Box(x, y, x + wide, y + case.deck(case.main))
    run = _run(case, module)
    deck, pitch = case.plain(run.deck), case.pitch(run)
    near, far = pitch * (module.place - 1), pitch * module.place
    if run is case.main:
        return Box(deck.x0 + near, deck.y0, deck.x0 + far, deck.y1)
    return Box(deck.x0, deck.y0 + near, deck.x1, deck.y0 + far)


def _run(case: Case, module: Module) -> Run:
    return next(run for run in case.layout.runs if run.side is module.run)


def corner(case: Case) -> Iterator[Finding]:
    """A cushion in the corner place fits it, and is notched exactly as the post there asks."""
    module, side = case.corner, case.side
    for other in case.layout.modules:
        if other.notch is not None and other is not module:
            yield case.fault("notch", f"module {other.place} of the {other.run} run is notched, no post stands there")
    if module is None or side is None:
        return
    if module.cushion is None:
        if module.notch is not None:
            yield case.fault("notch", "the table in the corner place is notched")
        return
    if case.pitch(case.main) > case.deck(side) or case.deck(case.main) > case.deck(case.main):
        message = f"a pitch of {case.tell(case.pitch(case.main))} does not fit {case.tell(case.deck(side))}"
        yield case.fault("corner-fit", message, "cushions")
    yield from _notch(case, module)


def _notch(case: Case, module: Module) -> Iterator[Finding]:
    kind = case.cushion(module.cushion or "")
    stands_in = case.layout.corner is CornerKind.INSIDE_POST
    need = case.post + case.project.frame.notch_clearance
    ease = kind.ease if kind else ZERO
    exact = max(Fraction(0), need.units - Fraction(ease.units, 2)) if stands_in else Fraction(0)
    size = Length(-(-exact // case.mark.units) * case.mark.units)
    if not size:
        if module.notch is not None:
            yield case.fault("notch", f"the corner cushion is notched, {case.layout.corner} needs no notch")
        return
    if kind is not None and not kind.may_notch:
        yield case.fault("notch", f"{kind.name} may not be notched", "cushions")
    if module.notch is None or (module.notch.along_x, module.notch.along_y) != (size, size):
        told = "none" if module.notch is None else case.tell(module.notch.along_x)
        yield case.fault("notch", f"the corner cushion has a notch of {told}, the post asks {case.tell(size)}")
        return
    x, y = case.start
    cut, place = case.plain(module.notch.box), case.plain(module.box)
    sized = (cut.x1 - cut.x0, cut.y1 - cut.y0) == (size, size)
    # A cushion with ease begins half the ease inside its place, and its notch with it.
    at_post = x <= cut.x0 <= x + max(ease, ZERO) and y <= cut.y0 <= y + max(ease, ZERO)
    if not (sized and at_post and cut.x1 <= place.x1 and cut.y1 <= place.y1):
        yield case.fault("notch", f"the notch at {case.tell_box(module.notch.box)} is not cut at the post")


def backs_and_ends(case: Case) -> Iterator[Finding]:
    """Back panels stand behind the deck depth, and ends outside the runs."""
    (x, y), t, side = case.start, case.back, case.side
    deck = case.plain(case.main.deck)
    low = x - t if side else x
    yield from _placed(case, "back", "main back panel", case.main.back, Box(low, y - t, deck.x1, y))
    sizes = [case.end(end.kind) for end in case.layout.ends]
    if side is None:
        slots = [
            Box(x - sizes[0], y - t, x, deck.y1),
            Box(deck.x1, y - t, deck.x1 + sizes[1], deck.y1),
        ]
    else:
        short = case.plain(side.deck)
        yield from _placed(case, "back", "side back panel", side.back, Box(x - t, y, x, short.y1))
        slots = [
            Box(deck.x1, y - t, deck.x1 + sizes[0], deck.y1),
            Box(x - t, short.y1, short.x1, short.y1 + sizes[1]),
        ]
    for end, slot in zip(case.layout.ends, slots, strict=True):
        yield from _placed(case, "ends", f"{end.kind} end of the {end.run} run", end.box, slot)


def legroom_strips(case: Case) -> Iterator[Finding]:
    """The leg room is the strip of that depth before each run's front."""
    deep, deck = case.legroom, case.plain(case.main.deck)
    strip = Box(deck.x0, deck.y1, deck.x1, deck.y1 + deep)
    yield from _placed(case, "legroom", "main leg room", case.main.legroom, strip)
    if case.side:
        deck = case.plain(case.side.deck)
        strip = Box(deck.x1, deck.y0, deck.x1 + deep, deck.y1)
        yield from _placed(case, "legroom", "side leg room", case.side.legroom, strip)


def footprint(case: Case) -> Iterator[Finding]:
    """The footprint covers modules, panels, ends and posts."""
    layout = case.layout
    # Whole units this small are exact as floats, and so are rectangles of them.
    cover = unary_union([_flat(box) for box in layout.footprint])
    things = [
        *((f"module {m.place} of the {m.run} run", m.box) for m in layout.modules),
        *((f"back of the {run.side} run", run.back) for run in layout.runs),
        *((f"deck of the {run.side} run", run.deck) for run in layout.runs),
        *((f"end of the {end.run} run", end.box) for end in layout.ends),
        *((f"{post.role} post of the {post.run} run", post.box) for post in layout.posts),
        *((f"{rail.face} rail of the {rail.run} run", rail.box) for rail in layout.rails),
    ]
    for name, box in things:
        if not cover.covers(_flat(box)):
            yield case.fault("footprint", f"the {name} stands out of the footprint at {case.tell_box(box)}")


def on_the_mark(case: Case) -> Iterator[Finding]:
    """Every place and every cut length is whole in the shop mark."""
    layout, mark = case.layout, case.mark
    things: list[Module | End | Post | Rail] = [*layout.modules, *layout.ends, *layout.posts, *layout.rails]
    boxes = [
        *(thing.box for thing in things),
        *(box for run in layout.runs for box in (run.deck, run.back, run.legroom)),
        *layout.footprint,
        *(module.notch.box for module in layout.modules if module.notch),
    ]
    for box in boxes:
        if any(place.units % mark.units for place in (box.x0, box.y0, box.x1, box.y1)):
            yield case.fault("mark", f"the box {case.tell_box(box)} is not on the shop mark {case.tell(mark)}")
    for rail in layout.rails:
        if rail.length.units % mark.units:
            yield case.fault("mark", f"a rail of {case.tell(rail.length)} is not on the shop mark {case.tell(mark)}")


def overlapping(one: Box, other: Box) -> bool:
    """Whether two boxes share some area."""
    return max(one.x0, other.x0) < min(one.x1, other.x1) and max(one.y0, other.y0) < min(one.y1, other.y1)


def _placed(case: Case, code: str, name: str, found: Box, wanted: Box) -> Iterator[Finding]:
    if case.plain(found) != wanted:
        where, right = case.tell_box(found), case.tell_box(case.plain(wanted))
        yield case.fault(code, f"{name} lies at {where}; its place is {right}")


def _flat(box: Box) -> area:
    return area(box.x0.units, box.y0.units, box.x1.units, box.y1.units)
