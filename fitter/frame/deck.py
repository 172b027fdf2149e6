"""Seat slats over the whole deck, the corner places included, and every cleat that carries them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from fitter.domain.layout import Face, Post
from fitter.domain.woodwork import Part, PartRole, Spread
from fitter.frame.seat import of_run
from fitter.frame.slats import Slats, spread
from fitter.frame.spreads import told
from fitter.frame.sticks import Stick, stick
from fitter.frame.strips import Site, Strip
from rooms.lengths import Length

BEARING = Length.inches("1/2")
"""Least length of a slat that lies on its cleat: common practice."""

LEAST_CLEAT = Length.inches(3)
"""A shorter cleat splits where two screws hold it and cannot be held while it is sawn: common practice."""

CAUGHT = Length.inches("7/2")
"""A wider opening can catch a head: CPSC Public Playground Safety Handbook, B.2.5 (3 1/2 to 9 in)."""


@dataclass(frozen=True)
class Field:
    """A stretch of a run whose slats are spread together, from s = low to s = high."""

    strip: Strip
    low: int
    high: int


@dataclass(frozen=True)
class _Slat:
    """A seat slat in plan, with the posts that it ends at."""

    s0: int
    s1: int
    q0: int
    q1: int
    at_back: Post | None
    at_front: Post | None


def fields(site: Site) -> Iterator[Field]:
    """Where slats lie: each run, through the corner places that it does not own, parted where the frame is.

    The cross rail of a corner lies in line with the front rail of the run that does not own the corner place, so that
    run's slats go on to the owner's back rail, and the owner's begin beyond the cross rail.
    """
    for strip in site.strips:
        bounds = (_bound(site, strip, low=True), *strip.splits, _bound(site, strip, low=False))
        yield from (Field(strip, a, b) for a, b in pairwise(sorted(bounds)) if a < b)


def _bound(site: Site, strip: Strip, *, low: bool) -> int:
    corner = strip.corner(low)
    if corner is None:
        return 0 if low else strip.end
    if strip.owns(low):
        return strip.first_wood if low else strip.last_wood
    return site.rail if low else strip.end - site.rail


def deck(site: Site) -> tuple[list[Part], list[Spread]]:
    """Slats and cleats of the whole seat, and how the slats are spread."""
    parts: list[Part] = []
    spreads: list[Spread] = []
    stretches = list(fields(site))
    for field in stretches:
        chosen = _spread(site, field)
        siblings = [other for other in stretches if other.strip.side is field.strip.side]
        place = f"part {siblings.index(field) + 1} of {len(siblings)}" if len(siblings) > 1 else "whole run"
        spreads.append(told(site, field.strip, PartRole.SEAT_SLAT, place, field.high - field.low, chosen))
        slats = [_slat(site, field, start, chosen) for start in chosen.starts]
        short = list(_short_cleats(site, field, slats))
        parts += [part for at, part in short]
        parts += _rail_cleats(site, field, [at for at, _ in short])
        parts += [_board(site, field, slat, chosen) for slat in slats]
    return parts, spreads


def _spread(site: Site, field: Field) -> Slats:
    section, limit = site.options.seat_slat, site.options.slat_gap
    if field.low in field.strip.splits or field.high in field.strip.splits:
        # Across a split line two gaps make one opening.
        limit = min(limit, Length(CAUGHT.units // 2))
    least, most = site.gaps(section, limit)
    return spread((field.high - field.low) // site.mark, site.wide(section) // site.mark, most, least)


def _slat(site: Site, field: Field, start: int, chosen: Slats) -> _Slat:
    """A slat from rail to rail, or to the posts that stand in its way."""
    strip = field.strip
    s0 = field.low + start * site.mark
    s1 = s0 + chosen.width * site.mark
    q0, q1 = site.rail, strip.wood - site.rail
    if strip.first_wood <= s0 and s1 <= strip.last_wood:
        q1 -= site.options.reveal_beside.ceil_to(site.project.mark).units
    back: Post | None = None
    front: Post | None = None
    spare = site.thick(site.options.cleat) - BEARING.ceil_to(site.project.mark).units
    for post, (p0, p1, r0, r1) in strip.posts:
        if p0 < s1 and s0 < p1:
            # A slat that a post hardly touches still bears beside it on the rail, if the post stands out little.
            sliver = 4 * (min(p1, s1) - max(p0, s0)) < s1 - s0
            if r0 + r1 < strip.wood:
                kept = sliver and r1 - site.rail <= spare
                q0, back = (r1, back if kept else post) if r1 > q0 else (q0, back)
            else:
                kept = sliver and strip.wood - site.rail - r0 <= spare
                q1, front = (r0, front if kept else post) if r0 < q1 else (q1, front)
    return _Slat(s0, s1, q0, q1, back, front)


def _board(site: Site, field: Field, slat: _Slat, chosen: Slats) -> Part:
    strip, top = field.strip, site.levels.deck.units
    section = site.options.seat_slat
    corner = slat.s0 < strip.first_wood or slat.s1 > strip.last_wood
    kind = Stick(PartRole.SEAT_SLAT, strip.side, section, "wide face up", "corner place" if corner else "seat")
    box = strip.box(slat.s0, slat.s1, slat.q0, slat.q1, top - site.thick(section), top)
    return stick(kind, box, strip.across, strip.axis)


def _cleat_heights(site: Site) -> tuple[int, int]:
    top = site.levels.deck.units - site.thick(site.options.seat_slat)
    return top - site.wide(site.options.cleat), top


def _short_cleats(site: Site, field: Field, slats: list[_Slat]) -> Iterator[tuple[tuple[int, int, int, int], Part]]:
    """A cleat on the inner face of each post that slats end at, as long as they are wide together."""
    strip, deep = field.strip, site.thick(site.options.cleat)
    z0, z1 = _cleat_heights(site)
    taken = {True: field.low, False: field.low}
    for post, (p0, p1, r0, r1) in strip.posts:
        for back in (True, False):
            meeting = [slat for slat in slats if (slat.at_back if back else slat.at_front) is post]
            flush = _flush(site, strip, (p0, p1, r0, r1), slats, back=back)
            if not meeting and not flush:
                continue
            s0 = max(taken[back], min(p0, *(slat.s0 for slat in meeting), p0))
            s1 = min(field.high, max(p1, *(slat.s1 for slat in meeting), p1))
            small = s1 - s0 < LEAST_CLEAT.units
            if s0 >= s1 or (small and not meeting and _needless(strip, slats, (s0, s1), back=back)):
                continue
            taken[back] = s1
            q0, q1 = (r1, r1 + deep) if back else (r0 - deep, r0)
            where = f"at the {'back' if back else 'front'} post"
            kind = Stick(PartRole.SHORT_CLEAT, strip.side, site.options.cleat, place=where)
            yield (s0, s1, q0, q1), stick(kind, strip.box(s0, s1, q0, q1, z0, z1), strip.axis, 2)


def _flush(site: Site, strip: Strip, at: tuple[int, int, int, int], slats: list[_Slat], *, back: bool) -> bool:
    """Whether slats cross a post whose inner face is flush with the rails': it carries the cleat on between theirs."""
    p0, p1, r0, r1 = at
    crossing = [slat for slat in slats if p0 < slat.s1 and slat.s0 < p1]
    if (r0 + r1 < strip.wood) is not back:
        return False
    return any(
        (slat.q0 == r1 and slat.at_back is None) if back else (slat.q1 == r0 and slat.at_front is None)
        for slat in crossing
    )


def _needless(strip: Strip, slats: list[_Slat], at: tuple[int, int], *, back: bool) -> bool:
    """Whether all slats over a stretch before a post hardly touch posts, so that their rails' cleats carry them."""
    over = [slat for slat in slats if at[0] < slat.s1 and slat.s0 < at[1]]
    posts = [(p0, p1) for _, (p0, p1, r0, r1) in strip.posts if (r0 + r1 < strip.wood) is back]
    touched = [sum(max(0, min(p1, slat.s1) - max(p0, slat.s0)) for p0, p1 in posts) for slat in over]
    return all(4 * wide < slat.s1 - slat.s0 for slat, wide in zip(over, touched, strict=True))


def _rail_cleats(site: Site, field: Field, short: list[tuple[int, int, int, int]]) -> Iterator[Part]:
    """A cleat on the inner face of every rail that the slats of a field lie on, kept off short cleats and posts."""
    strip, deep = field.strip, site.thick(site.options.cleat)
    z0, z1 = _cleat_heights(site)
    for name, s0, s1, q0, q1 in _carriers(site, field):
        low, high = (q1, q1 + deep) if q0 + q1 < strip.wood else (q0 - deep, q0)
        blocks = [*short, *(at for _, at in strip.posts), *_crossing(site, strip)]
        for a, b in _clear(max(s0, field.low), min(s1, field.high), low, high, blocks):
            for c, d in _pieces(site, a, b):
                kind = Stick(PartRole.CLEAT, strip.side, site.options.cleat, place=name)
                yield stick(kind, strip.box(c, d, low, high, z0, z1), strip.axis, 2)


def _carriers(site: Site, field: Field) -> Iterator[tuple[str, int, int, int, int]]:
    """The rails that a field's slats end at: name, and place in the strip."""
    strip = field.strip
    back = site.options.reveal_beside.ceil_to(site.project.mark).units
    for face in (Face.BACK, Face.FRONT):
        for rail in of_run(site, strip.side, face):
            s0, s1, q0, q1 = strip.seen(rail.box)
            shift = back if face is Face.FRONT else 0
            yield f"{face} bay {rail.bay}", s0, s1, q0 - shift, q1 - shift
    for low in (True, False):
        other = strip.corner(low)
        if other is not None and not strip.owns(low):
            arm = strip.side if strip.axis else other.side
            for rail in of_run(site, arm, Face.CROSS):
                yield ("cross rail", *strip.seen(rail.box))


def _crossing(site: Site, strip: Strip) -> Iterator[tuple[int, int, int, int]]:
    """Rails of other runs that stand in the strip's deck."""
    for rail in site.layout.rails:
        if rail.run is not strip.side or rail.face is Face.CROSS:
            yield strip.seen(rail.box)


def _clear(s0: int, s1: int, q0: int, q1: int, blocks: list[tuple[int, int, int, int]]) -> Iterator[tuple[int, int]]:
    """The stretches of a strip of wood that nothing stands in."""
    at = s0
    for b0, b1, r0, r1 in sorted(blocks):
        if r0 < q1 and q0 < r1 and b1 > at and b0 < s1:
            if b0 > at:
                yield at, b0
            at = max(at, b1)
    if at < s1:
        yield at, s1


def _pieces(site: Site, a: int, b: int) -> Iterator[tuple[int, int]]:
    """A cleat longer than the longest board is laid in equal pieces, end to end along its rail."""
    longest = site.project.shop.longest(site.options.cleat.name)
    count = -(-(b - a) // longest.units) if longest is not None and longest else 1
    whole = (b - a) // site.mark
    cuts = [a + whole * i // count * site.mark for i in range(count)] + [b]
    yield from pairwise(cuts)
