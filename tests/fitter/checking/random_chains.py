"""Random chains of runs such as the document allows, laid out by hand in a large field; the same for the same seed."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from random import Random

from hand_built import LEFT, MAIN, RIGHT, TABLE, Chain, Row, lay_out
from yards import ALONG, LEFT_ALONG, RIGHT_ALONG, Yard, carried, free, inch, project

from fitter.domain.cushions import Option, options
from fitter.domain.frame import Section
from fitter.domain.layout import Pose, Side
from fitter.domain.project import Project
from fitter.domain.wishes import CornerKind, EndKind
from rooms.lengths import ZERO, Length, Unit
from rooms.room import Edge, EdgeKind, Point, Room

WIDE = inch(1270)
POSES = {MAIN: ALONG, RIGHT: RIGHT_ALONG, LEFT: LEFT_ALONG}
TURNS = ((1, 0), (0, 1), (-1, 0), (0, -1))


def random_yard(seed: int) -> Yard:
    """The yard of that seed: the first chain drawn that the document allows."""
    random = Random(f"chain {seed}")
    while True:
        asked = _project(random)
        chain = _chain(random, asked)
        sizes = _Sizes(asked, chain)
        if sizes.allowed():
            return _placed(random, asked, chain, sizes)


def _project(random: Random) -> Project:
    """Posts no thinner than rails, in inches or millimetres, cushions with any ease, overhanging or not; far walls."""
    asked, unit = project(), random.choice((Unit.IN, Unit.MM))
    points = [Point(ZERO, ZERO), Point(WIDE, ZERO), Point(WIDE, WIDE), Point(ZERO, WIDE)]
    names = ("AB", "BC", "CD", "DA")
    edges = tuple(Edge(name, EdgeKind.WALL, points[n], points[(n + 1) % 4]) for n, name in enumerate(names))
    thick = asked.frame.rail.thickness.ceil_to(unit.mark) + unit.mark * random.randint(0, 60)
    kinds = tuple(
        replace(kind, ease=unit.mark * random.randint(-6, 6), own=None, price=Fraction(9))
        for kind in (replace(kind, may_notch=True, may_turn=True) for kind in asked.cushions)
    )
    return replace(
        asked,
        unit=unit,
        cushions=kinds,
        room=Room(tuple(zip("ABCD", points, strict=True)), edges),
        wish=replace(asked.wish, least=1, most=None, legroom=unit.mark * random.randint(0, 400), off_wall=inch(10)),
        frame=replace(
            asked.frame,
            post=Section("any", thick, thick),
            max_span=inch(400),
            overhang=random.choice((ZERO, unit.mark * random.randint(1, 40))),
            angle=Section("thin", unit.mark * random.randint(1, 24), unit.mark * random.randint(24, 60)),
        ),
        shop=replace(asked.shop, boards=()),
    )


def _chain(random: Random, asked: Project) -> Chain:
    main, right, left = _row(random, asked), *(random.choice((None, _row(random, asked))) for _ in range(2))
    if right:
        main = replace(main, back=(*random.choice(((), (0,))), *main.back))
        right = replace(right, back=(*random.choice(((), (0,))), *right.back))
    if left:
        # Counted from the left corner where there is no other, else from the right one.
        line = main.count if right else 0
        main = replace(main, back=tuple(sorted({*main.back, *random.choice(((), (line,)))})))
        left = replace(left, back=(*random.choice(((), (0,))), *left.back))
    corner = random.choice(list(CornerKind)) if right or left else None
    ends = (random.choice(list(EndKind)), random.choice(list(EndKind)))
    corners = [_corner(random, asked, main, arm) for arm in (right, left)]
    if any(arm and not option for arm, option in zip((right, left), corners, strict=True)):
        corner = TABLE
    return Chain(ZERO, ZERO, main, right, left, corner, *corners, ends=ends)


def _row(random: Random, asked: Project) -> Row:
    """One to four modules, posts on some of the lines between them."""
    option, count = random.choice(options(asked.cushions)), random.randint(1, 4)
    front, back = (tuple(k for k in range(1, count) if random.random() < 0.4) for _ in range(2))
    return Row(option, count, front, back)


def _corner(random: Random, asked: Project, main: Row, arm: Row | None) -> Option | None:
    """A cushion that fits where an arm meets the main run, if there is one."""
    if arm is None:
        return None
    mark = asked.mark
    wide, deep = arm.option.deck(mark), main.option.deck(mark)
    fitting = [o for o in options(asked.cushions) if o.pitch(mark) <= wide and o.deck(mark) <= deep]
    return random.choice(fitting) if fitting else None


@dataclass(frozen=True)
class _Sizes:
    """What decides whether, and where, a chain may stand."""

    asked: Project
    chain: Chain

    @property
    def mark(self) -> Length:
        return self.asked.mark

    @property
    def gap(self) -> Length:
        """How far the cushions lie off the backs, wherever the chain stands."""
        return lay_out(self.asked, ALONG, self.chain).gap

    def length(self, side: Side) -> Length:
        row = {MAIN: self.chain.main, RIGHT: self.chain.right, LEFT: self.chain.left}[side]
        return row.option.pitch(self.mark) * row.count if row else ZERO

    @property
    def rows(self) -> list[Row]:
        return [row for row in (self.chain.main, self.chain.right, self.chain.left) if row]

    @property
    def width(self) -> Length:
        arms = (self.chain.right, self.chain.left)
        return sum((arm.option.deck(self.mark) + self.gap for arm in arms if arm), self.length(MAIN))

    def allowed(self) -> bool:
        """Corners have room for their wood, the main run of an L is the longest, the arms of a U leave leg room."""
        frame = self.asked.frame
        wood, front = frame.post.width * 2 + frame.rail.thickness.ceil_to(self.mark), self.gap - frame.overhang
        if len(self.rows) > 1 and min(row.option.deck(self.mark) for row in self.rows) + front <= wood:
            return False
        if len(self.rows) == 2:
            return self.length(MAIN) >= max(self.length(RIGHT), self.length(LEFT))
        return len(self.rows) == 1 or self.length(MAIN) >= self.asked.wish.legroom

    def longest(self) -> list[Side]:
        """The runs that no other exceeds."""
        most = max(self.length(side) for side in (MAIN, RIGHT, LEFT))
        return [side for side in (MAIN, RIGHT, LEFT) if self.length(side) == most]


def _split(random: Random, asked: Project, chain: Chain, sizes: _Sizes, aligned: Side) -> tuple[Project, Chain]:
    """Sometimes split off from corners that other runs own, and anywhere else, for pieces that may be long enough.

    What overhangs is never carried in pieces.
    """
    if random.random() < 0.5 or asked.frame.overhang:
        return asked, chain
    lines: dict[Side, set[int]] = {MAIN: set(), RIGHT: set(), LEFT: set()}
    counts = {MAIN: chain.main.count}
    counts |= {side: row.count for side, row in ((RIGHT, chain.right), (LEFT, chain.left)) if row}
    for side in counts:
        lines[side] |= {k for k in range(1, counts[side]) if random.random() < 0.3}
    for arm in (side for side in counts if side is not MAIN):
        longer = sizes.length(MAIN) - sizes.length(arm)
        # At a tie the aligned run owns the corner, else the main run.
        owner = MAIN if longer > ZERO or (not longer and aligned is not arm) else arm
        at_main = chain.main.count if arm is LEFT and chain.right else 0
        ours, theirs = (MAIN, at_main), (arm, 0)
        (side, line), (other, also) = (theirs, ours) if owner is MAIN else (ours, theirs)
        lines[side].add(line)
        lines[other] |= {also} if random.random() < 0.3 else set()

    def cut(side: Side, row: Row) -> Row:
        splits = tuple(sorted(lines[side]))
        front, back = (tuple(k for k in face if k not in splits) for face in (row.front, row.back))
        return replace(row, front=front, back=back, splits=splits)

    chain = replace(
        chain,
        main=cut(MAIN, chain.main),
        right=chain.right and cut(RIGHT, chain.right),
        left=chain.left and cut(LEFT, chain.left),
    )
    return carried(asked, 400), chain


def _placed(random: Random, asked: Project, chain: Chain, sizes: _Sizes) -> Yard:
    """Along AB at the run that may be there, or free in the middle of the field."""
    mark, middle = asked.mark, inch(635)
    sides = sizes.longest() if len(sizes.rows) == 3 else [MAIN]
    if random.random() < 0.3:
        cos, sin = random.choice(TURNS)
        asked, chain = _split(random, free(asked), chain, sizes, MAIN)
        pose = Pose(Point(middle, middle), Fraction(cos), Fraction(sin), None)
        return Yard(asked, lay_out(asked, pose, chain))
    side = random.choice(sides)
    asked, chain = _split(random, asked, chain, sizes, side)
    # Outside posts may be thicker than the back panel.
    off = asked.frame.back_thickness.ceil_to(mark) + inch(5)
    x = {MAIN: middle, RIGHT: off, LEFT: -(off + sizes.width)}[side]
    y = {MAIN: off, RIGHT: -middle, LEFT: middle}[side]
    return Yard(asked, lay_out(asked, POSES[side], replace(chain, x=x.round_to(mark), y=y.round_to(mark))))
