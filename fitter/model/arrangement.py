"""From the model's choices to a layout with every module, post and rail in its place."""

from __future__ import annotations

from dataclasses import dataclass

from fitter.domain.layout import (
    Box,
    End,
    Face,
    Layout,
    Module,
    Notch,
    Post,
    PostRole,
    Rail,
    Run,
    Side,
)
from fitter.domain.wishes import CornerKind, EndKind, Shape
from fitter.model import bays
from fitter.model.frames import Frame
from fitter.model.separation import Marks, Rect
from fitter.model.sizes import OptionSize, Sizes
from rooms.lengths import Length


@dataclass(frozen=True)
class Choice:
    """What the model decides; lengths in marks.

    Args:
        shape: straight or L.
        high: whether the corner lies at the high-x end of the main run.
        option: index of the cushion option.
        corner: the treatment; None for a straight run.
        end_a: the straight run's low-x end, or the side run's end.
        end_b: the straight run's high-x end, or the main run's free end.
        main: modules of the main run.
        side: modules of the side run.
        x: of the low-x deck corner.
        y: of the deck's back line.
    """

    shape: Shape
    high: bool
    option: int
    corner: CornerKind | None
    end_a: EndKind
    end_b: EndKind
    main: int
    side: int
    x: Marks
    y: Marks


class Place:
    """Boxes of a choice, worked out with the corner at the low end and mirrored where it is at the high end."""

    def __init__(self, choice: Choice, sizes: Sizes) -> None:
        self.choice, self.sizes = choice, sizes
        self.size: OptionSize = sizes.options[choice.option]
        self.corner = self.size.deck if choice.shape is Shape.L else 0
        self.width = self.corner + choice.main * self.size.pitch
        self.depth = self.size.deck
        self.reach = self.depth + choice.side * self.size.pitch

    def rect(self, x0: int, y0: int, x1: int, y1: int) -> Rect:
        """A rectangle given from the deck corner, in the layout frame."""
        c = self.choice
        if c.high:
            x0, x1 = self.width - x1, self.width - x0
        return Rect(c.x + x0, c.y + y0, c.x + x1, c.y + y1)

    def box(self, x0: int, y0: int, x1: int, y1: int) -> Box:
        """The same as lengths."""
        return Box(*(Length(int(n) * self.sizes.mark.units) for n in self.rect(x0, y0, x1, y1)))

    def footprint(self) -> tuple[tuple[int, int, int, int], ...]:
        """What stands on the floor or overhangs it, from the deck corner."""
        c, s = self.choice, self.sizes
        a, b = s.ends[c.end_a], s.ends[c.end_b]
        if c.shape is Shape.STRAIGHT:
            return ((-a, -s.back, self.width + b, self.depth),)
        boxes = [(-s.back, -s.back, self.width + b, self.depth), (-s.back, -s.back, self.corner, self.reach + a)]
        if c.corner is CornerKind.OUTSIDE_POST:
            boxes.append((-s.post, -s.post, 0, 0))
        return tuple(boxes)

    def legroom(self) -> tuple[tuple[int, int, int, int], ...]:
        """The clear strip before each run."""
        leg = self.sizes.legroom
        main = (self.corner, self.depth, self.width, self.depth + leg)
        side = (self.corner, self.depth, self.corner + leg, self.reach)
        return (main, side) if self.choice.shape is Shape.L else (main,)


Pairs = tuple[tuple[int, int, int], ...]


def faces(choice: Choice, sizes: Sizes) -> tuple[tuple[bays.RailLine, ...], Pairs]:
    """The rail lines (main front, main back, side front, side back) and which belong together (see `bays.choose`)."""
    size = sizes.options[choice.option]

    def front(count: int) -> bays.RailLine:
        return bays.RailLine(count * size.pitch, tuple(k * size.pitch for k in range(1, count)))

    if choice.corner is None:
        return (front(choice.main), front(choice.main)), ((0, 1, 0),)

    def back(count: int, start: int, held: bool) -> bays.RailLine:
        shift = size.deck - start
        lines = tuple(shift + k * size.pitch for k in range(count))
        return bays.RailLine(shift + count * size.pitch, lines, shift if held else None)

    # A cross rail too long to reach the back rail ends at a post on the first module line.
    held = size.deck - sizes.post - sizes.rail > sizes.span
    starts = [sizes.corner_start(choice.corner, main=main) for main in (True, False)]
    lines = (
        front(choice.main),
        back(choice.main, starts[0], held),
        front(choice.side),
        back(choice.side, starts[1], held=False),
    )
    return lines, ((0, 1, size.deck - starts[0]), (2, 3, size.deck - starts[1]))


def arrange(choice: Choice, sizes: Sizes, frame: Frame) -> Layout:
    """The layout of a choice, with the bay split of fewest posts and fewest different rail lengths.

    Raises:
        ValueError: no split keeps the span (the model excludes such choices).
    """
    place = Place(choice, sizes)
    lines, pairs = faces(choice, sizes)
    chosen = bays.choose(lines, sizes.post, sizes.span, pairs)
    if chosen is None:
        message = "no bay split keeps the span"
        raise ValueError(message)
    mark = sizes.mark.units
    posts, rails = _timber(place, lines, chosen)
    return Layout(
        shape=choice.shape,
        hand=_hand(choice) if choice.shape is Shape.L else None,
        pose=frame.pose,
        off_edge=Length((int(choice.y) - sizes.back - frame.low) * mark),
        corner=choice.corner,
        runs=_runs(place),
        modules=_modules(place),
        ends=_ends(place),
        posts=posts,
        rails=rails,
        footprint=tuple(place.box(*box) for box in place.footprint()),
    )


def _hand(choice: Choice) -> Side:
    """One who faces the seats looks toward -y, so the high-x side is the left hand."""
    return Side.LEFT if choice.high else Side.RIGHT


def _runs(place: Place) -> tuple[Run, ...]:
    c, s, size = place.choice, place.sizes, place.size
    cushion, turned = size.option.cushion.name, size.option.turned
    pitch = Length(size.pitch * s.mark.units)
    rooms = [place.box(*box) for box in place.legroom()]
    low = -s.back if c.shape is Shape.L else 0
    deck = place.box(place.corner, 0, place.width, place.depth)
    panel = place.box(low, -s.back, place.width, 0)
    runs = [Run(Side.MAIN, cushion, turned, c.main, pitch, deck, panel, rooms[0])]
    if c.shape is Shape.L:
        deck = place.box(0, place.depth, place.corner, place.reach)
        panel = place.box(-s.back, 0, 0, place.reach)
        runs.append(Run(_hand(c), cushion, turned, c.side, pitch, deck, panel, rooms[1]))
    return tuple(runs)


def _modules(place: Place) -> tuple[Module, ...]:
    c, size = place.choice, place.size
    name, turned = size.option.cushion.name, size.option.turned
    found = []
    if c.corner is not None:
        table = c.corner is CornerKind.TABLE_CORNER
        box = place.box(0, 0, place.corner, place.depth)
        cushion, seats = (None, 0) if table else (name, size.seats)
        smaller = not table and size.pitch < place.corner
        cover = place.box(0, 0, size.pitch, size.deck) if smaller else None
        found.append(Module(Side.MAIN, 0, cushion, turned and not table, box, seats, _notch(place), cover))
    for k in range(c.main):
        x = place.corner + k * size.pitch
        box = place.box(x, 0, x + size.pitch, place.depth)
        found.append(Module(Side.MAIN, k + 1, name, turned, box, size.seats))
    for k in range(c.side):
        y = place.depth + k * size.pitch
        box = place.box(0, y, place.corner, y + size.pitch)
        found.append(Module(_hand(c), k + 1, name, turned, box, size.seats))
    return tuple(found)


def _notch(place: Place) -> Notch | None:
    """The corner cut away for an inside post; the cushion itself begins half the ease inside its place."""
    cut = place.size.notch
    if place.choice.corner is not CornerKind.INSIDE_POST or not cut:
        return None
    slack = max(0, place.size.option.cushion.ease.units // (2 * place.sizes.mark.units))
    length = Length(cut * place.sizes.mark.units)
    return Notch(place.box(slack, slack, slack + cut, slack + cut), length, length)


def _ends(place: Place) -> tuple[End, ...]:
    c, s = place.choice, place.sizes
    a, b = s.ends[c.end_a], s.ends[c.end_b]
    far = End(Side.MAIN, c.end_b, place.box(place.width, -s.back, place.width + b, place.depth))
    if c.shape is Shape.STRAIGHT:
        return (End(Side.MAIN, c.end_a, place.box(-a, -s.back, 0, place.depth)), far)
    return (far, End(_hand(c), c.end_a, place.box(-s.back, place.reach, place.corner, place.reach + a)))


def _timber(
    place: Place, lines: tuple[bays.RailLine, ...], chosen: tuple[bays.Split, ...]
) -> tuple[tuple[Post, ...], tuple[Rail, ...]]:
    """Posts and rails of every line, the cross rail and the corner posts."""
    c, s = place.choice, place.sizes
    posts: list[Post] = []
    rails: list[Rail] = []
    sides = (Side.MAIN, Side.MAIN, _hand(c), _hand(c))
    for n, (whole, split) in enumerate(zip(lines, chosen, strict=True)):
        face = Face.BACK if n % 2 else Face.FRONT
        start = _start(place, n)
        for bay, (at, cut) in enumerate(_bays(split, bays.rails(whole.length, split, s.post), s.post), start=1):
            box = _strip(place, sides[n], face, start + at, start + at + cut, s.rail)
            rails.append(Rail(sides[n], face, bay, Length(cut * s.mark.units), box))
        first = 1 if n % 2 == 0 or c.corner is None else 0
        for line in split:
            low = start + line - s.post // 2
            box = _strip(place, sides[n], face, low, low + s.post, s.post)
            posts.append(Post(PostRole.SUPPORT, sides[n], face, whole.lines.index(line) + first, box))
    if c.corner is not None:
        rails.append(_cross(place, lines[1].lines[0] in chosen[1]))
        posts.extend(_corner_posts(place))
    return tuple(posts), tuple(rails)


def _start(place: Place, line: int) -> int:
    """Where a rail line's clear length begins, from the deck corner along its run."""
    corner = place.choice.corner
    if corner is None:
        return 0
    if line % 2 == 0:
        return place.corner if line == 0 else place.depth
    return place.sizes.corner_start(corner, main=line == 1)


def _bays(split: bays.Split, lengths: tuple[int, ...], post: int) -> list[tuple[int, int]]:
    """Start and length of each rail."""
    starts = (0, *(line + post - post // 2 for line in split))
    return list(zip(starts, lengths, strict=True))


def _strip(place: Place, side: Side, face: Face, start: int, end: int, depth: int) -> Box:
    """A piece of a rail line, from its start along the run, `depth` deep and flush with its face."""
    across = (0, depth) if face is Face.BACK else (place.depth - depth, place.depth)
    if side is Side.MAIN:
        return place.box(start, across[0], end, across[1])
    across = (0, depth) if face is Face.BACK else (place.corner - depth, place.corner)
    return place.box(across[0], start, across[1], end)


def _cross(place: Place, post_in_line: bool) -> Rail:
    s = place.sizes
    low, high = (s.post if post_in_line else s.rail), place.depth - s.post
    box = place.box(place.corner - s.rail, low, place.corner, high)
    return Rail(Side.MAIN, Face.CROSS, 1, Length((high - low) * s.mark.units), box)


def _corner_posts(place: Place) -> tuple[Post, Post]:
    p = place.sizes.post
    inner = place.box(place.corner - p, place.depth - p, place.corner, place.depth)
    outside = place.choice.corner is CornerKind.OUTSIDE_POST
    corner = place.box(-p, -p, 0, 0) if outside else place.box(0, 0, p, p)
    return (
        Post(PostRole.INNER_CORNER, Side.MAIN, Face.FRONT, None, inner),
        Post(PostRole.CORNER, Side.MAIN, Face.BACK, None, corner),
    )
