"""Whether a layout is complete: shape, runs, modules, ends and kinds of cushion, as asked."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from fitter.checking.case import Case
from fitter.domain.cushions import options
from fitter.domain.findings import Finding
from fitter.domain.layout import Module, Post, Rail, Run, Side
from fitter.domain.wishes import CornerKind, Shape


def complete(case: Case) -> Iterator[Finding]:
    """Everything is there that the other facts speak of."""
    yield from _shape(case)
    for run in case.layout.runs:
        yield from _run(case, run)
    yield from _ends(case)


def _shape(case: Case) -> Iterator[Finding]:
    layout, sides = case.layout, [run.side for run in case.layout.runs]
    bent = layout.shape is Shape.L
    wanted = [Side.MAIN, layout.hand] if bent else [Side.MAIN]
    if sides != wanted or (layout.hand in (Side.LEFT, Side.RIGHT)) != bent:
        names = ", ".join(sides) or "none"
        yield case.fault("shape", f"{layout.shape} layout, short run {layout.hand}, has the runs {names}")
    corners = [module for module in layout.modules if module.place == 0]
    if len(corners) != bent or (layout.corner is not None) != bent:
        yield case.fault("shape", f"{layout.shape} layout has {len(corners)} corner places ({layout.corner})")
    for corner in corners:
        if (corner.cushion is None) != (layout.corner is CornerKind.TABLE_CORNER):
            yield case.fault("shape", f"{layout.corner} with {corner.cushion or 'a table'} in the corner place")


def _run(case: Case, run: Run) -> Iterator[Finding]:
    laid = [(option.cushion.name, option.turned) for option in options(case.project.cushions)]
    main = case.main
    if (run.cushion, run.turned) not in laid:
        yield case.fault("cushion", f"the {run.side} run takes {run.cushion}, turned: {run.turned}", "cushions")
    if (run.cushion, run.turned) != (main.cushion, main.turned):
        yield case.fault("cushion", f"the {run.side} run lays other cushions than the main run", "cushions")
    places = [m.place for m in case.layout.modules if m.run is run.side and m.place > 0]
    if run.count < 1 or sorted(places) != list(range(1, run.count + 1)):
        yield case.fault("count", f"the {run.side} run of {run.count} has modules at the places {sorted(places)}")
    for module in case.layout.modules:
        if module.run is run.side and module.cushion is not None:
            if (module.cushion, module.turned) != (main.cushion, main.turned):
                message = f"module {module.place} of the {run.side} run is {module.cushion}, not as its run"
                yield case.fault("cushion", message, "cushions")
        elif module.run is run.side and module.place > 0:
            yield case.fault("cushion", f"module {module.place} of the {run.side} run has no cushion", "cushions")


def _ends(case: Case) -> Iterator[Finding]:
    sides = [end.run for end in case.layout.ends]
    wanted = [run.side for run in case.layout.runs] if case.side else [Side.MAIN, Side.MAIN]
    if sides != wanted:
        yield case.fault("ends", f"ends stand at the runs {', '.join(sides) or 'none'}")
    known = {run.side for run in case.layout.runs}
    things: list[Module | Post | Rail] = [*case.layout.modules, *case.layout.posts, *case.layout.rails]
    for thing in things:
        if thing.run not in known:
            yield case.fault("count", f"something stands in the {thing.run} run, which the layout has not")


def wishes(case: Case) -> Iterator[Finding]:
    """Seats, shape, ends and corner are as asked."""
    wish, layout = case.project.wish, case.layout
    if layout.seats < wish.least:
        yield case.fault("seats", f"{layout.seats} seats, at least {wish.least} are asked", "wish.seats.least")
    if wish.most is not None and layout.seats > wish.most:
        yield case.fault("seats", f"{layout.seats} seats, at most {wish.most} are asked", "wish.seats.most")
    if wish.shape not in (None, layout.shape):
        yield case.fault("shape", f"{layout.shape} layout, {wish.shape} is asked", "wish.shape")
    for end in layout.ends:
        if wish.ends not in (None, end.kind):
            yield case.fault("ends", f"{end.kind} end at the {end.run} run, {wish.ends} is asked", "wish.ends")
    if layout.corner is not None and wish.corner not in (None, layout.corner):
        yield case.fault("corner", f"{layout.corner}, {wish.corner} is asked", "wish.corner")


def cushions(case: Case) -> Iterator[Finding]:
    """Each module sits as many as its cushion, and no more cushions are used than can be had."""
    for module in case.layout.modules:
        kind = case.cushion(module.cushion) if module.cushion is not None else None
        seats = kind.seats if kind else 0
        if module.seats != seats:
            message = f"module {module.place} of the {module.run} run counts {module.seats} seats, it has {seats}"
            yield case.fault("seats", message)
    used = Counter(module.cushion for module in case.layout.modules)
    for n, kind in enumerate(case.project.cushions):
        if kind.stock is not None and used[kind.name] > kind.stock:
            message = f"{used[kind.name]} of {kind.name} are used, {kind.stock} can be had"
            yield case.fault("stock", message, f"cushions.{n}.own")
