"""What is written beside a small picture: a head and some lines below it, broken to a width."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fitter.drawing.block import LEADING
from fitter.drawing.metrics import wrap
from fitter.drawing.page import MEDIUM, SMALL, Item, Spot
from fitter.drawing.texts import stacked

_HEAD = 1.7 * MEDIUM  # from one line of a head to the next, mm


@dataclass(frozen=True)
class Caption:
    """A head and lines that are as wide as they may be at most."""

    heads: tuple[str, ...]
    lines: tuple[str, ...]

    @classmethod
    def of(cls, head: str, lines: Sequence[str], width: float) -> Caption:
        """Broken to a width in mm."""
        return cls(wrap(head, MEDIUM, width), tuple(part for line in lines for part in wrap(line, SMALL, width)))

    @property
    def depth(self) -> float:
        """From the top of the head to below the last line, mm."""
        return _HEAD * len(self.heads) + LEADING * len(self.lines)

    def items(self, at: Spot) -> Iterator[Item]:
        """The texts, the head's first baseline at a spot."""
        yield from stacked(self.heads, at, height=MEDIUM)
        yield from stacked(self.lines, (at[0], at[1] - _HEAD * len(self.heads)))
