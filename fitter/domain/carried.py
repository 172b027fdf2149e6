"""The pieces in which a layout's frame is carried in."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from fitter.domain.layout import Layout, PostRole, Run, Side
from rooms.lengths import Length


@dataclass(frozen=True)
class CarriedPiece:
    """A stretch of one run that is carried in as a whole, with the corner places that the run owns.

    Args:
        run: the run.
        first: its first module.
        last: its last module; before the first where it is a corner place alone.
        corners: arms whose corner places belong to it.
        length: along the run, from outer face to outer face.
    """

    run: Side
    first: int
    last: int
    corners: tuple[Side, ...]
    length: Length


def carried_pieces(layout: Layout) -> tuple[CarriedPiece, ...]:
    """The pieces between the splits of a layout, run by run; empty where nothing is split.

    Args:
        layout: with its splits.
    """
    if not layout.splits:
        return ()
    return tuple(piece for run in layout.runs for piece in _of_run(layout, run))


def _of_run(layout: Layout, run: Run) -> list[CarriedPiece]:
    lines = layout.split_lines(run.side)
    low, high = _outer(layout, run)
    near, far = (low, high) if layout.line_at(run.side, 0) < layout.line_at(run.side, 1) else (high, low)
    faces = [near, *(layout.line_at(run.side, line) for line in lines), far]
    modules = [0, *lines, run.count]
    owned = _owned(layout, run)
    pieces = []
    for n, (start, end) in enumerate(pairwise(faces)):
        first, last = n == 0, n == len(lines)
        corners = [arm for arm in owned if (first if _at_start(layout, run, arm) else last)]
        if start != end:  # nothing of a run that is split off lies before its first line
            pieces.append(CarriedPiece(run.side, modules[n] + 1, modules[n + 1], tuple(corners), abs(end - start)))
    return pieces


def _owned(layout: Layout, run: Run) -> list[Side]:
    """The arms whose corner places a run owns."""
    return [module.corner for module in layout.corners if module.corner and module.run is run.side]


def _at_start(layout: Layout, run: Run, arm: Side) -> bool:
    """Whether a run is counted from an arm's corner."""
    return run.side is not Side.MAIN or arm is Side.RIGHT or layout.hand is arm


def _outer(layout: Layout, run: Run) -> tuple[Length, Length]:
    """The outer faces of a run with its ends and corner places, at its low and at its high end."""
    main = run.side is Side.MAIN
    boxes = [run.deck, *(end.box for end in layout.ends if end.run is run.side)]
    for arm in _owned(layout, run):
        other = layout.run(arm if main else Side.MAIN)
        boxes += [other.back] if other else []
        boxes += [post.box for post in layout.posts if post.role is PostRole.CORNER and post.run is arm]
    lows, highs = zip(*((box.x0, box.x1) if main else (box.y0, box.y1) for box in boxes), strict=True)
    return min(lows), max(highs)
