"""Posts and seat rails, with what carries a rail at a post."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fitter.domain.frame import RailJoint
from fitter.domain.layout import Face, Post, PostRole, Rail, Side
from fitter.domain.woodwork import Part, PartRole
from fitter.frame.sticks import Cuboid, Stick, stick
from fitter.frame.strips import Site
from rooms.lengths import Length

LEDGER = Length.inches("7/2")
"""Height of a ledger where the floor leaves room for it: common practice."""

_POSTS = {
    (PostRole.SUPPORT, Face.FRONT): PartRole.SUPPORT_POST,
    (PostRole.SUPPORT, Face.BACK): PartRole.BACK_POST,
    (PostRole.INNER_CORNER, Face.FRONT): PartRole.INNER_POST,
    (PostRole.CORNER, Face.BACK): PartRole.CORNER_POST,
}
_RAILS = {Face.FRONT: PartRole.FRONT_RAIL, Face.BACK: PartRole.BACK_RAIL, Face.CROSS: PartRole.CROSS_RAIL}
_SHOWS = {Face.FRONT: "wide face to the front", Face.BACK: "wide face to the back", Face.CROSS: ""}


@dataclass(frozen=True)
class _Ending:
    """Where a rail ends against a post.

    Args:
        post: index of the post in the layout.
        high: whether it is the rail's end of greater x or y.
    """

    post: int
    high: bool


def rail_box(site: Site, rail: Rail) -> Cuboid:
    """Where a rail lies between the faces that hold it; front rails stand back from the deck's front."""
    x0, y0, x1, y1 = (side.units for side in (rail.box.x0, rail.box.y0, rail.box.x1, rail.box.y1))
    if rail.face is Face.FRONT:
        strip = site.strip(rail.run)
        back = site.options.reveal_beside.ceil_to(site.project.mark).units * (1 if strip.turned else -1)
        shift = (back if strip.across == 0 else 0, back if strip.across == 1 else 0)
        x0, x1, y0, y1 = x0 + shift[0], x1 + shift[0], y0 + shift[1], y1 + shift[1]
    return x0, y0, site.levels.rail_bottom.units, x1, y1, site.levels.deck.units


def along(rail: Rail) -> int:
    """The layout axis that a rail runs along."""
    return 0 if rail.length == rail.box.x1 - rail.box.x0 and rail.box.y1 - rail.box.y0 != rail.length else 1


def seat_frame(site: Site) -> Iterator[Part]:
    """Posts, rails and ledgers."""
    rails = [(rail, rail_box(site, rail)) for rail in site.layout.rails]
    endings = [tuple(_endings(site, rail, box)) for rail, box in rails]
    holes: dict[int, list[Cuboid]] = defaultdict(list)
    parts: list[Part] = []
    for (rail, box), ends in zip(rails, endings, strict=True):
        bearing = ends
        if site.options.rail_joint is RailJoint.HOUSING:
            box, bearing = _housed(site, rail, box, ends, holes)
        kind = Stick(
            _RAILS[rail.face], rail.run, site.project.frame.rail, _SHOWS[rail.face], f"{rail.face} bay {rail.bay}"
        )
        parts.append(stick(kind, box, along(rail), 2))
        if site.options.rail_joint is not RailJoint.SCREWS:
            parts += _ledgers(site, rail, box, bearing)
    for number, post in enumerate(site.layout.posts):
        yield _post(site, post, holes[number])
    yield from parts


def _post(site: Site, post: Post, holes: list[Cuboid]) -> Part:
    levels, box = site.levels, post.box
    tall = post.role is PostRole.CORNER and not site.joined
    top = levels.back_top if tall else levels.deck
    where = "corner" if post.line is None else f"module line {post.line}"
    kind = Stick(_POSTS[post.role, post.face], post.run, site.project.frame.post, place=where)
    low = (box.x0.units, box.y0.units, levels.foot.units)
    return stick(kind, (*low, box.x1.units, box.y1.units, top.units), 2, 0, out=holes)


def _endings(site: Site, rail: Rail, box: Cuboid) -> Iterator[_Ending]:
    """The ends of a rail that butt against a post."""
    axis = along(rail)
    other = 1 - axis
    for number, post in enumerate(site.layout.posts):
        sides = (post.box.x0, post.box.y0), (post.box.x1, post.box.y1)
        low, high = ([side.units for side in pair] for pair in sides)
        if low[other] < box[3 + other] and box[other] < high[other]:
            if high[axis] == box[axis]:
                yield _Ending(number, False)
            if low[axis] == box[3 + axis]:
                yield _Ending(number, True)


def _housed(
    site: Site, rail: Rail, box: Cuboid, ends: tuple[_Ending, ...], holes: dict[int, list[Cuboid]]
) -> tuple[Cuboid, tuple[_Ending, ...]]:
    """The rail with its ends let into the posts, what is cut out of each post noted; and the ends that must do without.

    Two front rails meet in one corner of an inner post, and only one of them finds wood there.
    """
    axis, deep = along(rail), site.options.housing.ceil_to(site.project.mark).units
    longer = list(box)
    left: list[_Ending] = []
    for end in ends:
        hole = list(box)
        if end.high:
            hole[axis], hole[3 + axis] = box[3 + axis], box[3 + axis] + deep
        else:
            hole[axis], hole[3 + axis] = box[axis] - deep, box[axis]
        if not _finds_wood(site.layout.posts[end.post], hole, holes[end.post]):
            left.append(end)
            continue
        longer[axis], longer[3 + axis] = min(longer[axis], hole[axis]), max(longer[3 + axis], hole[3 + axis])
        holes[end.post].append(_cuboid(hole))
    return _cuboid(longer), tuple(left)


def _finds_wood(post: Post, hole: list[int], others: list[Cuboid]) -> bool:
    """Whether a housing lies in the post as a whole, and clear of those cut before."""
    low, high = (post.box.x0.units, post.box.y0.units), (post.box.x1.units, post.box.y1.units)
    inside = all(low[axis] <= hole[axis] and hole[3 + axis] <= high[axis] for axis in (0, 1))
    return inside and not any(
        all(one[axis] < hole[3 + axis] and hole[axis] < one[3 + axis] for axis in (0, 1, 2)) for one in others
    )


def _cuboid(sides: list[int]) -> Cuboid:
    x0, y0, z0, x1, y1, z1 = sides
    return x0, y0, z0, x1, y1, z1


def _ledgers(site: Site, rail: Rail, box: Cuboid, ends: Sequence[_Ending]) -> Iterator[Part]:
    """A block on the post under each end, as far as the floor leaves room."""
    axis, other = along(rail), 1 - along(rail)
    high = min(LEDGER.ceil_to(site.project.mark).units, site.levels.rail_bottom.units - site.levels.foot.units)
    if high <= 0:
        return
    section = site.options.cleat
    for end in ends:
        block = list(box)
        if end.high:
            block[axis] = box[3 + axis] - site.thick(section)
        else:
            block[3 + axis] = box[axis] + site.thick(section)
        post = site.layout.posts[end.post].box
        low, high_side = ((post.x0, post.x1), (post.y0, post.y1))[other]
        # Against the post, where the rail reaches beyond it.
        block[other] = max(box[other], low.units)
        block[3 + other] = min(box[3 + other], high_side.units, block[other] + site.wide(section))
        block[2], block[5] = box[2] - high, box[2]
        kind = Stick(PartRole.LEDGER, rail.run, section, place=f"{rail.face} bay {rail.bay}")
        yield stick(kind, _cuboid(block), 2, other)


def of_run(site: Site, side: Side, face: Face) -> list[Rail]:
    """The rails of one line."""
    return [rail for rail in site.layout.rails if rail.run is side and rail.face is face]
