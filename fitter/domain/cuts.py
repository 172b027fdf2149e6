"""What is cut from which boards: parts, boards, options, and the plan that comes of them."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from math import isqrt

from fitter.domain.findings import Finding
from fitter.domain.layout import Verdict
from fitter.domain.woodwork import SQUARE, EndCut, Slant
from rooms.lengths import ZERO, Length, Unit


class Aim(StrEnum):
    """What a plan is chosen by, one aim after another."""

    COST = "cost"
    BOARDS = "boards"
    WASTE = "waste"
    PATTERNS = "patterns"
    OFFCUT = "offcut"


USUAL_AIMS = (Aim.COST, Aim.BOARDS, Aim.WASTE, Aim.PATTERNS, Aim.OFFCUT)


class OnHand(StrEnum):
    """How boards on hand are looked at: as gone anyway, or as worth keeping unless they save money."""

    FIRST = "first"
    CHEAPER = "cheaper"


@dataclass(frozen=True)
class Piece:
    """Equal parts to be cut.

    Args:
        mark: its label.
        section: what it is cut from.
        length: finished, from long point to long point, above zero.
        count: how many, at least 1.
        ends: how the ends at 0 and at `length` are cut. A mitre is cut at 45°, so it recedes by the side it crosses.
        face_up: whether one wide face has to stay up at the saw, so that the board is turned but not flipped.
    """

    mark: str
    section: str
    length: Length
    count: int
    ends: tuple[EndCut, EndCut] = (SQUARE, SQUARE)
    face_up: bool = False

    @property
    def leans(self) -> tuple[int, int]:
        """How both faces lean, seen with the part's length to the right and the mitred side upward.

        1 leans to the right at its top, -1 to the left, 0 is square.

        >>> from fitter.domain.woodwork import EndCut
        >>> side = Length.inches("7/2")
        >>> Piece("A", "2x4", Length.inches(30), 1, (EndCut(side), EndCut(side))).leans
        (1, -1)
        """
        first, last = self.ends
        return _lean(first, 1), _lean(last, -1)


def _lean(end: EndCut, low: int) -> int:
    return 0 if end.square else low if end.low else -low


@dataclass(frozen=True)
class Stock:
    """Boards of one length, in the shop or on hand.

    Args:
        section: that it is sold by.
        length: as sold.
        price: of one in the shop, in cents; None where it is not known.
        have: how many are on hand; None where that is not said.
    """

    section: str
    length: Length
    price: int | None = None
    have: int | None = None

    @property
    def sold(self) -> bool:
        """Whether as many as are wanted can be bought: boards with a number and no price are only those on hand."""
        return self.price is not None or self.have is None


@dataclass(frozen=True)
class CutOptions:
    """How boards are cut, and which plan is the best.

    Args:
        kerf: width of a saw cut, square to it.
        trim: cut off each end of a board before it is used.
        mark: the shop mark; mitred parts are laid out on a quarter of it.
        longest_carried: longest board that can be brought home; None for no limit.
        least_offcut: a rest that is shorter is waste.
        defects: share of each board that is left unused for knots and splits; None for none.
        on_hand: how boards on hand are looked at.
        aims: in their order; cost is always the first.
    """

    kerf: Length = ZERO
    trim: Length = ZERO
    mark: Length = Unit.IN.mark
    longest_carried: Length | None = None
    least_offcut: Length = Unit.FT.one
    defects: Fraction | None = None
    on_hand: OnHand = OnHand.FIRST
    aims: tuple[Aim, ...] = USUAL_AIMS

    def usable(self, length: Length) -> Length:
        """What a board of some length yields: trimmed at both ends, less the share for defects, to the unit below."""
        left = (length - 2 * self.trim).units
        return Length(left * (1 - self.defects) // 1) if self.defects else Length(left)


def kerf_along(kerf: Length) -> int:
    """What a cut at 45° takes along the board, k √2, in units, rounded up.

    >>> kerf_along(Length.inches("1/8"))
    1437
    """
    twice = 2 * kerf.units**2
    root = isqrt(twice)
    return root + (root * root < twice)


@dataclass(frozen=True)
class Cut:
    """One part on its board, measured from the board's first end.

    Args:
        mark: of the part.
        start: where its first long point lies.
        end: where its last long point lies; of a mitred neighbour the start may lie before it.
        ends: how both ends are cut, as the part lies on the board.
    """

    mark: str
    start: Length
    end: Length
    ends: tuple[EndCut, EndCut] = (SQUARE, SQUARE)

    @property
    def length(self) -> Length:
        """From long point to long point."""
        return self.end - self.start

    @property
    def leans(self) -> tuple[int, int]:
        """How both faces lean on the board, as `Piece.leans`."""
        first, last = self.ends
        return _lean(first, 1), _lean(last, -1)

    @property
    def slant(self) -> Slant | None:
        """Across which side of the section it is mitred; None where both ends are square."""
        return next((end.over for end in self.ends if not end.square), None)


@dataclass(frozen=True)
class PlannedBoard:
    """A board and what is cut from it.

    Args:
        section: that it is sold by.
        length: as sold.
        price: in cents; None where it is not known, or the board is on hand.
        cuts: in the order in which they are sawn, along the board from its first end.
        offcut: length that is left whole behind the last saw cut; 0 where nothing is.
        on_hand: whether it need not be bought.
    """

    section: str
    length: Length
    price: int | None
    cuts: tuple[Cut, ...]
    offcut: Length
    on_hand: bool = False

    @property
    def pattern(self) -> tuple[str, int, tuple[tuple[int, tuple[int, int]], ...]]:
        """What has to be equal for two boards to be sawn with the same settings."""
        return self.section, self.length.units, tuple((cut.length.units, cut.leans) for cut in self.cuts)


@dataclass(frozen=True)
class Reached:
    """How far an aim was reached.

    Args:
        aim: which.
        value: of the plan: cents (or units of length where no price is known), boards, units of length of all boards
            (least waste is least length), patterns, units of the longest offcut; boards on hand are not among the
            boards where they are looked at as gone anyway.
        bound: that no plan can beat with the aims before it kept; None where nothing is known.
    """

    aim: Aim
    value: int
    bound: int | None

    @property
    def proven(self) -> bool:
        """Whether nothing is better."""
        return self.value == self.bound


@dataclass(frozen=True)
class BoardPlan:
    """What to buy and where to saw.

    Args:
        boards: section by section, long boards first, equal ones together.
        cost: of what is bought, in cents; None where no price is known.
        bound: that no plan costs less than; None as above.
        reached: aim by aim, over all sections.
        waste: length of all boards less that of parts and of offcuts that are kept.
        notes: what the proof rests on besides integers, and what was rounded, for a person.
        interrupted: whether the user stopped the search before it was done.
    """

    boards: tuple[PlannedBoard, ...]
    cost: int | None
    bound: int | None
    reached: tuple[Reached, ...]
    waste: Length
    notes: tuple[str, ...] = ()
    interrupted: bool = False

    @property
    def proven(self) -> bool:
        """Whether no plan is cheaper; where no price is known, whether none needs less length."""
        return self.reached[0].proven

    @property
    def gap(self) -> int:
        """How much cheaper a plan may still be, in cents or units of length; 0 when proven."""
        first = self.reached[0]
        return first.value - (first.bound or 0)

    @property
    def patterns(self) -> int:
        """How many boards differ from each other in their cuts."""
        return len({board.pattern for board in self.boards})


@dataclass(frozen=True)
class CutResult:
    """What comes of lists of parts and boards.

    Args:
        verdict: proven: nothing is cheaper; found: time ran out; impossible: the boards on hand do not suffice;
            unknown: time ran out before there was any plan; fault: the check holds something against the plan.
        plan: None without one.
        section: whose boards do not suffice, or were not found to.
        checked: what the check holds against it.
        seconds: that it took.
    """

    verdict: Verdict
    plan: BoardPlan | None = None
    section: str = ""
    checked: tuple[Finding, ...] = ()
    seconds: float = 0.0
