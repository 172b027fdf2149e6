"""A take-off as rows: what to buy, how much of it, what it costs."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from fitter.domain.surfaces import square_feet, square_metres
from fitter.domain.takeoff import MILLILITRES_A_GALLON, Area, Group, Item, Measure, Span, Takeoff, Tool, Total
from fitter.report.words import Teller, money
from rooms.lengths import Length, Unit

ITEM_HEADS = ("item", "needed", "buy", "each", "cost")
TOTAL_HEADS = ("group", "cost", "share", "no price")
TOOL_HEADS = ("tool", "has to do", "for")
UNKNOWN = "?"


def items(takeoff: Takeoff, group: Group, unit: Unit, tell: Teller) -> Iterator[tuple[str, ...]]:
    """A row for each item of a group; what stands for the one that counts has its cost in brackets."""
    for item in takeoff.of(group):
        name = item.name if item.chosen else f"or {item.name}"
        paid = cost(item.cost)
        each = UNKNOWN if item.price is None else money(item.price)
        yield name, needed(item, unit, tell), packs(item), each, paid if item.chosen else f"({paid})"


def needed(item: Item, unit: Unit, tell: Teller) -> str:
    """An amount, with what is spare."""
    least, most = item.needed.least, item.needed.most
    if item.measure is Measure.LENGTH:
        return tell(Length(round(most)))
    if item.measure is Measure.VOLUME:
        return volume(item.needed, unit)
    if item.spare:
        return f"{most.__ceil__()} + {item.spare}"
    return span(str(least.__ceil__()), str(most.__ceil__()))


def volume(amount: Span, unit: Unit) -> str:
    """Millilitres in the largest measure of which the most makes one.

    >>> volume(Span(Fraction(500), Fraction(1000)), Unit.MM), volume(Span(Fraction(30), Fraction(60)), Unit.IN)
    ('0.5 to 1.0 L', '1.0 to 2.0 fl oz')
    """
    gallon = MILLILITRES_A_GALLON
    sizes: tuple[tuple[str, Fraction], ...] = (("L", Fraction(1000)), ("ml", Fraction(1)))
    if unit.imperial:
        sizes = (("gal", gallon), ("qt", gallon / 4), ("fl oz", gallon / 128))
    name, size = next((pair for pair in sizes if amount.most >= pair[1]), sizes[-1])
    digits = 0 if name == "ml" else 1
    least, most = (f"{float(each / size):.{digits}f}" for each in (amount.least, amount.most))
    return f"{span(least, most)} {name}"


def packs(item: Item) -> str:
    """What to put into the cart."""
    if item.packs is None or item.pack is None:
        return UNKNOWN
    told = span(*map(str, item.packs))
    return told if item.pack.says == "1" else f"{told} × {item.pack.says}"


def cost(amount: Span | None) -> str:
    """An amount of money that lies between two bounds; what is not known stays visible."""
    return UNKNOWN if amount is None else span(money(amount.least), money(amount.most))


def span(least: str, most: str) -> str:
    """Two bounds, or one where they are alike."""
    return least if least == most else f"{least} to {most}"


def notes(takeoff: Takeoff, group: Group) -> Iterator[str]:
    """How amounts came about, and where that is from."""
    for item in takeoff.of(group):
        if item.says or item.source:
            yield f"{item.name}: {'; '.join(word for word in (item.says, item.source) if word)}"


def totals(takeoff: Takeoff) -> Iterator[tuple[str, ...]]:
    """A row for each group, then one for all."""
    for total in takeoff.totals:
        name = "all" if total.group is None else str(total.group)
        paid = _sum(total)
        known = "" if paid == UNKNOWN else share(total.share)
        yield name, paid, known, str(total.unknown) if total.unknown else ""


def _sum(total: Total) -> str:
    """What a group costs; unknown where nothing of it that has to be paid for has a price."""
    return UNKNOWN if total.unknown and not total.cost.most else cost(total.cost)


def share(part: Fraction | None) -> str:
    """A share to a tenth of a per cent.

    >>> share(Fraction(1, 3)), share(None)
    ('33.3 %', '')
    """
    if part is None:
        return ""
    thousandths = round(part * 1000)
    return f"{thousandths // 10}.{thousandths % 10} %"


def tools(told: tuple[Tool, ...]) -> Iterator[tuple[str, ...]]:
    """A row for each tool."""
    for tool in told:
        yield tool.name, tool.needs, "; ".join(word for word in (tool.says, tool.source) if word)


def area_line(area: Area, unit: Unit) -> str:
    """What is finished, and what is not."""
    seen, whole, covered = (told_area(each, unit) for each in (area.exposed, area.whole, area.covered))
    return (
        f"Wood to be finished: {seen}, which is all faces of all parts, {whole}, less {covered} of faces that touch "
        "other parts; undersides and end grain are in it, holes and pockets are not."
    )


def told_area(area: int, unit: Unit) -> str:
    """An area to be read."""
    if unit.imperial:
        return f"{float(square_feet(area)):.1f} sq ft"
    return f"{float(square_metres(area)):.2f} m²"
