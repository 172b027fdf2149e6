"""A run seen straight on: s along it, q from the back line of its deck toward the front, z up."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import ceil

from fitter.domain.frame import Carpentry, Section
from fitter.domain.layout import Box, End, Layout, Post, Run, Side
from fitter.domain.moisture import MOVES_WITHIN, movement
from fitter.domain.project import Project
from fitter.domain.species import species
from fitter.domain.wishes import CornerKind
from fitter.domain.woodwork import Levels, Vector
from fitter.frame.sticks import Cuboid
from rooms.lengths import Length

STRONGEST_GROWTH = 0.00369
"""Of a wood whose growth is not known: red oak's, Wood Handbook (FPL-GTR-190), Table 13-5."""


@dataclass(frozen=True)
class Site:
    """What every part is derived from.

    Args:
        project: sizes of wood.
        layout: where posts, rails, backs and ends stand.
        levels: heights.
    """

    project: Project
    layout: Layout
    levels: Levels

    @property
    def options(self) -> Carpentry:
        """How the frame is built."""
        return self.project.frame.carpentry

    @property
    def mark(self) -> int:
        """The shop mark, in units."""
        return self.project.mark.units

    def thick(self, section: Section) -> int:
        """Thickness to build with: up to the mark, as in the layout."""
        return section.thickness.ceil_to(self.project.mark).units

    def wide(self, section: Section) -> int:
        """Width to build with: up to the mark."""
        return section.width.ceil_to(self.project.mark).units

    def gaps(self, section: Section, limit: Length) -> tuple[int, int]:
        """Narrowest and widest gap beside slats of a section, in marks: swollen from 6 to 14 % they must not touch."""
        growth = species(self.options.species).coefficients[1]
        moved = movement(self.wide(section), growth.value if growth else STRONGEST_GROWTH, *MOVES_WITHIN)
        least = max(1, ceil(moved / self.mark))
        return least, max(least, limit.units // self.mark)

    @cached_property
    def rail(self) -> int:
        """Thickness of a seat rail."""
        return self.thick(self.project.frame.rail)

    @cached_property
    def post(self) -> int:
        """Side of a post."""
        return self.wide(self.project.frame.post)

    @cached_property
    def back(self) -> int:
        """Depth of a back, behind the deck."""
        return self.project.frame.back_thickness.ceil_to(self.project.mark).units

    @cached_property
    def overhang(self) -> int:
        """How far the cushions come forward over the front of the wood."""
        return self.project.frame.overhang.ceil_to(self.project.mark).units

    @property
    def joined(self) -> bool:
        """Whether backs are joined to each other at corners, above a post that ends at the deck."""
        return self.layout.corner is not None and not self.layout.corner.tall

    @cached_property
    def strips(self) -> tuple[Strip, ...]:
        """Every run, in the order of the layout."""
        return tuple(Strip(self, run) for run in self.layout.runs)

    def strip(self, side: Side) -> Strip:
        """The run of a side, which there must be."""
        return next(strip for strip in self.strips if strip.side is side)

    @cached_property
    def arms(self) -> tuple[Strip, ...]:
        """The runs that meet the main one, the right one first."""
        return tuple(self.strip(side) for side in (Side.RIGHT, Side.LEFT) if self.layout.run(side))

    def owner(self, arm: Side) -> Side:
        """The run that owns the corner place where an arm meets the main run."""
        return next(module.run for module in self.layout.modules if module.corner is arm)


@dataclass(frozen=True)
class Strip:
    """One run in its own coordinates; s = 0 is the outer end of its back line, corner places included.

    Args:
        site: the whole.
        run: which.
    """

    site: Site
    run: Run

    @property
    def side(self) -> Side:
        """Which run."""
        return self.run.side

    @property
    def axis(self) -> int:
        """The layout axis that s runs along: 0 x for the main run, 1 y for an arm."""
        return 0 if self.side is Side.MAIN else 1

    @property
    def across(self) -> int:
        """The layout axis that q runs along."""
        return 1 - self.axis

    @property
    def turned(self) -> bool:
        """Whether q runs against its axis: in a left arm, which faces the other way."""
        return self.side is Side.LEFT

    @cached_property
    def _origin(self) -> tuple[int, int]:
        """Where s = 0 and q = 0 lies: x and y."""
        main, left, right = (self.site.layout.run(side) for side in (Side.MAIN, Side.LEFT, Side.RIGHT))
        assert main is not None
        if self.side is Side.LEFT:
            assert left is not None
            return left.deck.x1.units, main.deck.y0.units
        return (right.deck.x0 if right else main.deck.x0).units, main.deck.y0.units

    @cached_property
    def depth(self) -> int:
        """Of its place: the backs, the ends and the fronts of the cushions are so far apart."""
        deck = self.run.deck
        return (deck.y1 - deck.y0 if self.axis == 0 else deck.x1 - deck.x0).units

    @cached_property
    def wood(self) -> int:
        """From the back line to the front of rails and posts, which the cushions overhang."""
        return self.depth - self.site.overhang

    @cached_property
    def first(self) -> int:
        """Where its own modules begin."""
        return (self.run.deck.x0.units if self.axis == 0 else self.run.deck.y0.units) - self._origin[self.axis]

    @cached_property
    def last(self) -> int:
        """Where its own modules end."""
        return (self.run.deck.x1.units if self.axis == 0 else self.run.deck.y1.units) - self._origin[self.axis]

    @cached_property
    def first_wood(self) -> int:
        """Where its front rails begin: at a corner the other run's wood ends short of its place."""
        return self.first - (self.site.overhang if self.corner(low=True) else 0)

    @cached_property
    def last_wood(self) -> int:
        """Where its front rails end."""
        return self.last + (self.site.overhang if self.corner(low=False) else 0)

    @cached_property
    def end(self) -> int:
        """The far end of its back line, the second corner place of a main run included."""
        left = self.site.layout.run(Side.LEFT)
        return self.last + (self._deep(left) if self.side is Side.MAIN and left else 0)

    @staticmethod
    def _deep(arm: Run) -> int:
        return (arm.deck.x1 - arm.deck.x0).units

    @cached_property
    def lines(self) -> tuple[int, ...]:
        """Where its module lines lie, from low s to high."""
        return tuple(self.first + k * self.run.pitch.units for k in range(self.run.count + 1))

    def line(self, number: int) -> int:
        """Where a module line lies, counted as in the layout: the main run of a left-hand L from its left."""
        layout = self.site.layout
        falling = self.side is Side.MAIN and layout.run(Side.LEFT) is not None and layout.run(Side.RIGHT) is None
        return self.lines[len(self.lines) - 1 - number if falling else number]

    @cached_property
    def splits(self) -> tuple[int, ...]:
        """Where the frame comes apart to be carried, rising."""
        return tuple(sorted(self.line(cut.line) for cut in self.site.layout.splits if cut.run is self.side))

    def corner(self, low: bool) -> Strip | None:
        """The run that meets it at its low or its high end, if one does."""
        layout = self.site.layout
        if self.side is not Side.MAIN:
            return self.site.strip(Side.MAIN) if low else None
        meeting = Side.RIGHT if low else Side.LEFT
        return self.site.strip(meeting) if layout.run(meeting) else None

    def owns(self, low: bool) -> bool:
        """Whether the corner place at that end is its own."""
        other = self.corner(low)
        assert other is not None
        return self.site.owner(other.side if self.side is Side.MAIN else self.side) is self.side

    def finish(self, low: bool) -> End | None:
        """What stands at its low or its high end, if no corner does."""
        hand = {Side.MAIN: Side.RIGHT if low else Side.LEFT}.get(self.side, self.side)
        if self.corner(low) is not None:
            return None
        return next(end for end in self.site.layout.ends if end.run is self.side and end.hand is hand)

    def box(self, s0: int, s1: int, q0: int, q1: int, z0: int, z1: int) -> Cuboid:
        """A box of its coordinates in the layout frame."""
        x, y = self._origin
        if self.axis == 0:
            return x + s0, y + q0, z0, x + s1, y + q1, z1
        if self.turned:
            return x - q1, y + s0, z0, x - q0, y + s1, z1
        return x + q0, y + s0, z0, x + q1, y + s1, z1

    def seen(self, box: Box) -> tuple[int, int, int, int]:
        """A box of the layout in its own coordinates: s0, s1, q0, q1."""
        x, y = self._origin
        if self.axis == 0:
            return box.x0.units - x, box.x1.units - x, box.y0.units - y, box.y1.units - y
        s0, s1 = box.y0.units - y, box.y1.units - y
        if self.turned:
            return s0, s1, x - box.x1.units, x - box.x0.units
        return s0, s1, box.x0.units - x, box.x1.units - x

    def vectors(self) -> tuple[Vector, Vector]:
        """The unit vectors of s and q."""
        if self.axis == 0:
            return (1, 0, 0), (0, 1, 0)
        return (0, 1, 0), ((-1 if self.turned else 1), 0, 0)

    def spot(self, s: int, q: int, z: int) -> Vector:
        """A point of its coordinates in the layout frame."""
        x0, y0, z0, *_ = self.box(s, s, q, q, z, z)
        return x0, y0, z0

    @cached_property
    def posts(self) -> tuple[tuple[Post, tuple[int, int, int, int]], ...]:
        """Every post that stands in its deck, with its place there, from low s to high."""
        found = ((post, self.seen(post.box)) for post in self.site.layout.posts)
        inside = ((post, at) for post, at in found if at[2] < self.depth and at[3] > 0 and 0 < at[1] <= self.end)
        return tuple(sorted(inside, key=lambda pair: pair[1]))

    @property
    def outside(self) -> bool:
        """Whether corner posts stand behind the decks."""
        return self.site.layout.corner is CornerKind.OUTSIDE_POST
