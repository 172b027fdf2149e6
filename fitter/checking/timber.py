"""Whether posts stand on module lines and rails fill every clear opening from end to end.

Written for a corner at the low-x end of the main run; `Case.plain` mirrors the others.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

from fitter.checking.case import Case
from fitter.checking.seating import overlapping
from fitter.domain.findings import Finding
from fitter.domain.layout import Box, Face, Post, PostRole, Rail, Run, Side
from fitter.domain.wishes import CornerKind
from rooms.lengths import ZERO, Length


@dataclass(frozen=True)
class _Line:
    """A line of rails along a run.

    Args:
        run: the run.
        face: front or back.
        start: where its clear opening begins, along the run.
        end: where it ends.
        origin: module line 0.
        first: the first module line that may carry a post.
        edge: where the line of the deck lies that posts and rails are flush with, across the run.
        inward: 1 if they stand on its high side, -1 on its low side.
    """

    run: Run
    face: Face
    start: Length
    end: Length
    origin: Length
    first: int
    edge: Length
    inward: int

    def box(self, low: Length, high: Length, thick: Length) -> Box:
        """A piece of the line, flush with the line of the deck."""
        near, far = sorted((self.edge, self.edge + thick * self.inward))
        return Box(low, near, high, far) if self.run.side is Side.MAIN else Box(near, low, far, high)

    def span(self, box: Box) -> tuple[Length, Length]:
        """How far a box reaches along the run."""
        return (box.x0, box.x1) if self.run.side is Side.MAIN else (box.y0, box.y1)


def _lines(case: Case) -> Iterator[_Line]:
    """Front and back of each run."""
    x, y = case.start
    deck = case.plain(case.main.deck)
    outside = case.layout.corner is CornerKind.OUTSIDE_POST
    behind = (ZERO if outside else case.post) if case.side else ZERO
    first = 0 if case.side else 1
    yield _Line(case.main, Face.FRONT, deck.x0, deck.x1, deck.x0, 1, deck.y1, -1)
    yield _Line(case.main, Face.BACK, x + behind, deck.x1, deck.x0, first, deck.y0, 1)
    if case.side:
        deck = case.plain(case.side.deck)
        behind = case.rail if outside else case.post
        yield _Line(case.side, Face.FRONT, deck.y0, deck.y1, deck.y0, 1, deck.x1, -1)
        yield _Line(case.side, Face.BACK, y + behind, deck.y1, deck.y0, 0, deck.x0, 1)


def posts(case: Case) -> Iterator[Finding]:
    """Interior posts are centred on module lines, flush with the deck; corner posts stand at the corner."""
    for line in _lines(case):
        for post in _posts(case, line):
            yield from _support(case, line, post)
    wanted = dict(_corner_posts(case))
    found = [post for post in case.layout.posts if post.role is not PostRole.SUPPORT]
    if [post.role for post in found] != list(wanted):
        yield case.fault("post", f"corner posts: {', '.join(post.role for post in found) or 'none'}")
    for post in found:
        if post.role in wanted and case.plain(post.box) != wanted[post.role]:
            yield case.fault("post", f"the {post.role} post stands at {case.tell_box(post.box)}")
    counted = sum(len(_posts(case, line)) for line in _lines(case)) + len(found)
    if counted != len(case.layout.posts):
        yield case.fault("post", f"{len(case.layout.posts) - counted} posts stand in no line of rails")


def _support(case: Case, line: _Line, post: Post) -> Iterator[Finding]:
    name = f"the {line.face} post at line {post.line} of the {line.run.side} run"
    if post.line is None or not line.first <= post.line < line.run.count:
        yield case.fault("post", f"{name}: there is no such line inside the run")
        return
    low, high = line.span(case.plain(post.box))
    off = low + high - 2 * (line.origin + line.run.pitch * post.line)
    # An odd post is half a mark off, to either side where the layout is mirrored.
    if abs(off) > case.mark or (case.post.units // case.mark.units % 2 == 0 and off):
        yield case.fault("post", f"{name} is not centred on its module line")
    if case.plain(post.box) != line.box(low, low + case.post, case.post):
        yield case.fault("post", f"{name} at {case.tell_box(post.box)} is not a post flush with the deck")


def _corner_posts(case: Case) -> Iterator[tuple[PostRole, Box]]:
    if case.side is None:
        return
    (x, y), p = case.start, case.post
    inner = case.plain(case.main.deck)
    yield PostRole.INNER_CORNER, Box(inner.x0 - p, inner.y1 - p, inner.x0, inner.y1)
    if case.layout.corner is CornerKind.OUTSIDE_POST:
        yield PostRole.CORNER, Box(x - p, y - p, x, y)
    else:
        yield PostRole.CORNER, Box(x, y, x + p, y + p)


def rails(case: Case) -> Iterator[Finding]:
    """Between the posts of a line, rails fill its clear opening exactly, as does the cross rail its own."""
    for line in _lines(case):
        found = _rails(case, line.run.side, line.face)
        holes = _openings(line, [line.span(case.plain(post.box)) for post in _posts(case, line)])
        yield from _filled(case, f"{line.run.side} {line.face}", found, [
            line.box(low, high, case.rail) for low, high in holes
        ])  # fmt: skip
    cross = [rail for rail in case.layout.rails if rail.face is Face.CROSS]
    yield from _filled(case, "cross", cross, list(_cross(case)))


def _openings(line: _Line, taken: list[tuple[Length, Length]]) -> list[tuple[Length, Length]]:
    """What the posts leave of a line, from its start to its end."""
    places = sorted(taken)
    starts = [line.start, *(high for _, high in places)]
    ends = [*(low for low, _ in places), line.end]
    return list(zip(starts, ends, strict=True))


def _cross(case: Case) -> Iterator[Box]:
    if case.side is None:
        return
    (_, y), inner = case.start, case.plain(case.main.deck)
    on_post = any(
        post.role is PostRole.SUPPORT and post.face is Face.BACK and post.line == 0 and post.run is Side.MAIN
        for post in case.layout.posts
    )
    low = y + (case.post if on_post else case.rail)
    yield Box(inner.x0 - case.rail, low, inner.x0, inner.y1 - case.post)


def _filled(case: Case, name: str, found: list[Rail], wanted: list[Box]) -> Iterator[Finding]:
    if [rail.bay for rail in found] != list(range(1, len(found) + 1)):
        yield case.fault("rail-fill", f"{name} rails are counted {[rail.bay for rail in found]}")
    if [case.plain(rail.box) for rail in found] != wanted:
        told = "; ".join(case.tell_box(rail.box) for rail in found) or "none"
        right = "; ".join(case.tell_box(case.plain(box)) for box in wanted) or "none"
        yield case.fault("rail-fill", f"{name} rails: {told}; the clear openings are {right}")


def lengths(case: Case) -> Iterator[Finding]:
    """Each rail is as long as its place, bridges no more than the span, and a board yields it."""
    frame, shop = case.project.frame, case.project.shop
    board = shop.longest(frame.rail.name)
    for rail in case.layout.rails:
        across = rail.face is Face.CROSS or rail.run is not Side.MAIN
        size = rail.box.y1 - rail.box.y0 if across else rail.box.x1 - rail.box.x0
        name = f"the {rail.face} rail {rail.bay} of the {rail.run} run"
        if rail.length != size:
            yield case.fault("rail-length", f"{name} is {case.tell(rail.length)}, its place {case.tell(size)}")
        if size > frame.max_span:
            message = f"{name} bridges {case.tell(size)}, at most {case.tell(frame.max_span)} are allowed"
            yield case.fault("span", message, "frame.max_span")
        if board is not None and rail.length > board:
            message = f"{name} is {case.tell(rail.length)}, no board yields more than {case.tell(board)}"
            yield case.fault("board", message, "shop.boards")


def solids_apart(case: Case) -> Iterator[Finding]:
    """No two posts or rails stand in the same place."""
    wood: list[Post | Rail] = [*case.layout.posts, *case.layout.rails]
    for one, other in combinations(wood, 2):
        if overlapping(one.box, other.box):
            message = f"wood of the {one.run} run at {case.tell_box(one.box)} stands in {case.tell_box(other.box)}"
            yield case.fault("overlap", message)


def _posts(case: Case, line: _Line) -> list[Post]:
    return [
        post
        for post in case.layout.posts
        if post.role is PostRole.SUPPORT and post.run is line.run.side and post.face is line.face
    ]


def _rails(case: Case, run: Side, face: Face) -> list[Rail]:
    return [rail for rail in case.layout.rails if rail.run is run and rail.face is face]
