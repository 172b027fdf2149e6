"""Kinds of values in a project file: each reads a text, or says what it should have been.

The unit of bare numbers comes in through pydantic's validation context.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from enum import StrEnum
from fractions import Fraction
from typing import Annotated, Any, NoReturn, TypeVar

from pydantic import Field, PlainValidator, ValidationInfo
from pydantic_core import PydanticCustomError

from fitter.domain.species import OTHER_NAMES, SPECIES
from fitter.project.words import listed, meant, nearest, plain, shown
from rooms.lengths import Length, LengthError, Unit, parse_length

LONGEST_TEXT = 120
LARGEST_COUNT = 10_000
FARTHEST = Length.millimetres(1_000_000)
"""A kilometre: no part of a room is longer, and geometry stays within exact floats."""

_T = TypeVar("_T")


def refuse(code: str, message: str, help: str = "") -> NoReturn:
    """Stop reading a value: what is wrong with it, as data for a finding."""
    context = {"message": message, "help": help}
    raise PydanticCustomError(code, "{message}", context)


def text_of(value: object, wanted: str) -> str:
    """The text of a scalar; a fault for an empty value, a list or a mapping."""
    if isinstance(value, str):
        return value
    if value is None:
        refuse("empty-value", "no value is given", f"write {wanted}, or leave out the key")
    found = "a list" if isinstance(value, list) else "a mapping"
    refuse("wrong-kind", f"{wanted} belongs here, and {found} was found", f"write {wanted}")


def _text(value: object) -> str:
    text = " ".join(text_of(value, "a text").split())
    if not text:
        refuse("empty-value", "the text is empty", "write a text")
    if len(text) > LONGEST_TEXT:
        message = f"the text has {len(text)} characters, and {LONGEST_TEXT} is the most"
        refuse("text-too-long", message, "shorten it")
    if not text.isprintable():
        refuse("text-unprintable", "the text holds a character that cannot be printed", "take it out")
    return text


def read_length(text: str, unit: Unit, *, negative: bool = False) -> Length:
    """A length; a fault if it is none, or longer than a kilometre."""
    try:
        length = parse_length(text, unit, negative=negative)
    except LengthError as error:
        refuse("not-a-length", str(error), error.help)
    if abs(length) > FARTHEST:
        refuse("size-absurd", f"`{shown(text)}` is longer than a kilometre", "is the unit right?")
    return length


def _length(*, negative: bool = False, zero: bool = True) -> Callable[[object, ValidationInfo], Length]:
    def read(value: object, info: ValidationInfo) -> Length:
        text = text_of(value, "a length")
        length = read_length(text, info.context or Unit.IN, negative=negative)
        if not length and not zero:
            message = f"`{shown(text)}` is zero, and this length cannot be"
            refuse("zero-length", message, "write the size it has")
        return length

    return read


def _whole(least: int, most: int = LARGEST_COUNT) -> Callable[[object], int]:
    def read(value: object) -> int:
        text = text_of(value, "a whole number").strip()
        if not re.fullmatch(r"[+-]?[0-9]{1,20}", text):
            message, help = (
                f"`{shown(text)}` is not a whole number",
                f"write a count such as `{max(least, 4)}`",
            )
            refuse("not-a-count", message, help)
        if not least <= int(text) <= most:
            message = f"`{text}` is not between {least} and {most}"
            refuse("count-out-of-range", message, "write a number in that range")
        return int(text)

    return read


def _money(value: object) -> Fraction:
    text = text_of(value, "a price").strip()
    if not re.fullmatch(r"[0-9]{1,12}(\.[0-9]{0,6})?", text):
        message = f"`{shown(text)}` is not a price"
        refuse("not-a-price", message, "write a number of at least 0, such as `24.50`, without a currency sign")
    return Fraction(text)


def _flag(value: object) -> bool:
    text = text_of(value, "`true` or `false`")
    word = plain(text)
    if word in ("true", "yes"):
        return True
    if word in ("false", "no"):
        return False
    refuse("not-a-flag", f"`{shown(text)}` is neither true nor false", "write `true` or `false`")


def one_of(words: Mapping[str, _T], wanted: str = "") -> PlainValidator:
    """One of a few words; hyphens, underscores and capitals make no difference.

    Args:
        words: each with its value.
        wanted: what belongs there, where it need not be a word.
    """
    table = {plain(word): value for word, value in words.items()}

    def read(value: object) -> _T:
        text = text_of(value, wanted or f"one of {listed(words)}")
        if plain(text) in table:
            return table[plain(text)]
        near = nearest(text, words)
        more = f"; did you mean `{near}`?" if near else ""
        refuse("unknown-word", f"`{shown(text)}` means nothing here", f"write {listed(words)}{more}")

    return PlainValidator(read)


def words_of(kind: Iterable[StrEnum], *any_of: str) -> Mapping[str, Any]:
    """The words of an enumeration; each of `any_of` before them stands for None."""
    return {**dict.fromkeys(any_of), **{str(word): word for word in kind}}


def _turn(value: object) -> str | Fraction:
    text = text_of(value, "`left`, `right` or an angle")
    word = plain(text).removesuffix("°").removesuffix("degrees").removesuffix("deg").strip()
    if word in ("left", "right"):
        return word
    if re.fullmatch(r"[0-9]{1,3}(\.[0-9]{1,9})?", word) and 0 < Fraction(word) < 360:
        return Fraction(word)
    message = f"`{shown(text)}` is no turn"
    refuse("not-a-turn", message, "write `left`, `right` or the inside angle in degrees, between 0 and 360")


_NUMBER = r"[0-9]{1,4}(?:\.[0-9]{0,9})?|\.[0-9]{1,9}"


def _share(value: object) -> Fraction:
    """A share of something that may be half of it at most: `0.2`, `1/5`, `20 %`."""
    text = text_of(value, "a share such as `20 %`")
    short = text.replace(" ", "")
    share = None
    if re.fullmatch(rf"(?:{_NUMBER})%?", short):
        share = Fraction(short.rstrip("%")) / (100 if short.endswith("%") else 1)
    elif (parts := re.fullmatch(r"([0-9]{1,3})/([1-9][0-9]{0,2})", short)) is not None:
        share = Fraction(int(parts[1]), int(parts[2]))
    if share is None:
        refuse("not-a-share", f"`{shown(text)}` is no share", "write a share such as `20 %`, `0.2` or `1/5`")
    if share > Fraction(1, 2):
        per_cent = f"; did you mean `{short} %`?" if "%" not in short and share <= 50 else ""
        refuse("share-out-of-range", f"`{shown(text)}` is more than half", f"write a share from 0 to 50 %{per_cent}")
    return share


def _wood(value: object) -> str:
    text = text_of(value, "the name of a wood")
    names = {plain(name): wood for name, wood in {**OTHER_NAMES, **{wood: wood for wood in SPECIES}}.items()}
    if plain(text) in names:
        return names[plain(text)]
    near = nearest(text, names)
    refuse(
        "unknown-word", f"`{shown(text)}` is no wood that is known here", meant(names[near] if near else text, SPECIES)
    )


STEEPEST_LEAN = 15


def _lean(value: object) -> Fraction:
    text = text_of(value, "an angle in degrees")
    word = re.sub(r"\s*(°|degrees?|deg)\.?$", "", text.strip().lower())
    if not re.fullmatch(rf"[+-]?(?:{_NUMBER})", word):
        refuse("not-an-angle", f"`{shown(text)}` is no angle", "write degrees from upright, such as `7.5`")
    if not 0 <= Fraction(word) <= STEEPEST_LEAN:
        message = f"a back cannot lean by `{shown(text)}`"
        refuse("lean-out-of-range", message, f"write 0 (upright) to {STEEPEST_LEAN} degrees from upright")
    return Fraction(word)


STEEPEST_FALL = Fraction(1, 8)
_FALLS = '`1/4" per ft`, `20 mm per m`, `2 %` or `1:48`'


def _fall(value: object, info: ValidationInfo) -> Fraction:
    """How much a floor drops per length, whatever way it is said."""
    text = text_of(value, "a fall such as `2 %`")
    unit = info.context or Unit.IN
    short = text.replace(" ", "")
    fall = None
    if re.fullmatch(rf"(?:{_NUMBER})%", short):
        fall = Fraction(short[:-1]) / 100
    elif (parts := re.fullmatch(rf"({_NUMBER}):({_NUMBER})", short)) is not None and Fraction(parts[2]):
        fall = Fraction(parts[1]) / Fraction(parts[2])
    elif (said := re.fullmatch(r"(.+?)(?:\bper\b|/(?=\s*[a-zA-Z]))(.+)", text.strip())) is not None:
        along = said[2].strip()
        drop, run = read_length(said[1], unit), read_length(along if along[:1].isdigit() else f"1 {along}", unit)
        fall = Fraction(drop.units, run.units) if run else None
    if fall is None:
        refuse("not-a-fall", f"`{shown(text)}` is no fall", f"write {_FALLS}")
    if fall > STEEPEST_FALL:
        message = f"a floor that falls by `{shown(text)}` is steeper than 1:8"
        refuse("fall-out-of-range", message, f"write {_FALLS}; is the unit right?")
    return fall


Text = Annotated[str, PlainValidator(_text)]
Size = Annotated[Length, PlainValidator(_length(zero=False))]
Distance = Annotated[Length, PlainValidator(_length())]
Coordinate = Annotated[Length, PlainValidator(_length(negative=True))]
Count = Annotated[int, PlainValidator(_whole(0))]
Places = Annotated[int, PlainValidator(_whole(1, 3))]
Coats = Annotated[int, PlainValidator(_whole(0, 9))]
SeatCount = Annotated[int, PlainValidator(_whole(1))]
Money = Annotated[Fraction, PlainValidator(_money)]
Flag = Annotated[bool, PlainValidator(_flag)]
Share = Annotated[Fraction, PlainValidator(_share)]
Wood = Annotated[str, PlainValidator(_wood)]
Lean = Annotated[Fraction, PlainValidator(_lean)]
Fall = Annotated[Fraction, PlainValidator(_fall)]
Turn = Annotated[str | Fraction, PlainValidator(_turn)]
Pair = Annotated[tuple[Coordinate, Coordinate], Field(description="two lengths, `[x, y]`")]
