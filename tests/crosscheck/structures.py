"""What a layout can be apart from its place: the twin's own reading of sizes, choices, shapes and blocks.

Coordinates are sums over the sizes that the model chooses, in marks of the layout frame:
`x`, `y` (deck corner), `main`, `right`, `left` (lengths of the runs), `D`, `R`, `L` (how deep their places are, from
the backs to the fronts of the cushions) and `main pitch`, `right pitch`, `left pitch`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

from fitter.domain.cushions import options
from fitter.domain.frame import RailJoint, Stance
from fitter.domain.project import Project
from fitter.domain.wishes import CornerKind, EndKind, Shape, Side
from rooms.lengths import Length


@dataclass(frozen=True)
class Sum:
    """A whole number of marks plus whole multiples of named sizes."""

    const: int = 0
    terms: tuple[tuple[str, int], ...] = ()

    def __add__(self, other: Sum | int) -> Sum:
        if isinstance(other, int):
            return Sum(self.const + other, self.terms)
        both = dict(self.terms)
        for name, times in other.terms:
            both[name] = both.get(name, 0) + times
        return Sum(self.const + other.const, tuple(sorted((n, k) for n, k in both.items() if k)))

    def __sub__(self, other: Sum | int) -> Sum:
        return self + -1 * other

    def __mul__(self, times: int) -> Sum:
        return Sum(self.const * times, tuple((n, k * times) for n, k in self.terms) if times else ())

    __rmul__ = __mul__

    def at(self, sizes: Mapping[str, int]) -> int:
        """Its value for given sizes."""
        return self.const + sum(times * sizes[name] for name, times in self.terms)


def size(name: str) -> Sum:
    """The sum that is just that size."""
    return Sum(0, ((name, 1),))


NOTHING = Sum()


@dataclass(frozen=True)
class Block:
    """A rectangle whose sides move with the sizes."""

    x0: Sum
    x1: Sum
    y0: Sum
    y1: Sum


@dataclass(frozen=True)
class Choice:
    """One way to lay one cushion, in marks.

    Args:
        kind: index of the cushion among the project's.
        pitch: room along the run.
        deck: from its front to its back.
        seats: sitting places on it.
        post: what a post in its corner would cut from it, or how far it would be moved off it; 0 for nothing.
        boards: what the boards above an angle post would cut from it.
        may_notch: whether that may be cut.
    """

    kind: int
    pitch: int
    deck: int
    seats: int
    post: int
    boards: int
    may_notch: bool

    def cut(self, kind: CornerKind) -> int:
        """How deep it is cut in a corner of that kind."""
        return {CornerKind.INSIDE_POST: self.post, CornerKind.ANGLE_POST: self.boards}.get(kind, 0)


@dataclass(frozen=True)
class Sizes:
    """Sizes of the frame in marks; ends by hand, the thinnest that is allowed there.

    Which of two kinds of end stands changes neither seats nor posts, and the thinner one stands within the
    thicker, so only the thinnest is tried.
    """

    back: int
    post: int
    rail: int
    ends: Mapping[Side, int]
    legroom: int
    limit: int
    overhang: int = 0

    @property
    def turn(self) -> int:
        """What two posts and a cross rail take in a corner; its wood has to be deeper."""
        return 2 * self.post + self.rail

    def before(self, downward: bool) -> int:
        """How far a post reaches to the low side of its module line; an odd half mark goes to the higher lines."""
        return self.post - self.post // 2 if downward else self.post // 2


def marks_up(length: Length, mark: Length) -> int:
    """Whole marks, rounded up."""
    return -(-length.units // mark.units)


def choices(project: Project) -> tuple[Choice, ...]:
    """Every way to lay each cushion, in the order of the file."""
    mark, found = project.mark, []
    for option in options(project.cushions):
        cushion = option.cushion
        along, across = (1, 0) if option.turned else (0, 1)
        half, air = Fraction(cushion.ease.units, 2), project.frame.notch_clearance.units
        over = marks_up(project.frame.overhang, mark) * mark.units
        post, boards = (
            max(0, ceil((marks_up(wood, mark) * mark.units + air - half - over) / mark.units))
            for wood in (project.frame.post.width, project.frame.angle.thickness)
        )
        found.append(
            Choice(
                kind=project.cushions.index(cushion),
                pitch=marks_up(cushion.size[along] + cushion.ease, mark),
                deck=marks_up(cushion.size[across] + cushion.ease, mark),
                seats=cushion.seats,
                post=post,
                boards=boards,
                may_notch=cushion.may_notch,
            )
        )
    return tuple(found)


def sizes(project: Project) -> Sizes:
    """The frame's sizes in marks."""
    frame, mark, wish = project.frame, project.mark, project.wish
    thick = {EndKind.ARMED: frame.arm_thickness, EndKind.OPEN: frame.open_end_thickness}
    allowed = {
        hand: [marks_up(thick[kind], mark) for kind in EndKind if wish.end(hand) in (None, kind)]
        for hand in (Side.RIGHT, Side.LEFT)
    }
    longest = project.shop.longest(frame.rail.name)
    if longest is not None and frame.carpentry.rail_joint is RailJoint.HOUSING:
        longest = longest - 2 * frame.carpentry.housing
    limits = [length.units / mark.units for length in (frame.max_span, longest) if length is not None]
    return Sizes(
        back=marks_up(frame.back_thickness, mark),
        post=marks_up(frame.post.width, mark),
        rail=marks_up(frame.rail.thickness, mark),
        ends={hand: min(some) for hand, some in allowed.items()},
        legroom=marks_up(wish.legroom, mark),
        limit=floor(min(limits)),
        overhang=marks_up(frame.overhang, mark),
    )


def treatments(project: Project) -> list[CornerKind]:
    """What the wish and the backs leave of the ways to treat a corner: some need plumb backs that meet flat."""
    work = project.frame.carpentry
    touching = work.lean == 0 and work.upright_at_corner is Stance.FLAT
    found = [kind for kind in CornerKind if project.wish.corner in (None, kind)]
    return [kind for kind in found if touching or kind not in (CornerKind.ANGLE_POST, CornerKind.LOW_POST)]


@dataclass(frozen=True)
class Foot:
    """Something that stands on the floor; `outside` tells whether only with outside posts (or only without)."""

    block: Block
    outside: bool | None = None


@dataclass(frozen=True)
class Structure:
    """A shape with its arms, and which run is aligned with a backing edge (None: free standing)."""

    shape: Shape
    arms: tuple[Side, ...]
    aligned: Side | None

    @property
    def sides(self) -> tuple[Side, ...]:
        """Its runs, the main one first."""
        return (Side.MAIN, *self.arms)

    def depth(self, side: Side) -> Sum:
        """Deck depth of a run; nothing where there is none."""
        return size({Side.MAIN: "D", Side.RIGHT: "R", Side.LEFT: "L"}[side]) if side in self.sides else NOTHING

    @property
    def width(self) -> Sum:
        """W: the main run with its corner places."""
        return self.depth(Side.RIGHT) + size("main") + self.depth(Side.LEFT)

    @property
    def first_line(self) -> Sum:
        """Where the main run's first module begins, along x."""
        return size("x") + self.depth(Side.RIGHT)

    @property
    def front(self) -> Sum:
        """Where the arms' first modules begin, along y."""
        return size("y") + size("D")

    def from_side(self, side: Side, a: Sum | int, b: Sum | int, y0: Sum, y1: Sum) -> Block:
        """A rectangle from `a` to `b` past the deck's low-x end, or as far before its high-x end."""
        if side is Side.RIGHT:
            return Block(size("x") + a, size("x") + b, y0, y1)
        high = size("x") + self.width
        return Block(high - b, high - a, y0, y1)


def structures(project: Project) -> Iterator[Structure]:
    """Every shape that the wish allows, most runs first; a U once for each run that may be aligned."""
    wish = project.wish
    backed = wish.against is not None
    if wish.shape in (None, Shape.U):
        for aligned in (Side.MAIN, Side.RIGHT, Side.LEFT) if backed else (None,):
            yield Structure(Shape.U, (Side.RIGHT, Side.LEFT), aligned)
    main = Side.MAIN if backed else None
    if wish.shape in (None, Shape.L):
        for arm in (Side.RIGHT, Side.LEFT):
            if wish.hand in (None, arm):
                yield Structure(Shape.L, (arm,), main)
    if wish.shape in (None, Shape.STRAIGHT):
        yield Structure(Shape.STRAIGHT, (), main)


def stands(it: Structure, of: Sizes) -> Iterator[Foot]:
    """All that stands or overhangs: a slab for each run with its back and ends, and outside posts."""
    x, y = size("x"), size("y")
    low, high = (of.back if side in it.arms else of.ends[side] for side in (Side.RIGHT, Side.LEFT))
    yield Foot(Block(x - low, x + it.width + high, y - of.back, it.front))
    for arm in it.arms:
        reach = it.front + size(arm) + of.ends[arm]
        yield Foot(it.from_side(arm, -of.back, it.depth(arm), y - of.back, reach))
    if of.post > of.back:
        yield from (_outside_post(it, of, arm) for arm in it.arms)


def _outside_post(it: Structure, of: Sizes, arm: Side) -> Foot:
    return Foot(it.from_side(arm, -of.post, 0, size("y") - of.post, size("y")), outside=True)


def strips(it: Structure, of: Sizes) -> Iterator[Block]:
    """Leg room before each front."""
    yield Block(it.first_line, it.first_line + size("main"), it.front, it.front + of.legroom)
    for arm in it.arms:
        depth = it.depth(arm)
        yield it.from_side(arm, depth, depth + of.legroom, it.front, it.front + size(arm))


def fixed_feet(it: Structure, of: Sizes) -> Iterator[Foot]:
    """Ends and corner posts: what stands on the floor wherever the interior posts are."""
    y = size("y")
    for side in (Side.RIGHT, Side.LEFT):
        if side in it.arms:
            depth, reach = it.depth(side), it.front + size(side)
            inner, front = depth - of.overhang, it.front - of.overhang
            yield Foot(it.from_side(side, -of.back, depth, reach, reach + of.ends[side]))
            yield Foot(it.from_side(side, inner - of.post, inner, front - of.post, front))
            yield Foot(it.from_side(side, 0, of.post, y, y + of.post), outside=False)
            yield _outside_post(it, of, side)
        else:
            yield Foot(it.from_side(side, -of.ends[side], 0, y - of.back, it.front))


@dataclass(frozen=True)
class Backing:
    """How far the aligned run's back is off the edge's line, and how it lies along the edge."""

    off: Sum
    start: Sum
    end: Sum


def backing(it: Structure, of: Sizes) -> Backing:
    """Of the aligned run; along the edge in the direction of the layout frame's own axis."""
    x, y = size("x"), size("y")
    if it.aligned is Side.MAIN:
        return Backing(y - of.back, x, x + it.width)
    start, end = y, it.front + size(it.aligned or Side.MAIN)
    if it.aligned is Side.RIGHT:
        return Backing(x - of.back, start, end)
    return Backing(NOTHING - (x + it.width + of.back), start, end)


@dataclass(frozen=True)
class Line:
    """A line of rails with the module lines that may carry posts, numbered from the run's first module.

    Args:
        run: whose rails.
        back: the back line; else the front line.
        first: number of the first module line that may carry a post.
        more: how many lines past the last one between two modules: 1 where a corner place follows the run.
        low: arm whose corner the line starts at, before its first module; None: at an end.
        high: the same at its far end.
    """

    run: Side
    back: bool
    first: int
    more: int = 0
    low: Side | None = None
    high: Side | None = None

    def last(self, count: int) -> int:
        """Number of the last module line that may carry a post."""
        return count - 1 + self.more

    def downward(self, it: Structure) -> bool:
        """Whether its modules are counted toward low coordinates: the main run's of an L to the left."""
        return self.run is Side.MAIN and it.arms == (Side.LEFT,)

    def post(self, it: Structure, of: Sizes, number: int, *, last: bool = False) -> Block:
        """The post on a module line; behind at a corner place, which may come at its last one too, nearer to that."""
        pitch = number * size(f"{self.run} pitch")
        before = of.before(self.downward(it))
        if self.back:
            before += of.overhang if number == 0 else -of.overhang if last else 0
        if self.run is Side.MAIN:
            x, y = it.first_line + pitch - before, size("y") if self.back else it.front - of.overhang - of.post
            return Block(x, x + of.post, y, y + of.post)
        y = it.front + pitch - before
        depth = it.depth(self.run) - of.overhang
        a, b = (NOTHING, NOTHING + of.post) if self.back else (depth - of.post, depth)
        return it.from_side(self.run, a, b, y, y + of.post)


def lines(it: Structure) -> Iterator[Line]:
    """Every line of rails but the cross rails."""
    low, high = (side if side in it.arms else None for side in (Side.RIGHT, Side.LEFT))
    yield Line(Side.MAIN, back=False, first=1, low=low, high=high)
    yield Line(Side.MAIN, back=True, first=0 if low else 1, more=1 if high else 0, low=low, high=high)
    for arm in it.arms:
        yield Line(arm, back=False, first=1, low=arm)
        yield Line(arm, back=True, first=0, low=arm)


def start_of_back(of: Sizes, run: Side, kind: CornerKind, main_owns: bool) -> int:
    """How far past the back corner of its corner place a run's back line of rails begins."""
    if kind is not CornerKind.OUTSIDE_POST:
        return of.post
    return 0 if (run is Side.MAIN) == main_owns else of.rail
