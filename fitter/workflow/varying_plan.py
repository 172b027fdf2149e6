"""A published plan to its variants: placed on open ground, checked, framed, planned, and tried in the author's room."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import replace

from fitter.domain.clock import Clock
from fitter.domain.costing import Costing
from fitter.domain.cushions import options
from fitter.domain.designs import ARMS, Change, Design, changes, design_of, option_of
from fitter.domain.layout import Answer, Layout, Side, Verdict
from fitter.domain.outcome import FitResult
from fitter.domain.project import Project
from fitter.domain.variants import Variant, Variants, cushions_of
from fitter.model.pinned import placed, stands
from fitter.workflow.boards import boards
from fitter.workflow.costing import costing
from fitter.workflow.fitting import judged
from fitter.workflow.open_ground import freed, open_ground
from fitter.workflow.solving import Solved
from rooms.lengths import Length, format_length

__all__ = ["Told", "variants"]

Told = Callable[[int, int], None]
"""Told the number of the variant that is worked on, and of the last one."""


def variants(project: Project, fit: FitResult, limit: float | None = None, told: Told | None = None) -> Variants:
    """Build every neighbour of the best layout of an answer, and compare it with that.

    Args:
        project: as published.
        fit: its answer.
        limit: seconds for all variants together; None for no limit. Those that are not reached are `unknown`.
        told: the progress.

    Returns:
        Without a base where the answer has no layout, or its checker does not accept it.
    """
    if fit.layout is None or fit.verdict is Verdict.FAULT:
        return Variants(fit)
    design = design_of(fit.layout)
    listed = changes(project, design)
    clock = Clock(limit)
    # Prices do not depend on the room, and a list of boards that was planned for one variant may come again.
    prices = costing(open_ground(project, design))
    found: list[Variant] = []
    interrupted = False
    try:
        for number, change in enumerate((None, *listed)):
            if told:
                told(number, len(listed))
            wanted = change.design if change else design
            found.append(_variant(project, number, change, wanted, prices, clock))
    except KeyboardInterrupt:
        interrupted = True
    base = found[0] if found else None
    moved = tuple(_moved(fit.layout, base.layout)) if base and base.built else ()
    return Variants(fit, base, tuple(found[1:]), moved, interrupted)


def _variant(
    project: Project, number: int, change: Change | None, design: Design, prices: Costing | None, clock: Clock
) -> Variant:
    ground = open_ground(project, design)
    if clock.up:
        return Variant(number, change, ground, boards(ground, FitResult(Verdict.UNKNOWN)))
    fit = judged(ground, Solved((placed(ground, design, clock.left, prices),)))
    made = boards(ground, fit, limit=clock.left)
    if fit.layout is None:
        lacks = "" if fit.verdict is not Verdict.IMPOSSIBLE or fit.clash else _lacks(ground, design, clock)
        return Variant(number, change, ground, made, lacks=lacks)
    variant = Variant(number, change, ground, made, cushions_of(project, fit.layout))
    if change is None or not variant.built:
        return variant
    return replace(variant, here=_here(project, fit.layout, clock))


def _here(project: Project, layout: Layout, clock: Clock) -> FitResult:
    """Whether a layout of this design stands in the author's own room, proven by the checker, or by the solver."""
    design = design_of(layout)
    room = freed(project, design)
    answer = Answer(Verdict.UNKNOWN, None, ()) if clock.up else stands(room, design, clock.left)
    return judged(room, Solved((answer,)))


def _lacks(ground: Project, design: Design, clock: Clock) -> str:
    """Why a design cannot be put together in any room: straight runs always can, so its corners; empty if it can."""

    def told(length: Length) -> str:
        return format_length(length, ground.unit, feet=False)

    if design.arms and design.corner is not None and design.corner.cushioned:
        soft = replace(ground, cushions=tuple(replace(kind, may_notch=True) for kind in ground.cushions))
        if _stands(soft, design, clock):
            firm = [f"`{kind.name}`" for kind in ground.cushions if not kind.may_notch]
            return f"the cushion in the corner would be cut for the post, and {' and '.join(firm)} may not be cut"
        bare = [place for place in _corner_places(ground, design) if not _filled(ground, *place)]
        if bare:
            places = dict.fromkeys(f"{told(wide)} × {told(deep)}" for wide, deep in bare)
            return f"no cushion of the file fits into its corner place of {' or of '.join(places)}"
    return ""


def _filled(ground: Project, wide: Length, deep: Length) -> bool:
    """Whether any kind of cushion, as sold or turned, fits into a corner place."""
    mark = ground.mark
    return any(option.pitch(mark) <= wide and option.deck(mark) <= deep for option in options(ground.cushions))


def _stands(ground: Project, design: Design, clock: Clock) -> bool:
    return not clock.up and placed(ground, design, clock.left).layout is not None


def _corner_places(ground: Project, design: Design) -> Iterator[tuple[Length, Length]]:
    """Width and depth of each corner place as far as cushions may fill it."""
    depth = option_of(ground, design.main.laid).deck(ground.mark)
    for arm in ARMS:
        if (run := design.run(arm)) is not None:
            yield option_of(ground, run.laid).deck(ground.mark), depth


def _moved(published: Layout, base: Layout) -> Iterator[str]:
    """What stands otherwise on open ground than in the author's room: posts beside low things, boards on hand."""
    for name, these, those in (
        ("posts", _posts(published), _posts(base)),
        ("rails", _rails(published), _rails(base)),
        ("splits", Counter(published.splits), Counter(base.splits)),
        ("corner cushions", _corners(published), _corners(base)),
    ):
        if these != those:
            yield name


def _posts(layout: Layout) -> Counter[tuple[object, ...]]:
    return Counter((post.role, post.run, post.face, post.line) for post in layout.posts)


def _rails(layout: Layout) -> Counter[tuple[object, ...]]:
    return Counter((rail.run, rail.face, rail.length) for rail in layout.rails)


def _corners(layout: Layout) -> Counter[tuple[Side | None, str | None, bool]]:
    return Counter((module.corner, module.cushion, module.turned) for module in layout.corners)
