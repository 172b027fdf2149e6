"""Boards and cushions to buy."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction

from fitter.domain.takeoff import Group, Item, Measure, exactly
from fitter.domain.woodwork import Part
from fitter.takeoff.case import Case
from rooms.lengths import Length, Unit, format_length


def board_name(section: str, length: Length, unit: Unit) -> str:
    """What a price list calls a board.

    >>> board_name("2x4", Length.inches(96), Unit.IN)
    "board 2x4 8'"
    """
    told = format_length(length, unit, denominator=64).removesuffix(' 0"')
    return f"board {section} {told}"


def boards(case: Case) -> Iterator[Item]:
    """Each kind of board to buy; then each section that has no plan."""
    bought = Counter((board.section, board.length, board.price) for board in case.boards if not board.on_hand)
    for (section, length, cents), count in bought.items():
        price = None if cents is None else Fraction(cents, 100)
        name = board_name(section, length, case.project.unit)
        yield case.counted(Group.BOARDS, name, count, price=price)
    planned = {board.section for board in case.boards}
    for section in dict.fromkeys(part.section.name for part in case.woodwork.parts):
        if section not in planned:
            yield _unplanned(case, section, [part for part in case.woodwork.parts if part.section.name == section])


def _unplanned(case: Case, section: str, parts: list[Part]) -> Item:
    """Wood for which no boards were planned: only the length of its parts is known."""
    length = sum(part.length.units for part in parts)
    named = any(board.section == section for board in case.project.shop.boards)
    why = "the boards of it do not yield them" if named else "no board of it is named under `shop.boards`"
    longest = case.cut(max(part.length for part in parts))
    says = f"{len(parts)} parts end to end, the longest {longest}, without saw cuts and waste; {why}"
    return Item(Group.BOARDS, f"boards of {section}", exactly(length), Measure.LENGTH, says=says)


def cushion_name(kind: str) -> str:
    """What a price list calls a kind of cushion."""
    return f"cushion {kind}"


def cushions(case: Case) -> Iterator[Item]:
    """Each kind of cushion that is used and not there yet."""
    kinds = {cushion.name: cushion for cushion in case.project.cushions}
    for row in case.layout.purchases:
        if row.buy:
            kind = kinds[row.cushion]
            told = f"{row.used} used" + ("" if kind.own is None else f", {kind.own} there already")
            told += "; each with its back cushion" if kind.back is not None else ""
            yield case.counted(Group.CUSHIONS, cushion_name(row.cushion), row.buy, price=kind.price, says=told)
