"""A choice of the model as a layout, with every module, post and rail in its place."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

from fitter.domain.layout import (
    Box,
    End,
    Face,
    Layout,
    Module,
    ModuleLine,
    Notch,
    Post,
    PostRole,
    Purchase,
    Rail,
    Run,
    Side,
)
from fitter.domain.project import Project
from fitter.domain.wishes import CornerKind, Shape
from fitter.model.arrangement import Choice, Place
from fitter.model.frames import Frame, Mount
from fitter.model.rail_lines import Flat, RailLine
from fitter.model.sizes import OptionSize, Sizes
from fitter.model.timber import Timber
from rooms.lengths import Length

RUNS = (Side.MAIN, Side.LEFT, Side.RIGHT)


def build(project: Project, choice: Choice, timber: Timber, sizes: Sizes, frame: Frame) -> Layout:
    """The layout of a choice.

    Args:
        project: what is asked.
        choice: what the model decided, on whole marks.
        timber: where posts stand and runs are split.
        sizes: in marks.
        frame: where it lies.
    """
    mount = frame.mount(choice.mount)
    place = mounted(choice, sizes, mount)
    posts, rails = _timber(place, timber)
    modules = _modules(place)
    arm = choice.arms[0] if choice.shape is Shape.L else None
    return Layout(
        shape=choice.shape,
        hand=arm,
        pose=mount.pose,
        off_edge=Length(off_edge(place, mount) * sizes.mark.units),
        corner=choice.corner,
        runs=tuple(_run(place, side) for side in RUNS if choice.row(side) is not None),
        modules=modules,
        ends=_ends(place),
        posts=posts,
        rails=rails,
        footprint=tuple(place.box(box) for box in place.footprint().values()),
        purchases=_purchases(project, modules),
        splits=_splits(place, timber),
        gap=Length(place.gap * sizes.mark.units),
    )


def mounted(choice: Choice, sizes: Sizes, mount: Mount) -> Place:
    """The boxes of a choice, counted from the origin of its mount."""
    return Place(replace(choice, x=choice.x - mount.dx, y=choice.y - mount.dy), sizes)


def off_edge(place: Place, mount: Mount) -> int:
    """From the backing edge to the back of the aligned run, in marks, counted from the origin of its mount."""
    x, y, back = int(place.choice.x), int(place.choice.y), place.sizes.back
    if place.choice.aligned is Side.RIGHT:
        return x - back
    return -(x + place.width + back) if place.choice.aligned is Side.LEFT else y - back - mount.low


def _run(place: Place, side: Side) -> Run:
    c, s = place.choice, place.sizes
    row = c.row(side)
    assert row is not None
    size = s.options[row.option]
    depth = place.deck(side)
    if side is Side.MAIN:
        deck = (place.right, 0, place.right + place.length, place.depth)
        back = (-s.back * (place.right > 0), -s.back, place.width + s.back * (place.left > 0), 0)
    else:
        end = place.depth + place.reach[side]
        deck = place.mirrored(side, (0, place.depth, depth, end))
        back = place.mirrored(side, (-s.back, 0, 0, end))
    kind = size.option
    return Run(
        side=side,
        cushion=kind.cushion.name,
        turned=kind.turned,
        count=row.count,
        pitch=Length(size.pitch * s.mark.units),
        deck=place.box(deck),
        back=place.box(back),
        legroom=place.box(place.legroom()[side]),
    )


def _modules(place: Place) -> tuple[Module, ...]:
    found = []
    for side in RUNS:
        if place.choice.row(side) is not None:
            owned = [arm for arm in place.choice.arms if place.owner(arm) is side]
            found += [_corner(place, arm, side) for arm in owned]
            found += _row(place, side)
    return tuple(found)


def _corner(place: Place, arm: Side, owner: Side) -> Module:
    option, deck, off = place.choice.cushion(arm), place.deck(arm), place.gap
    second = arm is Side.LEFT and Side.RIGHT in place.arms and place.owner(Side.RIGHT) is owner
    number = place.choice.main.count + 1 if second else 0
    box = place.box(place.mirrored(arm, (0, 0, deck, place.depth)))
    if option is None:
        return Module(owner, number, None, False, box, 0, corner=arm)
    size = place.sizes.options[option]
    smaller = size.pitch < deck or size.deck < place.depth
    cover = place.box(place.mirrored(arm, (off, off, off + size.pitch, off + size.deck))) if smaller else None
    kind = size.option
    return Module(
        owner, number, kind.cushion.name, kind.turned, box, size.seats, _notch(place, arm, size), cover, arm
    )  # fmt: skip


def _row(place: Place, side: Side) -> list[Module]:
    row = place.choice.row(side)
    assert row is not None
    size = place.sizes.options[row.option]
    line = next(line for line in place.lines if line.run is side and line.face is Face.FRONT)
    kind = size.option
    # Cushions begin in front of the wood; along the run the line's own zero is where they begin.
    seats = replace(line, across=line.across - line.inward * place.sizes.overhang)
    at = [line.zero + k * size.pitch for k in range(row.count)]
    boxes = [seats.strip(low, low + size.pitch, size.deck) for low in at]
    return [
        Module(side, k, kind.cushion.name, kind.turned, place.box(box), size.seats)
        for k, box in enumerate(boxes, start=1)
    ]


def _notch(place: Place, arm: Side, size: OptionSize) -> Notch | None:
    """What is cut away for the post; the cushion itself begins half its ease inside its place, off the backs."""
    mark, kind, angle = place.sizes.mark.units, place.choice.corner, size.angle
    low = place.sizes.overhang + max(0, size.option.cushion.ease.units // (2 * mark))

    def box(x0: int, y0: int, x1: int, y1: int) -> Box:
        return place.box(place.mirrored(arm, (low + x0, low + y0, low + x1, low + y1)))

    deep = size.cut(kind)
    if not deep:
        return None
    if kind is CornerKind.INSIDE_POST:
        return Notch(box(0, 0, deep, deep), Length(deep * mark), Length(deep * mark))
    strips = box(0, 0, angle.along, deep), box(0, deep, deep, angle.across)
    along, across, depth = (Length(n * mark) for n in (angle.along, angle.across, deep))
    return Notch(box(0, 0, angle.along, angle.across), along, across, strips, depth)


def _ends(place: Place) -> tuple[End, ...]:
    """In the order of the runs; those of a straight run right hand first."""
    found = [(run, hand, flat) for hand, (run, flat) in place.ends().items()]
    found.sort(key=lambda end: RUNS.index(end[0]))
    return tuple(End(run, place.choice.end(hand), place.box(flat), hand) for run, hand, flat in found)


def _timber(place: Place, timber: Timber) -> tuple[tuple[Post, ...], tuple[Rail, ...]]:
    """Posts and rails of every line, then the cross rail and the posts of every corner."""
    s = place.sizes
    posts: list[Post] = []
    rails: list[Rail] = []
    standing: set[tuple[Side, Face, int]] = set()
    for line, stands in _in_order(place, timber):
        for bay, (low, high) in enumerate(_bays(line, [low for low, _ in stands], s.post), start=1):
            rails.append(_rail(place, line.run, line.face, bay, line.strip(low, high, s.rail)))
        for low, number in stands:
            standing.add((line.run, line.face, number))
            box = place.box(line.strip(low, low + s.post, s.post))
            posts.append(Post(PostRole.SUPPORT, line.run, line.face, number, box))
    for arm in place.choice.arms:
        owner = place.owner(arm)
        far = owner is Side.MAIN and arm is Side.LEFT and Side.RIGHT in place.arms
        on_post = (owner, Face.BACK, place.choice.main.count if far else 0) in standing
        rails.append(_rail(place, arm, Face.CROSS, 1, place.cross(arm, on_post)))
        inner, corner = place.corner_posts(arm)
        posts.append(Post(PostRole.INNER_CORNER, arm, Face.FRONT, None, place.box(inner)))
        posts.append(Post(PostRole.CORNER, arm, Face.BACK, None, place.box(corner)))
    rails.sort(key=lambda rail: (RUNS.index(rail.run), tuple(Face).index(rail.face), rail.bay))
    return tuple(posts), tuple(rails)


def _in_order(place: Place, timber: Timber) -> list[tuple[RailLine, list[tuple[int, int]]]]:
    """The lines in the order of the runs, each with where its posts begin and at which module lines."""
    splits = timber.splits or ((),) * (len(place.lines) // 2)
    # Where the span is switched off there may be no choice of posts that keeps it; then none stands between.
    chosen = timber.chosen or ((),) * len(place.lines)
    stands = [
        (line, line.stands(split, splits[n // 2], place.sizes.post))
        for n, (line, split) in enumerate(zip(place.lines, chosen, strict=True))
    ]
    return sorted(stands, key=lambda pair: RUNS.index(pair[0].run))


def _splits(place: Place, timber: Timber) -> tuple[ModuleLine, ...]:
    """Where the runs are split, in their order."""
    fronts = zip(place.lines[::2], timber.splits, strict=False)
    found = [ModuleLine(front.run, line) for front, lines in fronts for line in lines]
    return tuple(sorted(found, key=lambda split: RUNS.index(split.run)))


def _rail(place: Place, run: Side, face: Face, bay: int, flat: Flat) -> Rail:
    box = place.box(flat)
    along_y = place.owner(run) is Side.MAIN if face is Face.CROSS else run is not Side.MAIN
    return Rail(run, face, bay, box.y1 - box.y0 if along_y else box.x1 - box.x0, box)


def _bays(line: RailLine, begins: list[int], post: int) -> list[tuple[int, int]]:
    """Where each rail begins and ends; none lies between the two posts of a split."""
    starts, ends = (0, *(low + post for low in begins)), (*begins, line.clear.length)
    return [(low, high) for low, high in zip(starts, ends, strict=True) if low < high]


def _purchases(project: Project, modules: tuple[Module, ...]) -> tuple[Purchase, ...]:
    used = Counter(module.cushion for module in modules)
    return tuple(
        Purchase(kind.name, used[kind.name], kind.to_buy(used[kind.name]))
        for kind in project.cushions
        if used[kind.name]
    )
