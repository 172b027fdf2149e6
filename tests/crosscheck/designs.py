"""Every layout apart from its place, written out rectangle by rectangle; nothing is shared with the twin.

All in shop marks, deck corner at (0, 0).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache
from itertools import product
from math import hypot
from random import Random

from fitter.domain.cushions import Option, options
from fitter.domain.frame import RailJoint, Stance
from fitter.domain.project import Project
from fitter.domain.wishes import DEFAULT_ORDER, CornerKind, EndKind, Objective, Shape, Side
from rooms.lengths import Length
from rooms.room import Height

Rect = tuple[float, float, float, float]
Posts = tuple[tuple[int, ...], ...]
"""For each line of rails the places of its posts."""
Worth = tuple[int, ...]
"""Seats, tall corner posts, whole cushions, cushions not bought, posts and rail lengths saved: greater is better."""
NAMED = (
    Objective.SEATS, Objective.TALL, Objective.WHOLE, Objective.BUY, Objective.POSTS, Objective.LENGTHS
)  # fmt: skip
JOINED = (CornerKind.ANGLE_POST, CornerKind.LOW_POST)
"""The treatments whose backs are joined to each other, so that they have to meet."""
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
    """Modules in a row; the deck is that of the cushion, or once a form is chosen that of its whole place."""

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


def cut(project: Project, option: Option, wood: Length) -> int:
    """How far a cushion is cut, or moved, for wood that stands so far into a corner place; a half mark counts whole."""
    mark = project.mark.units
    free = project.frame.overhang.ceil_to(project.mark).units - project.frame.notch_clearance.units
    twice = 2 * (marks(project, wood) * mark - free) - option.cushion.ease.units
    return max(0, -(-twice // (2 * mark)))


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
    for kind, spread in _treatments(project) if arms else ((CornerKind.TABLE_CORNER, 0),):
        for side in aligned:
            form = Form(project, main, right, left, side, kind, spread)
            if form.roomy and not form.too_large(extent):
                yield form


def _treatments(project: Project) -> Iterator[tuple[CornerKind, int]]:
    """What may be done with corners, and how far cushions are spread then, for each way that some cushion asks."""
    work = project.frame.carpentry
    for kind in CornerKind:
        apart = work.lean > 0 or work.upright_at_corner is not Stance.FLAT
        if project.wish.corner not in (None, kind) or (kind in JOINED and apart):
            continue
        spreads = {cut(project, option, project.frame.post.width) for option in options(project.cushions)}
        yield from ((kind, spread) for spread in (sorted(spreads) if kind is CornerKind.SPREAD else (0,)))


class Form:
    """Runs of given counts around corners of one treatment; their decks are as deep as the places they lie in."""

    def __init__(
        self,
        project: Project,
        main: Row,
        right: Row | None,
        left: Row | None,
        aligned: Side | None,
        kind: CornerKind,
        spread: int = 0,
    ) -> None:
        self.project, self.aligned, self.kind, self.spread = project, aligned, kind, spread
        frame = project.frame
        self.over = marks(project, frame.overhang)
        self.gap = self.over + spread
        main, right, left = (row and replace(row, deck=row.deck + self.gap) for row in (main, right, left))
        self.main, self.right, self.left = main, right, left
        self.arms = [(side, arm) for side, arm in ((Side.RIGHT, right), (Side.LEFT, left)) if arm]
        self.back, self.rail = marks(project, frame.back_thickness), marks(project, frame.rail.thickness)
        self.post = marks(project, frame.post.width)
        self.deep_right, self.deep_left = (arm.deck if arm else 0 for arm in (right, left))
        self.width = self.deep_right + main.length + self.deep_left

    @property
    def roomy(self) -> bool:
        """Whether the wood of its corner places holds two posts and a cross rail."""
        wood = [row.deck - self.over for row in (self.main, *(arm for _, arm in self.arms))]
        return not self.arms or min(wood) > 2 * self.post + self.rail

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
            deep, wide = self.main.deck - self.gap, arm.deck - self.gap
            fitting = [o for o, along, across in sizes if along <= wide and across <= deep]
            found.append([o for o in fitting if o.cushion.may_notch or not self._notched(o)])
        return found

    def _notched(self, option: Option) -> bool:
        frame = self.project.frame
        if self.kind is CornerKind.ANGLE_POST:
            return cut(self.project, option, frame.angle.thickness) > 0
        return self.kind is CornerKind.INSIDE_POST and cut(self.project, option, frame.post.width) > 0

    def _spread_right(self, corners: Corners) -> bool:
        """Whether the cushions are spread as far as these corners ask, no farther."""
        asked = [cut(self.project, corner, self.project.frame.post.width) for corner in corners if corner]
        return self.kind is not CornerKind.SPREAD or self.spread == max(asked)

    def worth(self, corners: Corners) -> tuple[int, int, int, int] | None:
        """Seats, tall posts, whole cushions and cushions not bought; None where stock, wish or spread forbid it."""
        if not self._spread_right(corners):
            return None
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
        if wish.buy_most is not None and buy > wish.buy_most:
            return None
        low = len(self.arms) if self.kind in JOINED else 0
        return seats, -low, -sum(self._notched(corner) for corner in corners if corner), -buy

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
        """Start, stop and the middles of posts: main front and back, right arm's, left arm's.

        The wood ends short of the cushions; so fronts begin earlier, and posts behind a cross rail stand nearer to the
        corner.
        """
        start, stop, over = 0, self.width, self.over
        main, first, last = self.main, 1, self.main.count - 1
        if self.right:
            start, first = self._starts(Side.RIGHT, self.right)[0], 0
        if self.left:
            stop, last = self.width - self._starts(Side.LEFT, self.left)[0], main.count
        at = [self.deep_right + k * main.pitch for k in range(main.count + 1)]
        inner = tuple(at[1:-1])
        at[0], at[-1] = at[0] - (over if self.right else 0), at[-1] + (over if self.left else 0)
        found = [(at[0], at[-1], inner), (start, stop, tuple(at[first : last + 1]))]
        for side, arm in self.arms:
            at = [main.deck + k * arm.pitch for k in range(arm.count + 1)]
            at[0] -= over
            found.append((at[0], at[-1], tuple(at[1:-1])))
            found.append((self._starts(side, arm)[1], at[-1], tuple(at[:-1])))
        return found

    def _crossings(self) -> Iterator[tuple[int, int, int]]:
        """For each corner the back line that its cross rail ends at, where on it, and the wood that it crosses."""
        low, high, front = self._inner
        for n, (side, arm) in enumerate(self.arms):
            if self.owner_is_main(side, arm):
                yield 1, low if side is Side.RIGHT else high, front
            else:
                yield 3 + 2 * n, front, arm.deck - self.over

    @property
    def _inner(self) -> tuple[int, int, int]:
        """Where the wood of the right arm, the left arm and the main run ends in front."""
        low = self.deep_right - self.over if self.right else 0
        high = self.width - self.deep_left + self.over if self.left else self.width
        return low, high, self.main.deck - self.over

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

    def designs(self, worth: tuple[int, int, int, int], posts: Posts) -> Iterator[Design]:
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
        p, deck = self.post, self.main.deck - self.over
        for side, arm in self.arms:
            inner = arm.deck - self.over
            yield self._at(side, (inner - p, deck - p, inner, deck))
            yield self._at(side, (-p, -p, 0, 0) if self.kind is CornerKind.OUTSIDE_POST else (0, 0, p, p))

    def across(self) -> list[tuple[int, int]]:
        """For each line what its posts take across the run."""
        p, (low, high, front) = self.post, self._inner
        found = [(front - p, front), (0, p)]
        if self.right:
            found += [(low - p, low), (0, p)]
        if self.left:
            found += [(high, high + p), (self.width - p, self.width)]
        return found

    def _feet(self, posts: Posts) -> Iterator[Rect]:
        p = self.post
        for n, ((a, b), half, line) in enumerate(zip(self.across(), self._halves, posts, strict=True)):
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
