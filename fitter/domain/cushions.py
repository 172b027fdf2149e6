"""Cushions as bought or owned, and the modules they make."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from rooms.lengths import ZERO, Length


@dataclass(frozen=True)
class BackCushion:
    """A loose back cushion: width along the run, height above the seat, thickness."""

    width: Length
    height: Length
    thickness: Length


class CushionSide(StrEnum):
    """A side of a cushion, named as by a person who faces it."""

    BACK = "back"
    FRONT = "front"
    LEFT = "left"
    RIGHT = "right"


class Condition(StrEnum):
    """How a cushion in the shed has kept, the best first."""

    GOOD = "good"
    WORN = "worn"
    POOR = "poor"


Conditions = tuple[tuple[Condition, int], ...]
"""How many there are in each condition, the best first; none where nothing is said."""


@dataclass(frozen=True)
class Cushion:
    """A kind of seat cushion.

    Args:
        name: as in the project file.
        width: along the run, as sold (nominal).
        depth: front to back, as sold.
        thickness: as sold.
        back: the back cushion that goes with it, if any.
        measured: width, depth, thickness as taped on the real cushion; beats the nominal size.
        ease: slack per cushion and axis; negative where foam may be squeezed.
        own: how many are in the shed; None if not said.
        price: of one, in the file's currency; None if not said.
        may_turn: whether it may lie with its depth along the run.
        may_notch: whether a corner may be cut from it.
        seats: sitting places on it.
        zip: the side that its zip is in; None if not said.
        conditions: of those owned, all of them; empty if not said.
        ease_most: how much its ease may be stretched to; None for not at all.
    """

    name: str
    width: Length
    depth: Length
    thickness: Length
    back: BackCushion | None = None
    measured: tuple[Length, Length, Length] | None = None
    ease: Length = ZERO
    own: int | None = None
    price: Fraction | None = None
    may_turn: bool = False
    may_notch: bool = True
    seats: int = 1
    zip: CushionSide | None = None
    conditions: Conditions = ()
    ease_most: Length | None = None

    @property
    def size(self) -> tuple[Length, Length, Length]:
        """Width, depth and thickness to build for: measured, else nominal."""
        return self.measured or (self.width, self.depth, self.thickness)

    @property
    def stock(self) -> int | None:
        """How many can be had: owned ones only where no price is given, else no limit (None)."""
        return self.own if self.price is None else None

    def to_buy(self, used: int) -> int:
        """How many have to be bought where so many are used: those that are not in the shed."""
        return max(0, used - (self.own or 0))


@dataclass(frozen=True)
class Option:
    """One way to lay one cushion: as sold or turned a quarter.

    Args:
        cushion: the kind.
        turned: whether its depth lies along the run.
    """

    cushion: Cushion
    turned: bool = False

    def pitch(self, mark: Length) -> Length:
        """Room per cushion along the run: size plus ease, up to the shop mark."""
        return (self.cushion.size[1 if self.turned else 0] + self.cushion.ease).ceil_to(mark)

    def deck(self, mark: Length) -> Length:
        """Deck depth under the cushion: size across the run plus ease, up to the shop mark."""
        return (self.cushion.size[0 if self.turned else 1] + self.cushion.ease).ceil_to(mark)


def options(cushions: tuple[Cushion, ...]) -> tuple[Option, ...]:
    """Every way to lay each cushion, in the order of the file, as sold before turned."""
    return tuple(
        Option(cushion, turned)
        for cushion in cushions
        for turned in (False, True)
        if not turned or (cushion.may_turn and cushion.size[0] != cushion.size[1])
    )
