"""Nothing is missing: each post and rail of the layout stands as a part in its place, with its cleats."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from fitter.checking.wood.built import Built, Span, Way, holes, sides
from fitter.checking.wood.carried import fields, slat_way
from fitter.checking.wood.ground import falls
from fitter.checking.wood.solids import TINY, Floats, inches
from fitter.domain.findings import Finding
from fitter.domain.frame import RailJoint
from fitter.domain.layout import Face, Post, PostRole, Rail, Side
from fitter.domain.woodwork import PartRole

POST_PARTS = {
    (PostRole.SUPPORT, Face.FRONT): PartRole.SUPPORT_POST,
    (PostRole.SUPPORT, Face.BACK): PartRole.BACK_POST,
    (PostRole.INNER_CORNER, Face.FRONT): PartRole.INNER_POST,
    (PostRole.CORNER, Face.BACK): PartRole.CORNER_POST,
}
"""What part a post of the layout is."""

RAIL_PARTS = {
    Face.FRONT: PartRole.FRONT_RAIL,
    Face.BACK: PartRole.BACK_RAIL,
    Face.CROSS: PartRole.CROSS_RAIL,
}
"""What part a rail of the layout is."""

OPEN = 0.25
"""Of a stretch that must be lined with cleats this much may stay bare, inches."""


def rail_way(built: Built, rail: Rail) -> Way:
    """The way of the run whose slats a rail carries; a cross rail carries those of the run that owns not the corner."""
    if rail.face is not Face.CROSS:
        return built.ways[rail.run]
    return next(slat_way(built, corner) for corner in built.layout.corners if corner.corner is rail.run)


def posts(built: Built) -> Iterator[Finding]:
    """Each post of the layout is a part from the feet to the deck, a tall corner post to the top; no others."""
    left = {number for role in POST_PARTS.values() for number in built.of(role)}
    foot, deck, top = inches(built.levels.foot), inches(built.levels.deck), inches(built.levels.back_top)
    for post in built.layout.posts:
        role = POST_PARTS.get((post.role, post.face))
        low, high = sides(post.box)
        tall = post.role is PostRole.CORNER and (built.layout.corner is None or built.layout.corner.tall)
        ends = np.append(low, foot), np.append(high, top if tall else deck)
        number = _filling(built, left, role, *ends, 0.0, deeper=falls(built))
        if number is None:
            yield built.fault("post-missing", f"no part is the {_post(post)}", (ends[0] + ends[1]) / 2)
        left.discard(number if number is not None else -1)
    for number in sorted(left):
        yield built.fault("post-unasked", f"{built.name(number)} is no post of the layout", built.middle(number))


def _post(post: Post) -> str:
    line = "" if post.line is None else f" on line {post.line}"
    return f"{post.role} post of the {post.run} run, {post.face}{line}"


def _filling(
    built: Built,
    among: set[int],
    role: PartRole | None,
    low: Floats,
    high: Floats,
    more: float,
    *,
    deeper: bool = False,
) -> int | None:
    """A part of a role that fills a cuboid, along x or y longer by at most `more` at each end.

    One may reach `deeper`, to where the floor has fallen far; that it stands there is told by its foot.
    """
    numbers = [number for number in built.of(role) if number in among] if role else []
    off = np.concatenate([low - built.solids.part_low[numbers], built.solids.part_high[numbers] - high], axis=1)
    along = np.abs(built.solids.axes[numbers, 0]).argmax(axis=1)
    slack = np.where((np.arange(3) == along[:, None]) & (along[:, None] < 2), more, 0.0) + TINY
    if deeper:
        off[:, 2] = np.minimum(off[:, 2], 0.0)
    fits = (off > -TINY).all(axis=1) & (off < np.tile(slack, 2)).all(axis=1)
    return next((numbers[at] for at in np.flatnonzero(fits).tolist()), None)


def rail_boxes(built: Built, rail: Rail) -> tuple[Floats, Floats]:
    """Where a rail of the layout lies in space, without what housings add to it."""
    low, high = sides(rail.box)
    way = rail_way(built, rail)
    if rail.face is Face.FRONT:
        # Front rails may stand back from the front of the deck; the layout draws them flush.
        back = built.mark(built.made.reveal_beside) * way.sign
        low[way.deep] -= back
        high[way.deep] -= back
    return np.append(low, inches(built.levels.rail_bottom)), np.append(high, inches(built.levels.deck))


def rail_parts(built: Built) -> dict[int, int]:
    """The part that each rail of the layout is, by its number there, as far as there is one."""
    left = {number for role in RAIL_PARTS.values() for number in built.of(role)}
    housed = built.made.rail_joint is RailJoint.HOUSING
    more = built.mark(built.made.housing) if housed else 0.0
    found: dict[int, int] = {}
    for at, rail in enumerate(built.layout.rails):
        number = _filling(built, left, RAIL_PARTS[rail.face], *rail_boxes(built, rail), more)
        if number is not None:
            found[at] = number
            left.discard(number)
    return found


def rails(built: Built) -> Iterator[Finding]:
    """Each rail of the layout is a part on edge from the underside of the rails to the deck; no others."""
    found = rail_parts(built)
    for at, rail in enumerate(built.layout.rails):
        if at not in found:
            low, high = rail_boxes(built, rail)
            message = f"no part is the {rail.face} rail of the {rail.run} run, bay {rail.bay},"
            yield built.fault("rail-missing", message, (low + high) / 2)
    used = set(found.values())
    for number in built.of(*RAIL_PARTS.values()):
        if number not in used:
            yield built.fault("rail-unasked", f"{built.name(number)} is no rail of the layout", built.middle(number))


def cleats_along_rails(built: Built) -> Iterator[Finding]:
    """Along each rail cleats line its inner face, as far as slats end there."""
    spans: dict[Side, list[Span]] = {}
    for field in fields(built):
        spans.setdefault(field.way.side, []).append(field.span)
    for at, number in rail_parts(built).items():
        rail = built.layout.rails[at]
        way = rail_way(built, rail)
        inward = np.zeros(3)
        inward[way.deep] = way.sign if rail.face is Face.BACK else -way.sign
        low, high = sides(rail.box)
        opening = float(low[way.along]), float(high[way.along])
        rows = built.touching(number, built.solids.face_axis(number, inward), (PartRole.CLEAT,))
        lined = [_along(built, int(built.contacts.other[row]), way) for row in rows]
        lined += _short_ones(built, number, way, inward)
        for a, b in spans[way.side]:
            wanted = max(a, opening[0]), min(b, opening[1])
            for bare in holes(wanted, lined) if wanted[1] - wanted[0] > OPEN else ():
                if bare[1] - bare[0] > OPEN:
                    spot = built.middle(number)
                    spot[way.along] = sum(bare) / 2
                    message = f"{built.name(number)} lacks a cleat over {built.tell(bare[1] - bare[0])}"
                    yield built.fault("cleat-missing", message, spot)


def _short_ones(built: Built, rail: int, way: Way, inward: Floats) -> Iterator[Span]:
    """Where short cleats, held by a post that stands out before a rail, line it in place of its own cleat."""
    numbers = built.of(PartRole.SHORT_CLEAT)
    low, high = built.solids.part_low, built.solids.part_high
    up = inward[way.deep] > 0
    face = high[rail, way.deep] if up else -low[rail, way.deep]
    near = low[numbers, way.deep] if up else -high[numbers, way.deep]
    post = built.mark(built.project.frame.post.width)
    alike = np.abs(built.solids.axes[numbers, 0]).argmax(axis=1) == way.along
    for at in np.flatnonzero(alike & (near - face > -TINY) & (near - face < post)).tolist():
        yield _along(built, numbers[at], way)


def _along(built: Built, number: int, way: Way) -> Span:
    low, high = built.solids.part_low[number], built.solids.part_high[number]
    return float(low[way.along]), float(high[way.along])


def decks(built: Built) -> Iterator[Finding]:
    """Every run and every corner place has slats of its own."""
    slats = built.of(PartRole.SEAT_SLAT)
    middles = np.array([built.middle(number) for number in slats]).reshape(-1, 3)
    for module in built.layout.modules:
        low, high = sides(module.box)
        if not ((middles[:, :2] > low - TINY) & (middles[:, :2] < high + TINY)).all(axis=1).any():
            message = f"no slat lies in place {module.place} of the {module.run} run,"
            spot = np.append((low + high) / 2, inches(built.levels.deck))
            yield built.fault("deck-missing", message, spot)
