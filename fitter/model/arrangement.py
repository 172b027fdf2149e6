"""From the model's choices to every box of the layout: seats, backs, ends, leg room, posts and rail lines."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from fitter.domain.layout import Box, Face, Side
from fitter.domain.wishes import CornerKind, EndKind, Shape
from fitter.model import bays
from fitter.model.carrying import Spine
from fitter.model.rail_lines import Flat, RailLine
from fitter.model.separation import Marks, Rect
from fitter.model.sizes import OptionSize, Sizes
from rooms.lengths import Length

ARMS = (Side.RIGHT, Side.LEFT)


@dataclass(frozen=True)
class Row:
    """A run as the model chooses it.

    Args:
        option: index of the cushion option.
        count: modules, at least one.
    """

    option: int
    count: int


@dataclass(frozen=True)
class Choice:
    """What the model decides; lengths in marks.

    Args:
        mount: number of the way in which it lies along an edge.
        aligned: the run that lies along the backing edge.
        main: the main run.
        right: the right arm (at low x), if there is one.
        left: the left arm (at high x), if there is one.
        corner: the treatment; None for a straight run.
        right_corner: option of the cushion in the right corner place; None if there is none.
        left_corner: the same of the left one.
        right_end: the end of the chain at the right hand.
        left_end: the other one.
        x: of the low-x deck corner, corner places included.
        y: of the deck's back line.
    """

    mount: int
    aligned: Side
    main: Row
    right: Row | None
    left: Row | None
    corner: CornerKind | None
    right_corner: int | None
    left_corner: int | None
    right_end: EndKind
    left_end: EndKind
    x: Marks
    y: Marks

    @property
    def shape(self) -> Shape:
        """Straight, L or U, by the number of arms."""
        return (Shape.STRAIGHT, Shape.L, Shape.U)[(self.right is not None) + (self.left is not None)]

    @property
    def arms(self) -> tuple[Side, ...]:
        """The arms that there are, right one first."""
        return tuple(side for side in ARMS if self.row(side) is not None)

    def row(self, side: Side) -> Row | None:
        """The run of that side."""
        return {Side.MAIN: self.main, Side.RIGHT: self.right, Side.LEFT: self.left}[side]

    def cushion(self, arm: Side) -> int | None:
        """Option of the cushion in an arm's corner place."""
        return self.right_corner if arm is Side.RIGHT else self.left_corner

    def end(self, hand: Side) -> EndKind:
        """The end of the chain at a hand."""
        return self.right_end if hand is Side.RIGHT else self.left_end


class Place:
    """Boxes of a choice.

    Cushions overhang the wood in front and lie off the backs by the `gap`; a `spread` moves them farther off. The depth
    of a place counts from the back to the front of its cushions, that of its `wood` to the front rails.
    """

    def __init__(self, choice: Choice, sizes: Sizes) -> None:
        self.choice, self.sizes = choice, sizes
        self.main: OptionSize = sizes.options[choice.main.option]
        kinds = [sizes.options[n].notch for arm in ARMS if (n := choice.cushion(arm)) is not None]
        self.spread = max(kinds, default=0) if choice.corner is CornerKind.SPREAD else 0
        self.gap = sizes.overhang + self.spread
        self.depth = self.main.deck + self.gap
        self.wood = self.depth - sizes.overhang
        self.length = choice.main.count * self.main.pitch
        rows = {side: row for side in ARMS if (row := choice.row(side)) is not None}
        self.arms = {side: sizes.options[row.option] for side, row in rows.items()}
        self.reach = {side: row.count * self.arms[side].pitch for side, row in rows.items()}
        self.right = self.deck(Side.RIGHT) if Side.RIGHT in self.arms else 0
        self.left = self.deck(Side.LEFT) if Side.LEFT in self.arms else 0
        self.width = self.right + self.length + self.left

    def deck(self, side: Side) -> int:
        """The place depth of a run that there is: its cushions and how far they lie off the back."""
        return self.depth if side is Side.MAIN else self.arms[side].deck + self.gap

    def rect(self, flat: Flat) -> Rect:
        """A rectangle given from the deck corner, in the layout frame."""
        x, y = self.choice.x, self.choice.y
        return Rect(x + flat[0], y + flat[1], x + flat[2], y + flat[3])

    def box(self, flat: Flat) -> Box:
        """The same as lengths."""
        return Box(*(Length(int(n) * self.sizes.mark.units) for n in self.rect(flat)))

    def mirrored(self, arm: Side, flat: Flat) -> Flat:
        """A rectangle written for the right arm, where it lies for this one."""
        if arm is Side.RIGHT:
            return flat
        return self.width - flat[2], flat[1], self.width - flat[0], flat[3]

    def owner(self, arm: Side) -> Side:
        """The run that owns an arm's corner place: the longer one, at equal lengths the aligned or the main one."""
        if self.reach[arm] == self.length:
            return arm if self.choice.aligned is arm else Side.MAIN
        return arm if self.reach[arm] > self.length else Side.MAIN

    @property
    def outside(self) -> bool:
        """Whether the corner posts stand outside the deck."""
        return self.choice.corner is CornerKind.OUTSIDE_POST

    def footprint(self) -> dict[str, Flat]:
        """What stands on the floor or overhangs it, by the names of the model's rectangles."""
        s = self.sizes
        gap = {hand: s.back if hand in self.arms else s.ends[self.choice.end(hand)] for hand in ARMS}
        found = {"main": (-gap[Side.RIGHT], -s.back, self.width + gap[Side.LEFT], self.depth)}
        for arm in self.arms:
            end = self.depth + self.reach[arm] + s.ends[self.choice.end(arm)]
            found[arm] = self.mirrored(arm, (-s.back, -s.back, self.deck(arm), end))
            if self.outside:
                found[f"{arm} post"] = self.mirrored(arm, (-s.post, -s.post, 0, 0))
        return found

    def legroom(self) -> dict[str, Flat]:
        """The clear strip before each run."""
        leg = self.sizes.legroom
        found = {"main": (self.right, self.depth, self.right + self.length, self.depth + leg)}
        for arm in self.arms:
            strip = (self.deck(arm), self.depth, self.deck(arm) + leg, self.depth + self.reach[arm])
            found[arm] = self.mirrored(arm, strip)
        return found

    def ends(self) -> dict[Side, tuple[Side, Flat]]:
        """The end of the chain at each hand, with the run that ends there."""
        s, found = self.sizes, {}
        for hand in ARMS:
            thick = s.ends[self.choice.end(hand)]
            if hand in self.arms:
                start = self.depth + self.reach[hand]
                flat = (-s.back, start, self.deck(hand), start + thick)
                found[hand] = (hand, self.mirrored(hand, flat))
            else:
                found[hand] = (Side.MAIN, self.mirrored(hand, (-thick, -s.back, 0, self.depth)))
        return found

    def standing(self) -> dict[str, Flat]:
        """Ends and corner posts, by the names of the model's rectangles."""
        found = {}
        for hand, (run, flat) in self.ends().items():
            found[f"{hand} end" if run is Side.MAIN else f"{hand} arm end"] = flat
        for arm in self.arms:
            found[f"{arm} inner"], post = self.corner_posts(arm)
            found[f"{arm} outer" if self.outside else f"{arm} corner"] = post
        return found

    def base(self, line: RailLine) -> tuple[int, int]:
        """The place that the posts of a rail line keep their distance from, whatever the other runs are."""
        if line.run is Side.MAIN:
            return self.right, self.depth if line.face is Face.FRONT else 0
        inner, outer = (self.right, 0) if line.run is Side.RIGHT else (self.width - self.left, self.width)
        return inner if line.face is Face.FRONT else outer, self.depth

    def corner_posts(self, arm: Side) -> tuple[Flat, Flat]:
        """The inner corner post and the corner post of an arm's corner place."""
        p, deck = self.sizes.post, self.deck(arm) - self.sizes.overhang
        corner = (-p, -p, 0, 0) if self.outside else (0, 0, p, p)
        return self.mirrored(arm, (deck - p, self.wood - p, deck, self.wood)), self.mirrored(arm, corner)

    def _behind(self, arm: Side, run: Side) -> int:
        """Where a back rail starts, from the deck corner: past the corner post, or past the owner's rail."""
        if not self.outside:
            return self.sizes.post
        return 0 if self.owner(arm) is run else self.sizes.rail

    @cached_property
    def lines(self) -> tuple[RailLine, ...]:
        """The rail lines: front and back of the main run, then of the right and the left arm."""
        found = [*self._main_lines()]
        for arm in self.arms:
            found += self._arm_lines(arm)
        return tuple(found)

    @property
    def pairs(self) -> tuple[bays.Pair, ...]:
        """Which lines belong together, and how much later a module line comes in the back one."""
        fronts_and_backs = [(n, n + 1) for n in range(0, len(self.lines), 2)]
        return tuple((f, b, self.lines[b].zero - self.lines[f].zero) for f, b in fronts_and_backs)

    def _main_lines(self) -> tuple[RailLine, RailLine]:
        pitch, count, over = self.main.pitch, self.choice.main.count, self.sizes.overhang
        ahead = Side.RIGHT in self.arms or not self.arms  # an L counts from its corner
        near, far = (Side.RIGHT, Side.LEFT) if ahead else (Side.LEFT, Side.RIGHT)
        place = self.right if ahead else self.left
        start = self.right if ahead else self.width - self.left
        inner = tuple(range(1, count))
        # At a corner the wood of the other run ends behind its cushions, so that a front rail begins before line 0.
        before, after = (over if hand in self.arms else 0 for hand in (near, far))
        clear = bays.RailLine(before + self.length + after, tuple(before + k * pitch for k in inner))
        begin = start - before if ahead else start + before
        front = RailLine(Side.MAIN, Face.FRONT, begin, ahead, self.wood, -1, clear, inner, before, pitch)
        low = place - self._behind(near, Side.MAIN) if near in self.arms else 0
        other = self.left if ahead else self.right
        high = other - self._behind(far, Side.MAIN) if far in self.arms else 0
        numbers = tuple(range(0 if near in self.arms else 1, count + 1 if far in self.arms else count))
        # A post on a line at a corner place stands behind the cross rail, which is as much nearer to the corner.
        shifts = {0: -over, count: over}
        places = {k: low + k * pitch + shifts.get(k, 0) for k in numbers}
        held = self.sizes.held(self.wood)
        must = [0] if near in self.arms and held and self.owner(near) is Side.MAIN else []
        must += [count] if far in self.arms and held and self.owner(far) is Side.MAIN else []
        back = bays.RailLine(low + self.length + high, tuple(places.values()), tuple(places[k] for k in must))
        begin = start - low if ahead else start + low
        return front, RailLine(Side.MAIN, Face.BACK, begin, ahead, 0, 1, back, numbers, low, pitch)

    def _arm_lines(self, arm: Side) -> tuple[RailLine, RailLine]:
        row, over, right = self.choice.row(arm), self.sizes.overhang, arm is Side.RIGHT
        assert row is not None
        pitch, numbers, wood = self.arms[arm].pitch, tuple(range(row.count)), self.deck(arm) - over
        fronts = tuple(over + k * pitch for k in numbers[1:])
        front = bays.RailLine(over + self.reach[arm], fronts)
        low = self.depth - self._behind(arm, arm)
        held = self.owner(arm) is arm and self.sizes.held(wood)
        places = (low - over, *(low + k * pitch for k in numbers[1:]))
        back = bays.RailLine(low + self.reach[arm], places, places[:1] if held else ())
        inner, outer = (wood, 0) if right else (self.width - wood, self.width)
        inward = -1 if right else 1
        return (
            RailLine(arm, Face.FRONT, self.wood, True, inner, inward, front, numbers[1:], over, pitch),
            RailLine(arm, Face.BACK, self.depth - low, True, outer, -inward, back, numbers, low, pitch),
        )

    @property
    def spines(self) -> tuple[Spine, ...]:
        """The runs as they may be split, in the order of their lines of rails."""
        return tuple(self._spine(front, back) for front, back in zip(self.lines[::2], self.lines[1::2], strict=True))

    def _spine(self, front: RailLine, back: RailLine) -> Spine:
        row, run = self.choice.row(front.run), front.run
        assert row is not None
        if run is not Side.MAIN:
            before, after = self._reach(run, run), self.sizes.ends[self.choice.end(run)]
            must = [] if self.owner(run) is run else [0]
        else:
            near, far = (Side.RIGHT, Side.LEFT) if front.forward else (Side.LEFT, Side.RIGHT)
            before, after = self._reach(run, near), self._reach(run, far)
            lines = ((near, 0), (far, row.count))
            must = [line for hand, line in lines if hand in self.arms and self.owner(hand) is not run]
        return Spine(front.pitch, row.count, before, after, back.numbers, tuple(must), front.track(), back.track())

    def _reach(self, run: Side, hand: Side) -> int:
        """How far a run reaches beyond its modules at a hand; it is split off from a corner that is not its own."""
        if hand not in self.arms:
            return self.sizes.ends[self.choice.end(hand)]
        if self.owner(hand) is not run:
            return 0
        return self.deck(hand if run is Side.MAIN else Side.MAIN) + self.sizes.beyond(outside=self.outside)

    def cross(self, arm: Side, on_post: bool) -> Flat:
        """The cross rail of an arm's corner place, from the inner corner post to the owner's back rail or post."""
        s, deck = self.sizes, self.deck(arm) - self.sizes.overhang
        low = s.post if on_post else s.rail
        if self.owner(arm) is Side.MAIN:
            return self.mirrored(arm, (deck - s.rail, low, deck, self.wood - s.post))
        return self.mirrored(arm, (low, self.wood - s.rail, deck - s.post, self.wood))


def chosen_bays(place: Place, blocked: dict[int, frozenset[int]]) -> tuple[bays.Split, ...] | None:
    """The bay split of every rail line, where some module lines cannot carry a post; None if there is none.

    Args:
        place: the layout.
        blocked: places along a line that cannot carry a post, by the line's index.
    """
    lines = tuple(line.without(blocked.get(n, frozenset())) for n, line in enumerate(place.lines))
    return bays.choose(lines, place.sizes.post, place.sizes.span, place.pairs)


def different_lengths(place: Place, chosen: tuple[bays.Split, ...]) -> int:
    """How many different cut lengths front and back rails have."""
    pairs = zip(place.lines, chosen, strict=True)
    return len({n for line, split in pairs for n in bays.rails(line.clear.length, split, place.sizes.post)})
