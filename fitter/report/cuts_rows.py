"""A board plan as rows: what to buy, and where to saw."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from fitter.domain.cuts import Aim, BoardPlan, PlannedBoard, Reached
from fitter.report.words import Teller, money
from rooms.lengths import Length

LEANS = {0: "|", 1: "/", -1: "\\"}
"""How a saw cut runs across a board whose first end lies to the left."""
_AIM = {
    Aim.COST: "cost",
    Aim.BOARDS: "boards",
    Aim.WASTE: "board length",
    Aim.PATTERNS: "patterns",
    Aim.OFFCUT: "longest offcut",
}
AIM_HEADS = ("aim", "value", "proof")
BUY_HEADS = ("section", "length", "pieces", "each", "cost")
HAND_HEADS = ("section", "length", "pieces")


@dataclass(frozen=True)
class Alike:
    """Boards that are sawn alike, with the same marks.

    Args:
        first: number of the first one, from 1.
        count: how many there are.
        board: one of them.
    """

    first: int
    count: int
    board: PlannedBoard


def cents(amount: int) -> str:
    """An amount that is counted in cents.

    >>> cents(1250)
    '12.50'
    """
    return money(Fraction(amount, 100))


def purchases(plan: BoardPlan) -> list[tuple[str, Length, int | None, int]]:
    """What to buy: section, length, price of one, and how many."""
    bought = Counter((board.section, board.length, board.price) for board in plan.boards if not board.on_hand)
    return [(*key, count) for key, count in bought.items()]


def buy(plan: BoardPlan, tell: Teller) -> Iterator[tuple[str, ...]]:
    """A row for each kind of board to buy, and one for all."""
    rows = purchases(plan)
    for section, length, price, count in rows:
        paid = () if price is None else (cents(price), cents(price * count))
        yield section, tell(length), str(count), *paid
    if len(rows) > 1:
        number = sum(count for *_, count in rows)
        length = sum((length * count for _, length, _, count in rows), Length(0))
        yield "all", tell(length), str(number), *(() if plan.cost is None else ("", cents(plan.cost)))


def on_hand(boards: Sequence[PlannedBoard], tell: Teller) -> Iterator[tuple[str, ...]]:
    """A row for each kind of board that is taken from those on hand."""
    for (section, length), count in Counter((b.section, b.length) for b in boards if b.on_hand).items():
        yield section, tell(length), str(count)


def alike(boards: Sequence[PlannedBoard]) -> list[Alike]:
    """Boards in their order, those that are sawn alike together."""
    groups: list[Alike] = []
    for number, board in enumerate(boards, 1):
        if groups and groups[-1].board == board:
            groups[-1] = Alike(groups[-1].first, groups[-1].count + 1, board)
        else:
            groups.append(Alike(number, 1, board))
    return groups


def aims(plan: BoardPlan, tell: Teller) -> Iterator[tuple[str, str, str]]:
    """A row for each aim: what it came to, and how that stands."""
    for reached in plan.reached:
        name = "length bought" if reached.aim is Aim.COST and plan.cost is None else _AIM[reached.aim]
        yield name, aim_value(plan, reached.aim, reached.value, tell), _proof(plan, reached, tell)


def aim_value(plan: BoardPlan, aim: Aim, value: int, tell: Teller) -> str:
    """The value of an aim in words."""
    if aim is Aim.COST and plan.cost is not None:
        return cents(value)
    return str(value) if aim in (Aim.BOARDS, Aim.PATTERNS) else tell(Length(value))


def _proof(plan: BoardPlan, reached: Reached, tell: Teller) -> str:
    if reached.proven:
        return "proven"
    if reached.bound is None or reached.aim is Aim.PATTERNS:
        return "best found"
    return f"best found, none under {aim_value(plan, reached.aim, reached.bound, tell)}"


def share(part: Length, whole: Sequence[Length]) -> str:
    """A length as a share of others, to a tenth of a per cent.

    >>> share(Length(1), [Length(5), Length(3)])
    '12.5 %'
    """
    thousandths = round(Fraction(1000 * part.units, sum(length.units for length in whole)))
    return f"{thousandths // 10}.{thousandths % 10} %"
