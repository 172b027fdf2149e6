"""Whether a layout is complete: shape, runs, ends, modules and kinds of cushion, in their order and as asked."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from fitter.checking.case import HANDS, Case
from fitter.domain.cushions import options
from fitter.domain.findings import Finding
from fitter.domain.layout import Face, Module, Post, Purchase, Rail, Run, Side
from fitter.domain.wishes import CornerKind, Shape

_ARMS = {Shape.STRAIGHT: 0, Shape.L: 1, Shape.U: 2}
_Numbered = tuple[Side, int, Side | None]


def complete(case: Case) -> tuple[Finding, ...]:
    """Everything is there that the other facts speak of; what is missing first hides the rest."""
    for part in (_shape, _ends, _runs, _modules, _wood):
        if missing := tuple(part(case)):
            return missing
    return ()


def _shape(case: Case) -> Iterator[Finding]:
    layout = case.layout
    sides = tuple(run.side for run in layout.runs)
    hands = [hand for hand in (Side.LEFT, Side.RIGHT) if hand in sides]
    names = ", ".join(sides) or "none"
    if sides != (Side.MAIN, *hands) or len(hands) != _ARMS[layout.shape]:
        yield case.fault("shape", f"{layout.shape} layout has the runs: {names}")
    if layout.hand != (hands[0] if len(hands) == 1 else None):
        yield case.fault("shape", f"the short run is told to be at hand {layout.hand}, the runs are: {names}")
    if (layout.corner is not None) != bool(hands):
        yield case.fault("shape", f"{layout.shape} layout has the corner treatment {layout.corner}")
    if layout.pose.aligned not in sides:
        yield case.fault("shape", f"the {layout.pose.aligned} run is told to be aligned, the runs are: {names}")


def _ends(case: Case) -> Iterator[Finding]:
    last = {hand: hand if case.layout.run(hand) else Side.MAIN for hand in HANDS}
    sides = [run.side for run in case.layout.runs]
    wanted = sorted(((run, hand) for hand, run in last.items()), key=lambda end: sides.index(end[0]))
    found = [(end.run, end.hand) for end in case.layout.ends]
    if found != wanted:
        told = ", ".join(f"{run} run at the {hand} hand" for run, hand in found) or "none"
        yield case.fault("ends", f"the ends stand at: {told}")


def _runs(case: Case) -> Iterator[Finding]:
    for run in case.layout.runs:
        if not _laid(case, run):
            yield case.fault("cushion", f"the {run.side} run takes {run.cushion}, turned: {run.turned}", "cushions")
        if run.count < 1:
            yield case.fault("count", f"the {run.side} run has {run.count} modules")


def _laid(case: Case, thing: Run | Module) -> bool:
    """Whether the project allows the cushion to lie that way."""
    return (thing.cushion, thing.turned) in [
        (option.cushion.name, option.turned) for option in options(case.project.cushions)
    ]


def _modules(case: Case) -> Iterator[Finding]:
    found, wanted = Counter(map(_numbered, case.layout.modules)), Counter(_numbers(case))
    for kind, where in (("lacks", wanted - found), ("has too many", found - wanted)):
        if where:
            yield case.fault("count", f"the layout {kind}: {'; '.join(_place(number) for number in where)}")
    for module in case.layout.modules:
        name = _place(_numbered(module))
        run = case.layout.run(module.run)
        if module.corner is not None:
            if (module.cushion is None) != (case.layout.corner is CornerKind.TABLE_CORNER):
                yield case.fault("shape", f"{case.layout.corner} with {module.cushion or 'a table'} at {name}")
            elif module.turned if module.cushion is None else not _laid(case, module):
                message = f"{name} takes {module.cushion}, turned: {module.turned}"
                yield case.fault("cushion", message, "cushions")
        elif run is None or (module.cushion, module.turned) != (run.cushion, run.turned):
            yield case.fault("cushion", f"{name} is {module.cushion}, turned: {module.turned}, not as its run")


def _numbered(module: Module) -> _Numbered:
    return module.run, module.place, module.corner


def _numbers(case: Case) -> Iterator[_Numbered]:
    """Run, place and corner of each module, in building order: of each run its corner places first."""
    for run in case.layout.runs:
        owned = [arm.side for arm in case.arms if case.owner(arm.side) is run.side]
        corners = sorted(owned, key=HANDS.index)
        yield from ((run.side, place, hand) for place, hand in zip((0, run.count + 1), corners, strict=False))
        yield from ((run.side, place, None) for place in range(1, run.count + 1))


def _place(number: _Numbered) -> str:
    run, place, corner = number
    return f"module {place} of the {run} run" + (f", {corner} corner" if corner else "")


def _wood(case: Case) -> Iterator[Finding]:
    known = [run.side for run in case.layout.runs]
    wood: list[Post | Rail] = [*case.layout.posts, *case.layout.rails]
    for piece in wood:
        if piece.run not in known:
            yield case.fault("count", f"wood of the {piece.run} run is told, which the layout has not")


def order(case: Case) -> Iterator[Finding]:
    """Modules and rails are told run by run, in the order in which they are built."""
    if list(map(_numbered, case.layout.modules)) != list(_numbers(case)):
        yield case.fault("order", "the modules are not told in building order")
    sides, faces = [run.side for run in case.layout.runs], list(Face)
    bays = [(sides.index(rail.run), faces.index(rail.face), rail.bay) for rail in case.layout.rails]
    if bays != sorted(bays):
        yield case.fault("order", "the rails are not told run by run and bay by bay")


def wishes(case: Case) -> Iterator[Finding]:
    """Seats, shape, hand, ends and corner are as asked."""
    wish, layout = case.project.wish, case.layout
    if layout.seats < wish.least:
        yield case.fault("seats", f"{layout.seats} seats, at least {wish.least} are asked", "wish.seats.least")
    if wish.most is not None and layout.seats > wish.most:
        yield case.fault("seats", f"{layout.seats} seats, at most {wish.most} are asked", "wish.seats.most")
    if wish.shape not in (None, layout.shape):
        yield case.fault("shape", f"{layout.shape} layout, {wish.shape} is asked", "wish.shape")
    if layout.hand is not None and wish.hand not in (None, layout.hand):
        yield case.fault("hand", f"the short run lies at the {layout.hand}, {wish.hand} is asked", "wish.hand")
    for end in layout.ends:
        asked = wish.end(end.hand)
        if asked not in (None, end.kind):
            yield case.fault("ends", f"{end.kind} end at the {end.hand} hand, {asked} is asked", "wish.ends")
    if layout.corner is not None and wish.corner not in (None, layout.corner):
        yield case.fault("corner", f"{layout.corner}, {wish.corner} is asked", "wish.corner")


def cushions(case: Case) -> Iterator[Finding]:
    """Each module sits as many as its cushion; no more are used than can be had, or bought than may; all is told."""
    for module in case.layout.modules:
        kind = case.cushion(module.cushion)
        seats = kind.seats if kind else 0
        if module.seats != seats:
            message = f"module {module.place} of the {module.run} run counts {module.seats} seats, it has {seats}"
            yield case.fault("seats", message)
    used = Counter(module.cushion for module in case.layout.modules)
    for n, kind in enumerate(case.project.cushions):
        if kind.stock is not None and used[kind.name] > kind.stock:
            message = f"{used[kind.name]} of {kind.name} are used, {kind.stock} can be had"
            yield case.fault("stock", message, f"cushions.{n}.own")
    wanted = tuple(
        Purchase(kind.name, used[kind.name], max(0, used[kind.name] - (kind.own or 0)))
        for kind in case.project.cushions
        if used[kind.name]
    )
    if case.layout.purchases != wanted:
        told, right = _bought(case.layout.purchases), _bought(wanted)
        yield case.fault("purchases", f"cushions told to be used and bought: {told}; they are: {right}", "cushions")
    bought, most = sum(purchase.buy for purchase in wanted), case.project.wish.buy_most
    if most is not None and bought > most:
        message = f"{bought} cushions are to be bought, at most {most} are asked"
        yield case.fault("buy", message, "wish.buy_at_most")


def _bought(purchases: tuple[Purchase, ...]) -> str:
    return ", ".join(f"{p.used} of {p.cushion}, {p.buy} to buy" for p in purchases) or "none"
