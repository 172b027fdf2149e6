"""Paragraphs for the terminal: broken between words but never within a length, with places at the right end."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from textwrap import wrap

from rich.console import Console

from rooms.survey.wording import listed

_WITHIN = re.compile(r"(?<=\d) (?=\d+/\d)|(?<=\d') (?=\d)|(?<=\d) (?=mm\b)")
_FLAG = re.compile(r"`--[^`]{1,24}`")
_TIE = "\ue000"
"""Stands for a blank within a length or a flag while lines are broken, so that none is."""
_GAP = 2  # columns between a clause and where it is stated
_MOST_NAMED = 8


def beside(text: str, place: str, width: int, hang: str) -> Iterator[str]:
    """A clause with where it is stated at the right end of its first line; further lines hang in."""
    left = width - len(place) - _GAP
    lines = _broken(text, left, hang)
    yield f"{lines[0]:{left}}{' ' * _GAP}{place}"
    yield from lines[1:]


def paragraph(text: str, width: int, hang: str = "", first: str | None = None) -> list[str]:
    """The lines of a text; those after the first hang in, and that one too unless it has a beginning of its own."""
    return _broken(f"{hang if first is None else first}{text}", width, hang)


def some(names: Sequence[str]) -> str:
    """Names as a list in words, those beyond the first few only counted."""
    if len(names) <= _MOST_NAMED + 1:
        return listed(list(names))
    return listed([*names[:_MOST_NAMED], f"{len(names) - _MOST_NAMED} more"])


def show(console: Console, lines: Sequence[str]) -> None:
    """Print lines as they are."""
    console.print("\n".join(lines), soft_wrap=True)


def tied(text: str) -> str:
    """A text in which nothing is left to break a length or a flag at."""
    return _FLAG.sub(lambda flag: flag[0].replace(" ", _TIE), _WITHIN.sub(_TIE, text))


def untied(text: str) -> str:
    """The same with its blanks again."""
    return text.replace(_TIE, " ")


def _broken(text: str, width: int, hang: str) -> list[str]:
    """A text broken into lines; no length and no flag is."""
    lines = wrap(tied(text), width, subsequent_indent=hang, break_on_hyphens=False, drop_whitespace=True)
    return [untied(line) for line in lines]
