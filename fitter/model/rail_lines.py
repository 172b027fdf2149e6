"""A line of rails of a run: where it lies, and where posts may stand in it."""

from __future__ import annotations

from dataclasses import dataclass

from fitter.domain.layout import Face, Side
from fitter.model import bays
from fitter.model.carrying import Track

Flat = tuple[int, int, int, int]
"""x0, y0, x1, y1 in marks, from the deck corner."""


@dataclass(frozen=True)
class RailLine:
    """A line of rails before posts are chosen.

    Places along it count from its start, in the direction in which its modules are counted.

    Args:
        run: the run it carries.
        face: front or back.
        start: where its clear opening begins: along x for the main run, along y for an arm.
        forward: whether it counts toward greater x or y.
        across: where the line of the deck lies that posts and rails are flush with.
        inward: 1 if they stand on its high side, -1 on its low side.
        clear: its clear length, the module lines that may carry a post, and those that must.
        numbers: of those module lines.
        zero: where module line 0 lies.
        pitch: from one module line to the next.
    """

    run: Side
    face: Face
    start: int
    forward: bool
    across: int
    inward: int
    clear: bays.RailLine
    numbers: tuple[int, ...]
    zero: int
    pitch: int

    def strip(self, low: int, high: int, depth: int) -> Flat:
        """A piece of the line between two places along it."""
        a, b = (self.start + low, self.start + high) if self.forward else (self.start - high, self.start - low)
        c, d = sorted((self.across, self.across + self.inward * depth))
        return (a, c, b, d) if self.run is Side.MAIN else (c, a, d, b)

    def post(self, line: int, width: int) -> Flat:
        """The post centred on a module line, its odd half mark on the far side."""
        return self.strip(line - width // 2, line - width // 2 + width, width)

    def beside(self, number: int, width: int) -> tuple[int, ...]:
        """Where the posts beside a split begin: two, but for the one that an inner corner post is already."""
        at = self.zero + number * self.pitch
        return tuple(low for low in (at - width, at) if 0 <= low <= self.clear.length - width)

    def stands(self, split: bays.Split, splits: tuple[int, ...], width: int) -> list[tuple[int, int]]:
        """Where the posts of the line begin, and the module lines that they stand at.

        Args:
            split: places of module lines that carry a post of their own.
            splits: numbers of the module lines at which the run is split.
            width: of a post.
        """
        numbers = dict(zip(self.clear.lines, self.numbers, strict=True))
        alone = [(line - width // 2, numbers[line]) for line in split]
        return sorted([*alone, *((low, number) for number in splits for low in self.beside(number, width))])

    def track(self) -> Track:
        """The line as it may be split."""
        must = tuple((line - self.zero) // self.pitch for line in self.clear.must)
        return Track(self.clear.length, self.zero, self.numbers, must)

    def without(self, blocked: frozenset[int]) -> bays.RailLine:
        """The line where some module lines cannot carry a post."""
        kept = tuple(line for line in self.clear.lines if line not in blocked)
        return bays.RailLine(self.clear.length, kept, self.clear.must)
