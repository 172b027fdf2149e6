"""Layouts laid out by hand: plain arithmetic from the document that says what a layout is.

Nothing here is shared with the model or the checker, and neither hand is made from the other by mirroring.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from fitter.domain.cushions import Option
from fitter.domain.layout import (
    Box,
    End,
    Face,
    Layout,
    Module,
    ModuleLine,
    Notch,
    Pose,
    Post,
    PostRole,
    Purchase,
    Rail,
    Run,
    Side,
)
from fitter.domain.project import Project
from fitter.domain.wishes import CornerKind, EndKind, Shape
from rooms.lengths import ZERO, Length

MAIN, RIGHT, LEFT = Side.MAIN, Side.RIGHT, Side.LEFT
INSIDE, OUTSIDE, TABLE = CornerKind.INSIDE_POST, CornerKind.OUTSIDE_POST, CornerKind.TABLE_CORNER
ANGLE, LOW, SPREAD = CornerKind.ANGLE_POST, CornerKind.LOW_POST, CornerKind.SPREAD
ARMED, OPEN = EndKind.ARMED, EndKind.OPEN


@dataclass(frozen=True)
class Row:
    """A run as planned.

    Args:
        option: how its cushions lie.
        count: modules.
        front: module lines that carry a front post.
        back: module lines that carry a back post.
        splits: module lines at which it is split, and so carries two posts in front and behind.
    """

    option: Option
    count: int
    front: tuple[int, ...] = ()
    back: tuple[int, ...] = ()
    splits: tuple[int, ...] = ()


@dataclass(frozen=True)
class Chain:
    """Up to three runs as planned, from the deck corner (x, y).

    Args:
        x: low-x end of the back line, corner places included.
        y: the back line.
        main: the main run.
        right: the arm at its low-x end.
        left: the arm at its high-x end.
        corner: the treatment of the corners.
        right_corner: how the cushion of the right corner lies; as the main run's where not said.
        left_corner: the same of the left corner.
        ends: kinds of the right and the left end.
    """

    x: Length
    y: Length
    main: Row
    right: Row | None = None
    left: Row | None = None
    corner: CornerKind | None = None
    right_corner: Option | None = None
    left_corner: Option | None = None
    ends: tuple[EndKind, EndKind] = (ARMED, ARMED)


def lay_out(project: Project, pose: Pose, chain: Chain) -> Layout:
    """The layout that a chain of runs makes, placed by `pose`."""
    return _Yard(project, pose, chain).layout()


class _Yard:
    """The places of a chain, in the letters of the document."""

    def __init__(self, project: Project, pose: Pose, chain: Chain) -> None:
        self.project, self.pose, self.chain = project, pose, chain
        self.mark, frame = project.mark, project.frame
        self.t = frame.back_thickness.ceil_to(self.mark)
        self.p = frame.post.width.ceil_to(self.mark)
        self.r = frame.rail.thickness.ceil_to(self.mark)
        self.clear = project.wish.legroom.ceil_to(self.mark)
        self.X, self.Y = chain.x, chain.y
        self.o = frame.overhang.ceil_to(self.mark)
        self.gap = self.o + self.spread()
        self.D = chain.main.option.deck(self.mark) + self.gap
        self.R = chain.right.option.deck(self.mark) + self.gap if chain.right else ZERO
        self.L = chain.left.option.deck(self.mark) + self.gap if chain.left else ZERO
        self.long = self.length(chain.main)
        self.W = self.R + self.long + self.L
        self.x0, self.x1 = self.X + self.R, self.X + self.R + self.long
        self.y1, self.far = self.Y + self.D, self.X + self.W
        self.tops = {
            RIGHT: self.y1 + (self.length(chain.right) if chain.right else ZERO),
            LEFT: self.y1 + (self.length(chain.left) if chain.left else ZERO),
        }
        self.from_left = chain.left is not None and chain.right is None
        """Whether the main run is counted from its left hand, as in an L whose corner lies there."""
        # Where the wood ends in front: along the main run, and along the right and the left arm.
        self.wood_y, self.wood_x0, self.wood_x1 = self.y1 - self.o, self.x0 - self.o, self.x1 + self.o
        if chain.right is None:
            self.wood_x0 = self.x0
        if chain.left is None:
            self.wood_x1 = self.x1

    def in_corner(self, arm: Side) -> Option:
        """How the cushion in the corner of an arm lies."""
        return (self.chain.right_corner if arm is RIGHT else self.chain.left_corner) or self.chain.main.option

    def spread(self) -> Length:
        """How far all cushions are eased off the backs: as far as the post of the worse corner asks."""
        if self.chain.corner is not SPREAD:
            return ZERO
        return max(self.cut(self.in_corner(arm), self.p) for arm, _ in self.arms())

    def cut(self, option: Option, wood: Length) -> Length:
        """What wood that stands so far out from a back takes from a cushion with its ease around it."""
        half = Fraction(option.cushion.ease.units, 2)
        exact = wood.units + self.project.frame.notch_clearance.units - half - self.o.units
        return Length(-(-exact // self.mark.units) * self.mark.units) if exact > 0 else ZERO

    def length(self, row: Row) -> Length:
        """Pitches in a row."""
        return row.option.pitch(self.mark) * row.count

    def end_thickness(self, kind: EndKind) -> Length:
        """Thickness of an end."""
        frame = self.project.frame
        return (frame.arm_thickness if kind is ARMED else frame.open_end_thickness).ceil_to(self.mark)

    def arms(self) -> list[tuple[Side, Row]]:
        """Left before right, as runs are listed."""
        pairs = ((LEFT, self.chain.left), (RIGHT, self.chain.right))
        return [(side, row) for side, row in pairs if row is not None]

    def owner(self, arm: Side) -> Side:
        """The run that owns the corner of an arm."""
        row = self.chain.right if arm is RIGHT else self.chain.left
        assert row is not None
        if self.long == self.length(row):
            return self.pose.aligned if self.pose.aligned in (MAIN, arm) else MAIN
        return MAIN if self.long > self.length(row) else arm

    def layout(self) -> Layout:
        arms, modules = self.arms(), tuple(self.modules())
        shape = (Shape.STRAIGHT, Shape.L, Shape.U)[len(arms)]
        posts, rails = self.wood()
        runs, ends = tuple(self.runs()), tuple(self.ends())
        outer = [post.box for post in posts if post.role is PostRole.CORNER and self.chain.corner is OUTSIDE]
        return Layout(
            shape=shape,
            hand=arms[0][0] if shape is Shape.L else None,
            pose=self.pose,
            off_edge=self.off_edge(),
            corner=self.chain.corner,
            runs=runs,
            modules=modules,
            ends=ends,
            posts=posts,
            rails=rails,
            footprint=(
                *(module.box for module in modules if module.corner),
                *(box for run in runs for box in (run.deck, run.back)),
                *(end.box for end in ends),
                *outer,
            ),
            purchases=self.purchases(modules),
            splits=tuple(ModuleLine(side, k) for side, row in ((MAIN, self.chain.main), *arms) for k in row.splits),
            gap=self.gap,
        )

    def off_edge(self) -> Length:
        """From the backing edge, or free standing from the lowest corner of the room, to the aligned back."""
        if self.pose.edge is not None:
            return {MAIN: self.Y - self.t, RIGHT: self.X - self.t, LEFT: -(self.far + self.t)}[self.pose.aligned]
        (ox, oy), cos, sin = self.pose.origin, self.pose.cos, self.pose.sin
        heights = [cos * (b - oy).units - sin * (a - ox).units for a, b in self.project.room.outline]
        return self.Y - self.t - Length(round(min(heights)))

    def runs(self) -> Iterator[Run]:
        x0, x1, y1, clear, t = self.x0, self.x1, self.y1, self.clear, self.t
        low = self.X - t if self.chain.right else self.X
        high = self.far + t if self.chain.left else self.far
        yield self.run(
            MAIN, self.chain.main, Box(x0, self.Y, x1, y1), Box(low, self.Y - t, high, self.Y),
            Box(x0, y1, x1, y1 + clear),
        )  # fmt: skip
        for side, row in self.arms():
            top = self.tops[side]
            if side is RIGHT:
                deck, back = Box(self.X, y1, x0, top), Box(self.X - t, self.Y, self.X, top)
                strip = Box(x0, y1, x0 + clear, top)
            else:
                deck, back = Box(x1, y1, self.far, top), Box(self.far, self.Y, self.far + t, top)
                strip = Box(x1 - clear, y1, x1, top)
            yield self.run(side, row, deck, back, strip)

    def run(self, side: Side, row: Row, deck: Box, back: Box, strip: Box) -> Run:
        option = row.option
        return Run(
            side, option.cushion.name, option.turned, row.count, option.pitch(self.mark), deck, back, strip
        )  # fmt: skip

    def modules(self) -> Iterator[Module]:
        corners = [corner for arm in (RIGHT, LEFT) if (corner := self.corner(arm)) is not None]
        pitch, count = self.chain.main.option.pitch(self.mark), self.chain.main.count
        yield from (corner for corner in corners if corner.run is MAIN)
        for k in range(count):
            low = self.x1 - pitch * (k + 1) if self.from_left else self.x0 + pitch * k
            yield self.module(MAIN, k + 1, self.chain.main.option, Box(low, self.Y + self.gap, low + pitch, self.y1))
        for side, row in self.arms():
            yield from (corner for corner in corners if corner.run is side)
            low, high = (self.X + self.gap, self.x0) if side is RIGHT else (self.x1, self.far - self.gap)
            pitch = row.option.pitch(self.mark)
            for k in range(row.count):
                box = Box(low, self.y1 + pitch * k, high, self.y1 + pitch * (k + 1))
                yield self.module(side, k + 1, row.option, box)

    def module(self, run: Side, place: int, option: Option, box: Box) -> Module:
        return Module(run, place, option.cushion.name, option.turned, box, option.cushion.seats)

    def corner(self, arm: Side) -> Module | None:
        """What fills the corner place of an arm."""
        row = self.chain.right if arm is RIGHT else self.chain.left
        if row is None:
            return None
        owner = self.owner(arm)
        both = arm is LEFT and self.chain.right is not None and self.owner(RIGHT) is MAIN
        place = self.chain.main.count + 1 if both and owner is MAIN else 0
        low, high = (self.X, self.x0) if arm is RIGHT else (self.x1, self.far)
        box = Box(low, self.Y, high, self.y1)
        if self.chain.corner is TABLE:
            return Module(owner, place, None, False, box, 0, corner=arm)
        option, gap = self.in_corner(arm), self.gap
        wide, deep = option.pitch(self.mark), option.deck(self.mark)
        near, far = (low + gap, low + gap + wide) if arm is RIGHT else (high - gap - wide, high - gap)
        cover = Box(near, self.Y + gap, far, self.Y + gap + deep)
        return Module(
            owner, place, option.cushion.name, option.turned, box, option.cushion.seats,
            notch=self.notch(arm, option),
            cover=None if cover == box else cover, corner=arm,
        )  # fmt: skip

    def notch(self, arm: Side, option: Option) -> Notch | None:
        """What the post in the corner, or the boards above it, take from a cushion."""
        # It begins half its ease, down to the mark, inside a place that keeps off the backs what it overhangs.
        half = Fraction(option.cushion.ease.units, 2)
        begin = self.o + Length(max(0, half // self.mark.units) * self.mark.units)
        y, size = self.Y + begin, self.cut(option, self.p)
        if self.chain.corner is INSIDE and size:
            low = self.X + begin if arm is RIGHT else self.far - begin - size
            return Notch(Box(low, y, low + size, y + size), size, size)
        boards = self.project.frame.angle
        thick, wide = boards.thickness.ceil_to(self.mark), boards.width.ceil_to(self.mark)
        deep, along = self.cut(option, thick), self.cut(option, wide)
        across = self.cut(option, thick + wide)
        if self.chain.corner is not ANGLE or not deep:
            return None
        if arm is RIGHT:
            x = self.X + begin
            first, second = Box(x, y, x + along, y + deep), Box(x, y + deep, x + deep, y + across)
            whole = Box(x, y, x + along, y + across)
        else:
            x = self.far - begin
            first, second = Box(x - along, y, x, y + deep), Box(x - deep, y + deep, x, y + across)
            whole = Box(x - along, y, x, y + across)
        return Notch(whole, along, across, (first, second), deep)

    def ends(self) -> Iterator[End]:
        right, left = self.chain.ends
        e, f, t = self.end_thickness(right), self.end_thickness(left), self.t
        if self.chain.right is None:
            yield End(MAIN, right, Box(self.X - e, self.Y - t, self.X, self.y1), RIGHT)
        if self.chain.left is None:
            yield End(MAIN, left, Box(self.far, self.Y - t, self.far + f, self.y1), LEFT)
        if self.chain.left is not None:
            top = self.tops[LEFT]
            yield End(LEFT, left, Box(self.x1, top, self.far + t, top + f), LEFT)
        if self.chain.right is not None:
            top = self.tops[RIGHT]
            yield End(RIGHT, right, Box(self.X - t, top, self.x0, top + e), RIGHT)

    def purchases(self, modules: tuple[Module, ...]) -> tuple[Purchase, ...]:
        used = Counter(module.cushion for module in modules)
        return tuple(
            Purchase(kind.name, used[kind.name], max(0, used[kind.name] - (kind.own or 0)))
            for kind in self.project.cushions
            if used[kind.name]
        )

    def wood(self) -> tuple[tuple[Post, ...], tuple[Rail, ...]]:
        """Posts, and rails run by run, face by face."""
        posts: list[Post] = []
        rails: list[Rail] = []
        for pair in (self.main_wood(), *(self.arm_wood(side, row) for side, row in self.arms())):
            posts += pair[0]
            rails += pair[1]
        posts += [post for side, _ in self.arms() for post in self.corner_posts(side)]
        return tuple(posts), tuple(rails)

    def main_wood(self) -> tuple[list[Post], list[Rail]]:
        row, pitch = self.chain.main, self.chain.main.option.pitch(self.mark)
        low = self.X + self.behind(RIGHT) if self.chain.right else self.X
        high = self.far - self.behind(LEFT) if self.chain.left else self.far
        posts: list[Post] = []
        rails: list[Rail] = []
        for face, lines, start, stop in (
            (Face.FRONT, row.front, self.wood_x0, self.wood_x1),
            (Face.BACK, row.back, low, high),
        ):
            spots = {k: self.x1 - pitch * k if self.from_left else self.x0 + pitch * k for k in (*lines, *row.splits)}
            begins = [(k, self.before(self.stood(spots[k], face), falling=self.from_left)) for k in lines]
            begins += [(k, a) for k in row.splits for a in self.beside(spots[k], start, stop)]
            post_y = self.wood_y - self.p if face is Face.FRONT else self.Y
            rail_y = self.wood_y - self.r if face is Face.FRONT else self.Y
            posts += [
                Post(PostRole.SUPPORT, MAIN, face, k, Box(a, post_y, a + self.p, post_y + self.p)) for k, a in begins
            ]
            holes = self.holes(start, stop, [a for _, a in begins])
            rails += [
                Rail(MAIN, face, bay, b - a, Box(a, rail_y, b, rail_y + self.r))
                for bay, (a, b) in enumerate(reversed(holes) if self.from_left else holes, start=1)
            ]
        return posts, rails

    def stood(self, line: Length, face: Face) -> Length:
        """Where a post on a line of the main run stands: behind at a corner place, as near to it as the cross rail."""
        if face is Face.BACK and self.chain.right and line == self.x0:
            return self.wood_x0
        return self.wood_x1 if face is Face.BACK and self.chain.left and line == self.x1 else line

    def behind(self, arm: Side) -> Length:
        """From the outer end of the main back line to where its rail begins at the corner of an arm."""
        if self.chain.corner is not OUTSIDE:
            return self.p
        return ZERO if self.owner(arm) is MAIN else self.r

    def arm_wood(self, side: Side, row: Row) -> tuple[list[Post], list[Rail]]:
        pitch, top = row.option.pitch(self.mark), self.tops[side]
        after = self.p if self.chain.corner is not OUTSIDE else self.r if self.owner(side) is MAIN else ZERO
        posts: list[Post] = []
        rails: list[Rail] = []
        for face, lines, start in ((Face.FRONT, row.front, self.wood_y), (Face.BACK, row.back, self.Y + after)):
            begins = [(k, self.before(self.y1 + pitch * k if k or face is Face.FRONT else self.wood_y)) for k in lines]
            begins += [(k, a) for k in row.splits for a in self.beside(self.y1 + pitch * k, start, top)]
            posts += [
                Post(PostRole.SUPPORT, side, face, k, Box(u, a, v, a + self.p))
                for k, a in begins
                for u, v in [self.strip(side, face, self.p)]
            ]
            u, v = self.strip(side, face, self.r)
            holes = self.holes(start, top, [a for _, a in begins])
            rails += [Rail(side, face, bay, b - a, Box(u, a, v, b)) for bay, (a, b) in enumerate(holes, start=1)]
        box = self.cross(side, row)
        size = box.y1 - box.y0 if self.owner(side) is MAIN else box.x1 - box.x0
        return posts, [*rails, Rail(side, Face.CROSS, 1, size, box)]

    def strip(self, side: Side, face: Face, thick: Length) -> tuple[Length, Length]:
        """Where wood of a thickness lies across an arm, flush with the front or the back line of its deck."""
        if side is RIGHT:
            return (self.wood_x0 - thick, self.wood_x0) if face is Face.FRONT else (self.X, self.X + thick)
        return (self.wood_x1, self.wood_x1 + thick) if face is Face.FRONT else (self.far - thick, self.far)

    def cross(self, side: Side, row: Row) -> Box:
        """From the inner corner post to the owner's back rail, or to a post that stands there."""
        p, r = self.p, self.r
        if self.owner(side) is MAIN:
            line = self.chain.main.count if side is LEFT and not self.from_left else 0
            foot = self.Y + (p if line in (*self.chain.main.back, *self.chain.main.splits) else r)
            low = self.wood_x0 - r if side is RIGHT else self.wood_x1
            return Box(low, foot, low + r, self.wood_y - p)
        deep = p if 0 in (*row.back, *row.splits) else r
        low, high = (self.X + deep, self.wood_x0 - p) if side is RIGHT else (self.wood_x1 + p, self.far - deep)
        return Box(low, self.wood_y - r, high, self.wood_y)

    def corner_posts(self, side: Side) -> Iterator[Post]:
        p, outside = self.p, self.chain.corner is OUTSIDE
        inner = self.wood_x0 - p if side is RIGHT else self.wood_x1
        outer = self.X if side is RIGHT else self.far - p
        if outside:
            outer = self.X - p if side is RIGHT else self.far
        low = self.Y - p if outside else self.Y
        yield Post(PostRole.INNER_CORNER, side, Face.FRONT, None, Box(inner, self.wood_y - p, inner + p, self.wood_y))
        yield Post(PostRole.CORNER, side, Face.BACK, None, Box(outer, low, outer + p, low + p))

    def before(self, line: Length, *, falling: bool = False) -> Length:
        """Where a post on a module line begins; the odd half mark goes to the high side, as its run is counted."""
        half = Length(self.p.units // 2 // self.mark.units * self.mark.units)
        return line - (self.p - half if falling else half)

    def holes(self, start: Length, stop: Length, begins: list[Length]) -> list[tuple[Length, Length]]:
        """What posts that begin somewhere leave open of a line of rails; nothing between two that touch."""
        begins = sorted(begins)
        holes = zip([start, *(a + self.p for a in begins)], [*begins, stop], strict=True)
        return [(a, b) for a, b in holes if a != b]

    def beside(self, line: Length, start: Length, stop: Length) -> list[Length]:
        """Where the posts beside a split begin: one on each side, as far as the line of rails goes."""
        return [a for a in (line - self.p, line) if start <= a and a + self.p <= stop]
