"""Lines of rails along a chain of runs: where their clear openings lie, and which module lines may carry a post.

Each line is written from the hand at which its run is counted, as if that were the right one; `Case.seen` turns the
left over.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from fitter.checking.case import Case
from fitter.domain.layout import Box, Face, Post, PostRole, Rail, Run, Side
from fitter.domain.wishes import CornerKind
from rooms.lengths import ZERO, Length


@dataclass(frozen=True)
class Line:
    """A line of rails along a run.

    Args:
        case: the layout that it is in.
        run: the run.
        face: front or back.
        hand: from which it is written.
        start: where its clear opening begins, along the run.
        end: where it ends.
        origin: module line 0.
        carrying: the module lines that may carry a post.
        edge: where the back line of the deck or the front of its wood lies, with which posts and rails are flush.
        inward: 1 if they stand on its high side, -1 on its low side.
    """

    case: Case
    run: Run
    face: Face
    hand: Side
    start: Length
    end: Length
    origin: Length
    carrying: range
    edge: Length
    inward: int

    def post(self, number: int) -> Box:
        """The plan of a post on a module line: centred, an odd half mark going to the side of the higher lines."""
        size, mark = self.case.post, self.case.mark
        low = self.at(number) - mark * (size.units // mark.units // 2)
        if self.face is Face.BACK:
            # At a corner place it stands behind the cross rail, which ends the wood short of the module line.
            low += self.case.overhang * ((number == self.run.count) - (number == 0))
        return self.box(low, low + size, size)

    def beside(self, number: int) -> list[Box]:
        """The plans of the posts beside a split, as far as they stand in the line's clear opening."""
        size, at = self.case.post, self.at(number)
        begins = [low for low in (at - size, at) if self.start <= low and low + size <= self.end]
        return [self.box(low, low + size, size) for low in begins]

    def at(self, number: int) -> Length:
        """Where a module line lies."""
        return self.origin + self.case.pitch(self.run) * number

    def box(self, low: Length, high: Length, thick: Length) -> Box:
        """The plan of a piece of the line, flush with the line of the deck."""
        near, far = sorted((self.edge, self.edge + thick * self.inward))
        plan = Box(low, near, high, far) if self.run.side is Side.MAIN else Box(near, low, far, high)
        return self.case.seen(plan, self.hand)

    def posts(self) -> list[Post]:
        """The interior posts that are told to stand in it."""
        return [
            post
            for post in self.case.layout.posts
            if post.role is PostRole.SUPPORT and post.run is self.run.side and post.face is self.face
        ]

    def rails(self) -> list[Rail]:
        """The rails that are told to lie in it."""
        rails = self.case.layout.rails
        return [rail for rail in rails if rail.run is self.run.side and rail.face is self.face]

    def openings(self) -> list[Box]:
        """What its posts leave of it, from its start to its end, as plans of rails; nothing within a split."""
        plans = [self.case.seen(post.box, self.hand) for post in self.posts()]
        taken = sorted((p.x0, p.x1) if self.run.side is Side.MAIN else (p.y0, p.y1) for p in plans)
        starts = [self.start, *(high for _, high in taken)]
        ends = [*(low for low, _ in taken), self.end]
        return [self.box(low, high, self.case.rail) for low, high in zip(starts, ends, strict=True) if low != high]


def lines(case: Case) -> Iterator[Line]:
    """Front and back of each run."""
    yield from _main(case)
    for arm in case.arms:
        yield from _arm(case, arm)


def _main(case: Case) -> Iterator[Line]:
    run, near = case.main, case.first
    far = Side.LEFT if near is Side.RIGHT else Side.RIGHT
    low, count = case.x + case.reach(near), run.count
    high = low + case.length(run)
    begin, stop = (case.overhang if case.layout.run(hand) else ZERO for hand in (near, far))
    wood = case.front - case.overhang
    yield Line(case, run, Face.FRONT, near, low - begin, high + stop, low, range(1, count), wood, -1)
    carrying = range(0 if case.layout.run(near) else 1, count + 1 if case.layout.run(far) else count)
    start, end = case.x + _taken(case, near), case.x + case.width - _taken(case, far)
    yield Line(case, run, Face.BACK, near, start, end, low, carrying, case.y, 1)


def _taken(case: Case, hand: Side) -> Length:
    """What a corner takes from the main run's back rail, counted from the outer face of the corner place."""
    if case.layout.run(hand) is None:
        return ZERO
    if case.layout.corner is not CornerKind.OUTSIDE_POST:
        return case.post
    return ZERO if case.owner(hand) is Side.MAIN else case.rail


def _arm(case: Case, run: Run) -> Iterator[Line]:
    hand, low, count, over = run.side, case.front, run.count, case.overhang
    high = low + case.length(run)
    yield Line(case, run, Face.FRONT, hand, low - over, high, low, range(1, count), case.x + case.wood(run), -1)
    taken = case.post
    if case.layout.corner is CornerKind.OUTSIDE_POST:
        taken = case.rail if case.owner(hand) is Side.MAIN else ZERO
    yield Line(case, run, Face.BACK, hand, case.y + taken, high, low, range(count), case.x, 1)


def corner_posts(case: Case, hand: Side) -> tuple[Post, Post]:
    """The post at the inner corner, and the one that holds the backs together."""
    x, y, p = case.x, case.y, case.post
    inner, front = x + case.reach(hand) - case.overhang, case.front - case.overhang
    outer = Box(x, y, x + p, y + p)
    if case.layout.corner is CornerKind.OUTSIDE_POST:
        outer = Box(x - p, y - p, x, y)
    within = case.seen(Box(inner - p, front - p, inner, front), hand)
    return (
        Post(PostRole.INNER_CORNER, hand, Face.FRONT, None, within),
        Post(PostRole.CORNER, hand, Face.BACK, None, case.seen(outer, hand)),
    )


def cross(case: Case, hand: Side) -> Box:
    """From the inner corner post to the owner's back rail, or to the post that stands there."""
    p, r = case.post, case.rail
    inner, front = case.x + case.reach(hand) - case.overhang, case.front - case.overhang
    owner = case.owner(hand)
    number = case.main.count if owner is Side.MAIN and hand is not case.first else 0
    spot = (PostRole.SUPPORT, owner, Face.BACK, number)
    on_post = any((post.role, post.run, post.face, post.line) == spot for post in case.layout.posts)
    taken = p if on_post else r
    if owner is Side.MAIN:
        return case.seen(Box(inner - r, case.y + taken, inner, front - p), hand)
    return case.seen(Box(case.x + taken, front - r, inner - p, front), hand)
