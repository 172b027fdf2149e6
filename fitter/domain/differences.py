"""In what one layout of a project differs from another, in words."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from math import hypot

from fitter.domain.layout import Layout, Module, Run
from fitter.domain.project import Project
from fitter.domain.wishes import Shape, Side
from rooms.lengths import ZERO, Length
from rooms.room import Room

_DEGREE = 1.0
_FAR = Length.inches(12)


def differences(project: Project, best: Layout, other: Layout, tell: Callable[[Length], str]) -> tuple[str, ...]:
    """What is different in `other`, the most telling first.

    Args:
        project: that both answer.
        best: what is compared with.
        other: what is described.
        tell: writes lengths.

    Returns:
        Phrases such as `U instead of L`; how far away it stands where that is more than a foot, or all that differs.
    """
    told = (*_shape(best, other), *_backing(best, other), *_runs(best, other), *_corners(best, other))
    told += tuple(_ends(best, other))
    return told + tuple(_place(project, best, other, tell, ZERO if not told else _FAR))


def _shape(best: Layout, other: Layout) -> Iterator[str]:
    if other.shape is not best.shape:
        yield f"{other.shape} instead of {best.shape}"
    elif other.hand is not best.hand:
        yield f"short run on the {other.hand}"


def _backing(best: Layout, other: Layout) -> Iterator[str]:
    if other.pose.edge is None:
        if abs((other.pose.turned - best.pose.turned + 180) % 360 - 180) > _DEGREE:
            yield f"turned to {other.pose.turned:.0f} degrees instead of {best.pose.turned:.0f}"
        return
    run = "" if other.shape is not Shape.U else "the main run " if other.pose.aligned is Side.MAIN else _arm(other)
    if other.pose.edge != best.pose.edge:
        yield f"{run}along edge {other.pose.edge} instead of {best.pose.edge}"
    elif best.shape is other.shape and best.pose.aligned is not other.pose.aligned:
        yield f"{run}along edge {other.pose.edge}"


def _arm(layout: Layout) -> str:
    return f"the {layout.pose.aligned} arm "


def _runs(best: Layout, other: Layout) -> Iterator[str]:
    """Counts and cushions, run by run; only between layouts of one shape, where the runs answer each other."""
    if best.shape is not other.shape:
        return
    for ours, theirs in zip(best.runs, other.runs, strict=True):
        if (ours.cushion, ours.turned) != (theirs.cushion, theirs.turned):
            yield f"{_name(theirs, other)} of {theirs.count} × {_laid(theirs)} instead of {ours.count} × {_laid(ours)}"
        elif ours.count != theirs.count:
            yield f"{_name(theirs, other)} of {theirs.count} instead of {ours.count}"


def _name(run: Run, layout: Layout) -> str:
    if run.side is Side.MAIN:
        return "run" if layout.shape is Shape.STRAIGHT else "main run"
    return f"{run.side} arm" if layout.shape is Shape.U else "short run"


def _laid(thing: Run | Module) -> str:
    return f"{thing.cushion}, turned" if thing.turned else str(thing.cushion)


def _corners(best: Layout, other: Layout) -> Iterator[str]:
    if best.corner is None or other.corner is None:
        return
    if best.corner is not other.corner:
        yield f"{other.corner} instead of {best.corner}"
    if best.shape is not other.shape:
        return
    for ours, theirs in zip(best.corners, other.corners, strict=True):
        if theirs.cushion and (ours.cushion, ours.turned) != (theirs.cushion, theirs.turned):
            side = f"{theirs.corner} corner" if other.shape is Shape.U else "corner"
            yield f"{side} of {_laid(theirs)}"


def _ends(best: Layout, other: Layout) -> Iterator[str]:
    kinds = {end.hand: end.kind for end in best.ends}
    for end in sorted(other.ends, key=lambda end: end.hand is not Side.RIGHT):
        if kinds.get(end.hand) is not end.kind:
            yield f"{end.hand} end {end.kind}"


def _place(
    project: Project, best: Layout, other: Layout, tell: Callable[[Length], str], least: Length
) -> Iterator[str]:
    if other.pose.edge is None:
        ours, theirs = (layout.pose.outline(layout.runs[0].deck)[0] for layout in (best, other))
        moved = Length(round(hypot(float(theirs[0] - ours[0]), float(theirs[1] - ours[1]))))
        if moved > least:
            yield f"about {tell(moved)} away"
    elif other.pose.edge == best.pose.edge:
        yield from _moved(project.room, best, other, tell, least)


def _moved(room: Room, best: Layout, other: Layout, tell: Callable[[Length], str], least: Length) -> Iterator[str]:
    """How far it was moved along the edge that both stand at, and off it."""
    edge = room.edge(other.pose.edge or "")
    names = {point: name for name, point in room.corners}
    along, off = other.reach[0] - best.reach[0], other.off_edge - best.off_edge
    if abs(along) > least:
        yield f"{tell(abs(along))} nearer to corner {names[edge.end if along.units > 0 else edge.start]}"
    if abs(off) > least:
        yield f"{tell(abs(off))} {'farther from' if off.units > 0 else 'closer to'} edge {edge.name}"
