"""Exact lengths: one integer count of a unit that is whole in inches and in millimetres.

One inch is 25.4 mm by definition, so 1/8128 in is also 1/320 mm: every 1/64 in (127 units) and
every millimetre (320 units) is a whole number of units, and sums never drift.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction

UNITS_PER_INCH = 8128
UNITS_PER_MM = 320


class LengthError(ValueError):
    """A text that is not a length; the message says what was found, `help` what would be right."""

    def __init__(self, message: str, help: str) -> None:
        super().__init__(message)
        self.help = help


@dataclass(frozen=True, order=True, slots=True)
class Length:
    """An exact length, `units` counts of 1/8128 in (= 1/320 mm); may be negative."""

    units: int

    @classmethod
    def inches(cls, value: int | str | Fraction) -> Length:
        """The length of `value` inches, to the nearest unit (exact for 1/64 in and for 0.1 mm multiples)."""
        return cls(round_half_up(Fraction(value) * UNITS_PER_INCH))

    @classmethod
    def millimetres(cls, value: int | str | Fraction) -> Length:
        """The length of `value` millimetres, to the nearest unit."""
        return cls(round_half_up(Fraction(value) * UNITS_PER_MM))

    @property
    def inch(self) -> Fraction:
        """This length in inches, exactly."""
        return Fraction(self.units, UNITS_PER_INCH)

    @property
    def mm(self) -> Fraction:
        """This length in millimetres, exactly."""
        return Fraction(self.units, UNITS_PER_MM)

    def __add__(self, other: Length) -> Length:
        return Length(self.units + other.units)

    def __sub__(self, other: Length) -> Length:
        return Length(self.units - other.units)

    def __neg__(self) -> Length:
        return Length(-self.units)

    def __abs__(self) -> Length:
        return Length(abs(self.units))

    def __mul__(self, times: int) -> Length:
        return Length(self.units * times)

    __rmul__ = __mul__

    def __floordiv__(self, other: Length) -> int:
        """How many whole times `other` goes into this length."""
        return self.units // other.units

    def __bool__(self) -> bool:
        return self.units != 0

    def floor_to(self, mark: Length) -> Length:
        """The greatest multiple of `mark` not above this length."""
        return Length(self.units // mark.units * mark.units)

    def ceil_to(self, mark: Length) -> Length:
        """The smallest multiple of `mark` not below this length."""
        return Length(-(-self.units // mark.units) * mark.units)

    def round_to(self, mark: Length) -> Length:
        """The nearest multiple of `mark`, halves upward."""
        return Length(round_half_up(Fraction(self.units, mark.units)) * mark.units)


ZERO = Length(0)


def round_half_up(value: Fraction) -> int:
    """The nearest integer, halves toward plus infinity (the same on both sides of zero).

    >>> [round_half_up(Fraction(n, 2)) for n in (-3, -1, 1, 3)]
    [-1, 0, 1, 2]
    """
    return (value + Fraction(1, 2)).__floor__()


class Unit(StrEnum):
    """What a bare number means; also the system that lengths are printed in."""

    IN = "in"
    FT = "ft"
    MM = "mm"
    CM = "cm"
    M = "m"

    @property
    def one(self) -> Length:
        """The length of one such unit."""
        return _ONE[self]

    @property
    def imperial(self) -> bool:
        """Whether lengths print as feet and inches rather than millimetres."""
        return self in (Unit.IN, Unit.FT)

    @property
    def mark(self) -> Length:
        """The shop mark: the finest length that is cut or set out (1/16 in or 1 mm)."""
        return Length(UNITS_PER_INCH // 16) if self.imperial else Length(UNITS_PER_MM)

    def of(self, length: Length) -> Fraction:
        """How many of this unit `length` is, exactly."""
        return Fraction(length.units, self.one.units)


_ONE = {
    Unit.IN: Length(UNITS_PER_INCH),
    Unit.FT: Length(12 * UNITS_PER_INCH),
    Unit.MM: Length(UNITS_PER_MM),
    Unit.CM: Length(10 * UNITS_PER_MM),
    Unit.M: Length(1000 * UNITS_PER_MM),
}

_FRACTIONS = {c: f" {n}/{d}" for c, n, d in (
    ("¼", 1, 4), ("½", 1, 2), ("¾", 3, 4), ("⅛", 1, 8), ("⅜", 3, 8), ("⅝", 5, 8), ("⅞", 7, 8),
    ("⅓", 1, 3), ("⅔", 2, 3), ("⅕", 1, 5), ("⅖", 2, 5), ("⅗", 3, 5), ("⅘", 4, 5), ("⅙", 1, 6), ("⅚", 5, 6),
)}  # fmt: skip
_SIGNS = (
    # Two single signs make an inch sign, so doubles go first.
    ("''", '"'), ("’’", '"'), ("′′", '"'), ("″", '"'), ("”", '"'), ("“", '"'), ("＂", '"'), ("ˮ", '"'),
    ("′", "'"), ("’", "'"), ("‘", "'"), ("´", "'"), ("`", "'"), ("ʹ", "'"),
    ("⁄", "/"), ("∕", "/"), ("−", "-"), ("–", "-"), ("—", "-"), ("‑", "-"),
    ("\u00a0", " "), ("\u2009", " "), ("\u202f", " "),
)  # fmt: skip
_NUMBER = r"(?:\d+[ -]+\d+ ?/ ?\d+|\d+ ?/ ?\d+|\d+\.\d*|\.\d+|\d+)"
_UNIT = r"mm|cm|millimet(?:er|re)s?|centimet(?:er|re)s?|met(?:er|re)s?|m|\"|inch(?:es)?|in\.?|'|ft\.?|foot|feet"
_FEET_AND_INCHES = re.compile(
    rf"(?P<feet>\d+) ?(?:'|ft\.?|foot|feet)[ -]*(?P<inches>{_NUMBER}) ?(?:\"|inch(?:es)?|in\.?)?"
)
_ONE_NUMBER = re.compile(rf"(?P<number>{_NUMBER}) ?(?P<unit>{_UNIT})?")
_LONGEST_TEXT = 60
_LONGEST = Length(100_000_000 * UNITS_PER_MM)
_EXAMPLES = "write for example `12' 6 1/2\"`, `150 1/2`, `3.81 m` or `3810 mm`"


def parse_length(text: str, unit: Unit, *, negative: bool = False) -> Length:
    r"""Read what people write for a length.

    Args:
        text: for example ``12' 6 1/2"``, ``12ft 6-1/2in``, ``38½"``, ``150 1/2``, ``3.81 m``.
        unit: what a number without a unit means.
        negative: whether a leading minus sign is allowed.

    Returns:
        The length, exact; a decimal that falls between two units goes to the nearest (1/16256 in at most).

    Raises:
        LengthError: the text is no length, has something after it, divides by zero, is negative where
            that cannot be, or is too long to be meant (over 60 characters, or over 100 km).

    >>> parse_length('12\' 6 1/2"', Unit.MM) == Length.inches("301/2")
    True
    """
    if len(text) > _LONGEST_TEXT:
        message = f"`{text[:20].strip()}...` runs on for {len(text)} characters"
        raise LengthError(message, _EXAMPLES)
    plain = _plain(text)
    minus = plain.startswith("-")
    body = plain[1:].strip() if plain[:1] in ("+", "-") else plain
    if not body:
        message = "no length is given"
        raise LengthError(message, _EXAMPLES)
    length = _read(body, unit, text)
    if length > _LONGEST:
        message = f"`{text.strip()}` is more than 100 km"
        raise LengthError(message, "check the number and its unit")
    if minus and length and not negative:
        message = f"`{text.strip()}` is negative, and this length cannot be"
        raise LengthError(message, "leave out the minus sign")
    return -length if minus else length


def _plain(text: str) -> str:
    for sign, plain in (*_SIGNS, *_FRACTIONS.items()):
        text = text.replace(sign, plain)
    return re.sub(r"\s+", " ", text).strip().lower()


def _read(body: str, unit: Unit, text: str) -> Length:
    if both := _FEET_AND_INCHES.fullmatch(body):
        feet, inches = _number(both["feet"], text), _number(both["inches"], text)
        if inches >= 12:
            message = f"`{text.strip()}` has {both['inches']} inches after the feet"
            raise LengthError(message, "inches after feet stay under 12; put the rest into the feet")
        return Length.inches(12 * feet + inches)
    if one := _ONE_NUMBER.fullmatch(body):
        number = _number(one["number"], text)
        written = _unit(one["unit"]) if one["unit"] else unit
        return Length(round_half_up(number * written.one.units))
    start = _FEET_AND_INCHES.match(body) or _ONE_NUMBER.match(body)
    if start is None:
        message = f"`{text.strip()}` is not a length"
        raise LengthError(message, _EXAMPLES)
    rest = body[start.end() :].strip()
    if rest.startswith(","):
        message = f"`{text.strip()}` has a comma in the number"
        raise LengthError(message, "write decimals with a point, thousands without a mark")
    message = f"`{text.strip()}` has `{rest}` after the length"
    raise LengthError(message, _EXAMPLES)


def _number(text: str, whole: str) -> Fraction:
    """A mixed number, fraction or decimal, exactly."""
    whole_part, _, fraction = text.replace(" / ", "/").replace(" /", "/").replace("/ ", "/").rpartition(" ")
    if not whole_part and "-" in fraction:
        whole_part, _, fraction = fraction.partition("-")
    if "/" not in fraction:
        return Fraction(Decimal(fraction))
    top, bottom = (int(part) for part in fraction.strip("- ").split("/"))
    if bottom == 0:
        message = f"`{whole.strip()}` divides by zero"
        raise LengthError(message, 'a fraction needs a number below the line, such as `1/4"`')
    if whole_part and top >= bottom:
        message = f"`{whole.strip()}` has a fraction of one or more"
        raise LengthError(message, "the fraction after a whole number stays under one, such as `3 1/2`")
    return int(whole_part.strip("- ") or 0) + Fraction(top, bottom)


def _unit(written: str) -> Unit:
    if written in ('"',) or written.startswith("in"):
        return Unit.IN
    if written in ("'",) or written.startswith("f"):
        return Unit.FT
    if written == "mm" or written.startswith("milli"):
        return Unit.MM
    return Unit.CM if written == "cm" or written.startswith("centi") else Unit.M


def format_length(length: Length, unit: Unit, *, denominator: int = 16, feet: bool = True) -> str:
    r"""Print a length as a tape shows it.

    Args:
        length: what to print; rounded to the nearest mark that is printed.
        unit: `in` and `ft` print feet and inches, the others whole millimetres with `mm`.
        denominator: the finest fraction of an inch: 16, 32 or 64.
        feet: False prints inches only, as rails and boards are called out.

    Returns:
        For example ``12' 6 1/2"``, ``150 1/2"``, ``3810 mm``.

    >>> format_length(Length.inches("12"), Unit.IN), format_length(Length.inches("119999/10000"), Unit.IN)
    ('1\' 0"', '1\' 0"')
    """
    sign = "-" if length < ZERO else ""
    size = abs(length)
    if not unit.imperial:
        millimetres = size.round_to(Unit.MM.one) // Unit.MM.one
        return f"{sign if millimetres else ''}{millimetres} mm"
    sixteenths = round_half_up(size.inch * denominator)
    if sixteenths == 0:
        return '0"'
    inches, part = divmod(sixteenths, denominator)
    whole_feet, inches = divmod(inches, 12) if feet else (0, inches)
    fraction = str(Fraction(part, denominator)) if part else ""
    small = " ".join(word for word in (str(inches) if inches or not part or whole_feet else "", fraction) if word)
    return f"{sign}{whole_feet}' {small}\"" if whole_feet else f'{sign}{small}"'
