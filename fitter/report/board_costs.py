"""What the boards of a layout cost, and what posts in other places save, in words and as entries."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from fitter.domain.outcome import LayoutResult, MovedPosts
from fitter.domain.wishes import FillKind
from fitter.report.words import Teller, money, run_name
from rooms.lengths import Unit
from rooms.survey.wording import listed


def boards_told(shown: LayoutResult, tell: Teller) -> Iterator[str]:
    """Sentences for the terminal; none where no board has a price.

    Args:
        shown: the layout.
        tell: writes lengths.
    """
    boards = shown.boards
    if boards is None:
        return
    yield ""
    cost = f"cost {_cents(boards.cost)}, with {tell(boards.waste)} of waste"
    yield f"Boards for {boards.scope} {cost}; {_besides(shown)} come on top."
    if boards.cost < boards.usual:
        moves = "; ".join(_move(move) for move in boards.moved)
        yield f"That saves {_cents(boards.usual - boards.cost)} by where posts stand: {moves}."


def _besides(shown: LayoutResult) -> str:
    """What wood is not counted."""
    kinds = [fill.kind for fill in shown.layout.fills]
    things = ["shelves"] * (FillKind.SHELF in kinds) + ["wide arms"] * (FillKind.ARM in kinds)
    return listed(["ends", *things, "feet"])


def _cents(cents: int) -> str:
    return money(Fraction(cents, 100))


def _move(move: MovedPosts) -> str:
    return f"{run_name(move.run)} {move.face} {_lines(move.lines)} instead of {_lines(move.usual)}"


def _lines(lines: tuple[int, ...]) -> str:
    if not lines:
        return "none"
    return f"at module line{'s' if len(lines) > 1 else ''} {', '.join(map(str, lines))}"


def boards_entry(shown: LayoutResult, unit: Unit) -> dict[str, Any] | None:
    """The same for a document: money as in the file, lengths in its unit."""
    boards = shown.boards
    if boards is None:
        return None
    return {
        "cost": boards.cost / 100,
        "waste": float(unit.of(boards.waste)),
        "scope": boards.scope,
        "usual": boards.usual / 100,
        "moved": [
            {"run": str(move.run), "face": str(move.face), "lines": list(move.lines), "usual": list(move.usual)}
            for move in boards.moved
        ],
    }
