"""Whether every layout, made of cushions with less ease or less overhang, still stands where it stood.

With the back line kept, and the deck corner (of a left-hand L: the far one), every part of a straight or L-shaped
layout of smaller modules lies within the parts of the larger one:

- decks, corner places, backs, ends and an outside post shrink toward that corner;
- the leg room before a run begins farther back. Where it reaches past the old one, it lies on the old arm, which is no
  shorter than the leg room is deep (a pitch at least), or on the old leg room of the other run; what may hold an arm
  may hold leg room.

So it keeps its distances, and what a disc could pass it still can. The rest are sizes, which must not turn against it:

- the longest run stays the longest: counts alone decide that where all modules are of one option, and the overhang is
  no part of a run's length;
- half of the run lies over its edge: sure where both corners of that edge are no wider than a right angle, since then
  all of it does;
- corner cushions fit as before, notches are needed as before, and corner places have as much room for their posts;
- clear openings get no longer, so no line needs more posts; lengths and boards may change either way.

A U is left out: its arms come closer to each other, over ground that an obstacle may stand on. So are low obstacles,
since posts move, and pieces that can be carried.
"""

from __future__ import annotations

from fitter.domain.cushions import options
from fitter.domain.project import Project
from fitter.domain.wishes import Shape
from fitter.model.sizes import Sizes, sizes
from rooms.room import Room


def still_stands(less: Project, more: Project) -> bool:
    """Whether every layout of the larger modules has one of the smaller modules that meets all requirements too.

    Seats, corners, cushions that are notched or bought stay as they are, and there are no more posts.

    Args:
        less: with less ease or overhang.
        more: the same but for that.
    """
    small, large = sizes(less), sizes(more)
    return (
        _one_kind(less, more)
        and _no_larger(small, large)
        and _as_before(small, large)
        and less.wish.shape in (Shape.STRAIGHT, Shape.L)
        and _square_enough(less.room, less.wish.against or ())
        and small.legroom <= min(size.pitch for size in small.options)
        and small.carried is None
        and not any(obstacle.low for obstacle in less.room.obstacles)
    )


def _one_kind(less: Project, more: Project) -> bool:
    """Whether counts alone say which run is longer: there is one option, or pitches are the same."""
    small, large = options(less.cushions), options(more.cushions)
    return len(small) == len(large) == 1 or all(
        one.cushion.size == other.cushion.size and one.cushion.ease == other.cushion.ease
        for one, other in zip(small, large, strict=True)
    )


def _no_larger(small: Sizes, large: Sizes) -> bool:
    pairs = list(zip(small.options, large.options, strict=True))
    places = [
        (one.deck + small.overhang + here.notch, other.deck + large.overhang + there.notch)
        for one, other in pairs
        for here, there in pairs
    ]
    return (
        all(one.pitch <= other.pitch and one.deck <= other.deck for one, other in pairs)
        and small.overhang <= large.overhang
        and all(one <= other for one, other in places)
        and all(one.pitch > small.post for one, _ in pairs)
    )


def _as_before(small: Sizes, large: Sizes) -> bool:
    """Whether corners may be what they were, and no more cushions are cut."""
    pairs = list(zip(small.options, large.options, strict=True))
    fits = [
        [(one.pitch <= other.deck, one.deck <= other.deck) for one in s.options for other in s.options]
        for s in (small, large)
    ]
    return (
        fits[0] == fits[1]
        and all(bool(one.notch) == bool(other.notch) for one, other in pairs)
        and all(bool(one.angle.deep) == bool(other.angle.deep) for one, other in pairs)
        and all(
            size.deck > s.turn and not s.held(size.deck + s.widest_spread)
            for s in (small, large)
            for size in s.options
        )
    )  # fmt: skip


def _square_enough(room: Room, edges: tuple[str, ...]) -> bool:
    """Whether the outline turns by a quarter or more at both ends of each of these edges."""
    outline = room.outline
    return bool(edges) and all(
        _turns_back(outline.index(end), room) for name in edges for end in (room.edge(name).start, room.edge(name).end)
    )


def _turns_back(corner: int, room: Room) -> bool:
    points = room.outline
    before, here, after = points[corner - 1], points[corner], points[(corner + 1) % len(points)]
    ax, ay = here.x.units - before.x.units, here.y.units - before.y.units
    bx, by = after.x.units - here.x.units, after.y.units - here.y.units
    return ax * by - ay * bx > 0 and ax * bx + ay * by <= 0
