"""Whether posts stand on module lines and rails fill every clear opening from end to end."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from fitter.checking import splitting
from fitter.checking.case import Case
from fitter.checking.lines import Line, corner_posts, cross, lines
from fitter.checking.seating import overlapping
from fitter.domain.findings import Finding
from fitter.domain.frame import RailJoint
from fitter.domain.layout import Box, Face, Post, PostRole, Rail, Side
from rooms.lengths import ZERO


def posts(case: Case) -> Iterator[Finding]:
    """Interior posts are centred on module lines, or in pairs beside splits; each corner has its two posts."""
    counted = 0
    for line in lines(case):
        splits = case.layout.split_lines(line.run.side)
        for post in line.posts():
            if post.line not in splits:
                yield from _support(line, post)
            counted += 1
        yield from splitting.doubled(line)
    wanted = [post for arm in case.arms for post in corner_posts(case, arm.side)]
    found = [post for post in case.layout.posts if post.role is not PostRole.SUPPORT]
    for post in wanted:
        if post not in found:
            yield case.fault("post", f"no {post.role} post of the {post.run} arm stands at {case.tell_box(post.box)}")
    for post in found:
        if post not in wanted:
            yield case.fault("post", f"no {post.role} post of the {post.run} run belongs at {case.tell_box(post.box)}")
    if counted + len(found) != len(case.layout.posts):
        left = len(case.layout.posts) - counted - len(found)
        yield case.fault("post", f"{left} posts stand in no line of rails")


def _support(line: Line, post: Post) -> Iterator[Finding]:
    case, name = line.case, f"the {line.face} post at line {post.line} of the {line.run.side} run"
    if post.line is None or post.line not in line.carrying:
        yield case.fault("post", f"{name}: no post may stand at such a line")
    elif post.box != (wanted := line.post(post.line)):
        yield case.fault("post", f"{name} stands at {case.tell_box(post.box)}; its place is {case.tell_box(wanted)}")


def rails(case: Case) -> Iterator[Finding]:
    """Between the posts of a line, rails fill its clear opening exactly, as does each cross rail its own."""
    for line in lines(case):
        yield from _filled(case, f"{line.run.side} {line.face}", line.rails(), line.openings())
    for arm in case.arms:
        found = [rail for rail in case.layout.rails if rail.face is Face.CROSS and rail.run is arm.side]
        yield from _filled(case, f"{arm.side} cross", found, [cross(case, arm.side)])
    for rail in case.layout.rails:
        if rail.face is Face.CROSS and rail.run is Side.MAIN:
            yield case.fault("rail-fill", "a cross rail is told to lie at the main run, it belongs to an arm")


def _filled(case: Case, name: str, found: list[Rail], wanted: list[Box]) -> Iterator[Finding]:
    if [rail.bay for rail in found] != list(range(1, len(found) + 1)):
        yield case.fault("rail-fill", f"{name} rails are counted {[rail.bay for rail in found]}")
    if [rail.box for rail in found] != wanted:
        told = "; ".join(case.tell_box(rail.box) for rail in found) or "none"
        right = "; ".join(case.tell_box(box) for box in wanted) or "none"
        yield case.fault("rail-fill", f"{name} rails: {told}; the clear openings are {right}")


def lengths(case: Case) -> Iterator[Finding]:
    """Each rail is as long as its place, bridges no more than the span, and a board yields it."""
    frame, shop = case.project.frame, case.project.shop
    board = shop.longest(frame.rail.name)
    housed = frame.carpentry.housing * 2 if frame.carpentry.rail_joint is RailJoint.HOUSING else ZERO
    for rail in case.layout.rails:
        size = rail.box.x1 - rail.box.x0 if _along_x(case, rail) else rail.box.y1 - rail.box.y0
        name = f"the {rail.face} rail {rail.bay} of the {rail.run} run"
        if rail.length != size:
            yield case.fault("rail-length", f"{name} is {case.tell(rail.length)}, its place {case.tell(size)}")
        if size > frame.max_span:
            message = f"{name} bridges {case.tell(size)}, at most {case.tell(frame.max_span)} are allowed"
            yield case.fault("span", message, "frame.max_span")
        if board is not None and rail.length + housed > board:
            more = f" and its housings take {case.tell(housed)}" if housed else ""
            message = f"{name} is {case.tell(rail.length)}{more}, no board yields more than {case.tell(board)}"
            yield case.fault("board", message, "shop.boards")


def _along_x(case: Case, rail: Rail) -> bool:
    """Whether a rail runs along the main run: one of it, or a cross rail to the back of an arm that owns its corner."""
    if rail.face is Face.CROSS:
        return case.owner(rail.run) is not Side.MAIN
    return rail.run is Side.MAIN


def solids_apart(case: Case) -> Iterator[Finding]:
    """No two posts or rails stand in the same place."""
    wood: list[Post | Rail] = [*case.layout.posts, *case.layout.rails]
    for one, other in combinations(wood, 2):
        if overlapping(one.box, other.box):
            message = f"wood of the {one.run} run at {case.tell_box(one.box)} stands in {case.tell_box(other.box)}"
            yield case.fault("overlap", message)
