"""YAML text as plain lists, mappings and texts, with the place of every key and value."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any, TypeAlias

from ruamel.yaml import YAML
from ruamel.yaml.error import YAMLError
from ruamel.yaml.events import (
    AliasEvent,
    DocumentStartEvent,
    Event,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
    StreamEndEvent,
)

from fitter.domain.findings import Finding, Place, ProjectError

# Scalars stay text, so that `0.1` is a tenth and not the nearest binary number. `Any` is one of
# these again: a recursive alias would make every reader of it narrow the type level by level.
Data: TypeAlias = str | list[Any] | dict[str, Any] | None

DEEPEST = 12
"""Levels of nesting; a project file needs five."""
MOST_VALUES = 10_000
"""Far more than anyone writes by hand, and few enough to be read in a second or two."""


@dataclass
class Tree:
    """What a file says, before anything is known about its meaning.

    Args:
        file: the path as the user wrote it.
        data: the top of it.
        places: key path to where its value stands (a block below its key: the key).
        keys: key path to where the key itself stands.
        findings: keys that were written twice.
    """

    file: str
    data: Data = None
    places: dict[str, Place] = field(default_factory=dict)
    keys: dict[str, Place] = field(default_factory=dict)
    findings: list[Finding] = field(default_factory=list)


def read_tree(text: str, file: str) -> Tree:
    """Read YAML 1.2.

    Args:
        text: of the file.
        file: its path, for messages.

    Returns:
        Its keys and values with their places; a key written twice keeps the first value.

    Raises:
        ProjectError: it is no YAML, or uses what a project file never needs.
    """
    tree = Tree(file)
    try:
        _fill(tree, YAML(typ="safe", pure=True).parse(text))
    except YAMLError as error:
        raise ProjectError(file, (_not_yaml(error),)) from None
    except (ArithmeticError, LookupError, ValueError, AttributeError, TypeError, AssertionError) as error:
        # The parser lets a few slips through its own checks, such as an escape beyond all characters.
        finding = Finding("not-yaml", f"this is not YAML: {str(error).lower()}", help=_PLAIN_HELP)
        raise ProjectError(file, (finding,)) from None
    return tree


def _fill(tree: Tree, events: Iterator[Event]) -> None:
    documents = 0
    for event in events:
        if isinstance(event, DocumentStartEvent):
            documents += 1
            if documents > 1:
                message, help = (
                    "a second document begins here",
                    "keep one project in a file, without `---` inside",
                )
                raise _refuse(tree, "several-documents", message, help, event)
        elif isinstance(event, (ScalarEvent, SequenceStartEvent, MappingStartEvent, AliasEvent)):
            tree.data = _value(tree, event, events, "", 0)
        elif isinstance(event, StreamEndEvent):
            return


def _value(tree: Tree, event: Any, events: Iterator[Event], path: str, depth: int) -> Data:
    if isinstance(event, AliasEvent) or getattr(event, "anchor", None):
        mark = "*" if isinstance(event, AliasEvent) else "&"
        message = f"`{mark}{event.anchor}` stands for another part of the file"
        raise _refuse(tree, "alias", message, "write the values out; a text that begins so needs quotes", event)
    if getattr(event, "tag", None):
        message = f"the tag `{event.tag}` has no meaning here"
        raise _refuse(tree, "tag", message, "leave it out; a text that begins with `!` needs quotes", event)
    if len(tree.places) + len(tree.findings) > MOST_VALUES:
        message, help = f"the file holds more than {MOST_VALUES} values", "is this the right file?"
        raise _refuse(tree, "file-huge", message, help, event)
    if depth > DEEPEST:
        message = f"the file nests more than {DEEPEST} levels deep"
        raise _refuse(tree, "too-deep", message, "check the brackets and the indentation", event)
    if isinstance(event, SequenceStartEvent):
        return _sequence(tree, events, path, depth)
    if isinstance(event, MappingStartEvent):
        return _mapping(tree, events, path, depth)
    text = str(event.value)
    empty = event.style is None and text.lower() in ("", "~", "null")
    return None if empty else text


def _sequence(tree: Tree, events: Iterator[Event], path: str, depth: int) -> list[Data]:
    items: list[Data] = []
    for event in events:
        if isinstance(event, SequenceEndEvent):
            break
        here = f"{path}.{len(items)}" if path else str(len(items))
        tree.places[here] = _place(event)
        items.append(_value(tree, event, events, here, depth + 1))
    return items


def _mapping(tree: Tree, events: Iterator[Event], path: str, depth: int) -> dict[str, Data]:
    entries: dict[str, Data] = {}
    for event in events:
        if isinstance(event, MappingEndEvent):
            break
        key = _value(tree, event, events, "", depth + 1) if isinstance(event, ScalarEvent) else None
        if key is None:
            message, help = "a key is missing or is not a plain word", "write `key: value`"
            raise _refuse(tree, "odd-key", message, help, event)
        _entry(tree, entries, str(key), event, events, path, depth)
    return entries


def _entry(
    tree: Tree,
    entries: dict[str, Data],
    key: str,
    mark: Any,
    events: Iterator[Event],
    path: str,
    depth: int,
) -> None:
    """Read the value that follows a key; of a key written twice the first value counts."""
    event = next(events)
    here = f"{path}.{key}" if path else key
    if key in entries:
        first = tree.keys[here].line
        message = f"`{key}` is written twice, first in line {first}"
        finding = Finding("named-twice", message, here, _place(mark), "keep one of the two")
        tree.findings.append(finding)
        _value(Tree(tree.file), event, events, here, depth + 1)
        return
    tree.keys[here] = _place(mark)
    tree.places[here] = _place(event if _beside(mark, event) else mark)
    entries[key] = _value(tree, event, events, here, depth + 1)


def _beside(mark: Any, event: Event) -> bool:
    """Whether a value can be pointed at itself: not empty, and not a block that begins below its key."""
    block = isinstance(event, (SequenceStartEvent, MappingStartEvent)) and not event.flow_style
    empty = isinstance(event, ScalarEvent) and event.style is None and not event.value
    return not block and not empty


def _place(event: Event) -> Place:
    return Place(event.start_mark.line + 1, event.start_mark.column + 1)


def _refuse(tree: Tree, code: str, message: str, help: str, event: Event) -> ProjectError:
    return ProjectError(tree.file, (Finding(code, message, place=_place(event), help=help),))


_PLAIN_HELP = "put a text with special characters in quotes"
_PROBLEMS = (
    (
        r"found character '\\t'",
        "a tab stands where blanks belong",
        "indent with blanks; YAML allows no tabs there",
    ),
    (
        r"mapping values are not allowed",
        "a `:` stands where none can",
        "check the indentation of this line and the one above; put a text that holds `: ` in quotes",
    ),
    (
        r"expected <block end>",
        "this line fits no level of indentation above it",
        "line it up with its neighbours; after a text that begins with a quote nothing may follow",
    ),
    (
        r"expected ',' or '(?P<close>.)'",
        "a `,` or `{close}` is missing after this bracket opens",
        "close the bracket",
    ),
    (r"could not find expected ':'", "a `:` is missing after a key", "write `key: value`"),
    (r"found unexpected end of stream", "a quote is opened and never closed", "close it, or leave out both"),
    (r"found character '(?P<char>.+)' that cannot start", "no value can begin with `{char}`", _PLAIN_HELP),
)


def _not_yaml(error: YAMLError) -> Finding:
    """The parser's complaint in this project's words, at the line that it is about."""
    problem = str(getattr(error, "problem", None) or getattr(error, "reason", None) or "unreadable")
    # An unclosed bracket is noticed at the end of the file; the useful place is where it opened.
    opened = getattr(error, "context_mark", None) if "flow" in str(getattr(error, "context", "")) else None
    mark = opened or getattr(error, "problem_mark", None)
    place = Place(mark.line + 1, mark.column + 1) if mark is not None else None
    for pattern, message, help in _PROBLEMS:
        if found := re.search(pattern, problem):
            return Finding("not-yaml", message.format(**found.groupdict()), place=place, help=help)
    return Finding("not-yaml", f"this is not YAML: {problem}", place=place, help=_PLAIN_HELP)
