"""What the ends and sides of a part are called, for a person who stands before the seats of its run."""

from __future__ import annotations

from fractions import Fraction

from fitter.domain.wishes import Side
from fitter.domain.woodwork import EndCut, Part, Slant, Vector

_UP = ("bottom", "top")
_ALONG = {
    Side.MAIN: (("right", "left"), ("back", "front")),
    Side.RIGHT: (("back", "front"), ("corner", "far")),
    Side.LEFT: (("front", "back"), ("corner", "far")),
}
"""What lies toward low and high x, then toward low and high y, of the layout frame."""

SIDES = (
    "Right, left, front and back are those of a person who stands facing the seats of the main run. Of an arm, front "
    "is where its sitters' legs hang, corner is toward the main run and far is away from it."
)


def toward(run: Side, direction: Vector) -> str:
    """The side that a direction points to most: bottom, top, front, back, and right and left, or corner and far.

    Args:
        run: the run it is told of.
        direction: in the layout frame, not nil.

    >>> toward(Side.RIGHT, (Fraction(0), Fraction(-1), Fraction(0)))
    'corner'
    """
    axis = max(range(3), key=lambda n: abs(Fraction(direction[n])))
    names = (*_ALONG[run], _UP)[axis]
    return names[direction[axis] > 0]


def end_name(part: Part, which: int) -> str:
    """The name of an end, 0 or 1."""
    return toward(part.run, part.along if which else _turned(part.along))


def width_side(part: Part, *, high: bool) -> str:
    """The name of the edge at b = 0 or b = width."""
    return toward(part.run, part.across if high else _turned(part.across))


def thickness_side(part: Part, *, high: bool) -> str:
    """The name of the face at c = 0 or c = thickness."""
    return toward(part.run, part.through if high else _turned(part.through))


def long_side(part: Part, cut: EndCut) -> str:
    """The name of the side of a part that holds the long point of an end that is not square."""
    side = width_side if cut.over is Slant.WIDTH else thickness_side
    return side(part, high=not cut.low)


def _turned(direction: Vector) -> Vector:
    x, y, z = direction
    return -x, -y, -z
