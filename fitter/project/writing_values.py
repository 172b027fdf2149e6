"""One value of a file at a time: whether the reader will take it, and how to say why not."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from pydantic import TypeAdapter, ValidationError

from fitter.project.fields import Coordinate, Count, Distance, Money, SeatCount, Size, Text, Turn
from rooms.lengths import Unit

_KINDS: dict[str, TypeAdapter[Any]] = {
    "text": TypeAdapter(Text),
    "size": TypeAdapter(Size),
    "distance": TypeAdapter(Distance),
    "coordinate": TypeAdapter(Coordinate),
    "turn": TypeAdapter(Turn),
    "count": TypeAdapter(Count),
    "seats": TypeAdapter(SeatCount),
    "price": TypeAdapter(Money),
}


class BadValueError(ValueError):
    """A text that the reader of project files would not take; `help` says what would be right."""

    def __init__(self, message: str, help: str) -> None:
        super().__init__(message)
        self.help = help


def value_reader(kind: str, unit: Unit = Unit.IN) -> Callable[[str], str]:
    """A function that takes a text as the reader of project files takes it.

    Args:
        kind: `text`, `size` (a length above zero), `distance` (or zero), `coordinate` (or negative), `turn`, `count`,
            `seats` or `price`.
        unit: of bare numbers.

    Returns:
        A function that gives back its text without needless blanks, or raises BadValueError.

    >>> value_reader("size")("  16'   4 1/2 in ")
    "16' 4 1/2 in"
    """
    adapter = _KINDS[kind]

    def read(text: str) -> str:
        try:
            adapter.validate_python(text, context=unit)
        except ValidationError as error:
            context = error.errors(include_url=False)[0].get("ctx", {})
            raise BadValueError(context.get("message", "this cannot be read"), context.get("help", "")) from None
        return " ".join(text.split())

    return read
