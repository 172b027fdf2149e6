"""Which way a run faces, which parts are drawn with it, and the directions from which it is drawn."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import ceil, floor

from fitter.domain.layout import Box, Layout, Run
from fitter.domain.wishes import Shape, Side
from fitter.domain.woodwork import Part, PartRole, Woodwork
from fitter.drawing.frame.sight import Gaze
from fitter.drawing.frame.solids import Spot3, cross, dot
from rooms.lengths import Length

UP: Spot3 = (0.0, 0.0, 1.0)
_FRONTS: dict[Side, Spot3] = {Side.MAIN: (0.0, 1.0, 0.0), Side.RIGHT: (1.0, 0.0, 0.0), Side.LEFT: (-1.0, 0.0, 0.0)}
_SHARED = (PartRole.INNER_POST, PartRole.CORNER_POST, PartRole.CORNER_BOARD)


@dataclass(frozen=True)
class Facing:
    """A run and the directions that belong to it.

    Args:
        run: which one.
        front: where its seats look.
    """

    run: Run
    front: Spot3

    @property
    def from_front(self) -> Gaze:
        """Looking square at its front."""
        return Gaze(cross(UP, self.front), UP)

    @property
    def from_back(self) -> Gaze:
        """Looking square at its back."""
        return Gaze(cross(self.front, UP), UP)

    @property
    def from_its_end(self) -> Gaze:
        """Looking along it, its front at the left of the picture."""
        return Gaze((-self.front[0], -self.front[1], 0.0), UP)

    def reach(self, box: Box, gaze: Gaze) -> tuple[Length, Length]:
        """From where to where a box of the plan lies in a picture, across it."""
        places = [Length(round(dot(gaze.right, (x.units, y.units, 0)))) for x, y in box.corners]
        return min(places), max(places)


def facing(run: Run) -> Facing:
    """How a run faces."""
    return Facing(run, _FRONTS[run.side])


def run_name(layout: Layout, side: Side) -> str:
    """What a run is called."""
    if side is Side.MAIN:
        return "main run"
    return f"{side} arm" if layout.shape is Shape.U else "short run"


def members(woodwork: Woodwork, side: Side) -> tuple[int, ...]:
    """The parts that are drawn with a run: its own, and for the main run posts and boards of its corners, with feet."""
    own = [n for n, part in enumerate(woodwork.parts) if part.run is side]
    if side is Side.MAIN:
        posts = [n for n, part in enumerate(woodwork.parts) if part.role in _SHARED and part.run is not side]
        feet = [
            n
            for n, part in enumerate(woodwork.parts)
            if part.role is PartRole.FOOT
            and part.run is not side
            and any(stands_on(woodwork.parts[post], part) for post in posts)
        ]
        own += [*posts, *feet]
    return tuple(sorted(own))


def span(part: Part, way: Spot3) -> tuple[Length, Length]:
    """From where to where a part reaches along a direction of the axes, outward to the unit."""
    places = [sum(int(w) * c for w, c in zip(way, corner, strict=True)) for corner in part.corners]
    return Length(floor(min(places))), Length(ceil(max(places)))


def extent(parts: Iterable[Part], way: Spot3) -> tuple[Length, Length]:
    """The same of several parts together."""
    spans = [span(part, way) for part in parts]
    return min(low for low, _ in spans), max(high for _, high in spans)


def stands_on(post: Part, foot: Part) -> bool:
    """Whether a post and a foot lie over each other in plan."""
    for way in ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0)):
        (low, high), (first, last) = span(post, way), span(foot, way)
        if high <= first or last <= low:
            return False
    return True


def having(parts: Sequence[Part], *roles: PartRole) -> list[Part]:
    """The parts of some roles."""
    return [part for part in parts if part.role in roles]
