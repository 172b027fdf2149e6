"""The take-off: everything to buy, and the tools that the cuts and holes ask for."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction

from fitter.domain.board_list import BoardList
from fitter.domain.findings import Finding, Place
from fitter.domain.layout import Verdict

MILLILITRES_A_GALLON = Fraction("3785.411784")
"""Of the US gallon, 231 cubic inches of 2.54 cm: exact."""
MILLILITRES_AN_INCH = Fraction("16.387064")
"""Of a cubic inch: exact."""


class Group(StrEnum):
    """What an item is counted under; the order is that of every list."""

    BOARDS = "boards"
    CUSHIONS = "cushions"
    FASTENERS = "fasteners"
    GLUE = "glue, sealant, plugs"
    FINISH = "sanding and finish"
    GEAR = "rags and protective gear"


class Measure(StrEnum):
    """What an amount counts: pieces, millilitres, or units of length."""

    PIECES = "pieces"
    VOLUME = "volume"
    LENGTH = "length"


POURED = ("glue", "sealant", "sealant for pockets", "conditioner", "stain", "varnish")
"""Items that are sold by volume."""


@dataclass(frozen=True)
class Span:
    """An amount that lies between two bounds."""

    least: Fraction
    most: Fraction

    def __add__(self, other: Span) -> Span:
        """Bound by bound."""
        return Span(self.least + other.least, self.most + other.most)

    @property
    def middle(self) -> Fraction:
        """Half-way between the bounds."""
        return (self.least + self.most) / 2


NOTHING = Span(Fraction(0), Fraction(0))


def exactly(amount: int | Fraction) -> Span:
    """An amount that is known."""
    return Span(Fraction(amount), Fraction(amount))


@dataclass(frozen=True)
class Pack:
    """What is sold in one go.

    Args:
        amount: in it, above zero: pieces or millilitres.
        measure: which of the two.
        says: as it is written, such as `100` or `1 qt`.
    """

    amount: Fraction
    measure: Measure
    says: str


def pieces(number: int) -> Pack:
    """A box with so many in it."""
    return Pack(Fraction(number), Measure.PIECES, str(number))


@dataclass(frozen=True)
class Price:
    """A row of a price list.

    Args:
        item: as written.
        price: of one pack, above zero.
        pack: what is in it; None where that is not said.
        place: of the row.
    """

    item: str
    price: Fraction
    pack: Pack | None = None
    place: Place | None = None


def item_key(name: str) -> str:
    """A name for comparing: capitals, hyphens and the sign between two sizes make no difference.

    >>> item_key('Pocket screw #8×2-1/2"') == item_key('pocket screw #8 x 2 1/2"')
    True
    """
    text = re.sub(r"[\s_-]+", " ", name.translate(_SIGNS)).strip().lower()
    text = re.sub(r"(?<=') 0\"", "", text)
    return re.sub(r"(?<=[0-9\"'m]) ?x ?(?=[0-9])", " x ", text)


_SIGNS = str.maketrans({"×": "x", "″": '"', "”": '"', "′": "'", "’": "'"})


@dataclass(frozen=True)
class PriceList:
    """Prices of things.

    Args:
        file: as the user wrote it.
        rows: by `item_key`.
    """

    file: str = ""
    rows: Mapping[str, Price] = field(default_factory=dict)

    def find(self, name: str) -> Price | None:
        """The row of an item, if there is one."""
        return self.rows.get(item_key(name))


@dataclass(frozen=True)
class Item:
    """One thing to buy.

    Args:
        group: what it is counted under.
        name: as a price list calls it.
        needed: pieces, millilitres or units of length, spare not counted.
        measure: which of the three.
        pack: what is sold in one go; None where nothing is known of how it is sold.
        sold_as: another name that it may be priced under; empty if none.
        spare: pieces on top.
        left: what is over of packs that are on the list before it, and is used first.
        price: of a pack; None where it is not known.
        says: how the amount came about, for a person.
        source: of the numbers behind it; empty if none.
        choice: items with one word here stand for each other: one of them is enough.
        chosen: whether it is in the sums.
    """

    group: Group
    name: str
    needed: Span
    measure: Measure = Measure.PIECES
    pack: Pack | None = None
    sold_as: str = ""
    spare: int = 0
    left: Fraction = Fraction(0)
    price: Fraction | None = None
    says: str = ""
    source: str = ""
    choice: str = ""
    chosen: bool = True

    @property
    def packs(self) -> tuple[int, int] | None:
        """How many packs to buy, at least and at most; None where nothing is known of how it is sold."""
        if self.pack is None:
            return None
        least, most = (
            max(Fraction(0), need + self.spare - self.left) for need in (self.needed.least, self.needed.most)
        )
        return (least / self.pack.amount).__ceil__(), (most / self.pack.amount).__ceil__()

    @property
    def cost(self) -> Span | None:
        """Of all packs; None where the price is not known and something has to be bought."""
        if self.packs == (0, 0):
            return NOTHING
        if self.packs is None or self.price is None:
            return None
        least, most = self.packs
        return Span(least * self.price, most * self.price)


@dataclass(frozen=True)
class Tool:
    """A tool, which is in no sum.

    Args:
        name: what it is.
        needs: what it has to be able to do, such as how deep it must cut; empty if anything will do.
        says: what for.
        source: of the numbers behind it; empty if they are those of the frame.
    """

    name: str
    needs: str = ""
    says: str = ""
    source: str = ""


@dataclass(frozen=True)
class Total:
    """The sum of a group, or of everything.

    Args:
        group: None for everything.
        cost: of the items whose price is known.
        unknown: how many items have no price, and so are not in it.
        share: of the cost of everything, half-way between its bounds; None where that is nothing.
    """

    group: Group | None
    cost: Span
    unknown: int
    share: Fraction | None


@dataclass(frozen=True)
class Area:
    """The surface of all parts, in square units.

    Args:
        whole: all faces of all parts.
        covered: of faces that touch other parts, both sides counted.
    """

    whole: int
    covered: int

    @property
    def exposed(self) -> int:
        """What can be seen and painted when the frame stands, its underside included."""
        return self.whole - self.covered


@dataclass(frozen=True)
class Takeoff:
    """Everything to buy.

    Args:
        items: group by group.
        tools: what is worked with.
        area: of the wood, for the finish.
        pockets: number of pocket holes.
        findings: what the maker has to know, prices that fit nothing among it.
    """

    items: tuple[Item, ...]
    tools: tuple[Tool, ...]
    area: Area
    pockets: int
    findings: tuple[Finding, ...] = ()

    def of(self, group: Group) -> tuple[Item, ...]:
        """The items of a group."""
        return tuple(item for item in self.items if item.group is group)

    @property
    def totals(self) -> tuple[Total, ...]:
        """One for each group that has items, then one for everything; what is not chosen is in none."""
        whole = _sum(self.items)
        rows = [
            Total(group, cost, unknown, cost.middle / whole[0].middle if whole[0].middle else None)
            for group in Group
            if self.of(group)
            for cost, unknown in (_sum(self.of(group)),)
        ]
        return (*rows, Total(None, *whole, Fraction(1) if whole[0].middle else None))


def _sum(items: tuple[Item, ...]) -> tuple[Span, int]:
    """What the chosen items with a price cost together, and how many have none."""
    costs = [item.cost for item in items if item.chosen]
    return sum((cost for cost in costs if cost is not None), NOTHING), sum(cost is None for cost in costs)


@dataclass(frozen=True)
class BuyResult:
    """What comes of a project that is to be bought for.

    Args:
        boards: the layout, its frame and its boards.
        takeoff: everything to buy; None without a frame, or where something of it is a mistake of ours.
    """

    boards: BoardList
    takeoff: Takeoff | None = None

    @property
    def verdict(self) -> Verdict:
        """How layout, frame and boards stand; where boards fall short the rest is taken off all the same."""
        return self.boards.verdict
