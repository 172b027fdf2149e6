"""Numbers of a project file as text: read from a command line, and written back exactly."""

from __future__ import annotations

import re
from fractions import Fraction

from pydantic_core import PydanticCustomError

from fitter.domain.amounts import Amount, Quantity
from fitter.project.fields import read_length
from fitter.project.words import shown
from rooms.lengths import Length, Unit


class VaryError(Exception):
    """What is asked to be varied cannot be.

    Args:
        message: what was found.
        code: kebab-case, stable.
        help: what would be right.
    """

    def __init__(self, message: str, code: str, help: str) -> None:
        super().__init__(message)
        self.code, self.help = code, help


_NUMBER = re.compile(r"(?P<minus>-?)(?P<number>[0-9]{1,9}(?:\.[0-9]{0,6})?|\.[0-9]{1,6})")
_ENDINGS = {
    Quantity.SHARE: r"\s*%?",
    Quantity.FALL: r"\s*%?",
    Quantity.ANGLE: r"\s*(°|degrees?|deg)?",
}
_WANTED = {
    Quantity.COUNT: "a whole number",
    Quantity.MONEY: "an amount such as `24.50`",
    Quantity.SHARE: "a share such as `10 %` or `0.1`",
    Quantity.ANGLE: "an angle in degrees",
    Quantity.FALL: "a fall such as `2 %`",
}


def read_number(text: str, quantity: Quantity, unit: Unit) -> Fraction:
    """A number of a kind, as `Amount` counts it; whether the file may hold it is not looked at.

    Raises:
        VaryError: it is no such number.
    """
    if quantity is Quantity.LENGTH:
        try:
            return Fraction(read_length(text.strip(), unit, negative=True).units)
        except PydanticCustomError as error:
            said = error.context or {}
            raise VaryError(str(said.get("message", "")), "not-a-length", str(said.get("help", ""))) from None
    found = re.fullmatch(_NUMBER.pattern + _ENDINGS.get(quantity, ""), text.strip(), re.IGNORECASE)
    value = Fraction(found["number"].rstrip(".")) if found is not None else None
    if found is None or value is None or (quantity is Quantity.COUNT and value.denominator != 1):
        wanted = _WANTED[quantity]
        message = f"`{shown(text.strip())}` is not {wanted}"
        raise VaryError(message, "not-a-value", f"write {wanted}")
    if text.strip().endswith("%"):
        value /= 100
    return -value if found["minus"] else value


def written_amount(amount: Amount) -> str:
    """How the file would write a value, exactly.

    >>> written_amount(Amount(Quantity.LENGTH, Fraction(Length.inches("61/2").units)))
    '30 1/2 in'
    """
    number = amount.number
    if amount.quantity is Quantity.LENGTH:
        return _written_length(amount.length)
    if amount.quantity in (Quantity.SHARE, Quantity.FALL):
        return f"{_decimal(number * 100)} %"
    return _decimal(number)


def _written_length(length: Length) -> str:
    sign = "-" if length.units < 0 else ""
    inches = abs(length).inch
    if inches.denominator in (1, 2, 4, 8, 16, 32, 64):
        whole, part = divmod(inches, 1)
        return f"{sign}{' '.join(str(size) for size in (whole, part) if size) or 0} in"
    return f"{sign}{_decimal(abs(length).mm)} mm"


def _decimal(number: Fraction) -> str:
    """All its decimals; ranges are asked for in decimals, so there are few."""
    places = 0
    while (number * 10**places).denominator != 1:
        places += 1
        if places > 12:
            message = f"{number} has no end as a decimal"
            raise ValueError(message)
    digits = str(abs(int(number * 10**places))).rjust(places + 1, "0")
    text = f"{digits[:-places]}.{digits[-places:]}" if places else digits
    return f"-{text}" if number < 0 else text
