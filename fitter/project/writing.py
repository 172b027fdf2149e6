"""A commented starter file: what is known so far in the user's own spelling, and every other key switched off."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping
from typing import Any

from fitter.project.outline import edge_name, split_edge
from fitter.project.tree import Data
from fitter.project.words import shown
from fitter.project.writing_guide import Entry, Section, guide
from fitter.project.writing_yaml import WIDEST, block, flow, is_tall, scalar
from rooms.lengths import Unit

_HEAD = (
    "`fitter measure {file}` closes the tape readings; `fitter fit {file}` finds the seating and draws the plan.",
    "Lengths are written as on the tape, such as 12' 6 1/2\" or 3.81 m. A key behind a `#` is switched off: it shows "
    "what counts without it, or an example; take away the `#` to use it.",
)


def starter_text(data: Mapping[str, Any], file: str, remarks: Mapping[str, str] | None = None) -> str:
    """The text of a starter file.

    Args:
        data: what is known, as `read_tree` would give it: lists, mappings and texts under the keys of a project
            file. Values are written as they are, so a length keeps the spelling it was taped with.
        file: its name, for the first lines.
        remarks: key path, such as `room.ties`, to a sentence that is to stand above that key.

    Returns:
        YAML 1.2; reading it back gives `data`, but for sections that are empty.
    """
    unit = next((unit for unit in Unit if unit == data.get("units")), Unit.IN)
    room = data.get("room") or {}
    sections = guide(unit, _edges(room), tuple(opening["name"] for opening in room.get("openings", ())))
    lines = [line for sentence in _HEAD for line in _prose(sentence.format(file=shown(file)), "")]
    for section in sections:
        lines += ["", *_section(section, data, remarks or {})]
    return "\n".join(lines) + "\n"


def _edges(room: Mapping[str, Any]) -> tuple[str, ...]:
    """The names of the edges as the reader makes them."""
    if "corners" in room:
        names = list(room["corners"])
        return tuple(edge_name(*pair) for pair in zip(names, [*names[1:], *names[:1]], strict=True))
    pairs = (split_edge(name) for name in room.get("sides", ()))
    return tuple(edge_name(*pair) for pair in pairs if pair is not None)


def _section(section: Section, data: Mapping[str, Any], remarks: Mapping[str, str]) -> list[str]:
    inner = data.get(section.key) or {} if section.key else data
    indent = "  " if section.key else ""
    lines = list(_prose(section.says, ""))
    lines += [f"{section.key}:"] if section.key else []
    for entry in section.entries:
        path = f"{section.key}.{entry.key}" if section.key else entry.key
        lines += _entry(entry, inner.get(entry.key), indent, remarks.get(path, ""))
    return lines


def _entry(entry: Entry, value: Data, indent: str, remark: str) -> list[str]:
    prose = [*_prose(entry.says, indent), *_prose(remark, indent)]
    if value not in (None, [], {}):
        return [*prose, *block(entry.key, value, indent)]
    if entry.example is not None:
        return [*prose, *(f"{indent}#{line}" for line in _off(entry.key, entry.example))]
    return prose if remark else []


def _off(key: str, example: Data) -> list[str]:
    """A key switched off: no line begins with a blank, so that those who take away the marks need not indent."""
    short = f"{scalar(key)}: {flow(example)}"
    if isinstance(example, list) and is_tall(example, f"  #{short}"):
        return [f"{scalar(key)}:", *(f"- {flow(item)}" for item in example)]
    return [short]


def _prose(text: str, indent: str) -> Iterator[str]:
    """Comment lines; the blank after the mark sets them apart from a key that is only switched off."""
    for line in text.splitlines():
        start = f"{indent}# "
        more = start + "    " * line.startswith(" ")
        yield from textwrap.wrap(line, WIDEST, initial_indent=start, subsequent_indent=more, break_on_hyphens=False)
