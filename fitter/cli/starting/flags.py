"""A sheet filled from flags, and mistakes told in terms of the flag they come from."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from fitter.cli.starting.readers import parts
from fitter.cli.starting.surveying import corner_name
from fitter.domain.findings import Finding, ProjectError
from fitter.project.outline import edge_name

_KEY = re.compile(r"\s*([A-Za-z_-]+)\s*=")
_NEXT_KEY = re.compile(r",(?=\s*[A-Za-z_-]+\s*=)")
_LISTS = ("at", "size", "centre", "back", "measured")
_RING = "corners"
_EXAMPLES = {
    "--side": "AB=16' 4\"",
    "--turn": "B=left",
    "--tie": "AC=19' 9\"",
    "--edge": "AB=wall",
    "--opening": "name=back door,edge=AB,from=2',width=32\",swing=in",
    "--obstacle": "name=drain,centre=7' x 5',radius=3\",height=low",
    "--hole": "name=tree well,at=7' x 4',size=2' x 2'",
    "--route": 'from=back door,to=gate,width=36"',
    "--cushion": 'name=seat,size=24" x 24" x 5",own=6',
    "--rectangle": "16' x 11'",
}
_SECTIONS = {"room.sides": "--side", "room.turns": "--turn", "room.ties": "--tie", "room.edges": "--edge"}


@dataclass(frozen=True)
class Flags:
    """What was given on the command line; texts as typed.

    Args:
        single: key in the file, such as `wish.shape`, to flag and value.
        rectangle: width and depth of a plain rectangle; empty if none.
        sides: `AB=16'`, and so on below; each may be given many times.
        turns: `B=left`.
        ties: `AC=19' 9"`.
        edges: `AB=wall`.
        openings: `name=back door,edge=AB,from=2',width=32"`.
        obstacles: likewise.
        holes: likewise.
        routes: likewise.
        cushions: likewise.
        against: edges, or one of the words for none and any.
    """

    single: Mapping[str, tuple[str, str]] = field(default_factory=dict)
    rectangle: str = ""
    sides: tuple[str, ...] = ()
    turns: tuple[str, ...] = ()
    ties: tuple[str, ...] = ()
    edges: tuple[str, ...] = ()
    openings: tuple[str, ...] = ()
    obstacles: tuple[str, ...] = ()
    holes: tuple[str, ...] = ()
    routes: tuple[str, ...] = ()
    cushions: tuple[str, ...] = ()
    against: tuple[str, ...] = ()

    @property
    def outline(self) -> bool:
        """Whether they describe an outline, so that nothing need be asked."""
        return bool(self.sides or self.rectangle)


@dataclass
class Taken:
    """What flags come to.

    Args:
        data: as the writer of project files takes it.
        given: key in the file to the flag with its value, for messages.
        findings: mistakes of form, in the order of the flags.
    """

    data: dict[str, Any] = field(default_factory=dict)
    given: dict[str, str] = field(default_factory=dict)
    findings: list[Finding] = field(default_factory=list)

    def put(self, key: str, value: Any, given: str) -> None:
        """Set a value at its key, such as `room.tolerance`."""
        *sections, last = key.split(".")
        section = self.data
        for name in sections:
            section = section.setdefault(name, {})
        section[last] = value
        self.given[key] = given

    def refuse(self, given: str, message: str, help: str, key: str = "") -> None:
        """Record a mistake of form."""
        self.findings.append(Finding("bad-flag", f"{given}: {message}", key, help=help))


def taken(flags: Flags) -> Taken:
    """What flags come to; values are not judged here but by the reader of project files."""
    result = Taken()
    for key, (flag, value) in flags.single.items():
        result.put(key, value, f"`{flag} {value}`")
    _seats(result)
    if flags.rectangle:
        _rectangle(result, flags)
    for section, flag in _SECTIONS.items():
        _pairs(result, flag, section, getattr(flags, section.rpartition(".")[2]))
    for flag, key, records in (
        ("--opening", "room.openings", flags.openings),
        ("--obstacle", "room.obstacles", flags.obstacles),
        ("--hole", "room.holes", flags.holes),
        ("--route", "room.routes", flags.routes),
        ("--cushion", "cushions", flags.cushions),
    ):
        _records(result, flag, key, records)
    if flags.against:
        edges: str | list[str] = list(flags.against) if len(flags.against) > 1 else flags.against[0]
        result.put("wish.against", edges, " ".join(f"`--against {edge}`" for edge in flags.against))
    return result


def _seats(result: Taken) -> None:
    """`4` are the fewest; `4-6` the fewest and the most."""
    seats = result.data.get("wish", {}).get("seats")
    least, dash, most = (seats or "").partition("-")
    if seats and least:
        result.data["wish"]["seats"] = {"least": least, **({"most": most} if dash else {})}


def _rectangle(result: Taken, flags: Flags) -> None:
    given, sizes = f"`--rectangle {flags.rectangle}`", parts(flags.rectangle)
    if flags.sides or flags.turns:
        other = "--side" if flags.sides else "--turn"
        result.refuse(given, f"`{other}` is given as well", f"leave out `--rectangle`, or every `{other}`")
    if len(sizes) != 2:
        result.refuse(
            given, "a rectangle has two lengths", f'write for example `--rectangle "{_EXAMPLES["--rectangle"]}"`'
        )
        return
    for side, length in zip(("AB", "BC", "CD", "DA"), sizes * 2, strict=True):
        result.put(f"room.sides.{side}", length, given)
    for corner in "BCDA":
        result.put(f"room.turns.{corner}", "left", given)


def _pairs(result: Taken, flag: str, section: str, texts: Iterable[str]) -> None:
    for text in texts:
        given = f"`{flag} {text}`"
        name, equals, value = (part.strip() for part in text.partition("="))
        key = f"{section}.{name}"
        if not equals or not name or not value:
            result.refuse(given, "a name, `=` and a value belong here", _write(flag))
        elif key in result.given:
            result.refuse(given, f"`{name}` is given twice", f"keep one of the two; the other is {result.given[key]}")
        else:
            result.put(key, value, given)


def _records(result: Taken, flag: str, key: str, texts: tuple[str, ...]) -> None:
    items: list[dict[str, Any]] = []
    for number, text in enumerate(texts):
        item, given = {}, f"`{flag} {text}`"
        for part in _NEXT_KEY.split(text):
            name = _KEY.match(part)
            value = part[name.end() :].strip() if name else ""
            word = name[1].replace("-", "_").lower() if name else ""
            if not value:
                result.refuse(given, f"`{part.strip()}` is not a key, `=` and a value", _write(flag))
            elif word in item:
                result.refuse(given, f"`{word}` is given twice", "keep one of the two")
            else:
                item[word] = _several(word, value)
        result.given[f"{key}.{number}"] = given
        items.append(item)
    if items:
        result.put(key, items, f"`{flag}`")


def _several(word: str, value: str) -> Any:
    """The value of a key of a record: some hold several lengths."""
    if word == _RING:
        return [parts(corner) for corner in value.split(";")]
    return parts(value) if word in _LISTS else value


def _write(flag: str) -> str:
    return f"write for example `{flag} {_EXAMPLES[flag]}`, the part after {flag} in quotes"


def told_of_flags(error: ProjectError, given: Mapping[str, str]) -> ProjectError:
    """The reader's findings, each led by the flag that it comes from.

    Args:
        error: about a file that was made from flags.
        given: key to flag and value.
    """
    told: list[Finding] = []
    for finding in error.findings:
        flag = _flag(finding.key, given)
        message = f"{flag}: {finding.message}" if flag else finding.message
        # One rectangle makes four sides and four turns, and is wrong once.
        if not (flag.startswith("`--rectangle") and any(other.message.startswith(flag) for other in told)):
            told.append(replace(finding, message=message, help=_flagged(finding), place=None))
    return ProjectError(error.file, tuple(told), disagree=error.disagree)


def _flag(key: str, given: Mapping[str, str]) -> str:
    """The flag and value behind a key in the file; a part of the outline that no flag gave is one of its flags."""
    start = key
    while start and start not in given:
        start = start.rpartition(".")[0]
    if start or key not in _SECTIONS:
        return given.get(start, "")
    below = {flag for name, flag in given.items() if name.startswith(f"{key}.")}
    return below.pop() if len(below) == 1 else f"`{_SECTIONS[key]}`"


def _flagged(finding: Finding) -> str:
    """The remedy, as one writes it on a command line."""
    if finding.code in ("not-fixed", "two-outlines"):
        return f"{finding.help}, and give it with `--tie`"
    return f"{finding.help}, with an `x` between them" if finding.code == "wrong-count" else finding.help


def answers(data: Mapping[str, Any]) -> dict[str, str]:
    """The answers of an interview that flags come to, where the rest is asked."""
    found: dict[str, str] = {}
    _flatten(found, "", data)
    return {**found, **dict(_walked(data.get("room", {}).get("sides", {})))}


def _walked(sides: Mapping[str, str]) -> Iterator[tuple[str, str]]:
    """Sides as an interview asks for them, in walking order from A; others than A, B, C and so on are asked again."""
    for k, (name, length) in enumerate(sides.items()):
        closing = name == edge_name(corner_name(k), corner_name(0))
        if name != edge_name(corner_name(k), corner_name(k + 1)) and not (closing and k > 1):
            return
        yield f"room.sides.{k + 1}", f"close {length}" if closing else length


def _flatten(found: dict[str, str], key: str, value: Any) -> None:
    if isinstance(value, str):
        found[key] = value
    elif key == "wish.seats":
        found[key] = "-".join(value.values())
    elif isinstance(value, Mapping):
        for name, inner in value.items():
            _flatten(found, f"{key}.{name}" if key else name, inner)
    elif all(isinstance(part, str) for part in value):
        found[key] = " x ".join(value)
    elif key.endswith(f".{_RING}"):
        found[key] = "; ".join(" x ".join(corner) for corner in value)
    else:
        for number, item in enumerate(value):
            _flatten(found, f"{key}.{number}", item)
