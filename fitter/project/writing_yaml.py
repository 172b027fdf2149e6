"""Plain lists, mappings and texts as YAML lines that people like to edit; the reverse of `read_tree`."""

from __future__ import annotations

import json
import re
from typing import Any

from fitter.project.tree import Data

WIDEST = 100
"""Columns; longer entries are broken over several lines."""

# A text that begins like this and holds none of the rest means itself in YAML, also inside brackets.
_PLAIN = re.compile(r"(?:[^\W_]|[-+.](?=\d))[^,\[\]{}:#\n\t&*!|>%@`\\]*")
_EMPTY = ("null", "~")


def scalar(text: str) -> str:
    r"""A text as YAML writes it: plain where that is safe, else in double quotes.

    >>> print(scalar('12\' 6 1/2"'), scalar("a: b"), scalar(""), scalar("Null"))
    12' 6 1/2" "a: b" "" "Null"
    """
    plain = _PLAIN.fullmatch(text) and text.isprintable() and text == text.strip() and text.lower() not in _EMPTY
    return text if plain else json.dumps(text, ensure_ascii=not text.isprintable())


def flow(data: Data) -> str:
    """A value in one line.

    >>> print(flow({"name": "gate", "at": ["3'", "1, 2"]}))
    {name: gate, at: [3', "1, 2"]}
    """
    if isinstance(data, dict):
        return "{" + ", ".join(f"{scalar(key)}: {flow(value)}" for key, value in data.items()) + "}"
    if isinstance(data, list):
        return "[" + ", ".join(flow(value) for value in data) + "]"
    return "" if data is None else scalar(data)


def block(key: str, data: Data, indent: str = "") -> list[str]:
    """A key with its value, in one line where that is short enough; each entry of a list has one of its own.

    Args:
        key: as the file spells it.
        data: its value.
        indent: blanks before the key.
    """
    short = f"{indent}{scalar(key)}: {flow(data)}".rstrip()
    if isinstance(data, list) and is_tall(data, short):
        return [f"{indent}{scalar(key)}:", *(line for item in data for line in _item(item, indent + "  "))]
    if not isinstance(data, dict) or not data or len(short) <= WIDEST:
        return [short]
    inner = (line for name, value in data.items() for line in block(name, value, indent + "  "))
    return [f"{indent}{scalar(key)}:", *inner]


def is_tall(data: list[Data], short: str) -> bool:
    """Whether each entry of a list is to have a line of its own, given the list in one line."""
    return any(isinstance(item, dict) for item in data) or (bool(data) and len(short) > WIDEST)


def _item(item: Any, indent: str) -> list[str]:
    short = f"{indent}- {flow(item)}"
    if len(short) <= WIDEST or not isinstance(item, dict):
        return [short]
    lines = [line for name, value in item.items() for line in block(name, value, indent + "  ")]
    return [f"{indent}- {lines[0].lstrip()}", *lines[1:]]
