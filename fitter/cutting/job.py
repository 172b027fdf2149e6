"""One section's cutting as a problem of whole numbers.

With kerf k, n parts on a board need n - 1 saw cuts, hence the parts a fit iff the sum of their widths (length + k)
is at most the board's room (usable length + k). Mitred parts: see `nesting`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import gcd

from fitter.cutting.nesting import SQUARE_FACE, Edges, Nesting, edges_of
from fitter.domain.cuts import CutOptions, Piece, Stock, kerf_along
from fitter.domain.woodwork import Slant

MOST_STEPS = 40_000
"""Steps of the longest board. A finer grid makes rows too long; then parts are rounded up, boards down."""


@dataclass(frozen=True)
class Kind:
    """Parts that take the same place on a board.

    Args:
        width: in steps of the grid, with what its saw cuts take.
        count: how many are needed.
        edges: the ways that it may lie, see `nesting`.
        pieces: the parts themselves.
    """

    width: int
    count: int
    edges: Edges
    pieces: tuple[Piece, ...]


@dataclass(frozen=True)
class Sort:
    """Boards of one length and price.

    Args:
        room: usable length and one kerf, in steps.
        cost: whole, in cents or in units of length; 0 for what is on hand.
        most: how many there are; None for no limit.
        length: as sold, in units.
        stock: the boards themselves.
    """

    room: int
    cost: int
    most: int | None
    length: int
    stock: Stock

    @property
    def on_hand(self) -> bool:
        """Whether it need not be bought."""
        return self.most is not None


@dataclass(frozen=True)
class Job:
    """What is to be cut from boards of one section.

    Args:
        kinds: wide ones first.
        sorts: long boards first, equal ones cheap first.
        nesting: what mitred ends cost beside the widths.
        grid: one step, in units of length.
        rounded: whether widths were rounded up to it.
    """

    kinds: tuple[Kind, ...]
    sorts: tuple[Sort, ...]
    nesting: Nesting
    grid: int
    rounded: bool

    @property
    def blanks(self) -> tuple[Piece, ...]:
        """Mitred parts that are cut from square blanks."""
        blank = [kind for kind in self.kinds if kind.edges == ((SQUARE_FACE, SQUARE_FACE),)]
        return tuple(piece for kind in blank for piece in kind.pieces if any(piece.leans))

    @cached_property
    def demand(self) -> tuple[int, ...]:
        """How many of each kind are needed."""
        return tuple(kind.count for kind in self.kinds)


def job_of(pieces: tuple[Piece, ...], stocks: tuple[Stock, ...], options: CutOptions, *, priced: bool) -> Job:
    """The cutting of one section in whole numbers.

    Args:
        pieces: all of that section.
        stocks: likewise.
        options: how boards are cut.
        priced: whether cost counts; else the length bought.

    Returns:
        Boards that no cheapest plan needs are left out: those too short for any part, and those that are sold for
        more than a longer one.
    """
    recess = slanted(pieces)
    edges = {piece: edges_of(piece, recess[1] if recess else None, _handed(pieces, recess)) for piece in pieces}
    widths = {piece: _width(piece, edges[piece], recess[0] if recess else 0, options) for piece in pieces}
    rooms = {stock: options.usable(stock.length).units + options.kerf.units for stock in stocks}
    # What mitres take beside the widths is rounded up to a step, so that has to be fine.
    sizes = [*widths.values(), *([_fine(options)] if recess else [])]
    grid, rounded = _grid(sizes, max(rooms.values(), default=1))
    side = recess[0] if recess else 0
    nesting = Nesting.of(tuple(edges.values()), side, kerf_along(options.kerf) - options.kerf.units, grid)
    groups: dict[tuple[int, Edges], list[Piece]] = {}
    for piece in pieces:
        groups.setdefault((-(-widths[piece] // grid), edges[piece]), []).append(piece)
    kinds = tuple(
        Kind(width, sum(piece.count for piece in group), lies, tuple(group))
        for (width, lies), group in sorted(groups.items(), key=lambda entry: (-entry[0][0], entry[0][1]))
    )
    least = min((kind.width for kind in kinds), default=0)
    sorts = [
        sort
        for stock in stocks
        if options.longest_carried is None or stock.length <= options.longest_carried
        for sort in _sorts(stock, rooms[stock] // grid, priced=priced)
        if sort.room >= least
    ]
    return Job(kinds, _wanted(sorts), nesting, grid, rounded)


def _sorts(stock: Stock, room: int, *, priced: bool) -> Iterator[Sort]:
    if stock.have:
        yield Sort(room, 0, stock.have, stock.length.units, stock)
    if stock.sold:
        cost = (stock.price or 0) if priced else stock.length.units
        yield Sort(room, cost, None, stock.length.units, stock)


def slanted(pieces: Sequence[Piece]) -> tuple[int, Slant] | None:
    """The mitre that is nested: what most parts have, by how far it recedes and over which side."""
    found: dict[tuple[int, Slant], int] = {}
    for piece in pieces:
        kinds = {(end.recess.units, end.over) for end in piece.ends if not end.square}
        if len(kinds) == 1:
            kind = kinds.pop()
            found[kind] = found.get(kind, 0) + piece.count
    return max(sorted(found), key=lambda kind: found[kind], default=None)


def _handed(pieces: tuple[Piece, ...], recess: tuple[int, Slant] | None) -> bool:
    """Whether left and right have to be told apart, because some mitred part may not be flipped."""
    return recess is not None and any(piece.face_up and any(piece.leans) for piece in pieces)


def _width(piece: Piece, edges: Edges, recess: int, options: CutOptions) -> int:
    """Length of the centre line with half of each end's saw cut, in units, rounded up to a quarter mark if mitred."""
    mitres = sum(node != 0 for node in edges[0])
    if not mitres:
        # An end that is not nested is cut from a square blank: its own saw cut lies within the blank's waste.
        return piece.length.units + options.kerf.units
    fine = _fine(options)
    twice = 2 * piece.length.units - mitres * recess
    twice += mitres * kerf_along(options.kerf) + (2 - mitres) * options.kerf.units
    return -(-twice // (2 * fine)) * fine


def _fine(options: CutOptions) -> int:
    """What mitred parts are laid out on, a quarter of the shop mark, in units."""
    return max(1, options.mark.units // 4)


def _grid(sizes: list[int], longest: int) -> tuple[int, bool]:
    """A step, not too fine, that all sizes are whole in, so that whole steps tell what fits a board too."""
    grid = gcd(*sizes)
    if longest <= grid * MOST_STEPS:
        return grid, False
    return -(-longest // MOST_STEPS), True


def _wanted(sorts: list[Sort]) -> tuple[Sort, ...]:
    """Boards in order, without those that are sold for more than a longer one (or for as much as an equal one)."""
    ordered = sorted(sorts, key=lambda sort: (-sort.room, sort.cost, sort.length, sort.on_hand))
    kept: list[Sort] = []
    for sort in ordered:
        sold = [other for other in kept if not other.on_hand]
        cheaper = any(other.cost < sort.cost or (other.cost, other.room) == (sort.cost, sort.room) for other in sold)
        if sort.on_hand or not cheaper:
            kept.append(sort)
    return tuple(kept)
