"""Whether decks, modules, panels, ends and leg room lie where the sizes put them."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from shapely import box as area
from shapely.ops import unary_union

from fitter.checking import places
from fitter.checking.case import Case
from fitter.domain.findings import Finding
from fitter.domain.layout import Box, End, Module, Post, PostRole, Rail
from fitter.domain.wishes import CornerKind, Shape


def decks(case: Case) -> Iterator[Finding]:
    """Each run's deck is its pitches long, as deep as its cushion and its gap; arms begin at the main run's front."""
    for run in case.layout.runs:
        if run.pitch != case.pitch(run):
            told, right = case.tell(run.pitch), case.tell(case.pitch(run))
            message = f"{run.side} run: pitch {told}, its cushion makes {right}"
            yield case.fault("pitch", message, "cushions")
        yield from _placed(case, "deck", f"deck of the {run.side} run", run.deck, places.deck(case, run))


def modules(case: Case) -> Iterator[Finding]:
    """The modules tile the fronts of the decks and the corner places, and no two lie over each other."""
    for module in case.layout.modules:
        name = f"module {module.place} of the {module.run} run"
        yield from _placed(case, "module-place", name, module.box, places.slot(case, module))
    for one, other in combinations(case.layout.modules, 2):
        if overlapping(one.box, other.box):
            where = f"module {other.place} of the {other.run} run"
            message = f"module {one.place} of the {one.run} run lies over {where}"
            yield case.fault("overlap", message)


def backs(case: Case) -> Iterator[Finding]:
    """Back panels stand behind the deck depth."""
    for run in case.layout.runs:
        yield from _placed(case, "back", f"back panel of the {run.side} run", run.back, places.back(case, run))


def ends(case: Case) -> Iterator[Finding]:
    """Ends stand outside the last run at either hand."""
    for end in case.layout.ends:
        name = f"{end.kind} end at the {end.hand} hand"
        yield from _placed(case, "ends", name, end.box, places.end(case, end))


def legroom_strips(case: Case) -> Iterator[Finding]:
    """The leg room is the strip of that depth before each run's front, and no arm of a U stands in another's."""
    for run in case.layout.runs:
        name = f"leg room of the {run.side} run"
        yield from _placed(case, "legroom", name, run.legroom, places.legroom(case, run))
    between = case.length(case.main)
    if case.layout.shape is Shape.U and between < case.legroom:
        message = f"{case.tell(between)} lie between the arms, {case.tell(case.legroom)} are asked before each"
        yield case.fault("legroom", message, "wish.legroom")


def footprint(case: Case) -> Iterator[Finding]:
    """The footprint is all that stands or overhangs, and nothing else."""
    layout = case.layout
    # Whole units this small are exact as floats, and so are rectangles of them.
    cover = unary_union([_flat(box) for box in layout.footprint])
    solid = [
        *((f"module {m.place} of the {m.run} run", m.box) for m in layout.modules),
        *((f"deck of the {run.side} run", run.deck) for run in layout.runs),
        *((f"back of the {run.side} run", run.back) for run in layout.runs),
        *((f"end at the {end.hand} hand", end.box) for end in layout.ends),
        *((f"{fill.kind} at the {fill.hand} hand", fill.box) for fill in layout.built_fills),
        *(
            (f"{post.role} post of the {post.run} run", post.box)
            for post in layout.posts
            if post.role is PostRole.CORNER and layout.corner is CornerKind.OUTSIDE_POST
        ),
    ]
    for name, box in solid:
        if not cover.covers(_flat(box)):
            yield case.fault("footprint", f"the {name} stands out of the footprint at {case.tell_box(box)}")
    if unary_union([_flat(box) for _, box in solid]).area < cover.area:
        yield case.fault("footprint", "the footprint takes ground on which nothing stands")


def on_the_mark(case: Case) -> Iterator[Finding]:
    """Every place and every cut length is whole in the shop mark."""
    layout, mark = case.layout, case.mark
    things: list[Module | End | Post | Rail] = [*layout.modules, *layout.ends, *layout.posts, *layout.rails]
    boxes = [
        *(thing.box for thing in things),
        *(box for run in layout.runs for box in (run.deck, run.back, run.legroom)),
        *(fill.box for fill in layout.fills),
        *layout.footprint,
        *(box for module in layout.modules if module.notch for box in (module.notch.box, *module.notch.strips)),
        *(module.cover for module in layout.modules if module.cover),
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
    if found != wanted:
        yield case.fault(code, f"{name} lies at {case.tell_box(found)}; its place is {case.tell_box(wanted)}")


def _flat(box: Box) -> area:
    return area(box.x0.units, box.y0.units, box.x1.units, box.y1.units)
