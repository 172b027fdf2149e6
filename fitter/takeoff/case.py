"""What is taken off from, and what all parts of the take-off ask of it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from fitter.domain.cuts import PlannedBoard
from fitter.domain.layout import Layout
from fitter.domain.project import Project
from fitter.domain.supplies import Supplies
from fitter.domain.surfaces import Touch
from fitter.domain.takeoff import MILLILITRES_A_GALLON, Group, Item, Measure, Pack, PriceList, exactly, pieces
from fitter.domain.woodwork import Woodwork
from rooms.lengths import Length, format_length


@dataclass(frozen=True)
class Case:
    """A frame with all that its take-off rests on.

    Args:
        project: what was asked.
        layout: whose cushions are bought.
        woodwork: its frame.
        boards: what the parts are cut from; sections that are not among them have no plan.
        touching: where parts touch.
        prices: of what the project file does not price.
    """

    project: Project
    layout: Layout
    woodwork: Woodwork
    boards: tuple[PlannedBoard, ...]
    touching: tuple[Touch, ...]
    prices: PriceList

    @property
    def supplies(self) -> Supplies:
        """How things are counted."""
        return self.project.shop.supplies

    def cut(self, length: Length) -> str:
        """A length as it is called out in a shop, in inches or millimetres."""
        return format_length(length, self.project.unit, denominator=64, feet=False)

    def spare(self, count: int) -> int:
        """What is bought on top of so many pieces."""
        return (count * self.supplies.spare).__ceil__()

    def priced(self, item: Item) -> Item:
        """The same with what the price list says of it; its own pack and price count where that is silent."""
        found = self.prices.find(item.name) or (self.prices.find(item.sold_as) if item.sold_as else None)
        if found is None or item.price is not None:
            return item
        return replace(item, price=found.price, pack=found.pack or item.pack)

    def counted(self, group: Group, name: str, count: int, **more: object) -> Item:
        """Pieces that are sold one by one."""
        item = Item(group, name, exactly(count), pack=pieces(1))
        return self.priced(replace(item, **more))  # type: ignore[arg-type]

    def can(self, sizes: Sizes, most: Fraction = Fraction(0)) -> Pack:
        """What a poured thing is sold in: the smallest size of the file's system of which three are enough.

        Args:
            sizes: small ones first.
            most: millilitres that may be needed.
        """
        packs = [Pack(amount, Measure.VOLUME, says) for amount, says in sizes[0 if self.project.unit.imperial else 1]]
        return next((pack for pack in packs if most <= 3 * pack.amount), packs[-1])


Sizes = tuple[tuple[tuple[Fraction, str], ...], tuple[tuple[Fraction, str], ...]]
"""Of containers in US measures and in metric ones: millilitres, and as they are written."""

_OUNCE = MILLILITRES_A_GALLON / 128
CAN: Sizes = (
    ((32 * _OUNCE, "1 qt"), (128 * _OUNCE, "1 gal")),
    ((Fraction(750), "750 ml"), (Fraction(2500), "2.5 L")),
)
BOTTLE: Sizes = (
    ((8 * _OUNCE, "8 fl oz"), (16 * _OUNCE, "16 fl oz")),
    ((Fraction(250), "250 ml"), (Fraction(500), "500 ml")),
)
CARTRIDGE: Sizes = (((10 * _OUNCE, "10 fl oz"),), ((Fraction(300), "300 ml"),))
"""How poured things are sold where the price list does not say it: common practice."""
