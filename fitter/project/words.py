"""Words and names: the nearest known one, and lists as one says them."""

from __future__ import annotations

import re
from collections.abc import Iterable
from difflib import get_close_matches


def plain(word: str) -> str:
    """A word for comparing: lower case, hyphens and underscores as blanks.

    >>> plain("Inside_post")
    'inside post'
    """
    return re.sub(r"[\s_-]+", " ", word).strip().lower()


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word that a typing mistake most likely meant; None if none is near."""
    table = {plain(name): name for name in reversed(list(known))}
    close = get_close_matches(plain(word), list(table), n=1, cutoff=0.55)
    return table[close[0]] if close else None


def listed(words: Iterable[str], last: str = "or") -> str:
    """Words in quotes, joined as one says them.

    >>> listed(["in", "out", "none"])
    '`in`, `out` or `none`'
    """
    quoted = [f"`{word}`" for word in words]
    return f" {last} ".join([", ".join(quoted[:-1]), quoted[-1]]) if len(quoted) > 1 else "".join(quoted)


def meant(word: str, known: Iterable[str]) -> str:
    """The remedy for an unknown word: the nearest known one, else all of them."""
    words = list(dict.fromkeys(known))
    if (near := nearest(word, words)) is not None:
        return f"did you mean `{near}`?"
    return f"known here: {listed(words, 'and')}" if words else "none is named in this file"


def shown(text: str, most: int = 60) -> str:
    """What was found in the file, short enough to be quoted in a message."""
    clean = "".join(char if char.isprintable() else " " for char in text)
    return clean if len(clean) <= most else f"{clean[: most - 1]}…"
