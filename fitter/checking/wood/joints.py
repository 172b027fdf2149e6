"""What must be fastened is fastened: each joint's parts touch, and through fastened joints all hold together."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from fitter.checking.wood.bearing import CLEAT_HOLDERS, TABLE_HOLDERS, UNDER_SLATS
from fitter.checking.wood.built import DOWN, POSTS, Built
from fitter.checking.wood.corners import BACK
from fitter.checking.wood.ends import HOLDERS
from fitter.checking.wood.shelves import UNDER, against
from fitter.domain.findings import Finding
from fitter.domain.woodwork import Fastener, Fixing, Joint, PartRole
from rooms.lengths import UNITS_PER_INCH

_BOLTS = 2
"""Bolts through two posts on a line where the frame is split; common practice."""

_THIN = 3.5
"""A post thinner than this, inches, has no room for bolts beside the screws of its rails: two screws do."""

_SCREWS = 4
"""Screws of a board of an angle post into a back, and into the other board; common practice."""

_BEARER_SCREWS = 4
"""Screws of a bearer of an arm into its panel: two at either end of it; common practice."""

_FULL = 0.9
"""Of a post's side that two posts on such a line share at least."""

_UPRIGHT_HOLDERS = (
    PartRole.BACK_RAIL, *POSTS, PartRole.UPRIGHT, PartRole.ARM_PIECE, PartRole.ARM_POST, PartRole.LEG,
)  # fmt: skip


@dataclass(frozen=True)
class _Held:
    """Which parts are fastened to which."""

    built: Built

    @cached_property
    def pairs(self) -> dict[tuple[int, int], tuple[Fastener, ...]]:
        """Fasteners between two parts, the lower number first; pairs that are glued only are left out."""
        found: dict[tuple[int, int], tuple[Fastener, ...]] = {}
        for joint in self.built.woodwork.joints:
            if joint.fasteners:
                one, other = sorted(joint.parts)
                found[one, other] = (*found.get((one, other), ()), *joint.fasteners)
        return found

    def between(self, one: int, other: int) -> tuple[Fastener, ...]:
        """What holds two parts."""
        return self.pairs.get((min(one, other), max(one, other)), ())

    def to(self, number: int, roles: Sequence[PartRole]) -> list[int]:
        """Parts of some roles that touch a part and are fastened to it."""
        others = set(self.built.contacts.other[self.built.contacts.of(number)].tolist())
        return [n for n in sorted(others) if self.built.is_a(n, roles) and self.between(number, n)]


def joints_touch(built: Built) -> Iterator[Finding]:
    """Each joint is of two parts that touch, told once, its fasteners between those two."""
    count, told = len(built.parts), set[tuple[int, int]]()
    for joint in built.woodwork.joints:
        one, other = min(joint.parts), max(joint.parts)
        if not 0 <= one < other < count:
            yield built.fault("joint-astray", f"a joint speaks of parts {one} and {other} of {count}")
            continue
        if (one, other) not in built.contacts.pairs:
            yield _of(built, "joint-apart", joint, "are joined but do not touch")
        if (one, other) in told:
            yield _of(built, "joint-twice", joint, "have two joints")
        told.add((one, other))
        if any({f.through, f.into} != {one, other} for f in joint.fasteners):
            yield _of(built, "joint-astray", joint, "have a fastener between them that holds other parts")
        if joint.housed and not built.parts[joint.parts[1]].housings:
            yield _of(built, "joint-unhoused", joint, "are told to be housed, without a housing")


def _of(built: Built, code: str, joint: Joint, what: str) -> Finding:
    one, other = joint.parts
    return built.fault(code, f"{built.name(one)} and {built.name(other)} {what}", built.middle(one))


def parts_fastened(built: Built) -> Iterator[Finding]:
    """Every part is fastened where its role asks for it."""
    held = _Held(built)
    for number, part in enumerate(built.parts):
        for what in _unheld(built, held, number, part.role):
            yield built.fault("not-fastened", f"{built.name(number)} is not fastened {what}", built.middle(number))


def _unheld(built: Built, held: _Held, number: int, role: PartRole) -> Iterator[str]:
    """What a part should be fastened to, and is not."""
    if role in HOLDERS:
        yield from _ends(built, held, number, role)
    elif role is PartRole.SEAT_SLAT:
        yield from _slat(built, held, number)
    elif role is PartRole.BACK_SLAT:
        yield from (
            f"to a {rail}" for rail in (PartRole.BOTTOM_RAIL, PartRole.TOP_RAIL) if not held.to(number, (rail,))
        )
    elif role in (PartRole.CLEAT, PartRole.SHORT_CLEAT, PartRole.LEDGER):
        holders = held.to(number, (*CLEAT_HOLDERS, *POSTS))
        if max((len(held.between(number, other)) for other in holders), default=0) < 2:
            yield "with two screws to what carries it"
    elif role is PartRole.CORNER_BOARD:
        yield from _board(built, held, number)
    elif role is PartRole.SHELF_SLAT:
        if len(held.to(number, UNDER)) < 2:
            yield "to what it lies on at both ends"
    elif role is PartRole.ARM_BOARD:
        if len(held.to(number, (PartRole.ARM_BEARER,))) < 2:
            yield "to both bearers that it lies on"
    elif role is PartRole.ARM_BEARER:
        panel = held.to(number, (PartRole.ARM_PIECE, PartRole.ARM_POST))
        if sum(len(held.between(number, other)) for other in panel) < _BEARER_SCREWS:
            yield "with four screws to its panel"
    elif role is PartRole.SHELF_LEG:
        yield from _leg(built, held, number)
    elif role is PartRole.TABLE_BOARD:
        if len(held.to(number, (PartRole.TABLE_BEARER, *TABLE_HOLDERS))) < 2:
            yield "to two of what it lies on"
    else:
        single = {
            PartRole.UPRIGHT: (_UPRIGHT_HOLDERS, "to the seat"),
            PartRole.FOOT: (tuple(PartRole), "to what stands on it"),
            PartRole.TABLE_BEARER: (TABLE_HOLDERS, "to the deck"),
        }
        if role in single and not held.to(number, single[role][0]):
            yield single[role][1]


def _ends(built: Built, held: _Held, number: int, role: PartRole) -> Iterator[str]:
    for end, where in enumerate(("first", "far")):
        others = {int(built.contacts.other[row]) for row in built.touching(number, end, HOLDERS[role])}
        if others and not any(held.between(number, other) for other in sorted(others)):
            yield f"at its {where} end"
        if not others and not held.to(number, (PartRole.UPRIGHT, *POSTS)):
            yield f"near its {where} end"


def _board(built: Built, held: _Held, number: int) -> Iterator[str]:
    """A board of an angle post: screwed to one back, low and high, and to the other board."""
    screws = [f for other in held.to(number, BACK) for f in held.between(number, other)]
    heights = [float(f.head[2]) / UNITS_PER_INCH for f in screws]
    tall = float(built.solids.part_high[number][2] - built.solids.part_low[number][2])
    if len(heights) < _SCREWS or max(heights) - min(heights) < tall / 2:
        yield "to the back behind it, low and high"
    if sum(len(held.between(number, other)) for other in held.to(number, (PartRole.CORNER_BOARD,))) < _SCREWS:
        yield "to the other board of its corner"


def _leg(built: Built, held: _Held, number: int) -> Iterator[str]:
    """A leg of a shelf: screwed to the end, where it stands against it; those far from it stand on their rail alone."""
    ends = sorted({int(built.contacts.other[row]) for row in against(built, number)})
    if ends and not any(len(held.between(number, other)) > 1 for other in ends):
        yield "with two screws to the end that it stands against"


def _slat(built: Built, held: _Held, number: int) -> Iterator[str]:
    face = built.solids.face_axis(number, DOWN)
    half = built.solids.sizes[number][0] / 2
    rows = built.touching(number, face, UNDER_SLATS)
    for where, side in (("first", -1), ("far", 1)):
        middles = (built.contacts.low[rows, 0] + built.contacts.high[rows, 0]) / 2
        under = [
            int(built.contacts.other[row]) for row, at in zip(rows, middles, strict=True) if side * (at - half) > 0
        ]
        if not any(held.between(number, other) for other in under):
            yield f"at its {where} end"


def all_fastened(built: Built) -> Iterator[Finding]:
    """From the feet every part is reached through joints that are fastened."""
    links: dict[int, list[int]] = {}
    for one, other in sorted(_Held(built).pairs):
        links.setdefault(one, []).append(other)
        links.setdefault(other, []).append(one)
    reached = set(built.of(PartRole.FOOT))
    waiting = deque(sorted(reached))
    while waiting:
        for other in links.get(waiting.popleft(), ()):
            if other not in reached:
                reached.add(other)
                waiting.append(other)
    for number in range(len(built.parts)):
        if number not in reached:
            message = f"{built.name(number)} is fastened to nothing that stands on the ground"
            yield built.fault("not-held", message, built.middle(number))


def split_posts_bolted(built: Built) -> Iterator[Finding]:
    """Where the frame is split, both posts of a pair are of pieces of their own, bolted, or screwed if thin."""
    if not built.layout.splits:
        return
    held, side = _Held(built), built.mark(built.project.frame.post.width)
    low = built.mark(built.project.frame.carpentry.foot_height)
    for (one, other), area in sorted(built.contacts.pairs.items()):
        if not (built.is_a(one, POSTS) and built.is_a(other, POSTS)):
            continue
        height = min(built.solids.part_high[n][2] for n in (one, other)) - low
        if area <= _FULL * side * height:
            continue
        if built.parts[one].piece == built.parts[other].piece:
            message = f"{built.name(one)} and {built.name(other)} are of one piece to carry"
            yield built.fault("split-of-one-piece", message, built.middle(one))
        enough = [f for f in held.between(one, other) if f.kind is Fixing.BOLT or side < _THIN]
        if len(enough) < _BOLTS:
            message = f"{built.name(one)} and {built.name(other)} are held by {len(enough)} bolts, not {_BOLTS},"
            yield built.fault("split-unbolted", message, built.middle(one))
