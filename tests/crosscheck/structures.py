"""What a layout can be apart from its place: the twin's own reading of sizes, counts, posts and seats."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache
from itertools import combinations
from math import ceil

from fitter.domain.cushions import Option, options
from fitter.domain.project import Project
from fitter.domain.wishes import CornerKind, EndKind, Shape
from rooms.lengths import Length

Span = tuple[int, int, int]
"""A coordinate in marks: constant, times n, times m (modules of the main and of the side run)."""


@dataclass(frozen=True)
class Block:
    """A rectangle that grows with the counts; relative to the deck corner of the layout."""

    x0: Span
    x1: Span
    y0: Span
    y1: Span

    def mirrored(self) -> Block:
        """The same seen in a mirror that stands across the main run."""
        return replace(self, x0=_minus(self.x1), x1=_minus(self.x0))


def _minus(span: Span) -> Span:
    return -span[0], -span[1], -span[2]


@dataclass(frozen=True)
class Row:
    """One pair of counts with what it brings."""

    n: int
    m: int
    seats: int
    notches: int
    posts: int

    @property
    def key(self) -> int:
        """Greater is better: seats, then fewest notches, then fewest posts."""
        return self.seats * 1_000_000 - self.notches * 1_000 - self.posts


@dataclass(frozen=True)
class Structure:
    """One shape from one option: what stands, what stays clear, where the back is, the counts it allows."""

    stands: tuple[Block, ...]
    clear: tuple[Block, ...]
    back: Block
    rows: tuple[Row, ...]


@dataclass(frozen=True)
class Sizes:
    """All sizes in marks."""

    pitch: int
    deck: int
    back: int
    post: int
    rail: int
    end: int
    legroom: int
    notch: int
    limit: Fraction


def marks_up(length: Length, mark: Length) -> int:
    """Whole marks, rounded up."""
    return -(-length.units // mark.units)


def structures(project: Project, longest: int) -> Iterator[Structure]:
    """Every structure whose main run is at most `longest` marks long.

    Which of two end kinds stands changes neither seats nor posts, and the thinner one takes less room, so
    only the thinnest that is allowed is tried.
    """
    wish = project.wish
    for option in options(project.cushions):
        sizes = _sizes(project, option)
        most = longest // sizes.pitch
        if wish.shape is not Shape.L:
            yield _straight(project, option, sizes, most)
        for kind in CornerKind:
            if wish.shape is Shape.STRAIGHT or wish.corner not in (None, kind):
                continue
            found = _corner(project, option, sizes, kind, most)
            yield found
            yield replace(
                found,
                stands=tuple(block.mirrored() for block in found.stands),
                clear=tuple(block.mirrored() for block in found.clear),
                back=found.back.mirrored(),
            )


def _sizes(project: Project, option: Option) -> Sizes:
    frame, mark, cushion = project.frame, project.mark, option.cushion
    across, along = (0, 1) if option.turned else (1, 0)
    ends = {EndKind.ARMED: frame.arm_thickness, EndKind.OPEN: frame.open_end_thickness}
    allowed = [ends[kind] for kind in EndKind if project.wish.ends in (None, kind)]
    longest = project.shop.longest(frame.rail.name)
    limits = [Fraction(length.units, mark.units) for length in (frame.max_span, longest) if length is not None]
    cut = frame.post.width.units + frame.notch_clearance.units - Fraction(cushion.ease.units, 2)
    return Sizes(
        pitch=marks_up(cushion.size[along] + cushion.ease, mark),
        deck=marks_up(cushion.size[across] + cushion.ease, mark),
        back=marks_up(frame.back_thickness, mark),
        post=marks_up(frame.post.width, mark),
        rail=marks_up(frame.rail.thickness, mark),
        end=min(marks_up(thickness, mark) for thickness in allowed),
        legroom=marks_up(project.wish.legroom, mark),
        notch=max(0, ceil(cut / mark.units)),
        limit=min(limits),
    )


def _straight(project: Project, option: Option, sizes: Sizes, most: int) -> Structure:
    p, d, t, e = sizes.pitch, sizes.deck, sizes.back, sizes.end
    rows = []
    for n in range(1, most + 1):
        line = fewest(0, n * p, tuple(k * p for k in range(1, n)), sizes.post, sizes.limit)
        if line is not None:
            rows.append(Row(n, 0, n * option.cushion.seats, 0, 2 * line))
    run = Block((0, 0, 0), (0, p, 0), (-t, 0, 0), (0, 0, 0))
    return Structure(
        stands=(Block((-e, 0, 0), (e, p, 0), (-t, 0, 0), (d, 0, 0)),),
        clear=(Block((0, 0, 0), (0, p, 0), (d, 0, 0), (d + sizes.legroom, 0, 0)),),
        back=run,
        rows=_wished(project, option, rows, 0),
    )


def _corner(project: Project, option: Option, sizes: Sizes, kind: CornerKind, most: int) -> Structure:
    p, d, t, e, leg = sizes.pitch, sizes.deck, sizes.back, sizes.end, sizes.legroom
    seated = kind is not CornerKind.TABLE_CORNER
    notched = kind is CornerKind.INSIDE_POST and sizes.notch > 0
    rows = []
    if not (seated and p > d) and not (notched and not option.cushion.may_notch):
        for n in range(1, most + 1):
            for m in range(1, n + 1):
                posts = corner_posts(n, m, sizes, kind)
                if posts is not None:
                    rows.append(Row(n, m, (n + m + seated) * option.cushion.seats, int(notched), posts))
    stands = [
        Block((-t, 0, 0), (d + e, p, 0), (-t, 0, 0), (d, 0, 0)),
        Block((-t, 0, 0), (d, 0, 0), (-t, 0, 0), (d + e, 0, p)),
    ]
    if kind is CornerKind.OUTSIDE_POST and sizes.post > t:
        stands.append(Block((-sizes.post, 0, 0), (0, 0, 0), (-sizes.post, 0, 0), (0, 0, 0)))
    return Structure(
        stands=tuple(stands),
        clear=(
            Block((d, 0, 0), (d, p, 0), (d, 0, 0), (d + leg, 0, 0)),
            Block((d, 0, 0), (d + leg, 0, 0), (d, 0, 0), (d, 0, p)),
        ),
        back=Block((0, 0, 0), (d, p, 0), (-t, 0, 0), (0, 0, 0)),
        rows=_wished(project, option, rows, int(seated)),
    )


def _wished(project: Project, option: Option, rows: list[Row], more: int) -> tuple[Row, ...]:
    """Rows within stock and wish; `more` cushions lie in the corner."""
    wish, stock = project.wish, option.cushion.stock
    return tuple(
        row
        for row in rows
        if (stock is None or row.n + row.m + more <= stock)
        and wish.least <= row.seats
        and (wish.most is None or row.seats <= wish.most)
    )


def corner_posts(n: int, m: int, sizes: Sizes, kind: CornerKind) -> int | None:
    """Fewest posts of an L: interior ones, the inner corner post and the corner post."""
    p, d, post, limit = sizes.pitch, sizes.deck, sizes.post, sizes.limit
    outer = 0 if kind is CornerKind.OUTSIDE_POST else post
    side_from = sizes.rail if kind is CornerKind.OUTSIDE_POST else post
    main_lines, side_lines = (tuple(d + k * p for k in range(count)) for count in (n, m))
    at_cross = d - 2 * post if d - post - sizes.rail > limit else None
    if at_cross is not None and at_cross > limit:
        return None
    lines = (
        fewest(d, d + n * p, main_lines[1:], post, limit),
        fewest(d, d + m * p, side_lines[1:], post, limit),
        fewest(outer, d + n * p, main_lines, post, limit, first=at_cross is not None),
        fewest(side_from, d + m * p, side_lines, post, limit),
    )
    return None if None in lines else 2 + sum(line for line in lines if line is not None)


@cache
def fewest(
    start: int, stop: int, lines: tuple[int, ...], post: int, limit: Fraction, first: bool = False
) -> int | None:
    """Fewest posts on some of `lines` so that no clear opening passes `limit`; None if no choice does.

    Args:
        start: face where the first rail begins.
        stop: face where the last one ends.
        lines: where posts may be centred.
        post: width of a post.
        limit: of a clear opening.
        first: whether a post must stand on the first line.
    """
    for count in range(len(lines) + 1):
        for chosen in combinations(lines, count):
            if first and lines[0] not in chosen:
                continue
            low = (start, *(line - post // 2 + post for line in chosen))
            high = (*(line - post // 2 for line in chosen), stop)
            if all(0 < b - a <= limit for a, b in zip(low, high, strict=True)):
                return count
    return None
