"""Every layout apart from its place, written out rectangle by rectangle; nothing is shared with the twin.

All in shop marks, deck corner at (0, 0).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from itertools import product
from math import hypot
from random import Random

from fitter.domain.cushions import Option, options
from fitter.domain.frame import RailJoint
from fitter.domain.project import Project
from fitter.domain.wishes import DEFAULT_ORDER, CornerKind, EndKind, Objective, Shape, Side
from rooms.lengths import Length
from rooms.room import Height

Rect = tuple[float, float, float, float]
Posts = tuple[tuple[int, ...], ...]
"""For each line of rails the places of its posts."""
Worth = tuple[int, ...]
"""Seats, whole cushions, cushions not bought, posts saved, rail lengths saved: greater is better."""
NAMED = (Objective.SEATS, Objective.WHOLE, Objective.BUY, Objective.POSTS, Objective.LENGTHS)
Corners = tuple[Option | None, ...]


@dataclass(frozen=True)
class Design:
    """A layout without a place.

    Args:
        worth: what is made best.
        stands: everything that the room must have a place for.
        clear: leg room.
        feet: posts and ends.
        aligned: which run may have its back along an edge; None when free standing.
        width: of the main run with its corner places.
        arm: length of the aligned run with its corner place, where that is an arm.
        back: thickness of the back panel.
    """

    worth: Worth
    stands: tuple[Rect, ...]
    clear: tuple[Rect, ...]
    feet: tuple[Rect, ...]
    aligned: Side | None
    width: int
    arm: int
    back: int


@dataclass(frozen=True)
class Row:
    """Modules in a row."""

    option: Option
    count: int
    pitch: int
    deck: int

    @property
    def length(self) -> int:
        """Without corner places."""
        return self.count * self.pitch


def marks(project: Project, length: Length) -> int:
    """Whole marks, rounded up."""
    return -(-length.units // project.mark.units)


def wished(project: Project, worth: Worth) -> tuple[int, ...]:
    """A worth in the order of the wish; the last ones may be left out of it."""
    named = dict(zip(NAMED, worth, strict=False))
    return tuple(named[o] for o in dict.fromkeys((*project.wish.prefer, *DEFAULT_ORDER)) if o in named)


def rows(project: Project, extent: float) -> list[Row]:
    """Every run that is not longer than the room."""
    found = []
    for option in options(project.cushions):
        pitch, deck = _sizes(project, option)
        found += [Row(option, n, pitch, deck) for n in range(1, int(extent) // pitch + 1)]
    return found


def _sizes(project: Project, option: Option) -> tuple[int, int]:
    """Pitch and deck depth."""
    width, depth = (marks(project, part + option.cushion.ease) for part in option.cushion.size[:2])
    return (depth, width) if option.turned else (width, depth)


def forms(project: Project, extent: float) -> Iterator[Form]:
    """Every choice of shape, runs, aligned run and treatment."""
    runs = rows(project, extent)
    for main in runs:
        for right, left in product((None, *runs), (None, *runs)):
            yield from forms_of(project, extent, main, right, left)


def forms_of(project: Project, extent: float, main: Row, right: Row | None, left: Row | None) -> Iterator[Form]:
    """Every way to align and to treat the corners of given runs, as far as the wish allows."""
    wish, arms = project.wish, [arm for arm in (right, left) if arm]
    shape = (Shape.STRAIGHT, Shape.L, Shape.U)[len(arms)]
    hand = None if shape is not Shape.L else Side.RIGHT if right else Side.LEFT
    if wish.shape not in (None, shape) or (hand and wish.hand not in (None, hand)):
        return
    longest = max(row.length for row in (main, *arms))
    aligned: list[Side | None] = [None if wish.against is None else Side.MAIN]
    if shape is Shape.L and main.length < longest:
        return
    if shape is Shape.U and main.length < marks(project, wish.legroom):
        return
    if shape is Shape.U and wish.against is not None:
        sides = ((Side.MAIN, main), (Side.RIGHT, right), (Side.LEFT, left))
        aligned = [side for side, row in sides if row and row.length == longest]
    post, rail = marks(project, project.frame.post.width), marks(project, project.frame.rail.thickness)
    if arms and min(row.deck for row in (main, *arms)) <= 2 * post + rail:
        return
    for kind in CornerKind if arms else (CornerKind.TABLE_CORNER,):
        if not arms or wish.corner in (None, kind):
            for side in aligned:
                form = Form(project, main, right, left, side, kind)
                if not form.too_large(extent):
                    yield form


class Form:
    """Runs of given counts around corners of one treatment."""

    def __init__(
        self, project: Project, main: Row, right: Row | None, left: Row | None, aligned: Side | None, kind: CornerKind
    ) -> None:
        self.project, self.aligned, self.kind = project, aligned, kind
        self.main, self.right, self.left = main, right, left
        self.arms = [(side, arm) for side, arm in ((Side.RIGHT, right), (Side.LEFT, left)) if arm]
        frame = project.frame
        self.back, self.rail = marks(project, frame.back_thickness), marks(project, frame.rail.thickness)
        self.post = marks(project, frame.post.width)
        self.deep_right, self.deep_left = (arm.deck if arm else 0 for arm in (right, left))
        self.width = self.deep_right + main.length + self.deep_left

    def too_large(self, extent: float) -> bool:
        """Whether not even the slabs of its runs fit into a circle that holds the room."""
        slabs = [(self.width, self.main.deck), *((self.main.deck + arm.length, arm.deck) for _, arm in self.arms)]
        return any(hypot(a, b) > extent for a, b in slabs)

    def corners(self) -> list[list[Option | None]]:
        """For each corner the cushions that fit it; only a table where the treatment says so."""
        if self.kind is CornerKind.TABLE_CORNER:
            return [[None] for _ in self.arms]
        found = []
        for _, arm in self.arms:
            sizes = [(option, *_sizes(self.project, option)) for option in options(self.project.cushions)]
            fitting = [o for o, along, across in sizes if along <= arm.deck and across <= self.main.deck]
            found.append([o for o in fitting if o.cushion.may_notch or not self._notched(o)])
        return found

    def _notched(self, option: Option) -> bool:
        frame = self.project.frame
        stands_in = 2 * (frame.post.width + frame.notch_clearance).units - option.cushion.ease.units
        return self.kind is CornerKind.INSIDE_POST and stands_in > 0

    def worth(self, corners: Corners) -> tuple[int, int, int] | None:
        """Seats, whole cushions and cushions not bought; None where stock or wish forbid it."""
        wish, used = self.project.wish, dict.fromkeys((c.name for c in self.project.cushions), 0)
        seats = 0
        lots = [(row.option, row.count) for row in (self.main, *(arm for _, arm in self.arms))]
        for option, n in (*lots, *((corner, 1) for corner in corners if corner)):
            used[option.cushion.name] += n
            seats += n * option.cushion.seats
        kinds = self.project.cushions
        if any(c.own is not None and c.price is None and used[c.name] > c.own for c in kinds):
            return None
        if seats < wish.least or (wish.most is not None and seats > wish.most):
            return None
        buy = sum(max(0, used[c.name] - (c.own or 0)) for c in kinds)
        return seats, -sum(self._notched(corner) for corner in corners if corner), -buy

    def owner_is_main(self, side: Side, arm: Row) -> bool:
        """Which of two runs owns their corner place."""
        if arm.length == self.main.length:
            return self.aligned is not side
        return self.main.length > arm.length

    def _starts(self, side: Side, arm: Row) -> tuple[int, int]:
        """How far from the back corner the main and the arm's back rails begin."""
        if self.kind is not CornerKind.OUTSIDE_POST:
            return self.post, self.post
        return (0, self.rail) if self.owner_is_main(side, arm) else (self.rail, 0)

    def lines(self) -> list[tuple[int, int, tuple[int, ...]]]:
        """Start, stop and module lines: main front and back, right arm's, left arm's."""
        start, stop = 0, self.width
        main, first, last = self.main, 1, self.main.count - 1
        if self.right:
            start, first = self._starts(Side.RIGHT, self.right)[0], 0
        if self.left:
            stop, last = self.width - self._starts(Side.LEFT, self.left)[0], main.count
        at = [self.deep_right + k * main.pitch for k in range(main.count + 1)]
        found = [(at[0], at[-1], tuple(at[1:-1])), (start, stop, tuple(at[first : last + 1]))]
        for side, arm in self.arms:
            at = [main.deck + k * arm.pitch for k in range(arm.count + 1)]
            found.append((at[0], at[-1], tuple(at[1:-1])))
            found.append((self._starts(side, arm)[1], at[-1], tuple(at[:-1])))
        return found

    def _crossings(self) -> Iterator[tuple[int, int, int]]:
        """For each corner the back line that its cross rail ends at, where on it, and the deck it crosses."""
        for n, (side, arm) in enumerate(self.arms):
            if self.owner_is_main(side, arm):
                yield 1, self.deep_right if side is Side.RIGHT else self.width - self.deep_left, self.main.deck
            else:
                yield 3 + 2 * n, self.main.deck, arm.deck

    @property
    def _halves(self) -> tuple[int, ...]:
        """For each line how far a post reaches to the low side; an odd half mark goes to the higher lines."""
        to_left = self.left and not self.right
        half = self.post // 2
        main = self.post - half if to_left else half
        return (main, main, *(half for _ in self.arms for _ in range(2)))

    def _limit(self) -> int:
        frame, mark = self.project.frame, self.project.mark
        longest = self.project.shop.longest(frame.rail.name)
        if longest and frame.carpentry.rail_joint is RailJoint.HOUSING:
            longest -= frame.carpentry.housing + frame.carpentry.housing
        return min(length.floor_to(mark).units // mark.units for length in (frame.max_span, longest) if length)

    def _choices(self) -> list[list[tuple[int, ...]]]:
        corners = frozenset(at for _, at, _ in self._crossings())
        lines = zip(self.lines(), self._halves, strict=True)
        return [_line(*line, self.post, half, self._limit(), corners) for line, half in lines]

    def _spans(self, posts: Posts) -> bool:
        """Whether the cross rails are right with these posts."""
        crossings = self._crossings()
        bays = [deck - self.post - (self.post if at in posts[n] else self.rail) for n, at, deck in crossings]
        return all(0 < bay <= self._limit() for bay in bays)

    def posts(self) -> Iterator[Posts]:
        """Choices of posts that span everything; without low obstacles only the best one."""
        found = [posts for posts in product(*self._choices()) if self._spans(posts)]
        found.sort(key=lambda posts: (sum(map(len, posts)), self.lengths(posts)))
        low = any(o.height is Height.LOW for o in self.project.room.obstacles)
        yield from found if low else found[:1]

    def lengths(self, posts: Posts) -> int:
        """How many different front and back rails there are."""
        found = set()
        for (start, stop, _), half, line in zip(self.lines(), self._halves, posts, strict=True):
            for at in line:
                found.add(at - half - start)
                start = at - half + self.post
            found.add(stop - start)
        return len(found)

    def some_posts(self, random: Random) -> Posts | None:
        """A choice of posts, often of the fewest; None where it does not span."""
        posts = tuple(
            (min(some, key=len) if random.random() < 0.5 else random.choice(some)) if some else None
            for some in self._choices()
        )
        if any(line is None for line in posts):
            return None
        whole = tuple(line for line in posts if line is not None)
        return whole if self._spans(whole) else None

    def designs(self, worth: tuple[int, int, int], posts: Posts) -> Iterator[Design]:
        """With every pair of ends that the wish allows."""
        wish = self.project.wish
        count = sum(len(line) for line in posts) + 2 * len(self.arms)
        arm = {Side.RIGHT: self.right, Side.LEFT: self.left}.get(self.aligned or Side.MAIN)
        for low, high in product(EndKind, EndKind):
            if wish.right_end in (None, low) and wish.left_end in (None, high):
                ends = tuple(self._ends(low, high))
                yield Design(
                    (*worth, -count, -self.lengths(posts)),
                    (*self._stands(), *ends),
                    tuple(self._clear()),
                    (*ends, *self._corner_posts(), *self._feet(posts)),
                    self.aligned,
                    self.width,
                    self.main.deck + arm.length if arm else 0,
                    self.back,
                )

    def _at(self, side: Side, box: Rect) -> Rect:
        """A box of the right hand, or its mirror image."""
        return box if side is Side.RIGHT else (self.width - box[2], box[1], self.width - box[0], box[3])

    def _stands(self) -> Iterator[Rect]:
        t, deck = self.back, self.main.deck
        yield self.deep_right, 0, self.width - self.deep_left, deck
        yield (-t if self.right else 0), -t, self.width + (t if self.left else 0), 0
        for side, arm in self.arms:
            end = deck + arm.length
            yield self._at(side, (0, 0, arm.deck, deck))
            yield self._at(side, (0, deck, arm.deck, end))
            yield self._at(side, (-t, 0, 0, end))
            if self.kind is CornerKind.OUTSIDE_POST:
                yield self._at(side, (-self.post, -self.post, 0, 0))

    def _ends(self, low: EndKind, high: EndKind) -> Iterator[Rect]:
        frame = self.project.frame
        for side, arm, kind in ((Side.RIGHT, self.right, low), (Side.LEFT, self.left, high)):
            e = marks(self.project, frame.arm_thickness if kind is EndKind.ARMED else frame.open_end_thickness)
            if arm:
                end = self.main.deck + arm.length
                yield self._at(side, (-self.back, end, arm.deck, end + e))
            else:
                yield self._at(side, (-e, -self.back, 0, self.main.deck))

    def _clear(self) -> Iterator[Rect]:
        deck, leg = self.main.deck, marks(self.project, self.project.wish.legroom)
        yield self.deep_right, deck, self.width - self.deep_left, deck + leg
        for side, arm in self.arms:
            yield self._at(side, (arm.deck, deck, arm.deck + leg, deck + arm.length))

    def _corner_posts(self) -> Iterator[Rect]:
        p, deck = self.post, self.main.deck
        for side, arm in self.arms:
            yield self._at(side, (arm.deck - p, deck - p, arm.deck, deck))
            yield self._at(side, (-p, -p, 0, 0) if self.kind is CornerKind.OUTSIDE_POST else (0, 0, p, p))

    def _feet(self, posts: Posts) -> Iterator[Rect]:
        p, deck, inner = self.post, self.main.deck, self.width - self.deep_left
        across = [(deck - p, deck), (0, p)]
        if self.right:
            across += [(self.deep_right - p, self.deep_right), (0, p)]
        if self.left:
            across += [(inner, inner + p), (self.width - p, self.width)]
        for n, ((a, b), half, line) in enumerate(zip(across, self._halves, posts, strict=True)):
            for at in line:
                low, high = at - half, at - half + p
                yield (low, a, high, b) if n < 2 else (a, low, b, high)


@cache
def _line(
    start: int, stop: int, places: tuple[int, ...], post: int, half: int, limit: int, corners: frozenset[int]
) -> list[tuple[int, ...]]:
    """Choices along one line that span it, of which none does without one (but for one at a corner place)."""
    good: list[tuple[int, ...]] = []
    for taken in sorted(product((False, True), repeat=len(places)), key=sum):
        some = tuple(place for place, yes in zip(places, taken, strict=True) if yes)
        faces = [start, *(face for place in some for face in (place - half, place - half + post)), stop]
        bays = [b - a for a, b in zip(faces[::2], faces[1::2], strict=True)]
        if all(0 < bay <= limit for bay in bays) and not any(
            set(other) <= set(some) and not (set(some) - set(other)) & corners for other in good
        ):
            good.append(some)
    return good
