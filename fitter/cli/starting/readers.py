"""How answers are read: words by their beginnings, several lengths with an x between them, and none."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence

from fitter.project.words import listed, nearest, plain
from fitter.project.writing_values import BadValueError, value_reader
from rooms.lengths import Unit

Read = Callable[[str], str]

NONE = ("none", "no", "-")
_BETWEEN = re.compile(r"\s*[x×X,]\s*")


def optional(read: Read) -> Read:
    """Takes `none` for an empty answer."""

    def read_or_none(text: str) -> str:
        return "" if not text or plain(text) in NONE else read(text)

    return read_or_none


def either(words: Mapping[str, str], read: Read) -> Read:
    """Takes some words for what they stand for, and reads everything else."""

    def read_either(text: str) -> str:
        return words[plain(text)] if plain(text) in words else read(text)

    return read_either


def word(*known: str, also: Mapping[str, str] | None = None) -> Read:
    """Takes one of a few words, or a beginning that only one of them has.

    Args:
        known: the words as they are kept.
        also: other words for them.
    """
    meant = {**(also or {}), **{plain(name): name for name in known}}

    def read(text: str) -> str:
        if plain(text) in meant:
            return meant[plain(text)]
        begun = [name for name in known if plain(name).startswith(plain(text))]
        if len(begun) == 1 and plain(text):
            return begun[0]
        near = nearest(text, known)
        message, help = f"`{text}` means nothing here", f"write {listed(known)}"
        raise BadValueError(message, help + (f"; did you mean `{near}`?" if near else ""))

    return read


def name_of(taken: Iterable[str]) -> Read:
    """Takes a name that no other thing of its kind has."""
    read_text, others = value_reader("text"), tuple(taken)

    def read(text: str) -> str:
        name = read_text(text)
        if name in others:
            message = f"another one is named `{name}`"
            raise BadValueError(message, "give each a name of its own")
        return name

    return read


def counts(least: int, most: int, *, spans: bool = False) -> Read:
    """Takes a whole number, or with `spans` two of them with a hyphen between, the lesser first."""

    def read(text: str) -> str:
        numbers = [part.strip() for part in text.split("-")] if spans else [text.strip()]
        if not 0 < len(numbers) < 3 or not all(re.fullmatch("[0-9]{1,9}", number) for number in numbers):
            message = f"`{text}` is not a whole number"
            raise BadValueError(message, f"write {least} or more" + (", or a span such as `4-6`" if spans else ""))
        found = [int(number) for number in numbers]
        if found[0] < least or found[-1] > most or found != sorted(found):
            message = f"`{text}` is not between {least} and {most}" if len(found) == 1 else f"`{text}` is no span"
            raise BadValueError(message, f"write {least} to {most}" + (", the lesser number first" if spans else ""))
        return "-".join(map(str, found))

    return read


FLAG = word("yes", "no", also={"true": "yes", "false": "no"})


def parts(text: str) -> list[str]:
    """The lengths of a size or place: `24 x 18 x 6`, also with commas between them.

    >>> parts("7 ft 6 in x 7'")
    ['7 ft 6 in', "7'"]
    """
    return _BETWEEN.split(text.strip())


def lengths(kind: str, unit: Unit, names: Sequence[str]) -> Read:
    """Takes as many lengths as there are names for them, and keeps them with an x between them."""
    read_one = value_reader(kind, unit)

    def read(text: str) -> str:
        found = parts(text)
        if len(found) != len(names):
            message = f"`{text}` has {len(found)} length{'s' * (len(found) != 1)}, and {len(names)} are needed"
            raise BadValueError(message, f"write {' x '.join(names)}")
        return " x ".join(read_one(part) for part in found)

    return read


def ring(unit: Unit) -> Read:
    """Takes the corners of a polygon, each `x x y`, with semicolons between them."""
    read_one = lengths("coordinate", unit, ("along", "away"))

    def read(text: str) -> str:
        found = [part for part in text.split(";") if part.strip()]
        if len(found) < 3:
            message = f"`{text}` names {len(found)} corner{'s' * (len(found) != 1)}, and three is the least"
            raise BadValueError(message, "write them with semicolons between them, such as `0 x 0; 3' x 0; 3' x 2'`")
        return "; ".join(read_one(part) for part in found)

    return read
