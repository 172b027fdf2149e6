"""What the boards of a layout cost, as the layout model asks for it: exact plans, remembered, and bounds without one.

Counted is the wood that the choices of the model decide: seat rails, cleats (as long as their rails), posts, seat
slats, backs and tables. Arms, legs and feet are not: they are a wish, and a frame without arms is no saving.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from math import floor

import numpy as np

from fitter.cutting import board_prices, plan_boards
from fitter.domain.board_prices import BoardPrices
from fitter.domain.costing import Bill, Costing, Counts
from fitter.domain.cuts import Aim, CutOptions, Piece, Stock
from fitter.domain.frame import RailJoint
from fitter.domain.layout import Answer, Face, Layout, PostRole, Side
from fitter.domain.outcome import Boards, MovedPosts
from fitter.domain.project import Project
from fitter.domain.woodwork import PartRole
from fitter.frame import seat_and_backs
from rooms.lengths import Length, round_half_up

SCOPE = "seat rails, cleats, posts, seat slats, backs and tables"

_VARYING = (PartRole.SUPPORT_POST, PartRole.BACK_POST, PartRole.CLEAT, PartRole.SHORT_CLEAT)
"""Parts that change with the places of posts; short cleats come out of offcuts and are not counted."""

_LONGEST_PLAN = 5.0
"""Seconds for one plan; its bound is used where it takes longer, so that the cost is never above the true one."""


def priced(project: Project) -> bool:
    """Whether any board or cushion has a price."""
    boards = any(board.price is not None for board in project.shop.boards)
    return boards or any(kind.price is not None for kind in project.cushions)


def costing(project: Project) -> Costing | None:
    """Prices for the layout model; None where nothing has one."""
    return BoardCosts(project) if priced(project) else None


@dataclass
class BoardCosts:
    """Plans of boards by section, remembered.

    Args:
        project: whose boards have prices.
        loose: plans that were not proven in their time.
    """

    project: Project
    loose: int = 0
    _plans: dict[tuple[str, tuple[int, ...]], tuple[int, int]] = field(default_factory=dict)
    _prices: dict[tuple[str, tuple[int, ...]], BoardPrices] = field(default_factory=dict)

    def of(self, layout: Layout) -> Bill:
        """The bill of a layout, whose posts may stand elsewhere."""
        return LayoutBill(self, layout)

    @cached_property
    def stocks(self) -> Mapping[str, tuple[Stock, ...]]:
        """Boards by section, where every board that is sold has a price; the others are not counted."""
        found: dict[str, list[Stock]] = defaultdict(list)
        for board in self.project.shop.boards:
            cents = None if board.price is None else round_half_up(board.price * 100)
            found[board.section].append(Stock(board.section, board.length, cents, board.have))
        return {
            section: tuple(stocks)
            for section, stocks in found.items()
            if any(stock.price is not None for stock in stocks)
            and all(stock.price is not None or not stock.sold for stock in stocks)
        }

    @property
    def options(self) -> CutOptions:
        """How boards are cut; only their cost counts here. A board that is too long to be carried is cut first."""
        shop = self.project.shop
        return CutOptions(shop.kerf, shop.trim, self.project.mark, aims=(Aim.COST,))

    def least(self, section: str, lengths: tuple[int, ...]) -> int:
        """The least that boards of a section cost which yield parts of these lengths, in cents.

        Args:
            section: with prices; without any, nothing is counted.
            lengths: in units, rising.
        """
        return self.planned(section, lengths)[0]

    def planned(self, section: str, lengths: tuple[int, ...]) -> tuple[int, int]:
        """The same, and the length in units that is wasted; see `least`."""
        stocks = self.stocks.get(section)
        if stocks is None or not lengths:
            return 0, 0
        key = section, lengths
        if key not in self._plans:
            plan = plan_boards(self._pieces(section, lengths), stocks, self.options, _LONGEST_PLAN)
            self.loose += not plan.proven
            self._plans[key] = plan.bound or 0, plan.waste.units
        return self._plans[key]

    def prices(self, section: str, lengths: tuple[int, ...]) -> BoardPrices | None:
        """What lengths are worth, as the best mixture of boards for these parts prices them; None without prices."""
        stocks = self.stocks.get(section)
        if stocks is None or not lengths:
            return None
        key = section, tuple(dict.fromkeys(lengths))
        if key not in self._prices:
            self._prices[key] = board_prices(self._pieces(section, lengths), stocks, self.options)[0]
        return self._prices[key]

    def _pieces(self, section: str, lengths: tuple[int, ...]) -> list[Piece]:
        """Parts of some lengths; one that no board yields counts as a whole board, since no longer one costs less."""
        longest = max(self.options.usable(stock.length).units for stock in self.stocks[section])
        counts = Counter(min(units, longest) for units in lengths)
        return [Piece("part", section, Length(units), count) for units, count in counts.items()]

    def floor(self, section: str, wanted: Counts) -> Counts:
        """No boards of a section cost less that hold so many units of parts, a kerf after each."""
        if section not in self.stocks:
            return np.zeros(len(wanted), dtype=np.int64)
        table = self._tables[section]
        steps = -(-wanted // self.project.mark.units)
        top = len(table) - 1
        # Beyond the table a whole table's worth of wood is bought again and again.
        return np.where(steps <= top, table[np.minimum(steps, top)], steps // top * table[top])

    @cached_property
    def _tables(self) -> Mapping[str, Counts]:
        """By section: the least cost of boards that hold so many marks, a kerf after each part counted as wood."""
        return {section: self._table(section) for section in self.stocks}

    def _table(self, section: str) -> Counts:
        mark, options = self.project.mark.units, self.options
        sold = [
            (-(-(options.usable(stock.length).units + options.kerf.units) // mark), stock.price)
            for stock in self.stocks[section]
            if stock.price is not None
        ]
        free = sum(
            -(-(options.usable(stock.length).units + options.kerf.units) // mark) * (stock.have or 0)
            for stock in self.stocks[section]
        )
        size = 12 * max((room for room, _ in sold), default=1)
        table = np.zeros(size + free + 1, dtype=np.int64)
        for wanted in range(free + 1, size + free + 1):
            table[wanted] = min(table[max(0, wanted - room)] + price for room, price in sold)
        return table


class LayoutBill:
    """The boards of one layout.

    Args:
        costs: plans and prices.
        layout: with some posts; what they stand under is settled by its runs and corners.
    """

    def __init__(self, costs: BoardCosts, layout: Layout) -> None:
        self.costs = costs
        project = costs.project
        self.mark, frame = project.mark.units, project.frame
        self.rail, self.cleat, self.post = frame.rail.name, frame.carpentry.cleat.name, frame.post.name
        deep = frame.carpentry.housing.ceil_to(project.mark).units
        self.longer = 2 * deep if frame.carpentry.rail_joint is RailJoint.HOUSING else 0
        settled: dict[str, list[int]] = defaultdict(list)
        self.tall = 0
        for part in seat_and_backs(project, layout):
            if part.role is PartRole.INNER_POST or part.role in _VARYING[:2]:
                self.tall = part.length.units
            if part.role not in _VARYING:
                settled[part.section.name].append(part.length.units)
        self.settled = {section: tuple(sorted(lengths)) for section, lengths in settled.items()}
        self.varying = tuple(dict.fromkeys((self.rail, self.cleat, self.post)))
        rails = tuple(sorted(rail.length // project.mark for rail in layout.rails))
        own = self._lists(rails, sum(post.role is PostRole.SUPPORT for post in layout.posts))
        self.prices = {section: costs.prices(section, lengths) for section, lengths in own.items()}
        self.known = {section: self._worth(section, self.settled.get(section, ())) for section in self.varying}
        self.rest = sum(costs.least(s, lengths) for s, lengths in self.settled.items() if s not in self.varying)

    def cost(self, rails: tuple[int, ...], posts: int) -> int:
        """The least that boards cost which yield rails of these lengths and so many support posts."""
        varying = self._lists(rails, posts).items()
        return self.rest + sum(self.costs.least(section, lengths) for section, lengths in varying)

    def waste(self, rails: tuple[int, ...], posts: int) -> Length:
        """How much of those boards is wasted."""
        lists = {**self.settled, **self._lists(rails, posts)}
        return Length(sum(self.costs.planned(section, lengths)[1] for section, lengths in lists.items()))

    def _lists(self, rails: tuple[int, ...], posts: int) -> dict[str, tuple[int, ...]]:
        """The parts of each section that changes with the places of posts."""
        marks = [length * self.mark for length in rails]
        lists = {section: list(self.settled.get(section, ())) for section in self.varying}
        lists[self.rail] += [length + self.longer for length in marks]
        lists[self.cleat] += marks
        lists[self.post] += [self.tall] * posts
        return {section: tuple(sorted(lengths)) for section, lengths in lists.items()}

    def worths(self, rails: tuple[int, ...], posts: int) -> tuple[int, ...]:
        """What some rails and posts are worth in each section that varies, in thousandths of a cent."""
        found = dict.fromkeys(self.varying, 0)
        marks = tuple(length * self.mark for length in rails)
        found[self.rail] += self._worth(self.rail, tuple(length + self.longer for length in marks))
        found[self.cleat] += self._worth(self.cleat, marks)
        found[self.post] += posts * self._worth(self.post, (self.tall,))
        return tuple(found.values())

    def _worth(self, section: str, lengths: tuple[int, ...]) -> int:
        prices = self.prices[section]
        if prices is None:
            return 0
        return sum(floor(1000 * prices.price_of(Length(units))) for units in lengths)

    def floor(self, length: Counts, rails: Counts, posts: Counts, worths: Sequence[Counts]) -> Counts:
        """No boards cost less: those that hold so much length, and those that hold so much worth."""
        kerf = self.costs.options.kerf.units
        wanted: dict[str, Counts] = {}
        for section in self.varying:
            fixed = self.settled.get(section, ())
            wanted[section] = np.full(len(length), sum(fixed) + kerf * len(fixed), dtype=np.int64)
        wanted[self.rail] += length * self.mark + rails * (kerf + self.longer)
        wanted[self.cleat] += length * self.mark + rails * kerf
        wanted[self.post] += posts * (self.tall + kerf)
        total: Counts = np.full(len(length), self.rest, dtype=np.int64)
        for section, worth in zip(self.varying, worths, strict=True):
            least = self.costs.floor(section, wanted[section])
            prices = self.prices[section]
            if prices is not None:
                held = worth + self.known[section] + floor(1000 * prices.constant)
                least = np.maximum(least, -(-held // 1000))
            total = total + least
        return total


def boards_of(project: Project, answer: Answer) -> Boards | None:
    """What the boards of an answer cost, beside what they would with its posts where no price moves them.

    Args:
        project: with prices.
        answer: of the layout model.

    Returns:
        None where no board has a price, or the model did not come to money.
    """
    costs = BoardCosts(project)
    if answer.layout is None or answer.usual is None or not costs.stocks:
        return None
    bill = LayoutBill(costs, answer.usual)
    rails, posts = counted(project, answer.layout)
    usual = bill.cost(*counted(project, answer.usual))
    moved = tuple(_moved(answer.layout, answer.usual))
    return Boards(bill.cost(rails, posts), bill.waste(rails, posts), SCOPE, usual, moved)


def counted(project: Project, layout: Layout) -> tuple[tuple[int, ...], int]:
    """The rails of a layout in marks, and its support posts."""
    rails = tuple(sorted(rail.length // project.mark for rail in layout.rails))
    return rails, sum(post.role is PostRole.SUPPORT for post in layout.posts)


def _moved(layout: Layout, usual: Layout) -> Iterator[MovedPosts]:
    for run in layout.runs:
        for face in (Face.FRONT, Face.BACK):
            here, there = (_lines(each, run.side, face) for each in (layout, usual))
            if here != there:
                yield MovedPosts(run.side, face, here, there)


def _lines(layout: Layout, run: Side, face: Face) -> tuple[int, ...]:
    """Module lines of a line of rails that carry a post."""
    own = (post for post in layout.posts if (post.role, post.run, post.face) == (PostRole.SUPPORT, run, face))
    return tuple(sorted(post.line for post in own if post.line is not None))
